#include "sim/clearance/machine_bodies.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "sim/base/units.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;

constexpr double kRounding = 1e-9;

const MachineBody* find(const MachineBodies& all, BodyKind kind, int station = 0) {
    for (const MachineBody& body : all.bodies) {
        if (body.kind == kind && body.station == station) return &body;
    }
    return nullptr;
}

SpaceBox boxOf(const MachineBody& body) {
    SpaceBox box = boundingBox(body.pieces.front());
    for (const ConvexPiece& piece : body.pieces) {
        const SpaceBox b = boundingBox(piece);
        box.min = {std::min(box.min.z, b.min.z), std::min(box.min.r, b.min.r), std::min(box.min.y, b.min.y)};
        box.max = {std::max(box.max.z, b.max.z), std::max(box.max.r, b.max.r), std::max(box.max.y, b.max.y)};
    }
    return box;
}

void expectBox(const SpaceBox& box, SpacePoint min, SpacePoint max, double tolerance = kRounding) {
    EXPECT_NEAR(box.min.z, min.z, tolerance);
    EXPECT_NEAR(box.min.r, min.r, tolerance);
    EXPECT_NEAR(box.min.y, min.y, tolerance);
    EXPECT_NEAR(box.max.z, max.z, tolerance);
    EXPECT_NEAR(box.max.r, max.r, tolerance);
    EXPECT_NEAR(box.max.y, max.y, tolerance);
}

double area(const std::vector<Point>& polygon) {
    double twice = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) twice += cross(polygon[i], polygon[(i + 1) % polygon.size()]);
    return twice / 2;
}

// Of a solid turned about the axis: Pappus, area times the way of its centre of gravity.
double turnedVolume(const MachineBody& body) {
    double volume = 0;
    for (const std::vector<Point>& polygon : body.sections) {
        double moment = 0;  // of r
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
            moment += (a.r + b.r) * cross(a, b) / 6;
        }
        volume += 2 * kPi * moment;
    }
    return volume;
}

firstoff::Setup withTurret(int stations, double axisR = 192) {
    firstoff::Setup setup = shop::barStock(50, 80);
    setup.machine.stations = stations;
    setup.machine.turretRadius = 150;
    setup.machine.turretThickness = 90;
    Turret turret;
    turret.axisR = axisR;
    turret.headRadius = 100;
    turret.headLength = 200;
    setup.turret = turret;
    setup.toolBlock = {{0, 80}, {}, 60};
    return setup;
}

TEST(MachineBodies, ChuckAndJawsStandRoundTheBar) {
    firstoff::Setup setup = shop::barStock(50, 80);
    setup.chuck.jawLength = 30;
    setup.chuck.jawOuterRadius = 75;
    setup.stock.backZ = -40;
    const MachineBodies all = machineBodies(setup);
    EXPECT_EQ(all.bodies.front().kind, BodyKind::Billet);
    const MachineBody& chuck = *find(all, BodyKind::ChuckBody);
    const double R = setup.chuck.bodyRadius, L = setup.chuck.bodyLength;
    expectBox(boxOf(chuck), {-L, -R, -R}, {0, R, R});
    // Solid but for the bar, which reaches 40 mm into it.
    EXPECT_NEAR(turnedVolume(chuck), kPi * (R * R * L - 25.0 * 25 * 40), 1e-6);
    const MachineBody& jaws = *find(all, BodyKind::Jaws);
    expectBox(boxOf(jaws), {0, -75, -75}, {30, 75, 75});
    EXPECT_NEAR(turnedVolume(jaws), kPi * (75.0 * 75 - 25 * 25) * 30, 1e-6);
    EXPECT_EQ(jaws.name, "the jaws");
    EXPECT_EQ(jaws.carrier, Carrier::Spindle);
}

TEST(MachineBodies, SpindleBoreIsOpenBehindTheBar) {
    firstoff::Setup setup = shop::barStock(50, 80);
    setup.stock.backZ = -40;
    setup.chuck.throughBoreRadius = 26;
    const MachineBody chuck = *find(machineBodies(setup), BodyKind::ChuckBody);
    const double R = setup.chuck.bodyRadius, L = setup.chuck.bodyLength;
    EXPECT_NEAR(turnedVolume(chuck), kPi * (R * R - 26.0 * 26) * L, 1e-6);
}

