// The formula of flank_clearance.h against points along the flank, one by one.
#include "sim/trial/flank_clearance.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {
namespace {

double intoByPoints(double wall, double height, double clearance, double flank) {
    const double x = std::sqrt(wall * wall - height * height);
    double into = -1e9;
    constexpr int kPoints = 20000;
    for (int i = 1; i <= kPoints; ++i) {
        const double t = flank * i / kPoints;
        into = std::max(into, std::hypot(x - t * std::tan(clearance), height - t) - wall);
    }
    return into;
}

// 1e-6: the points are 0.5 µm apart at most, and the distance changes less than that between them.
TEST(FlankClearance, IsTheFarthestPointOfTheFlankWhereItRubs) {
    int rubs = 0, clears = 0;
    for (double wall : {3.0, 8.0, 15.0, 40.0}) {
        for (double height : {-0.3, 0.0, 0.4}) {
            for (double deg : {2.0, 5.0, 7.0, 11.0, 20.0}) {
                for (double flank : {1.6, 3.97, 9.0}) {
                    const double into = flankIntoWallMm(wall, height, radians(deg), flank);
                    const double points = intoByPoints(wall, height, radians(deg), flank);
                    if (into > 0) {
                        EXPECT_NEAR(into, points, 1e-6) << wall << ' ' << height << ' ' << deg << ' ' << flank;
                        ++rubs;
                    } else if (height >= 0) {
                        EXPECT_LE(points, 1e-6) << wall << ' ' << height << ' ' << deg << ' ' << flank;
                        ++clears;
                    }
                }
            }
        }
    }
    EXPECT_GT(rubs, 40);
    EXPECT_GT(clears, 20);
}

TEST(FlankClearance, TheSmallestClearedRadiusIsWhereTheHeelTouches) {
    for (double deg : {3.0, 7.0, 15.0}) {
        const double radius = smallestClearedRadiusMm(radians(deg), 4);
        EXPECT_NEAR(flankIntoWallMm(radius, 0, radians(deg), 4), 0, 1e-12 * radius);
    }
}

}  // namespace
}  // namespace firstoff
