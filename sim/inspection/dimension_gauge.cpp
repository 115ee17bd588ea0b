#include "sim/inspection/dimension_gauge.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "sim/base/contour_geometry.h"
#include "sim/base/say.h"
#include "sim/inspection/fitted_circle.h"

namespace firstoff {

namespace {

using Kind = WantedDimension::Kind;
constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr double kOnAxisMm = 1e-6;

// What counts as a cylinder and as a face: half a degree off, more than any tool deflects, less than any taper that is
// drawn.
constexpr double kSquare = 0.0087;
// What counts as a chamfer or a cone: 3 degrees off both.
constexpr double kSloped = 0.052;
constexpr double kShortestFaceMm = 0.02;
// A place no farther from a shoulder than this lies on it: columns stand 2 µm apart, and no gauge is set finer.
constexpr double kOnShoulderMm = 0.005;
// A cone whose middle stands off the line between its ends by more than this is none.
constexpr double kStraightMm = 0.01;
// Chords that an arc is drawn in where it is not exact, and how far their corners may lie off one circle.
constexpr double kChordMm = 0.3;
constexpr double kRoundMm = 0.005;
constexpr std::size_t kLeastCorners = 5;

Point chord(const OutlineEdge& e) {
    return e.to - e.from;
}
bool isCylinder(const OutlineEdge& e) {
    return e.straight() && std::abs(chord(e).r) <= kSquare * std::abs(chord(e).z);
}
bool isFace(const OutlineEdge& e) {
    return e.straight() && std::abs(chord(e).z) <= kSquare * std::abs(chord(e).r);
}
bool isSloped(const OutlineEdge& e) {
    const Point c = chord(e);
    return e.straight() && std::abs(c.z) > kSloped * std::abs(c.r) && std::abs(c.r) > kSloped * std::abs(c.z);
}
bool isArc(const OutlineEdge& e) {
    return !e.straight();
}
// dr/dz of the surface at a place of it.
double slopeAt(const OutlineEdge& e, Point at) {
    const Point way = directionAt(e, at);
    return way.z == 0 ? 0 : way.r / way.z;
}

}  // namespace

GaugeReading DimensionGauge::read(const WantedDimension& d, double middle) const {
    switch (d.kind) {
        case Kind::Diameter:
            return diameter(d, middle);
        case Kind::Length:
            return lengthBetween(d);
        case Kind::Taper:
            return taper(d);
        case Kind::Radius:
            return radius(d);
        case Kind::Chamfer:
            return chamfer(d);
        case Kind::GrooveWidth:
            return grooveWidth(d);
        case Kind::Thread:
        case Kind::RunOut:
            break;
    }
    return {};
}

std::string DimensionGauge::spoken(Point lathe) const {
    return fmt::format("X{:.3f} Z{:.3f}", 2 * (lathe.r - datum_.r), lathe.z - datum_.z);
}

GaugeReading DimensionGauge::nothingAt(const WantedDimension& d, double z) const {
    GaugeReading reading;
    reading.trouble =
        d.inside ? say("there is no bore at Z{:.3f}", z - datum_.z) : say("there is no metal at Z{:.3f}", z - datum_.z);
    return reading;
}

// The outermost (innermost) surface at a lathe z, or that nearest to the diameter given.
std::optional<OutlineHit> DimensionGauge::surfaceAt(const PartOutline& part, const WantedDimension& d, double z) const {
    std::optional<OutlineHit> best;
    for (const OutlineHit& hit : part.hits({z, 0}, {0, 1}, kOnAxisMm, kFar)) {
        if (hit.leavesMetal == d.inside) continue;
        const bool nearer =
            best && d.at.r > 0 && std::abs(hit.at.r - d.at.r - datum_.r) < std::abs(best->at.r - d.at.r - datum_.r);
        if (!best || nearer || (d.at.r == 0 && !d.inside)) best = hit;
    }
    return best;
}

// Over a thread the anvils lie on its crests.
OutlineHit DimensionGauge::crestNear(const OutlineHit& hit, bool inside, double reach) const {
    OutlineHit best = hit;
    for (std::size_t i = 0; i < part_.edges().size(); ++i) {
        const OutlineEdge& e = part_.edges()[i];
        if ((chord(e).z > 0) != inside) continue;
        for (Point p : {e.from, e.to}) {
            const double beyond = inside ? best.at.r - p.r : p.r - best.at.r;
            // Where a flank runs up to the crest, the crest itself.
            const bool crest = std::abs(beyond) <= kOnAxisMm && isCylinder(e) && !isCylinder(part_.edges()[best.edge]);
            if (std::abs(p.z - hit.at.z) > reach || (beyond <= kOnAxisMm && !crest)) continue;
            best.at = p;
            best.edge = i;
        }
    }
    return best;
}

// The stretches of the cylinder that the hit lies on; the place of the hit alone where it is none.
std::vector<GaugedStretch> DimensionGauge::cylinderAround(const OutlineHit& hit) const {
    const std::vector<OutlineEdge>& edges = part_.edges();
    const OutlineEdge& first = edges[hit.edge];
    if (!isCylinder(first)) return {{hit.at, hit.at, first.cut, slopeAt(first, hit.at)}};
    const auto stretch = [&](std::size_t i) {
        return GaugedStretch{edges[i].from, edges[i].to, edges[i].cut, slopeAt(edges[i], edges[i].from)};
    };
    std::vector<GaugedStretch> all{stretch(hit.edge)};
    for (const bool forward : {false, true}) {
        std::size_t at = hit.edge;
        for (std::size_t count = 0; count < edges.size(); ++count) {
            const std::size_t next = forward ? edges[at].after : edges[at].before;
            if (next == at || next == hit.edge) break;
            if (!isCylinder(edges[next]) || (chord(edges[next]).z > 0) != (chord(first).z > 0)) break;
            all.push_back(stretch(next));
            at = next;
        }
    }
    return all;
}

// The shoulder, or end, at whose edge the hit lies: what stands there is neither the one diameter nor the other.
std::optional<DimensionGauge::Face> DimensionGauge::shoulderAt(const OutlineHit& hit) const {
    for (const OutlineEdge& e : part_.edges()) {
        if (!isFace(e) || std::abs(chord(e).r) < kShortestFaceMm) continue;
        const auto [least, most] = std::minmax(e.from.r, e.to.r);
        if (hit.at.r < least - kOnShoulderMm || hit.at.r > most + kOnShoulderMm) continue;
        const double share = std::clamp((hit.at.r - e.from.r) / chord(e).r, 0.0, 1.0);
        const Point p = e.from + share * chord(e);
        if (std::abs(p.z - hit.at.z) <= kOnShoulderMm) return Face{p, e.cut};
    }
    return std::nullopt;
}

GaugeReading DimensionGauge::diameter(const WantedDimension& d, double middle) const {
    const double z = d.at.z + datum_.z;
    auto hit = surfaceAt(part_, d, z);
    if (!hit) return nothingAt(d, z);
    GaugeReading reading;
    constexpr double kAnvilLeads = 1.5;
    CutId cut = part_.edges()[hit->edge].cut;
    const double lead = leadOf_(cut);
    if (lead > 0) {
        hit = crestNear(*hit, d.inside, kAnvilLeads * lead);
        cut = part_.edges()[hit->edge].cut;
    } else if (const auto shoulder = shoulderAt(*hit)) {
        reading.trouble =
            say("Z{:.3f} lies on a shoulder, at Z{:.3f}: give a place beside it", d.at.z, shoulder->at.z - datum_.z);
        return reading;
    }
    reading.stretches = cylinderAround(*hit);
    const auto other = opposite_ != nullptr && lead == 0 ? surfaceAt(*opposite_, d, z) : std::nullopt;
    if (other && std::abs(other->at.r - hit->at.r) > kOnAxisMm) {
        reading.value = hit->at.r + other->at.r;
        reading.places = {hit->at};
        reading.stretches = {{hit->at, hit->at, cut, 0}};
    } else {
        Point thin = hit->at, thick = hit->at;
        for (const GaugedStretch& s : reading.stretches) {
            for (Point p : {s.from, s.to}) {
                if (p.r < thin.r) thin = p;
                if (p.r > thick.r) thick = p;
            }
        }
        const bool atThin = std::abs(2 * thin.r - middle) > std::abs(2 * thick.r - middle);
        const Point place = thick.r - thin.r > kOnAxisMm ? (atThin ? thin : thick) : hit->at;
        reading.value = 2 * place.r;
        reading.places = {place};
    }
    reading.cuts = {cut};
    return reading;
}

// `at`: lathe frame, r 0 where any will do.
std::optional<DimensionGauge::Face> DimensionGauge::faceNear(Point at, double window) const {
    std::optional<Face> best;
    double nearest = window, longest = 0;
    for (const OutlineEdge& e : part_.edges()) {
        if (!isFace(e)) continue;
        const double size = std::abs(chord(e).r);
        if (size < kShortestFaceMm) continue;
        double share = 0.5;
        if (at.r > 0) share = (at.r - e.from.r) / chord(e).r;
        if (share < -kOnAxisMm || share > 1 + kOnAxisMm) continue;
        const Point p = e.from + share * chord(e);
        const double off = std::abs(p.z - at.z);
        // Of two at one place the longer one.
        if (off > nearest + kOnAxisMm || (off > nearest - kOnAxisMm && best && size <= longest)) continue;
        nearest = std::min(nearest, off);
        longest = size;
        best = Face{p, e.cut};
    }
    return best;
}

GaugeReading DimensionGauge::lengthBetween(const WantedDimension& d) const {
    // A face farther off than half the length would be another one; farther than 5 mm another part.
    const double window = std::clamp(d.size / 2, 0.05, 5.0);
    GaugeReading reading;
    for (Point at : {d.at, d.to}) {
        const Point lathe{at.z + datum_.z, at.r > 0 ? at.r + datum_.r : 0};
        const auto face = faceNear(lathe, window);
        if (!face) {
            reading.trouble = at.r > 0 ? say("no face within {:.3g} mm of Z{:.3f} at X{:.3f}", window, at.z, 2 * at.r)
                                       : say("no face within {:.3g} mm of Z{:.3f}", window, at.z);
            return reading;
        }
        reading.places.push_back(face->at);
        reading.cuts.push_back(face->cut);
    }
    reading.value = std::abs(reading.places[1].z - reading.places[0].z);
    return reading;
}

GaugeReading DimensionGauge::taper(const WantedDimension& d) const {
    const double zFrom = d.at.z + datum_.z, zTo = d.to.z + datum_.z;
    GaugeReading reading;
    std::vector<Point> at;
    for (double share : {0.1, 0.5, 0.9}) {
        const double z = zFrom + share * (zTo - zFrom);
        const auto hit = surfaceAt(part_, d, z);
        if (!hit) return nothingAt(d, z);
        at.push_back(hit->at);
        const OutlineEdge& e = part_.edges()[hit->edge];
        if (share != 0.5) reading.stretches.push_back({hit->at, hit->at, e.cut, slopeAt(e, hit->at)});
        if (share == 0.5) reading.cuts = {part_.edges()[hit->edge].cut};
    }
    const double bow = at[1].r - (at[0].r + at[2].r) / 2;
    if (std::abs(bow) > kStraightMm) {
        reading.trouble = say("what lies between Z{:.3f} and Z{:.3f} is no single cone: it departs by {:.3f} mm",
                              d.at.z, d.to.z, std::abs(bow));
        reading.cuts.clear();
        return reading;
    }
    reading.value = 2 * std::atan(std::abs((at[2].r - at[0].r) / (at[2].z - at[0].z)));
    reading.places = {at[0], at[2]};
    return reading;
}

std::optional<std::size_t> DimensionGauge::nearestEdge(Point at, double within,
                                                       bool (*wanted)(const OutlineEdge&)) const {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < part_.edges().size(); ++i) {
        if (!wanted(part_.edges()[i])) continue;
        const double off = distanceTo(part_.edges()[i], at);
        if (off > within || (best && off == within)) continue;
        within = off;
        best = i;
    }
    return best;
}

