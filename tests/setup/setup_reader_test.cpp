#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "sim/setup/setup.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

const std::string kGood = R"([machine]
name = "two-axis lathe"
home_x_mm = 400
home_z_mm = 500
travel_x_mm = [-420, 0]
travel_z_mm = [-520, 0]
rapid_x_mm_per_min = 18000
rapid_z_mm_per_min = 24000
rapid = "straight"
max_feed_mm_per_min = 5000
max_rev_per_min = 4500
index_time_s = 0.6
stations = 12
turret_diameter_mm = 300
turret_thickness_mm = 90
[chuck]
body_diameter_mm = 165
body_length_mm = 80
jaw_length_mm = 30
jaw_outer_diameter_mm = 160
max_rev_per_min = 4000
[stock]
shape = "bar"
diameter_mm = 50
length_mm = 110
stick_out_mm = 70
material = "free-cutting steel"
[work_offsets.G54]
z_from_bar_end_mm = -1.0
[work_offsets.G55]
z_from_chuck_face_mm = 40
x_mm = 0.02
[[tool]]
station = 2
name = "rougher"
kind = "turning"
needs = "M04"
tip_x_mm = -120
tip_z_mm = -60
overhang_mm = 35
shank_mm = 20
insert = "CNMG120408"
entering_angle_deg = 95
[[tool]]
station = 1
kind = "drill"
needs = "M03"
tip_x_mm = 0
tip_z_mm = -160
overhang_mm = 120
diameter_mm = 20
flute_length_mm = 90
[[offset]]
number = 2
wear_x_mm = 0.04
wear_z_mm = -0.01
[control]
block_skip = true
compensation_start = "B"
)";