TEST(MachineBodies, SteppedJawsAreOneRingPerStep) {
    firstoff::Setup setup = shop::barStock(50, 80);
    setup.chuck.jaw = Chuck::Jaw::Stepped;
    setup.chuck.jawOuterRadius = 75;
    setup.chuck.steps = {{40, 30}, {60, 18}, {75, 8}};
    const MachineBody jaws = *find(machineBodies(setup), BodyKind::Jaws);
    ASSERT_EQ(jaws.sections.size(), 3u);
    EXPECT_NEAR(turnedVolume(jaws),
                kPi * (30 * (40.0 * 40 - 25 * 25) + 18 * (60.0 * 60 - 40 * 40) + 8 * (75.0 * 75 - 60 * 60)), 1e-6);
    for (const std::vector<Point>& section : jaws.sections) EXPECT_GT(area(section), 0);
}

TEST(MachineBodies, JawsThatGripFromInsideFillTheBore) {
    firstoff::Setup setup = shop::barStock(50, 80, 1, 30);
    setup.chuck.grip = Chuck::Grip::Inside;
    setup.chuck.jawLength = 20;
    const MachineBody jaws = *find(machineBodies(setup), BodyKind::Jaws);
    expectBox(boxOf(jaws), {0, -15, -15}, {20, 15, 15});
    EXPECT_NEAR(turnedVolume(jaws), kPi * 15 * 15 * 20, 1e-6);
}

TEST(MachineBodies, SoftJawsAreSolidBehindWhatTheyAreBoredTo) {
    firstoff::Setup setup = shop::barStock(50, 80);
    setup.chuck.jaw = Chuck::Jaw::Soft;
    setup.chuck.jawLength = 30;
    setup.chuck.jawOuterRadius = 75;
    setup.chuck.gripLength = 12;
    setup.stock.backZ = 18;  // stands on the floor of the bore
    const MachineBody jaws = *find(machineBodies(setup), BodyKind::Jaws);
    EXPECT_NEAR(turnedVolume(jaws), kPi * (75.0 * 75 * 30 - 25.0 * 25 * 12), 1e-6);
}

TEST(MachineBodies, JawsInsideTheBarAreTold) {
    firstoff::Setup setup = shop::barStock(160, 80);
    const MachineBodies all = machineBodies(setup);
    EXPECT_EQ(find(all, BodyKind::Jaws), nullptr);
    EXPECT_THAT(all.notModelled, Contains(Field(&MachineBodies::Gap::what, HasSubstr("as large as the circle"))));
}

TEST(MachineBodies, TailstockFromItsPointBackwards) {
    firstoff::Setup setup = shop::barStock(50, 80);
    Tailstock tailstock;
    tailstock.centreAngle = radians(60);
    tailstock.centreRadius = 14;
    tailstock.centreLength = 70;
    tailstock.quillRadius = 35;
    tailstock.quillLength = 120;
    tailstock.housingRadius = 30;
    tailstock.housingLength = 40;
    tailstock.castingRadius = 90;
    tailstock.castingLength = 300;
    setup.tailstock = tailstock;
    const MachineBodies all = machineBodies(setup);
    const MachineBody& centre = *find(all, BodyKind::Centre);
    const double cone = 14 * std::sqrt(3.0);  // 60 degrees point: the length is r / tan 30
    // Cone: a third of the cylinder. The shank runs on inside the housing, where it counts twice.
    EXPECT_NEAR(turnedVolume(centre), kPi * (14 * 14 * cone / 3 + 14 * 14 * (70 - cone) + 30.0 * 30 * 40), 1e-6);
    expectBox(boxOf(centre), {0, -30, -30}, {70, 30, 30});
    expectBox(boxOf(*find(all, BodyKind::Quill)), {70, -35, -35}, {190, 35, 35});
    expectBox(boxOf(*find(all, BodyKind::TailstockCasting)), {190, -90, -90}, {490, 90, 90});
    EXPECT_EQ(centre.carrier, Carrier::Tailstock);
}

TEST(MachineBodies, SecondSpindleFacesTheFirst) {
    firstoff::Setup setup = shop::barStock(50, 80);
    SecondSpindle second;
    second.chuck.bodyRadius = 60;
    second.chuck.bodyLength = 70;
    second.chuck.jawLength = 25;
    second.chuck.jawOuterRadius = 55;
    setup.secondSpindle = second;
    const MachineBodies all = machineBodies(setup);
    const MachineBody& chuck = *find(all, BodyKind::SecondChuckBody);
    const MachineBody& jaws = *find(all, BodyKind::SecondJaws);
    expectBox(boxOf(chuck), {0, -60, -60}, {70, 60, 60});
    expectBox(boxOf(jaws), {-25, -55, -55}, {0, 55, 55});
    EXPECT_EQ(jaws.carrier, Carrier::SecondSpindle);
    for (const std::vector<Point>& section : jaws.sections) EXPECT_GT(area(section), 0);  // anticlockwise still
}

