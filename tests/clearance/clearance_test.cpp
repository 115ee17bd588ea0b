#include "sim/clearance/clearance.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "sim/base/units.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

// Bar from z = 0. Jaws: z 0 to 30, radius 25 (the bar) to 80. Chuck body: z -80 to 0, radius up to 82.5.
firstoff::Setup latheWith(Outline cutting, Outline holder = {}) {
    auto setup = shop::barStock(50, 80, 0);
    setup.turret.reset();  // the tool alone
    Tool& tool = shop::addTurningTool(setup, 1, 'C', 0.8);
    tool.tip = {};
    tool.cutting = std::move(cutting);
    tool.holder = std::move(holder);
    setup.workOffsets.fill({});
    return setup;
}

Outline block(double zMin, double zMax, double rMin, double rMax) {
    return roundedPolygon({{zMin, rMin}, {zMax, rMin}, {zMax, rMax}, {zMin, rMax}}, {0, 0, 0, 0});
}
// 1 x 1 with its lower left corner at the tip.
Outline smallBlock() {
    return block(0, 1, 0, 1);
}
// A disc of radius 6 about the tip.
Outline disc() {
    return roundedPolygon({{-6, -6}, {6, -6}, {6, 6}, {-6, 6}}, {6, 6, 6, 6});
}

// A job as a list of moves of the tip, one second each.
struct Job {
    Toolpath toolpath;
    Timeline timeline;
    Point at;

    explicit Job(Point start, int toolIndex = 0) : at(start) {
        toolpath.modals.resize(1);
        toolpath.calls.resize(2);
        toolpath.calls[1].station = toolIndex + 1;
        toolpath.calls[1].toolIndex = toolIndex;
    }
    Job& to(Point p, MoveKind kind = MoveKind::Rapid, Point centre = {}, BlockId cycle = kNoBlock) {
        const auto index = static_cast<std::uint32_t>(toolpath.moves.size());
        Move move;
        move.from = at;
        move.to = p;
        move.centre = centre;
        move.kind = kind;
        move.block = 10 * index;
        move.cycleBlock = cycle;
        move.call = 1;
        toolpath.moves.push_back(move);
        timeline.moves.push_back({at, p, centre, double(index), index + 1.0, 0, 0, index, kind});
        at = p;
        return *this;
    }
    Job& stay(MoveKind kind = MoveKind::Dwell) { return to(at, kind); }
    Job& inCycle(BlockId cycle, Point p) { return to(p, MoveKind::Rapid, {}, cycle); }
};

ClearanceResult check(const Job& job, const firstoff::Setup& setup) {
    return checkClearances(job.timeline, job.toolpath, setup, nullptr);
}

BodyKind bodyOf(const ClearanceResult& result) {
    return result.bodies->bodies[result.perMove.at(0).body].kind;
}
BodyKind otherOf(const ClearanceResult& result) {
    return result.bodies->bodies[result.perMove.at(0).other].kind;
}
// Contacts, and not what is near or not modelled.
std::vector<Finding> contactsOf(const ClearanceResult& result) {
    std::vector<Finding> contacts;
    for (const Finding& finding : result.findings) {
        if (finding.severity == Severity::Stop) contacts.push_back(finding);
    }
    return contacts;
}

// Gaps are told as float; at 100 mm that is 4e-6.
constexpr double kFloat = 1e-5;

struct Row {
    const char* name;
    Outline tool;
    Job job;
    double gap;
    BodyKind body;
    Point place;
};

