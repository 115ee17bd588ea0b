// Where disc, tailstock and second spindle stand.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "sim/motion/carrier_travels.h"
#include "sim/motion/machine_pose.h"
#include "sim/program/program.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

MachineCode code(int number, MachineAction action, double seconds = 2) {
    return {number, "", seconds, {}, {}, action, {}};
}

Setup machine(Turret::IndexWay way = Turret::IndexWay::NotSaid, Turret::Kind kind = Turret::Kind::Disc) {
    Setup setup = shop::barStock(50, 90);
    for (int station = 1; station <= 12; ++station) shop::addTurningTool(setup, station, 'C', 0.8);
    setup.turret.emplace();
    setup.turret->kind = kind;
    setup.turret->indexWay = way;
    Tailstock& tailstock = setup.tailstock.emplace();
    tailstock.tipZ = 500;
    tailstock.advancedZ = 120;
    setup.secondSpindle.emplace();
    setup.secondSpindle->startZ = 480;
    setup.secondSpindle->approachZ = 150;
    setup.secondSpindle->parkedZ = 490;
    setup.machineCodes = {code(21, MachineAction::TailstockAdvance),
                          code(22, MachineAction::TailstockRetract),
                          code(31, MachineAction::SecondSpindleApproach),
                          code(32, MachineAction::SecondSpindleRetract),
                          code(33, MachineAction::SecondSpindleGrip),
                          code(34, MachineAction::SecondSpindleRelease),
                          code(35, MachineAction::SecondSpindleStop, 0),
                          code(68, MachineAction::ChuckOpen),
                          code(69, MachineAction::ChuckClose)};
    return setup;
}

struct Laid {
    Setup setup;
    Toolpath path;
    Timeline timeline;

    Laid(const std::string& text, Setup set) : setup(std::move(set)) {
        path = interpret(readProgram(text, "program"), setup);
        timeline = layOut(path, setup);
    }
    MachinePose at(std::size_t timed, double fraction) const { return poseAt(timeline, path, setup, timed, fraction); }
    std::vector<IndexSwing> swings() const {
        std::vector<IndexSwing> all;
        for (std::size_t i = 0; i < timeline.moves.size(); ++i) {
            if (const auto swing = indexSwing(timeline, path, setup, i)) all.push_back(*swing);
        }
        return all;
    }
};

struct SwingCase {
    Turret::IndexWay way;
    int from, to;
    double swingTo;
    std::optional<double> other;
};

void PrintTo(const SwingCase& c, std::ostream* out) {
    *out << "from " << c.from << " to " << c.to << " way " << int(c.way);
}

class Swing : public testing::TestWithParam<SwingCase> {};

TEST_P(Swing, CountsOnContinuously) {
    const SwingCase& c = GetParam();
    const Laid run(fmt::format("T{0:02}{0:02}\nT{1:02}{1:02}\nM30\n", c.from, c.to), machine(c.way));
    const auto swings = run.swings();
    ASSERT_EQ(swings.size(), 1u);
    EXPECT_EQ(swings[0].from, c.from);
    EXPECT_EQ(swings[0].to, c.swingTo);
    EXPECT_EQ(swings[0].otherWayTo, c.other);
    // Half way through it stands half way round, and from the next move on at the station.
    for (std::size_t i = 0; i < run.timeline.moves.size(); ++i) {
        if (!indexSwing(run.timeline, run.path, run.setup, i)) continue;
        EXPECT_EQ(run.at(i, 0).station, c.from);
        EXPECT_EQ(run.at(i, 0.5).station, (c.from + c.swingTo) / 2);
        EXPECT_EQ(run.at(i, 1).station, c.swingTo);
    }
}

using enum Turret::IndexWay;
INSTANTIATE_TEST_SUITE_P(OfTwelve, Swing,
                         testing::Values(SwingCase{Rising, 1, 3, 3, {}}, SwingCase{Rising, 3, 1, 13, {}},
                                         SwingCase{Rising, 12, 1, 13, {}}, SwingCase{Shortest, 12, 1, 13, {}},
                                         SwingCase{Shortest, 1, 12, 0, {}}, SwingCase{Shortest, 2, 10, -2, {}},
                                         SwingCase{Shortest, 1, 7, 7, -5}, SwingCase{Shortest, 7, 1, 13, 1},
                                         SwingCase{NotSaid, 1, 3, 3, -9}, SwingCase{NotSaid, 1, 12, 0, 12},
                                         SwingCase{NotSaid, 9, 3, 15, 3}));

