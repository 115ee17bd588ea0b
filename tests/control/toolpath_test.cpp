// Properties of whole programs, and the parts of the control that stand alone.
#include "sim/control/toolpath.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <rapidcheck.h>
#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <vector>

#include "sim/control/arc.h"
#include "sim/control/corner.h"
#include "sim/control/tool_word.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

Setup lathe() {
    firstoff::Setup setup = shop::barStock(60, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addBoringBar(setup, 4, 'C', 0.4);
    return setup;
}

Toolpath run(const std::string& text, const firstoff::Setup& setup = lathe()) {
    return interpret(readProgram(text, "test"), setup);
}

// Two paths are the same path: kinds, places and feeds within `within`, blocks and passes exactly.
testing::AssertionResult same(const Toolpath& a, const Toolpath& b, double within) {
    if (a.moves.size() != b.moves.size()) {
        return testing::AssertionFailure() << a.moves.size() << " and " << b.moves.size() << " moves";
    }
    for (std::size_t i = 0; i < a.moves.size(); ++i) {
        const Move& m = a.moves[i];
        const Move& n = b.moves[i];
        const bool centres = m.kind == MoveKind::ArcClockwise || m.kind == MoveKind::ArcAnticlockwise;
        const bool equal = m.kind == n.kind && m.pass == n.pass && m.compensation == n.compensation &&
                           distance(m.from, n.from) <= within && distance(m.to, n.to) <= within &&
                           (!centres || distance(m.centre, n.centre) <= within) && std::abs(m.feed - n.feed) <= within;
        if (!equal) return testing::AssertionFailure() << "move " << i << " of line " << m.block + 1 << " differs";
    }
    return testing::AssertionSuccess();
}

// A job of everything that shapes a path: cycle, corners, arcs, compensation. `x`, `z`, `u`, `w` write coordinates.
std::string job(double unit, const char* units) {
    const auto n = [unit](double mm) { return fmt::format("{:.12f}", mm / unit); };
    return fmt::format("{}\nT0101\nG97 S900 M03\nG00 X{} Z{}\n", units, n(62), n(2)) +
           fmt::format("G71 U{} R{}\nG71 P10 Q20 U{} W{} F{}\n", n(2), n(0.5), n(0.4), n(0.1), n(0.3)) +
           fmt::format("N10 G00 G42 X{}\nG01 Z0 F{}\n", n(20), n(0.1)) + fmt::format("X{} ,C{}\n", n(30), n(1)) +
           fmt::format("Z{} ,R{}\n", n(-20), n(2)) + fmt::format("X{}\n", n(40)) +
           fmt::format("G03 X{} Z{} R{}\n", n(50), n(-25), n(5)) + fmt::format("G01 Z{}\n", n(-40)) +
           fmt::format("G02 X{} Z{} I{} K0\n", n(56), n(-43), n(3)) +
           fmt::format("N20 G01 G40 X{}\nG70 P10 Q20\nG28 U0 W0\nM30\n", n(62));
}

TEST(Twins, AnInchProgramIsTheMetricOne) {
    const Toolpath metric = run(job(1, "G21"));
    const Toolpath inch = run(job(25.4, "G20"));
    EXPECT_THAT(metric.findings, testing::IsEmpty()) << metric.findings.front().message;
    EXPECT_GT(metric.moves.size(), 60u);
    // Twelve decimals of an inch are rounded by 1.3e-11 mm; steps of a cycle add up a few of them.
    EXPECT_TRUE(same(metric, inch, 1e-9));
}

struct Stop {
    double x, z;
};

rc::Gen<std::vector<Stop>> stops() {
    return rc::gen::container<std::vector<Stop>>(rc::gen::build<Stop>(
        rc::gen::set(&Stop::x, rc::gen::map(rc::gen::inRange(0, 60000), [](int i) { return i / 1000.0; })),
        rc::gen::set(&Stop::z, rc::gen::map(rc::gen::inRange(-80000, 2000), [](int i) { return i / 1000.0; }))));
}

TEST(Twins, AnIncrementalProgramIsTheAbsoluteOne) {
    EXPECT_TRUE(rc::check("U and W add up to X and Z", [] {
        std::string absolute = "T0101\nG97 S500 M03\nG00 X60. Z2.\nG01 F.2\n";
        std::string incremental = absolute;
        Stop at{60, 2};
        for (const Stop& stop : *stops()) {
            absolute += fmt::format("X{:.3f} Z{:.3f}\n", stop.x, stop.z);
            incremental += fmt::format("U{:.3f} W{:.3f}\n", stop.x - at.x, stop.z - at.z);
            at = stop;
        }
        // Steps of a thousandth are not exact in binary: a hundred of them stay far within 1e-9.
        RC_ASSERT(same(run(absolute), run(incremental), 1e-9));
    }));
}

TEST(Twins, ASpacedOutLowerCaseProgramIsThePlainOne) {
    const std::string plain = job(1, "G21");
    const Toolpath expected = run(plain);
    EXPECT_TRUE(rc::check("blanks and case change no move", [&] {
        std::string twin;
        for (char c : plain) {
            if (c != '\n' && *rc::gen::inRange(0, 4) == 0) twin += *rc::gen::elementOf(std::string(" \t"));
            twin += *rc::gen::arbitrary<bool>() ? c : static_cast<char>(std::tolower(c));
        }
        RC_ASSERT(same(run(twin), expected, 0));
    }));
}

TEST(Twins, WordsInAnyOrderGiveTheSamePath) {
    const Toolpath expected =
        run("T0101\nG97 S900 M03\nG00 X62. Z2.\nG01 X50. Z-5. F.2\nG02 X60. Z-10. R5. M08\nM30\n");
    EXPECT_TRUE(rc::check("NISTIR 6556 sec. 3.3.6", [&] {
        std::string text;
        const auto line = [&](std::vector<std::string> words) {
            while (!words.empty()) {
                const auto i = *rc::gen::inRange<std::size_t>(0, words.size());
                text += words[i];
                words.erase(words.begin() + static_cast<std::ptrdiff_t>(i));
            }
            text += "\n";
        };
        line({"T0101"});
        line({"G97", "S900", "M03"});
        line({"G00", "X62.", "Z2."});
        line({"G01", "X50.", "Z-5.", "F.2"});
        line({"G02", "X60.", "Z-10.", "R5.", "M08"});
        line({"M30"});
        RC_ASSERT(same(run(text), expected, 0));
    }));
}

// Any text at all: the control ends, and its moves hang together.
TEST(Interpret, EndsForAnyText) {
    EXPECT_TRUE(rc::check("no crash, no gap", [] {
        const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(std::vector<std::string>{
            "G00",    "G01",  "G02",   "G03",   "G04",    "G28",  "G40", "G41",   "G42",   "G50",  "G53",
            "G55",    "G70",  "G71",   "G72",   "G73",    "G96",  "G97", "G98",   "G76",   "X10.", "X20.",
            "X30.",   "Z0",   "Z-5.",  "Z-10.", "U-1.",   "U.4",  "W.1", "W-2.",  "R2.",   "R5.",  "I3.",
            "K-2.",   ",C1.", ",R2.",  "F.2",   "S200",   "I3.",  "R2.", "T0101", "T0404", "T5",   "M03",
            "M05",    "M30",  "M99",   "P10",   "Q20",    "N10",  "N20", "D1.",   "\n",    "\n",   "\n",
            "\n",     "#1=2", "X#1",   "A135.", ",A180.", "A90.", "C2.", "G10",   "L2",    "L11",  "P1",
            "P10001", "G52",  "G54.1", "G30",   "G27",    "G20",  "G21"}));
        std::string text = "T0101\nG97 S500 M03\nG00 X40. Z2.\nG01 F.1\n";
        for (const std::string& piece : pieces) text += piece;
        firstoff::Setup setup = lathe();
        // Many of these texts loop for ever by M99: the control has to give up, but need not take half a minute.
        setup.control.maxBlocks = 20'000;
        const Toolpath path = interpret(readProgram(text, "any"), setup);
        Point at = setup.machine.home;
        std::uint32_t step = 0;
        for (const Move& move : path.moves) {
            RC_ASSERT(distance(move.from, at) < 1e-9);
            RC_ASSERT(std::isfinite(move.to.z) && std::isfinite(move.to.r));
            RC_ASSERT(move.modal < path.modals.size());
            RC_ASSERT(path.modals[move.modal].datum < path.datums.size());
            RC_ASSERT(move.call < path.calls.size());
            at = move.to;
        }
        for (const Step& s : path.steps) {
            RC_ASSERT(s.firstMove >= step && s.firstMove <= path.moves.size());
            step = s.firstMove;
        }
        for (const Finding& finding : path.findings) {
            RC_ASSERT(!finding.message.empty() && !finding.remedy.empty() && !finding.code.empty());
        }
    }));
}

