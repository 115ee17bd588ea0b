#include "sim/trial/flank_clearance.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

double flankIntoWallMm(double wallRadius, double edgeHeight, double clearanceAngle, double flankHeight) {
    const double k = std::tan(clearanceAngle);
    const double x = std::sqrt(std::max(0.0, wallRadius * wallRadius - edgeHeight * edgeHeight));
    const double t = flankHeight;
    const double squared = wallRadius * wallRadius + t * (t * (1 + k * k) - 2 * (x * k + edgeHeight));
    return std::sqrt(std::max(0.0, squared)) - wallRadius;
}

double smallestClearedRadiusMm(double clearanceAngle, double flankHeight) {
    return flankHeight / std::sin(2 * clearanceAngle);
}

}  // namespace firstoff
