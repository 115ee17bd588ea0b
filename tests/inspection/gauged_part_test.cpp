// Parts whose sizes are known from their programs, gauged.
#include "sim/inspection/gauged_part.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "sim/trial/trial.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using Kind = WantedDimension::Kind;
using State = GaugedDimension::State;

// Outside diameters, lengths and angles of exact cuts come out within the rounding of the moves and columns: 1e-6 mm.
constexpr double kExact = 1e-6;

firstoff::Setup bench() {
    auto setup = shop::barStock(50, 90);
    shop::addTurningTool(setup, 1, 'D', 0.4, 93);
    shop::addGroovingTool(setup, 3, 3, 0.1);
    shop::addPartingTool(setup, 5, 3, 0.1);
    shop::addBoringBar(setup, 7, 'C', 0.4);
    shop::addDrill(setup, 9, 16);
    for (int number : {1, 3, 5, 7, 9}) {
        Offset offset;
        offset.number = number;
        setup.offsets.push_back(offset);
    }
    return setup;
}

// Chamfer 2, Ø24, taper 24 to 30 over 10, Ø30, R3 into a shoulder at Z-43, Ø44 with a groove 4 wide to Ø38 at Z-51 to
// Z-47, parted off at Z-55; bore Ø18 17 deep in a hole of 16.
const std::string kProgram =
    "G21 G40 G99\n"         // 1
    "G97 S900 M03\n"        // 2
    "T0101\n"               // 3
    "G00 X54. Z0\n"         // 4
    "G01 X-1. F.2\n"        // 5
    "G00 Z2.\n"             // 6
    "G42 X18. Z1.\n"        // 7
    "G01 X24. Z-2. F.2\n"   // 8
    "Z-20.\n"               // 9
    "X30. Z-30.\n"          // 10
    "Z-40.\n"               // 11
    "G02 X36. Z-43. R3.\n"  // 12
    "G01 X44.\n"            // 13
    "Z-60.\n"               // 14
    "G40 X54.\n"            // 15
    "G28 U0 W0\n"           // 16
    "T0303\n"               // 17
    "G00 X52. Z-51.\n"      // 18
    "G01 X38. F.1\n"        // 19
    "X52.\n"                // 20
    "Z-50.\n"               // 21
    "X38.\n"                // 22
    "Z-51.\n"               // 23
    "G00 X52.\n"            // 24
    "G28 U0 W0\n"           // 25
    "T0909\n"               // 26
    "G00 X0 Z5.\n"          // 27
    "G01 Z-70. F.2\n"       // 28
    "G00 Z5.\n"             // 29
    "G28 U0 W0\n"           // 30
    "T0707\n"               // 31
    "G00 X18. Z2.\n"        // 32
    "G01 Z-17. F.1\n"       // 33
    "X15.\n"                // 34
    "G00 Z5.\n"             // 35
    "G28 U0 W0\n"           // 36
    "T0505\n"               // 37
    "G00 X52. Z-58.\n"      // 38
    "G01 X15. F.1\n"        // 39
    "G00 X54.\n"            // 40
    "G28 U0 W0\n"           // 41
    "M30\n";

WantedDimension wanted(Kind kind, double size, double z, double diameter = 0) {
    WantedDimension d;
    d.kind = kind;
    d.size = kind == Kind::Taper ? radians(size) : size;
    d.at = {z, diameter / 2};
    d.to = d.at;
    d.above = 0.02;
    d.below = -0.02;
    return d;
}

WantedDimension wantedTo(Kind kind, double size, double z, double toZ, double diameter = 0, double toDiameter = -1) {
    WantedDimension d = wanted(kind, size, z, diameter);
    d.to = {toZ, (toDiameter < 0 ? diameter : toDiameter) / 2};
    return d;
}

WantedDimension inside(WantedDimension d) {
    d.inside = true;
    return d;
}

struct Gauged {
    const char* what;
    WantedDimension dimension;
    std::uint32_t line;  // of the block that made the surface that would be moved
    int offset;          // that moves it, 0: none
};