TEST(Interpret, StepsFollowTheBlocksInOrder) {
    const Toolpath path =
        run("T0101\nG97 S500 M03\n\n(talk)\nG00 X62. Z2.\nG42 X50.\nM08\nG01 Z-5. F.2\nG40 X62.\nM30\n");
    std::vector<std::pair<BlockId, std::uint32_t>> steps;
    for (const Step& step : path.steps) steps.emplace_back(step.block, step.firstMove);
    // The index is move 0, the approach 1, then the three compensated moves; M08 stands between two of them.
    EXPECT_THAT(steps, testing::ElementsAre(testing::Pair(0, 0), testing::Pair(1, 1), testing::Pair(4, 1),
                                            testing::Pair(5, 2), testing::Pair(6, 3), testing::Pair(7, 3),
                                            testing::Pair(8, 4), testing::Pair(9, 5)));
    ASSERT_EQ(path.stops.size(), 1u);
    EXPECT_EQ(path.stops[0].beforeMove, 5u);
}

TEST(Interpret, LosesNothingInMovesTooShortToBeMade) {
    std::string text = "T0101\nG97 S500 M03\nG00 X60. Z2.\nG01 F.2\n";
    for (int i = 0; i < 1000; ++i) text += "W-.00000004\n";
    const firstoff::Setup setup = lathe();
    const Toolpath path = run(text + "M30\n", setup);
    Point at = setup.machine.home;
    for (const Move& move : path.moves) {
        EXPECT_EQ(move.from, at);
        at = move.to;
    }
    const Move& last = path.moves.back();
    // What is left over is shorter than what counts as the same place, 1e-7 mm.
    EXPECT_NEAR((last.to + path.programmedShift(last)).z, 2 - 0.00004, 1.1e-7);
}

