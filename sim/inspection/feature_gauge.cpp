#include "sim/inspection/feature_gauge.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim/base/contour_geometry.h"

namespace firstoff {

namespace {

using Kind = FeatureReading::Kind;

// Surfaces nearer to level or upright than this over their length are taken as cylinders and faces: a hundredth of a
// micrometre, what rounding leaves of the arithmetic of a path.
constexpr double kLevelMm = 1e-5;

bool level(const SectionFeature& f) {
    return f.kind == SectionFeature::Kind::Straight && std::abs(f.to.r - f.from.r) < kLevelMm;
}
bool upright(const SectionFeature& f) {
    return f.kind == SectionFeature::Kind::Straight && std::abs(f.to.z - f.from.z) < kLevelMm;
}

Point middle(const SectionFeature& f) {
    if (f.kind == SectionFeature::Kind::Arc) return f.centre;
    return 0.5 * (f.from + f.to);
}

// 0 … pi/2.
double angleToAxis(const SectionFeature& f) {
    const Point d = f.to - f.from;
    return std::atan2(std::abs(d.r), std::abs(d.z));
}

FeatureReading position(Point at, Point datum) {
    return {Kind::Position, at.z - datum.z, 2 * (at.r - datum.r), at, at};
}

double squareDistance(Point p, const SectionFeature& line) {
    const Point d = line.to - line.from;
    return std::abs(cross(d, p - line.from)) / length(d);
}

Point footOn(Point p, const SectionFeature& line) {
    const Point d = line.to - line.from;
    return line.from + (dot(p - line.from, d) / dot(d, d)) * d;
}

void addApart(std::vector<FeatureReading>& out, Point a, Point b) {
    out.push_back({Kind::LengthAlong, std::abs(b.z - a.z), 0, a, b});
    out.push_back({Kind::DiameterApart, 2 * std::abs(b.r - a.r), 0, a, b});
    out.push_back({Kind::Distance, distance(a, b), 0, a, b});
}

}  // namespace

SectionFeature surfaceOf(const OutlineEdge& edge) {
    SectionFeature f{SectionFeature::Kind::Straight, edge.from, edge.to, {}, 0, edge.cut};
    if (const auto arc = arcOf(edge.from, edge.to, edge.bulge)) {
        f.kind = SectionFeature::Kind::Arc;
        f.centre = arc->centre;
        f.radius = arc->radius;
    }
    return f;
}

std::optional<SectionFeature> featureNear(const PartOutline& outline, Point place, double cornerMm, double withinMm) {
    const OutlineEdge* corner = nullptr;
    double nearest = cornerMm;
    for (const OutlineEdge& edge : outline.edges()) {
        const double away = distance(edge.from, place);
        if (away > nearest) continue;
        nearest = away;
        corner = &edge;
    }
    if (corner != nullptr)
        return SectionFeature{SectionFeature::Kind::Corner, corner->from, corner->from, {}, 0, corner->cut};
    const auto hit = outline.nearest(place);
    if (!hit || hit->t > withinMm) return std::nullopt;
    return surfaceOf(outline.edges()[hit->edge]);
}

std::vector<FeatureReading> gaugeFeature(const SectionFeature& f, Point datum) {
    const Point mid = middle(f);
    if (f.kind == SectionFeature::Kind::Corner) {
        return {position(f.from, datum)};
    }
    if (f.kind == SectionFeature::Kind::Arc) {
        return {{Kind::Radius, f.radius, 0, f.centre, f.from}, position(f.centre, datum)};
    }
    if (level(f)) {
        return {{Kind::Diameter, 2 * std::abs(mid.r), 0, mid, mid},
                {Kind::LengthAlong, std::abs(f.to.z - f.from.z), 0, f.from, f.to}};
    }
    if (upright(f)) {
        return {position(mid, datum), {Kind::DiameterApart, 2 * std::abs(f.to.r - f.from.r), 0, f.from, f.to}};
    }
    const double angle = angleToAxis(f);
    return {{Kind::ConeAngle, 2 * angle, 0, f.from, f.to},
            {Kind::EdgeAngle, angle, 0, f.from, f.to},
            {Kind::LengthAlong, std::abs(f.to.z - f.from.z), 0, f.from, f.to},
            {Kind::DiameterApart, 2 * std::abs(f.to.r - f.from.r), 0, f.from, f.to}};
}

std::vector<FeatureReading> gaugeBetween(const SectionFeature& first, const SectionFeature& second, Point datum) {
    std::vector<FeatureReading> out;
    const Point a = middle(first), b = middle(second);
    if (level(first) && level(second)) {
        out.push_back({Kind::WallApart, std::abs(b.r - a.r), 0, a, b});
        out.push_back({Kind::DiameterApart, 2 * std::abs(b.r - a.r), 0, a, b});
        return out;
    }
    if (upright(first) && upright(second)) {
        out.push_back({Kind::LengthAlong, std::abs(b.z - a.z), 0, a, b});
        return out;
    }
    const bool straightA = first.kind == SectionFeature::Kind::Straight;
    const bool straightB = second.kind == SectionFeature::Kind::Straight;
    if (straightA && straightB) {
        const Point da = first.to - first.from, db = second.to - second.from;
        const double angle = std::atan2(std::abs(cross(da, db)), std::abs(dot(da, db)));
        out.push_back({Kind::AngleBetween, angle, 0, a, b});
        // Parallel ones have a distance too.
        if (angle * std::max(length(da), length(db)) < kLevelMm)
            out.push_back({Kind::Square, squareDistance(a, second), 0, a, footOn(a, second)});
        return out;
    }
    if (straightA != straightB) {
        const SectionFeature& line = straightA ? first : second;
        const Point point = straightA ? b : a;
        const Point foot = footOn(point, line);
        if (upright(line)) {
            out.push_back({Kind::LengthAlong, std::abs(foot.z - point.z), 0, point, foot});
        } else if (level(line)) {
            out.push_back({Kind::WallApart, std::abs(foot.r - point.r), 0, point, foot});
            out.push_back({Kind::DiameterApart, 2 * std::abs(foot.r - point.r), 0, point, foot});
        } else {
            out.push_back({Kind::Square, squareDistance(point, line), 0, point, foot});
        }
        out.push_back(position(point, datum));
        return out;
    }
    addApart(out, a, b);
    return out;
}

}  // namespace firstoff
