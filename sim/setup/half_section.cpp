#include "sim/setup/half_section.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace firstoff {

namespace {

bool onAxis(Point p) {
    return std::abs(p.r) <= kChainMm;
}

// A centre line, or the axis drawn to close the outline: neither is needed.
bool liesOnAxis(const DrawnPath& path) {
    return !path.closed && std::all_of(path.corners.begin(), path.corners.end(),
                                       [](const ContourCorner& c) { return onAxis(c.at) && c.bulge == 0; });
}

}  // namespace

std::optional<DrawingUnit> drawingUnitNamed(std::string_view word) {
    if (word == "mm") return DrawingUnit::Millimetre;
    if (word == "cm") return DrawingUnit::Centimetre;
    if (word == "m") return DrawingUnit::Metre;
    if (word == "inch") return DrawingUnit::Inch;
    return std::nullopt;
}

ChainedContours chainHalfSection(std::vector<DrawnPath> paths) {
    std::erase_if(paths, liesOnAxis);
    ChainedContours chained = chainContours(paths);
    std::vector<Point> ends;
    for (const DrawingFault& fault : chained.faults) {
        if (fault.code == "drawing-open-end" && fault.place && onAxis(*fault.place)) ends.push_back(*fault.place);
    }
    if (ends.size() != 2) return chained;
    paths.push_back({{{ends[0], 0}, {ends[1], 0}}, false, {}, 0});
    return chainContours(paths);
}

}  // namespace firstoff
