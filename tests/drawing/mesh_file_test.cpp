// Bodies from mesh files: what is read, and every way in which a file may be wrong.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <string>
#include <vector>

#include "sim/base/units.h"
#include "sim/drawing/mesh_check.h"
#include "sim/drawing/mesh_file.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

using Triangles = std::vector<MeshFacet>;

// A box between two corners, outside anticlockwise.
Triangles box(std::array<float, 3> a, std::array<float, 3> b) {
    const auto corner = [&](int i) {
        return std::array<float, 3>{i & 1 ? b[0] : a[0], i & 2 ? b[1] : a[1], i & 4 ? b[2] : a[2]};
    };
    Triangles triangles;
    const auto face = [&](int p, int q, int r, int s) {
        for (const auto& t : {std::array{p, q, r}, std::array{p, r, s}}) {
            MeshFacet& triangle = triangles.emplace_back();
            for (std::size_t i = 0; i < 3; ++i) {
                const auto at = corner(t[i]);
                std::copy(at.begin(), at.end(), triangle.begin() + static_cast<std::ptrdiff_t>(3 * i));
            }
        }
    };
    face(0, 2, 3, 1);
    face(4, 5, 7, 6);
    face(0, 1, 5, 4);
    face(2, 6, 7, 3);
    face(0, 4, 6, 2);
    face(1, 3, 7, 5);
    return triangles;
}

Triangles turnedOver(Triangles triangles) {
    for (MeshFacet& t : triangles) std::swap_ranges(t.begin() + 3, t.begin() + 6, t.begin() + 6);
    return triangles;
}

