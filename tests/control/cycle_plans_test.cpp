// The planners of the single passes, the pecking and the drilling cycles: what must hold whatever figures they get.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>

#include "sim/base/tolerances.h"
#include "sim/control/drill_cycle.h"
#include "sim/control/groove_pecks.h"
#include "sim/control/single_pass.h"
#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

// Sums of a few hundred doubles at lathe sizes.
constexpr double kRounding = 1e-9;

double between(int least, int most) {
    return *rc::gen::inRange(least, most + 1) / 100.0;  // hundredths of a millimetre
}

using Image = std::function<Point(Point)>;

void sameUnder(const Image& image, const std::vector<CycleMove>& moves, const std::vector<CycleMove>& twin) {
    RC_ASSERT(moves.size() == twin.size());
    for (std::size_t i = 0; i < moves.size(); ++i) {
        RC_ASSERT(moves[i].kind == twin[i].kind);
        RC_ASSERT(moves[i].pass == twin[i].pass);
        RC_ASSERT(distance(image(moves[i].from), twin[i].from) < kRounding);
        RC_ASSERT(distance(image(moves[i].to), twin[i].to) < kRounding);
    }
}

// Each move begins where the one before ended, and the whole comes back to where it began.
void comesBack(const std::vector<CycleMove>& moves, Point start) {
    Point at = start;
    for (const CycleMove& move : moves) {
        RC_ASSERT(move.from == at);
        at = move.to;
    }
    RC_ASSERT(at == start);
}

// A single pass whose start and end differ in both directions.
SinglePass anyPass() {
    SinglePass pass;
    pass.start = {between(-5000, 5000), between(1000, 9000)};
    pass.end = pass.start + Point{between(1, 4000) * (*rc::gen::arbitrary<bool>() ? 1 : -1),
                                  between(1, 900) * (*rc::gen::arbitrary<bool>() ? 1 : -1)};
    pass.taper = between(-500, 500);
    pass.facing = *rc::gen::arbitrary<bool>();
    return pass;
}

TEST(SinglePasses, ComeBackToTheirStart) {
    EXPECT_TRUE(rc::check("comes back", [] {
        const SinglePass pass = anyPass();
        const auto moves = planSinglePass(pass);
        comesBack(moves, pass.start);
        RC_ASSERT(moves.size() >= 3u);
        RC_ASSERT(moves.back().kind == MoveKind::Rapid);
    }));
}

TEST(SinglePasses, InsideIsTheMirrorImageOfOutside) {
    EXPECT_TRUE(rc::check("mirrored in r and in z", [] {
        const SinglePass pass = anyPass();
        for (const Point by : {Point{1, -1}, Point{-1, 1}}) {
            const Image image = [by](Point p) { return Point{by.z * p.z, by.r * p.r}; };
            SinglePass twin = pass;
            twin.start = image(pass.start);
            twin.end = image(pass.end);
            twin.taper *= pass.facing ? by.z : by.r;
            RC_ASSERT(taperLeadsAway(pass) == taperLeadsAway(twin));
            sameUnder(image, planSinglePass(pass), planSinglePass(twin));
        }
    }));
}

TEST(SinglePasses, FacingIsTurningWithTheAxesExchanged) {
    EXPECT_TRUE(rc::check("exchanged", [] {
        const SinglePass pass = anyPass();
        const Image image = [](Point p) { return Point{p.r, p.z}; };
        SinglePass twin = pass;
        twin.start = image(pass.start);
        twin.end = image(pass.end);
        twin.facing = !pass.facing;
        sameUnder(image, planSinglePass(pass), planSinglePass(twin));
    }));
}

// Row TC060: "taper amount in radius". From memory, as the row says.
TEST(SinglePasses, TaperIsTheStartRadiusLessTheEndRadius) {
    const auto rows = shop::referenceRows("turning_code_facts.csv");
    const auto row = std::find_if(rows.begin(), rows.end(), [](const auto& r) { return r.text("id") == "TC060"; });
    ASSERT_NE(row, rows.end());
    EXPECT_NE(row->text("fact").find("rapid X, feed Z, feed out X, rapid back; R taper amount in radius"),
              std::string::npos)
        << row->text("fact");
    const auto moves = planSinglePass({{2, 31}, {-30, 29}, -4, false});
    ASSERT_EQ(moves.size(), 4u);
    EXPECT_EQ(moves[0].to, (Point{2, 25}));
    EXPECT_EQ(moves[1].to, (Point{-30, 29}));
    EXPECT_EQ(moves[2].to, (Point{-30, 31}));
    EXPECT_EQ(moves[3].to, (Point{2, 31}));
}

