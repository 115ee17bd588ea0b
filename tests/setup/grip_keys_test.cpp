// What grip, centre, bars and edges need, as the set-up file says it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "sim/setup/setup.h"
#include "tests/setup/lathe_text.h"

namespace firstoff {
namespace {

using shop::latheText;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string kGrip = R"(grip_force_kn = 55
jaw_mass_kg = 0.45
jaw_mass_diameter_mm = 94
base_jaw_moment_kg_m = 0.035
friction = 0.25
force_safety = 2
speed_safety = 1.8
)";
const std::string kTailstock = R"([tailstock]
quill_diameter_mm = 70
quill_length_mm = 120
centre_diameter_mm = 28
centre_z_from_chuck_face_mm = 520
advanced = false
)";
std::string bar(const std::string& more) {
    return latheText() + R"([[tool]]
station = 2
kind = "boring"
needs = "M03"
insert = "CCMT09T304"
entering_angle_deg = 95
tip_x_mm = 20
tip_z_mm = -140
shank_mm = 16
overhang_mm = 65
)" + more;
}

firstoff::Setup readGood(const std::string& text) {
    firstoff::Setup setup = readSetup(text, "grip.toml");
    EXPECT_THAT(setup.findings, IsEmpty());
    return setup;
}

TEST(GripKeys, AreReadInKilonewtonsAndDiameters) {
    const Chuck chuck = readGood(latheText(kGrip)).chuck;
    EXPECT_DOUBLE_EQ(chuck.gripForceN, 55000);
    EXPECT_DOUBLE_EQ(chuck.jawMassKg, 0.45);
    EXPECT_DOUBLE_EQ(chuck.jawMassRadius, 47);
    EXPECT_EQ(chuck.baseJawMomentKgM, 0.035);
    EXPECT_DOUBLE_EQ(chuck.friction, 0.25);
    EXPECT_DOUBLE_EQ(chuck.forceSafety, 2);
    EXPECT_DOUBLE_EQ(chuck.speedSafety, 1.8);
}

TEST(GripKeys, LeftOutAreNotSaid) {
    const Chuck chuck = readGood(latheText()).chuck;
    EXPECT_EQ(chuck.gripForceN, 0);
    EXPECT_EQ(chuck.friction, 0);
    EXPECT_EQ(chuck.forceSafety, 0);
    EXPECT_FALSE(chuck.baseJawMomentKgM);
}

TEST(GripKeys, ABaseJawOfOnePieceHasNoMomentOfItsOwn) {
    EXPECT_EQ(readGood(latheText("base_jaw_moment_kg_m = 0\n")).chuck.baseJawMomentKgM, 0);
}

struct Wrong {
    const char* chuck;
    const char* code;
};
class WrongGrip : public testing::TestWithParam<Wrong> {};
TEST_P(WrongGrip, IsAFindingAtItsKey) {
    const auto setup = readSetup(latheText(GetParam().chuck), "grip.toml");
    ASSERT_EQ(setup.findings.size(), 1u);
    EXPECT_EQ(setup.findings[0].code, GetParam().code);
    EXPECT_GT(setup.findings[0].span.line, 0u);
}
INSTANTIATE_TEST_SUITE_P(GripKeys, WrongGrip,
                         testing::Values(Wrong{"grip_force_kn = -5\n", "setup-out-of-range"},
                                         Wrong{"force_safety = 0.8\n", "setup-out-of-range"},
                                         Wrong{"friction = 1.5\n", "setup-out-of-range"},
                                         Wrong{"kind = \"collet\"\njaw_mass_kg = 1\n", "setup-key-of-another-kind"}));

TEST(GripKeys, OfTheCentre) {
    EXPECT_DOUBLE_EQ(readGood(latheText() + kTailstock + "force_kn = 4\n").tailstock->forceN, 4000);
    EXPECT_EQ(readGood(latheText() + kTailstock).tailstock->forceN, 0);
}

TEST(GripKeys, OfABarAndItsEdge) {
    const Tool tool = readGood(bar("shank = \"damped-carbide\"\ntaylor_n = 0.25\ntaylor_c_m_per_min = 450\n"
                                   "edges_per_insert = 2\n"))
                          .tools.at(0);
    EXPECT_EQ(tool.shank, Tool::Shank::DampedCarbide);
    EXPECT_DOUBLE_EQ(tool.taylorN, 0.25);
    EXPECT_DOUBLE_EQ(tool.taylorC, 450);
    EXPECT_EQ(tool.edgesPerInsert, 2);
    EXPECT_EQ(readGood(bar("")).tools.at(0).shank, Tool::Shank::Steel);
}

TEST(GripKeys, OneConstantOfALifeIsNone) {
    for (const char* one : {"taylor_n = 0.25\n", "taylor_c_m_per_min = 450\n"}) {
        const auto setup = readSetup(bar(one), "grip.toml");
        ASSERT_EQ(setup.findings.size(), 1u) << one;
        EXPECT_EQ(setup.findings[0].code, "setup-missing-key");
        EXPECT_THAT(setup.findings[0].remedy, HasSubstr("or neither"));
        EXPECT_EQ(setup.tools.at(0).taylorN, 0);
        EXPECT_EQ(setup.tools.at(0).taylorC, 0);
    }
}

}  // namespace
}  // namespace firstoff
