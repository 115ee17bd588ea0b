// Inserts sent along contours that their nose does not reach.
#include <gtest/gtest.h>

#include <cctype>
#include <cmath>

#include "sim/base/units.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

firstoff::Setup bench() {
    auto setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);      // 80° at 95°: 5° behind the nose
    shop::addTurningTool(setup, 2, 'V', 0.4, 93);  // 35° at 93°: 52°
    shop::addBoringBar(setup, 3, 'C', 0.4);
    shop::addDrill(setup, 9, 24);
    return setup;
}

struct Row {
    const char* name;
    const char* body;  // from line 3; lines 1 and 2 set the modes and start the spindle
    const char* expected;
};

class Contours : public testing::TestWithParam<Row> {};

TEST_P(Contours, AreFollowedOrNot) {
    const auto trial =
        shop::run(std::string("G21 G40 G99\nG97 S900 M03\n") + GetParam().body + "G40 G28 U0 W0\nM30\n", bench());
    EXPECT_EQ(shop::foundInTheCut(*trial), GetParam().expected);
}

const char* const kDrilled = "T0909\nG00 X0 Z5.\nG01 Z-40. F.2\nG00 Z5.\nG28 U0 W0\n";  // lines 3 to 7
const std::string kBoreFalls =
    std::string(kDrilled) + "T0303\nG00 X26. Z2.\nG01 Z-5. F.1\nX27. Z-8.\nZ-20.\nX24.\nG00 Z5.\n";
const std::string kBoreClimbs =
    std::string(kDrilled) + "T0303\nG00 X27. Z2.\nG01 Z-5. F.1\nX26. Z-8.\nZ-20.\nX24.\nG00 Z5.\n";

INSTANTIATE_TEST_SUITE_P(
    Trial, Contours,
    testing::Values(
        Row{"down a ramp of 27 degrees with 5 behind the nose",
            "T0101\nG00 X50. Z3.\nG01 Z-10. F.2\nX40. Z-20.\nZ-25.\nX54.\n", "insert-cuts-behind-nose@6"},
        Row{"down the same ramp with 52 behind the nose",
            "T0202\nG00 X50. Z3.\nG01 Z-10. F.2\nX40. Z-20.\nZ-25.\nX54.\n", ""},
        Row{"down a ramp of 2 degrees", "T0101\nG00 X50. Z3.\nG01 Z-10. F.2\nX49.3 Z-20.\nZ-25.\nX54.\n", ""},
        Row{"down a hollow that ends steeply",
            "T0101\nG00 X50. Z3.\nG01 Z-10. F.2\nG02 X44. Z-19. R20.\nG01 Z-25.\nX54.\n", "insert-cuts-behind-nose@6"},
        Row{"down the same hollow with a slim insert",
            "T0202\nG00 X50. Z3.\nG01 Z-10. F.2\nG02 X44. Z-19. R20.\nG01 Z-25.\nX54.\n", ""},
        Row{"down the wall of an undercut", "T0101\nG00 X54. Z3.\nG42 X50.\nG01 Z-6. F.2\nX44. Z-6.2\nZ-25.\nX54.\n",
            "insert-cuts-behind-nose@7"},
        Row{"down a ramp of 4 degrees", "T0101\nG00 X50. Z3.\nG01 Z-10. F.2\nX48.6 Z-20.\nZ-25.\nX54.\n",
            "trailing-edge-rubs@6"},
        Row{"down a ramp in the air that a cut has left",
            "T0101\nG00 X44. Z3.\nG01 Z-30. F.2\nX54.\nG00 Z3.\nX52.\nG01 Z0\nX46. Z-12.\nZ-30.\nX54.\n", ""},
        Row{"up a taper, a chamfer and a face",
            "T0101\nG00 X40. Z3.\nG01 Z0 F.2\nX44. Z-2.\nX46. Z-20.\nX54.\nG00 Z0\nG01 X-1.6\nG00 Z3.\n", ""},
        // The nose of a slim insert has normals over more than a right angle.
        Row{"up a face and a chamfer with a slim insert", "T0202\nG00 X40. Z2.\nG01 Z-1. F.1\nX44.\nX46. Z-2.\nX52.\n",
            ""},
        Row{"fed into the bar on a slant from outside", "T0101\nG00 X60. Z2.\nG01 X46. Z-1. F.2\nZ-20.\nX54.\n", ""},
        Row{"compensated on the right side", "T0101\nG00 X54. Z3.\nG42 X40.\nG01 Z-20. F.2\nX46. Z-30.\nX54.\n", ""},
        Row{"compensated on the wrong side", "T0101\nG00 X54. Z3.\nG41 X40.\nG01 Z-20. F.2\nX46. Z-30.\nX54.\n",
            "compensation-wrong-side@5 insert-cuts-behind-nose@6 insert-cuts-behind-nose@7"},
        // The bar, which lies 0.75 under the tip as its outline has it, comes near to the wall that rises behind it.
        Row{"a bore that widens towards the chuck", kBoreFalls.c_str(), "insert-cuts-behind-nose@11 near-miss@11"},
        Row{"a bore that narrows towards the chuck", kBoreClimbs.c_str(), ""}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = std::isalnum(static_cast<unsigned char>(c)) ? c : '_';
        return name;
    });

// Along the ramp, which falls 5 mm (radius) over 10, an edge of 5° from its lower end leaves 9 (tan 26.565° - tan 5°)
// too little a tenth of the way down; the two noses that touch ramp and edge differ by R (1/cos - 1) each (elementary
// geometry), less than 0.1 mm for R 0.8.
TEST(Gouge, IsAsDeepAsTheEdgeBehindTheNoseReaches) {
    const auto trial = shop::run(
        "G21 G40 G99\nG97 S900 M03\nT0101\nG00 X50. Z3.\nG01 Z-10. F.2\nX40. Z-20.\nZ-25.\nX54.\nG28 U0 W0\nM30\n",
        bench());
    const auto found = shop::findings(*trial, "insert-cuts-behind-nose");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_NEAR(found[0].values[0].second, 9 * (0.5 - std::tan(radians(5))), 0.1);
    EXPECT_NEAR(found[0].values[1].second, degrees(std::atan(0.5)) - 5, 1e-9);
    EXPECT_EQ(found[0].severity, Severity::Stop);
}

}  // namespace
}  // namespace firstoff
