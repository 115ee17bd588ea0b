// Holders by their designation, against tests/reference/holders_iso5608.csv (what is read there and what is from memory
// stands in its rows).
#include "sim/setup/holder_designation.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "sim/setup/setup.h"
#include "tests/setup/lathe_text.h"
#include "tests/support/reference_rows.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

TEST(HolderDesignation, EveryStyleHasTheAngleOfTheTable) {
    int styles = 0;
    for (const auto& row : shop::referenceRows("holders_iso5608.csv")) {
        if (row.text("kind") != "style") continue;
        ++styles;
        const char letter = row.text("code").at(0);
        const auto style = holderStyle(letter);
        const auto angle = row.number("entering_angle_deg");
        ASSERT_EQ(style.has_value(), angle.has_value()) << letter;
        if (!angle) continue;
        EXPECT_DOUBLE_EQ(style->angleDeg, *angle) << letter;
        const std::string meaning = row.text("meaning");
        const bool end = meaning.starts_with("end");  // L cuts both ways alike
        EXPECT_EQ(style->endCutting, end) << letter << ": " << meaning;
    }
    EXPECT_GE(styles, 21);
}

TEST(HolderDesignation, EveryLengthLetterHasTheLengthOfTheTable) {
    int lengths = 0;
    for (const auto& row : shop::referenceRows("holders_iso5608.csv")) {
        if (row.text("kind") != "length_code") continue;
        ++lengths;
        const auto mm = holderLengthMm(row.text("code").at(0));
        ASSERT_TRUE(mm) << row.text("code");
        EXPECT_EQ(fmt::format("{:g} mm", *mm), row.text("meaning"));
    }
    EXPECT_GE(lengths, 19);
}

TEST(HolderDesignation, EveryClampingAndHandOfTheTableIsRead) {
    for (const auto& row : shop::referenceRows("holders_iso5608.csv")) {
        const std::string code = row.text("code");
        if (row.text("kind") == "clamping") {
            EXPECT_TRUE(readHolderDesignation(code + "CLNR2020K12").designation) << code;
        } else if (row.text("kind") == "hand") {
            const auto read = readHolderDesignation("PCLN" + code + "2020K12");
            ASSERT_TRUE(read.designation) << code;
            EXPECT_EQ(read.designation->hand, code.at(0));
        }
    }
}

// The order of the groups, from the row of the table that spells one out.
TEST(HolderDesignation, ItsGroupsStandInTheOrderOfTheTable) {
    for (const char* text :
         {"PCLNR2525M12", "pclnr 2525 m12", "PCLNR-2525M-12", "PCLNR 2525 M12-HP", " PCLNR2525M12 "}) {
        const auto read = readHolderDesignation(text);
        ASSERT_TRUE(read.designation) << text << ": " << read.fault;
        const HolderDesignation& d = *read.designation;
        EXPECT_FALSE(d.bar);
        EXPECT_EQ(d.insertShape, 'C');
        EXPECT_EQ(d.style.letter, 'L');
        EXPECT_EQ(d.insertClearance, 'N');
        EXPECT_EQ(d.hand, 'R');
        EXPECT_EQ(d.shankHeightMm, 25);
        EXPECT_EQ(d.shankWidthMm, 25);
        EXPECT_EQ(d.lengthMm, 150);
        EXPECT_EQ(d.insertSizeMm, 12);
    }
}

TEST(HolderDesignation, BarsBeginWithTheirMakeAndDiameter) {
    const auto read = readHolderDesignation("S20S-SCLCR 09");
    ASSERT_TRUE(read.designation) << read.fault;
    EXPECT_TRUE(read.designation->bar);
    EXPECT_EQ(read.designation->shankWidthMm, 20);
    EXPECT_EQ(read.designation->lengthMm, 250);
    EXPECT_EQ(read.designation->insertSizeMm, 9);
    EXPECT_EQ(read.designation->insertClearance, 'C');
}

