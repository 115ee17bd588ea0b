// Certain closest approach held against a second method: 500 random set-ups of exact primitives, moved by fine steps of
// time, with distances by CGAL (exact polytope distance, see exact_distance.h) at each step.
//
// What the comparison itself cannot tell: between two steps nothing moves further than kStepMm, so a distance may be
// less than at the steps by half of that; and what is turned is cut into flats for CGAL, whose depth is known.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/base/units.h"
#include "sim/clearance/nearness.h"
#include "tests/support/exact_distance.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr int kSetUps = 500;
constexpr int kFacets = 128;  // of turned pieces: depth of the flats 0.006 mm at a radius of 20
constexpr double kStepMm = 0.04;
constexpr double kStatedMm = 0.05;  // what the issue allows gaps and contacts to be wrong by
constexpr double kSwingMm = 0.01;   // what nearness.h says of swings

struct Encounter {
    std::vector<ConvexPiece> first, second;
    Placing from;  // of the first
    bool swings = false;
    Point way;          // straight
    double turnBy = 0;  // swing
    double flats = 0;   // depth of what CGAL leaves out
};

ConvexPiece randomPiece(shop::Dice& dice, double reach) {
    const auto place = [&] { return dice.between(-reach, reach); };
    const auto size = [&] { return dice.between(1, 20); };
    switch (dice.below(4)) {
        case 0: {
            const SpacePoint at{place(), place(), place()};
            return boxPiece(at, at + SpacePoint{size(), size(), size()});
        }
        case 1: {
            const double a = size(), b = size();
            const double nose = 0.2 * std::min(a, b);
            const Outline insert = roundedPolygon({{0, 0}, {a, -0.3 * a}, {a, b}, {0, b}}, {nose, 0, nose, 0});
            const double y = place();
            return prismPiece(insert, {place(), place()}, y, y + size());
        }
        case 2: {
            const double z = place();
            const double length = size();
            return turnedPiece({{z, dice.between(0, 20)}, {z + length / 2, 20}, {z + length, dice.between(1, 20)}},
                               place(), place());
        }
        default: {
            ConvexPiece splinter;
            for (int i = 0; i < 9; ++i) splinter.corners.push_back({place(), place(), place()});
            return splinter;
        }
    }
}

Placing standAt(const Encounter& s, double fraction) {
    Placing at = s.from;
    if (s.swings) {
        at.turn += fraction * s.turnBy;
    } else {
        at.shifts[0] = at.shifts[0] + fraction * s.way;
    }
    return at;
}

SpaceBox boxRound(const std::vector<SpacePoint>& points) {
    ConvexPiece all;
    all.corners = points;
    return boundingBox(all);
}

// `from`, shifted so that at the placing `half` its box lies beside another.
Placing beside(const Encounter& s, const Placing& half, const SpaceBox& other, shop::Dice& dice) {
    std::vector<SpacePoint> points;
    for (const ConvexPiece& piece : s.first) {
        const auto corners = shop::placed(shop::cornersOf(piece, kFacets), half);
        points.insert(points.end(), corners.begin(), corners.end());
    }
    const SpaceBox box = boxRound(points);
    const SpacePoint apart = 0.5 * (other.min + other.max) - 0.5 * (box.min + box.max);
    const SpacePoint sides = 0.5 * (other.max - other.min) + 0.5 * (box.max - box.min);
    Point shift{apart.z, apart.r};
    const double side = dice.below(2) == 0 ? 1 : -1, by = dice.between(-8, 4);
    if (dice.below(2) == 0) {
        shift = shift + Point{side * (sides.z + by), dice.between(-0.5, 0.5) * sides.r};
    } else {
        shift = shift + Point{dice.between(-0.5, 0.5) * sides.z, side * (sides.r + by)};
    }
    Placing from = s.from;
    from.shifts[0] = shift;
    return from;
}

