// One figure along all cuts of a trial of any length: what it is at each sample of the loads, and the greatest of any
// stretch. Made once per trial, on the worker; then only read.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff::gui {

class SampleIndex {
public:
    SampleIndex() = default;
    // `value` of LoadResult::samples, by their index; below zero never, NaN where it is not known.
    SampleIndex(const Trial& trial, const std::function<float(std::uint32_t)>& value);

    // False where there is none but 0.
    bool known() const { return !greatest_.empty() && most_ > 0; }
    double most() const { return most_; }
    // Greatest over timed moves [first, last), what is not known left out; first < last. Only where `known`.
    float greatest(std::size_t first, std::size_t last) const;

    // One figure and when.
    struct At {
        double timeS = 0;
        float value = 0;
    };
    // Of one timed move, in order of time; empty where it took no metal.
    std::vector<At> along(const Trial& trial, std::size_t timedMove) const;

private:
    std::vector<float> values_;                 // by sample
    std::vector<std::vector<float>> greatest_;  // level 0: per timed move; each next one per group of them
    double most_ = 0;
};

}  // namespace firstoff::gui
