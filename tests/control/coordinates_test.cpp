// Twins: the same job written for another way of counting, or with the same datum and offsets had in another way.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <rapidcheck.h>

#include <cmath>
#include <string>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

Setup lathe() {
    firstoff::Setup setup = shop::barStock(60, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addTurningTool(setup, 2, 'D', 0.4, 93);
    return setup;
}

Toolpath run(const std::string& text, const firstoff::Setup& setup = lathe()) {
    return interpret(readProgram(text, "test"), setup);
}

// Kinds and places of all moves, and how the control reckons them.
testing::AssertionResult same(const Toolpath& a, const Toolpath& b, double within) {
    if (a.moves.size() != b.moves.size())
        return testing::AssertionFailure() << a.moves.size() << " and " << b.moves.size() << " moves";
    for (std::size_t i = 0; i < a.moves.size(); ++i) {
        const Move& m = a.moves[i];
        const Move& n = b.moves[i];
        const bool arc = m.kind == MoveKind::ArcClockwise || m.kind == MoveKind::ArcAnticlockwise;
        const bool equal = m.kind == n.kind && distance(m.to, n.to) <= within && std::abs(m.feed - n.feed) <= within &&
                           (!arc || distance(m.centre, n.centre) <= within) && std::abs(m.seconds - n.seconds) < 1e-9;
        if (!equal) return testing::AssertionFailure() << "move " << i << " of line " << m.block + 1 << " differs";
    }
    return testing::AssertionSuccess();
}

// Everything that has an X or a length: cycle, corners, arcs, lines by their angle, shifts, offset entry, reference
// positions. `x` and `length` write a diameter and a length in mm.
template <typename X, typename Length>
std::string job(X x, Length n) {
    return "G10 P1 X" + x(0.2) + " Z" + n(0.1) + "\nG10 L2 P1 W" + n(-1) + "\nT0101\nG97 S900 M03\nG00 X" + x(62) +
           " Z" + n(2) + "\nG71 U" + n(2) + " R" + n(0.5) + "\nG71 P10 Q20 U" + x(0.4) + " W" + n(0.1) +
           " F.3\nN10 G00 G42 X" + x(20) + "\nG01 Z0 F.1\nX" + x(30) + " ,C" + n(1) + "\nZ" + n(-20) + " ,R" + n(2) +
           "\nX" + x(40) + "\nG03 X" + x(50) + " Z" + n(-25) + " R" + n(5) + "\nG01 Z" + n(-40) + "\nG02 X" + x(56) +
           " Z" + n(-43) + " I" + n(3) + " K0\nN20 G01 G40 X" + x(62) + "\nG70 P10 Q20\nG52 X" + x(1) + " Z" + n(-2) +
           "\nG00 X" + x(64) + " Z" + n(3) + "\nG01 A180. ,R" + n(3) + " F.2\nX" + x(80) + " Z" + n(-30) + " A135.\nU" +
           x(4) + " A90.\nG52 X0 Z0\nG50 U" + x(2) + " W" + n(1) + "\nG00 X" + x(90) + "\nG28 U" + x(5) + " W0\nG53 X" +
           x(-50) + " Z" + n(-100) + "\nG27 X" + x(200) + "\nM30\n";
}

std::string point(double value) {
    const std::string text = fmt::format("{:.6f}", value);
    return text;
}

std::string thousandths(double value) {
    return fmt::format("{}", std::lround(value * 1000));
}

TEST(CoordinateTwins, AProgramInRadiiIsTheOneInDiameters) {
    auto inRadii = lathe();
    inRadii.control.radiusProgramming = true;
    const Toolpath diameters = run(job(point, point));
    const Toolpath radii = run(job([](double x) { return point(x / 2); }, point), inRadii);
    EXPECT_GT(diameters.moves.size(), 60u);
    EXPECT_TRUE(same(diameters, radii, 1e-9));  // sums of decimal figures
    EXPECT_EQ(diameters.findings.size(), radii.findings.size());
}

TEST(CoordinateTwins, AProgramInIncrementsIsTheOneWithPoints) {
    auto inIncrements = lathe();
    inIncrements.control.wholeNumbers = ControlOptions::WholeNumbers::Increments;
    const Toolpath points = run(job(point, point), inIncrements);
    const Toolpath increments = run(job(thousandths, thousandths), inIncrements);
    EXPECT_TRUE(same(points, increments, 1e-9));
    EXPECT_EQ(points.findings.size(), increments.findings.size());
    EXPECT_TRUE(same(points, run(job(point, point)), 0)) << "with points the setting changes nothing";
}

TEST(CoordinateTwins, AnInchProgramIsTheMetricOne) {
    const auto inch = [](double mm) { return fmt::format("{:.12f}", mm / 25.4); };
    std::string text = job(inch, inch);
    for (const char* feed : {"F.3", "F.2", "F.1"}) {
        const std::string f = fmt::format("F{:.12f}", std::stod(std::string(feed).substr(1)) / 25.4);
        for (std::size_t at = 0; (at = text.find(feed, at)) != std::string::npos; at += f.size())
            text.replace(at, 3, f);
    }
    EXPECT_TRUE(same(run(job(point, point)), run("G20\n" + text), 1e-8));
}

double thousandth(int low, int high) {
    return *rc::gen::inRange(low * 1000, high * 1000) / 1000.0;
}

TEST(CoordinateTwins, UnderG91DistancesAreTheSameAsUAndW) {
    auto b = lathe();
    b.control.codeSystem = CodeSystem::B;
    EXPECT_TRUE(rc::check("G91 and U W", [&] {
        std::string withU = "T0101\nG97 S900 M03\nG00 X62. Z2.\nG01 F.2\n";
        std::string with91 = "T0101\nG97 S900 M03\nG00 G90 X62. Z2.\nG01 G91 F.2\n";
        const int moves = *rc::gen::inRange(1, 12);
        for (int i = 0; i < moves; ++i) {
            const double u = thousandth(-3, 3);
            const double w = thousandth(-5, 2);
            const int form = *rc::gen::inRange(0, 3);
            const std::string tail = form == 1 ? " ,R.2" : "";
            withU += fmt::format("U{:.3f}{}\n", u, form == 2 ? " A135." : fmt::format(" W{:.3f}{}", w, tail));
            with91 += fmt::format("X{:.3f}{}\n", u, form == 2 ? " A135." : fmt::format(" Z{:.3f}{}", w, tail));
        }
        const Toolpath one = run(withU + "G28 U0 W0\nM30\n");
        const Toolpath other = run(with91 + "G28 X0 Z0\nM30\n", b);
        RC_ASSERT(same(one, other, 0));
        RC_ASSERT(one.findings.size() == other.findings.size());
    }));
}

const std::string kCuts = "T0101\nG97 S900 M03\nG00 X62. Z2.\nG01 X50. F.2\nZ-20.\nG00 X64.\n";

// A datum shifted in five ways: as the set-up gives it, by entry, and by three shifts.
TEST(CoordinateTwins, TheSameDatumHadInAnyWayGivesTheSameMoves) {
    EXPECT_TRUE(rc::check("datum", [] {
        const double x = thousandth(-5, 5);
        const double z = thousandth(-20, 20);
        auto moved = lathe();
        moved.workOffsets[0] = moved.workOffsets[0] + Point{z, x / 2};
        const Toolpath expected = run(kCuts, moved);
        const Point machine = moved.workOffsets[0] - Point{moved.machine.home.z, 0};
        const std::vector<std::string> ways = {
            fmt::format("G10 L2 P1 X{:.6f} Z{:.6f}\n", 2 * machine.r, machine.z),
            fmt::format("G10 L2 P1 U{:.3f} W{:.3f}\n", x, z),
            fmt::format("G10 L2 P0 X{:.3f} Z{:.3f}\n", x, z),
            fmt::format("G10 L20 P7 X{:.6f} Z{:.6f}\nG54.1 P7\n", 2 * machine.r, machine.z),
            fmt::format("G52 X{:.3f} Z{:.3f}\n", x, z),
            fmt::format("G50 U{:.3f} W{:.3f}\n", -x, -z),
        };
        for (const std::string& way : ways) {
            const Toolpath path = run(way + kCuts);
            RC_ASSERT(same(path, expected, 1e-9));
            // What the display says is the same, too.
            for (std::size_t i = 0; i < path.moves.size(); ++i) {
                const Point shown = path.moves[i].to + path.programmedShift(path.moves[i]);
                const Point wanted = expected.moves[i].to + expected.programmedShift(expected.moves[i]);
                RC_ASSERT(distance(shown, wanted) < 1e-9);
            }
        }
    }));
}

TEST(CoordinateTwins, WearEnteredByTheProgramIsThatOfTheSetUp) {
    EXPECT_TRUE(rc::check("wear", [] {
        const double x = thousandth(-1, 1);
        const double z = thousandth(-1, 1);
        auto worn = lathe();
        Offset offset;
        offset.number = 1;
        offset.wear = {z, x / 2};
        worn.offsets = {offset};
        const Toolpath expected = run(kCuts, worn);
        RC_ASSERT(same(run(fmt::format("G10 P1 X{:.3f} Z{:.3f}\n", x, z) + kCuts), expected, 1e-9));
        RC_ASSERT(same(run(fmt::format("G10 L11 P1 U{:.3f} W{:.3f}\n", x, z) + kCuts), expected, 1e-9));
        // A tool that is longer by the wear the other way.
        const Point tip = worn.tools[0].tip - Point{z, x / 2};
        RC_ASSERT(same(run(fmt::format("G10 P10001 X{:.6f} Z{:.6f}\n", 2 * tip.r, tip.z) + kCuts), expected, 1e-9));
    }));
}

TEST(Coordinates, TheShiftLeftOnIsGivenInFigures) {
    const Toolpath path = run("T0101\nG50 U-4. W-2.5\nG28 U0 W0\nM30\n");
    ASSERT_EQ(path.findings.size(), 1u);
    EXPECT_EQ(path.findings[0].code, "coordinate-shift-left-on");
    EXPECT_EQ(path.findings[0].severity, Severity::Warning);
    EXPECT_THAT(path.findings[0].values,
                testing::ElementsAre(testing::Pair("shift_x_mm", 4.0), testing::Pair("shift_z_mm", 2.5)));
    EXPECT_THAT(path.findings[0].message, testing::HasSubstr("X4 Z2.5"));
}

TEST(Coordinates, SetAgainAtTheSamePlaceIsANoteOnly) {
    const Toolpath path = run("T0101\nG50 X200. Z100.\nG00 X62. Z2.\nX200. Z100.\nM30\n");
    ASSERT_EQ(path.findings.size(), 1u);
    EXPECT_EQ(path.findings[0].severity, Severity::Note);
}

// Nothing is changed for ever: an offset that is entered twice is what was entered last.
TEST(Coordinates, EntriesFollowEachOther) {
    EXPECT_TRUE(same(run("G10 P1 X1. Z1.\nG10 P1 X.2\nG10 P1 W-.5\n" + kCuts), run("G10 P1 X.2 Z.5\n" + kCuts), 1e-9));
}

}  // namespace
}  // namespace firstoff