TEST(Interpret, NamesTheKindsOfMovesAsTheTableDoes) {
    EXPECT_STREQ(name(MoveKind::Rapid), "rapid");
    EXPECT_STREQ(name(MoveKind::ArcClockwise), "arc-cw");
    EXPECT_STREQ(name(MoveKind::ArcAnticlockwise), "arc-ccw");
    EXPECT_STREQ(name(MoveKind::Home), "home");
}

TEST(Interpret, MakesAModalStateOnlyWhenSomethingChanged) {
    std::string text = "T0101\nG97 S500 M03\n";
    for (int i = 0; i < 1000; ++i) text += "G00 X60. Z2.\nG01 Z-5. F.2\nX62.\n";
    EXPECT_LE(run(text).modals.size(), 5u);
}

TEST(Interpret, ListsNoMoreThanTwoHundredFindingsOfOneKind) {
    std::string text = "T0101\n";
    for (int i = 0; i < 1000; ++i) text += "G199\n";
    const Toolpath path = run(text + "M30\n");
    ASSERT_EQ(path.findings.size(), 201u);
    EXPECT_EQ(path.findings.back().code, "more-of-the-same");
}

TEST(Interpret, StopsWhenTooManyBlocksWereCarriedOut) {
    firstoff::Setup setup = lathe();
    setup.control.maxBlocks = 10;
    std::string text = "T0101\nG97 S500 M03\nG00 X60. Z2.\n";
    for (int i = 0; i < 20; ++i) text += "X50.\nX60.\n";
    const Toolpath path = run(text, setup);
    ASSERT_EQ(path.findings.size(), 1u);
    EXPECT_EQ(path.findings[0].code, "endless-program");
    EXPECT_EQ(path.findings[0].span.line, 11u);
}

