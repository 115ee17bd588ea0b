#include "sim/trial/turned_surfaces.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/tolerances.h"
#include "sim/motion/move_turns.h"
#include "sim/trial/machining_findings.h"

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

// Surfaces along which moves ran; moves are added in order of time.
class SurfacesAlong {
public:
    SurfacesAlong(const Trial& trial, const WorkPiece& work) : trial_(trial), work_(work) {}

    void addMove(std::uint32_t index, BlockId block) {
        const TimedMove& timed = trial_.timeline.moves[index];
        const Move& move = trial_.toolpath.moves[timed.move];
        const ToolCall& call = trial_.toolpath.calls[move.call];
        if (call.toolIndex < 0 || MoveTurns(timed, trial_.toolpath, trial_.setup).total() <= 0) return;
        const Tool& tool = trial_.setup.tools[static_cast<std::size_t>(call.toolIndex)];
        Marked marked;
        marked.cut = index;
        marked.block = block;
        marked.centreHeight = tool.centreHeight;
        addWays(timed, call.tip, tool.cutting, marked);
        for (const Outline& step : tool.steps) addWays(timed, call.tip, step, marked);
        moves_.push_back(std::move(marked));
    }

    std::vector<SurfaceOnPart> run() {
        if (moves_.empty()) return {};
        for (auto side : {SurfaceSpan::Side::Outer, SurfaceSpan::Side::Inner}) addRuns(side);
        // Of faces cut more than once the last move is told.
        for (std::size_t i = moves_.size(); i-- > 0;) addFaces(moves_[i]);
        const auto frontZ = [](const SurfaceSpan& span) { return span.isFace() ? span.z : span.to; };
        std::stable_sort(surfaces_.begin(), surfaces_.end(), [&](const SurfaceOnPart& a, const SurfaceOnPart& b) {
            const double za = frontZ(a.span), zb = frontZ(b.span);
            return za != zb ? za > zb : a.span.isFace() && b.span.isFace() && a.span.from < b.span.from;
        });
        return std::move(surfaces_);
    }

private:
    struct Marked {
        CutId cut = 0;
        BlockId block = kNoBlock;
        double centreHeight = 0;
        std::vector<Way> ways;
        // Upright paths: planes in which a face may stand, by the side of the tool that left them.
        double frontZ = 0, backZ = 0, rFrom = 0, rTo = 0;
        bool upright = false;
    };

    struct OnTheWay {
        double r = 0;
        BlockId block = kNoBlock;
    };

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

    // A column's surface if one of the moves left it and it lies on that move's way.
    std::optional<OnTheWay> markedAt(SurfaceSpan::Side side, int column) {
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
        return onTheWay ? std::optional(OnTheWay{r, marked->block}) : std::nullopt;
    }

    // Stretches of one block without a corner.
    void addRuns(SurfaceSpan::Side side) {
        const Grid& grid = work_.billet.grid();
        int first = 0;  // of the stretch; none if after the column before
        double rFirst = 0, slope = 0;
        OnTheWay before;
        for (int column = 0; column <= grid.columns; ++column) {
            const std::optional<OnTheWay> here = column < grid.columns ? markedAt(side, column) : std::nullopt;
            const double slopeNow = std::atan2(here ? here->r - before.r : 0, grid.pitch);
            const bool corner = column - first > 1 && std::abs(slopeNow - slope) > kCorner;
            const bool another = here && column > first && here->block != before.block;
            if (!here || corner || another) {
                addRun({{side, grid.z(first), grid.z(std::max(first, column - 1)), 0}, before.block, rFirst, before.r});
                first = here ? column : column + 1;
            }
            if (first == column) rFirst = here->r;
            before = here.value_or(OnTheWay{});
            slope = slopeNow;
        }
    }

    void addRun(const SurfaceOnPart& run) {
        if (run.span.to - run.span.from >= kShortestMm) surfaces_.push_back(run);
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
                    addFace(move, front, z, from, std::min(to, b.inner));
                    from = b.outer;
                }
                addFace(move, front, z, from, to);
            }
        }
    }

    // What of a face is not told yet.
    void addFace(const Marked& move, bool front, double z, double from, double to) {
        const auto side = front ? SurfaceSpan::Side::FrontFace : SurfaceSpan::Side::BackFace;
        for (std::size_t i = 0; i < surfaces_.size(); ++i) {
            const SurfaceSpan s = surfaces_[i].span;
            if (s.side != side || std::abs(s.z - z) >= work_.billet.grid().pitch || s.to <= from || s.from >= to)
                continue;
            addFace(move, front, z, from, s.from);
            from = std::max(from, s.to);
        }
        if (to - from >= kShortestMm) surfaces_.push_back({{side, from, to, z}, move.block, from, to});
    }

    const Trial& trial_;
    const WorkPiece& work_;
    std::vector<Marked> moves_;  // in order
    std::vector<SurfaceOnPart> surfaces_;
    std::vector<Interval> solids_;
};

// Timed moves that the outside or the inside of a piece remembers, and those at feed straight up or down that took
// metal and may have left a face: in order, each once.
std::vector<CutId> movesThatLeft(const Trial& trial, const WorkPiece& work) {
    std::vector<bool> left(work.moves);
    std::vector<Interval> solids;
    const auto mark = [&](CutId cut) {
        if (isCutHere(cut) && cut < work.moves) left[cut] = isAtFeed(trial.timeline.moves[cut].kind);
    };
    for (int column = 0; column < work.billet.grid().columns; ++column) {
        work.billet.intervals(column, solids);
        if (solids.empty()) continue;
        mark(solids.back().outerCut);
        mark(solids.front().innerCut);
    }
    std::vector<CutId> moves;
    for (CutId i = 0; i < work.moves; ++i) {
        const TimedMove& timed = trial.timeline.moves[i];
        const bool upright = timed.kind == MoveKind::Feed && std::abs(timed.to.z - timed.from.z) < 1e-9 &&
                             double{trial.stock->cuts()[i].deepestMm} > tolerance::kTouchMm;
        if ((left[i] || upright) && timed.kind != MoveKind::Thread) moves.push_back(i);
    }
    return moves;
}

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
    SurfacesAlong along(trial, work);
    for (const MoveRange& range : movesOf(trial, block)) {
        for (std::uint32_t i = range.first; i < std::min(range.end, work.moves); ++i) along.addMove(i, block);
    }
    std::vector<SurfaceSpan> spans;
    for (const SurfaceOnPart& surface : along.run()) spans.push_back(surface.span);
    return spans;
}

std::vector<SurfaceOnPart> surfacesLeft(const Trial& trial, const WorkPiece& work) {
    SurfacesAlong along(trial, work);
    for (CutId cut : movesThatLeft(trial, work)) along.addMove(cut, trial.shownBlock(trial.timeline.moves[cut].move));
    return along.run();
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
