#include "gui/colour_vision.h"

#include <gtest/gtest.h>

#include <limits>
#include <vector>

#include "gui/scene/palette.h"
#include "gui/theme.h"

namespace firstoff::gui {
namespace {

struct Difference {
    Lab a, b;
    double expected;
};

// Pairs of the test data published with G. Sharma et al. (2005), to its four decimals; from memory.
TEST(ColourDifference, IsThatOfTheTestData) {
    for (const Difference& row : {Difference{{50, 2.6772, -79.7751}, {50, 0, -82.7485}, 2.0425},
                                  Difference{{50, 2.5, 0}, {73, 25, -18}, 27.1492},
                                  Difference{{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082}}) {
        EXPECT_NEAR(differenceOf(row.a, row.b), row.expected, 5e-5);
        EXPECT_NEAR(differenceOf(row.b, row.a), row.expected, 5e-5);
    }
}

TEST(ColourVision, SeesGreysAsGreys) {
    for (const ColourVision vision : kColourVisions) {
        for (const std::uint32_t grey : {0x000000u, 0x555555u, 0xffffffu}) {
            const Lab seen = seenBy(vision, hex(grey));
            EXPECT_NEAR(seen.a, 0, 0.02) << name(vision);  // rows of the matrices add up to 1 to six decimals
            EXPECT_NEAR(seen.b, 0, 0.02) << name(vision);
        }
    }
}

// The deficiencies are those they are named for: red and green of like lightness, blue and green.
TEST(ColourVision, LosesWhatItsConesWouldTellApart) {
    const auto apart = [](ColourVision vision, std::uint32_t a, std::uint32_t b) {
        return differenceOf(seenBy(vision, hex(a)), seenBy(vision, hex(b)));
    };
    EXPECT_LT(apart(ColourVision::WithoutGreen, 0xb05030, 0x6f7030),
              0.5 * apart(ColourVision::Common, 0xb05030, 0x6f7030));
    EXPECT_LT(apart(ColourVision::WithoutBlue, 0x4f9aa8, 0x4f9e80),
              0.7 * apart(ColourVision::Common, 0x4f9aa8, 0x4f9e80));
}

struct Place {
    const char* what;
    std::vector<Colour> hues;
};

std::vector<Colour> coloursOf(std::initializer_list<std::uint32_t> all) {
    std::vector<Colour> colours;
    for (const std::uint32_t rgb : all) colours.push_back(hex(rgb));
    return colours;
}

// Hues that stand side by side in one place and are told apart there.
std::vector<Place> placesOf(const Palette& p) {
    std::vector<Colour> stations;
    for (int station = 1; station <= 8; ++station) stations.push_back(toolHue(p, station));
    return {
        {"tools", stations},
        {"severities", {p.severity[1], p.severity[2], p.safe}},
        {"sizes", coloursOf({palette::kWithinLimits, palette::kTooSmall, palette::kTooLarge, palette::kNotMeasured})}};
}

// Just seen is 1 for fields that touch (M. Mahy et al., "Evaluation of Uniform Color Spaces", 1994, found 2.3 in the
// older L*a*b* metric, to which this one is about half for saturated hues). Marks of a few pixels, apart from each
// other and held against a memory of the hue, need several times as much; eight marks leave no room for more than ten.
constexpr double kTold = 10;

TEST(Palette, TellsHuesApartWithEveryCommonColourVision) {
    for (const Palette* palette :
         {&darkPalette(), &lightPalette(), &projectorPalette(false), &projectorPalette(true)}) {
        for (const Place& place : placesOf(*palette)) {
            for (const ColourVision vision : kColourVisions) {
                for (std::size_t i = 0; i < place.hues.size(); ++i) {
                    for (std::size_t k = i + 1; k < place.hues.size(); ++k) {
                        EXPECT_GE(differenceOf(seenBy(vision, place.hues[i]), seenBy(vision, place.hues[k])), kTold)
                            << place.what << ' ' << i + 1 << " and " << k + 1 << ", vision " << name(vision)
                            << (palette->dark ? ", dark" : ", light") << (palette->projector ? ", projector" : "");
                    }
                }
            }
        }
    }
}

}  // namespace
}  // namespace firstoff::gui