TEST(Interpret, UsesTheGaugeThatWasEntered) {
    firstoff::Setup setup = lathe();
    Offset entry;
    entry.number = 1;
    entry.gauge = setup.toolAt(1)->tip + Point{-0.5, 0};  // entered half a millimetre too long
    setup.offsets = {entry};
    const Toolpath path = run("T0101\nG00 X50. Z2.\nM30\n", setup);
    const Move& move = path.moves.back();
    EXPECT_NEAR((move.to + path.programmedShift(move)).z, 2, 1e-9) << "what the display says";
    EXPECT_NEAR((move.to + path.tipShift(move) - setup.workOffsets[0]).z, 2.5, 1e-9) << "where the tip really is";
}

TEST(Interpret, SaysOnceWhenTheDatumOfG54IsNotKnown) {
    firstoff::Setup setup = lathe();
    setup.workOffsetGiven[0] = false;
    const Toolpath path = run("T0101\nG28 U0 W0\nG00 X50. Z2.\nX48.\nM30\n", setup);
    ASSERT_EQ(path.findings.size(), 1u);
    EXPECT_EQ(path.findings[0].code, "work-offset-not-given");
    EXPECT_EQ(path.findings[0].span.line, 3u) << "the first move that depends on it";
    EXPECT_TRUE(path.findings[0].unproven);
}

struct ToolRow {
    const char* text;
    double value;
    int station, offset;
    ToolWord::Form form;
};
void PrintTo(const ToolRow& row, std::ostream* os) {
    *os << row.text;
}

class ToolWords : public testing::TestWithParam<ToolRow> {};

TEST_P(ToolWords, SayStationAndOffset) {
    const ToolWord word = readToolWord(GetParam().text, GetParam().value);
    EXPECT_EQ(word.form, GetParam().form);
    if (word.form == ToolWord::Form::Unreadable) return;
    EXPECT_EQ(word.station, GetParam().station);
    EXPECT_EQ(word.offset, GetParam().offset);
}

// Common practice, no source; the rule stands in tool_word.h.
INSTANTIATE_TEST_SUITE_P(Rule, ToolWords,
                         testing::Values(ToolRow{"T0101", 101, 1, 1, ToolWord::Form::StationAndOffset},
                                         ToolRow{"T1216", 1216, 12, 16, ToolWord::Form::StationAndOffset},
                                         ToolRow{"T101", 101, 1, 1, ToolWord::Form::StationAndOffset},
                                         ToolRow{"T0300", 300, 3, 0, ToolWord::Form::StationAndOffset},
                                         ToolRow{"T0005", 5, 0, 5, ToolWord::Form::OffsetOnly},
                                         ToolRow{"T 01 01", 101, 1, 1, ToolWord::Form::StationAndOffset},
                                         ToolRow{"T5", 5, 5, 5, ToolWord::Form::StationOnly},
                                         ToolRow{"T12", 12, 12, 12, ToolWord::Form::StationOnly},
                                         ToolRow{"T0", 0, 0, 0, ToolWord::Form::OffsetOnly},
                                         ToolRow{"T001002", 1002, 1, 2, ToolWord::Form::StationAndOffset},
                                         ToolRow{"T101.", 101, 1, 1, ToolWord::Form::StationAndOffset},
                                         ToolRow{"T1.5", 1.5, 0, 0, ToolWord::Form::Unreadable},
                                         ToolRow{"T-101", -101, 0, 0, ToolWord::Form::Unreadable},
                                         ToolRow{"T1234567", 1234567, 0, 0, ToolWord::Form::Unreadable}));

