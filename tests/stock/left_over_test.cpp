// What one trial left is the blank of the next: same metal, other place, other end.
#include "sim/stock/left_over.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"

namespace firstoff {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

// A bar from z 0 to 40 turned in steps: 20 thick at the chuck, 12 from 25 on, bored 6 from 30 on, faced at 38.
Billet turnedPart(double pitch) {
    Stock stock;
    stock.outerRadius = 20;
    stock.frontZ = 40;
    Billet billet(stock, pitch);
    for (int i = 0; i < billet.grid().columns; ++i) {
        const double z = billet.grid().z(i);
        const Interval step{z > 30 ? 6.0 : 0.0, z > 25 ? 12.0 : 20.0, 7, 8};
        billet.setIntervals(i, z > 38 ? std::vector<Interval>{} : std::vector<Interval>{step});
    }
    return billet;
}

double outerAt(const LeftOver& left, double z) {
    const auto column = left.column(z, 0);
    return column.empty() ? 0 : column.back().outer;
}

TEST(LeftOver, ItsFrontFaceStandsWhereItIsWanted) {
    const Billet part = turnedPart(0.01);
    const LeftOver left(columnsOf(part), false, 100);
    EXPECT_NEAR(left.lengthMm(), 38, 1e-9);
    EXPECT_EQ(outerAt(left, 100.005), 0);
    EXPECT_EQ(outerAt(left, 99.995), 12);
    EXPECT_EQ(outerAt(left, 87.005), 12);
    EXPECT_EQ(outerAt(left, 86.995), 20);
    EXPECT_EQ(outerAt(left, 62.005), 20);
    EXPECT_EQ(outerAt(left, 61.995), 0);
    ASSERT_THAT(left.column(95, 0), SizeIs(1));
    EXPECT_EQ(left.column(95, 0)[0].inner, 6);
    EXPECT_EQ(left.column(95, 0)[0].outerCut, kCutBefore);
    EXPECT_EQ(left.column(95, 0)[0].innerCut, kCutBefore);
}

TEST(LeftOver, TurnedRoundTheOtherEndLooksOut) {
    const Billet part = turnedPart(0.01);
    const LeftOver left(columnsOf(part), true, 100);
    EXPECT_EQ(outerAt(left, 100.005), 0);
    EXPECT_EQ(outerAt(left, 99.995), 20);
    EXPECT_EQ(outerAt(left, 75.005), 20);
    EXPECT_EQ(outerAt(left, 74.995), 12);
    EXPECT_EQ(outerAt(left, 61.995), 0);
}

TEST(LeftOver, AnotherPitchFindsTheNearestColumn) {
    const Billet part = turnedPart(0.01);
    const LeftOver left(columnsOf(part), false, 38);
    // Half a pitch of the columns it was cut in.
    for (double z = 0.0013; z < 38; z += 0.0037) {
        if (std::abs(z - 25) > 0.005) {
            EXPECT_EQ(outerAt(left, z), z > 25 ? 12 : 20) << z;
        }
    }
}

TEST(LeftOver, SizesTheStock) {
    const Billet part = turnedPart(0.01);
    Stock stock;
    stock.shape = Stock::Shape::Previous;
    stock.frontZ = stock.backZ = 90;
    const Stock sized = sizedBy(stock, columnsOf(part));
    EXPECT_NEAR(sized.backZ, 52, 1e-9);
    EXPECT_EQ(sized.outerRadius, 20);
    EXPECT_EQ(sizedBy(stock, columnsOf(Billet::emptyLike(part))).outerRadius, 0);
}

// A field that looks different in every sector and every column.
ColumnsLeft skew(int sectors, bool turned) {
    ColumnsLeft left;
    left.grid = {0, 0.5, 40};
    left.sectors = sectors;
    left.outerRadius = 100;
    left.read = [sectors, turned](int column, int sector, std::vector<Interval>& out) {
        if (turned && sector != kEnvelope) {
            column = 39 - column;
            sector = (sectors - sector) % sectors;
        }
        out = {{0, 10.0 + column + 0.001 * sector, 3, 4}};
    };
    return left;
}

TEST(LeftOver, SectorsTurnTheOtherWayWhenItIsTurnedRound) {
    for (int sectors : {1, 256, 264}) {
        const LeftOver straight(skew(sectors, false), false, 20);
        const LeftOver turned(skew(sectors, false), true, 20);
        const LeftOver twice(skew(sectors, true), true, 20);
        for (int sector = 0; sector < sectors; ++sector) {
            const double angle = 2 * kPi * sector / sectors;
            for (double z = 0.25; z < 20; z += 0.5) {
                const int column = static_cast<int>(z / 0.5);
                EXPECT_EQ(outerAt(straight, z) > 0, true);
                EXPECT_EQ(straight.column(z, angle)[0].outer, 10.0 + column + 0.001 * sector);
                EXPECT_EQ(turned.column(z, angle)[0].outer,
                          10.0 + (39 - column) + 0.001 * ((sectors - sector) % sectors));
                EXPECT_EQ(twice.column(z, angle)[0].outer, straight.column(z, angle)[0].outer);
            }
        }
    }
}

// Gripped 0.05 off its axis: every point found lies on the part's own circle, whatever the angle.
TEST(LeftOver, OffItsAxisCirclesStayCircles) {
    const Billet part = turnedPart(0.01);
    for (bool turned : {false, true}) {
        const LeftOver left(columnsOf(part), turned, 100, 0.05);
        const double bored = turned ? 64 : 95;  // z where the part is bored
        EXPECT_FALSE(left.isRoundAt(bored));
        for (double angle = 0; angle < 6.3; angle += 0.1) {
            const auto solids = left.column(bored, angle);
            ASSERT_THAT(solids, SizeIs(1));
            const auto about = [angle](double r) {
                return std::hypot(r * std::cos(angle) - 0.05, r * std::sin(angle));
            };
            EXPECT_NEAR(about(solids[0].inner), 6, 1e-12);
            EXPECT_NEAR(about(solids[0].outer), 12, 1e-12);
            EXPECT_EQ(solids[0].outerCut, kCutBefore);
        }
    }
}

// An oval known at 256 angles; found between them to what a straight line between two of them departs from it,
// 10 * (2 pi / 256)^2 / 8 = 0.8 µm, and what is left after four rounds.
TEST(LeftOver, OffItsAxisAnOvalStaysTheOval) {
    const auto radius = [](double angle) { return 20 + 2.5 * std::cos(2 * angle); };
    ColumnsLeft oval;
    oval.grid.pitch = 0.5;
    oval.grid.columns = 40;
    oval.sectors = 256;
    oval.outerRadius = 22.5;
    oval.isRound = [](int) { return false; };
    oval.read = [&](int, int sector, std::vector<Interval>& out) {
        out = {{0, sector == kEnvelope ? 22.5 : radius(2 * kPi * sector / 256), 3, 4}};
    };
    const LeftOver left(oval, false, 20, 0.3);
    for (double angle = 0; angle < 6.3; angle += 0.07) {
        const double r = left.column(10, angle).at(0).outer;
        const double x = r * std::cos(angle) - 0.3, y = r * std::sin(angle);
        EXPECT_NEAR(std::hypot(x, y), radius(std::atan2(y, x)), 1.5e-3) << angle;
    }
}

TEST(LeftOver, NothingLeftIsNothing) {
    const Billet part = turnedPart(0.01);
    const Billet nothing = Billet::emptyLike(part);
    const LeftOver left(columnsOf(nothing), false, 100);
    EXPECT_TRUE(left.empty());
    EXPECT_EQ(left.lengthMm(), 0);
    EXPECT_THAT(left.column(90, 0), IsEmpty());
}

}  // namespace
}  // namespace firstoff
