// What a nose radius does to the part, with and without compensation, gauged on the cut bar.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

// A 45° chamfer from X40 Z0 to X50 Z-5 after facing, with the given preparatory code before it.
std::shared_ptr<const Trial> chamfer(const std::string& compensation) {
    auto setup = shop::barStock(60, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    return shop::run("G21 G40 G99\nT0101\nG97 S800 M03\nG00 X64. Z0.\nG01 X-1.6 F.2\nG00 Z5.\nX34. \n" + compensation +
                         " G00 X34. Z3.\nG01 X40. Z0 F.1\nX50. Z-5.\nZ-20.\nX64.\nG40 G00 X80. Z20.\nM30\n",
                     setup);
}

// r (sin A + cos A - 1) normal to the face at A = 45°, r = 0.8: 0.33137 mm
// (formula: forum copy in tests/reference/nose_compensation_rows.csv, geometry rechecked there).
constexpr double kLeftNormal = 0.33137;

double normalStock(const Trial& trial) {
    // At z = -2.5 the drawn chamfer has X45; a surplus in radius is sqrt(2) times the surplus normal to the face.
    return (shop::diameterAt(trial, -2.5) - 45) / 2 * std::cos(radians(45));
}

TEST(Chamfer, WithoutCompensationStandsProudByThePublishedFigure) {
    // Half a column (1 µm) of doubt in z is as much in r on a 45° face, 0.7 µm normal to it; 0.000005 of rounding.
    EXPECT_NEAR(normalStock(*chamfer("G40")), kLeftNormal, 0.00071);
}

TEST(Chamfer, WithCompensationIsTheDrawnOne) {
    EXPECT_NEAR(normalStock(*chamfer("G42")), 0, 0.00071);
}

TEST(Chamfer, OnTheWrongSideIsGougedByTwiceTheRadiusNormalToIt) {
    // Nose centre on the wrong side of the face: the far side of the nose stands one radius beyond its centre.
    const auto trial = chamfer("G41");
    EXPECT_LT(normalStock(*trial), -1.0);
}

// A groove of 1.2 for a nose of 0.8. With no room the nose goes down its wall to the end, a nose radius under the
// floor; the finding says how deep.
TEST(Groove, NarrowerThanTheNoseIsCutTooDeepByWhatTheFindingSays) {
    auto setup = shop::barStock(60, 60);
    shop::addTurningTool(setup, 2, 'V', 0.8, 93);
    const auto trial = shop::run(
        "G21 G40 G99\nT0202\nG97 S800 M03\nG00 X64. Z2.\nG42 G01 X50. F.2\nZ-10.\nX44.\nZ-11.2\nX50.\nZ-20.\n"
        "G40 G00 X80.\nM30\n",
        setup);
    const auto gouges = shop::findings(*trial, "compensation-gouge");
    ASSERT_EQ(gouges.size(), 1u);
    EXPECT_NEAR(gouges[0].values[0].second, 0.8, 1e-9);
    // The bottom of the nose is round: within half a column (1 µm) of its lowest point it rises by less than 1 nm.
    EXPECT_NEAR(shop::diameterAt(*trial, -10.4), 44 - 2 * 0.8, 1e-4);
}

// From the centre outwards over a faced front, then along the diameter: start-up A rolls over the front on its way,
// start-up B leaves it alone.
TEST(StartUp, ACutsIntoTheFrontAtAnOutsideCornerAndBDoesNot) {
    for (const CompensationStart start : {CompensationStart::A, CompensationStart::B}) {
        auto setup = shop::barStock(60, 60);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        setup.control.compensationStart = start;
        const auto trial = shop::run(
            "G21 G40 G99\nT0101\nG97 S800 M03\nG00 X64. Z0.\nG01 X-1.6 F.2\nG42 X40.\nZ-10.\nX64.\nG40 G00 X80.\nM30\n",
            setup);
        const double atTheFront = shop::diameterAt(*trial, -0.05);
        if (start == CompensationStart::A) {
            EXPECT_LT(atTheFront, 20);
        } else {
            EXPECT_NEAR(atTheFront, 40, 1e-4);  // rounding of the columns' stored radii
        }
    }
}

}  // namespace
}  // namespace firstoff
