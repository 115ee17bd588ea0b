#include "sim/trial/turned_surfaces.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/motion/move_turns.h"

namespace firstoff {

namespace {

// A column lies on the way of a tool's nose if it is within this of it: rounding, and what an arc of the control may be
// out of round.
constexpr double kOnTheWayMm = 1e-5;

// Where a surface turns by more than this from one column to the next, another begins, rad.
constexpr double kCorner = 0.1;

// Where a tool of some outline leaves its mark when it runs along a path: on lines or circles beside the path.
struct Way {
    bool straight = true;
    Point at, along;  // straight: a point and the direction
    Point centre;     // arcs
    double radius = 0;

    double off(Point p) const {
        return straight ? std::abs(cross(along, p - at)) : std::abs(distance(p, centre) - radius);
    }
};

struct Extreme {
    Point point;
    double far = -std::numeric_limits<double>::infinity();
};

// The point of an outline that lies furthest in a direction.
Extreme extremeOf(const Outline& outline, Point direction) {
    Extreme extreme;
    const auto take = [&](Point p) {
        if (dot(p, direction) > extreme.far) extreme = {p, dot(p, direction)};
    };
    for (const OutlineElement& e : outline.elements) {
        take(e.from);
        if (e.radius == 0) continue;
        const Point p = e.centre + e.radius * direction;
        if (cross(e.to - e.from, p - e.from) <= 0) take(p);
    }
    return extreme;
}

class LeftByBlock {
public:
    LeftByBlock(const Trial& trial, const WorkPiece& work, BlockId block) : trial_(trial), work_(work) {
        for (const MoveRange& range : movesOf(trial, block)) {
            for (std::uint32_t i = range.first; i < std::min(range.end, work.moves); ++i) addMove(i);
        }
    }

    std::vector<SurfaceSpan> run() {
        if (moves_.empty()) return {};
        for (auto side : {SurfaceSpan::Side::Outer, SurfaceSpan::Side::Inner}) addRuns(side);
        for (const Marked& move : moves_) addFaces(move);
        const auto frontZ = [](const SurfaceSpan& span) { return span.isFace() ? span.z : span.to; };
        std::stable_sort(spans_.begin(), spans_.end(),
                         [&](const SurfaceSpan& a, const SurfaceSpan& b) { return frontZ(a) > frontZ(b); });
        return std::move(spans_);
    }

private:
    struct Marked {
        CutId cut = 0;
        double centreHeight = 0;
        std::vector<Way> ways;
        // Upright paths: planes in which a face may stand, by the side of the tool that left them.
        double frontZ = 0, backZ = 0, rFrom = 0, rTo = 0;
        bool upright = false;
    };

    void addMove(std::uint32_t index) {
        const TimedMove& timed = trial_.timeline.moves[index];
        const Move& move = trial_.toolpath.moves[timed.move];
        const ToolCall& call = trial_.toolpath.calls[move.call];
        if (call.toolIndex < 0 || MoveTurns(timed, trial_.toolpath, trial_.setup).total() <= 0) return;
        const Tool& tool = trial_.setup.tools[static_cast<std::size_t>(call.toolIndex)];
        Marked marked;
        marked.cut = index;
        marked.centreHeight = tool.centreHeight;
        addWays(timed, call.tip, tool.cutting, marked);
        for (const Outline& step : tool.steps) addWays(timed, call.tip, step, marked);
        moves_.push_back(std::move(marked));
    }

