// Drawings of parts as they come: what can be taken, and what is said where they cannot.
#include "sim/setup/wanted_drawing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "sim/base/contour_geometry.h"
#include "sim/drawing/dxf_writer.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

// Spigot Ø20 x 12 on a flange Ø30 x 8, upper half; with a rounding of 2 in the shoulder.
Contour spigot() {
    return {{{-20, 0}, 0},  {{0, 0}, 0},    {{0, 10}, 0},  {{-10, 10}, std::tan(std::acos(-1.0) / 8)},
            {{-12, 12}, 0}, {{-12, 15}, 0}, {{-20, 15}, 0}};
}

Contour moved(Contour contour, Point by) {
    for (ContourCorner& corner : contour) corner.at = corner.at + by;
    return contour;
}

Contour scaled(Contour contour, double by) {
    for (ContourCorner& corner : contour) corner.at = by * corner.at;
    return contour;
}

// Drawn on both sides: down the upper half and back along the lower.
Contour bothSides() {
    const Contour half = spigot();
    Contour whole(half.begin() + 2, half.end());
    for (std::size_t i = half.size(); i-- > 2;) {
        const double bulge = i > 2 ? half[i - 1].bulge : 0;
        whole.push_back({{half[i].at.z, -half[i].at.r}, bulge});
    }
    return whole;
}

DrawnPath closed(Contour contour, std::string layer = "PART") {
    return {std::move(contour), true, std::move(layer), 0};
}

DrawnPath line(Point a, Point b) {
    return {{{a, 0}, {b, 0}}, false, "PART", 0};
}

firstoff::Setup read(const std::string& text, const std::string& layer = {}, const std::string& unit = {}) {
    auto setup = shop::barStock(32, 60);
    setup.wanted.file = "part.dxf";
    setup.wanted.layer = layer;
    setup.wanted.unit = unit;
    setup.wanted.span = {SourceSpan::File::Setup, 40, 8, 10, 0};
    return withWantedDrawing(std::move(setup), text);
}

std::string codes(const firstoff::Setup& setup) {
    std::string text;
    for (const Finding& f : setup.findings) text += (text.empty() ? "" : " ") + f.code;
    return text;
}

void expectSpigot(const firstoff::Setup& setup) {
    ASSERT_EQ(setup.wanted.outline.size(), 1u) << codes(setup);
    const Contour& outline = setup.wanted.outline[0];
    EXPECT_GT(areaOf(outline), 0) << "metal to the left";
    EXPECT_NEAR(areaOf(outline), areaOf(spigot()), 1e-9);
    const Box box = boundingBox(setup.wanted.outline);
    EXPECT_NEAR(box.zMin, -20, 1e-9);
    EXPECT_NEAR(box.rMax, 15, 1e-9);
    EXPECT_NEAR(box.rMin, 0, 1e-9);
}

TEST(WantedDrawing, IsTakenAsItIsDrawn) {
    const auto setup = read(dxfText({closed(spigot())}));
    expectSpigot(setup);
    EXPECT_EQ(codes(setup), "");
    expectSpigot(read(dxfText({closed(mirroredInZ(mirroredInZ(spigot(), 0), 0))})));
}

TEST(WantedDrawing, MayBeDrawnClockwiseAndInLooseLines) {
    const Contour c = spigot();
    std::vector<DrawnPath> paths;
    for (std::size_t i = 1; i + 1 < c.size(); ++i) {  // without the axis
        paths.push_back({{{c[i].at, c[i].bulge}, {c[i + 1].at, 0}}, false, "PART", 0});
    }
    paths.push_back(line(c.back().at, c.front().at));
    std::reverse(paths.begin(), paths.end());
    paths.push_back(line({-25, 0}, {5, 0}));  // centre line
    expectSpigot(read(dxfText(paths)));
}

TEST(WantedDrawing, DrawnOnBothSidesIsTakenForItsUpperHalf) {
    const auto setup = read(dxfText({closed(bothSides())}));
    expectSpigot(setup);
    EXPECT_EQ(codes(setup), "setup-drawing-both-sides");
    EXPECT_EQ(setup.findings[0].severity, Severity::Note);
}

TEST(WantedDrawing, TurnedTubesAreTwoOutlinesOfWhichTheUpperIsTaken) {
    const Contour upper{{{-20, 5}, 0}, {{0, 5}, 0}, {{0, 10}, 0}, {{-20, 10}, 0}};
    const Contour lower{{{-20, -5}, 0}, {{0, -5}, 0}, {{0, -10}, 0}, {{-20, -10}, 0}};
    const auto setup = read(dxfText({closed(upper), closed(lower)}));
    EXPECT_EQ(codes(setup), "setup-drawing-both-sides");
    ASSERT_EQ(setup.wanted.outline.size(), 1u);
    EXPECT_NEAR(areaOf(setup.wanted.outline[0]), 100, 1e-9);
}

TEST(WantedDrawing, UnitsAreTakenFromTheFileOrTheSetUp) {
    expectSpigot(read(dxfText({closed(spigot())}, DrawingUnit::Inch)));  // written in inches, and says so
    const std::string bare = dxfText({closed(scaled(spigot(), 1 / 25.4))}, DrawingUnit::NotSaid);
    expectSpigot(read(bare, {}, "inch"));
}

