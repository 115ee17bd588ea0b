#include "gui/load_index.h"

#include <algorithm>
#include <cassert>

namespace firstoff::gui {

namespace {

constexpr std::size_t kFan = 64;

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

double timeAt(const Trial& trial, std::size_t timedMove, double fraction) {
    return firstoff::timeAt(trial.timeline.moves[timedMove], trial.toolpath, trial.setup, fraction);
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

float LoadIndex::valueOf(const LoadSample& sample) const {
    constexpr float kCm3PerMin = 60.0f / 1000.0f;
    return isPower_ ? sample.powerKw : sample.removalMm3PerS * kCm3PerMin;
}

LoadIndex::LoadIndex(const Trial& trial) : isPower_(trial.loads.forcesKnown) {
    if (trial.loads.runs.empty()) return;
    std::vector<float> finest(trial.timeline.moves.size(), 0.0f);
    for (const LoadRun& run : trial.loads.runs) {
        float& most = finest[run.timedMove];
        for (std::uint32_t i = run.first; i < run.first + run.count; ++i)
            most = std::max(most, valueOf(trial.loads.samples[i]));
        most_ = std::max(most_, static_cast<double>(most));
    }
    greatest_.push_back(std::move(finest));
    while (greatest_.back().size() > kFan) {
        const std::vector<float>& fine = greatest_.back();
        std::vector<float> coarse;
        for (std::size_t i = 0; i < fine.size(); i += kFan) {
            const auto begin = fine.begin() + static_cast<std::ptrdiff_t>(i);
            const auto end = fine.begin() + static_cast<std::ptrdiff_t>(std::min(i + kFan, fine.size()));
            coarse.push_back(*std::max_element(begin, end));
        }
        greatest_.push_back(std::move(coarse));
    }
}

float LoadIndex::greatest(std::size_t first, std::size_t last) const {
    assert(!greatest_.empty() && first < last && last <= greatest_[0].size());
    float most = 0;
    for (std::size_t level = 0; first < last; ++level) {
        const std::vector<float>& entries = greatest_[level];
        const bool top = level + 1 == greatest_.size();
        while (first < last && (top || first % kFan != 0)) most = std::max(most, entries[first++]);
        while (last > first && last % kFan != 0) most = std::max(most, entries[--last]);
        first /= kFan;
        last /= kFan;
    }
    return most;
}

std::vector<LoadIndex::At> LoadIndex::along(const Trial& trial, std::size_t timedMove) const {
    std::vector<At> result;
    const LoadRun* run = trial.loads.runOf(static_cast<std::uint32_t>(timedMove));
    if (run == nullptr) return result;
    result.reserve(run->count);
    for (std::uint32_t i = run->first; i < run->first + run->count; ++i) {
        const LoadSample& sample = trial.loads.samples[i];
        result.push_back({timeAt(trial, timedMove, sample.fraction), valueOf(sample)});
    }
    return result;
}

}  // namespace firstoff::gui
