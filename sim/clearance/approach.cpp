// Notation: along one straight piece from a to b, x is the way from a, f(x) the gap. f is convex (distance from a
// convex zone, inside it the negative distance from its boundary), and away · u, u the direction of travel, is a slope
// of it. So every tangent lies below f: two of them give a lower bound of its minimum, every reading an upper one.
// Readings are added where the tangents meet until the two bounds agree (cutting planes). The bound from below is what
// is told.
#include "sim/clearance/approach.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

using Reading = ContactZone::Reading;

constexpr double kAgreeMm = 1e-9;
constexpr int kMostReadings = 200;  // some ten are usual; the bound from below holds whenever it stops

// A straight piece with what is read along it.
struct Piece {
    const ContactZone& zone;
    Point from;
    Point u;
    double length = 0;

    Point at(double x) const { return from + x * u; }
    Reading read(double x, int hint) const { return zone.at(at(x), hint); }
    double slope(const Reading& r) const { return dot(r.away, u); }
};

struct Lowest {
    double bound = 0;  // never above the minimum
    double x = 0;
    Reading reading;  // at x
};

// Between `left`, where f falls, and `right`, where it rises.
Lowest lowestBetween(const Piece& piece, Reading left, Reading right) {
    double a = 0, b = piece.length;
    Lowest low = left.gap < right.gap ? Lowest{0, a, left} : Lowest{0, b, right};
    for (int i = 0;; ++i) {
        const double sa = piece.slope(left), sb = piece.slope(right);
        const double x = std::clamp((right.gap - left.gap + sa * a - sb * b) / (sa - sb), a, b);
        low.bound = std::min(low.reading.gap, left.gap + sa * (x - a));
        if (low.reading.gap - low.bound <= kAgreeMm || i == kMostReadings) return low;
        // Every third reading halves, so that no shape of f can hold the two bounds apart for long.
        const double next = i % 3 == 2 ? (a + b) / 2 : x;
        const Reading reading = piece.read(next, low.reading.feature);
        if (reading.gap < low.reading.gap) low = {low.bound, next, reading};
        const double slope = piece.slope(reading);
        if (slope == 0) {
            low.bound = low.reading.gap;
            return low;
        }
        (slope < 0 ? a : b) = next;
        (slope < 0 ? left : right) = reading;
    }
}

Lowest lowestOn(const Piece& piece, const Reading& start, const Reading& end) {
    if (piece.slope(start) * piece.length >= -kAgreeMm) {
        return {std::min(start.gap, start.gap + piece.slope(start) * piece.length), 0, start};
    }
    if (piece.slope(end) * piece.length <= kAgreeMm) {
        return {std::min(end.gap, end.gap - piece.slope(end) * piece.length), piece.length, end};
    }
    return lowestBetween(piece, start, end);
}

// First x at which f falls to `level`, between a start above it and a low point that is not. Tangents of a convex f
// reach the level before f does, so the steps never pass it.
double firstFallTo(double level, const Piece& piece, Reading reading, double lowX) {
    double x = 0;
    for (int i = 0; i < kMostReadings && reading.gap - level > kAgreeMm; ++i) {
        const double slope = piece.slope(reading);
        if (slope >= 0) break;
        x = std::min(x + (level - reading.gap) / slope, lowX);
        if (x == lowX) break;
        reading = piece.read(x, reading.feature);
    }
    return x;
}

double lengthOf(const TipWay& way) {
    double total = 0;
    for (std::size_t i = 1; i < way.points.size(); ++i) total += distance(way.points[i - 1], way.points[i]);
    return total;
}

}  // namespace

Box TipWay::box() const {
    Box box{points[0].z, points[0].z, points[0].r, points[0].r};
    for (Point p : points) {
        box.zMin = std::min(box.zMin, p.z);
        box.zMax = std::max(box.zMax, p.z);
        box.rMin = std::min(box.rMin, p.r);
        box.rMax = std::max(box.rMax, p.r);
    }
    return {box.zMin - slack, box.zMax + slack, box.rMin - slack, box.rMax + slack};
}

Approach approach(const ContactZone& zone, const TipWay& way, const Reading* atStart, Reading* atEnd) {
    Reading reading = atStart ? *atStart : zone.at(way.points[0]);
    Approach result;
    result.gap = reading.gap;
    result.tip = way.points[0];
    result.reading = reading;
    if (reading.gap <= way.slack) {
        result.contactAt = 0;
        result.contactTip = way.points[0];
        result.contactReading = reading;
    }
    double before = 0;
    for (std::size_t i = 1; i < way.points.size(); ++i) {
        const Point on = way.points[i] - way.points[i - 1];
        Piece piece{zone, way.points[i - 1], {}, std::sqrt(dot(on, on))};
        if (piece.length == 0) continue;
        piece.u = (1 / piece.length) * on;
        const Reading end = zone.at(way.points[i], reading.feature);
        const Lowest low = lowestOn(piece, reading, end);
        if (low.bound < result.gap) {
            result.gap = low.bound;
            result.tip = piece.at(low.x);
            result.reading = low.reading;
        }
        if (low.bound <= way.slack && result.contactAt < 0) {
            const double x = firstFallTo(way.slack, piece, reading, low.x);
            result.contactAt = before + x;
            result.contactTip = piece.at(x);
            result.contactReading = piece.read(x, reading.feature);
        }
        before += piece.length;
        reading = end;
    }
    if (result.contactAt > 0) result.contactAt = std::min(1.0, result.contactAt / lengthOf(way));
    result.gap -= way.slack;
    if (atEnd) *atEnd = reading;
    return result;
}

double leastGap(const Box& way, const Box& zone) {
    const double dz = std::max(zone.zMin - way.zMax, way.zMin - zone.zMax);
    const double dr = std::max(zone.rMin - way.rMax, way.rMin - zone.rMax);
    if (dz <= 0 && dr <= 0) return -std::numeric_limits<double>::infinity();
    const double z = std::max(0.0, dz), r = std::max(0.0, dr);
    return std::sqrt(z * z + r * r);
}

}  // namespace firstoff