struct Refused {
    const char* what;
    std::string text;
    const char* code;
    const char* says;
};

std::string withEntity(const std::string& entity) {
    std::string text = dxfText({closed(spigot())});
    const std::string mark = "ENTITIES\n";
    const std::size_t at = text.find(mark) + mark.size();
    return text.insert(at, entity);
}

TEST(WantedDrawing, SaysWhatCannotBeTaken) {
    Contour below = spigot();
    below[0].at.r = below[1].at.r = -3;
    Contour open = spigot();
    std::vector<DrawnPath> gap;
    for (std::size_t i = 0; i < open.size(); ++i) gap.push_back(line(open[i].at, edgeEnd(open, i)));
    gap[3].corners[0].at.z -= 0.2;
    const Refused kRows[] = {
        {"an inch taken for a mm", dxfText({closed(scaled(spigot(), 1 / 25.4))}, DrawingUnit::Millimetre),
         "setup-drawing-size", "far too small for it"},
        {"mm taken for inches", dxfText({closed(scaled(spigot(), 25.4))}), "setup-drawing-size", "does not fit"},
        {"two views", dxfText({closed(spigot()), closed(moved(spigot(), {40, 0}), "OTHER")}),
         "setup-drawing-two-outlines", "2 closed outlines side by side"},
        {"an axis that is not at y 0", dxfText({closed(below)}), "setup-drawing-below-axis", "3 mm below the axis"},
        {"a gap", dxfText(gap), "drawing-open-end", "0.2"},
        {"nothing", dxfText({}), "drawing-empty", "No line"},
        {"not a drawing", "solid part", "drawing-not-dxf", "group code"}};
    for (const Refused& row : kRows) {
        SCOPED_TRACE(row.what);
        const auto setup = read(row.text);
        EXPECT_TRUE(setup.wanted.outline.empty());
        EXPECT_TRUE(setup.wanted.fileRead);
        const auto found = std::find_if(setup.findings.begin(), setup.findings.end(),
                                        [&](const Finding& f) { return f.code == row.code; });
        ASSERT_NE(found, setup.findings.end()) << codes(setup);
        EXPECT_THAT(found->message, testing::HasSubstr(row.says));
        EXPECT_THAT(found->message, testing::HasSubstr("part.dxf"));
        EXPECT_EQ(found->span.line, 40u);
        EXPECT_EQ(verdictOf(setup.findings) == Verdict::Clear, false);
    }
}

// With the line of the drawing, its layer and what to do.
TEST(WantedDrawing, SplinesAndEllipsesAreNamedWithTheirLine) {
    for (const char* entity : {"SPLINE", "ELLIPSE"}) {
        const auto setup = read(withEntity(std::string("0\n") + entity + "\n8\nPART\n"));
        const auto found = std::find_if(setup.findings.begin(), setup.findings.end(),
                                        [](const Finding& f) { return f.code == "drawing-entity-not-understood"; });
        ASSERT_NE(found, setup.findings.end()) << entity << ": " << codes(setup);
        EXPECT_TRUE(found->unproven);
        EXPECT_THAT(found->message, testing::HasSubstr(entity));
        EXPECT_THAT(found->message, testing::HasSubstr("line "));
        EXPECT_THAT(found->message, testing::HasSubstr("PART"));
        EXPECT_FALSE(found->remedy.empty());
    }
}

TEST(WantedDrawing, ALayerPicksOneOfTwoOutlines) {
    const std::string two = dxfText({closed(moved(spigot(), {40, 0}), "OTHER"), closed(spigot(), "SECTION")});
    EXPECT_EQ(codes(read(two)), "setup-drawing-two-outlines");
    EXPECT_THAT(read(two).findings[0].remedy, testing::HasSubstr("layer"));
    expectSpigot(read(two, "SECTION"));
}

// Any stepped outline, written and read: within rounding of where it was.
RC_GTEST_PROP(WantedDrawing, RandomOutlinesComeBackWithinAMicrometre, ()) {
    Contour part{{{0, 0}, 0}};
    double z = 0;
    const int steps = *rc::gen::inRange(1, 8);
    for (int i = 0; i < steps; ++i) {
        const double r = *rc::gen::inRange(1000, 15900) / 1e3;
        part.push_back({{z, r}, 0});
        z -= *rc::gen::inRange(500, 6000) / 1e3;
        part.push_back({{z, r}, *rc::gen::element(0.0, 0.2, -0.2)});
    }
    part.push_back({{z - 0.5, 1}, 0});
    part.push_back({{z - 0.5, 0}, 0});
    const auto unit = *rc::gen::element(DrawingUnit::Millimetre, DrawingUnit::Inch, DrawingUnit::Centimetre);
    const auto setup = read(dxfText({closed(part)}, unit));
    RC_PRE(setup.findings.empty());  // bulges may cross the axis or each other
    RC_ASSERT(setup.wanted.outline.size() == 1u);
    const Contour& got = setup.wanted.outline[0];
    for (const ContourCorner& corner : part) {
        const bool there = std::any_of(got.begin(), got.end(),
                                       [&](const ContourCorner& c) { return distance(c.at, corner.at) < 0.001; });
        RC_ASSERT(there);
    }
}

}  // namespace
}  // namespace firstoff