    static void addWays(const TimedMove& timed, Point tip, const Outline& outline, Marked& marked) {
        if (outline.empty()) return;
        if (timed.kind != MoveKind::Feed) {
            const double radius = (distance(timed.centre, timed.from) + distance(timed.centre, timed.to)) / 2;
            for (const OutlineElement& e : outline.elements) {
                const Point centre = timed.centre + tip + (e.radius > 0 ? e.centre : e.from);
                marked.ways.push_back({false, {}, {}, centre, radius + e.radius});
                marked.ways.push_back({false, {}, {}, centre, std::abs(radius - e.radius)});
            }
            return;
        }
        const Point way = timed.to - timed.from;
        const Point along = (1 / length(way)) * way;
        for (Point side : {leftOf(along), -leftOf(along)}) {
            const Extreme extreme = extremeOf(outline, side);
            marked.ways.push_back({true, timed.from + tip + extreme.point, along, {}, 0});
        }
        if (std::abs(along.z) > 1e-9) return;
        marked.upright = true;
        const Extreme left = extremeOf(outline, {-1, 0});
        const Extreme right = extremeOf(outline, {1, 0});
        marked.frontZ = timed.from.z + tip.z + left.point.z;
        marked.backZ = timed.from.z + tip.z + right.point.z;
        const double r = tip.r + left.point.r;
        marked.rFrom = std::max(0.0, std::min(timed.from.r, timed.to.r) + r);
        marked.rTo = std::max(timed.from.r, timed.to.r) + r;
    }

    const Marked* markedBy(CutId cut) const {
        const auto at =
            std::lower_bound(moves_.begin(), moves_.end(), cut, [](const Marked& m, CutId c) { return m.cut < c; });
        return at != moves_.end() && at->cut == cut ? &*at : nullptr;
    }

    // Radius of a column's surface if a move of the block left it and it lies on that move's way.
    std::optional<double> markedRadius(SurfaceSpan::Side side, int column) {
        if (!work_.isIn(column)) return std::nullopt;
        work_.billet.intervals(column, solids_);
        if (solids_.empty()) return std::nullopt;
        const bool outer = side == SurfaceSpan::Side::Outer;
        const Marked* marked = markedBy(outer ? solids_.back().outerCut : solids_.front().innerCut);
        if (!marked) return std::nullopt;
        const double r = outer ? solids_.back().outer : solids_.front().inner;
        const double x = std::sqrt(std::max(0.0, r * r - marked->centreHeight * marked->centreHeight));
        const Point p{work_.billet.grid().z(column), x};
        const bool onTheWay = std::any_of(marked->ways.begin(), marked->ways.end(),
                                          [&](const Way& way) { return way.off(p) <= kOnTheWayMm; });
        return onTheWay ? std::optional(r) : std::nullopt;
    }

    // Stretches without a corner.
    void addRuns(SurfaceSpan::Side side) {
        const Grid& grid = work_.billet.grid();
        int first = 0;  // of the stretch; none if after the column before
        double before = 0, slope = 0;
        for (int column = 0; column <= grid.columns; ++column) {
            const std::optional<double> r = column < grid.columns ? markedRadius(side, column) : std::nullopt;
            const double slopeNow = std::atan2(r.value_or(before) - before, grid.pitch);
            const bool corner = column - first > 1 && std::abs(slopeNow - slope) > kCorner;
            if (!r || corner) {
                addRun(side, first, column - 1);
                first = r ? column : column + 1;
            }
            before = r.value_or(0);
            slope = slopeNow;
        }
    }

    void addRun(SurfaceSpan::Side side, int first, int last) {
        const Grid& grid = work_.billet.grid();
        if (last > first && grid.z(last) - grid.z(first) >= kShortestMm) {
            spans_.push_back({side, grid.z(first), grid.z(last), 0});
        }
    }

    void addFaces(const Marked& move) {
        if (!move.upright) return;
        const Grid& grid = work_.billet.grid();
        for (bool front : {true, false}) {
            const double z = front ? move.frontZ : move.backZ;
            const int border = static_cast<int>(std::lround((z - grid.z0) / grid.pitch));
            const int metal = front ? border - 1 : border;
            const int none = front ? border : border - 1;
            if (metal < 0 || metal >= grid.columns || !work_.isIn(metal)) continue;
            std::vector<Interval> solid, beside;
            work_.billet.intervals(metal, solid);
            if (none >= 0 && none < grid.columns) work_.billet.intervals(none, beside);
            for (const Interval& s : solid) {
                double from = std::max(s.inner, move.rFrom);
                const double to = std::min(s.outer, move.rTo);
                for (const Interval& b : beside) {
                    if (b.outer <= from) continue;
                    addFace(front, z, from, std::min(to, b.inner));
                    from = b.outer;
                }
                addFace(front, z, from, to);
            }
        }
    }

