#include "sim/stock/keyframes.h"

#include <algorithm>
#include <cassert>

namespace firstoff {

namespace {

std::size_t bytesOf(const Chunk& chunk, const Chunk* before) {
    return chunk.bytes() + (!before || before->inner != chunk.inner ? sizeof(Surface) : 0);
}

// Kinds keep their place in the list from frame to frame as long as the chunk does not become round between them.
std::size_t bytesOf(const Sectors& sectors, const Sectors* before) {
    std::size_t bytes = sizeof(Sectors) + sectors.kindOf.size() * sizeof(std::uint16_t) +
                        sectors.kinds.size() * (sizeof(std::shared_ptr<Chunk>) + sizeof(ChunkBounds));
    for (std::size_t k = 0; k < sectors.kinds.size(); ++k) {
        const Chunk* was = before && k < before->kinds.size() ? before->kinds[k].get() : nullptr;
        if (was == sectors.kinds[k].get()) continue;
        const Chunk* like = was ? was : sectors.kinds.front().get();
        bytes += k == 0 ? bytesOf(*sectors.kinds[k], was) : bytesOf(*sectors.kinds[k], like);
    }
    return bytes;
}

}  // namespace

// What a frame holds and the one before it does not. A chunk is only ever shared by frames that follow one another,
// and by neighbouring places of a bar that nothing has touched yet.
std::size_t Keyframes::ownBytes(std::size_t frame) const {
    const Billet& billet = frames_[frame].billet;
    const Billet* before = frame > 0 ? &frames_[frame - 1].billet : nullptr;
    const int chunks = billet.grid().chunks();
    std::size_t bytes = static_cast<std::size_t>(chunks) * (2 * sizeof(std::shared_ptr<Chunk>) + sizeof(ChunkBounds));
    for (int c = 0; c < chunks; ++c) {
        const Chunk& chunk = billet.chunk(c);
        if (before && before->chunkRef(c) == billet.chunkRef(c)) continue;
        if (c > 0 && billet.chunkRef(c - 1) == billet.chunkRef(c)) continue;  // untouched bar
        bytes += bytesOf(chunk, before ? &before->chunk(c) : nullptr);
    }
    for (int c = 0; c < chunks; ++c) {
        const Sectors* sectors = billet.sectorsRef(c).get();
        const Sectors* was = before ? before->sectorsRef(c).get() : nullptr;
        if (sectors && sectors != was) bytes += bytesOf(*sectors, was);
    }
    return bytes;
}

bool Keyframes::add(std::uint32_t move, bool threaded, const Billet& billet) {
    assert(frames_.empty() || frames_.back().move < move);
    frames_.push_back({move, threaded, billet});
    bytes_ += ownBytes(frames_.size() - 1);
    bool dropped = false;
    while (bytes_ > budget_ && frames_.size() > 2) {
        dropEveryOther();
        dropped = true;
    }
    return dropped;
}

void Keyframes::dropEveryOther() {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < frames_.size(); i += 2) {
        if (i != kept) frames_[kept] = std::move(frames_[i]);
        ++kept;
    }
    frames_.erase(frames_.begin() + static_cast<std::ptrdiff_t>(kept), frames_.end());
    bytes_ = 0;
    for (std::size_t i = 0; i < frames_.size(); ++i) bytes_ += ownBytes(i);
}

const Keyframes::Frame& Keyframes::at(std::uint32_t move) const {
    const auto after = std::upper_bound(frames_.begin(), frames_.end(), move,
                                        [](std::uint32_t m, const Frame& frame) { return m < frame.move; });
    assert(after != frames_.begin());
    return *(after - 1);
}

const Keyframes::Frame& Keyframes::withoutThreadsAt(std::uint32_t move) const {
    constexpr std::uint32_t kFar = 4096;  // moves; a few ms of cutting
    const Frame& nearest = at(move);
    if (!nearest.threaded) return nearest;
    const auto threaded =
        std::partition_point(frames_.begin(), frames_.end(), [](const Frame& f) { return !f.threaded; });
    if (threaded == frames_.begin()) return nearest;
    const Frame& before = *(threaded - 1);
    return move - before.move <= kFar ? before : nearest;
}

}  // namespace firstoff
