// How far the spindle has turned, for the picture.
#pragma once

#include <vector>

#include "sim/motion/timeline.h"

namespace firstoff::gui {

// The eye cannot follow thousands of revolutions a minute, and a picture of them at 60 a second would stand still or
// run backwards. So the picture turns slower by a fixed ratio: faster stays faster, and an instant always looks the
// same.
class SpindleTurn {
public:
    static constexpr double kSlower = 1.0 / 40;

    explicit SpindleTurn(const Timeline& timeline, const Toolpath& toolpath);
    // Angle at `timeS`, rad, positive about +z of the lathe (M03).
    double at(double timeS) const;

private:
    struct Stretch {
        double t0, t1, revPerS0, revPerS1;  // signed: reverse is negative
        double turnsBefore;
    };
    std::vector<Stretch> stretches_;
};

}  // namespace firstoff::gui
