// Notation: u outward unit normal, tau = leftOf(u) the anticlockwise direction along the boundary. Features of the tool
// turned half round (-T) are put together first: an edge with its normal, an arc or a corner with the normals it spans.
// Each corner b of the body spans the normals between its two edges; there Z follows b + (-T). Each edge of the body,
// with normal m, is lengthened by the edge of -T that has the same normal, if there is one, and sits where -T reaches
// furthest along m. So every normal of the circle belongs to one feature of Z, and a point outside is nearest to the
// feature that has it within its normals.
#include "sim/clearance/contact_zone.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "sim/base/units.h"

namespace firstoff {

namespace {

// Two places or two reaches nearer than this, mm, are one: far above rounding, far below what gaps are told to.
constexpr double kSame = 1e-9;
// Sine of an angle too small to matter at any size of a lathe.
constexpr double kNoAngle = 1e-12;

Point outwardOf(Point along) {
    return -leftOf(along);
}

// From a anticlockwise to b, in [0, 2 pi).
double turn(Point a, Point b) {
    const double angle = std::atan2(cross(a, b), dot(a, b));
    return angle < 0 ? angle + 2 * kPi : angle;
}

}  // namespace

ContactZone::ContactZone(const std::vector<Point>& corners, const Outline& tool) {
    assert(corners.size() >= 3 && !tool.empty());
    std::vector<Feature> turned;  // of -T
    for (const OutlineElement& e : tool.elements) {
        Feature f;
        if (e.radius > 0) {
            f.origin = -e.centre;
            f.radius = e.radius;
            f.first = (1 / distance(e.centre, e.from)) * (e.centre - e.from);
            f.last = (1 / distance(e.centre, e.to)) * (e.centre - e.to);
        } else {
            f.length = distance(e.from, e.to);
            if (f.length <= kSame) continue;
            f.edge = true;
            f.origin = -e.from;
            f.first = f.last = outwardOf((1 / f.length) * (e.from - e.to));
        }
        turned.push_back(f);
    }
    const std::size_t count = turned.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Feature& next = turned[(i + 1) % count];
        Feature corner;
        corner.first = turned[i].last;
        corner.last = next.first;
        if (cross(corner.first, corner.last) <= kNoAngle) continue;
        corner.origin = next.origin + next.radius * next.first;
        turned.push_back(corner);
    }

    const std::size_t n = corners.size();
    const auto normal = [&](std::size_t edge) {
        const Point from = corners[edge % n], to = corners[(edge + 1) % n];
        return outwardOf((1 / distance(from, to)) * (to - from));
    };
    for (std::size_t i = 0; i < n; ++i) {
        addBodyEdge(corners[i], corners[(i + 1) % n], turned);
        const Corner corner{corners[i], normal(i + n - 1), normal(i)};
        for (const Feature& f : turned) f.edge ? addEdge(f, corner) : addArc(f, corner);
    }

    constexpr double inf = std::numeric_limits<double>::infinity();
    box_ = {inf, -inf, inf, -inf};
    const Box t = boundingBox(tool);
    for (Point c : corners) {
        box_.zMin = std::min(box_.zMin, c.z - t.zMax);
        box_.zMax = std::max(box_.zMax, c.z - t.zMin);
        box_.rMin = std::min(box_.rMin, c.r - t.rMax);
        box_.rMax = std::max(box_.rMax, c.r - t.rMin);
    }
}

