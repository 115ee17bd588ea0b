#include "sim/control/roughing.h"

#include <gtest/gtest.h>

#include <rapidcheck.h>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "sim/program/program.h"
#include "tests/support/reference_rows.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

// The contours of the two worked programs, as their rows describe them.
constexpr const char* kSpindleOfTc058 =
    "T0101\nG97 S800 M03\nG00 X46 Z3\nG71 U1.5 R1\nG71 P10 Q20 U0.4 W0.1 F0.3\n"
    "N10 G00 X0\nG01 X10 Z-2\nZ-20\nG02 X20 Z-25 R5\nG01 Z-35\nG03 X34 Z-42 R7\nG01 Z-52\nX44 Z-62\nN20 Z-82\nM30\n";
constexpr const char* kConesOfTc059 =
    "T0101\nG97 S800 M03\nG00 X160 Z180\nG71 U7.0 R1.0 P04 Q10 U4.0 W2.0 F0.3\n"
    "N04 G00 X40\nG01 W-40\nX60 W-30\nW-20\nX100 W-10\nW-20\nN10 X140 W-20\nM30\n";

struct PassEnd {
    double x, z;
};

// "pass end points: X43 Z-60.500; X40 Z-57.500; …", remarks in brackets left out.
std::vector<PassEnd> passEnds(const std::string& id) {
    for (const shop::ReferenceRow& row : shop::referenceRows("turning_code_facts.csv")) {
        if (row.text("id") != id) continue;
        std::vector<PassEnd> ends;
        std::istringstream in(row.text("expected"));
        for (std::string part; std::getline(in, part, ';');) {
            const auto x = part.find('X');
            const auto z = part.find('Z');
            ends.push_back({std::stod(part.substr(x + 1)), std::stod(part.substr(z + 1))});
        }
        return ends;
    }
    throw std::runtime_error("no row " + id);
}

// Where each pass meets the profile: the end of its feed along Z. The cut along the profile is no such pass.
std::vector<PassEnd> cycleEnds(const char* program) {
    auto setup = shop::barStock(160, 200);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    const Toolpath path = interpret(readProgram(program, "worked"), setup);
    EXPECT_EQ(verdictOf(path.findings), Verdict::Clear) << path.findings.front().message;
    std::vector<PassEnd> ends;
    int last = 0;
    for (const Move& move : path.moves) last = std::max(last, static_cast<int>(move.pass));
    for (const Move& move : path.moves) {
        if (move.pass == 0 || move.pass == last || move.kind != MoveKind::Feed || move.from.r != move.to.r) continue;
        const Point end = move.to + path.programmedShift(move);
        ends.push_back({2 * end.r, end.z});
    }
    return ends;
}

// The rows round to three decimals.
constexpr double kRounded = 0.0006;

TEST(RoughingWorked, ThePassesOfTc058ComeOut) {
    const auto expected = passEnds("TC058");
    const auto found = cycleEnds(kSpindleOfTc058);
    ASSERT_EQ(expected.size(), 15u);
    ASSERT_EQ(found.size(), expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_NEAR(found[i].x, expected[i].x, kRounded) << "pass " << i + 1;
        EXPECT_NEAR(found[i].z, expected[i].z, kRounded) << "pass " << i + 1;
    }
}

TEST(RoughingWorked, ThePassesOfTc059ComeOut) {
    const auto expected = passEnds("TC059");
    const auto found = cycleEnds(kConesOfTc059);
    ASSERT_EQ(expected.size(), 8u);
    ASSERT_EQ(found.size(), expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_NEAR(found[i].x, expected[i].x, kRounded) << "pass " << i + 1;
        // The row allows both ends of the cylinder that lies at exactly the height of this pass; the farther one leaves
        // less to the cut along the profile.
        const double z = expected[i].x == 104 ? 62 : expected[i].z;
        EXPECT_NEAR(found[i].z, z, kRounded) << "pass " << i + 1;
    }
}

// A profile of steps and cones that only rises, in thousandths.
std::vector<ProfileElement> risingProfile() {
    std::vector<ProfileElement> profile;
    Point at{0, *rc::gen::inRange(0, 5000) / 1000.0};
    const int count = *rc::gen::inRange(1, 12);
    for (int i = 0; i < count; ++i) {
        Point to = at;
        to.z -= *rc::gen::inRange(0, 8000) / 1000.0;
        to.r += *rc::gen::inRange(0, 4000) / 1000.0;
        if (i == 0) to.z -= 1;
        ProfileElement element{at, to, {}, MoveKind::Feed, static_cast<BlockId>(i)};
        // Now and then a quarter circle, hollow or round: both only rise.
        if (*rc::gen::inRange(0, 3) == 0 && to.r > at.r) {
            const double radius = to.r - at.r;
            element.to = {at.z - radius, to.r};
            const bool hollow = *rc::gen::arbitrary<bool>();
            element.kind = hollow ? MoveKind::ArcClockwise : MoveKind::ArcAnticlockwise;
            element.centre = hollow ? Point{at.z, to.r} : Point{at.z - radius, at.r};
        }
        at = element.to;
        profile.push_back(element);
    }
    return profile;
}