// Of the circle that the short chords round an edge lie on.
std::optional<double> DimensionGauge::fittedRadius(std::size_t edge) const {
    const std::vector<OutlineEdge>& edges = part_.edges();
    const auto isChord = [&](std::size_t i) { return edges[i].straight() && lengthOf(edges[i]) < kChordMm; };
    if (!isChord(edge)) return std::nullopt;
    const auto turn = [&](std::size_t a, std::size_t b) { return cross(chord(edges[a]), chord(edges[b])); };
    std::vector<Point> points{edges[edge].from, edges[edge].to};
    double sense = 0;
    for (const bool forward : {false, true}) {
        std::size_t at = edge;
        for (std::size_t count = 0; count < edges.size(); ++count) {
            const std::size_t next = forward ? edges[at].after : edges[at].before;
            if (next == at || next == edge || !isChord(next)) break;
            const double bend = forward ? turn(at, next) : turn(next, at);
            if (sense * bend < 0) break;
            if (sense == 0) sense = bend;
            points.push_back(forward ? edges[next].to : edges[next].from);
            at = next;
        }
    }
    return points.size() < kLeastCorners ? std::nullopt : radiusThrough(points, kRoundMm);
}

// Where it is said to be, or the surface there; nothing where there is none.
std::optional<Point> DimensionGauge::placeOf(const WantedDimension& d) const {
    const double z = d.at.z + datum_.z;
    if (d.at.r != 0) return Point{z, d.at.r + datum_.r};
    const auto hit = surfaceAt(part_, d, z);
    return hit ? std::optional<Point>(hit->at) : std::nullopt;
}

