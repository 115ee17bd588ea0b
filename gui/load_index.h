// What the window wants to know quickly about loads, in a trial of any length. Made once per trial, on the worker; then
// only read.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "gui/sample_index.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

class LoadIndex {
public:
    explicit LoadIndex(const Trial& trial);

    // False where nothing took metal.
    bool known() const { return samples_.known(); }
    // What the figures of the lane are: power at the cut, kW, where forces are known; else the removal rate, cm3/min.
    bool isPower() const { return isPower_; }
    double most() const { return samples_.most(); }
    float greatest(std::size_t first, std::size_t last) const { return samples_.greatest(first, last); }
    const SampleIndex& samples() const { return samples_; }
    // How much of the grip each cut asks for: 1 is all that the method permits. Known where the grip is.
    const SampleIndex& grip() const { return grip_; }
    // Error of the diameter that part and bar leave by giving way, mm, without its sign.
    const SampleIndex& bending() const { return bending_; }

private:
    bool isPower_ = false;
    SampleIndex samples_, grip_, bending_;
};

// The load at a place of a timed move, between its samples by straight line; nothing where it takes no metal.
std::optional<LoadSample> loadAt(const Trial& trial, std::size_t timedMove, double fraction);
// What gives way there, likewise; nothing where it is not known.
std::optional<BendingSample> bendingAt(const Trial& trial, std::size_t timedMove, double fraction);
// Of the standing grip, the share that the cut asks for there, likewise.
std::optional<float> gripShareAt(const Trial& trial, std::size_t timedMove, double fraction);
// When a timed move is at a part of its length, s.
double timeAt(const Trial& trial, std::size_t timedMove, double fraction);

}  // namespace firstoff::gui
