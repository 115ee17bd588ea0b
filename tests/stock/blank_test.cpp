// Blanks as columns, against what is known of their sections: closed forms, Pappus, and the area of their outlines.
#include "sim/stock/blank.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <random>

#include "sim/base/contour_geometry.h"
#include "sim/base/units.h"

namespace firstoff {
namespace {

using testing::IsEmpty;
using testing::SizeIs;

Stock barOf(Stock::Shape shape, double size, double eccentricity = 0, double bore = 0) {
    Stock stock;
    stock.shape = shape;
    stock.eccentricity = eccentricity;
    stock.boreRadius = bore / 2;
    stock.frontZ = 100;
    if (shape == Stock::Shape::Round) {
        stock.outerRadius = size / 2 + eccentricity;
    } else {
        stock.acrossFlats = size;
        stock.outerRadius = size + eccentricity;
    }
    return stock;
}

Stock drawn(Stock::Shape shape, std::vector<Contour> contours) {
    Stock stock;
    stock.shape = shape;
    stock.frontZ = 100;
    (shape == Stock::Shape::CrossSection ? stock.crossSection : stock.halfSection) = std::move(contours);
    return stock;
}

// Area of the section across the axis from many rays: half the square of the radius for every step of the angle. The
// steps miss the corners by half a step at most, which is 1e-4 of a turn here, and its square of the area.
constexpr int kRays = 264 * 40;
constexpr double kRaysExact = 2e-7;

double areaByRays(const Stock& stock) {
    const Blank blank(stock);
    double area = 0;
    for (int i = 0; i < kRays; ++i) {
        for (const Interval& solid : blank.column(50, 2 * kPi * i / kRays)) {
            area += (solid.outer - solid.inner) * (solid.outer + solid.inner) / 2;
        }
    }
    return area * 2 * kPi / kRays;
}

struct Section {
    const char* name;
    Stock stock;
    double area;
};

void PrintTo(const Section& section, std::ostream* out) {
    *out << section.name;
}

class EverySection : public testing::TestWithParam<Section> {};

TEST_P(EverySection, HasItsArea) {
    // Circles that the axis does not lie in, bores too, are met tangentially by some rays: a power 3/2 of the step.
    const Stock& stock = GetParam().stock;
    const bool outside =
        stock.eccentricity > stock.outerRadius / 2 || (stock.boreRadius > 0 && stock.eccentricity > stock.boreRadius);
    EXPECT_NEAR(areaByRays(stock) / GetParam().area, 1, outside ? 1e-4 : kRaysExact);
}

constexpr auto kRound = Stock::Shape::Round;
constexpr auto kHexagon = Stock::Shape::Hexagon;
constexpr auto kSquare = Stock::Shape::Square;

INSTANTIATE_TEST_SUITE_P(
    Sections, EverySection,
    testing::Values(Section{"round", barOf(kRound, 40), 400 * kPi},
                    Section{"tube", barOf(kRound, 40, 0, 20), 300 * kPi},
                    Section{"eccentric_bar", barOf(kRound, 40, 3), 400 * kPi},
                    Section{"eccentric_tube", barOf(kRound, 40, 3, 20), 300 * kPi},
                    Section{"bar_beside_the_axis", barOf(kRound, 10, 12), 25 * kPi},
                    Section{"tube_whose_bore_misses_the_axis", barOf(kRound, 40, 12, 10), 375 * kPi},
                    // Across flats s: hexagon sqrt(3) / 2 s^2, square s^2.
                    Section{"hexagon", barOf(kHexagon, 36), std::sqrt(3.0) / 2 * 36 * 36},
                    Section{"bored_hexagon", barOf(kHexagon, 36, 0, 12), std::sqrt(3.0) / 2 * 36 * 36 - 36 * kPi},
                    Section{"eccentric_hexagon", barOf(kHexagon, 36, 5), std::sqrt(3.0) / 2 * 36 * 36},
                    Section{"square", barOf(kSquare, 30), 900},
                    Section{"eccentric_bored_square", barOf(kSquare, 30, 4, 10), 900 - 25 * kPi}),
    [](const auto& row) { return std::string(row.param.name); });

TEST(Blank, AFlatLooksTowardsTheAngleNought) {
    const Blank hexagon(barOf(kHexagon, 36));
    const Blank square(barOf(kSquare, 30));
    for (int k = 0; k < 6; ++k) {
        EXPECT_NEAR(hexagon.column(0, k * kPi / 3)[0].outer, 18, 1e-12);
        EXPECT_NEAR(hexagon.column(0, (k + 0.5) * kPi / 3)[0].outer, 36 / std::sqrt(3.0), 1e-12);
    }
    for (int k = 0; k < 4; ++k) {
        EXPECT_NEAR(square.column(0, k * kPi / 2)[0].outer, 15, 1e-12);
        EXPECT_NEAR(square.column(0, (k + 0.5) * kPi / 2)[0].outer, 15 * std::sqrt(2.0), 1e-12);
    }
}

TEST(Blank, FlatsAndCornersStandOnSectors) {
    EXPECT_EQ(wantedSectors(barOf(kRound, 40)), 1);
    EXPECT_EQ(wantedSectors(drawn(Stock::Shape::HalfSection, {})), 1);
    EXPECT_EQ(wantedSectors(barOf(kRound, 40, 1)), 256);
    EXPECT_EQ(wantedSectors(drawn(Stock::Shape::CrossSection, {})), 256);
    const int sectors = wantedSectors(barOf(kHexagon, 36));
    EXPECT_EQ(sectors, wantedSectors(barOf(kSquare, 36)));
    EXPECT_EQ(sectors % 12, 0);
    EXPECT_EQ(sectors % 8, 0);
}

RC_GTEST_PROP(Blank, RolledBarsAreTheSameOnBothSidesToTheLastBit, (unsigned seed)) {
    std::mt19937 rng(seed);
    std::uniform_real_distribution<double> share(0, 1);
    const auto shape = std::array{kRound, kHexagon, kSquare}[rng() % 3];
    const Stock stock = barOf(shape, 30, 30 * share(rng), 20 * share(rng));
    const double angle = 10 * share(rng);
    const auto right = blankColumn(stock, 0, angle);
    const auto left = blankColumn(stock, 0, -angle);
    RC_ASSERT(right.size() == left.size());
    for (std::size_t i = 0; i < right.size(); ++i) {
        RC_ASSERT(right[i].inner == left[i].inner);
        RC_ASSERT(right[i].outer == left[i].outer);
        RC_ASSERT(right[i].inner >= 0 && right[i].outer > right[i].inner);
        RC_ASSERT(right[i].outer <= stock.outerRadius + 1e-9);
    }
}

// ---- cross-sections ----

Contour circle(Point centre, double radius) {
    return {{centre + Point{radius, 0}, 1}, {centre - Point{radius, 0}, 1}};
}

TEST(Blank, ADrawnCircleIsAnEccentricBar) {
    const Blank bar(barOf(kRound, 40, 3));
    const Blank section(drawn(Stock::Shape::CrossSection, {circle({3, 0}, 20)}));
    for (int i = 0; i < 1000; ++i) {
        const double angle = 0.0063 * i;
        ASSERT_THAT(section.column(0, angle), SizeIs(1));
        EXPECT_NEAR(section.column(0, angle)[0].outer, bar.column(0, angle)[0].outer, 1e-12);
        EXPECT_EQ(section.column(0, angle)[0].inner, 0);
    }
}

TEST(Blank, ADrawnHexagonIsAHexagon) {
    Contour corners;
    for (int k = 0; k < 6; ++k) {
        const double angle = kPi / 6 + k * kPi / 3;
        corners.push_back({{36 / std::sqrt(3.0) * std::cos(angle), 36 / std::sqrt(3.0) * std::sin(angle)}, 0});
    }
    const Blank hexagon(barOf(kHexagon, 36, 0, 10));
    const Blank section(drawn(Stock::Shape::CrossSection, {corners, circle({0, 0}, 5)}));
    for (int i = 0; i < 1000; ++i) {
        const double angle = 0.0063 * i;
        ASSERT_THAT(section.column(0, angle), SizeIs(1));
        EXPECT_NEAR(section.column(0, angle)[0].outer, hexagon.column(0, angle)[0].outer, 1e-12);
        EXPECT_NEAR(section.column(0, angle)[0].inner, 5, 1e-12);
    }
}

// The tool stands towards the angle 0. Under M03, anticlockwise seen from the front, what was drawn a quarter turn
// clockwise of x, at -y, comes to it next: sector angles grow that way.
TEST(Blank, SectorsGrowClockwiseSeenFromTheFront) {
    const Blank blank(drawn(Stock::Shape::CrossSection, {circle({0, 0}, 10), circle({0, -30}, 5), circle({30, 0}, 2)}));
    EXPECT_THAT(blank.column(0, kPi / 2), SizeIs(2));
    EXPECT_NEAR(blank.column(0, kPi / 2)[1].outer, 35, 1e-12);
    EXPECT_THAT(blank.column(0, -kPi / 2), SizeIs(1));
    EXPECT_NEAR(blank.column(0, 0)[1].inner, 28, 1e-12);
    EXPECT_NEAR(blank.column(0, 0)[1].outer, 32, 1e-12);
}

// Stars with bowed sides about a place near the axis, seldom holding it.
Contour star(std::mt19937& rng, Point about, double radius) {
    std::uniform_real_distribution<double> share(0.4, 1);
    std::uniform_real_distribution<double> bulge(-0.3, 0.3);
    const int corners = 5 + static_cast<int>(rng() % 12);
    Contour contour;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * kPi * i / corners;
        contour.push_back({about + radius * share(rng) * Point{std::cos(angle), std::sin(angle)}, bulge(rng)});
    }
    return contour;
}

// Edges with arcs add their segments to the polygon of their corners: a second way to the same area. Rays that pass
// along a corner or a bow miss it by a step, as above.
TEST(Blank, AnyCrossSectionHasTheAreaOfItsOutline) {
    std::mt19937 rng(3);
    for (int i = 0; i < 20; ++i) {
        const Contour contour = star(rng, {8.0 * (i % 3), 3}, 20);
        const double area = std::abs(areaOf(contour));
        EXPECT_NEAR(areaByRays(drawn(Stock::Shape::CrossSection, {contour})) / area, 1, 1e-4) << i;
    }
}

// ---- half-sections ----

constexpr double kStepMm = 0.002;

struct Swept {
    double area = 0, volume = 0;
};

Swept sweptBy(const Stock& stock, double from, double to) {
    const Blank blank(stock);
    Swept sum;
    for (double z = from + kStepMm / 2; z < to; z += kStepMm) {
        for (const Interval& solid : blank.column(z, 0)) {
            sum.area += (solid.outer - solid.inner) * kStepMm;
            sum.volume += kPi * (solid.outer - solid.inner) * (solid.outer + solid.inner) * kStepMm;
        }
    }
    return sum;
}

// Pappus: area times the way of its centroid. A circle's columns miss a power 3/2 of the step at its ends.
TEST(Blank, ARingHasTheVolumeOfPappus) {
    const Stock ring = drawn(Stock::Shape::HalfSection, {circle({50, 20}, 5)});
    EXPECT_NEAR(sweptBy(ring, 40, 60).volume / (2 * kPi * 20 * 25 * kPi), 1, 1e-5);
    const Stock hollow = drawn(Stock::Shape::HalfSection, {circle({50, 20}, 5), circle({50, 20}, 3)});
    EXPECT_NEAR(sweptBy(hollow, 40, 60).volume / (2 * kPi * 20 * 16 * kPi), 1, 1e-5);
    EXPECT_THAT(blankColumn(hollow, 50, 0), SizeIs(2));
    EXPECT_THAT(blankColumn(hollow, 54, 0), SizeIs(1));
    EXPECT_THAT(blankColumn(hollow, 44.9, 0), IsEmpty());
}

TEST(Blank, AConeAndASphereReachTheAxis) {
    const Stock cone = drawn(Stock::Shape::HalfSection, {{{{0, 0}, 0}, {{30, 0}, 0}, {{0, 10}, 0}}});
    EXPECT_NEAR(sweptBy(cone, 0, 30).volume, kPi * 100 * 30 / 3, 1e-4);
    const Stock sphere = drawn(Stock::Shape::HalfSection, {{{{-10, 0}, 0}, {{10, 0}, 1}}});
    EXPECT_NEAR(sweptBy(sphere, -10, 10).volume / (4000 * kPi / 3), 1, 1e-7);
    EXPECT_NEAR(blankColumn(sphere, 6, 0)[0].outer, 8, 1e-12);
    EXPECT_EQ(blankColumn(sphere, 6, 0)[0].inner, 0);
}

TEST(Blank, ALineOnTheBorderOfTwoOutlinesIsNoGap) {
    const Contour inner = {{{0, 0}, 0}, {{10, 0}, 0}, {{10, 5}, 0}, {{0, 5}, 0}};
    const Contour outer = {{{0, 5}, 0}, {{10, 5}, 0}, {{10, 9}, 0}, {{0, 9}, 0}};
    const auto column = blankColumn(drawn(Stock::Shape::HalfSection, {inner, outer}), 4, 0);
    ASSERT_THAT(column, SizeIs(1));
    EXPECT_EQ(column[0].outer, 9);
}

TEST(Blank, AnyHalfSectionHasTheAreaOfItsOutlineAndTurnedRoundToo) {
    std::mt19937 rng(11);
    for (int i = 0; i < 20; ++i) {
        const Contour contour = star(rng, {0, 60}, 25);
        const double area = std::abs(areaOf(contour));
        const Swept straight = sweptBy(drawn(Stock::Shape::HalfSection, {contour}), -40, 40);
        const Swept turned = sweptBy(drawn(Stock::Shape::HalfSection, {mirroredInZ(contour, 0)}), -40, 40);
        // Columns at corners and at the ends of bows are half a step off.
        EXPECT_NEAR(straight.area / area, 1, 1e-5) << i;
        EXPECT_NEAR(turned.area, straight.area, 1e-4) << i;
        EXPECT_NEAR(turned.volume / straight.volume, 1, 1e-6) << i;
    }
}

// Sorting edges into stretches along z leaves none out.
TEST(Blank, AnOutlineOfManyEdgesIsTheSameAsItsEdgesOneByOne) {
    Contour wave;
    for (int i = 0; i <= 5000; ++i) wave.push_back({{0.02 * i, 20 + std::sin(0.3 * i)}, 0});
    wave.push_back({{100, 0}, 0});
    wave.push_back({{0, 0}, 0});
    const Blank blank(drawn(Stock::Shape::HalfSection, {wave}));
    for (int i = 0; i < 5000; i += 7) {
        const auto column = blank.column(0.02 * i + 0.005, 0);
        ASSERT_THAT(column, SizeIs(1));
        const double expected = 20 + 0.75 * std::sin(0.3 * i) + 0.25 * std::sin(0.3 * (i + 1));
        EXPECT_NEAR(column[0].outer, expected, 1e-11);
        EXPECT_EQ(column[0].inner, 0);
    }
}

RC_GTEST_PROP(Blank, AnyContoursGiveOrderedStretches, (unsigned seed)) {
    std::mt19937 rng(seed);
    std::vector<Contour> contours;
    for (int i = 0; i < 3; ++i) {
        Contour contour;
        const int corners = 2 + static_cast<int>(rng() % 6);
        for (int k = 0; k < corners; ++k) {
            const auto whole = [&](int below) { return static_cast<double>(rng() % static_cast<unsigned>(below)); };
            // Whole figures, so that columns pass through corners and along edges.
            contour.push_back({{whole(10), whole(10)}, std::array{0.0, 1.0, -1.0, 0.5, -2.0}[rng() % 5]});
        }
        contours.push_back(contour);
    }
    for (const auto shape : {Stock::Shape::HalfSection, Stock::Shape::CrossSection}) {
        const Blank blank(drawn(shape, contours));
        for (int i = -20; i < 60; ++i) {
            double last = -1;
            for (const Interval& solid : blank.column(0.25 * i, kPi / 12 * i)) {
                RC_ASSERT(solid.inner >= 0 && solid.inner > last && solid.outer > solid.inner);
                RC_ASSERT(solid.innerCut == kUncut && solid.outerCut == kUncut);
                last = solid.outer;
            }
        }
    }
}

}  // namespace
}  // namespace firstoff
