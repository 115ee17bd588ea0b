// What is wrong with a drawing file is said with its line, its cause and what to do.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "sim/drawing/dxf_reader.h"
#include "sim/drawing/dxf_writer.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

// Groups written as in a table, "0 LINE|8 part|10 1.5", each on its two lines.
std::string dxf(const std::string& groups) {
    std::string text;
    std::size_t begin = 0;
    while (begin < groups.size()) {
        const std::size_t end = std::min(groups.find('|', begin), groups.size());
        const std::string group = groups.substr(begin, end - begin);
        const std::size_t blank = std::min(group.find(' '), group.size());
        text += group.substr(0, blank) + "\n" + group.substr(std::min(blank + 1, group.size())) + "\n";
        begin = end + 1;
    }
    return text;
}

std::string inModel(const std::string& entities, const std::string& header = "9 $INSUNITS|70 4") {
    return dxf("0 SECTION|2 HEADER|" + header + "|0 ENDSEC|0 SECTION|2 ENTITIES|" + entities + "|0 ENDSEC|0 EOF");
}

const std::string kLine = "0 LINE|8 part|10 0|20 0|11 10|21 5";

TEST(DxfReader, TakesWhatPlainFilesHold) {
    const Drawing drawing = readDxf(inModel(kLine));
    EXPECT_THAT(drawing.faults, IsEmpty());
    ASSERT_THAT(drawing.paths, SizeIs(1));
    EXPECT_EQ(drawing.paths[0].layer, "part");
    EXPECT_EQ(drawing.paths[0].line, 16u);
    EXPECT_EQ(drawing.paths[0].corners, (Contour{{{0, 0}, 0}, {{10, 5}, 0}}));
}

TEST(DxfReader, TakesBlanksAndReturnsAndRemarks) {
    std::string text;
    for (char c : dxf("999 drawn by hand|") + inModel("999 the face|" + kLine))
        text += c == '\n' ? "  \r\n  " : std::string(1, c);
    const Drawing drawing = readDxf("\xEF\xBB\xBF  " + text);
    EXPECT_THAT(drawing.faults, IsEmpty());
    ASSERT_THAT(drawing.paths, SizeIs(1));
    EXPECT_EQ(drawing.paths[0].corners[1].at, (Point{10, 5}));
}

struct Fault {
    const char* name;
    std::string text;
    const char* code;
    std::size_t line;
    const char* says;
    const char* remedy;
};

void PrintTo(const Fault& fault, std::ostream* out) {
    *out << fault.name;
}

class EveryFault : public testing::TestWithParam<Fault> {};

TEST_P(EveryFault, IsSaidOnceWithItsLineAndIsNotProven) {
    const Drawing drawing = readDxf(GetParam().text);
    ASSERT_THAT(drawing.faults, SizeIs(1)) << drawing.faults[1].message;
    const DrawingFault& fault = drawing.faults[0];
    EXPECT_EQ(fault.code, GetParam().code);
    EXPECT_EQ(fault.line, GetParam().line) << fault.message;
    EXPECT_TRUE(fault.unproven);
    EXPECT_THAT(fault.message, HasSubstr(GetParam().says));
    EXPECT_THAT(fault.remedy, HasSubstr(GetParam().remedy));
}

INSTANTIATE_TEST_SUITE_P(
    Faults, EveryFault,
    testing::Values(
        Fault{"nothing", "", "drawing-not-dxf", 1, "does not begin", "ASCII DXF"},
        Fault{"a program", "%\nO1234\nG00 X100\n", "drawing-not-dxf", 1, "group code", "ASCII DXF"},
        Fault{"binary", std::string("binary\0\0", 8), "drawing-not-dxf", 0, "binary", "ASCII DXF"},
        Fault{"nothing drawn", dxf("0 SECTION|2 ENTITIES|0 ENDSEC|0 EOF"), "drawing-empty", 0, "No line", "model"},
        Fault{"cut short", inModel(kLine).substr(0, 100), "drawing-cut-short", 26, "EOF", "anew"},
        Fault{"out of step", inModel(kLine + "|part"), "drawing-not-dxf", 27, "group code", "anew"},
        Fault{"letters for a number", inModel("0 LINE|8 part|10 0|20 abc|11 10|21 5"), "drawing-bad-number", 22,
              "\"abc\" for its group 20", "anew"},
        Fault{"end missing", inModel("0 LINE|8 part|10 0|20 0|11 10"), "drawing-bad-number", 16, "no group 21", "anew"},
        Fault{"not a number", inModel("0 LINE|10 0|20 nan|11 10|21 5"), "drawing-bad-number", 20, "\"nan\"", ""},
        Fault{"radius of nothing", inModel("0 CIRCLE|10 0|20 0|40 0"), "drawing-bad-number", 22, "group 40", ""},
        Fault{"far away", inModel("0 LINE|10 0|20 1e9|11 10|21 5"), "drawing-bad-number", 16, "1e+06 mm", "unit"},
        Fault{"corners missing", inModel("0 LWPOLYLINE|90 3|70 1|10 0|20 0|10 1|20 1"), "drawing-bad-number", 18,
              "says that it has 3 corners and holds 2", "cut short"},
        Fault{"corner without y", inModel("0 LWPOLYLINE|10 0|20 0|10 1|10 2|20 1"), "drawing-bad-number", 24,
              "group 10", ""},
        Fault{"ellipse", inModel("0 ELLIPSE|10 0|20 0|11 5|21 0|40 0.5|" + kLine + "|0 ELLIPSE|10 3|20 0"),
              "drawing-entity-not-understood", 16, "2 ELLIPSE entities", "arcs"},
        Fault{"spline", inModel(kLine + "|0 SPLINE|70 8"), "drawing-entity-not-understood", 28, "1 SPLINE entity",
              "arcs"},
        Fault{"block", inModel(kLine + "|0 INSERT|2 BOLT|10 0|20 0"), "drawing-entity-not-understood", 28, "INSERT",
              "Explode"},
        Fault{"tilted arc", inModel(kLine + "|0 ARC|10 0|20 0|40 1|50 0|51 90|210 1|220 0|230 0"),
              "drawing-entity-not-understood", 28, "1 ARC", "one plane"},
        Fault{"line out of the plane", inModel(kLine + "|0 LINE|10 0|20 0|30 0|11 1|21 1|31 1"),
              "drawing-entity-not-understood", 28, "1 LINE", "one plane"},
        Fault{"mesh", inModel(kLine + "|0 POLYLINE|70 16|0 VERTEX|10 0|20 0|0 VERTEX|10 1|20 1|0 SEQEND"),
              "drawing-entity-not-understood", 28, "1 POLYLINE", ""},
        Fault{"unknown unit", inModel(kLine, "9 $INSUNITS|70 2"), "drawing-unit-not-understood", 8, "$INSUNITS is 2",
              "set-up"},
        Fault{"imperial without unit", inModel(kLine, "9 $MEASUREMENT|70 0"), "drawing-unit-not-said", 0, "inches",
              "set-up"}),
    [](const auto& row) {
        std::string name = row.param.name;
        for (char& c : name) c = c == ' ' ? '_' : c;
        return name;
    });

