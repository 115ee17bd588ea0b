// What stands round the bar, as the set-up file says it: values, and every contradiction as one finding at its place.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "sim/base/units.h"
#include "sim/setup/setup.h"
#include "tests/setup/lathe_text.h"

namespace firstoff {
namespace {

using shop::kDisc;
using shop::latheText;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string kTailstock = R"([tailstock]
quill_diameter_mm = 70
quill_length_mm = 120
centre_diameter_mm = 28
centre_z_from_chuck_face_mm = 520
advanced = false
)";
const std::string kSecond = R"([second_spindle]
approach_z_from_chuck_face_mm = 141
parked_z_from_chuck_face_mm = 600
max_rev_per_min = 5000
[second_spindle.chuck]
body_diameter_mm = 110
body_length_mm = 80
jaw_length_mm = 25
jaw_outer_diameter_mm = 96
jaw = "soft"
grip_length_mm = 18
)";
const std::string kSteady = R"([steady_rest]
z_from_chuck_face_mm = 60
width_mm = 40
inner_diameter_mm = 160
outer_diameter_mm = 240
roller_diameter_mm = 30
bar_diameter_mm = 50
)";
const std::string kGuard = R"([[body]]
name = "left guard"
kind = "guard"
z_mm = [-60, -20]
x_mm = [300, 340]
y_mm = [-150, 150]
)";

firstoff::Setup read(const std::string& text) {
    return readSetup(text, "around.toml");
}

firstoff::Setup readGood(const std::string& text) {
    firstoff::Setup setup = read(text);
    for (const Finding& f : setup.findings) ADD_FAILURE() << f.code << " line " << f.span.line << ": " << f.message;
    return setup;
}

TEST(Surroundings, NothingIsInventedThatTheFileDoesNotSay) {
    const auto setup = readGood(latheText());
    EXPECT_FALSE(setup.turret);
    EXPECT_EQ(setup.toolBlock.width, 0);
    EXPECT_FALSE(setup.tailstock);
    EXPECT_FALSE(setup.secondSpindle);
    EXPECT_FALSE(setup.steadyRest);
    EXPECT_THAT(setup.extraBodies, IsEmpty());
    EXPECT_FALSE(setup.machine.rapidPathSaid);
    EXPECT_TRUE(setup.machine.rapidPerAxis);
    EXPECT_EQ(setup.chuck.kind, Chuck::Kind::Jaws);
    EXPECT_EQ(setup.chuck.grip, Chuck::Grip::Outside);
    EXPECT_EQ(setup.chuck.gripLength, 0);
    EXPECT_EQ(setup.nearMiss.rapidMm, 2);
    EXPECT_EQ(setup.nearMiss.feedMm, 0.5);
}

TEST(Surroundings, TheWayOfARapidIsSaidOrNot) {
    for (const char* way : {"per-axis", "straight"}) {
        const auto setup = readGood(latheText("", fmt::format("rapid = \"{}\"\n", way)));
        EXPECT_TRUE(setup.machine.rapidPathSaid);
        EXPECT_EQ(setup.machine.rapidPerAxis, way[0] == 'p');
    }
}

TEST(Surroundings, ADiscStandsAboutItsAxis) {
    const auto setup = readGood(latheText() + kDisc);
    ASSERT_TRUE(setup.turret);
    EXPECT_EQ(setup.turret->kind, Turret::Kind::Disc);
    EXPECT_EQ(setup.turret->indexWay, Turret::IndexWay::Rising);
    EXPECT_EQ(setup.turret->axisR, 192);
    EXPECT_EQ(setup.turret->headRadius, 120);
    EXPECT_EQ(setup.turret->headLength, 200);
    EXPECT_EQ(setup.toolBlock.z.min, -56);
    EXPECT_EQ(setup.toolBlock.z.max, 80);
    EXPECT_EQ(setup.toolBlock.width, 60);
    EXPECT_GT(setup.turret->span.line, 0u);
}

TEST(Surroundings, WhichWayADiscIndexesNeedNotBeSaid) {
    const auto setup = readGood(latheText() + "[turret]\nkind = \"disc\"\nface_z_mm = 5\naxis_x_mm = 384\n");
    EXPECT_EQ(setup.turret->indexWay, Turret::IndexWay::NotSaid);
    EXPECT_EQ(setup.turret->faceZ, 5);
    EXPECT_EQ(setup.turret->headRadius, 0);
}