Encounter randomEncounter(std::uint64_t seed) {
    shop::Dice dice(seed);
    Encounter s;
    for (std::uint32_t i = 0; i <= dice.below(2); ++i) s.first.push_back(randomPiece(dice, 10));
    for (std::uint32_t i = 0; i <= dice.below(2); ++i) s.second.push_back(randomPiece(dice, 10));
    s.from.axisR = dice.between(-60, 60);
    s.from.turn = dice.between(-4, 4);
    s.swings = dice.below(2) == 0;
    const BodyShape first(s.first), second(s.second);
    s.way = {dice.between(-20, 20), dice.between(-20, 20)};
    s.turnBy = (dice.below(2) == 0 ? 1 : -1) * dice.between(1, 30) / first.reach(s.from.axisR);
    // Half way, the boxes round both stand beside each other, or overlap a little: so that contacts, near misses and
    // clear passes are all usual.
    s.from = beside(s, standAt(s, 0.5), second.box(), dice);
    for (const auto* pieces : {&s.first, &s.second}) {
        double depth = 0;
        for (const ConvexPiece& piece : *pieces) depth = std::max(depth, shop::flatDepth(piece, kFacets));
        s.flats += depth;
    }
    return s;
}

double travelOf(const Encounter& s) {
    return s.swings ? BodyShape(s.first).reach(s.from.axisR) * std::abs(s.turnBy) : length(s.way);
}

double boxGap(const std::vector<SpacePoint>& first, const std::vector<SpacePoint>& second) {
    const SpaceBox a = boxRound(first), b = boxRound(second);
    const SpacePoint p = a.min - b.max, q = b.min - a.max;
    return length({std::max({0.0, p.z, q.z}), std::max({0.0, p.r, q.r}), std::max({0.0, p.y, q.y})});
}

// The other method: distances at steps of time. Steps at which the bodies cannot have come nearer, since nothing moves
// faster than that, are left out.
class ByStepping {
public:
    explicit ByStepping(const Encounter& s) : s_(s), steps_(std::ceil(travelOf(s) / kStepMm)) {
        for (const ConvexPiece& piece : s.first) first_.push_back(shop::cornersOf(piece, kFacets));
        for (const ConvexPiece& piece : s.second) second_.push_back(shop::cornersOf(piece, kFacets));
        lookRoughly();
        for (double k = 0; k <= steps_;) {
            const double gap = at(k / steps_);
            least_ = std::min(least_, gap);
            if (gap == 0) {
                contact_ = k / steps_;
                break;
            }
            k += std::max(1.0, std::floor((gap - least_) / kStepMm));
        }
    }

    // A distance near to the least, found by halving round the nearest of a few: the nearer it is, the more steps can
    // be left out.
    void lookRoughly() {
        double nearest = 0;
        const auto look = [&](double fraction) {
            const double gap = at(std::clamp(fraction, 0.0, 1.0));
            if (gap >= least_) return;
            least_ = gap;
            nearest = fraction;
        };
        for (int k = 0; k <= 8; ++k) look(k / 8.0);
        for (double by = 1 / 16.0; least_ > 0 && by > 1e-4; by /= 2) {
            const double middle = nearest;
            look(middle - by);
            look(middle + by);
        }
    }

    double at(double fraction) const {
        double gap = std::numeric_limits<double>::infinity();
        for (const auto& a : first_) {
            const auto moved = shop::placed(a, standAt(s_, fraction));
            for (const auto& b : second_) {
                // No nearer than the boxes round them.
                if (boxGap(moved, b) < gap) gap = std::min(gap, shop::hullDistance(moved, b));
            }
        }
        return gap;
    }
    double least() const { return least_; }
    double contact() const { return contact_; }  // fraction of the first step that touches; -1: none

private:
    const Encounter& s_;
    double steps_;
    std::vector<std::vector<SpacePoint>> first_, second_;
    double least_ = std::numeric_limits<double>::infinity(), contact_ = -1;
};

