// The table of materials against the published values it is made from, and [material] of a set-up.
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>

#include "sim/base/units.h"
#include "sim/setup/material_table.h"
#include "tests/support/reference_rows.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

TEST(MaterialTable, HoldsNoFigureThatIsNotPublished) {
    std::set<std::pair<double, double>> published;
    std::set<double> withoutExponent;
    for (const shop::ReferenceRow& row : shop::referenceRows("cutting_force.csv")) {
        const auto kc11 = row.number("kc11_N_per_mm2");
        if (!kc11) continue;
        if (const auto mc = row.number("mc")) {
            published.insert({*kc11, *mc});
        } else {
            withoutExponent.insert(*kc11);
        }
    }
    std::set<double> youngs;
    for (const shop::ReferenceRow& row : shop::referenceRows("deflection.csv")) {
        if (row.text("kind") == "E_modulus") youngs.insert(row.number("value").value_or(0));
    }
    ASSERT_GT(materialTable().size(), 50u);
    std::set<std::string> names;
    int hardened = 0;
    for (const MaterialRow& row : materialTable()) {
        const Material& m = row.material;
        EXPECT_FALSE(m.source.empty()) << m.name;
        EXPECT_FALSE(row.status.empty()) << m.name;
        EXPECT_TRUE(names.insert(m.name).second) << m.name;
        for (const std::string& other : row.otherNames) EXPECT_TRUE(names.insert(other).second) << other;
        if (row.lacksExponent) {
            ++hardened;
            EXPECT_EQ(m.group, "H") << m.name;
            EXPECT_FALSE(m.cuts()) << m.name;
        } else {
            EXPECT_TRUE(published.contains({m.kc11, m.mc})) << m.name;
        }
        const bool memory = m.youngSource == "from memory";
        EXPECT_TRUE(m.youngGPa == 0 || memory || youngs.contains(m.youngGPa)) << m.name;
        EXPECT_EQ(m.youngGPa > 0, !m.youngSource.empty()) << m.name;
        EXPECT_EQ(m.densityKgPerDm3 > 0, !row.densitySource.empty()) << m.name;
    }
    EXPECT_EQ(hardened, 4);
}

TEST(MaterialTable, IsAskedByNameCapitalsAside) {
    struct Case {
        const char *asked, *found;
    };
    for (const Case& c : {Case{"C45", "C45"},
                          {" c45 ", "C45"},
                          {"1.0503", "C45"},
                          {"11smn30", "11SMn30"},
                          {"16MnCr5", "16MnCr5"},
                          {"group 14", "VDI 3323 group 14"},
                          {"GG25", "EN-GJL-250"}}) {
        const MaterialRow* row = findMaterial(c.asked);
        ASSERT_NE(row, nullptr) << c.asked;
        EXPECT_EQ(row->material.name, c.found);
    }
    for (const char* unknown : {"", "C4", "C45 ann", "free-cutting steel"}) {
        EXPECT_EQ(findMaterial(unknown), nullptr) << unknown;
    }
}

std::string job(const std::string& material, const std::string& table) {
    std::string text = shop::readFile("assets/jobs/coupling-spigot.toml");
    const std::string before = "material = \"C45\"";
    text.replace(text.find(before), before.size(), material);
    return text + "\n" + table;
}

TEST(MaterialOfASetUp, ComesFromTheTable) {
    const auto setup = readSetup(job("material = \"C45\"", ""), "job.toml");
    EXPECT_TRUE(setup.findings.empty());
    EXPECT_EQ(setup.material.kc11, 2220);
    EXPECT_EQ(setup.material.mc, 0.14);
    EXPECT_EQ(setup.material.youngGPa, 203.4);
    EXPECT_EQ(setup.material.group, "P");
    EXPECT_NEAR(degrees(setup.material.rakeAngle), 6, 1e-9);
    EXPECT_GT(setup.material.span.line, 0u);
}

TEST(MaterialOfASetUp, IsUnknownWithoutAFinding) {
    const auto setup = readSetup(job("material = \"old axle\"", ""), "job.toml");
    EXPECT_TRUE(setup.findings.empty()) << "the trial notes it, once it knows that something is cut";
    EXPECT_EQ(setup.material.name, "old axle");
    EXPECT_FALSE(setup.material.cuts());
    EXPECT_EQ(setup.material.youngGPa, 0);
}

TEST(MaterialOfASetUp, TakesTheUsersOwnFigures) {
    const auto setup = readSetup(job("material = \"old axle\"",
                                     "[material]\nname = \"axle steel\"\nkc11_n_per_mm2 = 1900\nmc = 0.2\n"
                                     "rake_angle_deg = -6\ngroup = \"P\"\nsource = \"cut and measured\"\n"
                                     "youngs_modulus_gpa = 207\ndensity_kg_per_dm3 = 7.83\n"),
                                 "job.toml");
    EXPECT_TRUE(setup.findings.empty());
    EXPECT_EQ(setup.material.name, "axle steel");
    EXPECT_EQ(setup.material.kc11, 1900);
    EXPECT_EQ(setup.material.mc, 0.2);
    EXPECT_NEAR(degrees(setup.material.rakeAngle), -6, 1e-9);
    EXPECT_EQ(setup.material.source, "cut and measured");
    EXPECT_EQ(setup.material.youngGPa, 207);
    EXPECT_EQ(setup.material.youngSource, "cut and measured");
    EXPECT_EQ(setup.material.densityKgPerDm3, 7.83);
    // One figure of the table replaced, the others kept.
    const auto other = readSetup(job("material = \"C45\"", "[material]\nyoungs_modulus_gpa = 210\n"), "job.toml");
    EXPECT_EQ(other.material.kc11, 2220);
    EXPECT_EQ(other.material.youngGPa, 210);
    EXPECT_EQ(other.material.youngSource, "given in the set-up");
}

TEST(MaterialOfASetUp, NeedsBothFiguresOfTheLaw) {
    const auto setup = readSetup(job("material = \"C45\"", "[material]\nkc11_n_per_mm2 = 1900\n"), "job.toml");
    ASSERT_EQ(setup.findings.size(), 1u);
    EXPECT_EQ(setup.findings[0].code, "setup-missing-key");
    EXPECT_EQ(setup.material.kc11, 2220) << "the table's, not half of each";
}

TEST(ToolOfASetUp, SaysWhatItStands) {
    std::string text = shop::readFile("assets/jobs/coupling-spigot.toml");
    const std::size_t first = text.find("kind = \"turning\"");
    text.insert(first,
                "rake_angle_deg = -6\nmax_cutting_force_n = 3000\nmax_feed_mm_per_rev = 0.4\nmax_depth_mm = 4\n");
    const auto setup = readSetup(text, "job.toml");
    EXPECT_TRUE(setup.findings.empty());
    const Tool& tool = setup.tools.at(0);
    ASSERT_TRUE(tool.rakeAngle);
    EXPECT_NEAR(degrees(*tool.rakeAngle), -6, 1e-9);
    EXPECT_EQ(tool.maxForceN, 3000);
    EXPECT_EQ(tool.maxFeed, 0.4);
    EXPECT_EQ(tool.maxDepth, 4);
    EXPECT_FALSE(setup.tools.at(1).rakeAngle);
    EXPECT_EQ(setup.tools.at(1).maxForceN, 0);
}

}  // namespace
}  // namespace firstoff