// Elementary geometry.
TEST(Clearance, TableOfGapsOfOneMove) {
    const double h = std::sqrt(0.5);
    const Row rows[] = {
        {"stands in front of the jaws", smallBlock(), Job({40, 60}).stay(), 10, BodyKind::Jaws, {30, 60.5}},
        {"feeds up to the jaws", smallBlock(), Job({100, 60}).to({31, 60}), 1, BodyKind::Jaws, {30, 60.5}},
        {"feeds away from them", smallBlock(), Job({31, 60}).to({100, 60}), 1, BodyKind::Jaws, {30, 60.5}},
        {"passes the corner of the jaws", smallBlock(), Job({50, 80}).to({30, 100}), 20 * h, BodyKind::Jaws, {30, 80}},
        {"slides along the face", smallBlock(), Job({33, 40}).to({33, 60}), 3, BodyKind::Jaws, {30, 40.5}},
        {"inside the bar's radius", smallBlock(), Job({40, 10}).to({10, 10}), 10, BodyKind::ChuckBody, {0, 10.5}},
        {"on the other side of the axis", smallBlock(), Job({40, -60}).stay(), 10, BodyKind::Jaws, {30, -59.5}},
        {"disc by the corner of the jaws", disc(), Job({39, 92}).stay(), 9, BodyKind::Jaws, {30, 80}},
        {"disc reaches 1 mm in", disc(), Job({33, 84}).stay(), -1, BodyKind::Jaws, {30, 80}},
        {"disc past a corner", disc(), Job({50, 80}).to({30, 100}), 20 * h - 6, BodyKind::Jaws, {30, 80}},
        // Zone of the tip: z -1 to 30. Halfway through it is 15.5 from either side.
        {"right through the jaws", smallBlock(), Job({40, 60}).to({-1, 60}), -15.5, BodyKind::Jaws, {30, 60.5}},
        {"touches without pressing", smallBlock(), Job({40, 60}).to({30, 60}), 0, BodyKind::Jaws, {30, 60.5}},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.name);
        const auto setup = latheWith(row.tool);
        const ClearanceResult result = check(row.job, setup);
        ASSERT_EQ(result.perMove.size(), 1u);
        EXPECT_NEAR(result.perMove[0].gapMm, row.gap, kFloat);
        EXPECT_EQ(otherOf(result), row.body);
        EXPECT_EQ(bodyOf(result), BodyKind::Edge);
        EXPECT_EQ(contactsOf(result).size(), row.gap <= 0 ? 1u : 0u);
        if (std::string(row.name) == "right through the jaws") continue;  // at the deepest point two faces are as near
        EXPECT_NEAR(result.perMove[0].place.z, row.place.z, kFloat);
        EXPECT_NEAR(result.perMove[0].place.r, row.place.r, kFloat);
    }
}

// Arcs may be told nearer than they are, by their chords twice over (0.5 µm each), never further.
TEST(Clearance, ArcsAreOnTheSafeSide) {
    const auto setup = latheWith(disc());
    struct ArcRow {
        const char* name;
        Job job;
        double gap;
    };
    const ArcRow rows[] = {
        {"about the corner of the jaws", Job({50, 80}).to({30, 100}, MoveKind::ArcAnticlockwise, {30, 80}), 14},
        {"the other way round", Job({30, 100}).to({50, 80}, MoveKind::ArcClockwise, {30, 80}), 14},
        // Ends at z = 60, nearest at z = 50 in its middle.
        {"bulges towards the jaws", Job({60, 20}).to({60, 60}, MoveKind::ArcClockwise, {75, 40}), 75 - 25 - 30 - 6},
        {"bulges away", Job({60, 20}).to({60, 60}, MoveKind::ArcAnticlockwise, {45, 40}), 60 - 30 - 6},
        {"dips into the jaws", Job({60, 20}).to({60, 60}, MoveKind::ArcClockwise, {60, 40}), 60 - 20 - 30 - 6},
        {"far arc", Job({460, 20}).to({460, 60}, MoveKind::ArcClockwise, {460, 40}), 460 - 20 - 30 - 6},
        {"too deep", Job({40, 40}).to({40, 60}, MoveKind::ArcClockwise, {40, 50}), 40 - 10 - 30 - 6},
    };
    for (const ArcRow& row : rows) {
        SCOPED_TRACE(row.name);
        const ClearanceResult result = check(row.job, setup);
        EXPECT_LE(result.perMove[0].gapMm, row.gap + kFloat);
        EXPECT_GE(result.perMove[0].gapMm, row.gap - 0.001 - kFloat);
    }
}

TEST(Clearance, TailstockCentreIsAConeAndAllBehindItAsThickAsTheQuill) {
    auto setup = latheWith(smallBlock());
    setup.tailstock = Tailstock{30, 100, radians(60), 10, 200, true, {}, 0, true, 0, 0, {}, {}, 0, 0};
    const double coneEnd = 200 + 10 / std::tan(radians(30));
    struct TailRow {
        const char* name;
        Point tip;
        double gap;
        BodyKind body;
    };
    const TailRow rows[] = {
        {"in front of the point", {195, 0}, 4, BodyKind::Centre},
        // From the block's corner (201, 8) square to the flank that rises at 30°.
        {"beside the flank", {200, 8}, 8 * std::cos(radians(30)) - std::sin(radians(30)), BodyKind::Centre},
        {"above the quill", {coneEnd + 5, 33}, 3, BodyKind::Quill},
        {"behind the quill", {coneEnd + 104, 0}, 4, BodyKind::Quill},
        {"below the axis", {195, -1}, 4, BodyKind::Centre},
    };
    for (const TailRow& row : rows) {
        SCOPED_TRACE(row.name);
        const ClearanceResult result = check(Job(row.tip).stay(), setup);
        EXPECT_NEAR(result.perMove[0].gapMm, row.gap, kFloat);
        EXPECT_EQ(otherOf(result), row.body);
    }
    const ClearanceResult hit = check(Job({195, 0}).to({210, 0}), setup);
    ASSERT_EQ(contactsOf(hit).size(), 1u);
    EXPECT_EQ(contactsOf(hit)[0].code, "tool-into-tailstock");
    EXPECT_NEAR(*contactsOf(hit)[0].timeS, 4.0 / 15, 1e-9);  // the right side of the block is 1 ahead of the tip
}

