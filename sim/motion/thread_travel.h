// Time along a thread: every revolution of the spindle takes the slide on by the lead.
//
// Notation. n: revolutions since the start, N(rho): spindle speed at the programmed radius rho. Time is the integral of
// dn / N. Where the speed is constant that is n / N; under constant surface speed, N = H / |rho| with rho running
// evenly along the way, so that with s = F n + K n² / 2 (thread_lead.h) and rho = rho0 + m s
//     the integral of rho dn = rho0 n + m (F n² / 2 + K n³ / 6).
// The way is cut where the speed clamp begins to hold and where the path crosses the axis; each stretch has one law.
#pragma once

#include "sim/control/thread_lead.h"
#include "sim/motion/pace.h"

namespace firstoff {

struct ThreadTravel {
    double radiusFrom = 0;  // programmed, signed, mm
    double radiusTo = 0;
    double way = 0;      // along the longer axis, mm
    LeadLaw lead;        // lead > 0
    SpindleLaw spindle;  // turning
};

double seconds(const ThreadTravel& travel);
// Part of the way covered after `time` seconds, 0 to 1.
double fractionAfter(const ThreadTravel& travel, double time);
// The greatest pace along the longer axis, mm/min; under surface speed the greater of both ends.
double fastestMmPerMin(const ThreadTravel& travel);

}  // namespace firstoff
