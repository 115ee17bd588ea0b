#include "gui/quality_pace.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace firstoff::gui {
namespace {

constexpr double kWanted = 1.0 / 60;

// Frames of a picture that takes so much of each, for so long from `now` on; returns when they end.
struct Player {
    QualityPace pace{kWanted};
    double now = 0;
    int changes = 0;

    // `cost`: s of a frame by level.
    void play(double seconds, double plain, double fine, double finest) {
        const double cost[] = {plain, fine, finest};
        for (const double end = now + seconds; now < end;) {
            const Quality before = pace.level();
            const double took = cost[static_cast<int>(before)];
            const double interval = std::max(kWanted, took);
            now += interval;
            pace.frame(now, took, interval);
            changes += pace.level() != before;
        }
    }
};

TEST(QualityPace, StaysFinestWhereThatIsFastEnough) {
    Player player;
    player.play(10, 0.001, 0.003, 0.008);
    EXPECT_EQ(player.pace.level(), Quality::Finest);
    EXPECT_EQ(player.changes, 0);
}

TEST(QualityPace, StepsDownWithinAFewFramesAndNoFurtherThanNeeded) {
    Player player;
    player.play(0.5, 0.002, 0.009, 0.060);
    EXPECT_EQ(player.pace.level(), Quality::Fine);
    player.play(10, 0.002, 0.009, 0.060);
    EXPECT_EQ(player.pace.level(), Quality::Fine);  // 9 ms are too many to try more
}

TEST(QualityPace, GoesToPlainWhereNothingElseHolds) {
    Player player;
    player.play(3, 0.010, 0.040, 0.200);
    EXPECT_EQ(player.pace.level(), Quality::Plain);
}

TEST(QualityPace, ComesBackWhenThereIsRoomAgain) {
    Player player;
    player.play(3, 0.010, 0.040, 0.200);
    player.play(30, 0.001, 0.002, 0.004);
    EXPECT_EQ(player.pace.level(), Quality::Finest);
}

// Fine looks cheap and Finest is too dear: without a memory it would go up and down every second.
TEST(QualityPace, DoesNotGoBackAndForth) {
    Player player;
    player.play(300, 0.001, 0.003, 0.030);
    EXPECT_LE(player.changes, 20);  // waits of 2, 4, 8, 16, 32, 64, 120, 120 s, two changes for each
    EXPECT_GE(player.changes, 3);   // and it does try
}

}  // namespace
}  // namespace firstoff::gui
