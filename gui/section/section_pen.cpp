#include "gui/section/section_pen.h"

#include <array>
#include <cmath>
#include <span>

namespace firstoff::gui {

namespace {

constexpr std::array<float, 2> kDashed{6, 4};
constexpr std::array<float, 4> kChain{14, 3, 2, 3};
constexpr std::array<float, 6> kDoubleChain{14, 3, 2, 3, 2, 3};

// Dash, gap, dash, gap …, in measures at scale 1.
std::span<const float> pattern(LineKind kind) {
    switch (kind) {
        case LineKind::Dashed:
            return kDashed;
        case LineKind::Chain:
            return kChain;
        case LineKind::DoubleChain:
            return kDoubleChain;
        case LineKind::Continuous:
            break;
    }
    return {};
}

bool near(const ImVec2& p) {
    // Beyond this nothing is on any screen, and dashes would be counted without end.
    constexpr float kFar = 2e4f;
    return std::abs(p.x) < kFar && std::abs(p.y) < kFar;
}

void drawDashes(ImDrawList& list, const std::vector<ImVec2>& points, const Pen& pen, float scale) {
    const std::span<const float> dashes = pattern(pen.kind);
    std::size_t at = 0;
    float left = dashes[0] * scale;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        ImVec2 from = points[i];
        const ImVec2 to = points[i + 1];
        float way = std::hypot(to.x - from.x, to.y - from.y);
        if (way <= 0 || !near(from) || !near(to)) continue;
        const ImVec2 unit{(to.x - from.x) / way, (to.y - from.y) / way};
        while (way > 0) {
            const float part = std::min(left, way);
            const ImVec2 end{from.x + unit.x * part, from.y + unit.y * part};
            if (at % 2 == 0) list.AddLine(from, end, pen.colour, pen.width);
            from = end;
            way -= part;
            left -= part;
            if (left > 0) continue;
            at = (at + 1) % dashes.size();
            left = dashes[at] * scale;
        }
    }
}

}  // namespace

void drawLine(ImDrawList& list, const std::vector<ImVec2>& points, const Pen& pen, float scale, bool closed) {
    if (points.size() < 2) return;
    if (pen.kind == LineKind::Continuous) {
        list.AddPolyline(points.data(), static_cast<int>(points.size()), pen.colour,
                         closed ? ImDrawFlags_Closed : ImDrawFlags_None, pen.width);
        return;
    }
    if (!closed) return drawDashes(list, points, pen, scale);
    std::vector<ImVec2> round = points;
    round.push_back(points.front());
    drawDashes(list, round, pen, scale);
}

void drawArrow(ImDrawList& list, ImVec2 tip, ImVec2 direction, float length, ImU32 colour) {
    const float half = 0.27f * length;
    const ImVec2 back{tip.x - direction.x * length, tip.y - direction.y * length};
    list.AddTriangleFilled(tip, {back.x - direction.y * half, back.y + direction.x * half},
                           {back.x + direction.y * half, back.y - direction.x * half}, colour);
}

}  // namespace firstoff::gui
