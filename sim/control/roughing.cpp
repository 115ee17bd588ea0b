// Inside this file the profile is mirrored so that it is an outside one that runs towards the chuck: r grows and z
// falls along it. What comes out is mirrored back.
#include "sim/control/roughing.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

// A profile may turn back by this much and still count as monotonic: rounded figures of an arc's centre let it bulge
// past its end by about that. Larger: real undercuts pass unseen. Smaller: tangent arcs are refused.
constexpr double kTurnBackMm = 0.002;

bool isArc(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

MoveKind reversed(MoveKind kind) {
    if (kind == MoveKind::ArcClockwise) return MoveKind::ArcAnticlockwise;
    if (kind == MoveKind::ArcAnticlockwise) return MoveKind::ArcClockwise;
    return kind;
}

struct Mirror {
    double z = 1;
    double r = 1;
    Point operator()(Point p) const { return {z * p.z, r * p.r}; }
    MoveKind operator()(MoveKind kind) const { return z * r < 0 ? reversed(kind) : kind; }
};

// Angle from `from` to `at` about the centre in the arc's sense, 0 … 2 pi.
double progress(const ProfileElement& arc, Point at) {
    const Point a = arc.from - arc.centre;
    const Point b = at - arc.centre;
    double angle = std::atan2(cross(a, b), dot(a, b));
    if (arc.kind == MoveKind::ArcClockwise) angle = -angle;
    // A point just before the start counts as the start, not as a full turn.
    if (angle < -1e-7) angle += 2 * kPi;
    return std::max(angle, 0.0);
}

struct Extent {
    double zMin, zMax, rMin, rMax;
};

Extent extent(const ProfileElement& e) {
    Extent box{std::min(e.from.z, e.to.z), std::max(e.from.z, e.to.z), std::min(e.from.r, e.to.r),
               std::max(e.from.r, e.to.r)};
    if (!isArc(e.kind)) return box;
    const double radius = distance(e.from, e.centre);
    const double whole = progress(e, e.to);
    for (Point direction : {Point{1, 0}, Point{-1, 0}, Point{0, 1}, Point{0, -1}}) {
        const Point at = e.centre + radius * direction;
        if (progress(e, at) > whole) continue;
        box.zMin = std::min(box.zMin, at.z);
        box.zMax = std::max(box.zMax, at.z);
        box.rMin = std::min(box.rMin, at.r);
        box.rMax = std::max(box.rMax, at.r);
    }
    return box;
}

// Where an arc that begins at or below `level` first rises above it; nothing if it stays below.
std::optional<double> arcCrossing(const ProfileElement& arc, double level) {
    const double radius = distance(arc.from, arc.centre);
    const double height = level - arc.centre.r;
    if (std::abs(height) >= radius) return std::nullopt;
    const double half = std::sqrt(radius * radius - height * height);
    const double whole = progress(arc, arc.to);
    std::optional<double> z;
    double first = whole + 1e-9;
    for (double side : {-half, half}) {
        const Point at = arc.centre + Point{side, height};
        // Anticlockwise it rises to the right of the centre, clockwise to the left.
        const bool rising = (side > 0) == (arc.kind == MoveKind::ArcAnticlockwise);
        const double here = progress(arc, at);
        if (!rising || here > first) continue;
        first = here;
        z = at.z;
    }
    return z;
}

// Where the profile first stands in the way of a pass at `level`: the z at which it rises above it.
std::optional<double> wall(const std::vector<ProfileElement>& profile, double level) {
    const double limit = level + tolerance::kSamePlaceMm;
    if (profile.front().from.r > limit) return profile.front().from.z;
    for (const ProfileElement& e : profile) {
        if (isArc(e.kind)) {
            if (const auto z = arcCrossing(e, limit)) return z;
        } else if (e.to.r > limit) {
            const double part = std::clamp((level - e.from.r) / (e.to.r - e.from.r), 0.0, 1.0);
            return e.from.z + part * (e.to.z - e.from.z);
        }
    }
    return std::nullopt;
}

class Planner {
public:
    Planner(std::vector<ProfileElement> shifted, const RoughingOrder& order, const Mirror& mirror, RoughingPlan& plan)
        : profile_(std::move(shifted)),
          order_(order),
          mirror_(mirror),
          plan_(plan),
          start_(mirror(order.start)),
          at_(start_) {}

    void passes() {
        const double lowest = profile_.front().from.r + tolerance::kSamePlaceMm;
        const double count = (start_.r - lowest) / order_.depth;
        if (count > kMostPasses) {
            plan_.tooManyPasses = true;
            return;
        }
        for (int i = 1;; ++i) {
            const double level = start_.r - i * order_.depth;
            if (level <= lowest) break;
            pass(level);
        }
    }

    // Along the shifted profile, and back to the start.
    void alongProfile() {
        ++plan_.passes;
        go(profile_.front().from, order_.infeed);
        for (const ProfileElement& e : profile_) add({at_, e.to, e.centre, e.kind, 0, e.block});
        go(start_, MoveKind::Rapid);
    }

private:
    void pass(double level) {
        const double end = wall(profile_, level).value_or(profile_.back().to.z);
        const double length = start_.z - end;
        if (length <= tolerance::kSamePlaceMm) return;
        ++plan_.passes;
        go({start_.z, level}, order_.infeed);
        go({end, level}, MoveKind::Feed);
        go({end + std::min(order_.retract, length), level + order_.retract}, MoveKind::Feed);
        go({start_.z, at_.r}, MoveKind::Rapid);
    }

    void go(Point to, MoveKind kind) { add({at_, to, {}, kind, 0, kNoBlock}); }

    void add(RoughingMove move) {
        at_ = move.to;
        if (distance(move.from, move.to) <= tolerance::kSamePlaceMm) return;
        move.from = mirror_(move.from);
        move.to = mirror_(move.to);
        move.centre = isArc(move.kind) ? mirror_(move.centre) : Point{};
        move.kind = mirror_(move.kind);
        move.pass = static_cast<std::uint16_t>(plan_.passes);
        plan_.moves.push_back(move);
    }

    std::vector<ProfileElement> profile_;
    const RoughingOrder& order_;
    const Mirror& mirror_;
    RoughingPlan& plan_;
    Point start_;
    Point at_;
};

// Outside unless the profile begins farther from the axis than the start; where both are level, as the profile runs.
bool isOutside(const std::vector<ProfileElement>& profile, Point start) {
    const double approach = start.r - profile.front().from.r;
    if (std::abs(approach) > tolerance::kSamePlaceMm) return approach > 0;
    return profile.back().to.r >= profile.front().from.r;
}

void findTurn(RoughingPlan& plan, const std::vector<ProfileElement>& mirrored) {
    for (std::size_t i = 0; i < mirrored.size(); ++i) {
        const ProfileElement& e = mirrored[i];
        const Extent box = extent(e);
        const bool inX = box.rMin < e.from.r - kTurnBackMm || box.rMax > e.to.r + kTurnBackMm;
        const bool inZ = box.zMax > e.from.z + kTurnBackMm || box.zMin < e.to.z - kTurnBackMm;
        if (!inX && !inZ) continue;
        plan.turnsBack = i;
        plan.turnsBackInX = inX;
        return;
    }
}

}  // namespace

