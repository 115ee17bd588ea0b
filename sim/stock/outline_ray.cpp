#include "sim/stock/outline_ray.h"

#include <cmath>
#include <limits>

namespace firstoff {

namespace {

// Elements reach this much over their ends, so that no ray slips through a joint; the error is of its second order.
constexpr double kJointMm = 1e-9;

struct Meetings {
    RayHit in;
    double out = -std::numeric_limits<double>::infinity();

    void take(double way, bool enters, int element) {
        if (!enters) {
            out = std::max(out, way);
        } else if (in.element < 0 || way < in.way) {
            in = {way, element};
        }
    }
};

void meetEdge(const OutlineElement& e, Point start, Point along, int index, Meetings& met) {
    const Point d = e.to - e.from;
    const double turn = cross(along, d);
    if (turn == 0) return;
    const Point to = e.from - start;
    const double way = cross(to, d) / turn;
    const double part = cross(to, along) / turn;
    const double over = kJointMm / length(d);
    // The outline runs anticlockwise: its inside lies to the left of the edge.
    if (part >= -over && part <= 1 + over) met.take(way, cross(d, along) > 0, index);
}

void meetArc(const OutlineElement& e, Point start, Point along, int index, Meetings& met) {
    const Point c = e.centre - start;
    const double middle = dot(c, along);
    const double off = cross(along, c);
    const double square = e.radius * e.radius - off * off;
    if (square < 0) return;
    const double half = std::sqrt(square);
    const Point chord = e.to - e.from;
    const double over = kJointMm * length(chord);
    for (double way : {middle - half, middle + half}) {
        // On the arc, which is shorter than half a turn: outside its chord.
        const Point p = start + way * along;
        if (cross(chord, p - e.from) <= over) met.take(way, way < middle, index);
    }
}

}  // namespace

RayHit firstMeeting(const Outline& outline, Point start, Point along) {
    Meetings met;
    for (std::size_t i = 0; i < outline.elements.size(); ++i) {
        const OutlineElement& e = outline.elements[i];
        if (e.radius > 0) {
            meetArc(e, start, along, static_cast<int>(i), met);
        } else {
            meetEdge(e, start, along, static_cast<int>(i), met);
        }
    }
    if (met.in.element < 0 || met.out < 0) return {};
    if (met.in.way < 0) met.in.way = 0;
    return met.in;
}

Outline turnedOutline(const Outline& outline, Point along) {
    const auto turned = [&](Point p) { return Point{dot(along, p), cross(along, p)}; };
    Outline result = outline;
    for (OutlineElement& e : result.elements) {
        e.from = turned(e.from);
        e.to = turned(e.to);
        e.centre = turned(e.centre);
    }
    return result;
}

}  // namespace firstoff
