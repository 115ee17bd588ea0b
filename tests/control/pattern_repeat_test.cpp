#include "sim/control/pattern_repeat.h"

#include <gtest/gtest.h>

#include <rapidcheck.h>
#include <vector>

namespace firstoff {
namespace {

std::vector<ProfileElement> someProfile() {
    std::vector<ProfileElement> profile;
    Point at{0, 20};
    const int count = *rc::gen::inRange(1, 10);
    for (int i = 0; i < count; ++i) {
        ProfileElement e{at, at, {}, MoveKind::Feed, static_cast<BlockId>(i)};
        e.to.z -= *rc::gen::inRange(1, 8000) / 1000.0;
        e.to.r += *rc::gen::inRange(0, 5000) / 1000.0;
        at = e.to;
        profile.push_back(e);
    }
    return profile;
}

PatternOrder someOrder(const std::vector<ProfileElement>& profile) {
    PatternOrder order;
    order.start = {3, profile.back().to.r + 2};
    order.stock = {*rc::gen::inRange(0, 3000) / 1000.0, *rc::gen::inRange(1, 5000) / 1000.0};
    order.allowance = {*rc::gen::inRange(0, 200) / 1000.0, *rc::gen::inRange(0, 500) / 1000.0};
    order.passes = *rc::gen::inRange(2, 12);
    return order;
}

// Rounding of sums of a few lengths.
constexpr double kExact = 1e-9;

TEST(PatternRepeat, IsTheProfileMovedByEvenSteps) {
    EXPECT_TRUE(rc::check("even steps", [] {
        const std::vector<ProfileElement> profile = someProfile();
        const PatternOrder order = someOrder(profile);
        const PatternPlan plan = planPattern(profile, order);
        RC_ASSERT(plan.intoPart == 0 && plan.firstIntoPart == 0);
        for (const CycleMove& move : plan.moves) {
            if (move.block == kNoBlock) continue;
            const double part = static_cast<double>(order.passes - move.pass) / (order.passes - 1);
            const Point off = order.allowance + part * order.stock;
            RC_ASSERT(distance(move.to, profile[move.block].to + off) < kExact);
            RC_ASSERT(distance(move.from, profile[move.block].from + off) < kExact);
        }
        RC_ASSERT(plan.moves.back().pass == order.passes);
        RC_ASSERT(distance(plan.moves.back().to, order.start) < kExact);
    }));
}

TEST(PatternRepeat, BeginsEachPassAtTheStartMovedAlike) {
    const std::vector<ProfileElement> profile = {{{0, 20}, {-10, 20}, {}, MoveKind::Feed, 0}};
    PatternOrder order;
    order.start = {3, 30};
    order.stock = {1, 4};
    order.allowance = {0.1, 0.2};
    order.passes = 3;
    const PatternPlan plan = planPattern(profile, order);
    ASSERT_EQ(plan.moves.size(), 10u);  // to the start, to the profile, along it; three times; and back
    for (std::size_t pass = 0; pass < 3; ++pass) {
        const Point off = order.allowance + (2 - static_cast<double>(pass)) / 2 * order.stock;
        EXPECT_LT(distance(plan.moves[3 * pass].to, order.start + off), kExact);
        EXPECT_EQ(plan.moves[3 * pass].kind, MoveKind::Rapid);
        EXPECT_LT(distance(plan.moves[3 * pass + 1].to, profile.front().from + off), kExact);
    }
}

// A bore is the mirror image, and so is turning away from the chuck.
TEST(PatternRepeat, KnowsWhichSignLeadsIntoThePart) {
    EXPECT_TRUE(rc::check("four quarters", [] {
        const Point seen{*rc::gen::element(1.0, -1.0), *rc::gen::element(1.0, -1.0)};
        const auto flip = [&](Point p) { return Point{seen.z * p.z, seen.r * p.r}; };
        std::vector<ProfileElement> profile = someProfile();
        PatternOrder order = someOrder(profile);
        RC_PRE(profile.back().to.r > profile.front().from.r);
        for (ProfileElement& e : profile) e = {flip(e.from), flip(e.to), {}, e.kind, e.block};
        order.start = flip(order.start);
        order.allowance = flip(order.allowance);
        order.stock = flip(order.stock);
        RC_ASSERT(planPattern(profile, order).intoPart == 0);
        RC_ASSERT(planPattern(profile, order).firstIntoPart == 0);
        order.stock = {0, -order.stock.r - 2 * seen.r};
        order.allowance.z = 0;
        RC_ASSERT(planPattern(profile, order).firstIntoPart > 0);
    }));
}

}  // namespace
}  // namespace firstoff
