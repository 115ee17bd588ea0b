// The method of VDI 3106 against the worked example of makers' manuals; rows of tests/reference/chuck_grip.csv, which
// name them.
#include "sim/cutting/chuck_grip.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>

#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

shop::ReferenceRow row(const std::string& id) {
    for (const shop::ReferenceRow& r : shop::referenceRows("chuck_grip.csv")) {
        if (r.text("id") == id) return r;
    }
    throw std::runtime_error("no row " + id);
}
double computed(const std::string& id) {
    return row(id).number("recomputed_value").value();
}
double stated(const std::string& id) {
    return row(id).number("stated_value").value();
}

// The example: three jaws, top jaw 5.33 kg at 0.107 m, base jaw 0.3190 kg m (inferred from the total), n 1200, F 3000
// N, both factors 1.5. Friction is in the manuals' F already, so 1 stands for it.
constexpr double kTopJawKg = 5.33, kTopJawRadiusMm = 107, kBaseJaw = 0.3190;

TEST(ChuckGrip, JawMoments) {
    // CG06 printed to five digits.
    EXPECT_NEAR(jawMomentKgM(1, kTopJawKg, kTopJawRadiusMm, 0), computed("CG06"), 5e-6);
    // CG07, printed to three decimals of the total.
    EXPECT_NEAR(jawMomentKgM(3, kTopJawKg, kTopJawRadiusMm, kBaseJaw), stated("CG07"), 5e-4);
    // The same by a mean over all jaws: twice the jaws, twice the moment.
    EXPECT_DOUBLE_EQ(jawMomentKgM(6, 1.2, 60, 0.1), 2 * jawMomentKgM(3, 1.2, 60, 0.1));
}

TEST(ChuckGrip, TheWorkedExampleOfTheManuals) {
    const double moment = stated("CG07");
    const double needed = neededGripN(3000, 1, kLeastForceSafety);
    EXPECT_DOUBLE_EQ(needed, computed("CG05"));
    EXPECT_DOUBLE_EQ(needed, stated("CG05"));
    const double pull = centrifugalN(moment, 1200);
    EXPECT_NEAR(pull, computed("CG08"), 0.05);  // one decimal
    const double standing = neededStandingN(needed, pull, kLeastSpeedSafety, Chuck::Grip::Outside);
    EXPECT_NEAR(standing, computed("CG09"), 0.1);
    const double speed = permittedRevPerMin(standing, needed, moment).value();
    EXPECT_NEAR(speed, computed("CG10"), 0.01);
    EXPECT_EQ(std::floor(speed), stated("CG10"));  // printed cut off to whole rev/min
}

// CG11: the manuals print Fsp0 = 17723 N beside the speed of 1495. Their own formula gives 672 for it: a misprint
// carried from manual to manual, which must not be reproduced.
TEST(ChuckGrip, TheMisprintedStandingGripGivesAnotherSpeed) {
    EXPECT_EQ(row("CG11").text("inputs"), "Fsp0 printed 17723 N");
    const double speed = permittedRevPerMin(17723, 4500, stated("CG07")).value();
    EXPECT_NEAR(speed, computed("CG11"), 0.01);
    EXPECT_GT(stated("CG11") / speed, 2.2);
}

TEST(ChuckGrip, OtherRows) {
    // CG12, CG13: two thirds, rounded in one of them.
    EXPECT_DOUBLE_EQ(kGreatestLoss, stated("CG12"));
    EXPECT_EQ(row("CG13").text("stated_value"), "1/3 of static");
    EXPECT_NEAR(1 - kLeftAtReferenceSpeed, kGreatestLoss, 0.005);
    EXPECT_EQ(row("CG15").text("stated_value"), "2.0 / 2.4");
    EXPECT_DOUBLE_EQ(kWantedForceSafety, 2.0);
    // CG16: friction of a third of the grip at each of three jaws.
    EXPECT_DOUBLE_EQ(heldByOneJawN(30000, 0.2, 3), 2000);
    // CG18, from memory: the least of each range.
    EXPECT_EQ(row("CG18").text("stated_quantity"), "mu smooth 0.10-0.15, soft turned 0.15-0.20, serrated 0.25-0.50");
    EXPECT_DOUBLE_EQ(kSmoothFriction, 0.10);
    EXPECT_DOUBLE_EQ(kSoftJawFriction, 0.15);
    // CG19: 3 jaws, 1.2 kg at 0.06 m, n 3000, 60 kN standing.
    const double moment = jawMomentKgM(3, 1.2, 60, 0);
    EXPECT_NEAR(centrifugalN(moment, 3000), computed("CG19"), 0.05);
    EXPECT_NEAR(leftAtSpeedN(60000, centrifugalN(moment, 3000), Chuck::Grip::Outside), 38681.7, 0.05);
    // CG20: 3000 N at 60 mm, gripped on 80 mm, friction 0.2, factor 2.
    EXPECT_NEAR(neededGripN(atGripN(3000, 60, 80), 0.2, 2), computed("CG20"), 1e-9);
    // CG21: 60 kN standing, 22.5 kN needed.
    EXPECT_NEAR(permittedRevPerMin(60000, computed("CG20"), moment).value(), computed("CG21"), 0.01);
}

TEST(ChuckGrip, SpeedAddsToAGripFromInside) {
    EXPECT_DOUBLE_EQ(leftAtSpeedN(20000, 5000, Chuck::Grip::Inside), 25000);
    EXPECT_DOUBLE_EQ(leftAtSpeedN(4000, 5000, Chuck::Grip::Outside), 0);
    // CG03: Ssp (Fsp - Fc), and never less than holds before the spindle turns.
    EXPECT_DOUBLE_EQ(neededStandingN(9000, 1000, 1.5, Chuck::Grip::Inside), 12000);
    EXPECT_DOUBLE_EQ(neededStandingN(9000, 8000, 1.5, Chuck::Grip::Inside), 9000);
}

TEST(ChuckGrip, NoSpeedWhereStandingStillIsNotEnough) {
    EXPECT_FALSE(permittedRevPerMin(4000, 4500, 2.668));
    EXPECT_EQ(permittedRevPerMin(4500, 4500, 2.668), 0);
}

RC_GTEST_PROP(ChuckGrip, AtThePermittedSpeedJustWhatIsNeededIsLeft, ()) {
    const double moment = *rc::gen::inRange(1, 5000) / 1000.0;
    const double needed = *rc::gen::inRange(1, 100000), above = *rc::gen::inRange(1, 200000);
    const double speed = permittedRevPerMin(needed + above, needed, moment).value();
    // A square root and its square: a few roundings.
    const double left = leftAtSpeedN(needed + above, centrifugalN(moment, speed), Chuck::Grip::Outside);
    RC_ASSERT(std::abs(left - needed) <= 1e-9 * (needed + above));
    const double third = revPerMinOfLoss(needed + above, moment, 1 - kLeftAtReferenceSpeed);
    RC_ASSERT(std::abs(centrifugalN(moment, third) - (needed + above) * 2 / 3) <= 1e-9 * (needed + above));
}

}  // namespace
}  // namespace firstoff
