// Drawings on paper: lettering, scales, hatching, dimension lines.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "sim/output/sheets/sheet_html.h"
#include "sim/output/sheets/sketch_marks.h"
#include "tests/output/sheets/paper_reader.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

std::vector<Lettering> letters(const Sketch& sketch) {
    std::vector<Lettering> found;
    for (const SketchMark& mark : sketch.marks) {
        if (const auto* l = std::get_if<Lettering>(&mark)) found.push_back(*l);
    }
    return found;
}

TEST(Lettering, IsAsWideAsItsLetters) {
    // Widths in thousandths of the type size from the font file of DejaVu Sans: 0 is 636, M 863, space 318; capitals
    // are 729 high.
    EXPECT_NEAR(letteringWidth("0", 2.5), 0.636 * 2.5 / 0.729, 1e-9);
    EXPECT_NEAR(letteringWidth("M 0", 2.5), (0.863 + 0.318 + 0.636) * 2.5 / 0.729, 1e-9);
    EXPECT_EQ(letteringWidth("", 2.5), 0);
    // Never told too narrow: Ø is 787.
    EXPECT_GE(letteringWidth("Ø", 2.5), 0.787 * 2.5 / 0.729);
}

struct Scale {
    double length, room;
    const char* scale;
};
class Scales : public testing::TestWithParam<Scale> {};
TEST_P(Scales, AreTheStandardOnes) {
    EXPECT_EQ(scaleInWords(standardScale(GetParam().length, GetParam().room)), GetParam().scale);
}
INSTANTIATE_TEST_SUITE_P(Table, Scales,
                         testing::Values(Scale{100, 100, "1:1"}, Scale{101, 100, "1:2"}, Scale{240, 100, "1:2.5"},
                                         Scale{251, 100, "1:5"}, Scale{50, 100, "2:1"}, Scale{20, 100, "5:1"},
                                         Scale{1, 100, "10:1"}, Scale{1e6, 100, "1:100"}));

TEST(Hatching, CoversTheMetalAndLeavesTheHole) {
    Sketch sketch;
    const std::vector<PaperPoint> outer{{0, 0}, {40, 0}, {40, 30}, {0, 30}},
        hole{{10, 10}, {30, 10}, {30, 20}, {10, 20}};
    addHatching(sketch, {outer, hole}, 1, true);
    double length = 0;
    for (const SketchMark& mark : sketch.marks) {
        const auto& p = std::get<Stroke>(mark).points;
        EXPECT_NEAR(p[1].x - p[0].x, p[0].y - p[1].y, 1e-9) << "rises to the right";
        const double x = (p[0].x + p[1].x) / 2, y = (p[0].y + p[1].y) / 2;
        EXPECT_FALSE(x > 10 && x < 30 && y > 10 && y < 20);
        length += std::hypot(p[1].x - p[0].x, p[1].y - p[0].y);
    }
    // Lines 1 mm apart over 1000 mm2; each end may be off by half a line.
    EXPECT_NEAR(length, 1000, 0.5 * static_cast<double>(sketch.marks.size()));
}

TEST(DimensionLines, StandOnLevelsOfTheirOwn) {
    // Two short ones side by side share a level, one over both stands further out.
    std::vector<LevelSpan> spans{{0, 50, 0}, {0, 20, 0}, {25, 45, 0}};
    EXPECT_EQ(spreadLevels(spans), 2);
    EXPECT_EQ(spans[0].level, 1);
    EXPECT_EQ(spans[1].level, 0);
    EXPECT_EQ(spans[2].level, 0);
}

TEST(DimensionLines, PutTextBesideWhereItIsTooWide) {
    Sketch wide, narrow;
    addLevelDimension(wide, 0, 0, 60, 0, 10, "stick-out 65");
    addLevelDimension(narrow, 0, 0, 5, 0, 10, "stick-out 65");
    EXPECT_EQ(letters(wide)[0].anchor, Lettering::Anchor::Middle);
    EXPECT_NEAR(letters(wide)[0].at.x, 30, 1e-9);
    EXPECT_GT(letters(narrow)[0].at.x, 5);
    // What is said of its room holds.
    const LevelSpan span = spanOfDimension(0, 5, "stick-out 65");
    EXPECT_GE(span.x1, letters(narrow)[0].at.x + letteringWidth("stick-out 65", kLetterMm));
}

TEST(Clipping, KeepsWhatIsWithin) {
    const std::vector<Point> square{{-10, -10}, {10, -10}, {10, 10}, {-10, 10}};
    const std::vector<Point> kept = clipped(square, {0, 5, -3, 20});
    ASSERT_EQ(kept.size(), 4u);
    for (Point p : kept) {
        EXPECT_TRUE(p.z == 0 || p.z == 5) << p.z;
        EXPECT_TRUE(p.r == -3 || p.r == 10) << p.r;
    }
    EXPECT_TRUE(clipped(square, {20, 30, 20, 30}).empty());
}

TEST(SketchAsSvg, IsWellFormedWhateverIsWritten) {
    Sketch sketch;
    sketch.title = "<script>alert(\"1\")</script> & \x01 \xff";
    sketch.width = 50;
    sketch.height = 20;
    addText(sketch, {1, 10}, "\"/><script>1</script> Ø48 h7 – 日本 \x80");
    addDatumMark(sketch, {10, 10});
    const std::string svg = sketchSvg(sketch);
    EXPECT_EQ(shop::xmlComplaints(svg), "");
    EXPECT_THAT(svg, testing::Not(HasSubstr("<script")));
    EXPECT_THAT(svg, HasSubstr("viewBox=\"0 0 50 20\""));
    EXPECT_THAT(svg, HasSubstr("Ø48 h7 – 日本 ?"));
}

}  // namespace
}  // namespace firstoff