std::string with(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

// The text from a place on.
std::string textAt(const std::string& text, const SourceSpan& span) {
    std::size_t begin = 0;
    for (std::uint32_t line = 1; line < span.line; ++line) begin = text.find('\n', begin) + 1;
    return text.substr(begin + span.column - 1);
}

TEST(ReadSetup, AGoodFileHasNoFindings) {
    const auto setup = readSetup(kGood, "good.toml");
    for (const Finding& f : setup.findings) ADD_FAILURE() << f.code << " line " << f.span.line << ": " << f.message;
    EXPECT_EQ(setup.name, "good.toml");
}

TEST(ReadSetup, DiametersBecomeRadiiAndNothingElseDoes) {
    const auto setup = readSetup(kGood, "");
    EXPECT_EQ(setup.machine.home, (Point{500, 200}));
    EXPECT_EQ(setup.machine.travelR.min, -210);
    EXPECT_EQ(setup.machine.travelZ.min, -520);
    EXPECT_EQ(setup.machine.rapidRMmPerMin, 18000);
    EXPECT_FALSE(setup.machine.rapidPerAxis);
    EXPECT_EQ(setup.chuck.jawOuterRadius, 80);
    EXPECT_EQ(setup.chuck.jaws, 3);
    EXPECT_EQ(setup.stock.outerRadius, 25);
    ASSERT_NE(setup.offset(2), nullptr);
    EXPECT_EQ(setup.offset(2)->wear, (Point{-0.01, 0.02}));
    EXPECT_FALSE(setup.offset(2)->gauge);
    EXPECT_EQ(setup.control.blockSkipLevels, 1u << 1);
    EXPECT_EQ(setup.control.compensationStart, CompensationStart::B);
    EXPECT_TRUE(setup.control.optionalStop);
    EXPECT_EQ(setup.control.maxBlocks, 20'000'000);
}

TEST(ReadSetup, BlockSkipHasASwitchForEachLevel) {
    const auto levels = [](const std::string& value) {
        return readSetup(with(kGood, "block_skip = true", "block_skip = " + value), "");
    };
    EXPECT_EQ(levels("false").control.blockSkipLevels, 0);
    EXPECT_EQ(levels("[]").control.blockSkipLevels, 0);
    EXPECT_EQ(levels("[1, 9]").control.blockSkipLevels, 1u << 1 | 1u << 9);
    EXPECT_TRUE(levels("[2]").findings.empty());
    for (const char* wrong : {"[0]", "[10]", "[1.5]"}) {
        const auto setup = levels(wrong);
        ASSERT_EQ(setup.findings.size(), 1u) << wrong;
        EXPECT_EQ(setup.findings[0].code, "setup-out-of-range") << wrong;
    }
    EXPECT_EQ(levels("1").findings[0].code, "setup-wrong-type");
}

TEST(ReadSetup, BarAndDatumStandWhereTheJawsPutThem) {
    const auto setup = readSetup(kGood, "");
    EXPECT_EQ(setup.stock.frontZ, 100);  // 30 of jaw + 70 stick-out
    EXPECT_EQ(setup.stock.backZ, -10);
    EXPECT_TRUE(setup.workOffsetGiven[0]);
    EXPECT_EQ(setup.workOffsets[0], (Point{99, 0}));
    EXPECT_EQ(setup.workOffsets[1], (Point{40, 0.01}));
    EXPECT_FALSE(setup.workOffsetGiven[2]);
}

TEST(ReadSetup, FurtherWorkOffsetsAndReferencePositions) {
    const std::string machine = "[machine]";
    std::string text(kGood);
    text.replace(text.find(machine), machine.size(),
                 "[machine]\nsecond_reference_x_mm = -40\nsecond_reference_z_mm = -50");
    text +=
        "\n[work_offsets.\"G54.1 P1\"]\nz_from_chuck_face_mm = 80\n[work_offsets.\"G54.1 P48\"]\n"
        "z_from_chuck_face_mm = 70\nx_mm = 2\n";
    const auto setup = readSetup(text, "");
    EXPECT_THAT(setup.findings, testing::IsEmpty());
    EXPECT_EQ(setup.workOffsets[6], (Point{80, 0}));
    EXPECT_EQ(setup.workOffsets[53], (Point{70, 1}));
    EXPECT_TRUE(setup.workOffsetGiven[53]);
    EXPECT_FALSE(setup.workOffsetGiven[7]);
    EXPECT_EQ(setup.machine.otherReferences[0], (Point{450, 180}));
    EXPECT_FALSE(setup.machine.otherReferences[1]);
}

TEST(ReadSetup, ThereAreNoOtherWorkOffsets) {
    for (const char* name : {"G54.1 P0", "G54.1 P49", "G54.1 P01", "G54.1 P", "G54.1 Px", "G54.1", "G60", "G53"}) {
        const auto setup =
            readSetup(fmt::format("{}\n[work_offsets.\"{}\"]\nz_from_chuck_face_mm = 80\n", kGood, name), "");
        EXPECT_FALSE(setup.findings.empty()) << name;
    }
}

TEST(ReadSetup, AReferencePositionNeedsBothAxes) {
    std::string text(kGood);
    text.replace(text.find("[machine]"), 9, "[machine]\nthird_reference_x_mm = -40");
    const auto setup = readSetup(text, "");
    ASSERT_EQ(setup.findings.size(), 1u);
    EXPECT_EQ(setup.findings[0].code, "setup-missing-key");
    EXPECT_FALSE(setup.machine.otherReferences[1]);
}

TEST(ReadSetup, WaysInWhichControlsDiffer) {
    const auto usual = readSetup(kGood, "");
    EXPECT_EQ(usual.control.offsetCancel, ControlOptions::OffsetCancel::NotSaid);
    EXPECT_EQ(usual.control.wholeNumbers, ControlOptions::WholeNumbers::NotSaid);
    EXPECT_FALSE(usual.control.radiusProgramming);
    EXPECT_FALSE(usual.control.plainCorners);
    std::string text(kGood);
    const std::string switches = "[control]";
    text.replace(text.find(switches), switches.size(),
                 "[control]\noffset_cancel = \"all\"\nwhole_numbers = \"increments\"\nx_programming = \"radius\"\n"
                 "corner_words = \"plain\"");
    const auto setup = readSetup(text, "");
    EXPECT_THAT(setup.findings, testing::IsEmpty());
    EXPECT_EQ(setup.control.offsetCancel, ControlOptions::OffsetCancel::All);
    EXPECT_EQ(setup.control.wholeNumbers, ControlOptions::WholeNumbers::Increments);
    EXPECT_TRUE(setup.control.radiusProgramming);
    EXPECT_TRUE(setup.control.plainCorners);
}

TEST(ReadSetup, ToolsComeInOrderOfStationWithTheirOutlines) {
    const auto setup = readSetup(kGood, "");
    ASSERT_EQ(setup.tools.size(), 2u);
    const Tool& drill = setup.tools[0];
    EXPECT_EQ(drill.kind, ToolKind::Drill);
    EXPECT_DOUBLE_EQ(drill.pointAngle, radians(118));
    EXPECT_EQ(drill.shankSize, 20);
    EXPECT_FALSE(drill.cutting.empty());
    EXPECT_FALSE(drill.holder.empty());
    const Tool& rougher = setup.tools[1];
    EXPECT_EQ(rougher.needs, SpindleDirection::Reverse);
    EXPECT_EQ(rougher.tip, (Point{-60, -60}));
    EXPECT_EQ(rougher.insertShape, 'C');
    EXPECT_DOUBLE_EQ(rougher.noseRadius, 0.8);
    EXPECT_NEAR(rougher.edgeLength, 12.896, 1e-3);  // 12.7 / sin 80°, inserts_iso1832.csv
    EXPECT_EQ(rougher.tipNumber, 3);
    EXPECT_EQ(textAt(kGood, rougher.span).substr(0, 20), "[[tool]]\nstation = 2");
    EXPECT_FALSE(rougher.cutting.empty());
    EXPECT_FALSE(rougher.holder.empty());
}

#define TAILSTOCK_AT(z)                                                                     \
    "[tailstock]\nquill_diameter_mm = 60\nquill_length_mm = 100\ncentre_diameter_mm = 24\n" \
    "centre_z_from_chuck_face_mm = " z "\nadvanced = true\n[stock]\n"

struct Slip {
    const char* name;
    const char* from;
    const char* to;
    const char* code;
    const char* at;  // where in the text the finding points
    const char* saysMessage;
    const char* saysRemedy;
};

void PrintTo(const Slip& slip, std::ostream* out) {
    *out << slip.name;
}

class EverySlip : public testing::TestWithParam<Slip> {};

TEST_P(EverySlip, IsOneFindingAtItsPlaceWithCauseAndRemedy) {
    const Slip& slip = GetParam();
    const std::string text = with(kGood, slip.from, slip.to);
    const auto setup = readSetup(text, "slip.toml");
    ASSERT_EQ(setup.findings.size(), 1u) << (setup.findings.size() > 1 ? setup.findings[1].message : "none");
    const Finding& f = setup.findings[0];
    EXPECT_EQ(f.code, slip.code);
    EXPECT_EQ(f.severity, Severity::Stop);
    EXPECT_EQ(f.span.file, SourceSpan::File::Setup);
    EXPECT_EQ(textAt(text, f.span).substr(0, std::string(slip.at).size()), slip.at) << f.message;
    EXPECT_THAT(f.message, HasSubstr(slip.saysMessage));
    EXPECT_THAT(f.remedy, HasSubstr(slip.saysRemedy));
    EXPECT_NE(verdictOf(setup.findings), Verdict::Clear);
}

INSTANTIATE_TEST_SUITE_P(
    Slips, EverySlip,
    testing::Values(
        Slip{"mistyped key", "stick_out_mm", "stickout_mm = 70\nstick_out_mm", "setup-unknown-key", "stickout_mm",
             "stickout_mm", "Did you mean stick_out_mm?"},
        Slip{"key of another table", "[stock]\n", "[stock]\nstations = 8\n", "setup-unknown-key", "stations = 8",
             "stations", "belongs to [machine]"},
        Slip{"mistyped table", "[control]", "[contrl]", "setup-unknown-table", "[contrl]", "[contrl]", "[control]"},
        Slip{"seventh work offset", "[work_offsets.G55]", "[work_offsets.G60]", "setup-unknown-table",
             "[work_offsets.G60]", "G60", "G54 to G59"},
        Slip{"key before any table", "[machine]\n", "units = 1\n[machine]\n", "setup-unknown-key", "units", "outside",
             "heading"},
        Slip{"text for a number", "stations = 12", "stations = \"twelve\"", "setup-wrong-type", "\"twelve\"",
             "whole number", "set-up-keys.md"},
        Slip{"half a station", "station = 2", "station = 2.5", "setup-wrong-type", "2.5", "whole number", ""},
        Slip{"number for a range", "travel_x_mm = [-420, 0]", "travel_x_mm = -420", "setup-wrong-type", "-420",
             "two numbers", ""},
        Slip{"range of three", "travel_x_mm = [-420, 0]", "travel_x_mm = [-420, 0, 1]", "setup-wrong-type", "[-420",
             "two numbers", ""},
        Slip{"range upside down", "[-520, 0]", "[0, -520]", "setup-out-of-range", "[0, -520]", "no travel",
             "smaller limit"},
        Slip{"reference point out of travel", "[-520, 0]", "[10, 520]", "setup-home-outside-travel", "[10, 520]",
             "reference position", "negative"},
        Slip{"negative diameter", "diameter_mm = 50", "diameter_mm = -50", "setup-out-of-range", "-50", "-50", "unit"},
        Slip{"bar of no length", "length_mm = 110", "length_mm = 0", "setup-out-of-range", "0\nstick_out", "0.1", ""},
        Slip{"not a number", "index_time_s = 0.6", "index_time_s = nan", "setup-out-of-range", "nan", "nan", ""},
        Slip{"endless bar", "length_mm = 110", "length_mm = inf", "setup-out-of-range", "inf", "inf", ""},
        Slip{"mistyped choice", "\"straight\"", "\"strait\"", "setup-unknown-choice", "\"strait", "strait",
             "Did you mean \"straight\"?"},
        Slip{"kind left out", "kind = \"drill\"\n", "", "setup-missing-key", "[[tool]]\nstation = 1", "kind",
             "Add kind"},
        Slip{"width of a drill", "diameter_mm = 20", "diameter_mm = 20\nwidth_mm = 3", "setup-key-of-another-kind",
             "width_mm", "drill", "Take it out"},
        Slip{"missing key", "max_feed_mm_per_min = 5000\n", "", "setup-missing-key", "[machine]", "max_feed_mm_per_min",
             "Add"},
        Slip{"missing key of one kind", "flute_length_mm = 90\n", "", "setup-missing-key", "[[tool]]\nstation = 1",
             "flute_length_mm", ""},
        Slip{"two tools on one station", "station = 1\n", "station = 2\n", "setup-duplicate-station",
             "2\nkind = \"drill", "line 33", "station of its own"},
        Slip{"station the turret lacks", "station = 2\n", "station = 13\n", "setup-station", "13\n", "13", ""},
        Slip{"one bracket", "[[offset]]", "[offset]", "setup-wrong-type", "[offset]", "one pair", "[[offset]]"},
        Slip{"unknown insert", "CNMG120408", "QNMG120408", "setup-unknown-insert", "\"QNMG", "QNMG120408",
             "CNMG120408"},
        Slip{"insert not modelled", "CNMG120408", "PNMG120408", "setup-unknown-insert", "\"PNMG", "PNMG120408", ""},
        Slip{"insert left empty", "CNMG120408", "", "setup-unknown-insert", "\"\"", "names no insert", "CNMG120408"},
        Slip{"edge far off centre", "shank_mm = 20", "shank_mm = 20\ncentre_height_mm = 40", "setup-out-of-range", "40",
             "centre_height_mm", ""},
        Slip{"letter without sizes", "insert = \"CNMG120408\"", "insert = \"C\"\nnose_radius_mm = 0.8",
             "setup-missing-key", "\"C\"", "edge_length_mm", "designation"},
        Slip{"nose against designation", "entering_angle_deg", "nose_radius_mm = 0.4\nentering_angle_deg",
             "setup-insert-contradiction", "0.4\nentering", "0.8", "Look at the insert"},
        Slip{"nose too big", "insert = \"CNMG120408\"", "insert = \"V\"\nnose_radius_mm = 4\nedge_length_mm = 11",
             "setup-nose-radius-too-big", "4\nedge", "does not fit", ""},
        Slip{"heel below the nose", "entering_angle_deg = 95", "entering_angle_deg = 107", "setup-entering-angle",
             "107", "below the nose", "100"},
        Slip{"drill shorter than its point", "flute_length_mm = 90", "flute_length_mm = 5", "setup-drill-too-short",
             "5\n[[offset]]", "6.009", ""},
        Slip{"datum twice", "x_mm = 0.02", "z_from_bar_end_mm = 1", "setup-datum", "[work_offsets.G55]", "twice",
             "z_from_bar_end_mm"},
        Slip{"datum nowhere", "z_from_chuck_face_mm = 40\n", "", "setup-datum", "[work_offsets.G55]", "nowhere", ""},
        Slip{"bar out of the jaws", "stick_out_mm = 70", "stick_out_mm = 110", "setup-bar-not-held", "110\nmaterial",
             "hold none", ""},
        Slip{"bar larger than the chuck", "diameter_mm = 50", "diameter_mm = 170", "setup-bar-larger-than-chuck", "170",
             "170", ""},
        Slip{"bar larger than the bore", "jaw_length_mm = 30", "through_bore_mm = 42\njaw_length_mm = 30",
             "setup-bar-larger-than-chuck", "50\nlength", "42", "Saw"},
        // The bar ends 100 mm in front of the chuck face; a 60° centre of 24 mm has a cone 20.8 mm long.
        Slip{"centre that does not reach the bar", "[stock]\n", TAILSTOCK_AT("101"), "setup-centre-not-in-work", "101",
             "1 mm in front of", "advanced = false"},
        Slip{"centre sunk in the bar", "[stock]\n", TAILSTOCK_AT("79"), "setup-centre-not-in-work", "79",
             "21 mm inside", ""},
        Slip{"bore in a bar", "diameter_mm = 50", "diameter_mm = 50\nbore_mm = 20", "setup-stock-contradiction",
             "20\nlength", "no bore", "tube"},
        Slip{"tube without bore", "\"bar\"", "\"tube\"", "setup-missing-key", "\"tube\"", "bore_mm", ""},
        Slip{"one gauge length", "number = 2", "number = 2\ngauge_x_mm = -120", "setup-missing-key", "[[offset]]",
             "one axis", "both"},
        Slip{"heading without name", "[chuck]", "[=chuck]", "setup-syntax", "=chuck", "TOML", "Mend"},
        Slip{"three brackets", "[[offset]]", "[[[offset]]]", "setup-syntax", "[offset]]]", "TOML", ""},
        Slip{"syntax", "stations = 12", "stations = 12 13", "setup-syntax", "13\nturret", "TOML", "Mend"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(ReadSetup, ColumnsCountBytesAsEditorsOfTextDo) {
    const auto setup = readSetup("[machine]\nname = \"Drehmaschine Süd\"; x\n", "");
    ASSERT_FALSE(setup.findings.empty());
    EXPECT_EQ(setup.findings[0].code, "setup-syntax");
    EXPECT_EQ(setup.findings[0].span.column, 27u);  // ü is two bytes
}

TEST(ReadSetup, SeveralSlipsAreAllTold) {
    std::string text = with(kGood, "stations = 12", "stations = true");
    text = with(text, "diameter_mm = 50", "diameter_mm = 0");
    text = with(text, "needs = \"M03\"", "needs = \"M05\"");
    const auto setup = readSetup(text, "");
    EXPECT_THAT(setup.findings, testing::SizeIs(3));
    EXPECT_EQ(setup.stock.outerRadius, 0);  // no usable bar rather than a bar nobody has
    EXPECT_EQ(setup.tools.size(), 2u);
    EXPECT_EQ(setup.machine.stations, 12);
}

TEST(ReadSetup, AnEmptyFileNamesWhatIsMissing) {
    const auto setup = readSetup("", "empty.toml");
    ASSERT_EQ(setup.findings.size(), 3u);
    for (const Finding& f : setup.findings) EXPECT_EQ(f.code, "setup-missing-table");
}

// A part of a tool that is not drawn must never come out clear.
TEST(ReadSetup, AProfileThatIsNotDrawnIsSaidToBeUnproven) {
    const auto setup = readSetup(with(kGood, "kind = \"turning\"\n",
                                      "kind = \"threading\"\nthread_angle_deg = 55\n"
                                      "pitch_mm = 2\nprofile = \"full\"\n"),
                                 "");
    const bool said = std::any_of(setup.findings.begin(), setup.findings.end(), [](const Finding& f) {
        return f.code == "setup-thread-profile-not-modelled" && f.unproven;
    });
    EXPECT_TRUE(said);
}

TEST(ReadSetup, WhateverTheBytesItEnds) {
    for (const std::string& text :
         {std::string("\0\0\0", 3), std::string("\xff\xfe[x"), std::string(5000, '['), std::string(5000, '{'),
          std::string("[machine]\nhome_x_mm=1e999"), std::string("a.b.c.d=[[[[1]]]]"), std::string("tool=[]"),
          std::string("tool=[1,2]"), std::string("machine=1\nchuck=[]\nstock='x'"), std::string("[work_offsets]\nx=1"),
          std::string("[[tool]]\n[[tool]]\nkind='drill'\npoint_angle_deg=1e-300"),
          std::string("\xEF\xBB\xBF[machine]")}) {
        const auto setup = readSetup(text, "junk");
        EXPECT_FALSE(setup.findings.empty());
        for (const Finding& f : setup.findings) EXPECT_EQ(f.severity, Severity::Stop);
    }
}

// A slip of the keyboard anywhere in a good file: it reads, it ends, and every outline can be made. Fixed sequence of
// numbers, so that a find can be repeated.
TEST(ReadSetup, AnyMistypedByteIsSurvived) {
    std::uint32_t state = 12345;
    const auto next = [&state](std::uint32_t below) {
        state = state * 1664525u + 1013904223u;
        return (state >> 8) % below;
    };
    const std::string keyboard = "0123456789.-+e\"[]=#abcxyz \n\0\xff";
    int told = 0;
    for (int i = 0; i < 3000; ++i) {
        std::string text = kGood;
        for (std::uint32_t slips = 1 + next(3); slips > 0; --slips) {
            text[next(static_cast<std::uint32_t>(text.size()))] =
                keyboard[next(static_cast<std::uint32_t>(keyboard.size()))];
        }
        const auto setup = readSetup(text, "slip.toml");
        told += setup.findings.empty() ? 0 : 1;
        for (const Tool& tool : setup.tools) {
            const Box box = boundingBox(tool.cutting);
            EXPECT_TRUE(std::isfinite(box.zMin + box.zMax + box.rMin + box.rMax)) << text;
        }
    }
    EXPECT_GT(told, 2000);
}

}  // namespace
}  // namespace firstoff