TEST(HolderDesignation, WhatItDoesNotUnderstandItSays) {
    struct Row {
        const char* text;
        const char* fault;
    };
    for (const Row& row :
         {Row{"", "clamping"}, Row{"QCLNR2020K12", "clamping"}, Row{"P4LNR2020K12", "make"},
          Row{"PCZNR2020K12", "style"}, Row{"PCXNR2020K12", "special"}, Row{"PCLQR2020K12", "clearance"},
          Row{"PCLNX2020K12", "hand"}, Row{"PCLNR20K12", "width"}, Row{"PCLNR0020K12", "width"},
          Row{"PCLNR2020I12", "length"}, Row{"PCLNR2020K", "size"}, Row{"PCLNR2020K1", "size"},
          Row{"PCLNR2020K12Z", "behind"}, Row{"PCLNR2020K12-LONGER", "behind"}, Row{"PCLNR16CA-12", "width"},
          Row{"S2S-SCLCR09", "diameter"}, Row{"S20S-SCLCR", "size"}}) {
        const auto read = readHolderDesignation(row.text);
        EXPECT_FALSE(read.designation) << row.text;
        EXPECT_THAT(read.fault, HasSubstr(row.fault)) << row.text;
    }
}

// The tool that a [[tool]] with this insert and these keys makes.
struct Made {
    Tool tool;
    std::vector<Finding> findings;
};
Made make(const std::string& insert, const std::string& keys, const std::string& kind = "turning") {
    auto setup = readSetup(shop::latheText() +
                               fmt::format("[[tool]]\nstation = 1\nkind = \"{}\"\nneeds = \"M03\"\ntip_x_mm = -120\n"
                                           "tip_z_mm = -60\noverhang_mm = 40\ninsert = \"{}\"\n",
                                           kind, insert) +
                               keys,
                           "");
    Made made;
    if (!setup.tools.empty()) made.tool = setup.tools.front();
    made.findings = setup.findings;
    return made;
}

TEST(Holder, FillsInShankAndAngle) {
    const auto made = make("CNMG120408", "holder = \"PCLNR 2020 K12\"\n");
    for (const Finding& f : made.findings) ADD_FAILURE() << f.message;
    EXPECT_DOUBLE_EQ(made.tool.enteringAngle, radians(95));
    EXPECT_EQ(made.tool.shankSize, 20);
    ASSERT_TRUE(made.tool.head);
    EXPECT_EQ(made.tool.head->headWidth, 25);  // f of ISO 5610 for L at 20, from memory
    EXPECT_EQ(made.tool.head->shankHeight, 20);
    EXPECT_EQ(made.tool.head->headLength, 0);
}

TEST(Holder, OfAnEndCuttingStyleStandsSquareToItsFeed) {
    // 75° to the feed along X and 80° at the corner: 85° to the feed along Z (elementary geometry).
    const auto made = make("CNMG120408", "holder = \"PCKNR 2020 K12\"\n");
    for (const Finding& f : made.findings) ADD_FAILURE() << f.message;
    EXPECT_NEAR(degrees(made.tool.enteringAngle), 85, 1e-9);
}

TEST(Holder, OfABarCountsItsHeadToTheFarSide) {
    const auto made = make("CCMT09T304", "holder = \"S16R-SCLCR 09\"\n", "boring");
    for (const Finding& f : made.findings) ADD_FAILURE() << f.message;
    EXPECT_EQ(made.tool.shankSize, 16);
    EXPECT_EQ(made.tool.head->headWidth, 11 + 8);  // f of ISO 5609, from memory, and half the bar
    const Box box = boundingBox(made.tool.holder);
    EXPECT_DOUBLE_EQ(box.rMin, -19);
    EXPECT_LE(box.rMax, 0);
    EXPECT_DOUBLE_EQ(box.zMax, 40);
}

