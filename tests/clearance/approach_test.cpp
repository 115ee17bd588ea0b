// The closed-form gap against brute force: the tool put on many places of its way and measured edge by edge there.
#include "sim/clearance/approach.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "sim/base/units.h"

namespace firstoff {
namespace {

using Polygon = std::vector<Point>;

class Shop {
public:
    explicit Shop(unsigned seed) : random_(seed) {}
    double between(double low, double high) {
        // Not std::uniform_real_distribution, whose numbers differ between libraries.
        return low + (high - low) * (double(random_()) / double(std::mt19937::max()));
    }
    Point pointIn(double size) { return {between(-size, size), between(-size, size)}; }
    // Corners on an ellipse in anticlockwise order are a convex polygon.
    Polygon polygon(Point centre, double size) {
        const int corners = 3 + static_cast<int>(between(0, 6));
        std::vector<double> angles;
        for (int i = 0; i < corners; ++i) angles.push_back((i + between(0.1, 0.9)) * 2 * kPi / corners);
        const double a = between(0.1, 1) * size, b = between(0.1, 1) * size;
        Polygon polygon;
        for (double t : angles) polygon.push_back(centre + Point{a * std::cos(t), b * std::sin(t)});
        return polygon;
    }
    // The same with some corners rounded as far as their edges allow.
    Outline tool(double size) {
        const Polygon corners = polygon(pointIn(size), size);
        const std::size_t n = corners.size();
        std::vector<double> radii(n);
        for (std::size_t i = 0; i < n; ++i) {
            const Point in = corners[i] - corners[(i + n - 1) % n], out = corners[(i + 1) % n] - corners[i];
            const double turn = std::atan2(cross(in, out), dot(in, out));
            const double room = 0.45 * std::min(length(in), length(out));
            radii[i] = between(0, 1) < 0.4 ? 0 : between(0.05, 1) * room / std::tan(turn / 2);
        }
        return roundedPolygon(corners, radii);
    }

private:
    std::mt19937 random_;
};

bool overlap(const Polygon& a, const Polygon& b) {
    const auto parts = [](const Polygon& one, const Polygon& other) {
        for (std::size_t i = 0; i < one.size(); ++i) {
            const Point from = one[i], to = one[(i + 1) % one.size()];
            if (std::all_of(other.begin(), other.end(), [&](Point p) { return cross(to - from, p - from) < 0; })) {
                return true;
            }
        }
        return false;
    };
    return !parts(a, b) && !parts(b, a);
}

double toSegment(Point p, Point a, Point b) {
    const Point t = b - a;
    const double along = std::clamp(dot(p - a, t) / dot(t, t), 0.0, 1.0);
    return distance(p, a + along * t);
}

double apart(const Polygon& a, const Polygon& b) {
    if (overlap(a, b)) return 0;
    double nearest = std::numeric_limits<double>::infinity();
    for (const auto& [from, of] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
        for (Point p : *from) {
            for (std::size_t i = 0; i < of->size(); ++i) {
                nearest = std::min(nearest, toSegment(p, (*of)[i], (*of)[(i + 1) % of->size()]));
            }
        }
    }
    return nearest;
}

Polygon shifted(Polygon polygon, Point by) {
    for (Point& p : polygon) p = p + by;
    return polygon;
}

// Chords of the brute-force tool lie this far inside its arcs.
constexpr double kChord = 1e-3;

TEST(Approach, IsNeverAboveBruteForceAndBelowItByNoMoreThanItsStep) {
    int touching = 0;
    for (unsigned seed = 0; seed < 400; ++seed) {
        SCOPED_TRACE(seed);
        Shop shop(seed);
        const Polygon body = shop.polygon({0, 0}, 20);
        const Outline outline = shop.tool(8);
        const Polygon tool = polyline(outline, kChord);
        TipWay way;
        way.points = {shop.pointIn(60)};
        const int pieces = 1 + static_cast<int>(shop.between(0, 3));
        for (int i = 0; i < pieces; ++i) way.points.push_back(shop.pointIn(60));

        const ContactZone zone(body, outline);
        const Approach is = approach(zone, way);

        double brute = std::numeric_limits<double>::infinity(), longestStep = 0;
        constexpr int kSteps = 120;
        for (int piece = 0; piece < pieces; ++piece) {
            const Point from = way.points[piece], to = way.points[piece + 1];
            longestStep = std::max(longestStep, distance(from, to) / kSteps);
            for (int i = 0; i <= kSteps; ++i) {
                brute = std::min(brute, apart(body, shifted(tool, from + (double(i) / kSteps) * (to - from))));
            }
        }
        EXPECT_LE(is.gap, brute + 1e-9);  // rounding of both methods
        if (brute == 0) {
            ++touching;
            EXPECT_GE(is.contactAt, 0);
        } else {
            EXPECT_GE(is.gap, brute - longestStep / 2 - kChord);
            // The place told is on the body and as far from the tool as the gap says.
            const Point place = zone.placeOnBody(is.reading, is.tip);
            if (is.gap > 0.01) {
                EXPECT_NEAR(apart({place, place + Point{1e-9, 0}, place + Point{0, 1e-9}}, shifted(tool, is.tip)),
                            is.gap, kChord + 1e-6);
                double off = std::numeric_limits<double>::infinity();
                for (std::size_t i = 0; i < body.size(); ++i) {
                    off = std::min(off, toSegment(place, body[i], body[(i + 1) % body.size()]));
                }
                EXPECT_LE(off, 1e-9);
            }
        }
    }
    EXPECT_GT(touching, 100);
    EXPECT_LT(touching, 300);
}

// Inside, the reading is the shortest shift that parts tool and body: that shift parts them, and no shorter one does in
// any of many directions.
TEST(ContactZone, DepthIsTheShortestWayOut) {
    int inside = 0;
    for (unsigned seed = 0; seed < 600; ++seed) {
        SCOPED_TRACE(seed);
        Shop shop(seed);
        const Polygon body = shop.polygon({0, 0}, 20);
        const Outline outline = shop.tool(8);
        const Polygon tool = polyline(outline, kChord);
        const ContactZone zone(body, outline);
        const Point tip = shop.pointIn(20);
        const ContactZone::Reading reading = zone.at(tip);
        if (reading.gap > -0.01) continue;
        ++inside;
        EXPECT_NEAR(length(reading.away), 1, 1e-9);
        EXPECT_FALSE(overlap(body, shifted(tool, tip + (1e-6 - reading.gap) * reading.away)));
        for (int i = 0; i < 360; ++i) {
            const Point u{std::cos(radians(i)), std::sin(radians(i))};
            EXPECT_TRUE(overlap(body, shifted(tool, tip + (-reading.gap - 2 * kChord) * u))) << i;
        }
    }
    EXPECT_GT(inside, 100);
}

// The boundary of the zone is closed: seen from far off every direction meets a feature, and the gap is then the same
// as from the support of tool and body (elementary geometry of convex shapes).
TEST(ContactZone, FromFarOffTheGapIsThatOfTheSupports) {
    for (unsigned seed = 0; seed < 50; ++seed) {
        Shop shop(seed);
        const Polygon body = shop.polygon({0, 0}, 20);
        const Outline outline = shop.tool(8);
        const Polygon tool = polyline(outline, 1e-6);
        const ContactZone zone(body, outline);
        for (int i = 0; i < 360; ++i) {
            const Point u{std::cos(radians(i)), std::sin(radians(i))};
            double reach = -1e9, back = 1e9;
            for (Point p : body) reach = std::max(reach, dot(p, u));
            for (Point p : tool) back = std::min(back, dot(p, u));
            // Put the tip so far off that u is the direction of the gap within 1e-3; a parallel to u through any point
            // of the zone is off by at most 40² / 2e6.
            const double far = 1e6;
            EXPECT_NEAR(zone.at(far * u).gap, far + back - reach, 60 * 60 / (2 * far)) << seed << " at " << i;
        }
    }
}

// Readings do not depend on the hint they start from.
TEST(ContactZone, HintChangesNothing) {
    for (unsigned seed = 0; seed < 50; ++seed) {
        Shop shop(seed);
        const ContactZone zone(shop.polygon({0, 0}, 20), shop.tool(8));
        for (int i = 0; i < 50; ++i) {
            const Point tip = shop.pointIn(60);
            const ContactZone::Reading plain = zone.at(tip);
            for (int hint = 0; hint <= plain.feature; ++hint) {
                EXPECT_NEAR(zone.at(tip, hint).gap, plain.gap, 1e-9);  // two features share a border
            }
        }
    }
}

TEST(Approach, FirstContactIsWhereTheGapComesToNothing) {
    int touching = 0;
    for (unsigned seed = 0; seed < 300; ++seed) {
        SCOPED_TRACE(seed);
        Shop shop(seed);
        const ContactZone zone(shop.polygon({0, 0}, 20), shop.tool(8));
        const TipWay way{{shop.pointIn(60), shop.pointIn(60)}, 0};
        const Approach is = approach(zone, way);
        if (is.contactAt <= 0) continue;
        ++touching;
        const Point at = way.points[0] + is.contactAt * (way.points[1] - way.points[0]);
        EXPECT_LE(zone.at(at).gap, 2e-9);  // kAgreeMm of approach.cpp, and rounding
        for (int i = 0; i < 200; ++i) {
            const double before = is.contactAt * i / 200.0;
            EXPECT_GT(zone.at(way.points[0] + before * (way.points[1] - way.points[0])).gap, 0) << i;
        }
    }
    EXPECT_GT(touching, 50);
}

}  // namespace
}  // namespace firstoff
