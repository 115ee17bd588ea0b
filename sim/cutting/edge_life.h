// What a part takes of the life of an edge, by Taylor's V T^n = C: V m/min, T min
// (tests/reference/taylor_tool_life.csv).
//
// n and C hold for one edge in one material at one feed and depth; makers and textbooks differ widely. So they come
// from the set-up and from nowhere else, and where it gives none there is no life.
#pragma once

#include <optional>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/cutting/cutting_load.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

struct EdgeUse {
    int toolIndex = -1;
    double cuttingS = 0;  // in metal
    double lengthM = 0;   // of the chip's path over the edge: speed integrated over that time
    double greatestMPerMin = 0;
    // Where the set-up gives n and C: sum of dt / T(V), and how many parts an edge and an insert last.
    std::optional<double> share;
    std::optional<double> partsPerEdge;
    std::optional<double> partsPerInsert;
};

// In order of tools, those that took metal. The speed is that where the edge meets metal farthest from the axis, of an
// outside cut at the diameter before it: Taylor's V is the speed there, and the edge wears most there. Of tools on the
// axis it is that at their outer diameter. Within a move, time is shared out as the feed goes: by the
// turns of the spindle where it is per revolution.
std::vector<EdgeUse> edgeUses(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                              const LoadResult& loads);

// min; asserts speed > 0, n > 0, c > 0.
double taylorLifeMin(double speedMPerMin, double n, double c);
// m/min at which an edge lasts `lifeMin`; asserts the same.
double taylorSpeedMPerMin(double lifeMin, double n, double c);
// n from two speeds and the lives found at them; asserts that they are above 0 and differ.
double taylorExponent(double firstMPerMin, double firstMin, double secondMPerMin, double secondMin);

}  // namespace firstoff
