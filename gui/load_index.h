// What the window wants to know quickly about loads, in a trial of any length. Made once per trial, on the worker; then
// only read.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff::gui {

class LoadIndex {
public:
    explicit LoadIndex(const Trial& trial);

    // False where nothing took metal.
    bool known() const { return !greatest_.empty() && most_ > 0; }
    // What the figures of the lane are: power at the cut, kW, where forces are known; else the removal rate, cm3/min.
    bool isPower() const { return isPower_; }
    double most() const { return most_; }
    // Greatest over timed moves [first, last); first < last.
    float greatest(std::size_t first, std::size_t last) const;

    // One figure of the lane and when.
    struct At {
        double timeS = 0;
        float value = 0;
    };
    // Of one timed move, in order of time; empty where it took no metal.
    std::vector<At> along(const Trial& trial, std::size_t timedMove) const;

private:
    float valueOf(const LoadSample& sample) const;

    bool isPower_ = false;
    double most_ = 0;
    std::vector<std::vector<float>> greatest_;  // level 0: per timed move; each next one per group of them
};

// The load at a place of a timed move, between its samples by straight line; nothing where it takes no metal.
std::optional<LoadSample> loadAt(const Trial& trial, std::size_t timedMove, double fraction);
// What gives way there, likewise; nothing where it is not known.
std::optional<BendingSample> bendingAt(const Trial& trial, std::size_t timedMove, double fraction);
// When a timed move is at a part of its length, s.
double timeAt(const Trial& trial, std::size_t timedMove, double fraction);

}  // namespace firstoff::gui