TEST(Clearance, ADrillInABarThatRunsThroughTheChuckMeetsTheBarAndNotTheChuck) {
    auto setup = latheWith(smallBlock());
    setup.stock.backZ = -50;
    // Beside it the ring from radius 25, behind it the body without a bar from z = -50.
    EXPECT_NEAR(check(Job({10, 5}).to({-10, 5}), setup).perMove[0].gapMm, 25 - 6, kFloat);
    EXPECT_NEAR(check(Job({10, 5}).to({-45, 5}), setup).perMove[0].gapMm, 5, kFloat);
    const ClearanceResult through = check(Job({10, 5}).to({-53, 5}), setup);
    ASSERT_EQ(contactsOf(through).size(), 1u);
    EXPECT_EQ(contactsOf(through)[0].code, "tool-into-chuck");
    EXPECT_NEAR(contactsOf(through)[0].values[0].second, 3, 1e-8);
}

TEST(Clearance, HolderIsToldApartFromTheEdge) {
    const auto setup = latheWith(smallBlock(), block(0, 20, 1, 40));
    // Tip at radius 20, inside the bar's radius; the holder stands out over the jaws.
    const ClearanceResult result = check(Job({60, 20}).to({25, 20}), setup);
    EXPECT_EQ(bodyOf(result), BodyKind::Holder);
    ASSERT_EQ(contactsOf(result).size(), 1u);
    EXPECT_EQ(contactsOf(result)[0].code, "tool-into-jaws");
    EXPECT_THAT(contactsOf(result)[0].message, testing::HasSubstr("holder of station 1"));
}

TEST(Clearance, FindingNamesLineTimePlaceAndFigures) {
    const auto setup = latheWith(smallBlock());
    Job job({100, 60});
    job.toolpath.datums.front() = {110, 0};
    const ClearanceResult result = check(job.to({50, 60}).to({25, 60}), setup);
    ASSERT_EQ(contactsOf(result).size(), 1u);
    const Finding f = contactsOf(result)[0];
    EXPECT_EQ(f.severity, Severity::Stop);
    EXPECT_EQ(f.code, "tool-into-jaws");
    EXPECT_EQ(f.span, (SourceSpan{SourceSpan::File::Program, 11, 0, 0}));
    EXPECT_NEAR(*f.timeS, 1 + 20.0 / 25, 1e-9);
    EXPECT_NEAR(f.place->z, 30, 1e-9);
    EXPECT_NEAR(f.place->r, 60.5, 1e-9);
    ASSERT_EQ(f.values.size(), 3u);
    EXPECT_EQ(f.values[0].first, "depth_mm");
    EXPECT_NEAR(f.values[0].second, 5, 1e-8);
    EXPECT_NEAR(f.values[1].second, 121, 1e-8);  // as a diameter
    EXPECT_NEAR(f.values[2].second, -80, 1e-8);  // from the work offset
    EXPECT_THAT(f.message, testing::HasSubstr("insert of station 1 goes 5.000 mm into the jaws at rapid"));
    EXPECT_FALSE(f.remedy.empty());
}

TEST(Clearance, FeedUnderConstantSurfaceSpeedTellsTheTimeOfContactByItsOwnPace) {
    const auto setup = latheWith(smallBlock());
    Job job({29, 120});
    job.toolpath.datums.front() = {-9.5, 0};
    job.to({29, 40}, MoveKind::Feed);
    job.toolpath.modals[0] = {
        1, false, true, 0.2, true, 200, 2000, SpindleDirection::Forward, false, false, Compensation::Off, 0, 0};
    job.toolpath.moves[0].feed = 0.2;
    job.timeline = layOut(job.toolpath, setup);
    const ClearanceResult result = check(job, setup);
    ASSERT_EQ(contactsOf(result).size(), 1u);
    // Contact at radius 80. At constant surface speed the feed is f·1000 v/(2 pi r) per minute, so the time from radius
    // 120 to 80 is pi (120² - 80²) / (1000 v f) minutes; the speed stays far below the clamp.
    EXPECT_NEAR(*contactsOf(result)[0].timeS, 60 * kPi * (120 * 120 - 80 * 80) / (1000.0 * 200 * 0.2), 1e-6);
}

struct RunRow {
    const char* name;
    Job job;
    std::vector<std::string> codes;
    std::vector<double> depths;
    std::vector<std::uint32_t> lines;
};

