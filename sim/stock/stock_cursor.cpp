#include <algorithm>
#include <cassert>
#include <iterator>
#include <optional>

#include "sim/base/tolerances.h"
#include "sim/stock/exact_section.h"
#include "sim/stock/loose_pieces.h"
#include "sim/stock/recorded_history.h"
#include "sim/stock/section.h"

namespace firstoff {

struct StockCursor::State {
    std::shared_ptr<const RecordedHistory> history;
    Detail detail;
    std::uint32_t wholeMoves = 0;
    std::optional<Sweep> nextBegun;  // of the next move, in `shown`
    Billet whole;                    // after `wholeMoves` moves
    Billet shown;                    // with the part of the next move, if there is one
    bool partial = false;            // there is
    WorkerTeam alone{1};
    BatchCutter cutter;

    State(std::shared_ptr<const RecordedHistory> of, Detail wanted)
        : history(std::move(of)),
          detail(wanted),
          whole(history->keyframes().at(0).billet),
          shown(Billet::emptyLike(whole)),
          cutter(history->plan(), alone) {}

    const Billet& now() const { return partial ? shown : whole; }

    void cut(std::uint32_t first, std::uint32_t end) {
        constexpr BatchCutter::Wanted kNothing{false, false, false};
        if (detail == Detail::Sectors) return static_cast<void>(cutter.cut(whole, first, end, kNothing));
        const CutPlan& plan = history->plan();
        while (first < end) {
            std::uint32_t to = first;
            while (to < end && !plan.inThread(to)) ++to;
            if (to > first) cutter.cut(whole, first, to, kNothing);
            first = std::max(to, first);
            while (first < end && plan.inThread(first)) ++first;
        }
    }

    // Cuts on from where `whole` is, taking out what falls on the way.
    void advance(std::uint32_t target) {
        constexpr std::uint32_t kStride = 1024;  // moves whose profiles fit the caches
        const std::vector<std::uint32_t>& falls = history->falls();
        auto fall = std::lower_bound(falls.begin(), falls.end(), wholeMoves);
        while (wholeMoves < target) {
            std::uint32_t end = std::min(wholeMoves + kStride, target);
            const bool falling = fall != falls.end() && *fall < end;
            if (falling) end = *fall + 1;
            cut(wholeMoves, end);
            wholeMoves = end;
            if (!falling) continue;
            takeLoose(whole, history->plan().heldZ());
            ++fall;
        }
    }

    // The beginning of a move, in `shown` only.
    void cutPart(std::uint32_t move, double fraction) {
        const CutPlan& plan = history->plan();
        const Sweep part = firstPart(plan.sweep(move), fraction);
        nextBegun = part;
        if (!plan.inThread(move)) {
            for (const ToolShape& shape : plan.shapes(move)) shown.cut(part, shape, move);
            return;
        }
        const SpindleTurns* turns = plan.turns(move);
        if (turns == nullptr) return;
        SpindleTurns begun = *turns;
        begun.turns = turns->turnsTo(fraction);
        begun.way = turns->way * fraction;
        for (const ToolShape& shape : plan.teeth(move)) shown.stamp(part, begun, shape, move);
    }

    std::size_t fallen() const {
        const std::vector<Severance>& all = history->severances();
        const auto after =
            std::lower_bound(all.begin(), all.end(), wholeMoves,
                             [](const Severance& s, std::uint32_t moves) { return s.timedMove < moves; });
        return static_cast<std::size_t>(after - all.begin());
    }
};

StockCursor::StockCursor(std::shared_ptr<const StockHistory> history, Detail detail) {
    auto recorded = std::dynamic_pointer_cast<const RecordedHistory>(std::move(history));
    assert(recorded);
    state_ = std::make_unique<State>(std::move(recorded), detail);
}

StockCursor::~StockCursor() = default;
StockCursor::StockCursor(StockCursor&&) noexcept = default;
StockCursor& StockCursor::operator=(StockCursor&&) noexcept = default;

void StockCursor::seek(std::uint32_t wholeMoves, double fraction) {
    State& s = *state_;
    const CutPlan& plan = s.history->plan();
    const std::uint32_t target = std::min(wholeMoves, plan.moves());
    const Keyframes& frames = s.history->keyframes();
    const Keyframes::Frame& frame = s.detail == Detail::Envelope ? frames.withoutThreadsAt(target) : frames.at(target);
    if (s.wholeMoves > target || s.wholeMoves < frame.move) {
        s.whole = frame.billet;
        s.wholeMoves = frame.move;
    }
    if (s.partial) {
        s.shown = Billet::emptyLike(s.whole);  // lets go of the chunks of `whole`
        s.partial = false;
    }
    s.advance(target);
    s.nextBegun.reset();
    if (fraction <= 0 || target >= plan.moves() || !plan.mayCut(target)) return;
    s.shown = s.whole;
    s.partial = true;
    s.cutPart(target, std::min(fraction, 1.0));
}

std::vector<Loop> StockCursor::section() const {
    return section(tolerance::kSectionMm);
}

std::vector<Loop> StockCursor::section(double toleranceMm, int sector) const {
    const State& s = *state_;
    const std::vector<std::uint16_t>& tools = s.history->plan().tools();
    std::vector<Loop> loops = sectionLoops(s.now(), toleranceMm, 0, tools, sector);
    for (std::size_t i = 0; i < s.fallen(); ++i) {
        std::vector<Loop> piece =
            sectionLoops(s.history->piece(i), toleranceMm, s.history->severances()[i].piece, tools, sector);
        loops.insert(loops.end(), std::make_move_iterator(piece.begin()), std::make_move_iterator(piece.end()));
    }
    return loops;
}

std::vector<SectionContour> StockCursor::contours(int sector) const {
    const State& s = *state_;
    const CutPlan& plan = s.history->plan();
    std::vector<SectionContour> contours =
        exactSection(s.now(), {plan, s.wholeMoves, s.nextBegun}, tolerance::kSectionMm, 0, sector);
    for (std::size_t i = 0; i < s.fallen(); ++i) {
        const Severance& fall = s.history->severances()[i];
        std::vector<SectionContour> piece = exactSection(s.history->piece(i), {plan, fall.timedMove + 1, std::nullopt},
                                                         tolerance::kSectionMm, fall.piece, sector);
        contours.insert(contours.end(), std::make_move_iterator(piece.begin()), std::make_move_iterator(piece.end()));
    }
    return contours;
}

double StockCursor::volumeMm3() const {
    return state_->now().volumeMm3();
}

std::uint64_t StockCursor::hash() const {
    return state_->now().hash();
}

const Billet& StockCursor::billet() const {
    return state_->now();
}

Interval StockCursor::outermostAt(double z) const {
    std::vector<Interval> solids;
    const Grid& grid = state_->now().grid();
    if (z < grid.border(0) || z > grid.border(grid.columns)) return {};
    state_->now().intervals(std::clamp(grid.columnNear(z), 0, grid.columns - 1), solids);
    if (solids.empty()) return {};
    return {solids.front().inner, solids.back().outer, solids.front().innerCut, solids.back().outerCut};
}

}  // namespace firstoff
