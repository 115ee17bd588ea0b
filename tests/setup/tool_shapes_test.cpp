// Shapes of tools from their keys: areas by elementary geometry against a polygon library (GEOS), sizes by standards,
// and whatever the keys allow: closed, convex, anticlockwise.
#include <fmt/format.h>
#include <geos_c.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "sim/base/units.h"
#include "sim/setup/insert_shapes.h"
#include "sim/setup/setup_keys.h"
#include "sim/setup/thread_profile.h"
#include "tests/support/reference_rows.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

// One [[tool]] read with nothing else around it; findings of the other tables are left out.
struct ReadTool {
    Tool tool;
    std::vector<Finding> findings;
};

ReadTool readTool(const std::string& kind, const std::string& keys) {
    const std::string head =
        "[[tool]]\nstation = 1\nneeds = \"M03\"\ntip_x_mm = 0\ntip_z_mm = 0\noverhang_mm = 80\nkind = \"";
    const auto setup = readSetup(head + kind + "\"\n" + keys, "");
    ReadTool result;
    if (!setup.tools.empty()) result.tool = setup.tools.front();
    for (const Finding& f : setup.findings) {
        if (f.code != "setup-missing-table" && f.code != "setup-station") result.findings.push_back(f);
    }
    return result;
}

std::vector<Outline> partsOf(const Tool& tool) {
    std::vector<Outline> parts{tool.cutting};
    parts.insert(parts.end(), tool.steps.begin(), tool.steps.end());
    return parts;
}

// Area of what the outlines cover together, by GEOS; below zero where one of them is no valid polygon.
double coveredArea(const std::vector<Outline>& outlines) {
    constexpr double kChordMm = 1e-6;
    GEOSContextHandle_t geos = GEOS_init_r();
    GEOSGeometry* all = GEOSGeom_createEmptyPolygon_r(geos);
    bool valid = true;
    for (const Outline& outline : outlines) {
        const std::vector<Point> points = polyline(outline, kChordMm);
        const auto n = static_cast<unsigned>(points.size());
        GEOSCoordSequence* ring = GEOSCoordSeq_create_r(geos, n + 1, 2);
        for (unsigned i = 0; i <= n; ++i) GEOSCoordSeq_setXY_r(geos, ring, i, points[i % n].z, points[i % n].r);
        GEOSGeometry* polygon = GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, ring), nullptr, 0);
        valid = valid && GEOSisValid_r(geos, polygon) == 1;
        GEOSGeometry* both = GEOSUnion_r(geos, all, polygon);
        GEOSGeom_destroy_r(geos, polygon);
        GEOSGeom_destroy_r(geos, all);
        all = both;
    }
    double area = -1;
    if (valid && all != nullptr) GEOSArea_r(geos, all, &area);
    GEOSGeom_destroy_r(geos, all);
    GEOS_finish_r(geos);
    return area;
}

// What rounding a corner of the interior angle a takes off: r² (1/tan(a/2) - (pi - a)/2), elementary geometry.
double roundedOff(double angle, double r) {
    return r * r * (1 / std::tan(angle / 2) - (kPi - angle) / 2);
}
double deg(double angle) {
    return radians(angle);
}

struct AreaRow {
    const char* name;
    const char* kind;
    const char* keys;
    double area;
};

class Areas : public testing::TestWithParam<AreaRow> {};

// 1e-4 mm²: chords within 1e-6 mm of arcs a few mm long.
TEST_P(Areas, AreThoseOfTheirElementaryShapes) {
    const ReadTool read = readTool(GetParam().kind, GetParam().keys);
    EXPECT_TRUE(read.findings.empty()) << read.findings.front().message;
    EXPECT_NEAR(coveredArea(partsOf(read.tool)), GetParam().area, 1e-4);
}

#define INSERT(letter, kappa)                                                                                         \
    "shank_mm = 20\ninsert = \"" letter "\"\nedge_length_mm = 10\nnose_radius_mm = 0.8\nentering_angle_deg = " #kappa \
    "\n"