TEST(Surroundings, AGangPlateNeedsNoDisc) {
    std::string text = latheText();
    text.erase(text.find("turret_diameter_mm"), std::string("turret_diameter_mm = 300\n").size());
    const auto setup = readGood(text +
                                "[turret]\nkind = \"gang\"\nface_z_mm = -2\nplate_x_mm = [80, 320]\n"
                                "plate_y_mm = [-60, 70]\n");
    EXPECT_EQ(setup.turret->kind, Turret::Kind::Gang);
    EXPECT_EQ(setup.turret->plateR.min, 40);
    EXPECT_EQ(setup.turret->plateR.max, 160);
    EXPECT_EQ(setup.turret->plateY.max, 70);
}

TEST(Surroundings, ChucksOfEveryKind) {
    for (const int jaws : {2, 3, 4, 6}) {
        EXPECT_EQ(readGood(latheText(fmt::format("jaws = {}\n", jaws))).chuck.jaws, jaws);
    }
    const auto soft = readGood(latheText("jaw = \"soft\"\ngrip_length_mm = 12\n"));
    EXPECT_EQ(soft.chuck.jaw, Chuck::Jaw::Soft);
    EXPECT_EQ(soft.chuck.gripLength, 12);
    const auto stepped =
        readGood(latheText("jaw = \"stepped\"\nstep_diameters_mm = [80, 120, 160]\n"
                           "step_lengths_mm = [30, 20, 12]\n"));
    ASSERT_EQ(stepped.chuck.steps.size(), 3u);
    EXPECT_EQ(stepped.chuck.steps[1].radius, 60);
    EXPECT_EQ(stepped.chuck.steps[1].length, 20);
    const auto collet = readGood(latheText("kind = \"collet\"\ngrip_length_mm = 60\n"));
    EXPECT_EQ(collet.chuck.kind, Chuck::Kind::Collet);
    EXPECT_EQ(collet.chuck.gripLength, 60);
}

TEST(Surroundings, JawsThatGripFromInside) {
    std::string text = latheText("grip = \"inside\"\n");
    text.replace(text.find("\"bar\""), 5, "\"tube\"\nbore_mm = 30");
    EXPECT_EQ(readGood(text).chuck.grip, Chuck::Grip::Inside);
}

TEST(Surroundings, ATailstockWithAllItHas) {
    const auto setup = readGood(latheText() + kTailstock +
                                "advanced_z_from_chuck_face_mm = 97\nparked_z_from_chuck_face_mm = 520\n"
                                "centre = \"live\"\ncentre_length_mm = 80\nhousing_diameter_mm = 60\n"
                                "housing_length_mm = 50\ncasting_diameter_mm = 160\ncasting_length_mm = 300\n");
    const Tailstock& t = *setup.tailstock;
    EXPECT_EQ(t.advancedZ, 97);
    EXPECT_EQ(t.parkedZ, 520);
    EXPECT_TRUE(t.live);
    EXPECT_EQ(t.centreLength, 80);
    EXPECT_EQ(t.housingRadius, 30);
    EXPECT_EQ(t.housingLength, 50);
    EXPECT_EQ(t.castingRadius, 80);
    EXPECT_EQ(t.castingLength, 300);
    EXPECT_FALSE(readGood(latheText() + kTailstock + "centre = \"dead\"\n").tailstock->live);
}

TEST(Surroundings, ASecondSpindleHasAChuckOfItsOwn) {
    const auto setup = readGood(latheText() + kSecond);
    const SecondSpindle& s = *setup.secondSpindle;
    EXPECT_EQ(s.approachZ, 141);
    EXPECT_EQ(s.parkedZ, 600);
    EXPECT_EQ(s.startZ, 600);
    EXPECT_EQ(s.maxRevPerMin, 5000);
    EXPECT_EQ(s.chuck.bodyRadius, 55);
    EXPECT_EQ(s.chuck.jaw, Chuck::Jaw::Soft);
    EXPECT_EQ(s.chuck.gripLength, 18);
    EXPECT_EQ(setup.chuck.jaw, Chuck::Jaw::Hard);
}

TEST(Surroundings, ASteadyRestWithItsOpening) {
    const auto setup = readGood(latheText() + kSteady + "rollers = 3\nopen_from_deg = -30\nopen_to_deg = 30\n");
    const SteadyRest& s = *setup.steadyRest;
    EXPECT_EQ(s.innerRadius, 80);
    EXPECT_EQ(s.outerRadius, 120);
    EXPECT_EQ(s.rollerRadius, 15);
    EXPECT_EQ(s.barRadius, 25);
    EXPECT_NEAR(s.openFrom, radians(330), 1e-12);
    EXPECT_NEAR(s.openTo, radians(30), 1e-12);
}

