// Inside this file the profile stands in the frame of CycleFrame: r grows and z falls along it.
#include "sim/control/roughing.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/control/cycle_path.h"
#include "sim/control/roughing_pockets.h"

namespace firstoff {

namespace {

// A profile may turn back by this much and still count as monotonic: rounded figures of an arc's centre let it bulge
// past its end by about that. Larger: real undercuts pass unseen. Smaller: tangent arcs are refused.
constexpr double kTurnBackMm = 0.002;

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

// The passes of type I: each up to the first wall.
class WallPasses {
public:
    WallPasses(const std::vector<ProfileElement>& profile, const RoughingOrder& order, CyclePath& path)
        : profile_(profile), order_(order), path_(path), start_(path.at()) {}

    // False if there would be too many.
    bool write() {
        const double lowest = profile_.front().from.r + tolerance::kSamePlaceMm;
        if ((start_.r - lowest) / order_.depth > kMostPasses) return false;
        for (int i = 1;; ++i) {
            const double level = start_.r - i * order_.depth;
            if (level <= lowest) return true;
            pass(level);
        }
    }

private:
    void pass(double level) {
        const double end = wall(profile_, level).value_or(profile_.back().to.z);
        const double length = start_.z - end;
        if (length <= tolerance::kSamePlaceMm) return;
        path_.beginPass();
        path_.go({start_.z, level}, order_.infeed);
        path_.go({end, level}, MoveKind::Feed);
        path_.go({end + std::min(order_.retract, length), level + order_.retract}, MoveKind::Feed);
        path_.go({start_.z, path_.at().r}, MoveKind::Rapid);
    }

    const std::vector<ProfileElement>& profile_;
    const RoughingOrder& order_;
    CyclePath& path_;
    Point start_;
};

double highestOf(const std::vector<ProfileElement>& profile) {
    double highest = profile.front().from.r;
    for (const ProfileElement& e : profile) highest = std::max(highest, extent(e).rMax);
    return highest;
}

// Along the profile, and back to the start.
void alongProfile(const std::vector<ProfileElement>& profile, const RoughingOrder& order, Point start,
                  CyclePath& path) {
    path.go(profile.front().from, order.infeed);
    for (const ProfileElement& e : profile) path.along(e);
    const double bulge = order.pockets ? tolerance::kSamePlaceMm : kTurnBackMm;
    if (highestOf(profile) > path.at().r + bulge) {
        path.go({path.at().z, std::max(start.r, highestOf(profile))}, MoveKind::Rapid);
    }
    path.go(start, MoveKind::Rapid);
}

double lowestOf(const std::vector<ProfileElement>& profile) {
    double lowest = profile.front().from.r;
    for (const ProfileElement& e : profile) lowest = std::min(lowest, extent(e).rMin);
    return lowest;
}

// +1 where the material is taken down, -1 where it is taken up: the profile begins below the start or above it. Where
// both are level, as the profile runs; with pockets, to the side on which most of it lies.
double sideOf(const std::vector<ProfileElement>& profile, double start, bool pockets) {
    const double approach = start - profile.front().from.r;
    if (std::abs(approach) > tolerance::kSamePlaceMm) return approach > 0 ? 1 : -1;
    if (pockets) return start - lowestOf(profile) >= highestOf(profile) - start ? 1 : -1;
    return profile.back().to.r >= profile.front().from.r ? 1 : -1;
}

std::vector<ProfileElement> inFrame(const std::vector<ProfileElement>& profile, const CycleFrame& frame) {
    std::vector<ProfileElement> result;
    for (const ProfileElement& e : profile) result.push_back(frame.in(e));
    return result;
}

CycleFrame frameOf(const std::vector<ProfileElement>& profile, const RoughingOrder& order) {
    CycleFrame frame;
    frame.exchanged = order.alongX;
    const std::vector<ProfileElement> seen = inFrame(profile, frame);
    frame.r = sideOf(seen, frame.in(order.start).r, order.pockets);
    if (seen.back().to.z > seen.front().from.z) frame.z = -1;
    return frame;
}

void findTurn(RoughingPlan& plan, const std::vector<ProfileElement>& profile, bool pockets) {
    for (std::size_t i = 0; i < profile.size(); ++i) {
        const ProfileElement& e = profile[i];
        const Extent box = extent(e);
        const bool along = box.zMax > e.from.z + kTurnBackMm || box.zMin < e.to.z - kTurnBackMm;
        const bool across = !pockets && (box.rMin < e.from.r - kTurnBackMm || box.rMax > e.to.r + kTurnBackMm);
        if (!along && !across) continue;
        plan.turnsBack = i;
        plan.turnsBackAcross = across;
        return;
    }
}

bool isInside(const std::vector<ProfileElement>& profile, Point start) {
    return start.r < highestOf(profile) - kTurnBackMm || start.z < profile.front().from.z - tolerance::kSamePlaceMm;
}

}  // namespace

RoughingPlan planRoughing(const std::vector<ProfileElement>& profile, const RoughingOrder& order) {
    assert(!profile.empty() && order.depth > 0);
    RoughingPlan plan;
    plan.frame = frameOf(profile, order);
    const std::vector<ProfileElement> planned = inFrame(profile, plan.frame);
    findTurn(plan, planned, order.pockets);
    const Point start = plan.frame.in(order.start);
    plan.startInsideProfile = isInside(planned, start);
    const Point allowance = plan.frame.in(order.allowance);
    const Point leave = plan.frame.in(order.leave);
    plan.intoPart = std::max(depthIntoPart(planned, allowance), depthIntoPart(planned, allowance + leave));

    CyclePath path(plan.frame, start, plan.moves);
    const std::vector<ProfileElement> limit = shifted(planned, allowance + leave);
    const bool pockets = order.pockets && !plan.turnsBack;
    plan.tooManyPasses = !(pockets ? writePocketPasses(limit, order, path) : WallPasses(limit, order, path).write());
    if (plan.tooManyPasses) {
        plan.moves.clear();
        return plan;
    }
    if (!pockets) path.beginPass();
    alongProfile(shifted(planned, allowance), order, start, path);
    plan.passes = path.pass();
    return plan;
}

}  // namespace firstoff
