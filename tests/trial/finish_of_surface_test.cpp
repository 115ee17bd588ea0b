// Which surface of a line the finish is told of.
#include <gtest/gtest.h>

#include "sim/trial/finish.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

constexpr double kDatum = 89;  // lathe z of Z0 on this bar

// One line is carried out twice, by a loop: X50 down to Z-10, and X40 down to Z-4 with a face behind it; line 6 cuts
// both cylinders.
std::shared_ptr<const Trial> stepped() {
    auto setup = shop::barStock(60, 60);
    shop::addTurningTool(setup, 1, 'D', 0.4, 93);
    return runTrial(readProgram("T0101\nG97 S800 M03\n#1=50. #2=10.\nWHILE[#1GE40.]DO1\nG00 X#1 Z2.\nG01 Z-#2 F0.1\n"
                                "X66.\nG00 Z2.\n#1=#1-10. #2=#2-6.\nEND1\nG28 U0 W0\nM30\n",
                                "steps.nc"),
                    setup);
}

constexpr BlockId kTurning = 5, kFacing = 6, kPositioning = 4;

TEST(FinishOfSurface, TakesTheOneAtThePlaceElseTheLongest) {
    const auto trial = stepped();
    struct Row {
        const char* what;
        std::optional<Point> place;
        double from, to;  // work Z
    };
    for (const Row& row :
         {Row{"the longest", std::nullopt, -10, -4}, Row{"on the larger", Point{kDatum - 7, 25}, -10, -4},
          Row{"on the smaller", Point{kDatum - 1, 20}, -4, 0},
          Row{"beside the smaller", Point{kDatum + 3, 21}, -4, 0}}) {
        const auto report = finishOfSurface(*trial, kTurning, row.place);
        ASSERT_TRUE(report) << row.what;
        EXPECT_EQ(report->trouble, "") << row.what;
        EXPECT_EQ(report->span.side, SurfaceSpan::Side::Outer);
        // Less the nose in the corner behind and the chamferless edge in front.
        EXPECT_NEAR(report->span.from, kDatum + row.from, 0.5) << row.what;
        EXPECT_NEAR(report->span.to, kDatum + row.to, 1.1) << row.what;
        // The same figures as when all surfaces of the line are asked for.
        bool found = false;
        for (const FinishReport& other : finishOfBlock(*trial, kTurning)) {
            if (other.span.from == report->span.from) found = other.roughness.ra == report->roughness.ra;
        }
        EXPECT_TRUE(found) << row.what;
    }
}

TEST(FinishOfSurface, TellsFacesFromTheCylinderBesideThem) {
    const auto trial = stepped();
    const auto face = finishOfSurface(*trial, kFacing, Point{kDatum - 4, 23});
    ASSERT_TRUE(face);
    EXPECT_EQ(face->span.side, SurfaceSpan::Side::FrontFace);
    EXPECT_NEAR(face->span.z, kDatum - 4, 0.01);
}

// Both cylinders and both shoulders, front end first, with the diameters that the program wrote and the same figures as
// when their line is asked for.
TEST(SurfaceFinishes, HoldEverySurfaceOnce) {
    const auto trial = stepped();
    const auto all = surfaceFinishes(*trial);
    ASSERT_EQ(all.size(), 4u);
    struct Row {
        SurfaceSpan::Side side;
        BlockId block;
        double diameterFrom, diameterTo;
    };
    const Row kRows[] = {{SurfaceSpan::Side::Outer, kTurning, 40, 40},
                         {SurfaceSpan::Side::FrontFace, kFacing, 40, 50},
                         {SurfaceSpan::Side::Outer, kTurning, 50, 50},
                         {SurfaceSpan::Side::FrontFace, kFacing, 50, 60}};
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(all[i].span.side, kRows[i].side) << i;
        EXPECT_EQ(all[i].leftBy, kRows[i].block) << i;
        // Faces begin behind the nose in the corner, 0.4 mm; columns hold radii as floats.
        EXPECT_NEAR(2 * all[i].rFrom, kRows[i].diameterFrom, all[i].span.isFace() ? 1 : 1e-5) << i;
        EXPECT_NEAR(2 * all[i].rTo, kRows[i].diameterTo, all[i].span.isFace() ? 1 : 1e-5) << i;
    }
    const auto alone = finishOfSurface(*trial, kTurning, Point{kDatum - 1, 20});
    ASSERT_TRUE(alone);
    EXPECT_EQ(all[0].roughness.ra, alone->roughness.ra);
    EXPECT_TRUE(all[0].places.empty()) << "profiles are not kept";
}

// A face turned by two lines in halves has a row for each, from the axis outwards; what was faced before is gone.
TEST(SurfaceFinishes, AFaceBelongsToTheLastThatCutIt) {
    auto setup = shop::barStock(60, 60);
    shop::addTurningTool(setup, 1, 'D', 0.4, 93);
    const auto trial = runTrial(
        readProgram("T0101\nG97 S800 M03\nG00 X64. Z0.2\nG01 X20. F0.2\nG00 Z2.\nX64.\nZ0.\nG01 X40. F0.1\nX20. F0.2\n"
                    "G00 Z5.\nG28 U0 W0\nM30\n",
                    "face.nc"),
        setup);
    std::vector<BlockId> blocks;
    for (const FinishReport& report : surfaceFinishes(*trial)) {
        if (report.span.side == SurfaceSpan::Side::FrontFace) blocks.push_back(report.leftBy);
    }
    EXPECT_EQ(blocks, (std::vector<BlockId>{8, 7}));
}

TEST(FinishOfSurface, LooksAtThePartAsItIsThen) {
    const auto trial = stepped();
    FinishOptions before;
    before.timeS = 0;
    EXPECT_FALSE(finishOfSurface(*trial, kTurning, std::nullopt, before));
    EXPECT_FALSE(finishOfSurface(*trial, kPositioning, std::nullopt));
    FinishOptions first;  // while the first shoulder is faced: X50 still reaches to the end
    first.timeS = trial->startOfBlock(kFacing);
    const auto report = finishOfSurface(*trial, kTurning, std::nullopt, first);
    ASSERT_TRUE(report);
    EXPECT_GT(report->span.to - report->span.from, 8);
}

}  // namespace
}  // namespace firstoff
