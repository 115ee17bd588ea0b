// The centre of an arc from the words of its block.
#pragma once

#include "sim/base/point.h"

namespace firstoff {

struct ArcCentre {
    enum class Fault : unsigned char {
        None,
        DoesNotClose,    // start and end radius differ by more than allowed
        RadiusTooSmall,  // R is less than half of the chord
        NoChord,         // R with an end point equal to the start: the centre could be anywhere
        NoRadius,        // the centre is the start or end point, or R is 0
    };
    Point centre;
    double startRadius = 0;
    double endRadius = 0;
    double chord = 0;
    Fault fault = Fault::None;
};

// From I and K. Start and end radius may differ by `closureMm`; what they differ by is halved by moving the centre
// along the chord, where the chord is long enough for that to be a small step.
ArcCentre arcAround(Point from, Point to, Point centre, double closureMm);

// From R: positive turns at most half a turn, negative more. A chord longer than the diameter by no more than
// `closureMm` counts as a half turn.
ArcCentre arcOfRadius(Point from, Point to, double radius, bool clockwise, double closureMm);

}  // namespace firstoff
