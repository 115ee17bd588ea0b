#include "sim/inspection/drawn_outline.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/contour_geometry.h"

namespace firstoff {

namespace {

constexpr double kStepMm = 0.1;
constexpr double kBesideCornerMm = 1e-4;
// A place that lies on the part's surface but for rounding may seem to either side of it.
constexpr double kOnSurfaceMm = 1e-6;
constexpr std::size_t kMostSteps = 200'000;
constexpr double kFar = std::numeric_limits<double>::infinity();

// How far the part stands off a place, n being the way out of the drawn metal.
OutlinePlace besidePlace(const PartOutline& part, Point at, Point n) {
    const auto nearest = part.nearest(at);
    if (!nearest) return {at, std::nullopt, kUncut};
    OutlinePlace place{at, nearest->t, part.edges()[nearest->edge].cut};
    if (nearest->t <= kOnSurfaceMm) {
        place.off = 0;
    } else if (const auto out = part.hits(at, n, 0, kFar); out.empty() || !out.front().leavesMetal) {
        place.off = -nearest->t;
        // What took the metal is what left the surface beneath.
        const auto beneath = part.hits(at, -n, 0, kFar);
        if (!beneath.empty()) place.cut = part.edges()[beneath.front().edge].cut;
    }
    return place;
}

// Places on an edge as shares of its length.
std::vector<double> sharesOf(const OutlineEdge& edge, double stepMm) {
    const double size = lengthOf(edge);
    const double corner = std::min(kBesideCornerMm / size, 0.25);
    std::vector<double> shares{corner};
    const int steps = static_cast<int>(std::ceil(size / stepMm));
    for (int k = 1; k < steps; ++k) shares.push_back(static_cast<double>(k) / steps);
    if (steps < 2) shares.push_back(0.5);
    shares.push_back(1 - corner);
    return shares;
}

Point outwards(const OutlineEdge& edge, Point at) {
    return -leftOf(directionAt(edge, at));
}

// Whether the part has its metal on the other side of the profile, by the places where they touch.
bool liesOnOtherSide(const PartOutline& part, const PartOutline& profile) {
    constexpr double kTouchMm = 0.05;
    int same = 0, other = 0;
    for (const OutlineEdge& edge : profile.edges()) {
        const Point at = pointAlong(edge, 0.5), n = outwards(edge, at);
        const auto near = part.hits(at, n, -kTouchMm, kTouchMm);
        for (const OutlineHit& hit : near) ++(hit.leavesMetal ? same : other);
    }
    return other > same;
}

Contour turnedOver(const Contour& open) {
    Contour result(open.rbegin(), open.rend());
    for (std::size_t i = 0; i + 1 < result.size(); ++i) result[i].bulge = -result[i + 1].bulge;
    result.back().bulge = 0;
    return result;
}

// An edge from one share of it to another.
void addPart(Contour& contour, const OutlineEdge& edge, double from, double to) {
    const auto arc = arcOf(edge.from, edge.to, edge.bulge);
    contour.push_back({pointAlong(edge, from), arc && !edge.straight() ? bulgeOf((to - from) * arc->turn) : 0});
}

}  // namespace

std::vector<OutlinePlace> besideOutline(const PartOutline& part, const PartOutline& outline) {
    double all = 0;
    for (const OutlineEdge& edge : outline.edges()) all += lengthOf(edge);
    const double step = std::max(kStepMm, all / kMostSteps);
    std::vector<OutlinePlace> places;
    for (const OutlineEdge& edge : outline.edges()) {
        for (double share : sharesOf(edge, step)) {
            const Point at = pointAlong(edge, share);
            places.push_back(besidePlace(part, at, outwards(edge, at)));
        }
    }
    return places;
}

std::vector<ContourDeviation> deviationsOf(const std::vector<OutlinePlace>& places, double bandMm,
                                           const std::function<bool(CutId)>& apart) {
    std::vector<ContourDeviation> result;
    int sign = 0;  // of the stretch that runs, doubled where it is one apart
    for (const OutlinePlace& p : places) {
        int here = !p.off || std::abs(*p.off) <= bandMm ? 0 : *p.off > 0 ? 1 : -1;
        if (apart && apart(p.cut)) here *= 2;
        if (here != 0 && here != sign) result.push_back({p.at, p.at, *p.off, p.at, p.cut, kNoBlock});
        sign = here;
        if (here == 0) continue;
        ContourDeviation& stretch = result.back();
        stretch.to = p.at;
        if (std::abs(*p.off) > std::abs(stretch.amountMm)) {
            stretch.amountMm = *p.off;
            stretch.place = p.at;
            stretch.cut = p.cut;
        }
    }
    return result;
}

Contour profileOnPart(const PartOutline& part, const Contour& profile) {
    PartOutline drawn;
    drawn.add(profile, {}, false);
    Contour contour = profile;
    if (liesOnOtherSide(part, drawn)) {
        contour = turnedOver(profile);
        drawn = PartOutline();
        drawn.add(contour, {}, false);
    }
    // What lies within the part's extent; of its first and last edge, what is not far off in the air.
    struct Place {
        std::size_t edge;
        double share;
    };
    constexpr double kFarOffMm = 0.5;
    std::optional<Place> first, last;
    const std::size_t count = drawn.edges().size();
    for (std::size_t i = 0; i < count; ++i) {
        const OutlineEdge& edge = drawn.edges()[i];
        for (double share : sharesOf(edge, kStepMm)) {
            const Point at = pointAlong(edge, share);
            if (at.z < part.box().zMin || at.z > part.box().zMax || at.r > part.box().rMax) continue;
            const bool end = i == 0 || i + 1 == count;
            const OutlinePlace beside = end ? besidePlace(part, at, outwards(edge, at)) : OutlinePlace{};
            if (end && (!beside.off || *beside.off < -kFarOffMm)) continue;
            if (!first) first = Place{i, share};
            last = Place{i, share};
        }
    }
    Contour result;
    if (!first || (first->edge == last->edge && first->share == last->share)) return result;
    for (std::size_t i = first->edge; i <= last->edge; ++i) {
        const double from = i == first->edge ? first->share : 0, to = i == last->edge ? last->share : 1;
        addPart(result, drawn.edges()[i], from, to);
        if (i == last->edge) result.push_back({pointAlong(drawn.edges()[i], to), 0});
    }
    return result;
}

}  // namespace firstoff