TEST(SinglePasses, OnlyATaperLargerThanTheDepthLeadsAway) {
    EXPECT_FALSE(taperLeadsAway({{2, 31}, {-30, 20}, 11, false}));
    EXPECT_TRUE(taperLeadsAway({{2, 31}, {-30, 20}, 11.1, false}));
    EXPECT_FALSE(taperLeadsAway({{2, 31}, {-30, 20}, -50, false}));
    EXPECT_FALSE(taperLeadsAway({{2, 31}, {-30, 31}, 1, false}));
}

GroovePecks anyPecks() {
    GroovePecks order;
    order.alongX = *rc::gen::arbitrary<bool>();
    order.start = {between(-5000, 5000), between(1000, 9000)};
    order.end = order.start + Point{between(-2000, 2000), between(-900, 900)};
    order.peck = between(50, 900);
    order.step = between(50, 600);
    order.retract = between(0, 300);
    order.relief = between(0, 100);
    return order;
}

TEST(GroovePecks, NeverLeaveTheGrooveNorItsStart) {
    EXPECT_TRUE(rc::check("within start and end", [] {
        const GroovePecks order = anyPecks();
        const GroovePeckPlan plan = planGroovePecks(order);
        comesBack(plan.moves, order.start);
        for (const CycleMove& move : plan.moves) {
            RC_ASSERT(move.to.z >= std::min(order.start.z, order.end.z) - kRounding);
            RC_ASSERT(move.to.z <= std::max(order.start.z, order.end.z) + kRounding);
            RC_ASSERT(move.to.r >= std::min(order.start.r, order.end.r) - kRounding);
            RC_ASSERT(move.to.r <= std::max(order.start.r, order.end.r) + kRounding);
        }
    }));
}

// Of each plunge: what is new in each peck adds up to the depth, none is more than the peck, and the last ends exactly.
TEST(GroovePecks, AddUpToTheDepthInEveryPlunge) {
    EXPECT_TRUE(rc::check("adds up", [] {
        const GroovePecks order = anyPecks();
        const auto along = [&](Point p) { return order.alongX ? p.r : p.z; };
        const auto across = [&](Point p) { return order.alongX ? p.z : p.r; };
        const double depth = std::abs(along(order.end) - along(order.start));
        RC_PRE(depth > 0);
        const GroovePeckPlan plan = planGroovePecks(order);
        double reached = 0;
        int plunges = 0;
        for (const CycleMove& move : plan.moves) {
            const double here = std::abs(along(move.to) - along(order.start));
            if (move.kind == MoveKind::Feed && across(move.from) == across(move.to)) {
                RC_ASSERT(here - reached <= order.peck + kRounding);
                RC_ASSERT(here > reached);
                reached = here;
                if (along(move.to) == along(order.end)) {
                    ++plunges;
                    reached = 0;
                }
            }
        }
        RC_ASSERT(plunges == plan.plunges);
        const double width = std::abs(across(order.end) - across(order.start));
        RC_ASSERT(plan.plunges == 1 + static_cast<int>(std::ceil(width / order.step - 1e-6)));
    }));
}

TEST(GroovePecks, RapidsStandInWhatIsAlreadyCut) {
    EXPECT_TRUE(rc::check("rapids stay where a feed has been", [] {
        const GroovePecks order = anyPecks();
        const auto along = [&](Point p) { return order.alongX ? p.r : p.z; };
        const auto across = [&](Point p) { return order.alongX ? p.z : p.r; };
        for (const CycleMove& move : planGroovePecks(order).moves) {
            if (move.kind != MoveKind::Rapid) continue;
            // Across only level with the start, along only back towards it.
            const double from = std::abs(along(move.from) - along(order.start));
            const double to = std::abs(along(move.to) - along(order.start));
            RC_ASSERT(to <= from);
            if (across(move.from) != across(move.to)) RC_ASSERT(to == 0 && from == 0);
        }
    }));
}

