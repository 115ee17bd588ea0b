#include "gui/repaint_plan.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

namespace firstoff::gui {

namespace {

// The finalizer of SplitMix64 (S. Vigna, public domain): every bit of the value counts for every bit of the result.
std::uint64_t mixed(std::uint64_t value) {
    value = (value ^ (value >> 30)) * 0xbf58476d1ce4e5b9U;
    value = (value ^ (value >> 27)) * 0x94d049bb133111ebU;
    return value ^ (value >> 31);
}

// In this order.
std::uint64_t joined(std::uint64_t hash, std::uint64_t next) {
    return (hash ^ next) * 0x9e3779b97f4a7c15U + (hash >> 29);
}

std::uint64_t hashOf(const ImDrawVert& vertex) {
    std::uint64_t place = 0, texel = 0;
    static_assert(sizeof(vertex.pos) == sizeof place && sizeof(vertex.uv) == sizeof texel);
    std::memcpy(&place, &vertex.pos, sizeof place);
    std::memcpy(&texel, &vertex.uv, sizeof texel);
    return mixed(joined(joined(place * 3, texel), vertex.col));
}

std::uint64_t hashOf(const ImDrawCmd& command) {
    std::uint64_t clip[2];
    static_assert(sizeof(command.ClipRect) == sizeof clip);
    std::memcpy(clip, &command.ClipRect, sizeof clip);
    const auto texture = static_cast<std::uint64_t>(reinterpret_cast<std::uintptr_t>(command.TextureId));
    return mixed(joined(joined(clip[0], clip[1]), texture));
}

bool over(const PixelArea& a, const PixelArea& b) {
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

PixelArea bothOf(const PixelArea& a, const PixelArea& b) {
    return {std::min(a.left, b.left), std::min(a.top, b.top), std::max(a.right, b.right), std::max(a.bottom, b.bottom)};
}

long sizeOf(const PixelArea& a) {
    return static_cast<long>(a.right - a.left) * (a.bottom - a.top);
}

}  // namespace

const std::vector<PixelArea>& RepaintPlan::cutDown(ImDrawData& data, std::span<const ImTextureID> fresh) {
    const auto width = static_cast<int>(data.DisplaySize.x), height = static_cast<int>(data.DisplaySize.y);
    if (width != width_ || height != height_) {
        width_ = width;
        height_ = height;
        across_ = (width + kTile - 1) / kTile;
        down_ = (height + kTile - 1) / kTile;
        forget();
    }
    look(data, fresh);
    findAreas();
    joinAreas();
    for (PixelArea& area : areas_) area = pixels(area);
    std::size_t triangle = 0;
    data.TotalIdxCount = 0;
    for (int i = 0; i < data.CmdListsCount; ++i) {
        ImDrawList& list = *data.CmdLists[i];
        std::size_t all = 0;
        for (const ImDrawCmd& command : list.CmdBuffer) all += command.ElemCount / 3;
        cutDown(list, triangle);
        triangle += all;
        data.TotalIdxCount += list.IdxBuffer.Size;
    }
    return areas_;
}

void RepaintPlan::look(const ImDrawData& data, std::span<const ImTextureID> fresh) {
    ++frame_;
    tiles_.assign(static_cast<std::size_t>(across_) * down_, 0);
    triangles_.clear();
    for (int i = 0; i < data.CmdListsCount; ++i) {
        const ImDrawList& list = *data.CmdLists[i];
        vertices_.resize(static_cast<std::size_t>(list.VtxBuffer.Size));
        for (std::size_t v = 0; v < vertices_.size(); ++v) vertices_[v] = hashOf(list.VtxBuffer[static_cast<int>(v)]);
        for (const ImDrawCmd& command : list.CmdBuffer) {
            std::uint64_t seed = hashOf(command);
            if (std::find(fresh.begin(), fresh.end(), command.TextureId) != fresh.end()) seed ^= mixed(frame_);
            look(list, command, seed);
        }
    }
}

void RepaintPlan::look(const ImDrawList& list, const ImDrawCmd& command, std::uint64_t seed) {
    const ImVec4& clip = command.ClipRect;
    const float right = std::min(clip.z, static_cast<float>(width_)),
                bottom = std::min(clip.w, static_cast<float>(height_));
    for (unsigned i = 0; i + 2 < command.ElemCount; i += 3) {
        const int at = static_cast<int>(command.IdxOffset + i);
        std::uint64_t hash = seed;
        Triangle t{std::numeric_limits<float>::max(), std::numeric_limits<float>::max(), 0, 0};
        for (int corner = 0; corner < 3; ++corner) {
            const auto v = static_cast<int>(list.IdxBuffer[at + corner] + command.VtxOffset);
            const ImVec2& p = list.VtxBuffer[v].pos;
            hash = joined(hash, vertices_[static_cast<std::size_t>(v)]);
            t = {std::min(t.left, p.x), std::min(t.top, p.y), std::max(t.right, p.x), std::max(t.bottom, p.y)};
        }
        t = {std::floor(std::max({t.left, clip.x, 0.0f})), std::floor(std::max({t.top, clip.y, 0.0f})),
             std::ceil(std::min(t.right, right)), std::ceil(std::min(t.bottom, bottom))};
        triangles_.push_back(t);
        // Not negated, so that coordinates that are no numbers are out as well.
        if (!(t.left < t.right && t.top < t.bottom)) continue;
        const int x1 = (static_cast<int>(t.right) - 1) / kTile, y1 = (static_cast<int>(t.bottom) - 1) / kTile;
        for (int y = static_cast<int>(t.top) / kTile; y <= y1; ++y) {
            for (int x = static_cast<int>(t.left) / kTile; x <= x1; ++x) {
                std::uint64_t& tile = tiles_[static_cast<std::size_t>(y) * across_ + x];
                tile = joined(tile, hash);
            }
        }
    }
}

// In tiles: runs along the rows, those that stand beneath each other in one.
void RepaintPlan::findAreas() {
    areas_.clear();
    const bool all = before_.size() != tiles_.size();
    std::vector<std::size_t> above, row;
    for (int y = 0; y < down_; ++y) {
        row.clear();
        for (int x = 0; x < across_; ++x) {
            const auto changed = [&](int place) {
                const std::size_t tile = static_cast<std::size_t>(y) * across_ + place;
                return all || tiles_[tile] != before_[tile];
            };
            if (!changed(x)) continue;
            const int from = x;
            while (x + 1 < across_ && changed(x + 1)) ++x;
            const auto same = std::find_if(above.begin(), above.end(), [&](std::size_t a) {
                return areas_[a].left == from && areas_[a].right == x + 1;
            });
            if (same != above.end()) {
                areas_[*same].bottom = y + 1;
                row.push_back(*same);
            } else {
                row.push_back(areas_.size());
                areas_.push_back({from, y, x + 1, y + 1});
            }
        }
        std::swap(above, row);
    }
    before_ = tiles_;
}

// Few enough, and none over another: what blends must be drawn once.
void RepaintPlan::joinAreas() {
    const auto join = [this](std::size_t a, std::size_t b) {
        areas_[a] = bothOf(areas_[a], areas_[b]);
        areas_.erase(areas_.begin() + static_cast<std::ptrdiff_t>(b));
        for (std::size_t i = 0; i < areas_.size();) {
            if (i == a || !over(areas_[a], areas_[i])) {
                ++i;
                continue;
            }
            areas_[a] = bothOf(areas_[a], areas_[i]);
            areas_.erase(areas_.begin() + static_cast<std::ptrdiff_t>(i));
            if (i < a) --a;
            i = 0;  // what it has grown over
        }
    };
    while (areas_.size() > kMostAreas) {
        // Neighbours in the order of the rows, the pair that adds the fewest tiles.
        std::size_t best = 0;
        long least = std::numeric_limits<long>::max();
        for (std::size_t i = 0; i + 1 < areas_.size(); ++i) {
            const long added = sizeOf(bothOf(areas_[i], areas_[i + 1])) - sizeOf(areas_[i]) - sizeOf(areas_[i + 1]);
            if (added >= least) continue;
            least = added;
            best = i;
        }
        join(best, best + 1);
    }
}

PixelArea RepaintPlan::pixels(const PixelArea& tiles) const {
    return {tiles.left * kTile, tiles.top * kTile, std::min(tiles.right * kTile, width_),
            std::min(tiles.bottom * kTile, height_)};
}

void RepaintPlan::cutDown(ImDrawList& list, std::size_t firstTriangle) {
    ImVector<ImDrawIdx> indices;
    ImVector<ImDrawCmd> commands;
    for (const PixelArea& area : areas_) {
        const Triangle a{static_cast<float>(area.left), static_cast<float>(area.top), static_cast<float>(area.right),
                         static_cast<float>(area.bottom)};
        std::size_t triangle = firstTriangle;
        for (const ImDrawCmd& command : list.CmdBuffer) {
            const ImVec4& c = command.ClipRect;
            ImDrawCmd part = command;
            part.ClipRect = {std::max(c.x, a.left), std::max(c.y, a.top), std::min(c.z, a.right),
                             std::min(c.w, a.bottom)};
            part.IdxOffset = static_cast<unsigned>(indices.Size);
            const bool seen = part.ClipRect.x < part.ClipRect.z && part.ClipRect.y < part.ClipRect.w;
            for (unsigned i = 0; seen && i + 2 < command.ElemCount; i += 3) {
                const Triangle& t = triangles_[triangle + i / 3];
                if (!(t.left < a.right && a.left < t.right && t.top < a.bottom && a.top < t.bottom)) continue;
                for (unsigned corner = 0; corner < 3; ++corner)
                    indices.push_back(list.IdxBuffer[static_cast<int>(command.IdxOffset + i + corner)]);
            }
            triangle += command.ElemCount / 3;
            part.ElemCount = static_cast<unsigned>(indices.Size) - part.IdxOffset;
            if (part.ElemCount > 0) commands.push_back(part);
        }
    }
    list.IdxBuffer.swap(indices);
    list.CmdBuffer.swap(commands);
}

}  // namespace firstoff::gui
