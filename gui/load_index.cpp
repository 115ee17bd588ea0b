#include "gui/load_index.h"

#include <algorithm>
#include <cmath>

#include "sim/motion/feed_run.h"
#include "sim/motion/pace.h"

namespace firstoff::gui {

namespace {

// The samples beside a place, and how far between them it is.
struct Between {
    std::uint32_t a = 0, b = 0;
    float share = 0;
};

std::optional<Between> between(const Trial& trial, std::size_t timedMove, double fraction) {
    const LoadRun* run = trial.loads.runOf(static_cast<std::uint32_t>(timedMove));
    if (run == nullptr || run->count == 0) return std::nullopt;
    const auto begin = trial.loads.samples.begin() + run->first, end = begin + run->count;
    const auto after =
        std::upper_bound(begin, end, fraction, [](double f, const LoadSample& sample) { return f < sample.fraction; });
    const auto index = [&](auto at) { return static_cast<std::uint32_t>(at - trial.loads.samples.begin()); };
    if (after == begin) return Between{run->first, run->first, 0};
    if (after == end) return Between{index(end - 1), index(end - 1), 0};
    const auto before = after - 1;
    const float wide = after->fraction - before->fraction;
    const float share = wide > 0 ? (static_cast<float>(fraction) - before->fraction) / wide : 0;
    return Between{index(before), index(after), share};
}

float mix(float a, float b, float share) {
    return a + (b - a) * share;
}

}  // namespace

// Asked for every sample in sight, in every frame: moves at feed answer in one go, where firstoff::timeAt() closes in.
double timeAt(const Trial& trial, std::size_t timedMove, double fraction) {
    const TimedMove& timed = trial.timeline.moves[timedMove];
    const bool fed = timed.kind == MoveKind::Feed || timed.kind == MoveKind::ArcClockwise ||
                     timed.kind == MoveKind::ArcAnticlockwise;
    if (!fed || fraction <= 0 || fraction >= 1) return firstoff::timeAt(timed, trial.toolpath, trial.setup, fraction);
    const Move& move = trial.toolpath.moves[timed.move];
    const ModalState& modal = trial.toolpath.modals[move.modal];
    PaceLimits why;
    const FeedPath path(timed, trial.toolpath.programmedShift(move),
                        paceLaw(move, modal, spindleLaw(move, modal, trial.setup), trial.setup, why),
                        trial.setup.machine.axes);
    const double passed = FeedRun(path, double{timed.paceFrom}, double{timed.paceTo}).secondsTo(fraction);
    return std::clamp(timed.t0 + passed, timed.t0, timed.t1);
}

std::optional<LoadSample> loadAt(const Trial& trial, std::size_t timedMove, double fraction) {
    if (timedMove >= trial.timeline.moves.size()) return std::nullopt;
    const LoadSample sample = firstoff::loadAt(trial.loads, static_cast<std::uint32_t>(timedMove), fraction);
    if (sample.chipAreaMm2 <= 0) return std::nullopt;
    return sample;
}

std::optional<BendingSample> bendingAt(const Trial& trial, std::size_t timedMove, double fraction) {
    const auto at = between(trial, timedMove, fraction);
    if (!at || !trial.bending.known || trial.bending.samples.size() != trial.loads.samples.size()) return std::nullopt;
    const BendingSample &a = trial.bending.samples[at->a], &b = trial.bending.samples[at->b];
    return BendingSample{mix(a.partMm, b.partMm, at->share), mix(a.barMm, b.barMm, at->share),
                         mix(a.diameterErrorMm, b.diameterErrorMm, at->share)};
}

std::optional<float> gripShareAt(const Trial& trial, std::size_t timedMove, double fraction) {
    const auto at = between(trial, timedMove, fraction);
    if (!at || trial.holding.gripShare.size() != trial.loads.samples.size()) return std::nullopt;
    const float share = mix(trial.holding.gripShare[at->a], trial.holding.gripShare[at->b], at->share);
    if (std::isnan(share)) return std::nullopt;
    return share;
}

LoadIndex::LoadIndex(const Trial& trial) : isPower_(trial.loads.forcesKnown) {
    constexpr float kCm3PerMin = 60.0f / 1000.0f;
    const std::vector<LoadSample>& samples = trial.loads.samples;
    samples_ = SampleIndex(
        trial, [&](std::uint32_t i) { return isPower_ ? samples[i].powerKw : samples[i].removalMm3PerS * kCm3PerMin; });
    if (trial.holding.gripShare.size() == samples.size())
        grip_ = SampleIndex(trial, [&](std::uint32_t i) { return trial.holding.gripShare[i]; });
    if (trial.bending.known && trial.bending.samples.size() == samples.size())
        bending_ =
            SampleIndex(trial, [&](std::uint32_t i) { return std::abs(trial.bending.samples[i].diameterErrorMm); });
}

}  // namespace firstoff::gui
