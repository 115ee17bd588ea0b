#include "gui/theme.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace firstoff::gui {
namespace {

// WCAG 2.1, success criteria 1.4.3 (text) and 1.4.11 (marks).
constexpr double kText = 4.5;
constexpr double kMark = 3.0;

// WCAG 2.1, definition of contrast ratio: black on white is 21, a colour on itself 1; #767676 on white is the
// well-known lightest grey that passes (4.54).
TEST(Colour, ContrastIsThatOfWcag) {
    EXPECT_NEAR(contrast(hex(0x000000), hex(0xffffff)), 21, 1e-9);
    EXPECT_NEAR(contrast(hex(0x123456), hex(0x123456)), 1, 1e-9);
    EXPECT_NEAR(contrast(hex(0x767676), hex(0xffffff)), 4.54, 0.005);  // given to two decimals
}

TEST(Colour, LegibleStopsAsSoonAsItIs) {
    EXPECT_EQ(legible(hex(0xffffff), hex(0x000000), 4.5), hex(0xffffff));
    const Colour found = legible(hex(0x0072B2), hex(0x181C21), 4.5);
    EXPECT_GE(contrast(found, hex(0x181C21)), 4.5);
    EXPECT_LT(contrast(found, hex(0x181C21)), 5.5);
}

struct Pair {
    const char* what;
    Colour ink, ground;
    double least;
};

std::vector<Pair> pairsOf(const Palette& p) {
    std::vector<Pair> pairs{
        {"text on panel", p.text, p.panel, kText},
        {"text on ground", p.text, p.ground, kText},
        {"text on raised", p.text, p.raised, kText},
        {"text on hovered", p.text, p.hovered, kText},
        {"quiet on panel", p.quiet, p.panel, kText},
        {"quiet on ground", p.quiet, p.ground, kText},
        {"quiet on current", p.quiet, p.current, kText},
        {"accent on panel", p.accent, p.panel, kMark},
        {"cutting", p.cutting, p.panel, kMark},
        {"rapid", p.rapid, p.panel, kMark},
        {"waiting", p.waiting, p.panel, kMark},
        {"spindle", p.spindle, p.panel, kMark},
        {"safe", p.safe, p.panel, kMark},
    };
    // Yellow has an outline in the colour of text where it needs one.
    for (const Colour& severity : p.severity) {
        const bool outlined = contrast(severity, p.panel) < kMark;
        pairs.push_back({"severity", outlined ? p.text : severity, p.panel, kMark});
        pairs.push_back({"letter on a severity", inkOn(severity), severity, kText});
    }
    for (const Colour& word : {p.wordMotion, p.wordAxis, p.wordFeed, p.wordTool, p.wordMisc, p.wordOther, p.comment}) {
        for (const Colour& ground : {p.panel, p.current, p.selection}) pairs.push_back({"word", word, ground, kText});
        // As blocks that have run are written.
        pairs.push_back({"executed word", mixed(word, p.quiet, 0.55), p.panel, kText});
    }
    for (int station = 1; station <= 12; ++station) {
        const Colour lane = mixed(p.panel, toolHue(p, station), 0.28);
        pairs.push_back({"tool name", legible(p.text, lane, kText), lane, kText});
        // Those that do not stand out have an outline in the colour of text.
        const Colour mark = needsOutline(p, toolHue(p, station)) ? p.text : toolHue(p, station);
        pairs.push_back({"tool mark", mark, p.panel, kMark});
    }
    for (const Colour& badge : {p.safe, p.unproven, p.severity[1], p.severity[2]}) {
        pairs.push_back({"verdict", inkOn(badge), badge, kText});
    }
    return pairs;
}

TEST(Palette, EverythingWrittenMeetsWcagAa) {
    for (const Palette* palette :
         {&darkPalette(), &lightPalette(), &projectorPalette(false), &projectorPalette(true)}) {
        for (const Pair& pair : pairsOf(*palette)) {
            EXPECT_GE(contrast(pair.ink, pair.ground), pair.least)
                << pair.what << (palette->dark ? ", dark" : ", light") << (palette->projector ? ", projector" : "");
        }
    }
}

// A projector's black is the lit wall: text keeps to 7, WCAG 2.1 AAA, and marks to what AA asks of text.
TEST(Palette, BeforeAProjectorContrastIsHigher) {
    for (const bool dark : {false, true}) {
        const Palette& p = projectorPalette(dark);
        for (const Colour& ground : {p.panel, p.ground, p.raised, p.current, p.selection}) {
            EXPECT_GE(contrast(p.text, ground), 7) << dark;
            EXPECT_GE(contrast(p.quiet, ground), 7) << dark;
        }
        for (const Colour& mark : {p.cutting, p.rapid, p.waiting, p.spindle, p.accent, p.line}) {
            EXPECT_GE(contrast(mark, p.panel), mark == p.line ? 3 : 4.5) << dark;
        }
        EXPECT_EQ(&paletteFor(dark, true), &p);
    }
}

}  // namespace
}  // namespace firstoff::gui