std::vector<Gauged> everything() {
    const double taper = 2 * degrees(std::atan(0.3));
    return {{"a cylinder", wanted(Kind::Diameter, 24, -10), 9, 1},
            {"at a place of a cone", wanted(Kind::Diameter, 27, -25), 10, 1},
            {"the bottom of a groove", wanted(Kind::Diameter, 38, -49), 19, 3},
            {"a bore", inside(wanted(Kind::Diameter, 18, -8)), 33, 7},
            {"a hole, which the drill decides", inside(wanted(Kind::Diameter, 16, -30)), 28, 0},
            {"over all, face by two tools", wantedTo(Kind::Length, 55, 0, -55, 19, 40), 39, 5},
            {"between two faces of one tool", wantedTo(Kind::Length, 43, 0, -43, 19, 40), 12, 0},
            {"to the wall of a groove", wantedTo(Kind::Length, 47, 0, -47, 19, 41), 22, 3},
            {"depth of a bore", inside(wantedTo(Kind::Length, 17, 0, -17, 19, 17)), 33, 7},
            {"a cone", wantedTo(Kind::Taper, taper, -20, -30), 10, 0},
            {"a rounding", wanted(Kind::Radius, 3, -41.5), 12, 0},
            {"a chamfer", wanted(Kind::Chamfer, 2, -1), 8, 0},
            {"a groove, both walls by one blade", wanted(Kind::GrooveWidth, 4, -49, 42), 22, 0}};
}

// The stages that gauging needs, without the others.
GaugedPart gauged(const firstoff::Setup& setup, const std::string& text = kProgram) {
    const Program program = readProgram(text, "test");
    const Toolpath toolpath = interpret(program, setup);
    const Timeline timeline = layOut(toolpath, setup);
    return gaugePart(timeline, toolpath, setup, StockHistory::cut(timeline, toolpath, setup));
}

std::vector<Finding> findings(const GaugedPart& part, const std::string& code) {
    std::vector<Finding> some;
    for (const Finding& finding : part.findings) {
        if (finding.code == code) some.push_back(finding);
    }
    return some;
}

TEST(GaugedPart, FindsEveryKindAtTheSizeOfTheProgram) {
    auto setup = bench();
    const auto rows = everything();
    for (const Gauged& row : rows) setup.wanted.dimensions.push_back(row.dimension);
    const auto part = gauged(setup);
    EXPECT_EQ(part.piece, 1) << "the piece that was parted off";
    ASSERT_EQ(part.dimensions.size(), rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        SCOPED_TRACE(rows[i].what);
        const GaugedDimension& g = part.dimensions[i];
        EXPECT_EQ(g.state, State::Within) << g.trouble;
        EXPECT_NEAR(g.measured, rows[i].dimension.size, kExact);
        EXPECT_EQ(g.block + 1, rows[i].line);
        EXPECT_FALSE(g.wish) << "in the middle of its limits";
        EXPECT_EQ(g.noCorrection, "");
        EXPECT_FALSE(g.places.empty());
    }
    EXPECT_TRUE(part.findings.empty());
}

// Wear of every offset moves what its tool made, as much as it says and the way it says: + in X thicker and wider, + in
// Z away from the chuck.
TEST(GaugedPart, MovesWithTheWearOfTheTool) {
    auto setup = bench();
    for (const Gauged& row : everything()) setup.wanted.dimensions.push_back(row.dimension);
    const auto wear = [&](int number, double xMm, double zMm) {
        for (Offset& offset : setup.offsets) {
            if (offset.number == number) offset.wear = {zMm, xMm / 2};
        }
    };
    wear(1, 0.1, 0.03);  // front face and everything outside
    wear(3, -0.06, 0.05);
    wear(5, 0, -0.04);
    wear(7, 0.08, -0.02);
    const auto g = gauged(setup).dimensions;
    const double expected[] = {24.1,
                               27.1 + 2 * 0.03 * 0.3,  // the cone moved in Z as well
                               38 - 0.06,
                               18.08,
                               16,
                               55 + 0.03 + 0.04,
                               43,
                               47 + 0.03 - 0.05,
                               17 + 0.03 + 0.02,
                               2 * std::atan(0.3),
                               3,
                               2,
                               4};
    for (std::size_t i = 0; i < g.size(); ++i) EXPECT_NEAR(g[i].measured, expected[i], kExact) << g[i].name;
    EXPECT_EQ(g[0].state, State::TooLarge);
    EXPECT_EQ(g[2].state, State::TooSmall);
    ASSERT_TRUE(g[0].wish);
    EXPECT_EQ(g[0].wish->offset, 1);
    EXPECT_TRUE(g[0].wish->inX);
    EXPECT_NEAR(g[0].wish->amountMm, -0.1, kExact);
    ASSERT_TRUE(g[5].wish);
    EXPECT_EQ(g[5].wish->offset, 5);
    EXPECT_FALSE(g[5].wish->inX);
    EXPECT_NEAR(g[5].wish->amountMm, 0.07, kExact) << "the far face comes nearer";
}