TEST(IndexSwings, AreNoneOnAGangPlateNorForAnOffset) {
    EXPECT_TRUE(Laid("T0101\nT0303\nM30\n", machine(NotSaid, Turret::Kind::Gang)).swings().empty());
    EXPECT_TRUE(Laid("T0303\nT0300\nT0303\nM30\n", machine()).swings().empty());
}

TEST(IndexSwings, BeforeTheFirstToolWordItsStationStandsThere) {
    const Laid run("G28 U0 W0\nG00 X100 Z50\nT0505\nM30\n", machine());
    EXPECT_TRUE(run.swings().empty());
    EXPECT_EQ(run.at(0, 0).station, 5);
    EXPECT_EQ(Laid("G28 U0 W0\nG00 X100 Z50\nM30\n", machine()).at(0, 0).station, 1);
}

TEST(IndexSwings, AreThereWhereNoTurretIsDescribedAsItMayBeADisc) {
    auto setup = machine();
    setup.turret.reset();
    EXPECT_EQ(Laid("T0101\nT0202\nM30\n", setup).swings().size(), 1u);
}

TEST(Travels, RunFromWhereTheCarrierStandsDuringTheDwellOfTheirCode) {
    const Laid run("T0101\nM21\nG00 X60 Z5\nM22\nM31\nM32\nM30\n", machine());
    ASSERT_EQ(run.timeline.travels.size(), 4u);
    const auto& t = run.timeline.travels;
    EXPECT_EQ(t[0].carrier, CarrierTravel::Carrier::Tailstock);
    EXPECT_EQ(t[0].fromZ, 500);
    EXPECT_EQ(t[0].toZ, 120);
    EXPECT_EQ(t[0].block, 1u);
    EXPECT_EQ(t[1].fromZ, 120);
    EXPECT_EQ(t[1].toZ, 500);  // parked at the start: back to where it stood
    EXPECT_EQ(t[2].carrier, CarrierTravel::Carrier::SecondSpindle);
    EXPECT_EQ(t[2].fromZ, 480);
    EXPECT_EQ(t[2].toZ, 150);
    EXPECT_EQ(t[3].toZ, 490);
    for (const CarrierTravel& travel : t) {
        const TimedMove& timed = run.timeline.moves[travel.timedMove];
        EXPECT_EQ(timed.kind, MoveKind::Dwell);
        EXPECT_DOUBLE_EQ(timed.t1 - timed.t0, 2);
    }
    EXPECT_TRUE(run.timeline.findings.empty());
}

TEST(Travels, AreEvenOverTheirTimeAndStayAfterwards) {
    const Laid run("T0101\nM21\nG00 X60 Z5\nM31\nM30\n", machine());
    const std::size_t advance = run.timeline.travels[0].timedMove;
    EXPECT_EQ(run.at(0, 1).tailstockZ, 500);
    EXPECT_EQ(run.at(advance, 0).tailstockZ, 500);
    EXPECT_DOUBLE_EQ(*run.at(advance, 0.25).tailstockZ, 405);
    EXPECT_EQ(run.at(advance, 1).tailstockZ, 120);
    EXPECT_EQ(run.at(advance + 1, 0.5).tailstockZ, 120);
    EXPECT_EQ(run.at(advance + 1, 0.5).secondSpindleZ, 480);
    EXPECT_EQ(run.at(run.timeline.moves.size() - 1, 1).secondSpindleZ, 150);
}

TEST(Travels, OfACodeSentTwiceAreOne) {
    EXPECT_EQ(Laid("T0101\nM21\nM21\nM30\n", machine()).timeline.travels.size(), 1u);
}