    void addFace(bool front, double z, double from, double to) {
        if (to - from < kShortestMm) return;
        const SurfaceSpan span{front ? SurfaceSpan::Side::FrontFace : SurfaceSpan::Side::BackFace, from, to, z};
        const bool known = std::any_of(spans_.begin(), spans_.end(), [&](const SurfaceSpan& s) {
            return s.side == span.side && std::abs(s.z - z) < work_.billet.grid().pitch && s.from <= from && s.to >= to;
        });
        if (!known) spans_.push_back(span);
    }

    const Trial& trial_;
    const WorkPiece& work_;
    std::vector<Marked> moves_;  // in order
    std::vector<SurfaceSpan> spans_;
    std::vector<Interval> solids_;
};

}  // namespace

bool WorkPiece::isIn(int column) const {
    std::vector<Interval> here, there;
    if (column < 0 || column >= billet.grid().columns) return false;
    billet.intervals(column, here);
    if (!without) return !here.empty();
    without->intervals(column, there);
    return here.size() != there.size();
}

bool WorkPiece::isIn(const SurfaceSpan& span) const {
    const Grid& grid = billet.grid();
    if (!span.isFace()) return isIn(grid.columnNear((span.from + span.to) / 2));
    const bool front = span.side == SurfaceSpan::Side::FrontFace;
    return isIn(grid.columnNear(span.z + (front ? -2 : 2) * grid.pitch));
}

std::vector<WorkPiece> piecesAfter(const Trial& trial, std::uint32_t moves) {
    std::vector<WorkPiece> pieces;
    if (!trial.stock) return pieces;
    StockCursor cursor(trial.stock);
    for (const Severance& severance : trial.stock->severances()) {
        if (severance.timedMove >= moves) break;
        cursor.seek(severance.timedMove, 1);
        Billet before = cursor.billet();
        cursor.seek(severance.timedMove + 1, 0);
        pieces.push_back({std::move(before), cursor.billet(), severance.timedMove + 1, severance.piece});
    }
    cursor.seek(moves, 0);
    pieces.push_back({cursor.billet(), std::nullopt, moves, 0});
    return pieces;
}

std::vector<SurfaceSpan> surfacesLeftBy(const Trial& trial, const WorkPiece& work, BlockId block) {
    return LeftByBlock(trial, work, block).run();
}

std::vector<MoveRange> movesOf(const Trial& trial, BlockId block) {
    const Toolpath& path = trial.toolpath;
    std::vector<bool> belongs(path.moves.size());
    for (std::size_t i = 0; i < path.moves.size(); ++i) {
        belongs[i] = path.moves[i].block == block || path.moves[i].cycleBlock == block;
    }
    for (std::size_t i = 0; i < path.steps.size(); ++i) {
        if (path.steps[i].shown != block) continue;
        const std::size_t end = i + 1 < path.steps.size() ? path.steps[i + 1].firstMove : path.moves.size();
        for (std::size_t k = path.steps[i].firstMove; k < end; ++k) belongs[k] = true;
    }
    std::vector<MoveRange> ranges;
    for (std::size_t i = 0; i < belongs.size(); ++i) {
        if (!belongs[i]) continue;
        const std::uint32_t first = trial.timeline.firstOf[i];
        if (ranges.empty() || ranges.back().end != first) ranges.push_back({first, first});
        ranges.back().end = trial.timeline.firstOf[i + 1];
    }
    return ranges;
}

}  // namespace firstoff