Triangles together(Triangles a, const Triangles& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

std::string binary(const Triangles& triangles, std::string header = "a body") {
    header.resize(80, ' ');
    const auto count = static_cast<std::uint32_t>(triangles.size());
    std::string bytes = header;
    bytes.append(reinterpret_cast<const char*>(&count), 4);
    for (const MeshFacet& t : triangles) {
        bytes += std::string(12, '\0');
        bytes += std::string(reinterpret_cast<const char*>(t.data()), 36);
        bytes += std::string(2, '\0');
    }
    return bytes;
}

std::string ascii(const Triangles& triangles) {
    std::string text = "solid a body\n";
    for (const MeshFacet& t : triangles) {
        text += " facet normal 0 0 0\n  outer loop\n";
        for (std::size_t i = 0; i < 9; i += 3) {
            text += fmt::format("   vertex {:f} {:f} {:f}\n", t[i], t[i + 1], t[i + 2]);
        }
        text += "  endloop\n endfacet\n";
    }
    return text + "endsolid a body\n";
}

const char kObj[] =
    "# a box\nmtllib /etc/passwd\no box\nv 0 0 0\nv 20 0 0\nv 0 30 0\nv 20 30 0\nv 0 0 40\nv 20 0 40\nv 0 30 40\nv 20 "
    "30 40\n"
    "vn 0 0 1\nf 1 3 4 2\nf 5//1 6//1 8//1 7//1\nf -8 -7 -3 -4\nf 3 7 8 4\nf 1 5 7 3\nf 2 4 8 6\n";

double volumeOf(const Triangles& triangles) {
    double six = 0;
    for (const MeshFacet& t : triangles) {
        six += t[0] * (double{t[4]} * t[8] - double{t[5]} * t[7]) + t[1] * (double{t[5]} * t[6] - double{t[3]} * t[8]) +
               t[2] * (double{t[3]} * t[7] - double{t[4]} * t[6]);
    }
    return six / 6;
}

Mesh read(const std::string& bytes, const char* name = "guard.stl", DrawingUnit unit = DrawingUnit::Millimetre) {
    return readMesh(bytes, name, unit);
}

// The one fault of a mesh that may not be used.
DrawingFault faultOf(const Mesh& mesh) {
    EXPECT_TRUE(mesh.triangles.empty());
    if (mesh.faults.size() != 1) {
        ADD_FAILURE() << mesh.faults.size() << " faults";
        return {};
    }
    EXPECT_EQ(mesh.faults[0].severity, Severity::Stop);
    EXPECT_TRUE(mesh.faults[0].unproven);
    EXPECT_FALSE(mesh.faults[0].remedy.empty());
    EXPECT_THAT(mesh.faults[0].message, HasSubstr("guard."));
    return mesh.faults[0];
}

TEST(MeshFile, OfABoxIsReadInEveryFormatWithItsVolume) {
    const Triangles made = box({0, 0, 0}, {20, 30, 40});
    const std::vector<std::pair<std::string, std::string>> files = {{"guard.stl", binary(made)},
                                                                    {"guard.STL", binary(made, "solid as many begin")},
                                                                    {"guard.stl", ascii(made)},
                                                                    {"guard.obj", kObj}};
    for (const auto& [name, bytes] : files) {
        const Mesh mesh = readMesh(bytes, name, DrawingUnit::Millimetre);
        EXPECT_TRUE(mesh.faults.empty()) << name << " " << (mesh.faults.empty() ? "" : mesh.faults[0].message);
        EXPECT_EQ(mesh.triangles.size(), 12u) << name;
        EXPECT_DOUBLE_EQ(volumeOf(mesh.triangles), 20 * 30 * 40) << name;
    }
}

TEST(MeshFile, TextIsReadWithCapitalsBlanksAndSeveralSolids) {
    std::string text =
        fmt::format("{}\r\n{}", ascii(box({0, 0, 0}, {20, 30, 40})), ascii(box({50, 0, 0}, {70, 30, 40})));
    EXPECT_EQ(read(text).triangles.size(), 24u);
    text.insert(text.find("vertex") + 6, "\t ");
    EXPECT_EQ(read(text).triangles.size(), 24u);
}

TEST(MeshFile, ThatIsNoMeshIsToldSo) {
    EXPECT_EQ(faultOf(read("")).code, "mesh-not-readable");
    EXPECT_EQ(faultOf(read("G00 X50 Z2\n")).code, "mesh-not-readable");
    EXPECT_EQ(faultOf(read(std::string(84, '\0'))).code, "mesh-empty");
    EXPECT_EQ(faultOf(read("solid nothing\nendsolid nothing\n")).code, "mesh-empty");
    EXPECT_EQ(faultOf(read(std::string(5000, 'x'))).code, "mesh-not-readable");
    EXPECT_EQ(faultOf(read("solid \n", "guard.step")).code, "mesh-format-not-read");
    EXPECT_EQ(faultOf(read("solid \n", "guard.")).code, "mesh-format-not-read");
}

TEST(MeshFile, CutShortIsToldWithWhatItShouldHold) {
    const std::string whole = binary(box({0, 0, 0}, {20, 30, 40}));
    const DrawingFault fault = faultOf(read(whole.substr(0, whole.size() - 7)));
    EXPECT_EQ(fault.code, "mesh-not-readable");
    EXPECT_THAT(fault.message, HasSubstr("12 triangles"));
    const std::string text = ascii(box({0, 0, 0}, {20, 30, 40}));
    const DrawingFault inText = faultOf(read(text.substr(0, text.find("endloop") + 3)));
    EXPECT_EQ(inText.code, "mesh-not-readable");
    EXPECT_EQ(inText.line, 7u);
}

TEST(MeshFile, WithACountFarBeyondItsBytesIsNotBelieved) {
    std::string bytes = binary(box({0, 0, 0}, {20, 30, 40}));
    for (std::uint32_t count :
         {13u, 0xffffffffu, 0x80000000u, 11u, 0x8000000cu /* its bytes wrap to the right length in 32 bits */}) {
        std::memcpy(bytes.data() + 80, &count, 4);
        EXPECT_EQ(faultOf(read(bytes)).code, "mesh-not-readable") << count;
    }
}

TEST(MeshFile, OfTooManyTrianglesIsRefused) {
    std::string bytes(84 + 50 * (kMostTriangles + 1), '\0');
    const auto count = static_cast<std::uint32_t>(kMostTriangles + 1);
    std::memcpy(bytes.data() + 80, &count, 4);
    const DrawingFault fault = faultOf(read(bytes));
    EXPECT_EQ(fault.code, "mesh-too-large");
    EXPECT_THAT(fault.message, HasSubstr("2000001"));
}

TEST(MeshFile, WithFiguresThatAreNoneNamesThem) {
    Triangles bad = box({0, 0, 0}, {20, 30, 40});
    for (float value : {std::numeric_limits<float>::quiet_NaN(), std::numeric_limits<float>::infinity(), 3e30f}) {
        bad[4][7] = value;
        const DrawingFault fault = faultOf(read(binary(bad)));
        EXPECT_EQ(fault.code, "mesh-bad-number");
        EXPECT_THAT(fault.message, HasSubstr("Triangle 5"));
    }
    for (const char* figure : {"nan", "-inf", "1,5", "--1", "1e400"}) {
        std::string text = ascii(box({0, 0, 0}, {20, 30, 40}));
        text.replace(text.find("vertex ") + 7, 8, figure);
        const DrawingFault fault = faultOf(read(text));
        EXPECT_EQ(fault.code, "mesh-bad-number") << figure;
        EXPECT_EQ(fault.line, 4u);
        EXPECT_THAT(fault.message, HasSubstr(figure));
    }
}

TEST(MeshFile, OpenIsToldWithTheNumberOfEdges) {
    Triangles hole = box({0, 0, 0}, {20, 30, 40});
    hole.pop_back();
    const DrawingFault fault = faultOf(read(binary(hole)));
    EXPECT_EQ(fault.code, "mesh-open");
    EXPECT_THAT(fault.message, HasSubstr("3 edges"));
    Triangles mixed = box({0, 0, 0}, {20, 30, 40});
    mixed[0] = turnedOver({mixed[0]})[0];
    const DrawingFault facing = faultOf(read(binary(mixed)));
    EXPECT_EQ(facing.code, "mesh-open");
    EXPECT_THAT(facing.message, HasSubstr("opposite ways"));
}

TEST(MeshFile, WhoseCornersAreNearlyEqualIsWelded) {
    Triangles loose = box({0, 0, 0}, {20, 30, 40});
    float by = 0;
    for (MeshFacet& t : loose) {
        for (float& x : t) x += (by = by > 0 ? -0.0003f : 0.0003f);
    }
    EXPECT_TRUE(read(binary(loose)).faults.empty());
    for (MeshFacet& t : loose) {
        for (float& x : t) x += (by = by > 0 ? -0.01f : 0.01f);
    }
    EXPECT_EQ(faultOf(read(binary(loose))).code, "mesh-open");
}

TEST(MeshFile, InsideOutIsToldAndAHollowIsNot) {
    const Triangles made = box({0, 0, 0}, {20, 30, 40});
    EXPECT_EQ(faultOf(read(binary(turnedOver(made)))).code, "mesh-inverted");
    const Triangles hollow = turnedOver(box({5, 5, 5}, {15, 15, 15}));
    EXPECT_TRUE(read(binary(together(made, hollow))).faults.empty());
    // A small one beside it, the whole still of positive volume.
    const Triangles beside = turnedOver(box({50, 5, 5}, {60, 15, 15}));
    EXPECT_EQ(faultOf(read(binary(together(made, beside)))).code, "mesh-inverted");
}

TEST(MeshFile, OfSeveralShellsBesideOrAlongAnEdgeIsFine) {
    const Triangles made = box({0, 0, 0}, {20, 30, 40});
    EXPECT_TRUE(read(binary(together(made, box({50, 0, 0}, {60, 30, 40})))).faults.empty());
    EXPECT_TRUE(read(binary(together(made, box({20, 30, 0}, {60, 50, 40})))).faults.empty());
}

TEST(MeshFile, ThatIsFlatEnclosesNothing) {
    EXPECT_EQ(faultOf(read(binary(box({0, 0, 0}, {20, 30, 0})))).code, "mesh-no-volume");
    EXPECT_EQ(faultOf(read(binary(box({0, 0, 0}, {20, 0, 0})))).code, "mesh-no-volume");
    const Triangles one = box({0, 0, 0}, {20, 30, 0});
    EXPECT_EQ(faultOf(read(binary(together({one[0]}, turnedOver({one[0]}))))).code, "mesh-no-volume");
    // A sheet of 0.5 mm is one.
    EXPECT_TRUE(read(binary(box({0, 0, 0}, {800, 900, 0.5f}))).faults.empty());
}

TEST(MeshFile, InTheWrongUnitNamesTheLikelyOne) {
    const struct {
        float size;
        DrawingUnit unit;
        const char* likely;
    } rows[] = {
        {0.25f, DrawingUnit::Millimetre, "unit = \"m\""},     // 250 mm saved in metres
        {0.25f, DrawingUnit::NotSaid, "unit = \"m\""},        //
        {300, DrawingUnit::Inch, "unit = \"mm\""},            // 7.6 m
        {800, DrawingUnit::Centimetre, "unit = \"mm\""},      // 8 m
        {0.9f, DrawingUnit::Millimetre, "unit = \"inch\""},   // 23 mm
        {50000, DrawingUnit::Millimetre, "Check the unit"},   // nothing fits
        {0.0001f, DrawingUnit::Millimetre, "Check the unit"}  // likewise
    };
    for (const auto& row : rows) {
        const float s = row.size;
        const DrawingFault fault = faultOf(read(binary(box({0, 0, 0}, {s, s, s})), "guard.stl", row.unit));
        EXPECT_EQ(fault.code, s < 0.001f ? "mesh-no-volume" : "mesh-size-improbable") << s;
        if (s >= 0.001f) {
            EXPECT_THAT(fault.remedy, HasSubstr(row.likely)) << s;
        }
    }
    EXPECT_TRUE(read(binary(box({0, 0, 0}, {10, 10, 10})), "guard.stl", DrawingUnit::Inch).faults.empty());
}

TEST(MeshFile, ObjIsHeldToItsCorners) {
    const std::string good = kObj;
    const auto with = [&](const std::string& line) {
        return faultOf(read(fmt::format("{}{}\n", good, line), "guard.obj"));
    };
    EXPECT_EQ(with("f 1 2 9").code, "mesh-not-readable");
    EXPECT_EQ(with("f 1 2 0").code, "mesh-not-readable");
    EXPECT_EQ(with("f 1 2 -9").code, "mesh-not-readable");
    EXPECT_EQ(with("f 1 2").code, "mesh-not-readable");
    EXPECT_EQ(with("f a b c").code, "mesh-not-readable");
    EXPECT_EQ(with("f 99999999999999999999 1 2").code, "mesh-not-readable");
    EXPECT_EQ(with("v 1 2").code, "mesh-bad-number");
    EXPECT_EQ(with("v 1 2 x").code, "mesh-bad-number");
    EXPECT_EQ(with("curv2 1 2").code, "mesh-not-readable");
    EXPECT_EQ(with("curv2 1 2").line, 19u);
    EXPECT_EQ(faultOf(read("v 1 2 3\n", "guard.obj")).code, "mesh-empty");
}

// A ring of triangles: the volume of a body that is not convex and has a hole, against Pappus.
TEST(MeshFile, OfARingHasItsVolume) {
    const int around = 360;
    Triangles ring;
    const auto at = [&](int i, double r, double z) {
        const double a = 2 * kPi * (i % around) / around;
        return std::array<float, 3>{static_cast<float>(r * std::cos(a)), static_cast<float>(r * std::sin(a)),
                                    static_cast<float>(z)};
    };
    const double section[4][2] = {{40, 0}, {60, 0}, {60, 25}, {40, 25}};
    for (int i = 0; i < around; ++i) {
        for (int k = 0; k < 4; ++k) {
            const auto &p = section[k], &q = section[(k + 1) % 4];
            const auto a = at(i, p[0], p[1]), b = at(i, q[0], q[1]), c = at(i + 1, q[0], q[1]),
                       d = at(i + 1, p[0], p[1]);
            ring.push_back({d[0], d[1], d[2], c[0], c[1], c[2], b[0], b[1], b[2]});
            ring.push_back({d[0], d[1], d[2], b[0], b[1], b[2], a[0], a[1], a[2]});
        }
    }
    const Mesh mesh = read(binary(turnedOver(ring)));
    const Mesh inverted = read(binary(ring));
    const Mesh& good = mesh.faults.empty() ? mesh : inverted;
    const Mesh& bad = mesh.faults.empty() ? inverted : mesh;
    EXPECT_EQ(faultOf(bad).code, "mesh-inverted");
    ASSERT_EQ(good.triangles.size(), ring.size());
    // The chords of 360 lose sin(x)/x of the area, x = 1 degree: 5e-5 of it; floats 1e-6.
    const double pappus = kPi * (60 * 60 - 40 * 40) * 25;
    EXPECT_NEAR(volumeOf(good.triangles) / pappus, std::sin(2 * kPi / around) / (2 * kPi / around), 2e-6);
}

// Whatever is changed in a good file, or left off it, it ends with triangles or with a fault.
RC_GTEST_PROP(MeshFile, AnyDamageEnds, ()) {
    const Triangles made = box({0, 0, 0}, {20, 30, 40});
    const int form = *rc::gen::inRange(0, 3);
    std::string bytes = form == 0 ? binary(made) : form == 1 ? ascii(made) : std::string(kObj);
    const int changes = *rc::gen::inRange(0, 8);
    for (int i = 0; i < changes; ++i) {
        const auto at = *rc::gen::inRange<std::size_t>(0, bytes.size());
        switch (*rc::gen::inRange(0, 4)) {
            case 0:
                bytes[at] = *rc::gen::arbitrary<char>();
                break;
            case 1:
                bytes.erase(at, *rc::gen::inRange<std::size_t>(1, 200));
                break;
            case 2:
                bytes.insert(at, *rc::gen::arbitrary<std::string>());
                break;
            default:
                bytes.insert(at, bytes.substr(*rc::gen::inRange<std::size_t>(0, bytes.size()), 60));
        }
        if (bytes.empty()) bytes.push_back(0);
    }
    const Mesh mesh = read(bytes, form == 2 ? "guard.obj" : "guard.stl");
    RC_ASSERT(mesh.faults.empty() == !mesh.triangles.empty());
}

RC_GTEST_PROP(MeshFile, AnyBytesEnd, ()) {
    const auto bytes = *rc::gen::container<std::string>(rc::gen::arbitrary<char>());
    for (const char* name : {"guard.stl", "guard.obj", "guard"}) {
        const Mesh mesh = readMesh(bytes, name, DrawingUnit::Millimetre);
        RC_ASSERT(mesh.triangles.empty());
        RC_ASSERT(mesh.faults.size() == 1u);
        const Mesh begun = readMesh(fmt::format("solid x\n{}", bytes), name, DrawingUnit::Millimetre);
        RC_ASSERT(begun.triangles.empty());
    }
}

}  // namespace
}  // namespace firstoff
