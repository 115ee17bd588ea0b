#include "gui/scene/measured_surfaces.h"

#include <gtest/gtest.h>

#include "gui/scene/billet_picture.h"
#include "gui/scene/palette.h"
#include "tests/support/shop.h"

namespace firstoff::gui {
namespace {

using State = GaugedDimension::State;

constexpr const char* kProgram =
    "O0001\nG21 G40 G99\nT0101\nG97 S1000 M03\n"
    "G00 X42. Z0.\nG01 X-1.6 F0.1\nG00 X30. Z2.\n"
    "G01 Z-20.\n"  // line 8: the diameter of 30
    "X42.\n"       // line 9: its shoulder
    "G28 U0 W0\nM30\n";
constexpr BlockId kCylinder = 7, kShoulder = 8;

WantedDimension wanted(WantedDimension::Kind kind, Point at, double size, double below, double above) {
    WantedDimension d;
    d.kind = kind;
    d.at = at;
    d.size = size;
    d.below = below;
    d.above = above;
    return d;
}

std::shared_ptr<const Trial> gauged(std::vector<WantedDimension> dimensions) {
    firstoff::Setup setup = shop::barStock(40, 60, 1);
    shop::addTurningTool(setup, 1, 'C', 0.8);
    setup.wanted.dimensions = std::move(dimensions);
    return runTrial(readProgram(kProgram, "job.nc"), std::move(setup));
}

// Of the cuts that a block made, the state of the last one that has one.
std::optional<State> stateOf(const Trial& trial, BlockId block) {
    const MeasuredSurfaces surfaces(trial);
    std::optional<State> state;
    for (std::uint32_t i = 0; i < trial.timeline.moves.size(); ++i) {
        if (trial.toolpath.moves[trial.timeline.moves[i].move].block == block && surfaces.of(i)) state = surfaces.of(i);
    }
    return state;
}

WantedDimension diameter(double below, double above) {
    return wanted(WantedDimension::Kind::Diameter, {-10, 0}, 30, below, above);
}

TEST(MeasuredSurfaces, HaveTheStateOfTheSizeTakenOnThem) {
    struct Row {
        double below, above;  // of a diameter cut to 30.000
        State state;
    };
    for (const Row& row :
         {Row{-0.01, 0.01, State::Within}, Row{0.02, 0.05, State::TooSmall}, Row{-0.05, -0.02, State::TooLarge}}) {
        const auto trial = gauged({diameter(row.below, row.above)});
        EXPECT_EQ(stateOf(*trial, kCylinder), row.state) << row.below;
        EXPECT_FALSE(stateOf(*trial, kShoulder)) << "no size was taken there";
    }
}

TEST(MeasuredSurfaces, TakeTheFacesOfALengthAndNoCylinder) {
    WantedDimension length = wanted(WantedDimension::Kind::Length, {0, 5}, 20, -0.1, 0.1);
    length.to = {-20, 18};
    const auto trial = gauged({length});
    ASSERT_EQ(trial->gauged.dimensions[0].state, State::Within) << trial->gauged.dimensions[0].trouble;
    EXPECT_EQ(stateOf(*trial, 5), State::Within);  // the front face
    EXPECT_FALSE(stateOf(*trial, kCylinder)) << "it left the shoulder only at its end";
}

// A surface is never shown as good because one of its sizes is.
TEST(MeasuredSurfaces, CountASizeThatIsOutBeforeOneThatIsWithin) {
    for (const bool first : {false, true}) {
        const WantedDimension good = diameter(-0.01, 0.01), bad = diameter(0.02, 0.05);
        const auto trial = gauged(first ? std::vector{bad, good} : std::vector{good, bad});
        EXPECT_EQ(stateOf(*trial, kCylinder), State::TooSmall);
    }
}

TEST(MeasuredSurfaces, AreNoneWhereNothingWasFound) {
    const auto trial = gauged({wanted(WantedDimension::Kind::Diameter, {40, 0}, 30, -0.1, 0.1)});  // beside the part
    ASSERT_EQ(trial->gauged.dimensions[0].state, State::NotFound);
    EXPECT_EQ(MeasuredSurfaces(*trial).size(), 0u);
}

TEST(SurfaceColour, TellsSizesByColourAndByHatching) {
    SceneOptions options;
    options.colouring = Colouring::Size;
    std::vector<std::uint32_t> colours;
    const auto add = [&](const Trial& trial, BlockId block) {
        const MeasuredSurfaces surfaces(trial);
        for (std::uint32_t i = 0; i < trial.timeline.moves.size(); ++i) {
            if (trial.toolpath.moves[trial.timeline.moves[i].move].block == block)
                return colours.push_back(surfaceColour(trial, options, surfaces, i));
        }
    };
    add(*gauged({diameter(-0.01, 0.01)}), kCylinder);
    add(*gauged({diameter(0.02, 0.05)}), kCylinder);
    add(*gauged({diameter(-0.05, -0.02)}), kCylinder);
    add(*gauged({diameter(-0.01, 0.01)}), kShoulder);  // not measured
    ASSERT_EQ(colours.size(), 4u);
    for (std::size_t i = 0; i < colours.size(); ++i) {
        for (std::size_t k = i + 1; k < colours.size(); ++k) EXPECT_NE(colours[i] & 0xffffffu, colours[k] & 0xffffffu);
    }
    // The hatching, in alpha: none within and where nothing was measured, two kinds for what is out.
    EXPECT_EQ(colours[0] >> 24, colours[3] >> 24);
    EXPECT_NE(colours[0] >> 24, colours[1] >> 24);
    EXPECT_NE(colours[0] >> 24, colours[2] >> 24);
    EXPECT_NE(colours[1] >> 24, colours[2] >> 24);
}

}  // namespace
}  // namespace firstoff::gui