const double kRhombus80 = 100 * std::sin(deg(80)) - 2 * roundedOff(deg(80), 0.8) - 2 * roundedOff(deg(100), 0.8);
// A regular polygon of n corners: n e² / (4 tan(pi / n)).
double regular(int n, double angle) {
    return n * 100 / (4 * std::tan(kPi / n)) - n * roundedOff(deg(angle), 0.8);
}
// A trigon is a triangle on the corners of 80° and three flat ones on its sides; each of these has two edges of 10 and
// an angle of 160° between them.
const double kLongSide = 20 * std::sin(deg(80));
const double kTrigon = std::sqrt(3) / 4 * kLongSide * kLongSide + 3 * 50 * std::sin(deg(160)) -
                       3 * roundedOff(deg(80), 0.8) - 3 * roundedOff(deg(160), 0.8);
const char* const kBlade = "shank_mm = 20\nwidth_mm = 3\ncutting_depth_mm = 12\n";
const std::string kBladeCorners = std::string(kBlade) + "corner_radius_mm = 0.4\n";
const std::string kBladeTwoCorners = kBladeCorners + "second_corner_radius_mm = 0.2\n";
const std::string kBladeFull = std::string(kBlade) + "corner_radius_mm = 1.5\n";
const std::string kBladeFace = kBladeTwoCorners + "face_groove = true\ntip_number = 2\n";
const std::string kBladeLead = std::string(kBlade) + "front_angle_deg = 10\n";
const std::string kBladeTurned = kBladeCorners + "mounted_angle_deg = 2\n";
const double kCorner = 1 - kPi / 4;
const double kH = std::sqrt(3) / 2;  // of the 60° triangle, over the pitch