// Height of the profile above z, the larger one on a face; before its beginning as at its beginning.
double heightAt(const std::vector<ProfileElement>& profile, double z) {
    double height = profile.front().from.r;
    for (const ProfileElement& e : profile) {
        if (e.from.z < z - 1e-9) break;
        if (z <= e.to.z + 1e-9) {
            height = e.to.r;
        } else if (e.kind == MoveKind::Feed) {
            height = e.from.r + (e.to.r - e.from.r) * (z - e.from.z) / (e.to.z - e.from.z);
        } else {
            const double radius = distance(e.from, e.centre);
            const double dz = z - e.centre.z;
            const double dr = std::sqrt(std::fmax(0.0, radius * radius - dz * dz));
            height = e.centre.r + (e.kind == MoveKind::ArcClockwise ? -dr : dr);
        }
    }
    return height;
}

TEST(Roughing, NeverGoesBelowTheShiftedProfileAndLeavesNoMoreThanADepth) {
    EXPECT_TRUE(rc::check("passes against the profile", [] {
        const std::vector<ProfileElement> profile = risingProfile();
        RoughingOrder order;
        order.start = {2, profile.back().to.r + 1};
        order.depth = *rc::gen::inRange(200, 3000) / 1000.0;
        order.retract = *rc::gen::inRange(0, 9000) / 1000.0;
        order.allowance = {*rc::gen::inRange(0, 300) / 1000.0, *rc::gen::inRange(0, 500) / 1000.0};
        const RoughingPlan plan = planRoughing(profile, order);
        RC_ASSERT(!plan.turnsBack && plan.intoPart == 0 && !plan.startInsideProfile && plan.frame.outside());
        const auto shiftedHeight = [&](double z) {
            return heightAt(profile, z - order.allowance.z) + order.allowance.r;
        };
        for (const CycleMove& move : plan.moves) {
            // Passes start and end at S, and nothing leads farther back.
            RC_ASSERT(move.pass == plan.passes || move.to.z <= order.start.z + 1e-12);
            if (move.pass == plan.passes || move.kind != MoveKind::Feed || move.from.r != move.to.r) continue;
            const double level = move.to.r;
            for (int i = 0; i <= 50; ++i) {
                const double z = move.from.z + (move.to.z - move.from.z) * i / 50;
                // A pass ends on the profile; on a face its own z belongs to both heights.
                if (i == 50) continue;
                RC_ASSERT(shiftedHeight(z) <= level + 1e-6);
            }
            // Just beyond its end the profile does stand in the way, or it is over.
            const double beyond = move.to.z - 1e-6;
            const bool over = beyond < profile.back().to.z + order.allowance.z;
            RC_ASSERT(over || shiftedHeight(beyond) > level - 1e-4);
        }
    }));
}

// Boring is outside turning seen in a mirror, and turning away from the chuck likewise.
TEST(Roughing, OfAMirroredProfileIsMirrored) {
    EXPECT_TRUE(rc::check("four quarters", [] {
        const std::vector<ProfileElement> profile = risingProfile();
        RC_PRE(profile.back().to.r > profile.front().from.r);
        RoughingOrder order;
        order.start = {2, profile.back().to.r + 1};
        order.depth = 0.7;
        order.retract = 0.3;
        order.allowance = {0.1, 0.2};
        const RoughingPlan plan = planRoughing(profile, order);
        const double z = *rc::gen::element(1.0, -1.0);
        const double r = *rc::gen::element(1.0, -1.0);
        const auto flip = [&](Point p) { return Point{z * p.z, r * p.r}; };
        std::vector<ProfileElement> other = profile;
        for (ProfileElement& e : other) {
            e.from = flip(e.from);
            e.to = flip(e.to);
            e.centre = flip(e.centre);
            if (z * r < 0 && e.kind != MoveKind::Feed) {
                e.kind = e.kind == MoveKind::ArcClockwise ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
            }
        }
        RoughingOrder otherOrder = order;
        otherOrder.start = flip(order.start);
        otherOrder.allowance = flip(order.allowance);
        const RoughingPlan mirrored = planRoughing(other, otherOrder);
        RC_ASSERT(mirrored.moves.size() == plan.moves.size());
        RC_ASSERT(mirrored.frame.outside() == (r > 0));
        RC_ASSERT(mirrored.frame.towardsChuck() == (z > 0));
        for (std::size_t i = 0; i < plan.moves.size(); ++i) {
            RC_ASSERT(distance(mirrored.moves[i].to, flip(plan.moves[i].to)) < 1e-12);
            RC_ASSERT(mirrored.moves[i].pass == plan.moves[i].pass);
        }
    }));
}

TEST(Roughing, FollowsTheShiftedProfileLastAndComesBackToItsStart) {
    EXPECT_TRUE(rc::check("last pass", [] {
        const std::vector<ProfileElement> profile = risingProfile();
        RoughingOrder order;
        order.start = {2, profile.back().to.r + 1};
        order.depth = 1;
        order.retract = 0.5;
        order.allowance = {0.1, 0.2};
        const RoughingPlan plan = planRoughing(profile, order);
        RC_ASSERT(plan.moves.back().kind == MoveKind::Rapid);
        RC_ASSERT(distance(plan.moves.back().to, order.start) < 1e-12);
        double along = 0;
        double expected = 0;
        for (const CycleMove& move : plan.moves) {
            if (move.block != kNoBlock) along += distance(move.from, move.to);
        }
        for (const ProfileElement& e : profile) expected += distance(e.from, e.to);
        RC_ASSERT(std::abs(along - expected) < 1e-9);
    }));
}

}  // namespace
}  // namespace firstoff