// Whatever the wear, what is said brings the sizes to the middle of their limits.
RC_GTEST_PROP(GaugedPart, CorrectionsBringSizesToTheMiddle, ()) {
    auto setup = bench();
    const auto rows = everything();
    for (std::size_t i = 0; i < rows.size(); ++i) {
        // One dimension for each entry of the offset page.
        if (rows[i].offset == 0 || rows[i].dimension.size == 27) continue;
        WantedDimension d = rows[i].dimension;
        d.above = *rc::gen::inRange(-20, 20) / 1e3 + 0.03;
        d.below = *d.above - 0.05;
        setup.wanted.dimensions.push_back(d);
    }
    for (Offset& offset : setup.offsets) {
        offset.wear = {*rc::gen::inRange(-100, 100) / 1e3, *rc::gen::inRange(-100, 100) / 2e3};
    }
    const auto before = gauged(setup);
    for (const GaugedDimension& g : before.dimensions) {
        RC_ASSERT(g.state != State::NotFound);
        if (!g.wish) {
            RC_ASSERT(std::abs(g.measured - g.middle()) <= 0.0005);  // less cannot be keyed in
            continue;
        }
        for (Offset& offset : setup.offsets) {
            if (offset.number != g.wish->offset) continue;
            (g.wish->inX ? offset.wear.r : offset.wear.z) += g.wish->amountMm / (g.wish->inX ? 2 : 1);
        }
    }
    const auto after = gauged(setup);
    // 1 µm: a face may stand on the border of two columns, half of their pitch beside its place; 0.5 µm where nothing
    // was keyed in.
    constexpr double kOff = 0.001 + 1e-9;
    std::string off;
    for (const GaugedDimension& g : after.dimensions) {
        if (std::abs(g.measured - g.middle()) > kOff)
            off += fmt::format("{} {} for {}, ", g.name, g.measured, g.middle());
    }
    RC_ASSERT(off == "");
}

TEST(GaugedPart, SaysWhatToKeyInAndWhereItCameFrom) {
    auto setup = bench();
    setup.offsets[0].wear.r = 0.0062;
    WantedDimension d = wanted(Kind::Diameter, 24, -10);
    d.above = d.below = std::nullopt;
    d.fit = "h7";
    setup.wanted.dimensions = {d};
    const auto trial = shop::run(kProgram, setup);
    const auto found = shop::findings(*trial, "size-out-of-limits");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].severity, Severity::Warning);
    EXPECT_EQ(found[0].span.line, 9u);
    EXPECT_EQ(found[0].message, "Ø24 h7 measures 24.012 mm; its limits are 23.979 and 24.000: 0.012 too large.");
    EXPECT_EQ(found[0].remedy,
              "To bring Ø24 h7 to the middle of its limits, put -0.023 in X of offset 1, added to what stands there.");
    EXPECT_EQ(trial->verdict, Verdict::Problems);
}

TEST(GaugedPart, SaysWhyNoOffsetPutsASizeRight) {
    auto setup = bench();
    WantedDimension width = wanted(Kind::GrooveWidth, 4.1, -49, 42);
    WantedDimension hole = inside(wanted(Kind::Diameter, 16.2, -30));
    WantedDimension step = wantedTo(Kind::Length, 43.1, 0, -43, 19, 40);
    setup.wanted.dimensions = {width, hole, step};
    const auto part = gauged(setup);
    const auto found = findings(part, "size-out-of-limits");
    ASSERT_EQ(found.size(), 3u);
    const auto& g = part.dimensions;
    EXPECT_THAT(g[0].noCorrection, testing::HasSubstr("offset 3 moves both walls alike"));
    EXPECT_THAT(g[1].noCorrection, testing::HasSubstr("a tool on the axis made it"));
    EXPECT_THAT(g[2].noCorrection, testing::HasSubstr("offset 1 moves both faces alike"));
    for (const Finding& finding : found) EXPECT_THAT(finding.remedy, testing::StartsWith("No offset for "));
}

