// The drawing of a roughness profile, and text in XML.
#include "sim/output/finish_plot.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "sim/output/finish_table.h"
#include "sim/output/xml_text.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

using testing::HasSubstr;
using testing::Not;

// What is wrong with a text as XML, as far as our files can go wrong: tags that do not close, attributes without
// quotation marks, a < or & of its own in text, bytes below a space. Empty: nothing.
std::string faultOf(const std::string& xml) {
    std::vector<std::string> open;
    std::size_t at = xml.find("?>") + 2;
    while (at < xml.size()) {
        const std::size_t tag = std::min(xml.find('<', at), xml.size());
        for (std::size_t i = at; i < tag; ++i) {
            if (static_cast<unsigned char>(xml[i]) < 0x20 && xml[i] != '\n') return "a control character";
            const bool entity =
                xml.compare(i, 5, "&amp;") == 0 || xml.compare(i, 4, "&lt;") == 0 || xml.compare(i, 4, "&gt;") == 0;
            if (xml[i] == '&' && !entity) return "an & of its own";
        }
        if (tag == xml.size()) break;
        const std::size_t end = xml.find('>', tag);
        if (end == std::string::npos) return "a tag without an end";
        const std::string inside = xml.substr(tag + 1, end - tag - 1);
        if (inside.find('<') != std::string::npos) return "a < of its own: " + inside;
        if (std::count(inside.begin(), inside.end(), '"') % 2 != 0) return "a quotation mark of its own: " + inside;
        if (inside[0] == '/') {
            if (open.empty() || open.back() != inside.substr(1)) return "closes what is not open: " + inside;
            open.pop_back();
        } else if (inside.back() != '/') {
            open.push_back(inside.substr(0, inside.find(' ')));
        }
        at = end + 1;
    }
    return open.empty() ? "" : open.back() + " is never closed";
}

// A 55° insert turning a 60 mm bar to X50, and a face.
std::shared_ptr<const Trial> turned(const std::string& comment = "(SPIGOT)") {
    auto setup = shop::barStock(60, 60);
    shop::addTurningTool(setup, 1, 'D', 0.4, 93);
    setup.tools[0].name = "finish & \"fine\"";
    return runTrial(
        readProgram("T0101\nG97 S800 M03\nG00 X50. Z2.\nG01 Z-20. F0.12 " + comment + "\nX70.\nG28 U0 W0\nM30\n",
                    "spigot <1>.nc"),
        setup);
}

struct Place {
    double x, y;
};

std::vector<Place> pathOf(const std::string& svg, const std::string& name) {
    std::vector<Place> places;
    std::size_t at = svg.find("d=\"", svg.find("<path class=\"" + name + "\"")) + 3;
    while (svg[at] == 'M' || svg[at] == 'L') {
        char* end = nullptr;
        const double x = std::strtod(svg.c_str() + at + 1, &end);
        const double y = std::strtod(end, &end);
        places.push_back({x, y});
        at = static_cast<std::size_t>(end - svg.c_str());
    }
    return places;
}

TEST(FinishPlot, IsWellFormedWhateverTheProgramHolds) {
    for (const char* comment : {"(SPIGOT)", "(A < B & C > \"D\")", "(\xff\xc3\x28 \x01 \xed\xa0\x80)", "(ÄÖ ⌀)"}) {
        const auto trial = turned(comment);
        const std::string svg = finishPlot(*trial, finishOfBlock(*trial, 3));
        EXPECT_EQ(faultOf(svg), "") << comment;
        EXPECT_THAT(svg, HasSubstr("<title>Finish, spigot &lt;1&gt;.nc</title>"));
    }
    EXPECT_NE(faultOf("<?xml?><a><b></a>"), "");
    EXPECT_NE(faultOf("<?xml?><a>&</a>"), "");
    EXPECT_EQ(faultOf("<?xml?><a b=\"1\"><c d=\"2\"/>x</a>"), "");
}