SwingNearness told(const Encounter& s, const BodyShape& first, const BodyShape& second) {
    if (s.swings) return nearnessOfSwing(first, s.from, s.from.turn + s.turnBy, second, Placing{});
    Placing along = s.from;
    along.shifts[1] = along.shifts[0] + s.way;
    along.count = 2;
    return {nearness(first, along, second, Placing{}), 0};
}

BodyShape meshOf(const std::vector<ConvexPiece>& pieces) {
    std::vector<ConvexPiece> triangles;
    for (const ConvexPiece& piece : pieces) {
        const auto more = shop::hullTriangles(shop::cornersOf(piece, kFacets));
        triangles.insert(triangles.end(), more.begin(), more.end());
    }
    return BodyShape(triangles, true);
}

class RandomSetUps : public testing::TestWithParam<int> {};

TEST_P(RandomSetUps, GapsAndContactsAreThoseOfFineStepping) {
    constexpr int kAtATime = kSetUps / 10;
    int contacts = 0, clear = 0;
    for (int i = 0; i < kAtATime; ++i) {
        const int seed = GetParam() * kAtATime + i;
        SCOPED_TRACE(seed);
        const Encounter s = randomEncounter(static_cast<std::uint64_t>(seed));
        const ByStepping truth(s);
        const SwingNearness n = told(s, BodyShape(s.first), BodyShape(s.second));
        const double unsure = kStepMm / 2 + s.flats + kNearnessMm + (s.swings ? kSwingMm : 0);
        ASSERT_LE(unsure, kStatedMm);
        // Never above; the root of CGAL's exact square is rounded.
        EXPECT_LE(n.nearest.gap, truth.least() + 1e-9);
        EXPECT_GE(n.nearest.gap, truth.least() - unsure);
        if (truth.contact() >= 0) {
            EXPECT_EQ(n.nearest.gap, 0) << "missed contact";
            ++contacts;
        } else {
            ++clear;
            if (n.nearest.gap > 0) {
                EXPECT_NEAR(length(n.nearest.onFirst - n.nearest.onSecond), n.nearest.gap, unsure);
            }
        }
        if (s.swings && n.nearest.gap == 0) {
            // Not late: nothing touches before. Not early: it touches there within 0.01 mm of travel.
            if (truth.contact() >= 0) {
                EXPECT_LE(n.fraction, truth.contact() + 1e-12);
            }
            EXPECT_LE(truth.at(n.fraction), kSwingMm + s.flats + kNearnessMm);
        }
    }
    // The set-ups are worth something: some touch, some do not.
    EXPECT_GE(contacts, kAtATime / 10);
    EXPECT_GE(clear, kAtATime / 10);
}

TEST_P(RandomSetUps, MeshesOfTheSameBodiesAreAsNear) {
    constexpr int kAtATime = kSetUps / 10;
    for (int i = 0; i < kAtATime; ++i) {
        const int seed = GetParam() * kAtATime + i;
        SCOPED_TRACE(seed);
        const Encounter s = randomEncounter(static_cast<std::uint64_t>(seed));
        const BodyShape first(s.first), second(s.second), firstMesh = meshOf(s.first), secondMesh = meshOf(s.second);
        const double gap = told(s, first, second).nearest.gap;
        const double tolerance = 2 * kNearnessMm + s.flats + (s.swings ? kSwingMm : 0);
        const auto isAsNear = [&](double meshGap) {
            if (gap == 0 && meshGap == 0) return;
            EXPECT_NEAR(meshGap, gap, tolerance);
        };
        isAsNear(told(s, firstMesh, second).nearest.gap);
        isAsNear(told(s, first, secondMesh).nearest.gap);
        isAsNear(told(s, firstMesh, secondMesh).nearest.gap);
    }
}

INSTANTIATE_TEST_SUITE_P(Clearance, RandomSetUps, testing::Range(0, 10));

}  // namespace
}  // namespace firstoff
