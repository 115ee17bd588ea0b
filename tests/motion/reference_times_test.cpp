// Speeds and times of makers' tables and worked answers; each row of tests/reference/speed_time_examples.csv names its
// source. `recomputed_value` is checked: some printed values are rounded or truncated, as the rows say.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "sim/base/units.h"
#include "sim/motion/timeline.h"
#include "tests/motion/path_by_hand.h"
#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

using shop::ReferenceRow;

// Half of the last figure in the row.
double roundingOf(const std::string& printed) {
    const std::size_t point = printed.find('.');
    const std::size_t decimals = point == std::string::npos ? 0 : printed.size() - point - 1;
    return 0.51 * std::pow(10.0, -static_cast<double>(decimals));
}

double facingTime(const ReferenceRow& row, double vc) {
    auto setup = shop::openLathe();
    shop::PathByHand path(shop::constantSurfaceSpeed(vc, row.number("n_max_per_min").value_or(0)), *row.number("D1_mm"),
                          0);
    // Rows without a second diameter run along Z.
    const double length = row.number("length_mm").value_or(0);
    const double d1 = *row.number("D1_mm");
    const double d2 = row.number("D2_mm").value_or(d1);
    const double rise = (d1 - d2) / 2;
    // Facing rows give the radial way as their length; the taper row a length along Z.
    const double z = rise == length ? 0 : -length;
    path.feed(d2, z, *row.number("f_mm_per_rev"));
    return layOut(path.path(), setup).cycleTimeS;
}

double answerTo(const ReferenceRow& row) {
    const std::string& asked = row.text("stated_quantity");
    const double d = row.number("D1_mm").value_or(0);
    if (asked == "vc") return surfaceSpeedMPerMin(*row.number("n_per_min"), d / 2);
    if (asked == "n") {
        auto setup = shop::openLathe();
        shop::PathByHand path(shop::constantSurfaceSpeed(*row.number("vc_m_per_min"), 0), d, 0);
        path.feed(d, -1, 0.2);
        return layOut(path.path(), setup).moves[0].rpmStart;
    }
    if (asked == "SCL") return facingTime(row, 100) / 60 * 100;  // length = time * surface speed, any speed will do
    if (row.text("vc_m_per_min").empty()) {
        auto setup = shop::openLathe();
        shop::PathByHand path(shop::constantRevPerMin(*row.number("n_per_min")), 50, 0);
        path.feed(50, -*row.number("length_mm"), *row.number("f_mm_per_rev"));
        return layOut(path.path(), setup).cycleTimeS;
    }
    return facingTime(row, *row.number("vc_m_per_min"));
}

TEST(ReferenceTimes, EveryRowThatIsANumberComesOut) {
    int checked = 0;
    for (const ReferenceRow& row : shop::referenceRows("speed_time_examples.csv")) {
        const auto expected = row.number("recomputed_value");
        if (!expected || row.text("stated_quantity") == "f") continue;  // formulas; ST02 has its own test
        SCOPED_TRACE(row.text("id") + " " + row.text("case"));
        EXPECT_NEAR(answerTo(row), *expected, roundingOf(row.text("recomputed_value")));
        ++checked;
    }
    EXPECT_EQ(checked, 16);
}

// ST02: 120 mm/min at 500 rev/min is 0.24 mm/rev.
TEST(ReferenceTimes, FeedPerMinuteAndPerRevolutionAgree) {
    auto setup = shop::openLathe();
    ModalState perMinute = shop::constantRevPerMin(500);
    perMinute.feedPerRev = false;
    shop::PathByHand a(perMinute, 50, 0), b(shop::constantRevPerMin(500), 50, 0);
    a.feed(50, -60, 120);
    b.feed(50, -60, 0.24);
    EXPECT_NEAR(layOut(a.path(), setup).cycleTimeS, layOut(b.path(), setup).cycleTimeS, 1e-9);
}

}  // namespace
}  // namespace firstoff
