// [drawing] and [[dimension]] of a set-up: what they say, and what is said of them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "sim/base/units.h"
#include "sim/setup/setup.h"
#include "tests/setup/lathe_text.h"

namespace firstoff {
namespace {

using Kind = WantedDimension::Kind;

firstoff::Setup read(const std::string& tables) {
    return readSetup(shop::latheText() + tables, "test.toml");
}

std::string codes(const firstoff::Setup& setup) {
    std::string text;
    for (const Finding& f : setup.findings) text += (text.empty() ? "" : " ") + f.code;
    return text;
}

TEST(WantedPart, IsReadKeyByKey) {
    const auto setup = read(R"([drawing]
file = "part.dxf"
layer = "SECTION"
unit = "mm"
origin_z_mm = -60
grade = "m"
[[dimension]]
kind = "diameter"
name = "spigot"
size_mm = 24
fit = "h7"
z_mm = -8
x_mm = 25
[[dimension]]
kind = "taper"
size_deg = 20
z_mm = -20
to_z_mm = -30
above_deg = 0.5
below_deg = -0.5
[[dimension]]
kind = "thread"
inside = true
size_mm = 10
pitch_mm = 1.5
thread_class = "6H"
z_mm = -2
to_z_mm = -12
[[dimension]]
kind = "length"
size_mm = 43
z_mm = 0
x_mm = 20
to_z_mm = -43
to_x_mm = 40
[[dimension]]
kind = "run-out"
z_mm = -8
above_mm = 0.02
)");
    ASSERT_EQ(codes(setup), "");
    const WantedPart& w = setup.wanted;
    EXPECT_TRUE(w.given());
    EXPECT_EQ(w.file, "part.dxf");
    EXPECT_EQ(w.layer, "SECTION");
    EXPECT_EQ(w.unit, "mm");
    EXPECT_EQ(w.originZ, -60);
    EXPECT_EQ(w.grade, 'm');
    EXPECT_FALSE(w.fileRead);
    ASSERT_EQ(w.dimensions.size(), 5u);
    EXPECT_EQ(w.dimensions[0].kind, Kind::Diameter);
    EXPECT_EQ(w.dimensions[0].name, "spigot");
    EXPECT_EQ(w.dimensions[0].size, 24);
    EXPECT_EQ(w.dimensions[0].fit, "h7");
    EXPECT_EQ(w.dimensions[0].at, (Point{-8, 12.5})) << "X as diameter";
    EXPECT_NEAR(w.dimensions[1].size, radians(20), 1e-12);
    EXPECT_NEAR(*w.dimensions[1].below, radians(-0.5), 1e-12);
    EXPECT_TRUE(w.dimensions[2].inside);
    EXPECT_EQ(w.dimensions[2].pitch, 1.5);
    EXPECT_EQ(w.dimensions[2].threadClass, "6H");
    EXPECT_EQ(w.dimensions[3].to, (Point{-43, 20}));
    EXPECT_EQ(*w.dimensions[4].above, 0.02);
    EXPECT_FALSE(read("").wanted.given());
}

struct Wrong {
    const char* what;
    std::string tables;
    const char* code;
    const char* says;
};

std::string dimension(const std::string& keys) {
    return "[[dimension]]\nkind = \"diameter\"\n" + keys;
}

TEST(WantedPart, SaysWhatIsMissingAndWhatContradicts) {
    const Wrong kRows[] = {
        {"no limits at all", dimension("size_mm = 24\nz_mm = -8\n"), "setup-dimension", "no limits"},
        {"class and deviations", dimension("size_mm = 24\nz_mm = -8\nfit = \"h7\"\nabove_mm = 0\nbelow_mm = -0.1\n"),
         "setup-dimension", "a class and deviations as well"},
        {"one deviation", dimension("size_mm = 24\nz_mm = -8\nabove_mm = 0.1\n"), "setup-dimension",
         "Only above_mm is given"},
        {"deviations the wrong way round", dimension("size_mm = 24\nz_mm = -8\nabove_mm = -0.1\nbelow_mm = 0.1\n"),
         "setup-dimension", "not larger"},
        {"no place", dimension("size_mm = 24\nfit = \"h7\"\n"), "setup-missing-key", "z_mm"},
        {"no size", dimension("z_mm = -8\nfit = \"h7\"\n"), "setup-missing-key", "size_mm"},
        {"a key of another kind", dimension("size_mm = 24\nz_mm = -8\nfit = \"h7\"\npitch_mm = 2\n"),
         "setup-key-of-another-kind", "pitch_mm"},
        {"a length of nothing",
         "[[dimension]]\nkind = \"length\"\nsize_mm = 5\nz_mm = -8\nto_z_mm = -8\nabove_mm = 0.1\nbelow_mm = -0.1\n",
         "setup-dimension", "begins and ends at one Z"},
        {"a thread without a class",
         "[[dimension]]\nkind = \"thread\"\nsize_mm = 24\npitch_mm = 2\nz_mm = 0\nto_z_mm = -9\n", "setup-dimension",
         "no limits"},
        {"a run-out without its greatest", "[[dimension]]\nkind = \"run-out\"\nz_mm = -8\n", "setup-dimension",
         "no limits"},
        {"file and profile", "[drawing]\nfile = \"a.dxf\"\nprofile_line = 7\n", "setup-drawing", "as well"},
        {"a layer of nothing", "[drawing]\nlayer = \"A\"\n", "setup-drawing", "no file that it belongs to"},
        {"a file without a name", "[drawing]\nfile = \"\"\n", "setup-drawing", "names no file"},
        {"an unknown grade", "[drawing]\ngrade = \"x\"\n", "setup-unknown-choice", "grade"},
        {"an unknown kind", "[[dimension]]\nkind = \"width\"\nz_mm = 0\n", "setup-unknown-choice", "kind"},
        {"one bracket", "[dimension]\nkind = \"run-out\"\nz_mm = 0\nabove_mm = 0.1\n", "setup-wrong-type", "brackets"}};
    for (const Wrong& row : kRows) {
        SCOPED_TRACE(row.what);
        const auto setup = read(row.tables);
        const auto found = std::find_if(setup.findings.begin(), setup.findings.end(),
                                        [&](const Finding& f) { return f.code == row.code; });
        ASSERT_NE(found, setup.findings.end()) << codes(setup);
        EXPECT_THAT(found->message, testing::HasSubstr(row.says));
        EXPECT_EQ(found->severity, Severity::Stop);
        EXPECT_GT(found->span.line, 20u) << "at its table";
    }
}

// With a general grade a dimension needs no limits of its own, but a thread does.
TEST(WantedPart, TakesLimitsFromTheGrade) {
    const auto setup = read("[drawing]\ngrade = \"f\"\n" + dimension("size_mm = 24\nz_mm = -8\n"));
    EXPECT_EQ(codes(setup), "");
    ASSERT_EQ(setup.wanted.dimensions.size(), 1u);
    EXPECT_FALSE(setup.wanted.dimensions[0].above);
}

TEST(WantedPart, AGrooveNeedsTheDiameterAtWhichItIsGauged) {
    const auto setup =
        read("[drawing]\ngrade = \"m\"\n[[dimension]]\nkind = \"groove-width\"\nsize_mm = 4\nz_mm = -8\n");
    EXPECT_EQ(codes(setup), "setup-dimension");
    ASSERT_EQ(setup.wanted.dimensions.size(), 1u);
    EXPECT_EQ(setup.wanted.dimensions[0].trouble, "a groove is gauged at a diameter, and none is given");
}

// What is wrong with one dimension must not give the next one its number.
TEST(WantedPart, AWrongDimensionKeepsItsPlace) {
    const auto setup = read(dimension("size_mm = 24\nz_mm = -8\nfit = \"h7\"\n") +
                            dimension("size_mm = 25\nz_mm = -9\nabove_mm = -0.1\nbelow_mm = 0.1\n") +
                            dimension("size_mm = 26\nz_mm = -10\n") + dimension("z_mm = -11\nfit = \"h7\"\n") +
                            "[[dimension]]\nkind = \"width\"\nname = \"slot\"\nz_mm = 0\n" +
                            dimension("size_mm = 27\nz_mm = -12\nfit = \"h7\"\n"));
    const auto& d = setup.wanted.dimensions;
    ASSERT_EQ(d.size(), 6u);
    EXPECT_EQ(d[0].trouble, "");
    EXPECT_EQ(d[1].trouble, "above_mm is not larger than below_mm");
    EXPECT_EQ(d[1].size, 25);
    EXPECT_EQ(d[2].trouble, "the dimension has no limits to be gauged by");
    EXPECT_EQ(d[3].trouble, "a key of it is missing or wrong in the set-up");
    EXPECT_EQ(d[4].trouble, "a key of it is missing or wrong in the set-up");
    EXPECT_EQ(d[4].name, "slot");
    EXPECT_EQ(d[5].trouble, "");
    EXPECT_EQ(d[5].size, 27);
    EXPECT_LT(d[1].span.line, d[2].span.line);
}

}  // namespace
}  // namespace firstoff