TEST(FinishPlot, GivesTheFiguresOfTheTable) {
    const auto trial = turned();
    const auto reports = finishOfBlock(*trial, 3);
    const std::string table = finishTable(*trial, reports), svg = finishPlot(*trial, reports);
    const FinishReport& report = reports.at(0);
    const Roughness& r = report.roughness;
    EXPECT_THAT(
        svg, HasSubstr(fmt::format("Ra {:.3f} µm   Rz {:.3f} µm   Rt {:.3f} µm", 1e3 * r.ra, 1e3 * r.rz, 1e3 * r.rt)));
    for (const std::string& figure :
         {fmt::format("Ra {:.3f}", 1e3 * r.ra), fmt::format("Rz {:.3f}", 1e3 * r.rz),
          fmt::format("Rt {:.3f}", 1e3 * r.rt), std::string("cut-off 0.25 mm"), std::string("4.500"),
          std::string("feed 0.12 mm"), std::string("T1; line 4"), surfaceInWords(*trial, report)}) {
        EXPECT_THAT(table, HasSubstr(figure));
        EXPECT_THAT(svg, HasSubstr(figure));
    }
    EXPECT_THAT(svg, HasSubstr("G01 Z-20. F0.12 (SPIGOT)"));
    EXPECT_THAT(svg, HasSubstr("T1: finish &amp;"));
}

// On the sheet a mm along the surface and a µm of height are as long as the scale says.
TEST(FinishPlot, IsDrawnToTheScaleItStates) {
    const auto trial = turned();
    const auto reports = finishOfBlock(*trial, 3);
    const FinishReport& report = reports.at(0);
    const std::string svg = finishPlot(*trial, reports);
    double length = 0, height = 0, magnified = 0;
    const std::size_t at = svg.find("Scale: length");
    ASSERT_NE(at, std::string::npos);
    ASSERT_EQ(std::sscanf(svg.c_str() + at, "Scale: length %lf:1, height %lf:1 (heights magnified %lf times)", &length,
                          &height, &magnified),
              3);
    EXPECT_DOUBLE_EQ(height, length * magnified);
    const std::vector<Place> line = pathOf(svg, "profile"), mean = pathOf(svg, "mean-line");
    const SurfaceProfile& profile = report.marks.profile;
    EXPECT_NEAR(line.back().x - line.front().x, profile.length() * length, 1e-5);  // six decimals
    // Every point is a height of the profile or a cusp, 1e-4 mm on the sheet being what six decimals of both ends
    // leave.
    const double base = line.front().y + profile.heights.front() * height;
    double tallest = 0;
    for (const Place& p : line) {
        const double along = (p.x - line.front().x) / length, h = (base - p.y) / height;
        tallest = std::max(tallest, h);
        const auto i = static_cast<std::size_t>(std::lround(along / profile.step));
        const bool isHeight = std::abs(profile.heights.at(i) - h) * height < 1e-4;
        const bool isPeak = std::any_of(profile.peaks.begin(), profile.peaks.end(), [&](const auto& peak) {
            return std::abs(peak.at - along) * length < 1e-4 && std::abs(peak.height - h) * height < 1e-4;
        });
        EXPECT_TRUE(isHeight || isPeak) << along;
    }
    EXPECT_NEAR(tallest, report.theory->rtCircle, 1e-7);  // a tenth of a nanometre
    EXPECT_NEAR((mean.front().x - line.front().x) / length, report.roughness.from, 1e-7);
    EXPECT_NEAR((mean.back().x - line.front().x) / length, report.roughness.to, 1e-7);
}

TEST(FinishPlot, SaysWhyThereAreNoFigures) {
    const auto trial = turned();
    FinishReport report = finishOf(*trial, {SurfaceSpan::Side::Outer, 200, 210, 0});
    ASSERT_NE(report.trouble, "");
    const std::string svg = finishPlot(*trial, {report, finishOfBlock(*trial, 3).at(0)});
    EXPECT_EQ(faultOf(svg), "");
    EXPECT_THAT(svg, HasSubstr("No figures: there is no metal there."));
    EXPECT_THAT(svg, HasSubstr("2. outside"));
    EXPECT_THAT(svg.substr(0, svg.find("surface-2")), Not(HasSubstr("class=\"profile\"")));
}

TEST(XmlText, LetsOnlyThroughWhatXmlAllows) {
    struct Row {
        const char* text;
        const char* expected;
    };
    for (const Row& row :
         {Row{"a < b & c > d", "a &lt; b &amp; c &gt; d"}, Row{"µm ⌀ 𝄞", "µm ⌀ 𝄞"}, Row{"\x01\x1f\t\n", "??\t\n"},
          Row{"\xff\xc3", "??"}, Row{"]]>", "]]&gt;"}, Row{"\xc0\x80", "??"}, Row{"\xed\xa0\x80", "???"},
          Row{"\xef\xbf\xbf", "???"}, Row{"\xf4\x90\x80\x80", "????"}, Row{"\xe2\x82", "??"}, Row{"", ""}}) {
        EXPECT_EQ(xmlText(row.text), row.expected);
    }
}

}  // namespace
}  // namespace firstoff
