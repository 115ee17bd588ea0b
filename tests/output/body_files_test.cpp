// Bodies of a set-up that stand in mesh files beside it.
#include "sim/output/body_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/units.h"
#include "sim/output/blank_files.h"
#include "tests/cli/command_run.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using shop::Bench;
using testing::HasSubstr;

// A wedge with its right angle at the origin, 10 along x, 20 along y, 30 along z.
const std::string kWedge =
    "v 0 0 0\nv 10 0 0\nv 0 20 0\nv 0 0 30\n"
    "f 1 3 2\nf 1 2 4\nf 1 4 3\nf 2 3 4\n";

Setup withBody(const std::string& file) {
    Setup setup = shop::barStock(50, 90);
    setup.name = "job.toml";
    ExtraBody& body = setup.extraBodies.emplace_back();
    body.name = "coolant pipe";
    body.file = file;
    body.span = {SourceSpan::File::Setup, 17, 1, 4};
    return setup;
}

// Least and greatest of each of (z, r, y).
struct Extent {
    std::array<float, 3> least{1e9f, 1e9f, 1e9f}, most{-1e9f, -1e9f, -1e9f};
};
Extent extentOf(const ExtraBody& body) {
    Extent extent;
    for (const auto& triangle : body.triangles) {
        for (std::size_t i = 0; i < 9; ++i) {
            extent.least[i % 3] = std::min(extent.least[i % 3], triangle[i]);
            extent.most[i % 3] = std::max(extent.most[i % 3], triangle[i]);
        }
    }
    return extent;
}

TEST(BodyFiles, StandWhereTheSetUpSays) {
    const Bench bench;
    bench.put("wedge.obj", kWedge);
    auto setup = withBody("wedge.obj");
    ExtraBody& body = setup.extraBodies[0];
    body.unit = "cm";
    body.atZ = 200;
    body.atR = 50;
    body.atY = -5;
    body.turnZ = kPi / 2;  // x to y, y to where x pointed away from
    const auto ready = withBodies(setup, bench.path("job.toml"));
    EXPECT_TRUE(ready.findings.empty());
    ASSERT_EQ(ready.extraBodies[0].triangles.size(), 4u);
    const Extent extent = extentOf(ready.extraBodies[0]);
    EXPECT_FLOAT_EQ(extent.least[0], 200);
    EXPECT_FLOAT_EQ(extent.most[0], 500);
    EXPECT_FLOAT_EQ(extent.least[1], 50 - 200);
    EXPECT_FLOAT_EQ(extent.most[1], 50);
    EXPECT_FLOAT_EQ(extent.least[2], -5);
    EXPECT_FLOAT_EQ(extent.most[2], 95);
}

// (z, r, y) is right-handed as (x, y, z) is, so that outside stays outside.
TEST(BodyFiles, KeepTheirOutsideOutside) {
    const Bench bench;
    bench.put("wedge.obj", kWedge);
    const auto ready = withBodies(withBody("wedge.obj"), bench.path("job.toml"));
    double six = 0;
    for (const auto& t : ready.extraBodies[0].triangles) {
        six += t[0] * (t[4] * t[8] - t[5] * t[7]) + t[1] * (t[5] * t[6] - t[3] * t[8]) +
               t[2] * (t[3] * t[7] - t[4] * t[6]);
    }
    EXPECT_NEAR(six / 6, 10 * 20 * 30 / 6.0, 1e-3);
}

TEST(BodyFiles, ThatCannotBeUsedAreAFindingAtTheBodyAndNothingIsProven) {
    const Bench bench;
    bench.put("broken.stl", "solid x\nfacet normal 0 0 0\n");
    bench.put("empty.stl", "");
    const struct {
        const char* file;
        const char* code;
        const char* says;
    } rows[] = {{"nowhere.stl", "setup-body-not-usable", "nowhere.stl"},
                {"empty.stl", "setup-body-not-usable", "empty.stl"},
                {"/dev/zero", "setup-body-not-usable", "no file of its own"},
                {".", "setup-body-not-usable", "no file of its own"},
                {"broken.stl", "mesh-not-readable", "line 3"}};
    for (const auto& row : rows) {
        const auto ready = withBodies(withBody(row.file), bench.path("job.toml"));
        EXPECT_TRUE(ready.extraBodies[0].triangles.empty());
        ASSERT_EQ(ready.findings.size(), 1u) << row.file;
        const Finding& finding = ready.findings[0];
        EXPECT_EQ(finding.code, row.code) << row.file;
        EXPECT_EQ(finding.severity, Severity::Stop);
        EXPECT_TRUE(finding.unproven);
        EXPECT_EQ(finding.span.line, 17u);
        EXPECT_EQ(finding.span.file, SourceSpan::File::Setup);
        EXPECT_THAT(finding.message, HasSubstr("coolant pipe"));
        EXPECT_THAT(finding.message, HasSubstr(row.says));
        EXPECT_EQ(verdictOf(ready.findings), Verdict::NotProven);
    }
}

TEST(BodyFiles, OfASetUpNeverSavedCannotBeFound) {
    const auto ready = withBodies(withBody("wedge.obj"), {});
    ASSERT_EQ(ready.findings.size(), 1u);
    EXPECT_THAT(ready.findings[0].message, HasSubstr("never saved"));
}

TEST(BodyFiles, BoxesAreLeftAsTheyAre) {
    auto setup = withBody("");
    setup.extraBodies[0].z = {10, 20};
    const auto ready = withBodies(setup, {});
    EXPECT_TRUE(ready.findings.empty());
    EXPECT_EQ(ready.extraBodies[0].z.max, 20);
}

