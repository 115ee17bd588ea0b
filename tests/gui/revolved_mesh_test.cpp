#include "gui/scene/revolved_mesh.h"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/gui/mesh_checks.h"

namespace firstoff::gui {
namespace {

Loop loopOf(std::vector<Point> points) {
    Loop loop;
    loop.cuts.assign(points.size(), kUncut);
    loop.points = std::move(points);
    return loop;
}

Loop bar(double length, double radius) {
    return loopOf({{0, 0}, {length, 0}, {length, radius}, {0, radius}});
}
Loop tube(double length, double bore, double radius) {
    return loopOf({{0, bore}, {length, bore}, {length, radius}, {0, radius}});
}
// A spigot with a fillet of 5 mm, chords of 6 degrees.
Loop spigot() {
    std::vector<Point> points{{0, 0}, {60, 0}, {60, 10}};
    for (int i = 0; i <= 15; ++i) {
        const double a = kPi * 1.5 - radians(6) * i;
        points.push_back({25 + 5 * std::cos(a), 15 + 5 * std::sin(a)});
    }
    points.insert(points.end(), {{20, 30}, {0, 30}});
    return loopOf(points);
}
// Solid with a face groove: two intervals per column there.
Loop faceGrooved() {
    return loopOf({{0, 0}, {40, 0}, {40, 10}, {30, 10}, {30, 20}, {40, 20}, {40, 25}, {0, 25}});
}

struct Body {
    const char* name;
    Loop loop;
};
std::vector<Body> bodies() {
    return {{"bar", bar(50, 20)},
            {"tube", tube(50, 8, 20)},
            {"cone to a point", loopOf({{0, 0}, {30, 0}, {0, 12}})},
            {"spigot with fillet", spigot()},
            {"face groove", faceGrooved()}};
}

glm::vec3 corner(const TriangleMesh& mesh, std::size_t index) {
    return mesh.vertices[mesh.indices[index]].place;
}

// Elementary geometry: area of a polygon and, by Pappus, the volume it sweeps.
double polygonArea(const Loop& loop) {
    double sum = 0;
    for (std::size_t i = 0; i < loop.points.size(); ++i) {
        sum += cross(loop.points[i], loop.points[(i + 1) % loop.points.size()]) / 2;
    }
    return sum;
}
double sweptVolume(const Loop& loop) {
    double moment = 0;
    for (std::size_t i = 0; i < loop.points.size(); ++i) {
        const Point a = loop.points[i], b = loop.points[(i + 1) % loop.points.size()];
        moment += cross(a, b) * (a.r + b.r) / 6;
    }
    return 2 * kPi * moment;
}

TEST(RevolvedMesh, IsWatertightForAWholeTurn) {
    for (const Body& body : bodies()) {
        EXPECT_TRUE(watertight(revolve({&body.loop, 1}, {}))) << body.name;
    }
}

TEST(RevolvedMesh, EnclosesTheVolumeOfPappus) {
    RevolveOptions options;
    options.sectors = 96;
    // A regular polygon of n sides has the share n/(2 pi) sin(2 pi/n) of its circle: elementary geometry.
    const double inscribed = 96 / (2 * kPi) * std::sin(2 * kPi / 96);
    for (const Body& body : bodies()) {
        const double expected = sweptVolume(body.loop) * inscribed;
        // 1e-5: vertices are in single precision.
        EXPECT_NEAR(volume(revolve({&body.loop, 1}, options)), expected, 1e-5 * expected) << body.name;
    }
}

TEST(RevolvedMesh, NormalsPointOutOfTheMetalAndFollowTheCircle) {
    for (const Body& body : bodies()) {
        const TriangleMesh mesh = revolve({&body.loop, 1}, {});
        for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
            const glm::vec3 a = corner(mesh, i), b = corner(mesh, i + 1), c = corner(mesh, i + 2);
            const glm::vec3 facet = glm::normalize(glm::cross(b - a, c - a));
            for (std::size_t k = 0; k < 3; ++k) {
                const Vertex& v = mesh.vertices[mesh.indices[i + k]];
                EXPECT_NEAR(glm::length(v.normal), 1, 1e-5) << body.name;  // single precision
                // 72 sectors turn by 5 degrees, smoothed chords by 6: never a quarter turn off the facet.
                EXPECT_GT(glm::dot(facet, v.normal), 0.95f) << body.name;
                const float radius = glm::length(glm::vec2(v.place.y, v.place.z));
                const float outwards = glm::dot(glm::vec2(v.place.y, v.place.z), glm::vec2(v.normal.y, v.normal.z));
                const float radialPart = glm::length(glm::vec2(v.normal.y, v.normal.z));
                // The normal lies in the plane through the axis.
                EXPECT_NEAR(std::abs(outwards), radius * radialPart, 1e-3f) << body.name;
            }
        }
    }
}

TEST(RevolvedMesh, KeepsCornersSharpAndFilletsSmooth) {
    struct Row {
        const char* name;
        Loop loop;
        std::size_t
            rings;  // circles of vertices: two per edge, less one for each smooth joint; none for edges on the axis
    };
    const Row rows[] = {
        {"bar: face, cylinder, face", bar(50, 20), 6},
        {"tube: four corners", tube(50, 8, 20), 8},
        // 60 mm cylinder joined by a taper of 8 degrees: a corner although the angle is small
        {"taper on a cylinder", loopOf({{0, 0}, {80, 0}, {80, 15}, {60, 17.8}, {0, 17.8}}), 8},
        // edges: face, shank, 15 chords, shoulder, cylinder, back face; smooth from shank through chords to shoulder:
        // 16 joints
        {"spigot with fillet", spigot(), 2 * 20 - 16},
    };
    for (const Row& row : rows) {
        const TriangleMesh mesh = revolve({&row.loop, 1}, {});
        EXPECT_EQ(mesh.vertices.size(), row.rings * 72) << row.name;
    }
}

TEST(RevolvedMesh, ChangesColourAtTheEdgeOfACut) {
    Loop loop = bar(50, 20);
    loop.points.insert(loop.points.begin() + 3, {30, 20});  // the cylinder in two stretches
    loop.cuts = {kUncut, 7, 9, kUncut, kUncut};
    RevolveOptions options;
    options.colour = [](CutId cut) { return cut; };
    const TriangleMesh mesh = revolve({&loop, 1}, options);
    for (const Vertex& v : mesh.vertices) {
        const float least = v.colour == 7 ? 50.0f : v.colour == 9 ? 30.0f : 0.0f;
        EXPECT_GE(v.place.x, least) << v.colour;
    }
}

TEST(RevolvedMesh, LeavesOutWhatTheCutawayTakes) {
    const Loop loop = bar(50, 20);
    RevolveOptions options;
    options.fromAngle = kPi / 2;
    options.toAngle = 2 * kPi;
    for (const Vertex& v : revolve({&loop, 1}, options).vertices) {
        // 1e-4 mm: single precision at the ends of the sweep.
        EXPECT_FALSE(v.place.y > 1e-4f && v.place.z > 1e-4f) << v.place.y << " " << v.place.z;
    }
}

TEST(SectionFace, HasTheAreaOfTheSectionAndFacesWhereItIsTold) {
    for (const Body& body : bodies()) {
        for (int sign : {1, -1}) {
            const TriangleMesh mesh = sectionFace({&body.loop, 1}, kPi / 2, sign, 0);
            // 1e-6: vertices are in single precision.
            EXPECT_NEAR(area(mesh), polygonArea(body.loop), 1e-6 * polygonArea(body.loop)) << body.name;
            for (const Vertex& v : mesh.vertices) {
                EXPECT_NEAR(v.normal.y, -sign, 1e-6) << body.name;  // growing angles lead away from +y here
                EXPECT_NEAR(v.place.y, 0, 1e-5) << body.name;       // single precision
            }
        }
    }
}

TEST(SectionFace, LeavesAFaceGrooveOpen) {
    const Loop loop = faceGrooved();
    for (const Vertex& v : sectionFace({&loop, 1}, 0, 1, 0).vertices) {
        EXPECT_FALSE(v.place.x > 30.001f && v.place.y > 10.001f && v.place.y < 19.999f);
    }
}

TEST(Sectors, AreEnoughForTheSizeOnTheScreen) {
    struct Row {
        double radiusPx;
        int least, most;
    };
    // The chord of n sectors is off by r (1 - cos(pi / n)).
    for (const Row& row : {Row{0, 36, 36}, Row{30, 36, 48}, Row{200, 60, 72}, Row{5000, 120, 120}}) {
        EXPECT_GE(sectorsFor(row.radiusPx), row.least) << row.radiusPx;
        EXPECT_LE(sectorsFor(row.radiusPx), row.most) << row.radiusPx;
    }
}

}  // namespace
}  // namespace firstoff::gui
