// The block of a tool: from the turret and the overhang, or its own, and what contradicts it.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "sim/setup/setup.h"
#include "tests/setup/lathe_text.h"

namespace firstoff {
namespace {

using shop::kDisc;
using shop::latheText;
using testing::HasSubstr;

const std::string kTurning =
    "[[tool]]\nstation = 1\nkind = \"turning\"\nneeds = \"M03\"\ninsert = \"CNMG120408\"\nentering_angle_deg = 95\n"
    "shank_mm = 20\ntip_x_mm = -120\ntip_z_mm = -60\noverhang_mm = 35\n";
const std::string kDrill =
    "[[tool]]\nstation = 2\nkind = \"drill\"\nneeds = \"M03\"\ndiameter_mm = 12\nflute_length_mm = 60\n"
    "shank_diameter_mm = 16\ntip_x_mm = -10\ntip_z_mm = -140\noverhang_mm = 90\n";

const Tool& only(const firstoff::Setup& setup) {
    return setup.tools.at(0);
}

TEST(ToolBlock, OfAToolAcrossTheAxisReachesFromTheRimToTheOverhang) {
    const auto setup = readSetup(latheText() + kDisc + kTurning, "");
    ASSERT_TRUE(setup.findings.empty()) << setup.findings[0].message;
    const auto block = toolBlockOf(setup, only(setup));
    ASSERT_TRUE(block);
    EXPECT_EQ(block->z.min, -56);
    EXPECT_EQ(block->z.max, 80);
    EXPECT_EQ(block->r.max, 192 - 150);
    EXPECT_EQ(block->r.min, -60 + 35);
    EXPECT_EQ(block->width, 60);
}

TEST(ToolBlock, OfAToolAlongTheAxisReachesPastItsShank) {
    const auto setup = readSetup(latheText() + kDisc + kDrill, "");
    ASSERT_TRUE(setup.findings.empty()) << setup.findings[0].message;
    const auto block = toolBlockOf(setup, only(setup));
    ASSERT_TRUE(block);
    EXPECT_EQ(block->z.min, -140 + 90);
    EXPECT_EQ(block->r.min, -5 - 8 - kBlockRoundShankMm);
    EXPECT_EQ(block->r.max, 42);
}

// A bar along Z whichever way it is cut: boring, threads and grooves inside, grooves in a face.
TEST(ToolBlock, KnowsWhichToolsStandAlongZ) {
    Tool tool;
    for (const ToolKind kind : {ToolKind::Drill, ToolKind::Tap, ToolKind::Reamer, ToolKind::Boring}) {
        tool.kind = kind;
        EXPECT_TRUE(standsAlongZ(tool));
    }
    tool.kind = ToolKind::Grooving;
    tool.tipNumber = 3;
    EXPECT_FALSE(standsAlongZ(tool));
    tool.tipNumber = 2;
    EXPECT_TRUE(standsAlongZ(tool));
    tool.tipNumber = 3;
    tool.face = true;
    EXPECT_TRUE(standsAlongZ(tool));
    tool.kind = ToolKind::Threading;
    tool.face = false;
    EXPECT_FALSE(standsAlongZ(tool));
    tool.inside = true;
    EXPECT_TRUE(standsAlongZ(tool));
}

TEST(ToolBlock, OnAGangPlateBeginsAtThePlate) {
    std::string gang =
        "[turret]\nkind = \"gang\"\nface_z_mm = 0\nplate_x_mm = [60, 300]\nplate_y_mm = [-60, 60]\n"
        "block_z_mm = [-56, 80]\nblock_width_mm = 40\n";
    const auto setup = readSetup(latheText() + gang + kTurning, "");
    ASSERT_TRUE(setup.findings.empty()) << setup.findings[0].message;
    EXPECT_EQ(toolBlockOf(setup, only(setup))->r.max, 30);
}

TEST(ToolBlock, IsNotGuessedWhereNothingIsSaid) {
    const auto bare = readSetup(latheText() + kTurning, "");
    ASSERT_TRUE(bare.findings.empty());
    EXPECT_FALSE(toolBlockOf(bare, only(bare)));
    const auto noBlocks =
        readSetup(latheText() + "[turret]\nkind = \"disc\"\nface_z_mm = 0\naxis_x_mm = 384\n" + kTurning, "");
    ASSERT_TRUE(noBlocks.findings.empty());
    EXPECT_FALSE(toolBlockOf(noBlocks, only(noBlocks)));
}

TEST(ToolBlock, OfItsOwnCountsAndTakesTheRestFromTheTurret) {
    const auto setup = readSetup(latheText() + kDisc + kTurning + "block_width_mm = 44\nblock_z_mm = [-62, 20]\n", "");
    ASSERT_TRUE(setup.findings.empty()) << setup.findings[0].message;
    const auto block = toolBlockOf(setup, only(setup));
    EXPECT_EQ(block->width, 44);
    EXPECT_EQ(block->z.min, -62);
    EXPECT_EQ(block->r.min, -25);
    const auto whole =
        readSetup(latheText() + kTurning + "block_width_mm = 44\nblock_z_mm = [-62, 20]\nblock_x_mm = [-50, 80]\n", "");
    ASSERT_TRUE(whole.findings.empty()) << whole.findings[0].message;
    EXPECT_EQ(toolBlockOf(whole, only(whole))->r.max, 40);
}

struct Wrong {
    const char* name;
    std::string text;
    const char* says;
};

class EveryBlock : public testing::TestWithParam<Wrong> {};

TEST_P(EveryBlock, ThatContradictsIsOneFinding) {
    const auto setup = readSetup(GetParam().text, "");
    ASSERT_EQ(setup.findings.size(), 1u) << (setup.findings.size() > 1 ? setup.findings[1].message : "none");
    EXPECT_EQ(setup.findings[0].code, "setup-block");
    EXPECT_THAT(setup.findings[0].message, HasSubstr(GetParam().says));
    EXPECT_FALSE(setup.findings[0].remedy.empty());
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
}

INSTANTIATE_TEST_SUITE_P(
    Ways, EveryBlock,
    testing::Values(Wrong{"in part without turret", latheText() + kTurning + "block_width_mm = 44\n", "given in part"},
                    Wrong{"front against the overhang", latheText() + kDisc + kDrill + "block_z_mm = [-40, 80]\n",
                          "stands out 100 mm, overhang_mm says 90"},
                    Wrong{"reach against the overhang", latheText() + kDisc + kTurning + "block_x_mm = [-60, 84]\n",
                          "stands out 30 mm, overhang_mm says 35"},
                    Wrong{"overhang behind the rim", latheText() + kDisc + changed(kTurning, "= 35", "= 102"),
                          "X 84 of the turret"},
                    Wrong{"overhang behind the block", latheText() + kDisc + changed(kDrill, "= 90", "= 220"),
                          "Z 80 of the turret"},
                    Wrong{"narrower than the shank", latheText() + kDisc + kTurning + "block_width_mm = 19\n",
                          "19 mm wide does not hold a shank of 20"},
                    Wrong{"shank beside the block", latheText() + kDisc + changed(kTurning, "= -60", "= -90"),
                          "middle of the shank"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(ToolBlock, ThatCannotBeIsNotUsed) {
    const auto setup = readSetup(latheText() + kDisc + changed(kTurning, "= 35", "= 102"), "");
    EXPECT_FALSE(toolBlockOf(setup, only(setup)));
}

}  // namespace
}  // namespace firstoff