TEST(MachineBodies, SteadyRestIsARingWithAnOpening) {
    firstoff::Setup setup = shop::barStock(50, 200);
    SteadyRest rest;
    rest.z = 120;
    rest.width = 24;
    rest.innerRadius = 60;
    rest.outerRadius = 95;
    rest.rollerRadius = 12;
    rest.barRadius = 25;
    rest.openFrom = radians(-30);
    rest.openTo = radians(60);
    setup.steadyRest = rest;
    const MachineBody body = *find(machineBodies(setup), BodyKind::SteadyRest);
    int rollers = 0;
    double ring = 0;
    for (const ConvexPiece& piece : body.pieces) {
        rollers += piece.isTurned();
        if (piece.corners.size() != 10) continue;
        std::vector<Point> seen;  // along z: corners of one end, in angle about the middle
        Point middle;
        for (std::size_t i = 0; i < 5; ++i) seen.push_back({piece.corners[i].r, piece.corners[i].y});
        for (Point p : seen) middle = middle + 0.2 * p;
        std::sort(seen.begin(), seen.end(), [&](Point a, Point b) {
            return std::atan2((a - middle).r, (a - middle).z) < std::atan2((b - middle).r, (b - middle).z);
        });
        ring += area(seen);
    }
    EXPECT_EQ(rollers, 3);
    const double truth = kPi * (95.0 * 95 - 60 * 60) * 270 / 360;
    EXPECT_GT(ring, truth);
    EXPECT_LT(ring, truth + 270 / 360.0 * 2 * kPi * (95 + 60) * 0.02);  // each rim lies at most 0.02 outside
    // A roller stands on the bar: 25 + 12 from the axis.
    for (const ConvexPiece& piece : body.pieces) {
        if (!piece.isTurned()) continue;
        EXPECT_NEAR(std::hypot(piece.axisR, piece.axisY), 37, kRounding);
    }
    // Nothing in the opening, which looks to the turret: 15 degrees from it, at the middle radius.
    for (const ConvexPiece& piece : body.pieces) {
        for (const SpacePoint& p : piece.corners) {
            const double angle = degrees(std::atan2(p.y, p.r));
            if (std::hypot(p.r, p.y) < 59.9) continue;
            EXPECT_FALSE(angle > -29.9 && angle < 59.9) << angle;
        }
    }
}

class DiscOf : public ::testing::TestWithParam<int> {};

// Turned into working position, every station looks as the first does there.
TEST_P(DiscOf, EveryStationIsTheFirstTurned) {
    const int stations = GetParam();
    firstoff::Setup setup = withTurret(stations);
    for (int station = 1; station <= stations; ++station) shop::addTurningTool(setup, station, 'C', 0.8);
    const MachineBodies all = machineBodies(setup);
    EXPECT_EQ(all.stations, stations);
    for (const BodyKind kind : {BodyKind::Block, BodyKind::Holder, BodyKind::Edge}) {
        ASSERT_NE(find(all, kind, 1), nullptr);
        const SpaceBox first = boxOf(*find(all, kind, 1));
        for (int station = 2; station <= stations; ++station) {
            MachineBody body = *find(all, kind, station);
            for (ConvexPiece& piece : body.pieces) {
                piece = turnedAbout(all.turretAxisR, all.turnOf(station), piece);
            }
            expectBox(boxOf(body), first.min, first.max, 1e-9);
        }
    }
    // The disc maps onto itself, a flat towards the axis.
    const MachineBody& disc = *find(all, BodyKind::TurretDisc);
    EXPECT_EQ(disc.pieces.front().corners.size(), static_cast<std::size_t>(2 * stations));
    EXPECT_NEAR(boxOf(disc).min.r, 192 - 150, kRounding);
}
INSTANTIATE_TEST_SUITE_P(MachineBodies, DiscOf, ::testing::Values(8, 10, 12, 16));