INSTANTIATE_TEST_SUITE_P(
    Shapes, Areas,
    testing::Values(
        AreaRow{"C", "turning", INSERT("C", 95), kRhombus80},
        AreaRow{"C_boring", "boring", INSERT("C", 95), kRhombus80},
        AreaRow{"S", "turning", INSERT("S", 75), 100 - 4 * roundedOff(deg(90), 0.8)},
        AreaRow{"T", "turning", INSERT("T", 91), std::sqrt(3) / 4 * 100 - 3 * roundedOff(deg(60), 0.8)},
        AreaRow{"V", "turning", INSERT("V", 93),
                100 * std::sin(deg(35)) - 2 * roundedOff(deg(35), 0.8) - 2 * roundedOff(deg(145), 0.8)},
        AreaRow{"W", "turning", INSERT("W", 95), kTrigon}, AreaRow{"P", "turning", INSERT("P", 60), regular(5, 108)},
        AreaRow{"H", "turning", INSERT("H", 45), regular(6, 120)},
        AreaRow{"O", "turning", INSERT("O", 43), regular(8, 135)},
        AreaRow{"L", "turning", INSERT("L", 90) "edge_width_mm = 6\n", 60 - 4 * roundedOff(deg(90), 0.8)},
        AreaRow{"K", "turning", INSERT("K", 93) "edge_width_mm = 7\n",
                70 * std::sin(deg(55)) - 2 * roundedOff(deg(55), 0.8) - 2 * roundedOff(deg(125), 0.8)},
        AreaRow{"R", "turning", "shank_mm = 20\ninsert = \"R\"\nedge_length_mm = 10\n", 25 * kPi},
        AreaRow{"blade", "grooving", kBlade, 36},
        AreaRow{"corners", "grooving", kBladeCorners.c_str(), 36 - 2 * kCorner * 0.16},
        AreaRow{"two_corners", "grooving", kBladeTwoCorners.c_str(), 36 - kCorner*(0.16 + 0.04)},
        AreaRow{"full_radius", "grooving", kBladeFull.c_str(), 36 - 2 * kCorner * 2.25},
        AreaRow{"face", "grooving", kBladeFace.c_str(), 36 - kCorner*(0.16 + 0.04)},
        AreaRow{"turned", "grooving", kBladeTurned.c_str(), 36 - 2 * kCorner * 0.16},
        AreaRow{"parting_lead", "parting", kBladeLead.c_str(), 36 - 4.5 * std::tan(deg(10))},
        // A cone of R / tan 59°, and the rest of 40 mm.
        AreaRow{"drill", "drill", "diameter_mm = 10\nflute_length_mm = 40\n",
                5 * (5 / std::tan(deg(59))) + 10 * (40 - 5 / std::tan(deg(59)))},
        AreaRow{"step_drill", "step-drill",
                "diameter_mm = 6\nflute_length_mm = 40\nstep_diameters_mm = [10, 14]\nstep_lengths_mm = [12, 20]\n"
                "step_angles_deg = [90, 180]\n",
                3 * (3 / std::tan(deg(59))) + 6 * (12 - 3 / std::tan(deg(59))) + 2 * (6 + 10) / 2 + 10 * 6 + 14 * 20},
        AreaRow{"reamer", "reamer",
                "diameter_mm = 10\nflute_length_mm = 30\nchamfer_length_mm = 1\nchamfer_angle_deg = 45\n",
                (8 + 10) / 2.0 + 10 * 29},
        // ISO 866 A 2.5 (from memory): pilot 3.1 long, body 6.3, cone 60°.
        AreaRow{"centre_drill", "centre-drill", "pilot_diameter_mm = 2.5\n",
                1.25 * 1.25 / std::tan(deg(59)) + 2.5 * (3.1 - 1.25 / std::tan(deg(59))) +
                    (2.5 + 6.3) / 2 * 1.9 / std::tan(deg(30)) + 6.3 * 3.15},
        // The V of a full ISO profile, 17/24 H deep on a root of H/6, less what its root takes off the point of 60°,
        // and half a pitch of body 9/8 P wide.
        AreaRow{"full_metric", "threading", "shank_mm = 20\npitch_mm = 2\nprofile = \"full\"\n",
                4 * (std::tan(deg(30)) * std::pow(21.0 / 24 * kH, 2) - roundedOff(deg(60), kH / 6) + 9.0 / 16)}),
    [](const auto& row) { return std::string(row.param.name); });

// --- Threads ------------------------------------------------------------------------------------------------------

// h3 and H1 of tests/reference/threads.csv, which names its sources; they are printed to 0.1 µm.
TEST(ThreadBasics, AgreeWithTheTableOfMetricThreads) {
    int checked = 0;
    for (const shop::ReferenceRow& row : shop::referenceRows("threads.csv")) {
        if (row.text("kind") != "basic") continue;
        const double pitch = *row.number("pitch_mm");
        const auto outside = threadBasics(radians(60), pitch, false), inside = threadBasics(radians(60), pitch, true);
        ASSERT_TRUE(outside && inside);
        EXPECT_NEAR(outside->depth, *row.number("h3_ext_depth_mm"), 0.00006) << row.text("designation");
        EXPECT_NEAR(inside->depth, *row.number("H1_int_depth_mm"), 0.00006) << row.text("designation");
        // ISO 68-1: what stays between the grooves is P/8 at the crest outside, P/4 inside.
        EXPECT_NEAR(outside->crestFlat, pitch / 8, 1e-12);
        EXPECT_NEAR(inside->crestFlat, pitch / 4, 1e-12);
        ++checked;
    }
    EXPECT_GT(checked, 20);
}

// The form is symmetrical: root and crest of a trapezoidal thread are 0.366 P wide on the mean of depth (ISO 2904, from
// memory: crest 0.366 P).
TEST(ThreadBasics, TrapezoidalCrestsAreThoseOfTheStandard) {
    for (double pitch : {1.5, 3.0, 5.0, 6.0, 12.0, 14.0}) {
        EXPECT_NEAR(threadBasics(radians(30), pitch, false)->crestFlat, 0.366 * pitch, 2e-3 * pitch) << pitch;
    }
    EXPECT_FALSE(threadBasics(radians(40), 2, false));
}