// What disks, transfers and other programs make of a mesh file. Each is told at the body, and none gets further.
TEST(BodyFiles, ACorpusOfBrokenFilesGetsNoFurther) {
    const Bench bench;
    const auto stl = [](std::uint32_t count, std::size_t triangles) {
        std::string bytes(80, ' ');
        bytes.append(reinterpret_cast<const char*>(&count), 4);
        return bytes + std::string(50 * triangles, '\0');
    };
    const std::string text =
        "solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 9 0 0\nvertex 0 9 0\nendloop\nendfacet\n";
    const std::vector<std::pair<std::string, std::string>> corpus = {
        {"zero-bytes.stl", ""},
        {"one-byte.stl", "s"},
        {"solid-only.stl", "solid"},
        {"header-only.stl", std::string(80, ' ')},
        {"no-triangles.stl", stl(0, 0)},
        {"too-few.stl", stl(5, 4)},
        {"too-many.stl", stl(3, 4)},
        {"huge-count.stl", stl(0xffffffffu, 4)},
        {"huge-count-that-wraps.stl", stl(0x80000004u, 4)},
        {"half-a-triangle.stl", stl(4, 3) + std::string(25, '\1')},
        {"all-zero.stl", stl(4, 4)},
        {"noise.stl", stl(4, 3) + std::string(50, '\xff')},
        {"text-cut-short.stl", text.substr(0, text.size() / 2)},
        {"text-without-end.stl", text},
        {"text-open.stl", text + "endsolid x\n"},
        {"text-with-nul.stl", text.substr(0, 60) + std::string(3, '\0') + text.substr(60)},
        {"text-of-two-corners.stl", "solid x\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nendloop\n"},
        {"program.stl", "%\nO1\nG28 U0 W0\nM30\n%\n"},
        {"picture.stl", std::string("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16) + std::string(400, 'x')},
        {"long-line.stl", "solid " + std::string(1 << 20, 'x')},
        {"deep.obj", "v 0 0 0\nf 1 1 1 1 1 1 1 1\n"},
        {"points.obj", "v 0 0 0\nv 1 0 0\np 1 2\n"},
        {"no-corners.obj", "f 1 2 3\n"},
        {"model.step", "ISO-10303-21;\n"},
        {"model.ply", "ply\nformat ascii 1.0\n"},
    };
    for (const auto& [name, bytes] : corpus) {
        bench.put(name, bytes);
        const auto ready = withBodies(withBody(name), bench.path("job.toml"));
        EXPECT_TRUE(ready.extraBodies[0].triangles.empty()) << name;
        ASSERT_EQ(ready.findings.size(), 1u) << name;
        EXPECT_TRUE(ready.findings[0].unproven) << name;
        EXPECT_THAT(ready.findings[0].message, HasSubstr(name));
        EXPECT_FALSE(ready.findings[0].remedy.empty()) << name;
        EXPECT_EQ(verdictOf(ready.findings), Verdict::NotProven) << name;
    }
}

// Wherever a blank is read for a trial, the bodies are.
TEST(BodyFiles, ComeWithTheBlank) {
    const Bench bench;
    bench.put("wedge.obj", kWedge);
    EXPECT_EQ(readBlank(withBody("wedge.obj"), bench.path("job.toml")).setup.extraBodies[0].triangles.size(), 4u);
    EXPECT_EQ(readBlank(withBody("nowhere.obj"), bench.path("job.toml")).setup.findings.size(), 1u);
}

// From the set-up file to the exit code of the command: 3, not proven, whatever it was without the body.
TEST(BodyFiles, DecideTheVerdictOfTheCommand) {
    const Bench bench;
    const std::string job = shop::readFile("assets/jobs/coupling-spigot.toml");
    bench.put("job.nc", shop::readFile("assets/jobs/coupling-spigot.nc"));
    const auto check = [&](const std::string& body) {
        const std::string setup = bench.put("job.toml", job + body);
        return shop::firstoff("check " + bench.path("job.nc") + " --setup " + setup);
    };
    const std::string body = "\n[[body]]\nname = \"pipe\"\nfile = \"wedge.obj\"\nat_z_mm = 700\nat_x_mm = 900\n";
    bench.put("wedge.obj", kWedge);
    const auto sound = check(body);
    EXPECT_EQ(sound.exitCode, check("").exitCode);
    EXPECT_THAT(sound.out, testing::Not(HasSubstr("wedge.obj")));
    bench.put("wedge.obj", kWedge.substr(0, kWedge.size() - 8));
    const auto broken = check(body);
    EXPECT_EQ(broken.exitCode, 3);
    EXPECT_THAT(broken.out, HasSubstr("wedge.obj is open"));
}

TEST(BodyFiles, AreReadAnewWhenTheyChange) {
    const Bench bench;
    bench.put("wedge.obj", kWedge);
    const auto read = [&](const char* unit) {
        auto setup = withBody("wedge.obj");
        setup.extraBodies[0].unit = unit;
        return withBodies(setup, bench.path("job.toml"));
    };
    EXPECT_EQ(extentOf(read("").extraBodies[0]).most[0], 30);
    EXPECT_EQ(extentOf(read("cm").extraBodies[0]).most[0], 300);
    std::string longer = kWedge;
    longer.replace(longer.find("0 0 30"), 6, "0 0 40");  // of the same length
    bench.put("wedge.obj", longer);
    EXPECT_EQ(extentOf(read("").extraBodies[0]).most[0], 40);
    bench.put("wedge.obj", "v 0 0 0\n");
    EXPECT_EQ(read("").findings.size(), 1u);
    EXPECT_EQ(read("").findings.size(), 1u);
}

}  // namespace
}  // namespace firstoff
