#include "sim/base/contour.h"

#include <algorithm>
#include <cmath>

#include "sim/base/contour_geometry.h"

namespace firstoff {

std::vector<Point> polyline(const Contour& contour, double chordErrorMm) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < contour.size(); ++i) {
        const ContourCorner& corner = contour[i];
        points.push_back(corner.at);
        const std::optional<EdgeArc> arc = arcOf(corner.at, edgeEnd(contour, i), corner.bulge);
        if (!arc) continue;
        const double ratio = std::clamp(1 - chordErrorMm / arc->radius, -1.0, 1.0);
        const int count = std::max(1, static_cast<int>(std::ceil(std::abs(arc->turn) / (2 * std::acos(ratio)))));
        const Point start = corner.at - arc->centre;
        for (int k = 1; k < count; ++k) {
            const double angle = arc->turn * k / count;
            points.push_back(arc->centre + std::cos(angle) * start + std::sin(angle) * leftOf(start));
        }
    }
    return points;
}

}  // namespace firstoff