TEST(ThreadShapes, PitchGivesNoseAndHeight) {
    const ReadTool outside = readTool("threading", "shank_mm = 20\npitch_mm = 1.5\n");
    EXPECT_TRUE(outside.findings.empty());
    EXPECT_NEAR(outside.tool.noseRadius, 0.14434 * 1.5, 1e-5);
    EXPECT_GT(outside.tool.cuttingDepth, 0.61343 * 1.5);
    const ReadTool inside = readTool("threading", "shank_mm = 8\npitch_mm = 1.5\ninside = true\nprofile = \"full\"\n");
    EXPECT_TRUE(inside.findings.empty());
    EXPECT_NEAR(inside.tool.width, 1.5 / 8, 1e-12);
    EXPECT_NEAR(inside.tool.cuttingDepth, 0.54127 * 1.5, 1e-5);
    ASSERT_EQ(inside.tool.steps.size(), 1u);
    EXPECT_NEAR(boundingBox(inside.tool.steps[0]).rMax, -inside.tool.cuttingDepth, 1e-12);
    const ReadTool said =
        readTool("threading", "shank_mm = 20\npitch_mm = 1.5\nnose_radius_mm = 0.1\ncutting_depth_mm = 2\n");
    EXPECT_EQ(said.tool.noseRadius, 0.1);
    EXPECT_EQ(said.tool.cuttingDepth, 2);
    EXPECT_FALSE(readTool("threading", "shank_mm = 20\n").findings.empty()) << "no height";
}

// Turned in the cutting plane by 2°, the flanks stand at 28° and 32°, and the point still counts.
TEST(ThreadShapes, CanBeMountedAtAWrongAngle) {
    const Tool tool = readTool("threading", "shank_mm = 20\npitch_mm = 2\nmounted_angle_deg = 2\n").tool;
    EXPECT_NEAR(boundingBox(tool.cutting).rMin, 0, 1e-12);
    std::vector<double> leans;
    for (const OutlineElement& e : tool.cutting.elements) {
        const Point way = e.to - e.from;
        if (e.radius == 0 && e.cutting) leans.push_back(degrees(std::atan2(std::abs(way.z), std::abs(way.r))));
    }
    ASSERT_EQ(leans.size(), 2u);
    EXPECT_NEAR(leans[0] + leans[1], 60, 1e-9);
    EXPECT_NEAR(std::abs(leans[0] - leans[1]), 4, 1e-9);
}

// --- Blades -------------------------------------------------------------------------------------------------------

struct BladeRow {
    const char* name;
    const char* keys;
    Box box;  // of the cutting part
};

class Blades : public testing::TestWithParam<BladeRow> {};

TEST_P(Blades, StandWhereTheirTipSays) {
    const ReadTool read =
        readTool("grooving", std::string("shank_mm = 20\nwidth_mm = 3\ncutting_depth_mm = 12\n") + GetParam().keys);
    EXPECT_TRUE(read.findings.empty()) << read.findings.front().message;
    const Box box = boundingBox(read.tool.cutting);
    EXPECT_NEAR(box.zMin, GetParam().box.zMin, 1e-12);
    EXPECT_NEAR(box.zMax, GetParam().box.zMax, 1e-12);
    EXPECT_NEAR(box.rMin, GetParam().box.rMin, 1e-12);
    EXPECT_NEAR(box.rMax, GetParam().box.rMax, 1e-12);
}

