// Drawings compared edge by edge, whatever entities they were drawn with and whichever way these run.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "sim/drawing/drawing.h"

namespace firstoff::shop {

using DrawnEdge = std::array<Point, 3>;  // start, half way along, end

std::vector<DrawnEdge> edgesOf(const std::vector<DrawnPath>& paths);

// Empty if every edge has its twin in the other list, either way round, within `tolerance`; else what is missing.
std::string differenceOf(std::vector<DrawnEdge> a, std::vector<DrawnEdge> b, double tolerance);

}  // namespace firstoff::shop
