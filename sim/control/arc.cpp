// Notation: a start, b end, m the middle of the chord a–b, d its length, c the centre.
// From R: c = m ± h n, with n the unit normal of the chord to its left and h = sqrt(R² - d²/4). Going clockwise by less
// than half a turn, the centre lies to the right; anticlockwise, or clockwise by more, to the left (NISTIR 6556
// sec. 3.5.3.1; elementary geometry).
#include "sim/control/arc.h"

#include <algorithm>
#include <cmath>

#include "sim/base/tolerances.h"

namespace firstoff {

ArcCentre arcAround(Point from, Point to, Point centre, double closureMm) {
    ArcCentre result;
    result.centre = centre;
    result.startRadius = distance(from, centre);
    result.endRadius = distance(to, centre);
    result.chord = distance(from, to);
    const double smallest = std::min(result.startRadius, result.endRadius);
    const double difference = std::abs(result.startRadius - result.endRadius);
    // The sum of decimal figures is off by some 1e-12: a mismatch of exactly the tolerance is allowed.
    if (difference > closureMm + tolerance::kSamePlaceMm) {
        result.fault = ArcCentre::Fault::DoesNotClose;
    } else if (smallest < tolerance::kSamePlaceMm) {
        result.fault = ArcCentre::Fault::NoRadius;
    } else if (difference > 0 && result.chord > smallest) {
        const Point along = (1.0 / result.chord) * (to - from);
        const Point middle = 0.5 * (from + to);
        result.centre = centre - dot(centre - middle, along) * along;
    }
    return result;
}

ArcCentre arcOfRadius(Point from, Point to, double radius, bool clockwise, double closureMm) {
    ArcCentre result;
    result.chord = distance(from, to);
    result.startRadius = result.endRadius = std::abs(radius);
    if (std::abs(radius) < tolerance::kSamePlaceMm) {
        result.fault = ArcCentre::Fault::NoRadius;
        return result;
    }
    if (result.chord < tolerance::kSamePlaceMm) {
        result.fault = ArcCentre::Fault::NoChord;
        return result;
    }
    const double half = result.chord / 2;
    if (half > std::abs(radius) + closureMm / 2 + tolerance::kSamePlaceMm) {
        result.fault = ArcCentre::Fault::RadiusTooSmall;
        return result;
    }
    const double height = std::sqrt(std::fmax(0.0, radius * radius - half * half));
    const Point left = (1.0 / result.chord) * leftOf(to - from);
    const bool centreLeft = clockwise == (radius < 0);
    result.centre = 0.5 * (from + to) + (centreLeft ? height : -height) * left;
    return result;
}

}  // namespace firstoff
