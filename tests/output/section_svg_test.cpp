// The drawing of a half-section.
#include "sim/output/section_svg.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <sstream>
#include <string>
#include <vector>

namespace firstoff {
namespace {

using testing::HasSubstr;

Loop rectangle(int piece, double z0, double z1, double r0, double r1) {
    return {piece, {{z0, r0}, {z1, r0}, {z1, r1}, {z0, r1}}, {kUncut, kUncut, kUncut, kUncut}};
}

struct Dash {
    double z0, r0, z1, r1;
};

// The straight strokes of a group.
std::vector<Dash> strokes(const std::string& svg, const std::string& group) {
    std::vector<Dash> found;
    const std::size_t from = svg.find("<g id=\"" + group + "\"");
    const std::size_t to = svg.find("</g>", from);
    for (std::size_t at = svg.find('M', from); at < to; at = svg.find('M', at + 1)) {
        Dash d{};
        if (std::sscanf(svg.c_str() + at, "M%lf %lfL%lf %lf", &d.z0, &d.r0, &d.z1, &d.r1) == 4) found.push_back(d);
    }
    return found;
}

TEST(SectionSvg, IsTrueToScale) {
    const std::vector<Loop> loops{rectangle(0, -30, 1, 0, 25)};
    const std::string svg = sectionSvg(loops, "A <part> & more");
    // A margin of 5 mm all round.
    EXPECT_THAT(svg, HasSubstr("width=\"41mm\" height=\"35mm\" viewBox=\"-35 -30 41 35\""));
    EXPECT_THAT(svg, HasSubstr("<title>A &lt;part&gt; &amp; more</title>"));
    EXPECT_THAT(svg, HasSubstr("M-30 0M1 0L1 -25L-30 -25L-30 0"));  // not along the axis
}

TEST(SectionSvg, HatchesTheMetalAndNothingElse) {
    // A tube with a solid collar of another piece in front of it.
    const std::vector<Loop> loops{rectangle(0, 0, 20, 5, 15), rectangle(1, 30, 40, 0, 15)};
    const std::string svg = sectionSvg(loops, "");
    const std::vector<Dash> dashes = strokes(svg, "hatching");
    ASSERT_GT(dashes.size(), 20U);
    double hatched = 0;
    for (const Dash& d : dashes) {
        const bool held = d.z0 < 25;
        EXPECT_NEAR(d.z1 - d.z0, (held ? -1 : 1) * (d.r1 - d.r0), 1e-5);  // 45°, one way and the other; six decimals
        for (const auto& [z, r] : {std::pair(d.z0, -d.r0), std::pair(d.z1, -d.r1)}) {
            EXPECT_GE(z, (held ? 0 : 30) - 1e-6);
            EXPECT_LE(z, (held ? 20 : 40) + 1e-6);
            EXPECT_GE(r, (held ? 5 : 0) - 1e-6);
            EXPECT_LE(r, 15 + 1e-6);
        }
        hatched += std::hypot(d.z1 - d.z0, d.r1 - d.r0);
    }
    // Lines a millimetre apart cover the area of 20 by 10 and of 10 by 15; each end may be off by half a spacing.
    EXPECT_NEAR(hatched, 350, 0.5 * static_cast<double>(dashes.size()));
}

}  // namespace
}  // namespace firstoff
