// Gauging between picked features. Figures by hand, by plane geometry (common practice, no source).
#include "sim/inspection/feature_gauge.h"

#include <gtest/gtest.h>

#include <numbers>

namespace firstoff {
namespace {

using Kind = FeatureReading::Kind;

// A stepped pin: Ø20 over 30, a shoulder, Ø40 over 10, a chamfer 1 x 45 degrees at its end, a bore Ø8; and a groove
// whose bottom is a rounding of radius 2. Datum at its right-hand face, Z0 = 100.
PartOutline pin() {
    PartOutline outline;
    const double k = std::tan(std::numbers::pi / 4);  // half a turn, dipping inwards
    outline.add({{{60, 4}, 0},
                 {{100, 4}, 0},
                 {{100, 9}, 0},
                 {{99, 10}, 0},
                 {{84, 10}, -k},
                 {{80, 10}, 0},
                 {{70, 10}, 0},
                 {{70, 20}, 0},
                 {{60, 20}, 0}});
    return outline;
}

SectionFeature at(double z, double r) {
    const auto found = featureNear(pin(), {z, r}, 0.3, 1);
    EXPECT_TRUE(found);
    return found.value_or(SectionFeature{});
}

// The first reading's kind and value.
void expectFirst(const std::vector<FeatureReading>& readings, Kind kind, double value) {
    ASSERT_FALSE(readings.empty());
    EXPECT_EQ(readings.front().kind, kind);
    EXPECT_NEAR(readings.front().value, value, 1e-9);  // rounding of sizes below 200 mm
}

constexpr Point kDatum{100, 0};

TEST(FeatureGauge, ReadsWhatOneFeatureHas) {
    expectFirst(gaugeFeature(at(90, 10.4), kDatum), Kind::Diameter, 20);
    expectFirst(gaugeFeature(at(65, 3.8), kDatum), Kind::Diameter, 8);
    expectFirst(gaugeFeature(at(69.9, 15), kDatum), Kind::Position, -30);
    expectFirst(gaugeFeature(at(99.5, 9.5), kDatum), Kind::ConeAngle, std::numbers::pi / 2);
    expectFirst(gaugeFeature(at(82, 8.1), kDatum), Kind::Radius, 2);
    const auto corner = gaugeFeature(at(70.1, 19.9), kDatum);
    expectFirst(corner, Kind::Position, -30);
    EXPECT_NEAR(corner.front().second, 40, 1e-9);
}

TEST(FeatureGauge, GaugesBetweenTwo) {
    expectFirst(gaugeBetween(at(90, 10), at(65, 20), kDatum), Kind::WallApart, 10);
    expectFirst(gaugeBetween(at(70, 15), at(100, 6), kDatum), Kind::LengthAlong, 30);
    expectFirst(gaugeBetween(at(90, 10), at(99.5, 9.5), kDatum), Kind::AngleBetween, std::numbers::pi / 4);
    expectFirst(gaugeBetween(at(60, 20), at(100, 9), kDatum), Kind::LengthAlong, 40);  // corner to corner
    expectFirst(gaugeBetween(at(82, 8), at(100, 6), kDatum), Kind::LengthAlong, 18);   // centre to face
    // A corner square to the chamfer: the line z + r = 109, the corner (70, 20), so 19 / sqrt 2.
    expectFirst(gaugeBetween(at(70, 20), at(99.5, 9.5), kDatum), Kind::Square, 19 / std::numbers::sqrt2);
}

TEST(FeatureGauge, FindsNothingInTheOpen) {
    EXPECT_FALSE(featureNear(pin(), {120, 30}, 0.3, 1));
    EXPECT_FALSE(featureNear(PartOutline(), {0, 0}, 1, 1));
}

TEST(FeatureGauge, PrefersACornerWithinItsReach) {
    EXPECT_EQ(at(99.9, 9.1).kind, SectionFeature::Kind::Corner);
    EXPECT_EQ(at(99.5, 9.5).kind, SectionFeature::Kind::Straight);
}

}  // namespace
}  // namespace firstoff