TEST(MachineBodies, BlockReachesFromTheRimToTheOverhang) {
    firstoff::Setup setup = withTurret(12);
    Tool& tool = shop::addTurningTool(setup, 1, 'C', 0.8);
    tool.tip = {-60, -60};
    tool.overhang = 35;
    giveShape(tool);
    expectBox(boxOf(*find(machineBodies(setup), BodyKind::Block, 1)), {0, -25, -30}, {80, 42, 30});
    Tool& bar = shop::addBoringBar(setup, 2, 'C', 0.4);
    bar.tip = {-100, -10};
    bar.overhang = 80;
    giveShape(bar);
    MachineBodies all = machineBodies(setup);
    const SpaceBox shank = boundingBox(turnedAbout(192, all.turnOf(2), find(all, BodyKind::Holder, 2)->pieces.front()));
    const SpaceBox block = boundingBox(turnedAbout(192, all.turnOf(2), find(all, BodyKind::Block, 2)->pieces.front()));
    EXPECT_NEAR(block.min.z, -20, kRounding);
    EXPECT_NEAR(block.min.r, shank.min.r - 15, kRounding);  // as toolBlockOf() says
    EXPECT_NEAR(shank.max.z, -20, kRounding);
    EXPECT_NEAR(shank.max.r - shank.min.r, bar.shankSize, kRounding);
    EXPECT_NEAR(shank.max.y - shank.min.y, bar.shankSize, kRounding);
}

// Under M03 the metal at the turret goes towards +y (space.h), so the shank stands there, behind the edge.
TEST(MachineBodies, ShankLiesBehindTheEdge) {
    firstoff::Setup setup = withTurret(12);
    Tool& tool = shop::addTurningTool(setup, 1, 'C', 0.8);
    tool.needs = SpindleDirection::Forward;
    tool.shankSize = 20;
    tool.centreHeight = 0.1;
    giveShape(tool);
    SpaceBox holder = boxOf(*find(machineBodies(setup), BodyKind::Holder, 1));
    EXPECT_NEAR(holder.min.y, -0.1, kRounding);
    EXPECT_NEAR(holder.max.y, 19.9, kRounding);
    setup.tools.front().needs = SpindleDirection::Reverse;
    holder = boxOf(*find(machineBodies(setup), BodyKind::Holder, 1));
    EXPECT_NEAR(holder.min.y, -19.9, kRounding);
    EXPECT_NEAR(holder.max.y, 0.1, kRounding);
    setup.tools.front().needs = SpindleDirection::Stopped;
    holder = boxOf(*find(machineBodies(setup), BodyKind::Holder, 1));
    EXPECT_NEAR(holder.min.y, -20.1, kRounding);
    EXPECT_NEAR(holder.max.y, 20.1, kRounding);
}

TEST(MachineBodies, DrillIsAConeAndARod) {
    firstoff::Setup setup = withTurret(12);
    Tool& drill = shop::addDrill(setup, 1, 10, 118);
    drill.tip = {-120, -30};
    drill.fluteLength = 60;
    drill.overhang = 90;
    drill.shankSize = 16;
    giveShape(drill);
    const MachineBodies all = machineBodies(setup);
    const MachineBody& edge = *find(all, BodyKind::Edge, 1);
    ASSERT_EQ(edge.pieces.size(), 1u);
    EXPECT_TRUE(edge.pieces.front().isTurned());
    expectBox(boxOf(edge), {-120, -35, -5}, {-60, -25, 5});
    const double cone = 5 / std::tan(radians(59));
    EXPECT_THAT(edge.pieces.front().halfSection, Contains(Field(&Point::z, ::testing::DoubleNear(-120 + cone, 1e-9))));
    expectBox(boxOf(*find(all, BodyKind::Holder, 1)), {-60, -38, -8}, {-30, -22, 8});
}

TEST(MachineBodies, GangPlateNeverTurns) {
    firstoff::Setup setup = withTurret(4);
    setup.turret->kind = Turret::Kind::Gang;
    setup.turret->plateR = {20, 140};
    setup.turret->plateY = {-40, 60};
    shop::addTurningTool(setup, 3, 'C', 0.8);
    const MachineBodies all = machineBodies(setup);
    EXPECT_EQ(all.stations, 0);
    EXPECT_EQ(all.turnOf(3), 0);
    expectBox(boxOf(*find(all, BodyKind::TurretDisc)), {0, 20, -40}, {90, 140, 60});
    const Tool& tool = setup.tools.front();
    EXPECT_NEAR(boxOf(*find(all, BodyKind::Edge, 3)).min.r, tool.tip.r, 0.01);
}