TEST(Holder, StaysBehindTheLinesAlongItsEdges) {
    struct Row {
        const char* insert;
        const char* holder;
        double f;
    };
    for (const Row& row : {Row{"CNMG120408", "PCLNR2020K12", 25}, Row{"DNMG110404", "PDJNR2020K11", 25},
                           Row{"VCMT160404", "SVJCR2020K16", 25}, Row{"CNMG120408", "PCBNR2020K12", 17},
                           Row{"SNMG120408", "PSDNN2020K12", 10}, Row{"DNMG150608", "PDNNR2525M15", 12.5}}) {
        for (const char* length : {"", "head_length_mm = 30\n"}) {
            const auto made = make(row.insert, fmt::format("holder = \"{}\"\n{}", row.holder, length));
            for (const Finding& f : made.findings) ADD_FAILURE() << row.holder << ": " << f.message;
            const Tool& tool = made.tool;
            const Box box = boundingBox(tool.holder);
            EXPECT_NEAR(box.zMax, row.f, 1e-9) << row.holder;
            EXPECT_NEAR(box.rMax, 40, 1e-9) << row.holder;
            const double kappa = tool.enteringAngle, second = kPi - kappa - tool.insertAngle;
            const std::vector<Point> corners = polyline(tool.holder, 1e-3);
            for (std::size_t i = 0; i < corners.size(); ++i) {
                const Point p = corners[i];
                // Above the line along the other edge, and where the cutting edge leans forward to the right of it.
                EXPECT_GT(p.r * std::cos(second) - p.z * std::sin(second), 0) << row.holder;
                if (kappa < kPi / 2) {
                    EXPECT_GT(p.z * std::sin(kappa) + p.r * std::cos(kappa), 0) << row.holder;
                }
                const Point q = corners[(i + 1) % corners.size()], s = corners[(i + 2) % corners.size()];
                EXPECT_GE(cross(q - p, s - q), -1e-9) << row.holder << " is not convex";
            }
            // The plain shank is all inside: b wide, its far side f from the tip.
            const double b = tool.head->shankWidth;
            for (Point p : {Point{row.f - b, 40}, Point{row.f, 40}, Point{row.f, 35}}) {
                for (std::size_t i = 0; i < corners.size(); ++i) {
                    const Point a = corners[i], c = corners[(i + 1) % corners.size()];
                    EXPECT_GE(cross(c - a, p - a), -1e-6) << row.holder;
                }
            }
        }
    }
}

struct Wrong {
    const char* name;
    const char* insert;
    const char* keys;
    const char* code;
    const char* says;
};

class EveryHolder : public testing::TestWithParam<Wrong> {};

TEST_P(EveryHolder, ThatContradictsIsOneFinding) {
    const Wrong& wrong = GetParam();
    const auto made = make(wrong.insert, wrong.keys);
    ASSERT_EQ(made.findings.size(), 1u) << (made.findings.size() > 1 ? made.findings[1].message : "none");
    EXPECT_EQ(made.findings[0].code, wrong.code);
    EXPECT_THAT(made.findings[0].message, HasSubstr(wrong.says));
    EXPECT_EQ(made.findings[0].severity, Severity::Stop);
    EXPECT_GT(made.findings[0].span.column, 0u);
}