GaugeReading DimensionGauge::radius(const WantedDimension& d) const {
    const std::optional<Point> place = placeOf(d);
    if (!place) return nothingAt(d, d.at.z + datum_.z);
    const Point at = *place;
    constexpr double kLeastReachMm = 0.5;
    const double reach = std::max(d.size / 2, kLeastReachMm);
    GaugeReading reading;
    if (const auto arc = nearestEdge(at, reach, isArc)) {
        const OutlineEdge& e = part_.edges()[*arc];
        reading.value = arcOf(e.from, e.to, e.bulge)->radius;
        reading.places = {pointAlong(e, 0.5)};
        reading.cuts = {e.cut};
        return reading;
    }
    const auto any = nearestEdge(at, reach, [](const OutlineEdge& e) { return e.straight(); });
    if (any) reading.value = fittedRadius(*any);
    if (reading.value) {
        reading.places = {pointAlong(part_.edges()[*any], 0.5)};
        reading.cuts = {part_.edges()[*any].cut};
    } else {
        reading.trouble = say("there is no rounding near {}", spoken(at));
    }
    return reading;
}

GaugeReading DimensionGauge::chamfer(const WantedDimension& d) const {
    const std::optional<Point> place = placeOf(d);
    if (!place) return nothingAt(d, d.at.z + datum_.z);
    const Point at = *place;
    constexpr double kLeastReachMm = 0.2;
    GaugeReading reading;
    const auto edge = nearestEdge(at, std::max(d.size / 2, kLeastReachMm), isSloped);
    if (!edge) {
        reading.trouble = say("there is no chamfer near {}", spoken(at));
        return reading;
    }
    // Two moves along one slope are one chamfer.
    const std::vector<OutlineEdge>& edges = part_.edges();
    Point from = edges[*edge].from, to = edges[*edge].to;
    const auto goesOn = [&](std::size_t i) {
        const Point a = chord(edges[*edge]), b = chord(edges[i]);
        return edges[i].straight() && std::abs(cross(a, b)) <= kSquare * dot(a, b);
    };
    for (std::size_t i = edges[*edge].before; i != *edge && goesOn(i); i = edges[i].before) {
        from = edges[i].from;
        if (edges[i].before == i) break;
    }
    for (std::size_t i = edges[*edge].after; i != *edge && goesOn(i); i = edges[i].after) {
        to = edges[i].to;
        if (edges[i].after == i) break;
    }
    reading.value = std::abs(to.z - from.z);
    reading.places = {0.5 * (from + to)};
    reading.cuts = {edges[*edge].cut};
    return reading;
}

GaugeReading DimensionGauge::grooveWidth(const WantedDimension& d) const {
    const Point at{d.at.z + datum_.z, d.at.r + datum_.r};
    std::optional<OutlineHit> left, right;
    for (const OutlineHit& hit : part_.hits(at, {1, 0}, -kFar, kFar)) {
        if (hit.t <= 0) left = hit;
        if (hit.t > 0 && !right) right = hit;
    }
    GaugeReading reading;
    if ((left && !left->leavesMetal) || (right && right->leavesMetal)) {
        reading.trouble = say("{} lies in metal: there is no groove", spoken(at));
    } else if (!left || !right) {
        reading.trouble =
            left ? say("there is no wall in front of {}", spoken(at)) : say("there is no wall behind {}", spoken(at));
    } else {
        reading.value = right->at.z - left->at.z;
        reading.places = {left->at, right->at};
        reading.cuts = {part_.edges()[left->edge].cut, part_.edges()[right->edge].cut};
    }
    return reading;
}

}  // namespace firstoff