TEST(MachineBodies, GuardsAndWhatTurnsWithTheSpindle) {
    firstoff::Setup setup = withTurret(12);
    ExtraBody guard;
    guard.name = "left door";
    guard.kind = ExtraBody::Kind::Door;
    guard.z = {-200, -180};
    guard.r = {-300, 300};
    guard.y = {150, 160};
    ExtraBody driver = guard;
    driver.name = "driver";
    driver.kind = ExtraBody::Kind::Other;
    driver.carrier = ExtraBody::Carrier::Spindle;
    driver.z = {30, 40};
    driver.r = {30, 60};
    driver.y = {-8, 8};
    setup.extraBodies = {guard, driver};
    const MachineBodies all = machineBodies(setup);
    const MachineBody& door = *find(all, BodyKind::Door);
    EXPECT_EQ(door.name, "the door \"left door\"");
    expectBox(boxOf(door), {-200, -300, 150}, {-180, 300, 160});
    EXPECT_TRUE(door.sections.empty());
    const MachineBody& swept = *find(all, BodyKind::Other);
    const double reach = std::hypot(60, 8);
    expectBox(boxOf(swept), {30, -reach, -reach}, {40, reach, reach});
    EXPECT_NEAR(turnedVolume(swept), kPi * (reach * reach - 30 * 30) * 10, 1e-6);
}

TEST(MachineBodies, MeshOnAStationTurnsWithIt) {
    firstoff::Setup setup = withTurret(12);
    ExtraBody probe;
    probe.name = "probe";
    probe.carrier = ExtraBody::Carrier::Station;
    probe.station = 4;
    probe.file = "probe.stl";
    probe.triangles = {{0, 40, 0, 10, 40, 0, 0, 30, 0}};
    setup.extraBodies = {probe};
    const MachineBodies all = machineBodies(setup);
    const MachineBody& body = *find(all, BodyKind::Other, 4);
    EXPECT_TRUE(body.isMesh);
    ASSERT_EQ(body.pieces.size(), 1u);
    // Station 4 of 12 stands a quarter turn off: what pointed to the axis points across.
    EXPECT_NEAR(body.pieces.front().corners[2].r, 192, kRounding);
    EXPECT_NEAR(std::abs(body.pieces.front().corners[2].y), 162, kRounding);
    const SpacePoint back = turnedAbout(192, all.turnOf(4), body.pieces.front().corners[2]);
    EXPECT_NEAR(back.r, 30, kRounding);
}

TEST(MachineBodies, MeshThatWasNotReadIsTold) {
    firstoff::Setup setup = withTurret(12);
    ExtraBody probe;
    probe.name = "probe";
    probe.file = "probe.stl";
    setup.extraBodies = {probe};
    const MachineBodies all = machineBodies(setup);
    EXPECT_EQ(find(all, BodyKind::Other), nullptr);
    EXPECT_THAT(all.notModelled, Contains(Field(&MachineBodies::Gap::what, HasSubstr("\"probe\""))));
}

TEST(MachineBodies, WhatTheSetupLeavesOpen) {
    struct Row {
        const char* missing;
        void (*change)(firstoff::Setup&);
        const char* says;
        bool moves;
    };
    const Row rows[] = {
        {"turret", [](firstoff::Setup& s) { s.turret.reset(); }, "no table [turret]", true},
        {"head", [](firstoff::Setup& s) { s.turret->headLength = 0; }, "housing behind the turret disc", true},
        {"disc", [](firstoff::Setup& s) { s.machine.turretRadius = 0; }, "size of the turret disc", true},
        {"block", [](firstoff::Setup& s) { s.toolBlock = {}; }, "the block that holds the tool of station 1", true},
        {"holder", [](firstoff::Setup& s) { s.tools[0].holder = {}; }, "how far the tool of station 1 stands out",
         true},
        {"chuck", [](firstoff::Setup& s) { s.chuck.bodyRadius = 0; }, "no size of the chuck", true},
        {"guards", [](firstoff::Setup&) {}, "no guards and no doors", false},
        {"casting", [](firstoff::Setup& s) { s.tailstock.emplace(); }, "the casting behind the quill", false},
        {"casting that moves",
         [](firstoff::Setup& s) {
             s.tailstock.emplace();
             s.machineCodes.emplace_back().action = MachineAction::TailstockAdvance;
         },
         "the casting behind the quill", true},
    };
    for (const Row& row : rows) {
        firstoff::Setup setup = withTurret(12);
        shop::addTurningTool(setup, 1, 'C', 0.8);
        row.change(setup);
        EXPECT_THAT(machineBodies(setup).notModelled,
                    Contains(::testing::AllOf(Field(&MachineBodies::Gap::what, HasSubstr(row.says)),
                                              Field(&MachineBodies::Gap::moves, row.moves))))
            << row.missing;
    }
}

}  // namespace
}  // namespace firstoff