TEST(Travels, WithoutAPlaceStayAndAreNotProven) {
    auto setup = machine();
    setup.tailstock->advancedZ.reset();
    const Laid run("T0101\nM21\nM21\nM30\n", setup);
    EXPECT_TRUE(run.timeline.travels.empty());
    ASSERT_EQ(run.timeline.findings.size(), 1u);
    const Finding& finding = run.timeline.findings[0];
    EXPECT_EQ(finding.code, "tailstock-place-not-given");
    EXPECT_TRUE(finding.unproven);
    EXPECT_EQ(finding.span.line, 2u);
    EXPECT_THAT(finding.message, HasSubstr("Z500.000"));
    EXPECT_THAT(finding.remedy, HasSubstr("when it is advanced"));
}

TEST(Travels, OfATailstockAdvancedAtTheStartKnowWhereThatIs) {
    auto setup = machine();
    setup.tailstock->advanced = true;
    setup.tailstock->advancedZ.reset();
    setup.tailstock->tipZ = 118;
    EXPECT_EQ(advancedPlace(*setup.tailstock), 118);
    const Laid run("T0101\nM22\nM30\n", setup);
    EXPECT_TRUE(run.timeline.travels.empty());
    ASSERT_EQ(run.timeline.findings.size(), 1u);
    EXPECT_THAT(run.timeline.findings[0].remedy, HasSubstr("when it is parked"));
    setup.tailstock->parkedZ = 510;
    const Laid known("T0101\nM22\nM21\nM30\n", setup);
    ASSERT_EQ(known.timeline.travels.size(), 2u);
    EXPECT_EQ(known.timeline.travels[1].toZ, 118);
}

TEST(Travels, OfWhatTheSetupDoesNotDescribeAreNotProven) {
    auto setup = machine();
    setup.tailstock.reset();
    setup.secondSpindle.reset();
    const Laid run("T0101\nM21\nM31\nM33\nM68\nM30\n", setup);
    ASSERT_EQ(run.timeline.findings.size(), 3u);
    EXPECT_EQ(run.timeline.findings[0].code, "tailstock-not-in-setup");
    EXPECT_EQ(run.timeline.findings[1].code, "second-spindle-not-in-setup");
    EXPECT_EQ(run.timeline.findings[2].code, "second-spindle-not-in-setup");
    EXPECT_EQ(run.timeline.findings[2].span.line, 4u);
    for (const Finding& finding : run.timeline.findings) EXPECT_TRUE(finding.unproven);
    EXPECT_EQ(run.at(0, 0).tailstockZ, std::nullopt);
}

TEST(Travels, InNoTimeAreNoted) {
    auto setup = machine();
    setup.machineCodes[0].timeS = 0;
    const Laid run("T0101\nM21\nG00 X60 Z5\nM30\n", setup);
    ASSERT_EQ(run.timeline.travels.size(), 1u);
    ASSERT_EQ(run.timeline.findings.size(), 1u);
    EXPECT_EQ(run.timeline.findings[0].code, "travel-without-time");
    EXPECT_EQ(run.timeline.findings[0].severity, Severity::Note);
    // In between it is swept all the same.
    EXPECT_DOUBLE_EQ(*run.at(run.timeline.travels[0].timedMove, 0.5).tailstockZ, 310);
}

// In doubt, while it opens, closes or grips, the chuck counts as open and the second spindle as not gripping.
TEST(Grips, HoldOnlyWhenTheyCertainlyDo) {
    const Laid run("T0101\nM68\nG00 X60 Z5\nM69\nM33\nG00 X70\nM34\nG00 X80\nM30\n", machine());
    const auto during = [&](std::size_t event) {
        return std::size_t{run.timeline.firstOf[run.path.machineEvents[event].duringMove]};
    };
    EXPECT_FALSE(run.at(0, 1).chuckOpen);
    EXPECT_TRUE(run.at(during(0), 0).chuckOpen);
    EXPECT_TRUE(run.at(during(0) + 1, 1).chuckOpen);
    EXPECT_TRUE(run.at(during(1), 1).chuckOpen);
    EXPECT_FALSE(run.at(during(1), 1).secondSpindleGrips);
    EXPECT_FALSE(run.at(during(2), 1).secondSpindleGrips);
    EXPECT_FALSE(run.at(during(2), 0).chuckOpen);
    EXPECT_TRUE(run.at(during(2) + 1, 0).secondSpindleGrips);
    EXPECT_FALSE(run.at(during(3), 0).secondSpindleGrips);
    EXPECT_FALSE(run.at(run.timeline.moves.size() - 1, 0).secondSpindleGrips);
}

