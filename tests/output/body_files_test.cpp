// Bodies of a set-up that stand in mesh files beside it.
#include "sim/output/body_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

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

// Wherever a blank is read for a trial, the bodies are.
TEST(BodyFiles, ComeWithTheBlank) {
    const Bench bench;
    bench.put("wedge.obj", kWedge);
    EXPECT_EQ(readBlank(withBody("wedge.obj"), bench.path("job.toml")).setup.extraBodies[0].triangles.size(), 4u);
    EXPECT_EQ(readBlank(withBody("nowhere.obj"), bench.path("job.toml")).setup.findings.size(), 1u);
}

}  // namespace
}  // namespace firstoff
