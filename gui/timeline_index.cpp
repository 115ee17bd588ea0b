#include "gui/timeline_index.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <tuple>

namespace firstoff::gui {

namespace {

// Entries of one level of the speed extents that make one of the next. 64 keeps a query on a million moves near 200
// steps.
constexpr std::size_t kFan = 64;

TimelineIndex::Extent join(TimelineIndex::Extent a, TimelineIndex::Extent b) {
    return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

std::vector<TimelineIndex::Extent> nextLevel(const std::vector<TimelineIndex::Extent>& fine) {
    std::vector<TimelineIndex::Extent> coarse;
    for (std::size_t i = 0; i < fine.size(); i += kFan) {
        TimelineIndex::Extent extent = fine[i];
        for (std::size_t k = i + 1; k < std::min(i + kFan, fine.size()); ++k) extent = join(extent, fine[k]);
        coarse.push_back(extent);
    }
    return coarse;
}

}  // namespace

const double TimelineIndex::kNever = std::numeric_limits<double>::quiet_NaN();

MotionClass classOf(MoveKind kind) {
    switch (kind) {
        case MoveKind::Feed:
        case MoveKind::ArcClockwise:
        case MoveKind::ArcAnticlockwise:
        case MoveKind::Thread:
            return MotionClass::Cutting;
        case MoveKind::Rapid:
        case MoveKind::Home:
            return MotionClass::Rapid;
        case MoveKind::Dwell:
        case MoveKind::Index:
            return MotionClass::Waiting;
    }
    return MotionClass::Waiting;
}

double startOfMove(const Trial& trial, std::uint32_t move) {
    const Timeline& timeline = trial.timeline;
    if (move >= timeline.firstOf.size()) return timeline.cycleTimeS;
    const std::uint32_t timed = timeline.firstOf[move];
    return timed < timeline.moves.size() ? timeline.moves[timed].t0 : timeline.cycleTimeS;
}

TimelineIndex::TimelineIndex(const Trial& trial) : clearance_(trial), load_(trial), passes_(trial) {
    indexMoves(trial);
    indexTools(trial);
    indexStops(trial);
    indexBlocks(trial);
    indexFindings(trial);
}

void TimelineIndex::indexMoves(const Trial& trial) {
    const std::vector<TimedMove>& moves = trial.timeline.moves;
    std::vector<Extent> speeds;
    speeds.reserve(moves.size());
    for (auto* sums : {&cuttingSeconds_, &rapidSeconds_, &seconds_, &turns_}) {
        sums->reserve(moves.size() + 1);
        sums->push_back(0);
    }
    for (const TimedMove& move : moves) {
        const double duration = move.t1 - move.t0;
        const MotionClass kind = classOf(move.kind);
        cuttingSeconds_.push_back(cuttingSeconds_.back() + (kind == MotionClass::Cutting ? duration : 0));
        rapidSeconds_.push_back(rapidSeconds_.back() + (kind == MotionClass::Rapid ? duration : 0));
        seconds_.push_back(seconds_.back() + duration);
        // Mean of the ends: near enough for turning a picture of a chuck.
        turns_.push_back(turns_.back() + duration / 60.0 * 0.5 * (move.rpmStart + move.rpmEnd));
        const auto [low, high] = std::minmax(move.rpmStart, move.rpmEnd);
        speeds.push_back({static_cast<float>(low), static_cast<float>(high)});
        maxRevPerMin_ = std::max(maxRevPerMin_, high);
    }
    speedLevels_.push_back(std::move(speeds));
    while (speedLevels_.back().size() > kFan) speedLevels_.push_back(nextLevel(speedLevels_.back()));
}

void TimelineIndex::indexTools(const Trial& trial) {
    const Toolpath& path = trial.toolpath;
    for (const TimedMove& timed : trial.timeline.moves) {
        const std::uint16_t call = path.moves[timed.move].call;
        const int station = path.calls[call].station;
        if (!toolSpans_.empty() && toolSpans_.back().station == station) {
            toolSpans_.back().t1 = timed.t1;
        } else {
            toolSpans_.push_back({timed.t0, timed.t1, call, station});
        }
    }
}

namespace {

// The block of a stop, or the call of another file that it stands in.
BlockId shownBlock(const Trial& trial, const ProgramStop& stop) {
    if (trial.program.isOwn(stop.block)) return stop.block;
    const std::vector<Step>& steps = trial.toolpath.steps;
    const auto after = std::upper_bound(steps.begin(), steps.end(), stop.beforeMove,
                                        [](std::uint32_t move, const Step& step) { return move < step.firstMove; });
    const auto own = std::find_if(std::make_reverse_iterator(after), steps.rend(),
                                  [&](const Step& step) { return step.block == stop.block; });
    return own == steps.rend() ? kNoBlock : own->shown;
}

}  // namespace

void TimelineIndex::indexStops(const Trial& trial) {
    for (const ProgramStop& stop : trial.toolpath.stops) {
        stops_.push_back({startOfMove(trial, stop.beforeMove), stop.kind, shownBlock(trial, stop)});
    }
}

void TimelineIndex::indexBlocks(const Trial& trial) {
    doneAt_.assign(trial.program.blocks.size(), kNever);
    const auto done = [this](BlockId block, double timeS) {
        if (block >= doneAt_.size()) return;
        double& at = doneAt_[block];
        at = std::isnan(at) ? timeS : std::max(at, timeS);
    };
    const std::vector<Step>& steps = trial.toolpath.steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        done(steps[i].block, startOfMove(trial, steps[i].firstMove));
        if (steps[i].shown == steps[i].block) continue;
        // A call is done when what it calls in another file is.
        const bool last = i + 1 == steps.size();
        done(steps[i].shown, last ? trial.timeline.cycleTimeS : startOfMove(trial, steps[i + 1].firstMove));
    }
    for (const TimedMove& timed : trial.timeline.moves) {
        const Move& move = trial.toolpath.moves[timed.move];
        done(move.block, timed.t1);
        done(move.cycleBlock, timed.t1);
    }
}

void TimelineIndex::indexFindings(const Trial& trial) {
    for (std::uint32_t i = 0; i < trial.findings.size(); ++i) {
        const Finding& finding = trial.findings[i];
        const bool inProgram = finding.span.file == SourceSpan::File::Program;
        const BlockId block = inProgram ? trial.program.blockAt(finding.span.part, finding.span.line) : kNoBlock;
        const bool hasLine = block != kNoBlock && trial.program.isOwn(block);
        FindingMark mark{0, hasLine ? finding.span.line : 0, i, finding.severity, finding.unproven};
        if (finding.timeS) {
            mark.timeS = *finding.timeS;
        } else if (block != kNoBlock) {
            mark.timeS = trial.startOfBlock(block);
        }
        if (hasLine) byLine_.push_back(mark);
        if (finding.timeS || block != kNoBlock) byTime_.push_back(mark);
    }
    std::stable_sort(byLine_.begin(), byLine_.end(), [](const auto& a, const auto& b) { return a.line < b.line; });
    std::stable_sort(byTime_.begin(), byTime_.end(), [](const auto& a, const auto& b) { return a.timeS < b.timeS; });
}

std::span<const FindingMark> TimelineIndex::findingsOfLine(std::uint32_t line) const {
    const auto first =
        std::partition_point(byLine_.begin(), byLine_.end(), [&](const FindingMark& mark) { return mark.line < line; });
    const auto last =
        std::partition_point(first, byLine_.end(), [&](const FindingMark& mark) { return mark.line == line; });
    return {first, last};
}

double TimelineIndex::secondsOf(MotionClass kind, std::size_t first, std::size_t last) const {
    const auto of = [&](const std::vector<double>& sums) { return sums[last] - sums[first]; };
    switch (kind) {
        case MotionClass::Cutting:
            return of(cuttingSeconds_);
        case MotionClass::Rapid:
            return of(rapidSeconds_);
        case MotionClass::Waiting:
            return of(seconds_) - of(cuttingSeconds_) - of(rapidSeconds_);
    }
    return 0;
}

// Takes entries singly up to the next whole group, then climbs a level, as far as the range allows.
TimelineIndex::Extent TimelineIndex::revPerMin(std::size_t first, std::size_t last) const {
    Extent extent = speedLevels_[0][first];
    for (std::size_t level = 0; first < last; ++level) {
        const std::vector<Extent>& entries = speedLevels_[level];
        const bool top = level + 1 == speedLevels_.size();
        while (first < last && (top || first % kFan != 0)) extent = join(extent, entries[first++]);
        while (last > first && last % kFan != 0) extent = join(extent, entries[--last]);
        first /= kFan;
        last /= kFan;
    }
    return extent;
}

double TimelineIndex::turns(std::size_t index, double fraction) const {
    if (index + 1 >= turns_.size()) return turns_.back();
    return turns_[index] + fraction * (turns_[index + 1] - turns_[index]);
}

}  // namespace firstoff::gui