TEST(Pose, HasTheTurretWhereItIsAtThatPartOfTheTime) {
    // Faced at surface speed, the tool is faster near the axis: half the time is less than half the way.
    auto setup = machine();
    const Laid run("T0101\nG96 S100 M03\nG00 X60 Z5\nG01 X10 F0.2\nM30\n", setup);
    const std::size_t last = run.timeline.moves.size() - 1;
    const TimedMove& timed = run.timeline.moves[last];
    const double way = fractionAt(timed, run.path, run.setup, (timed.t0 + timed.t1) / 2);
    EXPECT_LT(way, 0.49);
    EXPECT_EQ(run.at(last, 0.5).turret, pointAt(timed, way));
    EXPECT_EQ(run.at(last, 0).turret, timed.from);
    EXPECT_EQ(run.at(last, 1).turret, timed.to);
}

// Whatever a program sends, and in whatever order: nothing jumps from one timed move to the next. The disc stands at
// the same station, however it counted on.
RC_GTEST_PROP(Poses, JoinFromMoveToMove, ()) {
    const std::vector<std::string> blocks = {"T0101",
                                             "T0707",
                                             "T1212",
                                             "T0300",
                                             "T0000",
                                             "M21",
                                             "M22",
                                             "M31",
                                             "M32",
                                             "M33",
                                             "M34",
                                             "M68",
                                             "M69",
                                             "M35",
                                             "G28 U0",
                                             "G28 W0",
                                             "G00 X60. Z5.",
                                             "G00 X80. Z40.",
                                             "G97 S500 M03",
                                             "G01 X50. Z-3. F.2",
                                             "G02 X56. Z-6. R5. F.1",
                                             "G42 G01 X54. Z1. F.2",
                                             "G40 G00 X70.",
                                             "G04 X.5",
                                             "G01 Z-20. ,C1.",
                                             "G90 X40. Z-10. F.2",
                                             "G00"};
    std::string text;
    const int count = *rc::gen::inRange(1, 40);
    for (int i = 0; i < count; ++i) text += *rc::gen::elementOf(blocks) + "\n";
    const auto way = *rc::gen::element(Rising, Shortest, NotSaid);
    const Laid run(text + "M30\n", machine(way));
    const int stations = run.setup.machine.stations;
    for (std::size_t i = 0; i < run.timeline.moves.size(); ++i) {
        const MachinePose start = run.at(i, 0), end = run.at(i, 1);
        RC_ASSERT(start.turret == run.timeline.moves[i].from);
        RC_ASSERT(end.turret == run.timeline.moves[i].to);
        if (const auto swing = indexSwing(run.timeline, run.path, run.setup, i)) {
            const double turn = std::abs(swing->to - swing->from);
            RC_ASSERT(turn > 0);
            RC_ASSERT(turn < stations);
            const bool asItTurns =
                way == Rising ? swing->to > swing->from && !swing->otherWayTo : turn <= stations / 2.0;
            RC_ASSERT(asItTurns);
            if (swing->otherWayTo) {
                RC_ASSERT(std::abs(*swing->otherWayTo - swing->to) == stations);
            }
        }
        if (i + 1 == run.timeline.moves.size()) break;
        const MachinePose next = run.at(i + 1, 0);
        RC_ASSERT(std::fmod(next.station - end.station, stations) == 0);
        RC_ASSERT(next.tailstockZ == end.tailstockZ);
        RC_ASSERT(next.secondSpindleZ == end.secondSpindleZ);
        RC_ASSERT((*next.tailstockZ == 500 || *next.tailstockZ == 120));
    }
    // Every travel during a dwell of its own, each where the one before ended.
    double tailstock = 500, second = 480;
    for (const CarrierTravel& travel : run.timeline.travels) {
        RC_ASSERT(run.timeline.moves[travel.timedMove].kind == MoveKind::Dwell);
        double& at = travel.carrier == CarrierTravel::Carrier::Tailstock ? tailstock : second;
        RC_ASSERT(travel.fromZ == at);
        at = travel.toZ;
    }
}

}  // namespace
}  // namespace firstoff