// Where the centre must be: at R from both ends, on the side that makes the turn of the asked length. Elementary
// geometry.
TEST(ArcOfRadius, LiesAtItsRadiusFromBothEnds) {
    EXPECT_TRUE(rc::check("distance and side", [] {
        const auto coordinate = rc::gen::map(rc::gen::inRange(-50000, 50000), [](int i) { return i / 1000.0; });
        const Point from{*coordinate, *coordinate};
        const Point to{*coordinate, *coordinate};
        const double chord = distance(from, to);
        RC_PRE(chord > 0.01);
        const double radius = chord / 2 * (1 + *rc::gen::inRange(1, 3000) / 1000.0);
        const bool clockwise = *rc::gen::arbitrary<bool>();
        const bool longWay = *rc::gen::arbitrary<bool>();
        const ArcCentre arc = arcOfRadius(from, to, longWay ? -radius : radius, clockwise, 0.002);
        RC_ASSERT(arc.fault == ArcCentre::Fault::None);
        RC_ASSERT(std::abs(distance(arc.centre, from) - radius) < 1e-9 * radius);
        RC_ASSERT(std::abs(distance(arc.centre, to) - radius) < 1e-9 * radius);
        const bool centreLeft = cross(to - from, arc.centre - from) > 0;
        RC_ASSERT(centreLeft == (clockwise == longWay));
    }));
}

// A fillet touches what it joins: its centre is at its radius from both, and its ends lie on both. Elementary geometry.
TEST(Corner, FilletTouchesBothSides) {
    EXPECT_TRUE(rc::check("line and arc", [] {
        const double arcRadius = *rc::gen::inRange(5, 40);
        const double turn =
            *rc::gen::inRange(20, 160) * (*rc::gen::arbitrary<bool>() ? 1 : -1) * 3.14159265358979 / 180;
        const bool clockwise = *rc::gen::arbitrary<bool>();
        // A line along -z into the origin, then an arc that leaves it turned by `turn`.
        const Stretch line{{50, 0}, {0, 0}, {}, MoveKind::Feed};
        const Point heading{-std::cos(turn), -std::sin(turn)};
        const Point centre = (clockwise ? -arcRadius : arcRadius) * leftOf(heading);
        const Point out = 0.0 * heading - centre;
        const double sweep = clockwise ? -1.5 : 1.5;
        const Point end = centre + Point{out.z * std::cos(sweep) - out.r * std::sin(sweep),
                                         out.z * std::sin(sweep) + out.r * std::cos(sweep)};
        const Stretch arc{{0, 0}, end, centre, clockwise ? MoveKind::ArcClockwise : MoveKind::ArcAnticlockwise};
        const CornerFit fit = fitCorner(line, arc, {1.0, true});
        RC_PRE(fit.fault == CornerFit::Fault::None);
        RC_ASSERT(std::abs(fit.start.r) < 1e-9);
        RC_ASSERT(std::abs(distance(fit.start, fit.centre) - 1) < 1e-9);
        RC_ASSERT(std::abs(distance(fit.end, fit.centre) - 1) < 1e-9);
        RC_ASSERT(std::abs(distance(fit.end, centre) - arcRadius) < 1e-9);
        // Tangent: the three centres and feet are in line.
        RC_ASSERT(std::abs(cross(fit.end - centre, fit.centre - centre)) < 1e-7);
    }));
}

// A loop that only calculates runs to the limit of blocks without filling the memory.
TEST(Interpret, KeepsNoStepsOfALoopThatOnlyCalculates) {
    auto setup = shop::barStock(60, 100, 0);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    setup.control.maxBlocks = 1'000'000;
    for (const char* before : {"", "G42 G00 X50. Z2.\n"}) {
        const Toolpath path = interpret(
            readProgram(std::string("T0101\n") + before + "#1=0\nWHILE[#1LT1]DO1\n#2=#2+1\nEND1\nM30\n", "test"),
            setup);
        EXPECT_LT(path.steps.size(), 300'000u);
        const auto endless = std::find_if(path.findings.begin(), path.findings.end(),
                                          [](const Finding& f) { return f.code == "endless-program"; });
        ASSERT_NE(endless, path.findings.end());
        EXPECT_THAT(endless->message,
                    testing::HasSubstr(*before == 0 ? "from line 5 back to line 3" : "from line 6 back to line 4"));
    }
}

}  // namespace
}  // namespace firstoff