TEST(DxfReader, ADrawingWithoutUnitIsInMillimetresAndSaysSo) {
    const Drawing drawing = readDxf(inModel(kLine, "9 $MEASUREMENT|70 1"));
    ASSERT_THAT(drawing.faults, SizeIs(1));
    EXPECT_EQ(drawing.faults[0].severity, Severity::Note);
    EXPECT_FALSE(drawing.faults[0].unproven);
    EXPECT_EQ(drawing.paths[0].corners[1].at, (Point{10, 5}));
    // Unless whoever asks knows better.
    const Drawing inch = readDxf(inModel(kLine, "9 $MEASUREMENT|70 1"), {{}, DrawingUnit::Inch});
    EXPECT_THAT(inch.faults, IsEmpty());
    EXPECT_EQ(inch.paths[0].corners[1].at, (Point{254, 127}));
}

TEST(DxfReader, ReadsOneLayerIfAskedTo) {
    const std::string text = inModel(kLine + "|0 SPLINE|8 helping|0 LINE|8 helping|10 0|20 0|11 1|21 1");
    EXPECT_THAT(readDxf(text).faults, SizeIs(1));
    const Drawing part = readDxf(text, {"PART", {}});
    EXPECT_THAT(part.faults, IsEmpty());
    EXPECT_THAT(part.paths, SizeIs(1));
    const Drawing none = readDxf(text, {"outline", {}});
    ASSERT_THAT(none.faults, SizeIs(1));
    EXPECT_EQ(none.faults[0].code, "drawing-layer-missing");
    EXPECT_THAT(none.faults[0].remedy, HasSubstr("helping, part"));
}

TEST(DxfReader, WritingAndLayoutsAreLeftOutWithANote) {
    const Drawing drawing = readDxf(inModel(kLine + "|0 TEXT|10 0|20 0|1 M8|0 CIRCLE|67 1|10 0|20 0|40 3"));
    EXPECT_THAT(drawing.paths, SizeIs(1));
    ASSERT_THAT(drawing.faults, SizeIs(2));
    for (const DrawingFault& fault : drawing.faults) {
        EXPECT_EQ(fault.severity, Severity::Note);
        EXPECT_FALSE(fault.unproven);
    }
}

// Half circles either way, by hand: anticlockwise from (1, 0) to (-1, 0) goes over the top.
TEST(DxfReader, BulgesAndArcsTurnTheWayTheyAreDrawn) {
    const Drawing up = readDxf(inModel("0 LWPOLYLINE|70 0|10 1|20 0|42 1|10 -1|20 0"));
    const Drawing arc = readDxf(inModel("0 ARC|10 0|20 0|40 1|50 0|51 180"));
    const Drawing down = readDxf(inModel("0 LWPOLYLINE|70 0|10 1|20 0|42 -1|10 -1|20 0"));
    EXPECT_EQ(up.paths[0].corners, (Contour{{{1, 0}, 1}, {{-1, 0}, 0}}));
    EXPECT_NEAR(arc.paths[0].corners[0].bulge, 1, 1e-15);
    EXPECT_EQ(arc.paths[0].corners[1].at, (Point{-1, 0}));
    EXPECT_EQ(down.paths[0].corners[0].bulge, -1);
    // Seen from behind, x and the sense of turning are the other way.
    const Drawing behind = readDxf(inModel("0 LWPOLYLINE|70 0|10 1|20 0|42 1|10 -1|20 0|210 0|220 0|230 -1"));
    EXPECT_EQ(behind.paths[0].corners, (Contour{{{-1, 0}, -1}, {{1, 0}, 0}}));
}

TEST(DxfReader, AClosedPolylineThatRepeatsItsFirstCornerHasNoEdgeOfNoLength) {
    const Drawing drawing = readDxf(inModel("0 LWPOLYLINE|70 1|10 0|20 0|10 4|20 0|42 1|10 4|20 3|10 0|20 0|42 0.5"));
    EXPECT_EQ(drawing.paths[0].corners, (Contour{{{0, 0}, 0}, {{4, 0}, 1}, {{4, 3}, 0}}));
    EXPECT_TRUE(drawing.paths[0].closed);
}

}  // namespace
}  // namespace firstoff