RoughingPlan planRoughing(const std::vector<ProfileElement>& profile, const RoughingOrder& order) {
    assert(!profile.empty() && order.depth > 0);
    RoughingPlan plan;
    plan.outside = isOutside(profile, order.start);
    plan.towardsChuck = profile.back().to.z <= profile.front().from.z;
    const Mirror mirror{plan.towardsChuck ? 1.0 : -1.0, plan.outside ? 1.0 : -1.0};
    std::vector<ProfileElement> mirrored = profile;
    double highest = mirror(profile.front().from).r;
    for (ProfileElement& e : mirrored) {
        e.from = mirror(e.from);
        e.to = mirror(e.to);
        e.centre = mirror(e.centre);
        e.kind = mirror(e.kind);
        highest = std::max(highest, e.to.r);
    }
    findTurn(plan, mirrored);
    const Point start = mirror(order.start);
    plan.startInsideProfile =
        start.r < highest - tolerance::kSamePlaceMm || start.z < mirrored.front().from.z - tolerance::kSamePlaceMm;
    const Point allowance = mirror(order.allowance);
    plan.allowanceIntoPart = allowance.r < 0 || allowance.z < 0;
    for (ProfileElement& e : mirrored) {
        e.from = e.from + allowance;
        e.to = e.to + allowance;
        e.centre = e.centre + allowance;
    }
    Planner planner(std::move(mirrored), order, mirror, plan);
    planner.passes();
    if (!plan.tooManyPasses) planner.alongProfile();
    return plan;
}

}  // namespace firstoff