struct NotThere {
    WantedDimension dimension;
    const char* says;
};

TEST(GaugedPart, SaysWhyADimensionIsNotFound) {
    WantedDimension noClass = wanted(Kind::Diameter, 24, -10);
    noClass.above = noClass.below = std::nullopt;
    noClass.fit = "cd6";
    WantedDimension noLimits = noClass;
    noLimits.fit.clear();
    WantedDimension thread = wantedTo(Kind::Thread, 24, -4, -18);
    thread.pitch = 2;
    const NotThere kRows[] = {{wanted(Kind::Diameter, 24, -80), "there is no metal at Z-80.000"},
                              {inside(wanted(Kind::Diameter, 24, 3)), "there is no bore at Z3.000"},
                              {wantedTo(Kind::Length, 12, 0, -12, 19), "no face within 5 mm of Z-12.000 at X19.000"},
                              {wantedTo(Kind::Taper, 30, -12, -28), "is no single cone"},
                              {wanted(Kind::Radius, 1, -10), "there is no rounding near X24.000 Z-10.000"},
                              {wanted(Kind::Chamfer, 1, -10), "there is no chamfer near X24.000 Z-10.000"},
                              {wanted(Kind::GrooveWidth, 4, -45, 42), "lies in metal"},
                              {wanted(Kind::GrooveWidth, 4, -30, 60), "there is no wall"},
                              {thread, "there is no thread between Z-4.000 and Z-18.000"},
                              {noClass, "cd6 of 24 mm is not reckoned here"},
                              {noLimits, "it has no limits"}};
    auto setup = bench();
    setup.wanted.dimensions = {wanted(Kind::Diameter, 24, -10)};
    for (const NotThere& row : kRows) setup.wanted.dimensions.push_back(row.dimension);
    const auto part = gauged(setup);
    const auto found = findings(part, "dimension-not-gauged");
    ASSERT_EQ(found.size(), std::size(kRows));
    for (std::size_t i = 0; i < found.size(); ++i) {
        EXPECT_EQ(part.dimensions[i + 1].state, State::NotFound) << kRows[i].says;
        EXPECT_TRUE(found[i].unproven);
        EXPECT_THAT(found[i].message, testing::HasSubstr(kRows[i].says));
    }
    EXPECT_EQ(verdictOf(part.findings), Verdict::NotProven);
}

// A place at the edge of a shoulder has two diameters, and neither is meant.
TEST(GaugedPart, SaysThatAPlaceLiesOnAShoulder) {
    auto setup = bench();
    setup.wanted.dimensions = {wanted(Kind::Diameter, 44, -43), wanted(Kind::Diameter, 44, -43.01),
                               wanted(Kind::Diameter, 44, -55)};
    const auto g = gauged(setup).dimensions;
    EXPECT_EQ(g[0].state, State::NotFound);
    EXPECT_EQ(g[0].trouble, "Z-43.000 lies on a shoulder, at Z-43.000: give a place beside it");
    EXPECT_EQ(g[1].state, State::Within) << g[1].trouble;
    EXPECT_EQ(g[2].state, State::NotFound) << "the parted face";
    EXPECT_TRUE(g[0].limited);
    EXPECT_EQ(g[0].most, 44.02) << "its limits are known all the same";
}

// What the set-up could not say right keeps its number, and is told once, where it was read.
TEST(GaugedPart, KeepsTheNumberOfADimensionThatTheSetUpGivesWrong) {
    auto setup = bench();
    WantedDimension swapped = wanted(Kind::Diameter, 24, -10);
    std::swap(swapped.above, swapped.below);
    swapped.trouble = "its limits are the wrong way round";
    setup.wanted.dimensions = {swapped, wanted(Kind::Diameter, 24, -10)};
    const auto part = gauged(setup);
    ASSERT_EQ(part.dimensions.size(), 2u);
    EXPECT_EQ(part.dimensions[0].state, State::NotFound);
    EXPECT_EQ(part.dimensions[0].trouble, "its limits are the wrong way round");
    EXPECT_EQ(part.dimensions[1].state, State::Within);
    EXPECT_TRUE(part.findings.empty());
}

