// What a report says of holding, bending and edges, on a trial made by hand.
#include "sim/output/holding_report.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

#include "tests/support/load_shop.h"

namespace firstoff {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

Trial trialOf(shop::LoadedCut cut) {
    cut.cutBar();
    Trial trial;
    trial.program = readProgram("N10 G01 X10. Z-5. F0.1\nM30\n", "hand.nc");
    trial.setup = cut.setup;
    trial.toolpath = cut.toolpath;
    trial.timeline = cut.timeline;
    trial.stock = cut.stock;
    trial.loads = cut.loads;
    trial.holding = estimateHolding(trial.timeline, trial.toolpath, trial.setup, trial.stock, trial.loads);
    trial.bending = reckonBending(trial.timeline, trial.toolpath, trial.setup, trial.stock, trial.loads);
    trial.edges = edgeUses(trial.timeline, trial.toolpath, trial.setup, trial.loads);
    return trial;
}

shop::LoadedCut slenderCut() {
    shop::LoadedCut cut(20, 90);
    cut.setup.chuck.gripForceN = 40000;
    cut.setup.chuck.jawMassKg = 0.4;
    cut.setup.chuck.jawMassRadius = 45;
    cut.setup.chuck.baseJawMomentKgM = 0.03;
    cut.setup.chuck.friction = 0.25;
    cut.setup.tools[0].taylorN = 0.25;
    cut.setup.tools[0].taylorC = 400;
    cut.turn(9.999, 80, 0.1, 2000, {300, -100, -120});
    return cut;
}

TEST(HoldingReport, SaysFiguresWhatTheyRestOnAndWhoDecides) {
    const auto lines = holdingLines(trialOf(slenderCut()));
    // 300 N at 20 mm, the push along taken by the seat; times 1.5 / 0.25, and the pull of the jaws of 6.3 kN.
    EXPECT_THAT(lines,
                Contains(testing::AllOf(HasSubstr("Asked most by T0101 in line 1"), HasSubstr("300 N to hold"))));
    EXPECT_THAT(lines, Contains(HasSubstr("Grip set, standing 40.0 kN")));
    EXPECT_THAT(lines, Contains(HasSubstr("Grip asked for, standing 12.2 kN")));
    EXPECT_THAT(lines, Contains(HasSubstr("Grip left at that speed 33.7 kN")));
    EXPECT_THAT(lines, Contains(HasSubstr("Grip needed at that speed 1.8 kN")));
    EXPECT_THAT(lines, Contains(HasSubstr("authorised people")));
    EXPECT_THAT(lines, Contains(testing::AllOf(HasSubstr("gives way"), HasSubstr("off at Z1.000"))));
    EXPECT_THAT(lines, Contains(HasSubstr("parts an edge")));
    EXPECT_THAT(lines, Contains(HasSubstr("the least of VDI 3106")));
    EXPECT_THAT(lines, Contains(HasSubstr("clamped rigidly")));
}

TEST(HoldingReport, SaysNothingOfWhatIsNotKnown) {
    shop::LoadedCut cut(20, 90);
    cut.loads.forcesKnown = false;
    cut.turn(9.999, 80, 0.1, 2000, {});
    const Trial trial = trialOf(std::move(cut));
    EXPECT_THAT(holdingLines(trial), IsEmpty());
    EXPECT_TRUE(holdingObject(trial)["grip"].is_null());
    EXPECT_TRUE(holdingObject(trial)["speed"].is_null());
    EXPECT_THAT(holdingObject(trial)["missing"], Not(IsEmpty()));
    EXPECT_EQ(bendingObject(trial)["known"], false);
    EXPECT_TRUE(bendingObject(trial)["tools"][0]["greatest"].is_null());
    EXPECT_TRUE(edgesObject(trial)[0]["share"].is_null());
    EXPECT_TRUE(edgesObject(trial)[0]["parts_per_edge"].is_null());
}

TEST(HoldingReport, ObjectsHaveTheFiguresInTheUnitsOfTheirNames) {
    const Trial trial = trialOf(slenderCut());
    const auto holding = holdingObject(trial);
    EXPECT_NEAR(holding["grip"]["standing_n"].get<double>(), 40000, 1e-6);
    EXPECT_NEAR(holding["grip"]["held_n"].get<double>(), trial.holding.grip->heldN, 1e-6);
    EXPECT_EQ(holding["grip"]["tool"], "T0101");
    EXPECT_EQ(holding["grip"]["holds"], true);
    EXPECT_THAT(holding["caution"].get<std::string>(), HasSubstr("chuck maker's chart"));
    const auto greatest = bendingObject(trial)["tools"][0]["greatest"];
    EXPECT_NEAR(greatest["error_mm"].get<double>(), trial.bending.tools[0].greatest.errorMm, 1e-6);
    EXPECT_NEAR(greatest["z_mm"].get<double>(), 1, 1e-6);  // the front of the bar, a millimetre before the datum
    EXPECT_NEAR(edgesObject(trial)[0]["share"].get<double>(), trial.edges[0].share.value(), 1e-6);
}

}  // namespace
}  // namespace firstoff
