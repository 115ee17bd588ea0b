#include "sim/stock/cut_curves.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

constexpr double kRoundingMm = 1e-9;

SideCurve curveOf(const Branch& branch, double sign) {
    SideCurve curve;
    curve.at = {branch.c, sign * branch.a};
    curve.zFrom = branch.zFrom;
    curve.zTo = branch.zTo;
    if (branch.kind == Branch::Kind::Line) {
        curve.slope = sign * branch.b;
        return curve;
    }
    const bool under = (branch.kind == Branch::Kind::Under) == (sign > 0);
    curve.kind = under ? SideCurve::Kind::LowerHalf : SideCurve::Kind::UpperHalf;
    curve.radius = std::sqrt(branch.b);
    return curve;
}

}  // namespace

double SideCurve::r(double z) const {
    const double x = z - at.z;
    if (kind == Kind::Line) return at.r + slope * x;
    const double h = std::sqrt(std::max(0.0, radius * radius - x * x));
    return kind == Kind::LowerHalf ? at.r - h : at.r + h;
}

CutCurves::CutCurves(const CutPlan& plan, const Grid& grid, std::uint32_t moves, std::optional<Sweep> begun)
    : plan_(plan), grid_(grid), moves_(moves), begun_(begun) {}

std::optional<Sweep> CutCurves::sweepOf(CutId cut) const {
    if (cut >= plan_.moves() || !plan_.mayCut(cut) || plan_.inThread(cut)) return std::nullopt;
    if (cut < moves_) return plan_.sweep(cut);
    return cut == moves_ ? begun_ : std::nullopt;
}

const CutCurves::Swept& CutCurves::swept(CutId cut) {
    const auto [at, isNew] = known_.try_emplace(cut);
    Swept& swept = at->second;
    const std::optional<Sweep> sweep = isNew ? sweepOf(cut) : std::nullopt;
    if (!sweep) return swept;
    for (const ToolShape& shape : plan_.shapes(cut)) {
        appendProfiles(*sweep, shape, grid_, cut, swept.profiles, swept.branches);
    }
    for (const SweepProfile& profile : swept.profiles) {
        double left = std::numeric_limits<double>::infinity();
        double right = -left;
        const auto take = [&](BranchSpan span, double sign) {
            for (std::uint32_t i = span.begin; i < span.end; ++i) {
                const Branch& branch = swept.branches[i];
                left = std::min(left, branch.zFrom);
                right = std::max(right, branch.zTo);
                if (profile.centreHeight != 0 || !(branch.zTo > branch.zFrom)) continue;
                swept.curves.push_back(curveOf(branch, sign));
                swept.curves.push_back(curveOf(branch, -sign));  // across the axis
            }
        };
        take(profile.lower, 1);
        take(profile.upper, -1);
        swept.leftEnds.push_back(left);
        swept.rightEnds.push_back(right);
    }
    return swept;
}

const std::vector<SideCurve>& CutCurves::of(CutId cut) {
    return swept(cut).curves;
}

void CutCurves::listEnds() {
    listed_ = true;
    const std::uint32_t end = std::min(plan_.moves(), moves_ + (begun_ ? 1 : 0));
    for (CutId cut = 0; cut < end; ++cut) {
        const std::optional<Sweep> sweep = sweepOf(cut);
        if (!sweep) continue;
        double left = std::min(sweep->from.z, sweep->to.z);
        double right = std::max(sweep->from.z, sweep->to.z);
        if (sweep->path != Sweep::Path::Line) {
            const double radius = distance(sweep->centre, sweep->from);
            left = std::min(left, sweep->centre.z - radius);
            right = std::max(right, sweep->centre.z + radius);
        }
        for (const ToolShape& shape : plan_.shapes(cut)) {
            if (shape.empty()) continue;
            // Of an arc the ends may lie nearer; its profiles are looked at when the time comes.
            if (sweep->path == Sweep::Path::Line) {
                lefts_.push_back({left + shape.lower.zMin, cut});
                rights_.push_back({right + shape.lower.zMax, cut});
                continue;
            }
            const Swept& arc = swept(cut);
            for (double z : arc.leftEnds) lefts_.push_back({z, cut});
            for (double z : arc.rightEnds) rights_.push_back({z, cut});
        }
    }
    const auto byPlace = [](const End& a, const End& b) { return a.z != b.z ? a.z < b.z : a.cut < b.cut; };
    std::sort(lefts_.begin(), lefts_.end(), byPlace);
    std::sort(rights_.begin(), rights_.end(), byPlace);
}

std::optional<Face> CutCurves::faceBetween(double zLeft, double zRight, double r, bool metalOnLeft) {
    if (!listed_) listEnds();
    const std::vector<End>& ends = metalOnLeft ? lefts_ : rights_;
    const double zBeside = metalOnLeft ? zRight : zLeft;
    std::optional<Face> face;
    const auto take = [&](double z, CutId cut) {
        // The last column of a blank stands for whatever there is of it: its end may lie anywhere within.
        const double beyond = cut == kUncut ? (zRight - zLeft) / 2 : 0;
        if (z < zLeft - beyond || z > zRight + beyond) return;
        if (!face || (metalOnLeft ? z < face->z : z > face->z)) face = Face{z, cut};
    };
    const Range blank = plan_.blankEnds();
    take(metalOnLeft ? blank.max : blank.min, kUncut);
    auto at = std::lower_bound(ends.begin(), ends.end(), zLeft, [](const End& end, double z) { return end.z < z; });
    for (; at != ends.end() && at->z <= zRight; ++at) {
        const Swept& cut = swept(at->cut);
        for (std::size_t i = 0; i < cut.profiles.size(); ++i) {
            const SweepProfile& profile = cut.profiles[i];
            const Branch* branches = cut.branches.data();
            const double lo = sideAt(branches + profile.lower.begin, branches + profile.lower.end, zBeside);
            const double hi = -sideAt(branches + profile.upper.begin, branches + profile.upper.end, zBeside);
            const bool meets = lo - kRoundingMm <= r && r <= hi + kRoundingMm;
            const bool across = lo - kRoundingMm <= -r && -r <= hi + kRoundingMm;
            if (meets || across) take(metalOnLeft ? cut.leftEnds[i] : cut.rightEnds[i], at->cut);
        }
    }
    return face;
}

}  // namespace firstoff