// Neither is told of the other: each by itself brings its size to the middle, both together would not.
TEST(GaugedPart, TellsOneCorrectionForAllDimensionsOfAnOffset) {
    auto setup = bench();
    setup.offsets[0].wear.r = 0.02;
    WantedDimension lower = wanted(Kind::Diameter, 24, -10), upper = wanted(Kind::Diameter, 30, -35);
    upper.above = 0.03;
    upper.below = -0.01;
    setup.wanted.dimensions = {lower, upper};
    const auto part = gauged(setup);
    ASSERT_TRUE(part.dimensions[0].wish && part.dimensions[1].wish);
    EXPECT_NEAR(part.dimensions[0].wish->amountMm, -0.04, kExact);
    EXPECT_NEAR(part.dimensions[1].wish->amountMm, -0.03, kExact);
    ASSERT_EQ(part.corrections.size(), 1u);
    EXPECT_NEAR(part.corrections[0].amountMm, -0.035, kExact) << "both tolerances are 0.04 wide";
    // The flange of 44 is turned by the same offset and has no dimension.
    EXPECT_FALSE(part.corrections[0].without.empty());
    for (const Finding& finding : findings(part, "size-out-of-limits")) {
        EXPECT_EQ(finding.remedy,
                  "Put -0.035 in X of offset 1, added to what stands there: that suits all 2 dimensions "
                  "that hang on it.");
    }
}

TEST(GaugedPart, IsNothingWithoutADrawing) {
    const auto part = gauged(bench());
    EXPECT_TRUE(part.dimensions.empty());
    EXPECT_TRUE(part.findings.empty());
}

// Cut with G76 and gauged over the pitch diameter; limits 6g of M30x2 by the formulas of ISO 965-1, as in
// metric_thread.h.
TEST(GaugedPart, GaugesThreadsOverThePitchDiameter) {
    auto setup = shop::barStock(40, 70);
    shop::addTurningTool(setup, 1, 'D', 0.4, 93);
    shop::addThreadingTool(setup, 5);
    Offset offset;
    offset.number = 5;
    setup.offsets.push_back(offset);
    // The nose of 0.1 lies deeper than the profile of 2 mm pitch: its sharp 60° groove is half a pitch wide at the
    // pitch diameter where its point lies H/2 below that, less the 0.1 by which a nose of 0.1 lags behind the sharp
    // point.
    const double pitchDiameter = 30 - 0.649519 * 2 - 0.15;
    const double root = pitchDiameter - std::sqrt(3.0) / 2 * 2 + 2 * 0.1;
    WantedDimension thread = wantedTo(Kind::Thread, 30, -4, -20);
    thread.pitch = 2;
    thread.above = thread.below = std::nullopt;
    thread.threadClass = "6g";
    WantedDimension crest = wanted(Kind::Diameter, 29.8, -10.3);
    setup.wanted.dimensions = {thread, crest};
    const std::string program =
        "G21 G40 G99\nG97 S500 M03\nT0101\nG00 X29.8 Z2.\nG01 Z-30. F.2\nX44.\nG28 U0 W0\nT0505\n" +
        fmt::format("G00 X32. Z6.\nG76 P010060 Q50 R0.02\nG76 X{:.4f} Z-26. P{:.0f} Q300 F2.\n", root,
                    1e3 * (29.8 - root) / 2) +
        "G28 U0 W0\nM30\n";
    const auto g = gauged(setup, program).dimensions;
    ASSERT_EQ(g[0].state, State::Within) << g[0].trouble << g[0].measured << ' ' << g[0].least << ' ' << g[0].most;
    EXPECT_NEAR(g[0].measured, pitchDiameter, 0.004);  // columns of 2 µm at flanks of 30°, root to 0.1 µm
    EXPECT_EQ(g[0].name, "M30x2 6g");
    ASSERT_TRUE(g[0].wish);
    EXPECT_EQ(g[0].wish->offset, 5);
    EXPECT_NEAR(g[0].wish->amountMm, g[0].middle() - g[0].measured, 1e-9);
    EXPECT_NEAR(g[1].measured, 29.8, kExact) << "the anvils lie on the crests";
}

