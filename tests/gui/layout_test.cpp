#include "gui/layout.h"

#include <gtest/gtest.h>

#include <vector>

namespace firstoff::gui {
namespace {

struct Size {
    float width, height, scale;
};

class Windows : public testing::TestWithParam<Size> {
protected:
    static Layout layout(SectionSettings::Shown section = SectionSettings::Shown::PictureOnly) {
        const Size& size = GetParam();
        ViewSettings view;
        view.section.shown = section;
        return layOut({size.width, size.height, size.scale, 22 * size.scale, 40 * size.scale}, view);
    }
    static void expectInsideAndApart(const Layout& layout);
};

std::vector<Rect> panes(const Layout& layout) {
    std::vector<Rect> all;
    for (const Rect& rect : {layout.readouts, layout.picture, layout.section, layout.program, layout.findings,
                             layout.transport, layout.timeline, layout.foot}) {
        if (!rect.empty()) all.push_back(rect);
    }
    return all;
}

void Windows::expectInsideAndApart(const Layout& layout) {
    const auto all = panes(layout);
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_GE(all[i].x, 0);
        EXPECT_GE(all[i].y, 22 * GetParam().scale);
        EXPECT_LE(all[i].right(), GetParam().width + 0.01f);  // single precision at 4,000 px
        EXPECT_LE(all[i].bottom(), GetParam().height + 0.01f);
        for (std::size_t k = i + 1; k < all.size(); ++k) {
            const bool apart = all[i].right() <= all[k].x + 0.01f || all[k].right() <= all[i].x + 0.01f ||
                               all[i].bottom() <= all[k].y + 0.01f || all[k].bottom() <= all[i].y + 0.01f;
            EXPECT_TRUE(apart) << i << " and " << k;
        }
    }
}

TEST_P(Windows, KeepPanesInsideAndApart) {
    using Shown = SectionSettings::Shown;
    for (const Shown shown : {Shown::PictureOnly, Shown::Both, Shown::SectionOnly}) expectInsideAndApart(layout(shown));
}

TEST_P(Windows, ShowTheHalfSectionBesideOrInsteadOfThePicture) {
    using Shown = SectionSettings::Shown;
    EXPECT_TRUE(layout().section.empty());
    EXPECT_FALSE(layout(Shown::SectionOnly).section.empty());
    EXPECT_TRUE(layout(Shown::SectionOnly).picture.empty());
    const Layout both = layout(Shown::Both);
    EXPECT_FALSE(both.section.empty());
    EXPECT_EQ(both.picture.empty(), both.aboveSection.empty());
}

TEST_P(Windows, AlwaysShowPictureTransportAndVerdict) {
    const Layout out = layout();
    EXPECT_GT(out.picture.w, 100 * GetParam().scale);
    EXPECT_GT(out.picture.h, 20 * GetParam().scale);
    EXPECT_FALSE(out.transport.empty());
    EXPECT_FALSE(out.foot.empty());
}

INSTANTIATE_TEST_SUITE_P(FromSmallToLarge, Windows,
                         testing::Values(Size{320, 240, 1}, Size{640, 400, 1}, Size{800, 600, 1}, Size{1280, 800, 1},
                                         Size{1280, 800, 2}, Size{1920, 1080, 1}, Size{3840, 2160, 2},
                                         Size{3840, 2160, 1}));

TEST(Layout, FoldsPanesAsRoomGoes) {
    const auto at = [](float width, float height) { return layOut({width, height, 1, 22, 40}, {}); };
    EXPECT_FALSE(at(1280, 800).readoutsFolded);
    EXPECT_TRUE(at(800, 800).readoutsFolded);
    EXPECT_TRUE(at(1280, 500).findingsFolded);
    EXPECT_TRUE(at(1280, 420).lanesFolded);
    EXPECT_TRUE(at(400, 400).program.empty());
    EXPECT_TRUE(at(320, 240).timeline.empty());
}

TEST(Layout, DoesNotLetASplitterPushThePictureOut) {
    ViewSettings view;
    view.programWidth = 4000;
    view.readoutsWidth = 4000;
    view.timelineHeight = 4000;
    const Layout out = layOut({1280, 800, 1, 22, 40}, view);
    EXPECT_GE(out.picture.w, 200);
    EXPECT_GE(out.picture.h, 150);
}

}  // namespace
}  // namespace firstoff::gui
