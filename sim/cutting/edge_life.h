// What a part takes of the life of an edge, by Taylor's V T^n = C.
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
    double cuttingS = 0;       // in metal
    double lengthM = 0;        // of the chip's path over the edge: speed integrated over that time
    double greatestMPerMin = 0;
    // Where the set-up gives n and C: sum of dt / T(V), and how many parts an edge lasts.
    std::optional<double> share;
    std::optional<double> partsPerEdge;
    std::optional<double> partsPerInsert;
};

// In order of tools, those that took metal.
std::vector<EdgeUse> edgeUses(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                              const LoadResult& loads);

// min; asserts speed > 0, n > 0, c > 0.
double taylorLifeMin(double speedMPerMin, double n, double c);

}  // namespace firstoff
