// Roughing of profiles with pockets, tried on a billet of many thin discs: what a point tool takes off and runs into.
#include <gtest/gtest.h>

#include <rapidcheck.h>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include "sim/control/roughing.h"

namespace firstoff {
namespace {

constexpr double kNothing = -std::numeric_limits<double>::infinity();

// Rounding of the planner's own figures; a real gouge is a thousand times larger.
constexpr double kExact = 1e-6;

bool arc(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

double thousandths(int least, int most) {
    return *rc::gen::inRange(least, most) / 1000.0;
}

// An arc from `at` that runs towards the chuck all the way: over the top of its circle, or through the bottom of it.
ProfileElement arcFrom(Point at) {
    const double radius = thousandths(500, 6000);
    const double first = *rc::gen::inRange(0, 170) * M_PI / 180;
    const double last = *rc::gen::inRange(static_cast<int>(std::round(first * 180 / M_PI)) + 5, 181) * M_PI / 180;
    const bool over = *rc::gen::arbitrary<bool>();
    const double side = over ? 1 : -1;
    ProfileElement e;
    e.kind = over ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
    e.from = at;
    e.centre = at - radius * Point{std::cos(first), side * std::sin(first)};
    e.to = e.centre + radius * Point{std::cos(last), side * std::sin(last)};
    return e;
}

// Cones, cylinders, faces both ways, and arcs.
std::vector<ProfileElement> pocketedProfile() {
    std::vector<ProfileElement> profile;
    Point at{0, 20};
    const int count = *rc::gen::inRange(1, 14);
    for (int i = 0; i < count; ++i) {
        ProfileElement e;
        if (*rc::gen::inRange(0, 3) == 0) {
            e = arcFrom(at);
        } else {
            e.from = at;
            e.to = {at.z - thousandths(0, 8000), at.r + thousandths(-5000, 5000)};
            if (*rc::gen::inRange(0, 3) == 0) e.to.r = at.r;
            if (*rc::gen::inRange(0, 4) == 0) e.to.z = at.z;
            // Begins with some length, and no face goes down and up again at one z.
            if (i == 0 || profile.back().from.z == at.z) e.to.z -= 1;
        }
        e.block = static_cast<BlockId>(i);
        at = e.to;
        profile.push_back(e);
    }
    return profile;
}

double highest(const std::vector<ProfileElement>& profile) {
    double result = profile.front().from.r;
    for (const ProfileElement& e : profile) result = std::max(result, extent(e).rMax);
    return result;
}

// Height of a line or of an arc that runs towards the chuck, where it passes z.
std::optional<double> heightOf(Point from, Point to, Point centre, MoveKind kind, double z) {
    if (std::min(from.z, to.z) >= z || std::max(from.z, to.z) <= z) return std::nullopt;
    if (!arc(kind)) return from.r + (to.r - from.r) * (z - from.z) / (to.z - from.z);
    const double radius = distance(from, centre);
    const double half = std::sqrt(std::max(0.0, radius * radius - (z - centre.z) * (z - centre.z)));
    return centre.r + (kind == MoveKind::ArcAnticlockwise ? half : -half);
}

struct Job {
    std::vector<ProfileElement> profile;
    RoughingOrder order;
    RoughingPlan plan;
};

// A profile that only rises.
std::vector<ProfileElement> risingProfile() {
    std::vector<ProfileElement> profile;
    Point at{0, 20};
    const int count = *rc::gen::inRange(1, 14);
    for (int i = 0; i < count; ++i) {
        ProfileElement e;
        e.from = at;
        e.to = {at.z - thousandths(i == 0 ? 1000 : 0, 8000), at.r + thousandths(0, 4000)};
        if (i > 0 && *rc::gen::inRange(0, 3) == 0) {
            const double radius = thousandths(500, 6000);
            const bool over = *rc::gen::arbitrary<bool>();
            e.kind = over ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
            e.centre = at + radius * (over ? Point{-1, 0} : Point{0, 1});
            e.to = at + radius * Point{-1, 1};
        }
        at = e.to;
        profile.push_back(e);
    }
    return profile;
}

Job risingJob() {
    Job job;
    job.profile = risingProfile();
    RoughingOrder& order = job.order;
    order.start = {2, highest(job.profile) + thousandths(100, 3000)};
    order.infeed = *rc::gen::arbitrary<bool>() ? MoveKind::Feed : MoveKind::Rapid;
    order.depth = thousandths(300, 3000);
    order.retract = thousandths(0, 2000);
    order.allowance = {thousandths(0, 300), thousandths(0, 100)};
    order.start.r += order.allowance.r;
    job.plan = planRoughing(job.profile, order);
    return job;
}

Job someJob() {
    Job job;
    job.profile = pocketedProfile();
    RoughingOrder& order = job.order;
    order.pockets = true;
    // W0 in the first block, or an approach that slants.
    const bool slants = *rc::gen::inRange(0, 3) == 0;
    order.start = {slants ? thousandths(500, 4000) : 0.0, highest(job.profile) + thousandths(0, 3000) + 0.1};
    order.infeed = slants || *rc::gen::arbitrary<bool>() ? MoveKind::Feed : MoveKind::Rapid;
    order.depth = thousandths(300, 3000);
    order.retract = thousandths(0, 2000);
    order.allowance = {slants ? 0.0 : thousandths(0, 300), thousandths(0, 100)};
    // None along Z: it would let the passes cut into walls that face the chuck, which is reported (intoPart).
    order.leave = {0.0, thousandths(0, 100)};
    // The start lies above what is shifted, too, as the cycle's user has to see to.
    order.start.r += order.allowance.r + order.leave.r;
    job.plan = planRoughing(job.profile, order);
    return job;
}

class Billet {
public:
    // The bar's face stands at `front`.
    Billet(const Job& job, double front) : job_(job) {
        const Point back = job.profile.back().to + job.order.allowance + job.order.leave;
        const double step = (job.order.start.z - back.z) / 701.3;
        for (double z = back.z + step / 2; z < job.order.start.z; z += step) zs_.push_back(z);
        for (const CycleMove& move : job.plan.moves) {
            if (!upright(move)) continue;
            zs_.push_back(move.from.z - kBeside);
            zs_.push_back(move.from.z + kBeside);
        }
        std::sort(zs_.begin(), zs_.end());
        for (double z : zs_) stock_.push_back(z < front ? job.order.start.r : kNothing);
    }

    // The profile moved by the allowance; in front of it, where passes begin on the approach, that.
    double limitAt(double z, Point by) const {
        for (const ProfileElement& e : job_.profile) {
            if (const auto height = heightOf(e.from + by, e.to + by, e.centre + by, e.kind, z)) return *height;
        }
        const Point first = job_.profile.front().from + by;
        const bool approach = job_.order.pockets && z > first.z;
        return approach ? heightOf(job_.order.start, first, {}, MoveKind::Feed, z).value_or(kNothing) : kNothing;
    }

    // Takes off what the move takes, which may go down to the profile moved `by`.
    void cut(const CycleMove& move, double mostDeep, Point by) {
        if (upright(move)) return cutUpright(move, by);
        for (std::size_t i = 0; i < zs_.size(); ++i) {
            const auto height = heightOf(move.from, move.to, move.centre, move.kind, zs_[i]);
            if (!height) continue;
            RC_ASSERT(*height >= limitAt(zs_[i], by) - kExact);
            const double depth = stock_[i] - *height;
            RC_ASSERT(depth <= (move.kind == MoveKind::Rapid ? 0 : mostDeep) + kExact);
            stock_[i] = std::min(stock_[i], *height);
        }
    }

    // Over the profile; the approach is cut as it happens.
    double most(Point by) const {
        double result = 0;
        for (std::size_t i = 0; i < zs_.size(); ++i) {
            if (zs_[i] > job_.profile.front().from.z + by.z) break;
            const double limit = limitAt(zs_[i], by);
            if (limit > kNothing && stock_[i] > kNothing) result = std::max(result, stock_[i] - limit);
        }
        return result;
    }

private:
    static constexpr double kBeside = 1e-7;
    // Where an arc of radius 6 stands upright it rises by sqrt(2 * 6 * 1e-7) within kBeside, and the steepest cone by
    // 5e-4.
    static constexpr double kSteep = 2e-3;

    static bool upright(const CycleMove& move) { return !arc(move.kind) && std::abs(move.from.z - move.to.z) <= 1e-9; }

    // Along a face, or in the open: it must be free on one side at least.
    void cutUpright(const CycleMove& move, Point by) {
        const double low = std::min(move.from.r, move.to.r);
        const double z = move.from.z;
        RC_ASSERT(low >= std::min(limitAt(z - kBeside, by), limitAt(z + kBeside, by)) - kSteep);
        // A face down to the very end of the profile is a slot of no width, free only where the move came from.
        const bool atTheEnd = std::abs(z - (job_.profile.back().to + by).z) < 2 * kBeside;
        if (move.kind != MoveKind::Rapid || atTheEnd) return;
        double beside = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < zs_.size(); ++i) {
            if (std::abs(zs_[i] - z) < 2 * kBeside) beside = std::min(beside, stock_[i]);
        }
        RC_ASSERT(low >= beside - kSteep);
    }

    const Job& job_;
    std::vector<double> zs_;
    std::vector<double> stock_;
};

TEST(RoughingPockets, NeverGoesBelowTheShiftedProfileNorAtRapidThroughMaterial) {
    EXPECT_TRUE(rc::check("on a billet of discs", [] {
        const Job job = someJob();
        RC_ASSERT(!job.plan.turnsBack && !job.plan.startInsideProfile && !job.plan.tooManyPasses);
        const RoughingOrder& order = job.order;
        Billet billet(job, order.start.z);
        std::size_t i = 0;
        for (; i < job.plan.moves.size() && job.plan.moves[i].pass < job.plan.passes; ++i) {
            billet.cut(job.plan.moves[i], order.depth, order.allowance + order.leave);
        }
        // Nothing is left higher than a depth of cut, wherever it lies.
        RC_ASSERT(billet.most(order.allowance + order.leave) <= order.depth + kExact);
        for (; i < job.plan.moves.size(); ++i) billet.cut(job.plan.moves[i], 1000, order.allowance);
        // A face that the allowance moved in front of the start is not cut.
        if (order.allowance.z == 0) RC_ASSERT(billet.most(order.allowance) <= kExact);
        RC_ASSERT(distance(job.plan.moves.back().to, order.start) < 1e-12);
    }));
}

// The approach runs in front of the material, so that only the profile itself stands against it.
TEST(RoughingRises, NeverGoesBelowTheShiftedProfileNorAtRapidThroughMaterial) {
    EXPECT_TRUE(rc::check("type I on a billet of discs", [] {
        const Job job = risingJob();
        RC_ASSERT(!job.plan.turnsBack && !job.plan.startInsideProfile && !job.plan.tooManyPasses);
        const RoughingOrder& order = job.order;
        Billet billet(job, order.allowance.z);
        std::size_t i = 0;
        for (; i < job.plan.moves.size() && job.plan.moves[i].pass < job.plan.passes; ++i) {
            billet.cut(job.plan.moves[i], order.depth, order.allowance);
        }
        RC_ASSERT(billet.most(order.allowance) <= order.depth + kExact);
        for (; i < job.plan.moves.size(); ++i) billet.cut(job.plan.moves[i], order.depth, order.allowance);
        RC_ASSERT(billet.most(order.allowance) <= kExact);
    }));
}

// Each move begins where the one before it ended.
TEST(RoughingPockets, HasNoGap) {
    EXPECT_TRUE(rc::check("no gap", [] {
        const Job job = someJob();
        Point at = job.order.start;
        for (const CycleMove& move : job.plan.moves) {
            RC_ASSERT(distance(move.from, at) < 2e-7);
            at = move.to;
        }
    }));
}

struct Seen {
    bool exchanged;
    double z, r;
    Point operator()(Point p) const {
        if (exchanged) p = {p.r, p.z};
        return {z * p.z, r * p.r};
    }
};

// Boring is turning in a mirror, away from the chuck likewise, and facing is turning with the axes exchanged.
TEST(RoughingPockets, OfTheSameProfileSeenOtherwiseAreTheSame) {
    EXPECT_TRUE(rc::check("eight views", [] {
        const Job job = someJob();
        const Seen seen{*rc::gen::arbitrary<bool>(), *rc::gen::element(1.0, -1.0), *rc::gen::element(1.0, -1.0)};
        const bool turned = (seen.z * seen.r < 0) != seen.exchanged;
        std::vector<ProfileElement> profile = job.profile;
        for (ProfileElement& e : profile) {
            e = {seen(e.from), seen(e.to), seen(e.centre), e.kind, e.block};
            if (turned && arc(e.kind)) {
                e.kind = e.kind == MoveKind::ArcClockwise ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
            }
        }
        RoughingOrder order = job.order;
        order.start = seen(order.start);
        order.allowance = seen(order.allowance);
        order.leave = seen(order.leave);
        order.alongX = seen.exchanged;
        const RoughingPlan plan = planRoughing(profile, order);
        RC_ASSERT(plan.moves.size() == job.plan.moves.size());
        for (std::size_t i = 0; i < plan.moves.size(); ++i) {
            RC_ASSERT(distance(plan.moves[i].to, seen(job.plan.moves[i].to)) < 1e-12);
            RC_ASSERT(plan.moves[i].pass == job.plan.moves[i].pass);
            RC_ASSERT(arc(plan.moves[i].kind) == arc(job.plan.moves[i].kind));
            if (arc(plan.moves[i].kind)) RC_ASSERT((plan.moves[i].kind != job.plan.moves[i].kind) == turned);
        }
    }));
}

// A profile that turns back along the passes is no profile for them.
TEST(RoughingPockets, OfAProfileThatTurnsBackAlongThePassesAreReported) {
    const std::vector<ProfileElement> profile = {{{0, 10}, {-10, 10}, {}, MoveKind::Feed, 0},
                                                 {{-10, 10}, {-8, 12}, {}, MoveKind::Feed, 1},
                                                 {{-8, 12}, {-20, 20}, {}, MoveKind::Feed, 2}};
    RoughingOrder order;
    order.start = {2, 22};
    order.depth = 2;
    order.pockets = true;
    const RoughingPlan plan = planRoughing(profile, order);
    ASSERT_TRUE(plan.turnsBack.has_value());
    EXPECT_EQ(*plan.turnsBack, 1u);
    EXPECT_FALSE(plan.turnsBackAcross);
}

}  // namespace
}  // namespace firstoff