TEST(Clearance, RunsOfTouchingMovesAreOneFinding) {
    const auto setup = latheWith(smallBlock());
    const Point out{40, 60}, in{28, 60}, deeper{25, 60}, back{60, 60};
    const RunRow rows[] = {
        {"in, wait, deeper, out", Job(out).to(in).stay().to(deeper).to(out).to(back), {"tool-into-jaws"}, {5}, {1}},
        {"twice with a move between",
         Job(out).to(in).to(out).to(back).to(out).to(deeper).to(out),
         {"tool-into-jaws", "tool-into-jaws"},
         {2, 5},
         {1, 41}},
        {"passes of one cycle",
         Job(out).inCycle(7, in).inCycle(7, out).inCycle(7, back).inCycle(7, out).inCycle(7, deeper).inCycle(7, out),
         {"tool-into-jaws"},
         {5},
         {1}},
        {"the same cycle again later",
         Job(out).inCycle(7, in).inCycle(7, out).to(back).to(out).inCycle(7, deeper).inCycle(7, out),
         {"tool-into-jaws", "tool-into-jaws"},
         {2, 5},
         {1, 41}},
        // Through the jaws into the chuck on one move: what it meets first.
        {"jaws, then chuck", Job(out).to({-5, 60}), {"tool-into-jaws"}, {15.5}, {1}},
        // The chuck alone, from inside the bar's radius.
        {"chuck only", Job({20, 10}).to({-2, 10}), {"tool-into-chuck"}, {2}, {1}},
        {"first jaws, then on another move chuck",
         Job(out).to(in).to(out).to(back).to({60, 10}).to({-2, 10}),
         {"tool-into-jaws", "tool-into-chuck"},
         {2, 2},
         {1, 41}},
    };
    for (const RunRow& row : rows) {
        SCOPED_TRACE(row.name);
        const ClearanceResult result = check(row.job, setup);
        ASSERT_EQ(contactsOf(result).size(), row.codes.size());
        for (std::size_t i = 0; i < row.codes.size(); ++i) {
            EXPECT_EQ(contactsOf(result)[i].code, row.codes[i]);
            EXPECT_NEAR(contactsOf(result)[i].values[0].second, row.depths[i], 1e-8);
            EXPECT_EQ(contactsOf(result)[i].span.line, row.lines[i]);
        }
    }
}

TEST(Clearance, AToolIndexedInStandingInAJawIsFound) {
    const ClearanceResult result = check(Job({20, 60}).stay(MoveKind::Index), latheWith(smallBlock()));
    ASSERT_EQ(contactsOf(result).size(), 1u);
}

// Both in words and, where the program moves it, as a finding that keeps the trial from being clear.
TEST(Clearance, SaysWhatItDoesNotLookAt) {
    const auto whole = latheWith(smallBlock(), block(0, 20, 1, 40));
    Job job({300, 100});
    job.stay();
    const ClearanceResult still = check(job, whole);
    EXPECT_THAT(still.notModelled, testing::Contains(testing::HasSubstr("no table [turret]")));
    EXPECT_TRUE(still.findings.empty());  // nothing moves

    const ClearanceResult moved = check(job.to({310, 100}), whole);
    ASSERT_EQ(moved.findings.size(), 1u);
    EXPECT_EQ(moved.findings[0].code, "not-modelled");
    EXPECT_TRUE(moved.findings[0].unproven);
    EXPECT_EQ(verdictOf(moved.findings), Verdict::NotProven);

    Job empty({300, 100});
    empty.toolpath.calls[1].station = 2;
    empty.toolpath.calls[1].toolIndex = -1;
    empty.stay();
    const ClearanceResult result = check(empty, whole);
    EXPECT_THAT(result.notModelled, testing::Contains(testing::HasSubstr("Station 2 has no tool")));
    EXPECT_EQ(result.perMove[0].gapMm, std::numeric_limits<float>::infinity());
}

TEST(Clearance, StopsWhenAsked) {
    std::stop_source source;
    source.request_stop();
    const Job job = Job({40, 60}).stay();
    ClearanceOptions options;
    options.stop = source.get_token();
    EXPECT_TRUE(checkClearances(job.timeline, job.toolpath, latheWith(smallBlock()), nullptr, options).perMove.empty());
}

TEST(Clearance, NothingThereIsInfinitelyFar) {
    auto setup = latheWith(smallBlock());
    setup.chuck = {};
    const ClearanceResult result = check(Job({40, 60}).to({-40, 0}), setup);
    EXPECT_EQ(result.perMove[0].gapMm, std::numeric_limits<float>::infinity());
    EXPECT_TRUE(contactsOf(result).empty());
}

}  // namespace
}  // namespace firstoff
