#include "gui/sample_index.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "gui/load_index.h"

namespace firstoff::gui {

namespace {

constexpr std::size_t kFan = 64;

}  // namespace

SampleIndex::SampleIndex(const Trial& trial, const std::function<float(std::uint32_t)>& value) {
    if (trial.loads.runs.empty()) return;
    values_.resize(trial.loads.samples.size());
    for (std::uint32_t i = 0; i < values_.size(); ++i) values_[i] = value(i);
    std::vector<float> finest(trial.timeline.moves.size(), 0.0f);
    for (const LoadRun& run : trial.loads.runs) {
        float& most = finest[run.timedMove];
        // With NaN on the right `max` keeps what it has.
        for (std::uint32_t i = run.first; i < run.first + run.count; ++i) most = std::max(most, values_[i]);
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

float SampleIndex::greatest(std::size_t first, std::size_t last) const {
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

std::vector<SampleIndex::At> SampleIndex::along(const Trial& trial, std::size_t timedMove) const {
    std::vector<At> result;
    const LoadRun* run = values_.empty() ? nullptr : trial.loads.runOf(static_cast<std::uint32_t>(timedMove));
    if (run == nullptr) return result;
    result.reserve(run->count);
    for (std::uint32_t i = run->first; i < run->first + run->count; ++i)
        result.push_back({timeAt(trial, timedMove, trial.loads.samples[i].fraction), values_[i]});
    return result;
}

}  // namespace firstoff::gui
