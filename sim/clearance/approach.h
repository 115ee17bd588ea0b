// How near a tool comes to a body on its way along a path.
#pragma once

#include <vector>

#include "sim/base/outline.h"
#include "sim/base/point.h"
#include "sim/clearance/contact_zone.h"

namespace firstoff {

// The way of the tool tip, lathe frame: straight from point to point, each of which lies on the path; the path itself
// is nowhere further than `slack` from it.
struct TipWay {
    std::vector<Point> points;  // at least one
    double slack = 0;

    Box box() const;  // of the path itself
};

struct Approach {
    // Never above the true smallest gap along the path, and no more than twice the slack and 1e-9 mm below it.
    double gap = 0;
    Point tip;  // where that is
    ContactZone::Reading reading;
    double contactAt = -1;  // fraction of the length at first contact; -1: none
    Point contactTip;
    ContactZone::Reading contactReading;
};

// `atStart`: reading at the first point, for speed, if it is known.
Approach approach(const ContactZone& zone, const TipWay& way, const ContactZone::Reading* atStart = nullptr,
                  ContactZone::Reading* atEnd = nullptr);

// Never more than the true gap between a path and a zone; minus infinity where their boxes overlap.
double leastGap(const Box& way, const Box& zone);

}  // namespace firstoff
