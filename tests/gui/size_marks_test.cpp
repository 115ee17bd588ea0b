#include "gui/size_marks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "gui/imgui_context.h"
#include "gui/size_words.h"
#include "gui/theme.h"
#include "gui/wrapped_text.h"

namespace firstoff::gui {
namespace {

constexpr float kHeight = 20, kAway = 26;

bool apart(const BalloonPlace& a, const BalloonPlace& b) {
    return a.corner.x + a.width <= b.corner.x || b.corner.x + b.width <= a.corner.x ||
           a.corner.y + kHeight <= b.corner.y || b.corner.y + kHeight <= a.corner.y;
}

TEST(Balloons, StandApartAndInTheirRoom) {
    const Rect room{10, 40, 600, 300};
    std::vector<BalloonPlace> balloons;
    for (int i = 0; i < 30; ++i) {
        BalloonPlace b;
        b.at = {100.0f + 3.0f * static_cast<float>(i), 200};  // far closer than they are wide
        b.width = i % 4 == 0 ? 90.0f : 18.0f;
        b.above = i % 3 != 0;
        balloons.push_back(b);
    }
    placeBalloons(balloons, room, kHeight, kAway);
    for (std::size_t i = 0; i < balloons.size(); ++i) {
        const BalloonPlace& b = balloons[i];
        ASSERT_TRUE(b.placed) << i;
        EXPECT_GE(b.corner.x, room.x);
        EXPECT_LE(b.corner.x + b.width, room.right());
        EXPECT_GE(b.corner.y, room.y);
        EXPECT_LE(b.corner.y + kHeight, room.bottom());
        for (std::size_t k = i + 1; k < balloons.size(); ++k) EXPECT_TRUE(apart(b, balloons[k])) << i << " and " << k;
    }
}

TEST(Balloons, StandOnTheirSideWhereThereIsRoom) {
    std::vector<BalloonPlace> balloons(2);
    balloons[0].at = balloons[1].at = {200, 200};
    balloons[0].width = balloons[1].width = 18;
    balloons[1].above = false;
    placeBalloons(balloons, {0, 0, 400, 400}, kHeight, kAway);
    EXPECT_LT(balloons[0].corner.y, 200);
    EXPECT_GT(balloons[1].corner.y, 200);
}

TEST(Balloons, SayWhenThereIsNoRoom) {
    std::vector<BalloonPlace> balloons(4);
    for (BalloonPlace& b : balloons) {
        b.at = {30, 30};
        b.width = 50;
    }
    placeBalloons(balloons, {0, 0, 80, 50}, kHeight, 10);
    int placed = 0;
    for (const BalloonPlace& b : balloons) placed += b.placed;
    EXPECT_GT(placed, 0);
    EXPECT_LT(placed, 4);
}

TEST(OutInWords, TellsByHowMuch) {
    GaugedDimension d;
    d.least = 29.98;
    d.most = 30;
    Measures measures(Units::Millimetres);
    const auto at = [&](double measured, GaugedDimension::State state) {
        d.measured = measured;
        d.state = state;
        return outInWords(d, measures);
    };
    EXPECT_EQ(at(29.99, GaugedDimension::State::Within), "");
    EXPECT_EQ(at(29.968, GaugedDimension::State::TooSmall), "0.012 mm too small");
    EXPECT_EQ(at(30.25, GaugedDimension::State::TooLarge), "0.250 mm too large");
    measures = Measures(Units::Inches);
    EXPECT_EQ(at(30.254, GaugedDimension::State::TooLarge), "0.0100 in too large");
    d.wanted.kind = WantedDimension::Kind::Taper;  // rad: no inches of that
    EXPECT_EQ(sizeTold(d, std::acos(-1.0) / 6, measures), "30.000°");
}

TEST(FittedText, LeavesOutItsEndAndNeverHalfACharacter) {
    ImguiContext context;
    const Fonts fonts = loadFonts(1);
    ImGui::GetIO().Fonts->Build();
    const ImFont& font = *fonts.small;
    const std::string text =
        "T0101 \xC3\x98"
        "24 h\xC3\xA4rte \xC3\x98 48 finishing";
    const auto width = [&](const std::string& t) { return font.CalcTextSizeA(font.FontSize, 1e9f, 0, t.c_str()).x; };
    EXPECT_EQ(fitted(font, 1000, text), text);
    for (float room = 5; room < width(text); room += 3) {
        const std::string shown = fitted(font, room, text);
        EXPECT_EQ(shown.substr(shown.size() - 3), "\xE2\x80\xA6");
        const std::string kept = shown.substr(0, shown.size() - 3);
        EXPECT_EQ(text.substr(0, kept.size()), kept);
        const bool whole =
            kept.size() == text.size() || (static_cast<unsigned char>(text[kept.size()]) & 0xC0u) != 0x80;
        EXPECT_TRUE(whole) << shown;
        if (!kept.empty()) {
            EXPECT_LE(width(shown), room);
        }
    }
}

}  // namespace
}  // namespace firstoff::gui