// A bar gripped off its axis: its own surface runs out by twice as much, what is turned runs true.
TEST(GaugedPart, ReadsRunOutAsThePartIsGripped) {
    auto setup = shop::barStock(50, 60);
    setup.stock.eccentricity = 0.05;
    setup.stock.outerRadius = 25.05;
    shop::addTurningTool(setup, 1, 'C', 0.4);
    WantedDimension bar = wanted(Kind::RunOut, 0, -30), turned = wanted(Kind::RunOut, 0, -10);
    bar.above = turned.above = 0.02;
    WantedDimension over = wanted(Kind::Diameter, 50, -30);
    setup.wanted.dimensions = {bar, turned, over};
    const auto part = gauged(setup, "G21 G40 G99\nG97 S900 M03\nT0101\nG00 X44. Z2.\nG01 Z-20. F.2\nX54.\nM30\n");
    const auto& g = part.dimensions;
    EXPECT_NEAR(g[0].measured, 0.1, 1e-4);  // sixteen meridians, of which two lie where it runs out most
    EXPECT_EQ(g[0].state, State::TooLarge);
    EXPECT_NEAR(g[1].measured, 0, kExact);
    EXPECT_NEAR(g[2].measured, 50, kExact) << "over two points";
    EXPECT_THAT(part.assumed, testing::Contains(testing::HasSubstr("how true chuck and jaws run")));
}

// Turned to 44, then turned round and gripped 0.03 off its axis for the other end: what the first operation left runs
// out by twice that, what the second one turned runs true.
TEST(GaugedPart, ReadsWhatTheFirstOperationLeftRunOutInTheSecond) {
    auto first = shop::barStock(50, 60);
    shop::addTurningTool(first, 1, 'C', 0.4);
    const char* turn = "G21 G40 G99\nG97 S900 M03\nT0101\nG00 X44. Z2.\nG01 Z-20. F.2\nG00 X60.\nM30\n";
    const auto before = runTrial(readProgram(turn, "first"), first);

    auto second = first;
    second.stock = {};
    second.stock.shape = Stock::Shape::Previous;
    second.stock.turnedRound = true;
    second.stock.eccentricity = 0.03;
    second.stock.frontZ = first.stock.frontZ;
    const double length = first.stock.frontZ - first.stock.backZ;
    WantedDimension old = wanted(Kind::RunOut, 0, 10 - length), turned = wanted(Kind::RunOut, 0, -10);
    old.above = turned.above = 0.02;
    second.wanted.dimensions = {old, turned};
    TrialOptions options;
    options.previous = before->stock;
    const auto after = runTrial(readProgram(turn, "second"), second, options);
    const auto& g = after->gauged.dimensions;
    ASSERT_THAT(g, testing::SizeIs(2));
    EXPECT_NEAR(g[0].measured, 0.06, 1e-4) << g[0].trouble;  // sixteen meridians, two of them where it runs out most
    EXPECT_EQ(g[0].state, State::TooLarge);
    EXPECT_NEAR(g[1].measured, 0, kExact) << g[1].trouble;
    EXPECT_THAT(after->gauged.assumed, testing::Contains(testing::HasSubstr("0.03 mm off its axis")));
}

// The cut is 0.01 above the bar and meets only the side that runs out: the diameter follows the tool on one side only,
// so that no wear can be told for it.
TEST(GaugedPart, TellsNoWearWhereTheCutDoesNotCleanUpAllRound) {
    auto setup = shop::barStock(50, 60);
    setup.stock.eccentricity = 0.03;
    setup.stock.outerRadius = 25.03;
    shop::addTurningTool(setup, 1, 'C', 0.4);
    setup.offsets.emplace_back().number = 1;
    WantedDimension d = wanted(Kind::Diameter, 50.02, -10);
    d.above = 0.01;
    d.below = -0.01;
    setup.wanted.dimensions = {d};
    const auto part =
        gauged(setup, "G21 G40 G99\nG97 S900 M03\nT0101\nG00 X50.02 Z2.\nG01 Z-20. F.2\nG00 X60.\nM30\n");
    const auto& g = part.dimensions.at(0);
    EXPECT_THAT(g.noCorrection, testing::HasSubstr("does not clean up all round")) << g.measured;
    EXPECT_THAT(part.corrections, testing::IsEmpty());
}

}  // namespace
}  // namespace firstoff