INSTANTIATE_TEST_SUITE_P(
    Tips, Blades,
    testing::Values(BladeRow{"tip3", "", {0, 3, 0, 12}}, BladeRow{"tip4", "tip_number = 4\n", {-3, 0, 0, 12}},
                    BladeRow{"tip8", "tip_number = 8\n", {-1.5, 1.5, 0, 12}},
                    BladeRow{"tip2", "tip_number = 2\n", {0, 3, -12, 0}},
                    BladeRow{"tip1", "tip_number = 1\n", {-3, 0, -12, 0}},
                    BladeRow{"tip6", "tip_number = 6\n", {-1.5, 1.5, -12, 0}},
                    BladeRow{"face7", "tip_number = 7\n", {0, 12, -1.5, 1.5}},
                    BladeRow{"face5", "tip_number = 5\n", {-12, 0, -1.5, 1.5}},
                    BladeRow{"face3", "face_groove = true\n", {0, 12, 0, 3}},
                    BladeRow{"face2", "face_groove = true\ntip_number = 2\n", {0, 12, -3, 0}},
                    BladeRow{"face4", "face_groove = true\ntip_number = 4\n", {-12, 0, 0, 3}},
                    // A rounded corner of 82° ends that much above the sharp one.
                    BladeRow{"lead",
                             "front_angle_deg = 8\ncorner_radius_mm = 0.3\n",
                             {0, 3, 0, 12 - 0.3 * (std::tan(radians(8)) + 1 / std::cos(radians(8)) - 1)}}),
    [](const auto& row) { return std::string(row.param.name); });

// The corner that leads is the lower one; the pip stays on the other side.
TEST(Blades, LeadOnTheSideThatIsAskedFor) {
    for (const bool piece : {true, false}) {
        const Tool tool = readTool("parting", std::string("shank_mm = 20\nwidth_mm = 3\ncutting_depth_mm = 20\n"
                                                          "front_angle_deg = 10\nleading_corner = \"") +
                                                  (piece ? "piece" : "bar") + "\"\n")
                              .tool;
        for (const OutlineElement& e : tool.cutting.elements) {
            const Point way = e.to - e.from;
            if (std::abs(way.z) < 2 || e.from.r > 5) continue;
            EXPECT_NEAR(degrees(std::atan2(way.r, way.z)), piece ? -10 : 10, 1e-9);
        }
    }
}

TEST(Blades, CornersBelongToTheSideTheyAreSaidFor) {
    const char* const keys =
        "shank_mm = 20\nwidth_mm = 3\ncutting_depth_mm = 12\ncorner_radius_mm = 0.2\n"
        "second_corner_radius_mm = 0.8\n";
    for (const char* tip : {"", "tip_number = 4\n", "tip_number = 8\n", "tip_number = 2\n"}) {
        const Tool tool = readTool("grooving", std::string(keys) + tip).tool;
        const Box box = boundingBox(tool.cutting);
        for (const OutlineElement& e : tool.cutting.elements) {
            if (e.radius == 0) continue;
            const bool towardsChuck = e.centre.z < (box.zMin + box.zMax) / 2;
            EXPECT_EQ(e.radius, towardsChuck ? 0.2 : 0.8) << tip;
        }
        EXPECT_EQ(tool.noseRadius, tool.tipNumber == 4 ? 0.8 : 0.2) << "the gauged corner";
    }
}

// --- Inserts ------------------------------------------------------------------------------------------------------

// kappa is the angle between the cutting edge and the feed along Z, ISO 3002-1; the edge behind the nose follows from
// the shape's own angle.
TEST(Inserts, StandAtTheirEnteringAngle) {
    for (const InsertShape& shape : insertShapes()) {
        if (shape.letter == 'R') continue;
        const double kappa = std::min(95.0, 175 - shape.angleDeg);
        const Tool tool =
            readTool("turning", std::string("shank_mm = 20\ninsert = \"") + shape.letter +
                                    "\"\nedge_length_mm = 10\nnose_radius_mm = 0.4\nentering_angle_deg = " +
                                    std::to_string(kappa) + "\n")
                .tool;
        double leading = 0, trailing = 0;
        for (const OutlineElement& e : tool.cutting.elements) {
            if (e.radius > 0 || !e.cutting) continue;
            const Point way = e.to - e.from;
            const double angle = degrees(std::atan2(way.r, way.z));
            (way.r < 0 ? leading : trailing) = angle;
        }
        EXPECT_NEAR(-leading, kappa, 1e-4) << shape.letter;
        EXPECT_NEAR(trailing, 180 - kappa - shape.angleDeg, 1e-4) << shape.letter;
    }
}