INSTANTIATE_TEST_SUITE_P(
    Ways, EveryHolder,
    testing::Values(
        Wrong{"not understood", "CNMG120408", "holder = \"PCLNR 20 K12\"\n", "setup-unknown-holder", "width"},
        Wrong{"empty", "CNMG120408", "holder = \"\"\n", "setup-unknown-holder", "not understood"},
        Wrong{"bar for a turning tool", "CCMT09T304", "holder = \"S20S-SCLCR 09\"\n", "setup-holder-contradiction",
              "boring bar"},
        Wrong{"other shape", "DNMG110404", "holder = \"PCLNR 2020 K12\"\nentering_angle_deg = 95\n",
              "setup-holder-contradiction", "shape C"},
        Wrong{"other size", "CNMG160608", "holder = \"PCLNR 2020 K12\"\n", "setup-holder-contradiction", "size 12"},
        Wrong{"other clearance", "CCMT120408", "holder = \"PCLNR 2020 K12\"\n", "setup-holder-contradiction",
              "clearance N"},
        Wrong{"other angle", "CNMG120408", "holder = \"PCLNR 2020 K12\"\nentering_angle_deg = 91\n",
              "setup-holder-contradiction", "says 91"},
        Wrong{"other shank", "CNMG120408", "holder = \"PCLNR 2020 K12\"\nshank_mm = 25\n", "setup-holder-contradiction",
              "says 25"},
        Wrong{"left hand for M03", "CNMG120408", "holder = \"PCLNL 2020 K12\"\n", "setup-holder-contradiction",
              "hand L"},
        Wrong{"right hand away from the chuck", "CNMG120408", "holder = \"PCLNR 2020 K12\"\ntip_number = 4\n",
              "setup-holder-contradiction", "cuts towards the chuck"},
        Wrong{"head longer than the overhang", "CNMG120408", "holder = \"PCLNR 2020 K12\"\nhead_length_mm = 41\n",
              "setup-holder-contradiction", "41 mm long"},
        Wrong{"head narrower than half the shank", "CNMG120408", "holder = \"PCLNR 2020 K12\"\nhead_width_mm = 9\n",
              "setup-holder-contradiction", "9 mm"},
        Wrong{"no shank at all", "CNMG120408", "entering_angle_deg = 95\n", "setup-missing-key", "shank_mm"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(Holder, LongerThanItselfCannotStandOut) {
    auto setup = readSetup(shop::latheText() +
                               "[[tool]]\nstation = 1\nkind = \"turning\"\nneeds = \"M03\"\ntip_x_mm = -120\n"
                               "tip_z_mm = -60\noverhang_mm = 130\ninsert = \"CNMG120408\"\n"
                               "holder = \"PCLNR 2020 K12\"\n",
                           "");
    ASSERT_EQ(setup.findings.size(), 1u);
    EXPECT_THAT(setup.findings[0].message, HasSubstr("125 mm long"));
}

TEST(Holder, OfTheOtherHandGoesWithTheOtherTurnOrTheOtherSide) {
    const auto away = make("CNMG120408", "holder = \"PCLNL 2020 K12\"\ntip_number = 4\n");
    EXPECT_TRUE(away.findings.empty());
    EXPECT_LT(boundingBox(away.tool.holder).zMax, 0);
}

TEST(ColletChuck, StandsInFrontOfTheBlock) {
    const std::string drill =
        "[[tool]]\nstation = 1\nkind = \"drill\"\nneeds = \"M03\"\ntip_x_mm = 0\ntip_z_mm = -140\noverhang_mm = 90\n"
        "diameter_mm = 8\nflute_length_mm = 50\n";
    const auto good =
        readSetup(shop::latheText() + drill + "collet_chuck_diameter_mm = 34\ncollet_chuck_length_mm = 30\n", "");
    ASSERT_TRUE(good.findings.empty()) << good.findings[0].message;
    ASSERT_EQ(good.tools[0].holderSteps.size(), 1u);
    const Box box = boundingBox(good.tools[0].holderSteps[0]);
    EXPECT_EQ(box.zMin, 60);
    EXPECT_EQ(box.zMax, 90);
    EXPECT_EQ(box.rMax, 17);
    struct Row {
        const char* keys;
        const char* says;
    };
    for (const Row& row :
         {Row{"collet_chuck_diameter_mm = 34\n", "no length"}, Row{"collet_chuck_length_mm = 34\n", "no diameter"},
          Row{"collet_chuck_diameter_mm = 7\ncollet_chuck_length_mm = 30\n", "go round"},
          Row{"collet_chuck_diameter_mm = 34\ncollet_chuck_length_mm = 41\n", "grip the flutes"}}) {
        const auto wrong = readSetup(shop::latheText() + drill + row.keys, "");
        ASSERT_EQ(wrong.findings.size(), 1u) << row.keys;
        EXPECT_EQ(wrong.findings[0].code, "setup-collet-chuck");
        EXPECT_THAT(wrong.findings[0].message, HasSubstr(row.says));
        EXPECT_TRUE(wrong.tools[0].holderSteps.empty());
    }
}

}  // namespace
}  // namespace firstoff
