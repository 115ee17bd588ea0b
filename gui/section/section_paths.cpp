#include "gui/section/section_paths.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace firstoff::gui {

namespace {

PathLine shifted(const TimedMove& timed, Point by) {
    PathLine line;
    line.from = timed.from + by;
    line.to = timed.to + by;
    line.motion = classOf(timed.kind);
    if (!isArc(timed.kind)) return line;
    line.centre = timed.centre + by;
    line.radius = distance(line.from, line.centre);
    line.clockwise = timed.kind == MoveKind::ArcClockwise;
    return line;
}

// The contour beside the way of the nose's centre, a nose radius away on the side of the work.
//
// Straight: shifted square to its direction. Arcs keep their centre; the radius grows or shrinks by the nose. Where it
// shrinks to nothing the nose rolls round a corner of the contour: no line.
std::optional<PathLine> besideCentre(PathLine line, double nose, Compensation side) {
    const double toRight = side == Compensation::Left ? nose : -nose;
    line.of = PathLine::Of::Programmed;
    if (line.radius == 0) {
        const Point d = line.to - line.from;
        if (length(d) == 0) return std::nullopt;
        const Point square = (-toRight / length(d)) * leftOf(d);
        line.from = line.from + square;
        line.to = line.to + square;
        return line;
    }
    const double radius = line.radius + (line.clockwise ? -toRight : toRight);
    constexpr double kCorner = 1e-6;
    if (radius < kCorner) return std::nullopt;
    const double share = radius / line.radius;
    line.from = line.centre + share * (line.from - line.centre);
    line.to = line.centre + share * (line.to - line.centre);
    line.radius = radius;
    return line;
}

// The radius that compensation reckons with, which the offset page may say otherwise than the tool.
double noseRadiusOf(const Trial& trial, const ToolCall& call) {
    const Offset* offset = trial.setup.offset(call.offset);
    if (offset != nullptr && offset->noseRadius) return *offset->noseRadius;
    return call.toolIndex < 0 ? 0 : trial.setup.tools[static_cast<std::size_t>(call.toolIndex)].noseRadius;
}

// One move with its fellows: the block that the instant shows, its cycle, and the tool.
class Way {
public:
    Way(const Trial& trial, const Instant& now) : trial_(trial), now_(now) {
        const Timeline& timeline = trial.timeline;
        const Move& move = moveOf(now.timed);
        first_ = now.timed;
        while (first_ > 0 && sameTool(first_ - 1, move)) --first_;
        end_ = now.timed + 1;
        while (end_ < timeline.moves.size() && sameTool(end_, move)) ++end_;
    }

    SectionPaths run(std::size_t most) {
        SectionPaths out;
        const std::size_t half = most / 2;
        const std::size_t first = std::max(first_, now_.timed > half ? now_.timed - half : std::size_t{0});
        const std::size_t end = std::min(end_, now_.timed + half);
        out.cutShort = first > first_ || end < end_;
        for (std::size_t i = first; i < end; ++i) add(i, out.lines);
        return out;
    }

private:
    const Move& moveOf(std::size_t timed) const { return trial_.toolpath.moves[trial_.timeline.moves[timed].move]; }
    bool sameTool(std::size_t timed, const Move& move) const {
        return trial_.timeline.moves[timed].kind != MoveKind::Index && moveOf(timed).call == move.call;
    }

    void add(std::size_t i, std::vector<PathLine>& lines) const {
        const TimedMove& timed = trial_.timeline.moves[i];
        if (timed.from == timed.to && !isArc(timed.kind)) return;
        const Move& move = moveOf(i);
        const ToolCall& call = trial_.toolpath.calls[move.call];
        const auto finish = [&](PathLine line) {
            line.timed = static_cast<std::uint32_t>(i);
            line.lit = trial_.shownBlock(timed.move) == now_.block ||
                       (move.cycleBlock != kNoBlock && move.cycleBlock == now_.block);
            lines.push_back(line);
        };
        finish(shifted(timed, call.tip));
        const double nose = noseRadiusOf(trial_, call);
        if (call.toolIndex < 0 || move.compensation == Compensation::Off || nose <= 0) return;
        const Offset* offset = trial_.setup.offset(call.offset);
        const Tool& tool = trial_.setup.tools[static_cast<std::size_t>(call.toolIndex)];
        const int tipNumber = offset != nullptr && offset->tipNumber ? *offset->tipNumber : tool.tipNumber;
        PathLine centre = shifted(timed, call.tip - nose * tipFromNoseCentre(tipNumber));
        centre.of = PathLine::Of::NoseCentre;
        finish(centre);
        // While compensation comes in, the nose is not on the contour yet.
        const bool startsUp =
            timed.move == 0 || trial_.toolpath.moves[timed.move - 1].compensation != move.compensation;
        if (startsUp || classOf(timed.kind) != MotionClass::Cutting) return;
        if (const auto contour = besideCentre(centre, nose, move.compensation)) finish(*contour);
    }

    const Trial& trial_;
    const Instant& now_;
    std::size_t first_ = 0, end_ = 0;
};

}  // namespace

SectionPaths sectionPaths(const Trial& trial, const Instant& instant, std::size_t most) {
    if (!instant.hasMoves) return {};
    return Way(trial, instant).run(most);
}

std::vector<Point> alongLine(const PathLine& line, double chordErrorMm) {
    if (line.radius == 0) return {line.from, line.to};
    const Point a = line.from - line.centre, b = line.to - line.centre;
    double turn = std::atan2(cross(a, b), dot(a, b));
    const double whole = 2 * std::numbers::pi;
    if (line.clockwise && turn >= 0) turn -= whole;
    if (!line.clockwise && turn <= 0) turn += whole;
    const double sag = std::clamp(chordErrorMm / line.radius, 1e-6, 0.5);
    const auto parts = static_cast<int>(std::clamp(std::ceil(std::abs(turn) / (2 * std::acos(1 - sag))), 1.0, 720.0));
    std::vector<Point> points{line.from};
    for (int i = 1; i < parts; ++i) {
        const double t = turn * i / parts, c = std::cos(t), s = std::sin(t);
        points.push_back(line.centre + Point{a.z * c - a.r * s, a.z * s + a.r * c});
    }
    points.push_back(line.to);
    return points;
}

}  // namespace firstoff::gui