// A wiper carries the nose on: straight along Z and along X from where it would bend away, for as long as it says.
TEST(Inserts, WiperFlatsTouchTheLinesThroughTheTip) {
    for (const char* tip : {"3", "4", "2", "1"}) {
        const bool bore = tip[0] == '2' || tip[0] == '1';
        const ReadTool read = readTool(bore ? "boring" : "turning",
                                       std::string("shank_mm = 20\ninsert = \"CNMG120408\"\nentering_angle_deg = 95\n"
                                                   "wiper_flat_mm = 0.5\ntip_number = ") +
                                           tip + "\n");
        EXPECT_TRUE(read.findings.empty());
        int alongZ = 0, alongX = 0;
        for (const OutlineElement& e : read.tool.cutting.elements) {
            const Point way = e.to - e.from;
            if (e.radius > 0 || !e.cutting) continue;
            if (std::abs(way.r) < 1e-9 && std::abs(e.from.r) < 1e-9) {
                ++alongZ;
                EXPECT_NEAR(std::abs(way.z), 0.5, 1e-9);
            }
            if (std::abs(way.z) < 1e-9 && std::abs(e.from.z) < 1e-9) {
                ++alongX;
                EXPECT_NEAR(std::abs(way.r), 0.5, 1e-9);
            }
        }
        EXPECT_EQ(alongZ, 1) << tip;
        EXPECT_EQ(alongX, 1) << tip;
    }
    EXPECT_EQ(
        readTool("turning", "shank_mm = 20\ninsert = \"CNMG120408\"\nentering_angle_deg = 95\nwiper_flat_mm = 9\n")
            .findings.at(0)
            .code,
        "setup-wiper-does-not-fit");
}

TEST(Inserts, TheDesignationTellsFlankAndThickness) {
    for (const shop::ReferenceRow& row : shop::referenceRows("inserts_iso1832.csv")) {
        if (row.text("kind") == "clearance") {
            const auto read = readInsertDesignation("C" + row.text("code") + "MT09T304");
            EXPECT_EQ(*read->clearanceDeg, *row.number("value_1")) << row.text("code");
        }
        if (row.text("kind") == "thickness") {
            const auto read = readInsertDesignation("CCMT09" + row.text("code") + "04");
            EXPECT_EQ(read->thicknessMm, *row.number("value_1")) << row.text("code");
        }
    }
}

// --- On the axis --------------------------------------------------------------------------------------------------

// Only lips and chamfers cut; a margin guides.
TEST(AxialTools, CutWithTheirFrontsOnly) {
    const char* const kinds[][2] = {
        {"drill", "diameter_mm = 10\nflute_length_mm = 40\n"},
        {"reamer", "diameter_mm = 10\nflute_length_mm = 40\n"},
        {"centre-drill", "pilot_diameter_mm = 2\ncentre_form = \"B\"\n"},
        {"step-drill", "diameter_mm = 6\nflute_length_mm = 40\nstep_diameters_mm = [10]\nstep_lengths_mm = [12]\n"}};
    for (const auto& [kind, keys] : kinds) {
        const ReadTool read = readTool(kind, keys);
        EXPECT_TRUE(read.findings.empty()) << kind << read.findings.front().message;
        for (const Outline& part : partsOf(read.tool)) {
            int cutting = 0;
            for (const OutlineElement& e : part.elements) {
                const Point way = e.to - e.from;
                const bool slants = std::abs(way.z) > 1e-9 && std::abs(way.r) > 1e-9;
                EXPECT_EQ(e.cutting, slants) << kind;
                cutting += e.cutting ? 1 : 0;
            }
            EXPECT_EQ(cutting, 2) << kind;
        }
    }
    EXPECT_EQ(readTool("centre-drill", "pilot_diameter_mm = 2\ncentre_form = \"B\"\n").tool.steps.size(), 2u);
}