// X of a body is a diameter like every other X, Y and Z are not.
TEST(Surroundings, BodiesAreBoxesOrMeshes) {
    const auto setup = readGood(latheText() + kDisc + kGuard +
                                "[[body]]\nname = \"catcher\"\nfile = \"catcher.stl\"\nunit = \"inch\"\n"
                                "at_x_mm = -300\nat_z_mm = 40\nat_y_mm = 7\nturn_deg = 90\n"
                                "[[body]]\nname = \"hose\"\non = \"station\"\nstation = 5\nz_mm = [0, 5]\n"
                                "x_mm = [-8, 8]\ny_mm = [30, 40]\n");
    ASSERT_EQ(setup.extraBodies.size(), 3u);
    const ExtraBody& guard = setup.extraBodies[0];
    EXPECT_EQ(guard.kind, ExtraBody::Kind::Guard);
    EXPECT_EQ(guard.carrier, ExtraBody::Carrier::Bed);
    EXPECT_EQ(guard.r.min, 150);
    EXPECT_EQ(guard.r.max, 170);
    EXPECT_EQ(guard.y.min, -150);
    const ExtraBody& mesh = setup.extraBodies[1];
    EXPECT_EQ(mesh.file, "catcher.stl");
    EXPECT_EQ(mesh.unit, "inch");
    EXPECT_EQ(mesh.atR, -150);
    EXPECT_EQ(mesh.atZ, 40);
    EXPECT_NEAR(mesh.turnZ, kPi / 2, 1e-15);
    EXPECT_EQ(setup.extraBodies[2].carrier, ExtraBody::Carrier::Station);
    EXPECT_EQ(setup.extraBodies[2].station, 5);
}

TEST(Surroundings, NearMissesAndCodesThatMoveThings) {
    const auto setup = readGood(latheText() + kTailstock + kSecond +
                                "[near_miss]\nrapid_mm = 3\nfeed_mm = 0\n"
                                "[m_codes.M20]\nmeaning = \"tailstock\"\ndoes = \"tailstock-advance\"\n"
                                "[m_codes.M72]\nmeaning = \"grip\"\ndoes = \"second-spindle-grip\"\n"
                                "[m_codes.M10]\nmeaning = \"open\"\ndoes = \"chuck-open\"\n"
                                "[m_codes.M63]\nmeaning = \"catcher\"\n");
    EXPECT_EQ(setup.nearMiss.rapidMm, 3);
    EXPECT_EQ(setup.nearMiss.feedMm, 0);
    EXPECT_EQ(setup.machineCode(20)->action, MachineAction::TailstockAdvance);
    EXPECT_EQ(setup.machineCode(72)->action, MachineAction::SecondSpindleGrip);
    EXPECT_EQ(setup.machineCode(10)->action, MachineAction::ChuckOpen);
    EXPECT_EQ(setup.machineCode(63)->action, MachineAction::None);
}

struct Wrong {
    const char* name;
    std::string text;
    const char* code;
    const char* at;  // where in the text the finding points
    const char* says;
};

void PrintTo(const Wrong& wrong, std::ostream* out) {
    *out << wrong.name;
}

std::string textAt(const std::string& text, const SourceSpan& span) {
    std::size_t begin = 0;
    for (std::uint32_t line = 1; line < span.line; ++line) begin = text.find('\n', begin) + 1;
    return text.substr(begin + span.column - 1);
}

class EveryContradiction : public testing::TestWithParam<Wrong> {};

TEST_P(EveryContradiction, IsOneFindingAtItsPlace) {
    const Wrong& wrong = GetParam();
    const auto setup = read(wrong.text);
    ASSERT_EQ(setup.findings.size(), 1u) << (setup.findings.size() > 1 ? setup.findings[1].message : "none");
    const Finding& f = setup.findings[0];
    EXPECT_EQ(f.code, wrong.code);
    EXPECT_EQ(f.severity, Severity::Stop);
    EXPECT_EQ(textAt(wrong.text, f.span).substr(0, std::string(wrong.at).size()), wrong.at) << f.message;
    EXPECT_THAT(f.message, HasSubstr(wrong.says));
    EXPECT_FALSE(f.remedy.empty());
    EXPECT_NE(verdictOf(setup.findings), Verdict::Clear);
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    return at == std::string::npos ? "" : text.replace(at, from.size(), to);
}

