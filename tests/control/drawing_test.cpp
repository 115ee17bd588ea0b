// Corners and lines by their angle: what elementary geometry says of them, found another way.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "sim/base/units.h"
#include "sim/control/corner.h"
#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

Setup lathe() {
    firstoff::Setup setup = shop::barStock(60, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    return setup;
}

Toolpath run(const std::string& text) {
    return interpret(readProgram(text, "test"), lathe());
}

double within(double low, double high) {
    return low + (high - low) * *rc::gen::inRange(0, 1'000'001) / 1e6;
}

Point heading(double angle) {
    return {std::cos(angle), std::sin(angle)};
}

bool isArc(const Stretch& s) {
    return s.kind != MoveKind::Feed;
}

// A line, or an arc of up to 300 degrees, that leaves `corner` in the direction `angle`; `back`: that arrives there.
Stretch stretchAt(Point corner, double angle, bool back) {
    Stretch s;
    const int form = *rc::gen::inRange(0, 3);
    const double sign = back ? -1 : 1;
    Point far = corner + sign * within(0.5, 40) * heading(angle);
    if (form > 0) {
        const double left = form == 1 ? 1 : -1;  // anticlockwise: the centre lies to the left of the travel
        const double radius = within(0.5, 40);
        s.kind = form == 1 ? MoveKind::ArcAnticlockwise : MoveKind::ArcClockwise;
        s.centre = corner + left * radius * leftOf(heading(angle));
        const double swept = sign * left * within(0.05, 5.2);
        const Point spoke = corner - s.centre;
        far = s.centre + std::cos(swept) * spoke + std::sin(swept) * leftOf(spoke);
    }
    s.from = back ? far : corner;
    s.to = back ? corner : far;
    return s;
}

struct Pair {
    Stretch first, second;
};

// Two stretches that meet at an angle of at least 10 degrees: nearer to straight on the touching points are as badly
// determined as the crossing of two nearly parallel lines.
Pair pairOfStretches() {
    const Point corner{within(-50, 0), within(5, 30)};
    const double arriving = within(-kPi, kPi);
    const double turn = within(0.18, 2.9) * (*rc::gen::arbitrary<bool>() ? 1 : -1);
    return {stretchAt(corner, arriving, true), stretchAt(corner, arriving + turn, false)};
}

// How far a point lies from the line or circle of a stretch.
double offStretch(const Stretch& s, Point p) {
    if (isArc(s)) return std::abs(distance(p, s.centre) - distance(s.from, s.centre));
    return std::abs(cross(p - s.from, s.to - s.from)) / distance(s.from, s.to);
}

// Rounding of sums of lengths of some 100 mm, and the square root of a crossing of two circles.
constexpr double kExact = 1e-9;

TEST(Corner, AFilletTouchesBothItsNeighbours) {
    EXPECT_TRUE(rc::check("fillet", [] {
        const Pair pair = pairOfStretches();
        const double most = std::min(largestCorner(pair.first, pair.second, true), 60.0);
        RC_PRE(most > 0.2);
        const double radius = within(0.1, most);
        const CornerFit fit = fitCorner(pair.first, pair.second, {radius, true, {}});
        RC_ASSERT(fit.fault == CornerFit::Fault::None);
        RC_ASSERT(std::abs(distance(fit.start, fit.centre) - radius) < kExact);
        RC_ASSERT(std::abs(distance(fit.end, fit.centre) - radius) < kExact);
        RC_ASSERT(offStretch(pair.first, fit.start) < kExact);
        RC_ASSERT(offStretch(pair.second, fit.end) < kExact);
        const auto touches = [&](const Stretch& s) {
            if (!isArc(s)) return std::abs(offStretch(s, fit.centre) - radius);
            const double apart = distance(fit.centre, s.centre);
            const double own = distance(s.from, s.centre);
            return std::min(std::abs(apart - own - radius), std::abs(std::abs(apart - own) - radius));
        };
        RC_ASSERT(touches(pair.first) < kExact);
        RC_ASSERT(touches(pair.second) < kExact);
        // It leaves the first and meets the second in their own directions, not the other way.
        const double turn = fit.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
        const auto travel = [](const Stretch& s, Point at) {
            if (!isArc(s)) return (1 / distance(s.from, s.to)) * (s.to - s.from);
            const double sense = s.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
            return (sense / distance(at, s.centre)) * leftOf(at - s.centre);
        };
        const Point leaving = (turn / radius) * leftOf(fit.start - fit.centre);
        const Point meeting = (turn / radius) * leftOf(fit.end - fit.centre);
        RC_ASSERT(distance(leaving, travel(pair.first, fit.start)) < 1e-7);
        RC_ASSERT(distance(meeting, travel(pair.second, fit.end)) < 1e-7);
    }));
}

TEST(Corner, AChamferEndsAtItsDistanceFromTheCorner) {
    EXPECT_TRUE(rc::check("chamfer", [] {
        const Pair pair = pairOfStretches();
        const double most = largestCorner(pair.first, pair.second, false);
        RC_PRE(most > 0.05);
        const double size = within(0.01, most);
        const CornerFit fit = fitCorner(pair.first, pair.second, {size, false, {}});
        RC_ASSERT(fit.fault == CornerFit::Fault::None);
        RC_ASSERT(fit.kind == MoveKind::Feed);
        RC_ASSERT(std::abs(distance(fit.start, pair.first.to) - size) < kExact);
        RC_ASSERT(std::abs(distance(fit.end, pair.first.to) - size) < kExact);
        RC_ASSERT(offStretch(pair.first, fit.start) < kExact);
        RC_ASSERT(offStretch(pair.second, fit.end) < kExact);
    }));
}

TEST(Corner, TheLargestFitsAndAMicrometreMoreDoesNot) {
    EXPECT_TRUE(rc::check("largest", [] {
        const Pair pair = pairOfStretches();
        const bool fillet = *rc::gen::arbitrary<bool>();
        const double most = largestCorner(pair.first, pair.second, fillet);
        // Between two arcs that curve towards each other every radius may fit.
        RC_PRE(most > 0 && most < 1e6);
        const auto fits = [&](double size) {
            return fitCorner(pair.first, pair.second, {size, fillet, {}}).fault == CornerFit::Fault::None;
        };
        RC_ASSERT(fits(most));
        RC_ASSERT(!fits(most + 0.001));
        RC_ASSERT(fits(within(0.01, 0.99) * most));
        RC_ASSERT(!fits(within(1.01, 3) * most + 0.001));
    }));
}

TEST(Corner, TheLargestOfAShortStepIsTheStep) {
    const Stretch face{{0, 10}, {0, 13}, {}, MoveKind::Feed};
    const Stretch cylinder{{0, 13}, {-20, 13}, {}, MoveKind::Feed};
    EXPECT_EQ(largestCorner(face, cylinder, true), 3);
    EXPECT_EQ(largestCorner(face, cylinder, false), 3);
    // 45 degrees: the tangent length is R tan 22.5, so of a leg of 3 it is 7.2426 (elementary geometry).
    const Stretch taper{{0, 13}, {-20, 33}, {}, MoveKind::Feed};
    EXPECT_EQ(largestCorner(face, taper, true), 7.242);
}

TEST(Corner, TheFindingCarriesTheLargestFigure) {
    const Toolpath path = run("T0101\nG97 S1000 M03\nG00 X20. Z0\nG01 X26. ,R4. F.2\nZ-20.\nM30\n");
    ASSERT_EQ(path.findings.size(), 1u);
    const auto& values = path.findings[0].values;
    EXPECT_THAT(values, testing::Contains(testing::Pair("largest_mm", 3.0)));
    EXPECT_THAT(path.findings[0].message, testing::HasSubstr("the largest that fits is 3 mm"));
}

// Kinds and places of the feed moves.
std::vector<Move> cuts(const Toolpath& path) {
    std::vector<Move> result;
    for (const Move& move : path.moves) {
        if (move.kind == MoveKind::Feed || move.kind == MoveKind::ArcClockwise ||
            move.kind == MoveKind::ArcAnticlockwise)
            result.push_back(move);
    }
    return result;
}

void expectSame(const std::string& drawn, const std::string& longhand) {
    const std::string head = "T0101\nG97 S1000 M03\n";
    const auto a = cuts(run(head + drawn + "M30\n"));
    const auto b = cuts(run(head + longhand + "M30\n"));
    RC_ASSERT(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        RC_ASSERT(a[i].kind == b[i].kind);
        // Nine decimals in the programs, and lines that cross at 10 degrees or more.
        RC_ASSERT(distance(a[i].to, b[i].to) < 1e-7);
        if (a[i].kind != MoveKind::Feed) RC_ASSERT(distance(a[i].centre, b[i].centre) < 1e-7);
    }
}

std::string xz(Point p) {
    return fmt::format("X{:.9f} Z{:.9f}", 2 * p.r, p.z);
}

double degrees(double rad) {
    return rad * 180 / kPi;
}

TEST(Angle, OneCoordinateAndAnAngleIsTheMoveWithBoth) {
    EXPECT_TRUE(rc::check("angle with one coordinate", [] {
        const Point from{within(-20, 0), within(10, 25)};
        const double angle = within(-kPi, kPi);
        RC_PRE(std::abs(std::sin(angle)) > 0.1 && std::abs(std::cos(angle)) > 0.1);
        const Point to = from + within(0.5, 8) * heading(angle);
        const std::string start = "G00 " + xz(from) + "\nG01 F.2\n";
        const int form = *rc::gen::inRange(0, 4);
        const std::string word = form == 0   ? fmt::format("X{:.9f}", 2 * to.r)
                                 : form == 1 ? fmt::format("Z{:.9f}", to.z)
                                 : form == 2 ? fmt::format("U{:.9f}", 2 * (to.r - from.r))
                                             : fmt::format("W{:.9f}", to.z - from.z);
        const char* comma = *rc::gen::arbitrary<bool>() ? "," : "";
        expectSame(start + fmt::format("{} {}A{:.9f}\n", word, comma, degrees(angle)), start + xz(to) + "\n");
    }));
}

// A crossing chosen first, so that nothing has to be solved for the longhand program; a fillet or chamfer there from
// the tangent length R tan(turn / 2).
TEST(Angle, TwoLinesMeetWhereTheyWereDrawn) {
    EXPECT_TRUE(rc::check("two lines", [] {
        const Point corner{within(-40, -10), within(15, 30)};
        const double first = within(-kPi, kPi);
        const double turn = within(0.18, 2.6) * (*rc::gen::arbitrary<bool>() ? 1 : -1);
        const Point u = heading(first);
        const Point v = heading(first + turn);
        const Point from = corner - within(3, 8) * u;
        const Point to = corner + within(3, 8) * v;
        const int form = *rc::gen::inRange(0, 3);
        const double legs = within(0.2, 2.5);
        const double radius = legs / std::tan(std::abs(turn) / 2);
        const std::string start = "G00 " + xz(from) + "\nG01 F.2\n";
        const std::string word = form == 0   ? ""
                                 : form == 1 ? fmt::format(" ,C{:.9f}", legs)
                                             : fmt::format(" ,R{:.9f}", radius);
        const std::string drawn =
            start + fmt::format("A{:.9f}{}\n{} A{:.9f}\n", degrees(first), word, xz(to), degrees(first + turn));
        std::string longhand = start;
        if (form == 0) {
            longhand += "G01 " + xz(corner) + "\n";
        } else {
            const Point a = corner - legs * u;
            const Point b = corner + legs * v;
            const Point centre = a + (turn > 0 ? radius : -radius) * leftOf(u);
            longhand += "G01 " + xz(a) + "\n";
            longhand += form == 1 ? "G01 " + xz(b) + "\n"
                                  : fmt::format("G0{} {} I{:.9f} K{:.9f}\n", turn > 0 ? 3 : 2, xz(b), centre.r - a.r,
                                                centre.z - a.z);
        }
        expectSame(drawn, longhand + "G01 " + xz(to) + "\n");
    }));
}

// Outside and in a bore, with and without compensation, as a finish cut and as a roughing cycle: the job drawn by
// angles and corners is the job written out. The profile: chamfer 1 at 45 degrees, taper of 30 degrees to X40, fillet
// of 3 into a face (tangent length 3 tan 30 on the taper, for it turns by 60), worked out by hand.
TEST(Angle, AProfileByAnglesIsTheOneByPoints) {
    const double leg = 3 * std::tan(radians(30));
    const double s30 = std::sin(radians(30));
    const double c30 = std::cos(radians(30));
    for (const bool inside : {false, true}) {
        const double out = inside ? -1 : 1;
        const auto x = [&](double radius) { return fmt::format("X{:.9f}", 2 * (inside ? 40 - radius : radius)); };
        const auto z = [](double at) { return fmt::format(" Z{:.9f}", at); };
        const auto angle = [&](double degreesOutside) {
            return fmt::format(" A{:.6f}", inside ? 360 - degreesOutside : degreesOutside);
        };
        const double length = (20 - 12) / std::tan(radians(30));  // of the taper, along Z
        const std::string drawn =
            x(12) + " ,C1.\nA180.\n" + x(20) + z(-10 - length) + angle(150) + " ,R3.\n" + x(24) + angle(90) + "\n";
        const Point corner{-10 - length, 20};
        const Point a = corner - leg * Point{-c30, s30};
        const Point b = corner + leg * Point{0, 1};
        const Point centre{a.z + 3 * s30, a.r + 3 * c30};
        const std::string longhand = x(11) + "\n" + x(12) + " Z-1.\nZ-10.\n" + x(a.r) + z(a.z) + "\n" +
                                     fmt::format("{} {}{} I{:.9f} K{:.9f}\nG01 ", inside ? "G03" : "G02", x(b.r),
                                                 z(b.z), out * (centre.r - a.r), centre.z - a.z) +
                                     x(24) + "\n";
        const std::string start = "T0101\nG97 S1000 M03\nG00 " + x(inside ? 24.5 : 25) + " Z2.\n";
        for (const char* on : {"", inside ? "G41 " : "G42 "}) {
            const std::string approach = std::string(on) + "G00 " + x(8) + "\nG01 Z0 F.1\n";
            const std::string away = std::string("G40 ") + x(inside ? 24.5 : 25) + "\n";
            const std::string cycle =
                inside ? "G71 U1. R.5\nG71 P1 Q2 U-.4 W.1 F.2\n" : "G71 U1. R.5\nG71 P1 Q2 U.4 W.1 F.2\n";
            for (const std::string& before : {std::string(), std::string("G70 P1 Q2\n"), cycle}) {
                const auto jobOf = [&](const std::string& shape) {
                    return start + before + "N1 " + approach + shape + "N2 " + away + "M30\n";
                };
                const auto one = cuts(run(jobOf(drawn)));
                const auto other = cuts(run(jobOf(longhand)));
                ASSERT_EQ(one.size(), other.size()) << jobOf(drawn) << jobOf(longhand);
                ASSERT_GT(one.size(), 6u);
                // Nine decimals in the programs, doubled by X.
                for (std::size_t i = 0; i < one.size(); ++i) EXPECT_LT(distance(one[i].to, other[i].to), 1e-8) << i;
            }
        }
    }
}

TEST(Angle, AContradictionGivesItsAmount) {
    const Toolpath path = run("T0101\nG97 S1000 M03\nG00 X20. Z0\nG01 X30. Z-10. A180. F.2\nM30\n");
    ASSERT_EQ(path.findings.size(), 1u);
    EXPECT_EQ(path.findings[0].code, "angle-contradicts");
    ASSERT_EQ(path.findings[0].values.size(), 1u);
    EXPECT_NEAR(path.findings[0].values[0].second, 5, 1e-9);
}

// A crossing that lies behind the beginning of the first line is the same point, and is said to be odd.
TEST(Angle, ACrossingBehindTheLineIsReported) {
    const Toolpath path = run("T0101\nG97 S1000 M03\nG00 X20. Z-20.\nG01 A180. F.2\nX50. Z-30. A135.\nM30\n");
    ASSERT_EQ(path.findings.size(), 1u);
    EXPECT_EQ(path.findings[0].code, "angle-points-back");
    EXPECT_EQ(path.findings[0].span.line, 4u);
    const auto moves = cuts(path);
    ASSERT_EQ(moves.size(), 2u);
}

// Steps stay in order although the first line is written when the second is known.
TEST(Angle, EachLineBelongsToItsOwnBlock) {
    const Toolpath path = run("T0101\nG97 S1000 M03\nG00 X20. Z0\nG01 A180. F.2\nM08\nX50. Z-30. A135.\nM30\n");
    for (std::size_t i = 0; i + 1 < path.steps.size(); ++i) {
        for (std::uint32_t m = path.steps[i].firstMove; m < path.steps[i + 1].firstMove; ++m)
            EXPECT_EQ(path.moves[m].block, path.steps[i].block);
    }
}

}  // namespace
}  // namespace firstoff
