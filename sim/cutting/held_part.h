// What holds the part while a timed move runs.
#pragma once

#include <cstdint>
#include <optional>

#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

struct HeldPart {
    bool chuckOpen = false;
    bool secondSpindleGrips = false;
    std::optional<double> centreZ;  // point of the tailstock's centre, lathe frame, wherever it stands

    // By the chuck alone, with or without a centre: what grip and bending are reckoned for.
    bool byTheChuck() const { return !chuckOpen && !secondSpindleGrips; }
    // A centre whose point stands behind the front of the part.
    bool centreIn(double frontZ) const { return centreZ && *centreZ < frontZ; }
};

// Goes forward through the timed moves, so that a long program costs no search for each.
class HeldAlong {
public:
    // The references must outlive it.
    HeldAlong(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup) {}

    // `timedMove` must not fall from one call to the next.
    const HeldPart& at(std::uint32_t timedMove);

private:
    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    std::size_t event_ = 0;  // the next of Toolpath::machineEvents
    bool known_ = false;
    HeldPart now_;
};

}  // namespace firstoff