std::string withoutDiameter() {
    return changed(latheText(), "turret_diameter_mm = 300\n", "");
}

INSTANTIATE_TEST_SUITE_P(
    Around, EveryContradiction,
    testing::Values(
        Wrong{"no disc diameter", withoutDiameter(), "setup-missing-key", "[machine]", "turret_diameter_mm"},
        Wrong{"axis inside the disc", latheText() + changed(kDisc, "384", "192"), "setup-turret", "192",
              "96 mm from the turret reference"},
        Wrong{"head without length", latheText() + changed(kDisc, "head_length_mm = 200\n", ""), "setup-turret", "240",
              "no length"},
        Wrong{"block without width", latheText() + changed(kDisc, "block_width_mm = 60\n", ""), "setup-block",
              "[-56, 80]", "no width"},
        Wrong{"disc without axis", latheText() + changed(kDisc, "axis_x_mm = 384\n", ""), "setup-missing-key",
              "[turret]", "axis_x_mm"},
        Wrong{"plate of a disc", latheText() + kDisc + "plate_x_mm = [1, 2]\n", "setup-key-of-another-kind",
              "plate_x_mm", "a turret of kind \"disc\""},
        Wrong{"jaws of a collet", latheText("kind = \"collet\"\njaws = 3\n"), "setup-key-of-another-kind", "jaws",
              "a chuck of kind \"collet\""},
        Wrong{"one jaw", latheText("jaws = 1\n"), "setup-out-of-range", "1\n", "between 2 and 8"},
        Wrong{"steps of hard jaws", latheText("step_diameters_mm = [160]\nstep_lengths_mm = [30]\n"), "setup-jaw-steps",
              "[160]", "not stepped"},
        Wrong{"stepped without steps", latheText("jaw = \"stepped\"\n"), "setup-missing-key", "\"stepped\"",
              "do not say their steps"},
        Wrong{"one length too few",
              latheText("jaw = \"stepped\"\nstep_diameters_mm = [80, 160]\nstep_lengths_mm = [30]\n"),
              "setup-jaw-steps", "[80, 160]", "2 diameters of steps and 1 lengths"},
        Wrong{"steps that do not fall",
              latheText("jaw = \"stepped\"\nstep_diameters_mm = [80, 160]\nstep_lengths_mm = [30, 30]\n"),
              "setup-jaw-steps", "[80, 160]", "no less than"},
        Wrong{"steps that do not rise",
              latheText("jaw = \"stepped\"\nstep_diameters_mm = [160, 160]\nstep_lengths_mm = [30, 10]\n"),
              "setup-jaw-steps", "[160, 160]", "does not lie outside"},
        Wrong{"first step against the jaw",
              latheText("jaw = \"stepped\"\nstep_diameters_mm = [80, 160]\nstep_lengths_mm = [25, 10]\n"),
              "setup-jaw-steps", "[80, 160]", "jaw_length_mm says 30"},
        Wrong{"last step against the jaw",
              latheText("jaw = \"stepped\"\nstep_diameters_mm = [80, 150]\nstep_lengths_mm = [30, 10]\n"),
              "setup-jaw-steps", "[80, 150]", "jaw_outer_diameter_mm says 160"},
        Wrong{"grip longer than the jaws", latheText("grip_length_mm = 31\n"), "setup-grip-length", "31",
              "cannot grip over 31"},
        Wrong{"inside grip of a bar", latheText("grip = \"inside\"\n"), "setup-grip", "\"inside\"", "no bore"},
        Wrong{"centre parked in front",
              latheText() + kTailstock + "advanced_z_from_chuck_face_mm = 521\nparked_z_from_chuck_face_mm = 520\n",
              "setup-tailstock-places", "521", "behind where it is parked"},
        Wrong{"parked elsewhere", latheText() + kTailstock + "parked_z_from_chuck_face_mm = 500\n",
              "setup-tailstock-places", "500", "M codes take it to 500"},
        Wrong{"dead centre in bearings",
              latheText() + kTailstock + "centre = \"dead\"\nhousing_diameter_mm = 60\nhousing_length_mm = 20\n",
              "setup-centre", "60", "dead centre"},
        Wrong{"housing without length", latheText() + kTailstock + "housing_diameter_mm = 60\n", "setup-missing-key",
              "60", "no length"},
        Wrong{"centre shorter than its point", latheText() + kTailstock + "centre_length_mm = 24\n", "setup-centre",
              "24", "24.249"},  // 14 / tan 30°
        Wrong{"housing over the point",
              latheText() + kTailstock + "centre_length_mm = 70\nhousing_diameter_mm = 60\nhousing_length_mm = 50\n",
              "setup-centre", "60", "no room for the point"},
        Wrong{"approach behind park", latheText() + changed(kSecond, "141", "600"), "setup-second-spindle", "600",
              "behind where it is parked"},
        Wrong{"start beyond park",
              latheText() + changed(kSecond, "max_rev", "start_z_from_chuck_face_mm = 700\nmax_rev"),
              "setup-second-spindle", "700", "not between"},
        Wrong{"no second chuck", latheText() + kSecond.substr(0, kSecond.find("[second_spindle.chuck]")),
              "setup-missing-table", "[second_spindle]", "second_spindle.chuck"},
        Wrong{"ring inside out", latheText() + changed(kSteady, "= 240", "= 160"), "setup-steady-rest", "160",
              "160 mm inside and 160 mm outside"},
        Wrong{"bar beside the ring",
              changed(latheText(), "diameter_mm = 50", "diameter_mm = 160") + changed(kSteady, "= 50", "= 160"),
              "setup-steady-rest", "160\n", "does not go through"},
        Wrong{"rollers out of the ring", latheText() + changed(kSteady, "= 30", "= 100"), "setup-steady-rest", "100",
              "reach out of the ring"},
        Wrong{"rollers off the bar", latheText() + changed(kSteady, "bar_diameter_mm = 50", "bar_diameter_mm = 60"),
              "setup-steady-rest", "[steady_rest]", "60 mm"},
        Wrong{"rest beside the bar", latheText() + changed(kSteady, "= 60", "= 130"), "setup-steady-rest",
              "[steady_rest]", "bar ends"},
        Wrong{"opening with one end", latheText() + kSteady + "open_from_deg = 10\n", "setup-missing-key", "10",
              "one end only"},
        Wrong{"box and file", latheText() + kGuard + "file = \"a.stl\"\n", "setup-body", "\"a.stl\"", "both"},
        Wrong{"no shape", latheText() + "[[body]]\nname = \"ghost\"\n", "setup-body", "\"ghost\"", "no shape"},
        Wrong{"half a box", latheText() + changed(kGuard, "y_mm = [-150, 150]\n", ""), "setup-body", "\"left guard\"",
              "all of"},
        Wrong{"unit of a box", latheText() + kGuard + "unit = \"cm\"\n", "setup-body", "\"cm\"", "nothing about a box"},
        Wrong{"on no station", latheText() + kDisc + kGuard + "on = \"station\"\n", "setup-body", "\"station\"",
              "which station"},
        Wrong{"on a station the turret lacks", latheText() + kDisc + kGuard + "on = \"station\"\nstation = 13\n",
              "setup-body", "13", "the turret has 12"},
        Wrong{"on a turret not given", latheText() + kGuard + "on = \"station\"\nstation = 3\n", "setup-body",
              "\"station\"", "no table [turret]"},
        Wrong{"station of the bed", latheText() + kDisc + kGuard + "station = 3\n", "setup-body", "3\n",
              "not carried by a station"},
        Wrong{"on a tailstock not given", latheText() + kGuard + "on = \"tailstock\"\n", "setup-body", "\"tailstock\"",
              "has none"},
        Wrong{"one bracket", latheText() + changed(kGuard, "[[body]]", "[body]"), "setup-wrong-type", "[body]",
              "one pair"},
        Wrong{"code without tailstock", latheText() + "[m_codes.M20]\nmeaning = \"x\"\ndoes = \"tailstock-advance\"\n",
              "setup-m-code-moves-nothing", "\"tailstock-advance\"", "has none"},
        Wrong{"code without second spindle",
              latheText() + "[m_codes.M71]\nmeaning = \"x\"\ndoes = \"second-spindle-approach\"\n",
              "setup-m-code-moves-nothing", "\"second-spindle-approach\"", "has none"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

// A body that had to be left out is not checked, and that must be said.
TEST(Surroundings, WhatIsLeftOutIsNotProven) {
    const auto setup = read(latheText() + kGuard + "on = \"second-spindle\"\n");
    ASSERT_EQ(setup.findings.size(), 1u);
    EXPECT_TRUE(setup.findings[0].unproven);
    EXPECT_THAT(setup.extraBodies, IsEmpty());
}

}  // namespace
}  // namespace firstoff