TEST(GroovePecks, AlongXAreAlongZWithTheAxesExchanged) {
    EXPECT_TRUE(rc::check("exchanged", [] {
        const GroovePecks order = anyPecks();
        const Image image = [](Point p) { return Point{p.r, p.z}; };
        GroovePecks twin = order;
        twin.start = image(order.start);
        twin.end = image(order.end);
        twin.alongX = !order.alongX;
        sameUnder(image, planGroovePecks(order).moves, planGroovePecks(twin).moves);
    }));
}

TEST(GroovePecks, InsideIsTheMirrorImageOfOutside) {
    EXPECT_TRUE(rc::check("mirrored in r and in z", [] {
        const GroovePecks order = anyPecks();
        for (const Point by : {Point{1, -1}, Point{-1, 1}}) {
            const Image image = [by](Point p) { return Point{by.z * p.z, by.r * p.r}; };
            GroovePecks twin = order;
            twin.start = image(order.start);
            twin.end = image(order.end);
            sameUnder(image, planGroovePecks(order).moves, planGroovePecks(twin).moves);
        }
    }));
}

TEST(GroovePecks, HaveALimit) {
    GroovePecks order{{0, 30}, {-0.001 * (kMostPecks + 1), 30}, 0.001, 0, 0, 0, false};
    EXPECT_TRUE(planGroovePecks(order).tooMany);
    order.end.z = -0.001 * kMostPecks;
    EXPECT_FALSE(planGroovePecks(order).tooMany);
}

DrillCycle anyDrilling() {
    DrillCycle order;
    order.start = {between(-1000, 5000), 0};
    order.retractZ = order.start.z - between(0, 1000);
    order.bottomZ = order.retractZ - between(1, 6000);
    order.peck = *rc::gen::arbitrary<bool>() ? between(50, 2000) : 0;
    order.clearance = between(0, 100);
    order.fullRetract = *rc::gen::arbitrary<bool>();
    order.dwellS = *rc::gen::arbitrary<bool>() ? 0.5 : 0;
    order.feedOut = *rc::gen::arbitrary<bool>();
    order.repeats = *rc::gen::inRange(1, 4);
    return order;
}

TEST(DrillCycles, ReachTheBottomAndNoFarther) {
    EXPECT_TRUE(rc::check("depth", [] {
        const DrillCycle order = anyDrilling();
        const DrillPlan plan = planDrillCycle(order);
        comesBack(plan.moves, order.start);
        int bottoms = 0;
        for (const CycleMove& move : plan.moves) {
            RC_ASSERT(move.to.z >= order.bottomZ);
            RC_ASSERT(move.to.z <= order.start.z);
            if (move.kind == MoveKind::Feed && move.to.z == order.bottomZ) ++bottoms;
        }
        RC_ASSERT(bottoms == order.repeats);
    }));
}

TEST(DrillCycles, PecksAreNoLongerThanAskedForAndRapidsStayInTheHole) {
    EXPECT_TRUE(rc::check("pecks", [] {
        DrillCycle order = anyDrilling();
        order.repeats = 1;
        double reached = order.retractZ;
        for (const CycleMove& move : planDrillCycle(order).moves) {
            if (move.kind == MoveKind::Rapid) RC_ASSERT(move.to.z >= reached);
            if (move.kind != MoveKind::Feed || move.to.z > reached) continue;
            RC_ASSERT(move.from.z - reached <= order.clearance + kRounding);
            if (order.peck > 0) RC_ASSERT(reached - move.to.z <= order.peck + kRounding);
            reached = move.to.z;
        }
        RC_ASSERT(reached == order.bottomZ);
    }));
}

TEST(DrillCycles, GoBackToTheRetractPointWhereAskedTo) {
    DrillCycle order;
    order.start = {10, 0};
    order.retractZ = 2;
    order.bottomZ = -20;
    order.backToRetractPoint = true;
    EXPECT_EQ(planDrillCycle(order).moves.back().to, (Point{2, 0}));
}

TEST(DrillCycles, HaveALimit) {
    DrillCycle order;
    order.bottomZ = -10;
    order.peck = 0.0005;
    EXPECT_TRUE(planDrillCycle(order).tooMany);
    order.peck = 0;
    order.repeats = kMostDrillPecks + 1;
    EXPECT_TRUE(planDrillCycle(order).tooMany);
}

}  // namespace
}  // namespace firstoff
