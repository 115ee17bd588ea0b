#include "sim/base/contour.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

std::vector<Point> polyline(const Contour& contour, double chordErrorMm) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < contour.size(); ++i) {
        const ContourCorner& corner = contour[i];
        points.push_back(corner.at);
        const Point chord = contour[(i + 1) % contour.size()].at - corner.at;
        const double length = firstoff::length(chord);
        if (corner.bulge == 0 || length == 0) continue;
        const double turn = 4 * std::atan(corner.bulge);
        const double radius = length / (2 * std::abs(std::sin(turn / 2)));
        const Point centre = corner.at + 0.5 * chord + (1 / (2 * std::tan(turn / 2))) * leftOf(chord);
        const double ratio = std::clamp(1 - chordErrorMm / radius, -1.0, 1.0);
        const int count = std::max(1, static_cast<int>(std::ceil(std::abs(turn) / (2 * std::acos(ratio)))));
        const Point start = corner.at - centre;
        for (int k = 1; k < count; ++k) {
            const double angle = turn * k / count;
            points.push_back(centre + std::cos(angle) * start + std::sin(angle) * leftOf(start));
        }
    }
    return points;
}

}  // namespace firstoff