void ContactZone::addBodyEdge(Point from, Point to, const std::vector<Feature>& tool) {
    Feature f;
    f.edge = true;
    f.onBody = from;
    f.bodyLength = distance(from, to);
    const Point along = (1 / f.bodyLength) * (to - from);
    f.first = f.last = outwardOf(along);
    double reach = -std::numeric_limits<double>::infinity();
    Point start, end;  // of the stretch of -T that reaches furthest
    const auto take = [&](Point p) {
        const double here = dot(p, f.first);
        if (here > reach + kSame) {
            reach = here;
            start = end = p;
        } else if (here >= reach - kSame) {
            if (dot(p, along) < dot(start, along)) start = p;
            if (dot(p, along) > dot(end, along)) end = p;
        }
    };
    for (const Feature& t : tool) {
        take(t.origin + t.radius * t.first);
        if (t.edge) take(t.origin + t.length * leftOf(t.first));
        if (t.edge || t.radius == 0) continue;
        take(t.origin + t.radius * t.last);
        if (turn(t.first, f.first) <= turn(t.first, t.last)) take(t.origin + t.radius * f.first);
    }
    f.origin = from + start;
    f.length = f.bodyLength + dot(end - start, along);
    features_.push_back(f);
}

void ContactZone::addEdge(const Feature& toolEdge, const Corner& corner) {
    const Point u = toolEdge.first;
    const auto isParallel = [&](Point m) { return dot(u, m) > 0 && std::abs(cross(u, m)) * toolEdge.length <= kSame; };
    if (isParallel(corner.first) || isParallel(corner.last)) return;  // part of the body's edge
    if (turn(corner.first, u) > turn(corner.first, corner.last)) return;
    Feature f = toolEdge;
    f.origin = corner.at + toolEdge.origin;
    f.onBody = corner.at;
    features_.push_back(f);
}

void ContactZone::addArc(const Feature& toolArc, const Corner& corner) {
    const double width = turn(corner.first, corner.last);
    const double start = turn(corner.first, toolArc.first);
    const double end = start + turn(toolArc.first, toolArc.last);
    Feature f = toolArc;
    f.origin = corner.at + toolArc.origin;
    f.onBody = corner.at;
    // Both spans are below half a turn, so they share one stretch of normals at most.
    if (start <= width) {
        if (end > width) f.last = corner.last;
    } else {
        if (end <= 2 * kPi) return;
        f.first = corner.first;
        if (end - 2 * kPi > width) f.last = corner.last;
    }
    if (cross(f.first, f.last) > kNoAngle) features_.push_back(f);
}

// Gap by one feature; true if the point is outside and nearest to it.
bool ContactZone::read(const Feature& f, Point tip, Reading& reading) const {
    const Point v = tip - f.origin;
    if (f.edge) {
        reading.gap = dot(v, f.first);
        reading.away = f.first;
        if (reading.gap < 0) return false;
        const double along = cross(f.first, v);
        return along >= -kSame && along <= f.length + kSame;
    }
    reading.gap = -std::numeric_limits<double>::infinity();
    if (cross(f.first, v) < -kSame || cross(v, f.last) < -kSame || dot(v, f.first + f.last) < 0) return false;
    const double apart = std::sqrt(dot(v, v));
    reading.gap = apart - f.radius;
    reading.away = apart > 0 ? (1 / apart) * v : f.first;
    return reading.gap >= 0;
}

ContactZone::Reading ContactZone::at(Point tip, int hint) const {
    Reading reading;
    reading.feature = hint;
    if (read(features_[hint], tip, reading)) return reading;
    Reading inside = reading;
    const int count = static_cast<int>(features_.size());
    for (int i = 0; i < count; ++i) {
        reading.feature = i;
        if (read(features_[i], tip, reading)) return reading;
        if (reading.gap > inside.gap) inside = reading;
    }
    return inside;
}

Point ContactZone::placeOnBody(const Reading& reading, Point tip) const {
    const Feature& f = features_[reading.feature];
    if (f.bodyLength < 0) return f.onBody;
    // Middle of what the edge of the tool and that of the body share.
    const Point along = leftOf(f.first);
    const double end = dot(tip - f.origin, along);
    const double start = end - (f.length - f.bodyLength);
    const double middle = (std::max(0.0, start) + std::min(f.bodyLength, end)) / 2;
    return f.onBody + std::clamp(middle, 0.0, f.bodyLength) * along;
}

}  // namespace firstoff
