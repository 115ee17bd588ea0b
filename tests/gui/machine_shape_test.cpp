#include "gui/scene/machine_shape.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <set>

#include "gui/scene/body_shapes.h"
#include "gui/scene/machine_picture.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/tool_shape.h"
#include "gui/scene/turret_shape.h"
#include "sim/base/units.h"
#include "tests/gui/mesh_checks.h"
#include "tests/support/shop.h"

namespace firstoff::gui {
namespace {

constexpr float kSingle = 1e-3f;  // mm, single precision at machine sizes

struct Reach {
    glm::vec3 low{1e9f}, high{-1e9f};
};
Reach reachOf(const TriangleMesh& mesh) {
    Reach reach;
    for (const Vertex& v : mesh.vertices) {
        reach.low = glm::min(reach.low, v.place);
        reach.high = glm::max(reach.high, v.place);
    }
    return reach;
}

float radiusOf(const Vertex& v) {
    return std::hypot(v.place.y, v.place.z);
}

firstoff::Setup everythingFitted() {
    firstoff::Setup setup = shop::barStock(40, 160);
    setup.machine.stations = 12;
    Turret turret;
    turret.axisR = 192;
    turret.headRadius = 90;
    turret.headLength = 200;
    setup.turret = turret;
    setup.toolBlock = {{-60, 80}, {}, 60};
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addDrill(setup, 2, 12);
    shop::addBoringBar(setup, 4, 'C', 0.4);
    shop::addGroovingTool(setup, 5, 3, 0.2);
    Tailstock tailstock;
    tailstock.quillRadius = 30;
    tailstock.quillLength = 120;
    tailstock.centreAngle = radians(60);
    tailstock.centreRadius = 12;
    tailstock.centreLength = 60;
    tailstock.housingRadius = 25;
    tailstock.housingLength = 30;
    tailstock.castingRadius = 70;
    tailstock.castingLength = 250;
    tailstock.tipZ = 400;
    setup.tailstock = tailstock;
    SecondSpindle second;
    second.chuck = setup.chuck;
    second.startZ = 900;
    setup.secondSpindle = second;
    SteadyRest rest;
    rest.z = 120;
    rest.width = 24;
    rest.innerRadius = 60;
    rest.outerRadius = 95;
    rest.rollerRadius = 12;
    rest.barRadius = 20;
    rest.openFrom = radians(30);
    rest.openTo = radians(100);
    setup.steadyRest = rest;
    ExtraBody guard;
    guard.name = "left";
    guard.kind = ExtraBody::Kind::Guard;
    guard.z = {-300, -290};
    guard.r = {-200, 300};
    guard.y = {-100, 100};
    ExtraBody door = guard;
    door.kind = ExtraBody::Kind::Door;
    ExtraBody driver = guard;
    driver.kind = ExtraBody::Kind::Other;
    driver.carrier = ExtraBody::Carrier::Spindle;
    driver.z = {30, 36};
    driver.r = {50, 70};
    driver.y = {-6, 6};
    setup.extraBodies = {guard, door, driver};
    return setup;
}

TEST(ChuckShape, HasTheSizeOfTheSetUp) {
    const firstoff::Setup setup = shop::barStock(40, 60);
    const ChuckShape shape = shapeOf(setup.chuck, setup.stock);
    EXPECT_TRUE(watertight(shape.body));
    const Reach reach = reachOf(shape.body);
    EXPECT_NEAR(reach.low.x, -setup.chuck.bodyLength, kSingle);
    EXPECT_NEAR(reach.high.x, 0, kSingle);
    EXPECT_NEAR(reach.high.y, setup.chuck.bodyRadius, kSingle);
}

TEST(ChuckShape, JawsStandOnTheBarAndReachTheirCircle) {
    for (double diameter : {12.0, 40.0, 110.0}) {
        firstoff::Setup setup = shop::barStock(diameter, 60);
        const ChuckShape shape = shapeOf(setup.chuck, setup.stock);
        float inner = 1e9f, outer = 0, front = 0;
        for (const Vertex& v : shape.jaws.vertices) {
            inner = std::min(inner, radiusOf(v));
            outer = std::max(outer, radiusOf(v));
            front = std::max(front, v.place.x);
        }
        // The guideway's foot lies in the body; what stands in front of it rests on the bar.
        EXPECT_GE(inner, diameter / 2 - kSingle) << diameter;
        EXPECT_NEAR(front, setup.chuck.jawLength, kSingle) << diameter;
        EXPECT_NEAR(outer, setup.chuck.jawOuterRadius, kSingle) << diameter;  // corners on the circle they sweep
    }
}

// Everything that is drawn of a body lies within its pieces, but for single precision, chords and paint.
TEST(BodyShape, StaysWithinWhatIsChecked) {
    firstoff::Setup setup = withTurret(everythingFitted());
    const firstoff::MachineBodies machine = machineBodies(setup);
    std::set<BodyKind> seen;
    for (std::size_t i = 1; i < machine.bodies.size(); ++i) {
        const MachineBody& body = machine.bodies[i];
        // The head of a holder is drawn with the seat of its insert.
        const float tolerance = body.kind == BodyKind::Holder ? 6.0f : 0.35f;
        const TriangleMesh mesh = shapeOf(body, setup, machine);
        EXPECT_FALSE(mesh.indices.empty()) << body.name;
        const Reach drawn = reachOf(mesh);
        Reach checked;
        for (const ConvexPiece& piece : body.pieces) {
            const SpaceBox box = boundingBox(piece);
            checked.low = glm::min(checked.low, inScene(box.min));
            checked.high = glm::max(checked.high, inScene(box.max));
        }
        for (int axis = 0; axis < 3; ++axis) {
            EXPECT_GE(drawn.low[axis], checked.low[axis] - tolerance) << body.name << " axis " << axis;
            EXPECT_LE(drawn.high[axis], checked.high[axis] + tolerance) << body.name << " axis " << axis;
        }
        seen.insert(body.kind);
    }
    EXPECT_EQ(seen.size(), 16u) << "a kind of body is missing from the set-up of this test";
}

// And fills them: what is checked is seen. Chucks, discs, blocks, rods and boxes reach as far as their bodies.
TEST(BodyShape, ReachesAsFarAsWhatIsChecked) {
    firstoff::Setup setup = withTurret(everythingFitted());
    const firstoff::MachineBodies machine = machineBodies(setup);
    for (const BodyKind kind :
         {BodyKind::ChuckBody, BodyKind::Jaws, BodyKind::Centre, BodyKind::Quill, BodyKind::TailstockCasting,
          BodyKind::SecondChuckBody, BodyKind::SecondJaws, BodyKind::SteadyRest, BodyKind::TurretHead,
          BodyKind::TurretDisc, BodyKind::Block, BodyKind::Guard, BodyKind::Door, BodyKind::Other}) {
        const auto body = std::find_if(machine.bodies.begin(), machine.bodies.end(),
                                       [&](const MachineBody& b) { return b.kind == kind; });
        ASSERT_NE(body, machine.bodies.end());
        const Reach drawn = reachOf(shapeOf(*body, setup, machine));
        SpaceBox box = boundingBox(body->pieces.front());
        Reach checked;
        for (const ConvexPiece& piece : body->pieces) {
            box = boundingBox(piece);
            checked.low = glm::min(checked.low, inScene(box.min));
            checked.high = glm::max(checked.high, inScene(box.max));
        }
        EXPECT_NEAR(drawn.low.x, checked.low.x, 0.35) << body->name;
        EXPECT_NEAR(drawn.high.x, checked.high.x, 0.35) << body->name;
        // Three jaws do not fill the circle that they sweep, but one of them points to the turret.
        EXPECT_NEAR(drawn.high.y, checked.high.y, kind == BodyKind::Jaws || kind == BodyKind::SecondJaws ? 3.0 : 0.3)
            << body->name;
    }
}

TEST(BodyShape, TailstockComesToItsPoint) {
    const firstoff::Setup setup = everythingFitted();
    const firstoff::MachineBodies machine = machineBodies(setup);
    const auto centre = std::find_if(machine.bodies.begin(), machine.bodies.end(),
                                     [](const MachineBody& b) { return b.kind == BodyKind::Centre; });
    ASSERT_NE(centre, machine.bodies.end());
    for (const Vertex& v : shapeOf(*centre, setup, machine).vertices) {
        // 60° of point: as far from the axis as tan 30° of the way from the tip, up to the radius of the shank.
        if (v.place.x > 20) continue;
        EXPECT_LE(radiusOf(v), v.place.x * std::tan(radians(30)) + kSingle) << v.place.x;
    }
}

struct ToolRow {
    const char* name;
    Tool tool;
};
std::vector<ToolRow> tools() {
    firstoff::Setup setup = shop::barStock(50, 60);
    std::vector<ToolRow> rows;
    rows.push_back({"80° outside", shop::addTurningTool(setup, 1, 'C', 0.8)});
    rows.push_back({"35° outside", shop::addTurningTool(setup, 2, 'V', 0.4, 93)});
    rows.push_back({"trigon", shop::addTurningTool(setup, 3, 'W', 0.8)});
    rows.push_back({"round", shop::addTurningTool(setup, 4, 'R', 6, 90)});
    rows.push_back({"boring bar", shop::addBoringBar(setup, 5, 'C', 0.4)});
    rows.push_back({"groove", shop::addGroovingTool(setup, 6, 3, 0.2)});
    rows.push_back({"parting", shop::addPartingTool(setup, 7, 3, 0.2)});
    rows.push_back({"outside thread", shop::addThreadingTool(setup, 8)});
    rows.push_back({"inside thread", shop::addInsideThreadingTool(setup, 9)});
    return rows;
}

TEST(ToolShape, ShowsTheRealOutlineOfTheInsert) {
    for (const ToolRow& row : tools()) {
        const ToolShape shape = shapeOf(row.tool);
        EXPECT_TRUE(watertight(shape.edge)) << row.name;
        const Box cutting = boundingBox(row.tool.cutting);
        const Reach reach = reachOf(shape.edge);
        // 0.011 mm: chords of the nose, and single precision.
        EXPECT_NEAR(reach.low.x, cutting.zMin, 0.011) << row.name;
        EXPECT_NEAR(reach.low.y, cutting.rMin, 0.011) << row.name;
        EXPECT_NEAR(reach.high.x, cutting.zMax, 0.011) << row.name;
        // Of a blade only the front is insert.
        const bool blade = row.tool.kind == ToolKind::Grooving || row.tool.kind == ToolKind::Parting;
        EXPECT_LE(reach.high.y, cutting.rMax + 0.011) << row.name;
        EXPECT_GE(reach.high.y, blade ? 2.0 : cutting.rMax - 0.011) << row.name;
    }
}

// Turned over its profile, so that the volumes of its cones and cylinders are known; 40 sectors are 0.41 % short of
// them (the area of a regular polygon of 40 corners over that of its circle).
TEST(ToolShape, DrillsInStepsAndReamersAreTurnedBodies) {
    Tool drill;
    drill.kind = ToolKind::StepDrill;
    drill.diameter = 6;
    drill.pointAngle = radians(90);
    drill.fluteLength = 40;
    drill.drillSteps = {{10, 5, radians(90)}, {20, 7, kPi}};
    giveShape(drill);
    const ToolShape shape = shapeOf(drill);
    EXPECT_TRUE(watertight(shape.edge));
    const double cones = kPi * (9 * 3 / 3.0 + 2 * (9 + 15 + 25) / 3.0);
    const double whole = cones + kPi * (9 * 7 + 25 * 8 + 49 * 20);
    EXPECT_NEAR(volume(shape.edge) / whole, 20 / kPi * std::sin(kPi / 20), 1e-4);
    Tool reamer;
    reamer.kind = ToolKind::Reamer;
    reamer.diameter = 10;
    reamer.fluteLength = 30;
    reamer.chamferLength = 1;
    reamer.chamferAngle = radians(45);
    giveShape(reamer);
    EXPECT_TRUE(watertight(shapeOf(reamer).edge));
    EXPECT_GT(volume(shapeOf(reamer).edge), 2000);
}

// Laid over, a blade for face grooves reaches where its outline does, and its holder lies along the axis.
TEST(ToolShape, ABladeForFaceGroovesStandsAlongZ) {
    for (const int tip : {7, 3, 2, 5}) {
        firstoff::Setup setup = shop::barStock(50, 60);
        Tool& tool = shop::addGroovingTool(setup, 6, 3, 0.2);
        tool.face = true;
        tool.tipNumber = tip;
        giveShape(tool);
        const ToolShape shape = shapeOf(tool);
        EXPECT_TRUE(watertight(shape.edge)) << tip;
        const Box cutting = boundingBox(tool.cutting);
        const Reach reach = reachOf(shape.edge);
        EXPECT_NEAR(tip == 5 ? reach.high.x : reach.low.x, 0, 0.011) << tip;
        EXPECT_NEAR(reach.low.y, cutting.rMin, 0.011) << tip;
        EXPECT_NEAR(reach.high.y, cutting.rMax, 0.011) << tip;
        const Box holder = boundingBox(tool.holder);
        EXPECT_GT(holder.zMax - holder.zMin, 15) << tip;
    }
}

TEST(ToolShape, ATapIsAsLongAndAsThickAsTheSetUpSays) {
    firstoff::Setup setup = shop::barStock(50, 60);
    const Tool& tap = shop::addTap(setup, 1, 12, 1.75);
    const Reach reach = reachOf(shapeOf(tap).edge);
    EXPECT_NEAR(reach.low.x, 0, kSingle);
    EXPECT_NEAR(reach.high.x, tap.fluteLength, kSingle);
    EXPECT_NEAR(reach.low.y, -6, kSingle);
    EXPECT_NEAR(reach.high.z, 6, kSingle);
}

TEST(ToolShape, TurnsTheRakeFaceAgainstTheMetal) {
    firstoff::Setup setup = shop::barStock(50, 60);
    Tool tool = shop::addTurningTool(setup, 1, 'C', 0.8);
    tool.centreHeight = 0.5;
    // Forward, the metal next to a rear tool comes up from behind the turning plane: the insert stands before the
    // plane.
    tool.needs = SpindleDirection::Forward;
    EXPECT_GT(reachOf(shapeOf(tool).edge).high.z, 1);
    tool.needs = SpindleDirection::Reverse;
    EXPECT_LT(reachOf(shapeOf(tool).edge).low.z, -1);
}

TEST(ToolShape, DrillComesToItsPointAtTheTip) {
    firstoff::Setup setup = shop::barStock(50, 60);
    const Tool drill = shop::addDrill(setup, 1, 12);
    const ToolShape shape = shapeOf(drill);
    const double perRadius = 1 / std::tan(radians(118) / 2);
    float widest = 0;
    for (const Vertex& v : shape.edge.vertices) {
        widest = std::max(widest, radiusOf(v));
        EXPECT_GE(v.place.x, radiusOf(v) * perRadius - kSingle);  // behind the cone of the point
    }
    EXPECT_NEAR(widest, 6, kSingle);
    EXPECT_NEAR(reachOf(shape.edge).low.x, 0, kSingle);
}

TEST(TurretShape, HoldsTheToolInWorkingPositionAtItsTip) {
    firstoff::Setup setup = shop::barStock(50, 60);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addDrill(setup, 4, 12);
    setup = withTurret(setup);
    const firstoff::MachineBodies machine = machineBodies(setup);
    for (const MachineBody& body : machine.bodies) {
        if (body.kind != BodyKind::Edge) continue;
        const Tool& tool = setup.tools[static_cast<std::size_t>(body.toolIndex)];
        TriangleMesh edge = shapeOf(body, setup, machine);
        const glm::vec3 axis(0, machine.turretAxisR, 0);
        glm::mat4 turned = glm::translate(glm::mat4(1), axis);
        turned = glm::rotate(turned, static_cast<float>(machine.turnOf(tool.station)), {1, 0, 0});
        edge.transform(glm::translate(turned, -axis));
        EXPECT_NEAR(reachOf(edge).low.x, tool.tip.z, 0.011) << tool.station;        // chords of the nose
        const double below = tool.kind == ToolKind::Drill ? tool.diameter / 2 : 0;  // a drill's point is its middle
        EXPECT_NEAR(reachOf(edge).low.y, tool.tip.r - below, 0.011) << tool.station;
    }
}

// The picture turns the disc as the check does: by one part of the circle from a station to the next, the same way.
TEST(TurretShape, TurnsAsTheBodiesDo) {
    for (const int stations : {8, 10, 12, 16}) {
        auto trial = std::make_shared<Trial>();
        trial->setup = everythingFitted();
        trial->setup.machine.stations = stations;
        MachinePicture picture;
        picture.setup = trial->setup;
        picture.machine = machineBodies(trial->setup);
        picture.turretAxisR = static_cast<float>(picture.machine.turretAxisR);
        for (int station = 1; station <= stations; ++station) {
            SceneInstant instant;
            instant.turretReference = {100, 40};
            instant.discAt = station;
            const glm::mat4 model = picture.placed(instant, Carrier::Turret, false);
            const SpacePoint corner{-20, -60, 7};
            const SpacePoint turned = turnedAbout(picture.machine.turretAxisR, picture.machine.turnOf(station), corner);
            const glm::vec3 seen(model * glm::vec4(inScene(corner), 1));
            EXPECT_NEAR(seen.x, turned.z + 100, 1e-3) << station;
            EXPECT_NEAR(seen.y, turned.r + 40, 1e-3) << station;
            EXPECT_NEAR(seen.z, turned.y, 1e-3) << station;
        }
    }
}

}  // namespace
}  // namespace firstoff::gui
