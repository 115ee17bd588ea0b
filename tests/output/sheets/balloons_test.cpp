// Balloons beside a drawing: none over another, no leader over another or through a balloon.
#include "sim/output/sheets/balloons.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "sim/output/sheets/sketch_marks.h"

namespace firstoff {
namespace {

constexpr double kRow = 4, kFrom = 6, kTo = 176;

std::vector<Balloon> placed(const std::vector<PaperPoint>& places) {
    std::vector<Balloon> balloons;
    for (PaperPoint p : places) {
        Balloon b;
        b.number = static_cast<int>(balloons.size()) + 1;
        b.place = p;
        balloons.push_back(b);
    }
    placeBalloons(balloons, kRow, kFrom, kTo);
    return balloons;
}

double cross(PaperPoint a, PaperPoint b, PaperPoint p) {
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

bool doCross(PaperPoint a, PaperPoint b, PaperPoint c, PaperPoint d) {
    // Touching in a common end is no crossing; 1e-7 mm2 is rounding at the size of a sheet.
    constexpr double kRounding = 1e-7;
    return cross(a, b, c) * cross(a, b, d) < -kRounding && cross(c, d, a) * cross(c, d, b) < -kRounding;
}

double toSegment(PaperPoint p, PaperPoint a, PaperPoint b) {
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double share = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
    return std::hypot(p.x - a.x - share * dx, p.y - a.y - share * dy);
}

TEST(Balloons, StandAboveTheirPlacesWhereThereIsRoom) {
    const std::vector<Balloon> b = placed({{100, 60}, {30, 40}});
    EXPECT_EQ(b[0].number, 2);  // in order along the row
    EXPECT_NEAR(b[0].centre.x, 30, 1e-9);
    EXPECT_NEAR(b[1].centre.x, 100, 1e-9);
    EXPECT_NEAR(b[0].knee.y, kRow + kBalloonRadiusMm + kBalloonStubMm, 1e-9);
}

TEST(Balloons, ShareTheRoomAroundACrowd) {
    const std::vector<Balloon> b = placed({{50, 40}, {50.2, 50}, {49.8, 60}});
    EXPECT_NEAR(b[1].centre.x, 50, 0.01);
    EXPECT_NEAR(b[1].centre.x - b[0].centre.x, kBalloonPitchMm, 1e-9);
    EXPECT_NEAR(b[2].centre.x - b[1].centre.x, kBalloonPitchMm, 1e-9);
}

TEST(Balloons, HaveRoomAsSaid) {
    EXPECT_EQ(balloonsInRow(0, -1), 0u);
    EXPECT_EQ(balloonsInRow(0, 0), 1u);
    EXPECT_EQ(balloonsInRow(0, 10 * kBalloonPitchMm), 11u);
}

RC_GTEST_PROP(Balloons, NeverOverlapNorCross, ()) {
    const auto count = *rc::gen::inRange<std::size_t>(1, balloonsInRow(kFrom, kTo) + 1);
    std::vector<PaperPoint> places;
    for (std::size_t i = 0; i < count; ++i) {
        // A tenth of a millimetre apart or in one place: neighbours on a part often are.
        places.push_back({0.1 * *rc::gen::inRange(60, 1760), 0.1 * *rc::gen::inRange(90, 900)});
    }
    const std::vector<Balloon> b = placed(places);
    for (std::size_t i = 0; i < b.size(); ++i) {
        RC_ASSERT(b[i].centre.x >= kFrom - 1e-9);
        RC_ASSERT(b[i].centre.x <= kTo + 1e-9);
        for (std::size_t j = 0; j < b.size(); ++j) {
            if (i == j) continue;
            RC_ASSERT(std::abs(b[i].centre.x - b[j].centre.x) >= 2 * kBalloonRadiusMm);
            RC_ASSERT(!doCross(b[i].knee, b[i].place, b[j].knee, b[j].place));
            RC_ASSERT(toSegment(b[j].centre, b[i].knee, b[i].place) >= kBalloonRadiusMm);
        }
    }
    // Every number once.
    std::vector<int> numbers;
    for (const Balloon& x : b) numbers.push_back(x.number);
    std::sort(numbers.begin(), numbers.end());
    for (std::size_t i = 0; i < numbers.size(); ++i) RC_ASSERT(numbers[i] == static_cast<int>(i) + 1);
}

}  // namespace
}  // namespace firstoff
