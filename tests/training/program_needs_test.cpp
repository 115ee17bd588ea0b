// What a step asks of a program beyond the right part.
#include "sim/training/program_needs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

std::shared_ptr<const Trial> made(const std::string& profile, const std::string& cycles, const std::string& speed) {
    auto setup = shop::barStock(60, 80);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    return shop::run("T0101\nG50 S2000\n" + speed + "\nG00 X64. Z2.\n" + cycles + "N100 G00 " + profile +
                         "G01 Z-20. F.1\nX56. Z-30.\nN120 G40 X64.\n" + (cycles.empty() ? "" : "G70 P100 Q120\n") +
                         "G28 U0 W0\nM30\n",
                     setup);
}

const char* const kRoughing = "G71 U2. R.5\nG71 P100 Q120 U.4 W.1 F.3\n";
const char* const kG96 = "G96 S200 M03";

TEST(ProgramNeeds, KnowTheCyclesThatRan) {
    EXPECT_THAT(cyclesCarriedOut(*made("G42 X50.\n", kRoughing, kG96)), ElementsAre(71, 70));
    EXPECT_THAT(cyclesCarriedOut(*made("G42 X56.\n", "", kG96)), IsEmpty());
}

TEST(ProgramNeeds, AreMetByTheModelItself) {
    const auto model = made("G42 X50.\n", kRoughing, kG96);
    ProgramNeeds needs;
    needs.compensation = needs.surfaceSpeed = needs.speedClamp = true;
    needs.cycles = {71, 70};
    needs.mostLongerS = 0;
    needs.mostRevPerMin = 2000;
    needs.deepestCutMm = 2;
    EXPECT_THAT(unmetNeeds(*model, *model, needs), IsEmpty());
}

TEST(ProgramNeeds, EachIsToldWhereItIsNotMet) {
    const auto model = made("G42 X50.\n", kRoughing, kG96);
    ProgramNeeds compensation, surfaceSpeed, cycles, order, depth;
    compensation.compensation = true;
    surfaceSpeed.surfaceSpeed = true;
    cycles.cycles = {71, 70};
    order.cycles = {70, 71};
    depth.deepestCutMm = 1.9;
    EXPECT_THAT(unmetNeeds(*made("X50.\n", kRoughing, kG96), *model, compensation),
                testing::Contains(HasSubstr("without nose-radius compensation")));
    EXPECT_THAT(unmetNeeds(*made("G42 X50.\n", kRoughing, "G97 S1200 M03"), *model, surfaceSpeed),
                testing::Contains(HasSubstr("not cut at constant surface speed")));
    EXPECT_THAT(unmetNeeds(*made("G42 X50.\n", "", kG96), *model, cycles),
                ElementsAre(HasSubstr("Asked for are the cycles G71, G70; carried out were none.")));
    EXPECT_THAT(unmetNeeds(*model, *model, order), ElementsAre(HasSubstr("carried out were G71, G70.")));
    EXPECT_THAT(unmetNeeds(*model, *model, depth), ElementsAre(HasSubstr("2.00 mm deep; no more than 1.9")));
}

}  // namespace
}  // namespace firstoff