TEST(AxialTools, SayWhatContradictsItself) {
    struct Row {
        const char *kind, *keys, *code;
    };
    const Row rows[] = {
        {"step-drill",
         "diameter_mm = 6\nflute_length_mm = 40\nstep_diameters_mm = [10, 9]\nstep_lengths_mm = [12, 20]\n",
         "setup-steps-contradict"},
        {"step-drill", "diameter_mm = 6\nflute_length_mm = 40\nstep_diameters_mm = [10]\nstep_lengths_mm = [12, 20]\n",
         "setup-steps-contradict"},
        {"step-drill", "diameter_mm = 6\nflute_length_mm = 13\nstep_diameters_mm = [10]\nstep_lengths_mm = [12]\n",
         "setup-drill-too-short"},
        {"centre-drill", "pilot_diameter_mm = 2.2\n", "setup-missing-key"},
        {"centre-drill", "pilot_diameter_mm = 2\nbody_diameter_mm = 1.5\n", "setup-steps-contradict"},
        {"reamer", "diameter_mm = 10\nflute_length_mm = 40\nchamfer_length_mm = 0.05\n", "setup-reamer-chamfer"}};
    for (const Row& row : rows) {
        const ReadTool read = readTool(row.kind, row.keys);
        ASSERT_FALSE(read.findings.empty()) << row.keys;
        EXPECT_EQ(read.findings[0].code, row.code) << row.keys;
    }
}

// --- Whatever the keys allow ----------------------------------------------------------------------------------------

// A fixed sequence of numbers, so that a find can be repeated.
class Dice {
public:
    explicit Dice(std::uint32_t seed) : state_(seed) {}
    double share() {
        state_ = state_ * 1664525u + 1013904223u;
        return (state_ >> 8) / 16777216.0;
    }
    int below(int n) { return static_cast<int>(share() * n); }
    // Small sizes as often as large ones.
    double within(double least, double most) {
        if (below(12) == 0) return below(2) == 0 ? least : most;
        if (least <= 0 || below(3) == 0) return least + share() * (most - least);
        return least * std::pow(most / least, share());
    }

private:
    std::uint32_t state_;
};

std::string number(double value) {
    return fmt::format("{:.9g}", value);
}

std::string someValue(const SetupKey& key, Dice& dice) {
    const double most = std::min(key.most, dice.below(4) == 0 ? key.most : 20.0);
    switch (key.form) {
        case SetupKey::Form::Whole:
            return std::to_string(dice.below(static_cast<int>(key.most)) + static_cast<int>(key.least));
        case SetupKey::Form::Flag:
            return dice.below(2) == 0 ? "true" : "false";
        case SetupKey::Form::Choice: {
            const std::size_t bar = key.choices.find('|');
            return fmt::format("\"{}\"", dice.below(2) == 0 ? key.choices.substr(0, bar) : key.choices.substr(bar + 1));
        }
        case SetupKey::Form::Text: {
            const auto shapes = insertShapes();
            const int shape = dice.below(static_cast<int>(shapes.size()));
            return fmt::format("\"{}\"", shapes[static_cast<std::size_t>(shape)].letter);
        }
        case SetupKey::Form::List: {
            std::string list = "[";
            double last = key.least;
            for (int i = 0; i < 2; ++i) {
                last = std::min(key.most, last + dice.within(std::max(key.least, 0.1), std::max(most, 1.0)));
                if (i > 0) list += ", ";
                list += number(last);
            }
            list += ']';
            return list;
        }
        default:
            return number(dice.within(key.least, std::max(most, key.least)));
    }
}

