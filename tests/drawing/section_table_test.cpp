// Half-sections from tables of points.
#include "sim/drawing/section_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

const std::string kTable =
    "piece,loop,z_mm,r_mm\n"
    "0,0,-40,0\n0,0,0,0\n0,0,0,20\n0,0,-40,20\n0,0,-40,0\n"
    "0,1,-30,5\n0,1,-20,5\n0,1,-20,8\n0,1,-30,5\n"
    "1,0,5,0\n1,0,9,0\n1,0,9,12.5\n1,0,5,0\n";

TEST(SectionTable, HoldsTheLoopsOfOnePiece) {
    const Drawing held = readSectionTable(kTable);
    EXPECT_THAT(held.faults, IsEmpty());
    ASSERT_THAT(held.paths, SizeIs(2));
    EXPECT_TRUE(held.paths[0].closed);
    EXPECT_EQ(held.paths[0].corners, (Contour{{{-40, 0}, 0}, {{0, 0}, 0}, {{0, 20}, 0}, {{-40, 20}, 0}}));
    EXPECT_EQ(held.paths[1].line, 7u);
    EXPECT_THAT(readSectionTable(kTable, 1).paths, SizeIs(1));
}

TEST(SectionTable, TakesReturns) {
    std::string text = "\xEF\xBB\xBF";
    for (char c : kTable) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
    EXPECT_THAT(readSectionTable(text).paths, SizeIs(2));
}

struct BadTable {
    const char* name;
    std::string text;
    const char* code;
    std::size_t line;
    const char* says;
};

void PrintTo(const BadTable& table, std::ostream* out) {
    *out << table.name;
}

class EveryBadTable : public testing::TestWithParam<BadTable> {};

TEST_P(EveryBadTable, IsOneFault) {
    const Drawing drawing = readSectionTable(GetParam().text);
    EXPECT_THAT(drawing.paths, IsEmpty());
    ASSERT_THAT(drawing.faults, SizeIs(1));
    EXPECT_EQ(drawing.faults[0].code, GetParam().code);
    EXPECT_EQ(drawing.faults[0].line, GetParam().line);
    EXPECT_THAT(drawing.faults[0].message, HasSubstr(GetParam().says));
    EXPECT_TRUE(drawing.faults[0].unproven);
}

const std::string kHead = "piece,loop,z_mm,r_mm\n";

INSTANTIATE_TEST_SUITE_P(
    Tables, EveryBadTable,
    testing::Values(BadTable{"nothing", "", "drawing-not-a-section", 1, "first line"},
                    BadTable{"other_heading", "z,r\n1,2\n", "drawing-not-a-section", 1, "piece,loop"},
                    BadTable{"only_the_heading", kHead, "drawing-empty", 0, "no loop of piece 0"},
                    BadTable{"other_piece", kHead + "3,0,0,0\n3,0,1,0\n3,0,1,1\n", "drawing-empty", 0, "piece 0"},
                    BadTable{"short_row", kHead + "0,0,1\n", "drawing-bad-number", 2, "0,0,1"},
                    BadTable{"long_row", kHead + "0,0,1,2,3\n", "drawing-bad-number", 2, "0,0,1,2,3"},
                    BadTable{"decimal_comma", kHead + "0,0,\"1,5\",2\n", "drawing-bad-number", 2, "row"},
                    BadTable{"not_a_number", kHead + "0,0,nan,2\n", "drawing-bad-number", 2, "nan"},
                    BadTable{"a_line", kHead + "0,0,1,2\n0,0,2,2\n0,0,1,2\n", "drawing-empty", 2, "three points"}),
    [](const auto& row) { return std::string(row.param.name); });

RC_GTEST_PROP(SectionTable, AnyMistypedBytesEnd, ()) {
    std::string text = kTable;
    const int slips = *rc::gen::inRange(1, 6);
    for (int i = 0; i < slips; ++i) {
        const auto at = static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(text.size())));
        text[at] = *rc::gen::arbitrary<char>();
    }
    const Drawing drawing = readSectionTable(text);
    for (const DrawnPath& path : drawing.paths) RC_ASSERT(path.corners.size() >= 3u);
    RC_ASSERT(!drawing.paths.empty() || !drawing.faults.empty());
}

}  // namespace
}  // namespace firstoff
