#include "gui/timeline_records.h"

#include <algorithm>
#include <cmath>

#include "gui/figures.h"

namespace firstoff::gui {

namespace {

// First timed move that ends after `timeS`.
std::size_t firstEndingAfter(const std::vector<TimedMove>& moves, double timeS) {
    const auto found =
        std::partition_point(moves.begin(), moves.end(), [&](const TimedMove& move) { return move.t1 <= timeS; });
    return static_cast<std::size_t>(found - moves.begin());
}

// Calls `draw(first, last, folded)` for stretches that are alone wide enough or together just wide enough.
template <typename Draw>
void forEachStretch(const std::vector<TimedMove>& moves, const TimeWindow& window, const Draw& draw) {
    const double end = window.to();
    const double fold = kFoldPx / window.pxPerSecond;
    std::size_t i = firstEndingAfter(moves, window.from);
    while (i < moves.size() && moves[i].t0 < end) {
        if (moves[i].t1 - moves[i].t0 >= fold) {
            draw(i, i + 1, false);
            ++i;
            continue;
        }
        // Everything that ends within the next few pixels, but no move that deserves a place of its own.
        std::size_t last = std::max(i + 1, firstEndingAfter(moves, moves[i].t0 + fold));
        draw(i, last, last - i > 1);
        i = last;
    }
}

MotionClass largest(const MotionRecord& record) {
    if (record.cutting >= record.rapid && record.cutting >= record.waiting) return MotionClass::Cutting;
    return record.rapid >= record.waiting ? MotionClass::Rapid : MotionClass::Waiting;
}

}  // namespace

std::vector<MotionRecord> motionRecords(const Timeline& timeline, const TimelineIndex& index,
                                        const TimeWindow& window) {
    std::vector<MotionRecord> records;
    const std::vector<TimedMove>& moves = timeline.moves;
    forEachStretch(moves, window, [&](std::size_t first, std::size_t last, bool folded) {
        MotionRecord record;
        record.first = static_cast<std::uint32_t>(first);
        record.last = static_cast<std::uint32_t>(last);
        record.x0 = static_cast<float>(std::max(0.0, window.x(moves[first].t0)));
        record.x1 = static_cast<float>(std::min(window.width, window.x(moves[last - 1].t1)));
        record.folded = folded;
        const double seconds = moves[last - 1].t1 - moves[first].t0;
        if (seconds > 0) {
            record.cutting = static_cast<float>(index.secondsOf(MotionClass::Cutting, first, last) / seconds);
            record.rapid = static_cast<float>(index.secondsOf(MotionClass::Rapid, first, last) / seconds);
            record.waiting = std::max(0.0f, 1.0f - record.cutting - record.rapid);
        }
        record.kind = folded ? largest(record) : classOf(moves[first].kind);
        records.push_back(record);
    });
    return records;
}

std::vector<SpindleRecord> spindleRecords(const Timeline& timeline, const TimelineIndex& index,
                                          const TimeWindow& window) {
    std::vector<SpindleRecord> records;
    const std::vector<TimedMove>& moves = timeline.moves;
    forEachStretch(moves, window, [&](std::size_t first, std::size_t last, bool folded) {
        SpindleRecord record;
        record.x0 = static_cast<float>(window.x(moves[first].t0));
        record.x1 = static_cast<float>(window.x(moves[last - 1].t1));
        record.folded = folded;
        const TimelineIndex::Extent extent = index.revPerMin(first, last);
        record.start = folded ? extent.low : static_cast<float>(moves[first].rpmStart);
        record.end = folded ? extent.high : static_cast<float>(moves[first].rpmEnd);
        records.push_back(record);
    });
    return records;
}

std::vector<ClearanceRecord> clearanceRecords(const Trial& trial, const TimelineIndex& index,
                                              const TimeWindow& window) {
    std::vector<ClearanceRecord> records;
    const std::vector<TimedMove>& moves = trial.timeline.moves;
    if (!index.clearance().known() || trial.clearance.perMove.size() != moves.size()) return records;
    forEachStretch(moves, window, [&](std::size_t first, std::size_t last, bool) {
        const std::size_t nearest = index.clearance().nearest(first, last);
        records.push_back({static_cast<float>(std::max(0.0, window.x(moves[first].t0))),
                           static_cast<float>(std::min(window.width, window.x(moves[last - 1].t1))),
                           static_cast<std::uint32_t>(nearest), trial.clearance.perMove[nearest].gapMm});
    });
    return records;
}

namespace {

// The greater of two of which either may be unknown.
float greater(float a, float b) {
    return std::isnan(a) ? b : std::isnan(b) ? a : std::max(a, b);
}

// The samples of one move, no closer than a pixel: of those in between the greatest is kept. Nothing beside one that is
// not known.
void appendRun(const Trial& trial, const SampleIndex& samples, const TimeWindow& window, std::size_t timedMove,
               std::vector<LoadRecord>& records) {
    constexpr double kLeastPx = 1;
    const std::vector<SampleIndex::At> run = samples.along(trial, timedMove);
    if (run.empty()) return;
    double lastX = window.x(run.front().timeS);
    float last = run.front().value, peak = last;
    for (std::size_t i = 1; i < run.size(); ++i) {
        const double x = window.x(run[i].timeS);
        peak = greater(peak, run[i].value);
        if (x - lastX < kLeastPx && i + 1 < run.size()) continue;
        // Of what falls into one pixel the greatest is drawn, so that no peak is lost.
        const float value = std::isnan(run[i].value) ? run[i].value : peak;
        const float from = last;
        const bool known = !std::isnan(from) && !std::isnan(value);
        if (known && x >= 0 && lastX <= window.width) {
            records.push_back({static_cast<float>(std::max(-1.0, lastX)),
                               static_cast<float>(std::min(window.width + 1, x)), from, value, false});
        }
        lastX = x;
        last = value;
        peak = run[i].value;
    }
}

}  // namespace

std::vector<LoadRecord> sampleRecords(const Trial& trial, const SampleIndex& samples, const TimeWindow& window) {
    std::vector<LoadRecord> records;
    if (!samples.known()) return records;
    const std::vector<TimedMove>& moves = trial.timeline.moves;
    forEachStretch(moves, window, [&](std::size_t first, std::size_t last, bool folded) {
        if (!folded) return appendRun(trial, samples, window, first, records);
        const float most = samples.greatest(first, last);
        if (most <= 0) return;
        records.push_back({static_cast<float>(std::max(0.0, window.x(moves[first].t0))),
                           static_cast<float>(std::min(window.width, window.x(moves[last - 1].t1))), most, most, true});
    });
    return records;
}

std::vector<LoadRecord> loadRecords(const Trial& trial, const TimelineIndex& index, const TimeWindow& window) {
    return sampleRecords(trial, index.load().samples(), window);
}

std::vector<FindingRecord> findingRecords(const TimelineIndex& index, const TimeWindow& window, double markPx) {
    const std::vector<FindingMark>& marks = index.findingsByTime();
    const auto before = [](const FindingMark& mark, double timeS) { return mark.timeS < timeS; };
    const double margin = markPx / window.pxPerSecond;
    auto at = std::lower_bound(marks.begin(), marks.end(), window.from - margin, before);
    std::vector<FindingRecord> records;
    while (at != marks.end() && at->timeS <= window.to() + margin) {
        const auto end = std::lower_bound(at + 1, marks.end(), at->timeS + margin, before);
        const auto worst =
            std::max_element(at, end, [](const FindingMark& a, const FindingMark& b) { return rank(a) < rank(b); });
        records.push_back({static_cast<float>(window.x(at->timeS)), static_cast<std::uint32_t>(at - marks.begin()),
                           static_cast<std::uint32_t>(end - marks.begin()),
                           static_cast<std::uint32_t>(worst - marks.begin())});
        at = end;
    }
    return records;
}

LaneRecords laneRecords(const Trial& trial, const TimelineIndex& index, const TimeWindow& window) {
    const LoadIndex& load = index.load();
    return {motionRecords(trial.timeline, index, window), spindleRecords(trial.timeline, index, window),
            clearanceRecords(trial, index, window),       loadRecords(trial, index, window),
            sampleRecords(trial, load.grip(), window),    sampleRecords(trial, load.bending(), window)};
}

TimeWindow bounded(TimeWindow window, double cycleS) {
    if (!(cycleS > 0) || !(window.width > 0)) return {0, 1, window.width};
    // Closest: a thousandth of a second over ten pixels, below anything a setter asks for.
    constexpr double kClosest = 10 / 0.001;
    window.pxPerSecond =
        std::clamp(window.pxPerSecond, window.width / cycleS, std::max(kClosest, window.width / cycleS));
    window.from = std::clamp(window.from, 0.0, std::max(0.0, cycleS - window.width / window.pxPerSecond));
    return window;
}

double tickStep(const TimeWindow& window, double px) {
    const double least = px / window.pxPerSecond;
    if (least <= 5) return niceStep(least);
    for (const double step : {10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1800.0}) {
        if (step >= least) return step;
    }
    return 3600 * niceStep(least / 3600);
}

}  // namespace firstoff::gui