void expectSound(const Outline& outline, const std::string& keys) {
    const auto& e = outline.elements;
    double span = 0, twice = 0;
    for (const OutlineElement& element : e) {
        ASSERT_TRUE(std::isfinite(element.from.z + element.from.r + element.radius)) << keys;
        span = std::max({span, std::abs(element.from.z), std::abs(element.from.r)});
    }
    const double same = 1e-9 * (1 + span);
    std::vector<Point> ways;
    for (std::size_t i = 0; i < e.size(); ++i) {
        // Edges shorter than two places that are one are left out between their neighbours.
        EXPECT_LE(distance(e[i].to, e[(i + 1) % e.size()].from), 2e-7 + same) << keys;
        twice += cross(e[i].from, e[i].to);
        if (e[i].radius > 0) {
            EXPECT_NEAR(distance(e[i].from, e[i].centre), e[i].radius, same + 1e-9 * e[i].radius) << keys;
            EXPECT_NEAR(distance(e[i].to, e[i].centre), e[i].radius, same + 1e-9 * e[i].radius) << keys;
            // Anticlockwise and no more than half a turn.
            EXPECT_GE(cross(e[i].from - e[i].centre, e[i].to - e[i].centre), -same * e[i].radius) << keys;
            ways.push_back(leftOf(e[i].from - e[i].centre));
            ways.push_back(leftOf(e[i].to - e[i].centre));
        } else {
            ways.push_back(e[i].to - e[i].from);
        }
    }
    EXPECT_GT(twice, 0) << keys;
    double turn = 0;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        const Point a = ways[i], b = ways[(i + 1) % ways.size()];
        const double angle = std::atan2(cross(a, b), dot(a, b));
        EXPECT_GE(angle, -1e-6) << keys;
        turn += angle;
    }
    EXPECT_NEAR(turn, 2 * kPi, 1e-6) << keys;
}

TEST(ToolShapes, AreClosedConvexAndAnticlockwiseWhateverTheKeysAllow) {
    const char* const kinds[] = {"turning",   "boring", "grooving",     "parting",    "drill",
                                 "threading", "tap",    "centre-drill", "step-drill", "reamer"};
    Dice dice(20260101);
    int clean = 0;
    for (int i = 0; i < 6000; ++i) {
        const std::string kind = kinds[i % 10];
        std::string keys;
        for (const SetupKey& key : setupKeys()) {
            const bool fixed = key.key == "station" || key.key == "kind" || key.key == "name" || key.key == "needs" ||
                               key.key == "tip_x_mm" || key.key == "tip_z_mm" || key.key == "overhang_mm";
            // What holds it has tests of its own, and hardly ever agrees by chance.
            const bool held = key.key == "from" || key.key == "holder" || key.key.starts_with("block_") ||
                              key.key.starts_with("collet_chuck_") || key.key.starts_with("taylor_");
            const bool known = key.kinds.empty() || key.kinds.find(kindLetter("tool", kind)) != std::string_view::npos;
            if (key.table != "tool" || fixed || held || !known) continue;
            const bool needed = key.need == SetupKey::Need::Required || key.key == "shank_mm";
            if (!needed && dice.below(3) > 0) continue;
            keys += std::string(key.key) + " = " + someValue(key, dice) + "\n";
        }
        const ReadTool read = readTool(kind, keys);
        clean += read.findings.empty() ? 1 : 0;
        for (const Outline& part : partsOf(read.tool)) expectSound(part, kind + "\n" + keys);
        if (!read.tool.holder.empty()) expectSound(read.tool.holder, kind + "\n" + keys);
        if (HasFailure()) return;
    }
    EXPECT_GT(clean, 900);
}

}  // namespace
}  // namespace firstoff
