#include "sim/inspection/part_outline.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/contour_geometry.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

constexpr double kOnAxisMm = 1e-6;
// A corner belongs to both its edges: below the rounding of crossings, above that of the corners themselves.
constexpr double kEndMm = 1e-9;
// Sine of the angle below which an edge runs along the line of sight.
constexpr double kAlong = 1e-9;

bool onAxis(Point a, Point b) {
    return std::abs(a.r) < kOnAxisMm && std::abs(b.r) < kOnAxisMm;
}

void widen(Box& box, const Box& other, bool first) {
    if (first) {
        box = other;
        return;
    }
    box.zMin = std::min(box.zMin, other.zMin);
    box.zMax = std::max(box.zMax, other.zMax);
    box.rMin = std::min(box.rMin, other.rMin);
    box.rMax = std::max(box.rMax, other.rMax);
}

// Whether a line through `from` along `d` may pass the box, by the sides its corners lie on.
bool mayPass(const Box& box, Point from, Point d) {
    const double corners[] = {cross(d, Point{box.zMin, box.rMin} - from), cross(d, Point{box.zMin, box.rMax} - from),
                              cross(d, Point{box.zMax, box.rMin} - from), cross(d, Point{box.zMax, box.rMax} - from)};
    const auto [low, high] = std::minmax_element(std::begin(corners), std::end(corners));
    return *low <= kEndMm && *high >= -kEndMm;
}

void hitLine(const OutlineEdge& e, Point from, Point d, std::vector<double>& at) {
    const Point along = e.to - e.from;
    const double size = length(along);
    const double sine = cross(d, along);
    if (std::abs(sine) <= kAlong * size) return;
    const double share = cross(e.from - from, d) / sine;
    const double slack = kEndMm / size;
    if (share < -slack || share > 1 + slack) return;
    at.push_back(cross(e.from - from, along) / sine);
}

void hitArc(const OutlineEdge& e, const EdgeArc& arc, Point from, Point d, std::vector<double>& at) {
    const double nearest = dot(arc.centre - from, d);
    const double off = std::abs(cross(d, arc.centre - from));
    if (off > arc.radius) return;
    const double half = std::sqrt(arc.radius * arc.radius - off * off);
    const double start = std::atan2(e.from.r - arc.centre.r, e.from.z - arc.centre.z);
    const double slack = kEndMm / arc.radius;
    for (double t : {nearest - half, nearest + half}) {
        const Point p = from + t * d - arc.centre;
        double ahead = (std::atan2(p.r, p.z) - start) * (arc.turn > 0 ? 1 : -1);
        ahead -= 2 * kPi * std::floor((ahead + slack) / (2 * kPi));
        if (ahead <= std::abs(arc.turn) + slack) at.push_back(t);
    }
}

}  // namespace

void PartOutline::add(const Contour& contour, const std::vector<CutId>& cuts, bool closed) {
    const std::size_t first = edges_.size();
    const std::size_t count = closed ? contour.size() : contour.size() - 1;
    if (contour.size() < 2) return;
    for (std::size_t i = 0; i < count; ++i) {
        const Point to = edgeEnd(contour, i);
        if (distance(contour[i].at, to) < kEndMm || onAxis(contour[i].at, to)) continue;
        const bool arc = arcOf(contour[i].at, to, contour[i].bulge).has_value();
        OutlineEdge edge{contour[i].at, to, arc ? contour[i].bulge : 0, i < cuts.size() ? cuts[i] : kUncut, 0, 0};
        widen(box_, edgeBox(edge.from, edge.to, edge.bulge), edges_.empty());
        boxes_.push_back(edgeBox(edge.from, edge.to, edge.bulge));
        edges_.push_back(edge);
    }
    const std::size_t end = edges_.size();
    for (std::size_t i = first; i < end; ++i) {
        edges_[i].before = i > first ? i - 1 : closed ? end - 1 : i;
        edges_[i].after = i + 1 < end ? i + 1 : closed ? first : i;
    }
}

std::vector<OutlineHit> PartOutline::hits(Point from, Point d, double least, double most) const {
    std::vector<OutlineHit> result;
    std::vector<double> at;
    for (std::size_t i = 0; i < edges_.size(); ++i) {
        if (!mayPass(boxes_[i], from, d)) continue;
        const OutlineEdge& e = edges_[i];
        at.clear();
        if (e.straight()) {
            hitLine(e, from, d, at);
        } else {
            hitArc(e, *arcOf(e.from, e.to, e.bulge), from, d, at);
        }
        for (double t : at) {
            if (t < least || t > most) continue;
            const Point p = from + t * d;
            result.push_back({t, p, i, cross(directionAt(e, p), d) < 0});
        }
    }
    std::stable_sort(result.begin(), result.end(), [](const OutlineHit& a, const OutlineHit& b) { return a.t < b.t; });
    return result;
}

Point directionAt(const OutlineEdge& e, Point at) {
    const Point chord = e.to - e.from;
    if (e.straight()) return (1 / length(chord)) * chord;
    const EdgeArc arc = *arcOf(e.from, e.to, e.bulge);
    const Point out = at - arc.centre;
    return ((arc.turn > 0 ? 1 : -1) / length(out)) * leftOf(out);
}

double lengthOf(const OutlineEdge& e) {
    if (e.straight()) return distance(e.from, e.to);
    const EdgeArc arc = *arcOf(e.from, e.to, e.bulge);
    return arc.radius * std::abs(arc.turn);
}

Point pointAlong(const OutlineEdge& e, double share) {
    if (e.straight()) return e.from + share * (e.to - e.from);
    const EdgeArc arc = *arcOf(e.from, e.to, e.bulge);
    const double angle = share * arc.turn;
    const Point start = e.from - arc.centre;
    return arc.centre + std::cos(angle) * start + std::sin(angle) * leftOf(start);
}

double distanceTo(const OutlineEdge& e, Point p) {
    const Point c = e.to - e.from;
    if (e.straight()) {
        const double share = std::clamp(dot(p - e.from, c) / dot(c, c), 0.0, 1.0);
        return distance(p, e.from + share * c);
    }
    const EdgeArc arc = *arcOf(e.from, e.to, e.bulge);
    const double start = std::atan2(e.from.r - arc.centre.r, e.from.z - arc.centre.z);
    const Point out = p - arc.centre;
    double ahead = (std::atan2(out.r, out.z) - start) * (arc.turn > 0 ? 1 : -1);
    ahead -= 2 * kPi * std::floor(ahead / (2 * kPi));
    if (ahead <= std::abs(arc.turn)) return std::abs(length(out) - arc.radius);
    return std::min(distance(p, e.from), distance(p, e.to));
}

std::optional<OutlineHit> PartOutline::nearest(Point p) const {
    std::optional<OutlineHit> best;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < edges_.size(); ++i) {
        const Box& box = boxes_[i];
        const double z = std::max({box.zMin - p.z, p.z - box.zMax, 0.0});
        const double r = std::max({box.rMin - p.r, p.r - box.rMax, 0.0});
        if (std::max(z, r) >= least) continue;
        const double away = distanceTo(edges_[i], p);
        if (away >= least) continue;
        least = away;
        best = OutlineHit{away, p, i, false};
    }
    return best;
}

}  // namespace firstoff
