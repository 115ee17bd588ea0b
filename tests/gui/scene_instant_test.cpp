#include "gui/scene/scene_instant.h"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/units.h"
#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

TimedMove lasting(double t0, double t1, double rpm0, double rpm1, std::uint32_t move) {
    TimedMove timed;
    timed.t0 = t0;
    timed.t1 = t1;
    timed.rpmStart = rpm0;
    timed.rpmEnd = rpm1;
    timed.move = move;
    return timed;
}

Toolpath turning(std::vector<SpindleDirection> directions) {
    Toolpath path;
    path.calls.resize(1);
    for (std::size_t i = 0; i < directions.size(); ++i) {
        ModalState modal;
        modal.spindle = directions[i];
        path.modals.push_back(modal);
        Move move;
        move.modal = static_cast<std::uint32_t>(i);
        path.moves.push_back(move);
    }
    return path;
}

// Turns the picture makes of `turns` of the spindle, as an angle within one turn.
double angleOf(double turns) {
    return std::fmod(2 * kPi * SpindleTurn::kSlower * turns, 2 * kPi);
}

TEST(SpindleTurn, AddsUpTheSpeedSlowedByAFixedRatio) {
    Timeline timeline;
    timeline.moves = {lasting(0, 1, 0, 0, 0), lasting(1, 3, 600, 600, 1), lasting(3, 5, 600, 1200, 1),
                      lasting(5, 6, 300, 300, 2)};
    const SpindleTurn turn(timeline,
                           turning({SpindleDirection::Stopped, SpindleDirection::Forward, SpindleDirection::Reverse}));
    struct Row {
        double timeS, turns;  // elementary: revolutions per second times seconds, half the sum of both ends on a ramp
    };
    for (const Row& row :
         {Row{0.5, 0}, Row{2, 10}, Row{3, 20}, Row{4, 20 + 10 + 2.5}, Row{5, 20 + 30}, Row{6, 50 - 5}}) {
        EXPECT_NEAR(turn.at(row.timeS), angleOf(row.turns), 1e-9) << row.timeS;  // rounding of doubles
    }
}

TEST(SpindleTurn, StandsStillWithoutMoves) {
    EXPECT_EQ(SpindleTurn(Timeline{}, Toolpath{}).at(3), 0);
}

TEST(InstantAt, FollowsTheTurretThroughTheJob) {
    const std::shared_ptr<const Trial> trial = pictureJob();
    const SpindleTurn spindle(trial->timeline, trial->toolpath);
    StockCursor cursor(trial->stock);
    int indexing = 0;
    for (std::size_t i = 0; i < trial->timeline.moves.size(); ++i) {
        const TimedMove& timed = trial->timeline.moves[i];
        if (timed.t1 <= timed.t0) continue;
        const SceneInstant instant = instantAt(*trial, &cursor, spindle, (timed.t0 + timed.t1) / 2);
        ASSERT_EQ(instant.timedMove, i);
        const ToolCall& call = trial->toolpath.calls[trial->toolpath.moves[timed.move].call];
        if (timed.kind == MoveKind::Index) {
            ++indexing;
            EXPECT_NEAR(instant.indexFraction, 0.5, 1e-6);
            EXPECT_NE(instant.nextStation, instant.station);
        } else {
            EXPECT_EQ(instant.station, call.station);
            EXPECT_EQ(instant.nextStation, call.station);
            EXPECT_EQ(instant.tip, instant.turretReference + call.tip);
        }
    }
    EXPECT_EQ(indexing, 5);  // five tools are called
}

TEST(InstantAt, HoldsTimesWithinTheCycle) {
    const std::shared_ptr<const Trial> trial = pictureJob();
    const SpindleTurn spindle(trial->timeline, trial->toolpath);
    EXPECT_EQ(instantAt(*trial, nullptr, spindle, -5).timeS, 0);
    EXPECT_EQ(instantAt(*trial, nullptr, spindle, 1e9).timeS, trial->timeline.cycleTimeS);
}

TEST(InstantAt, StandsAtHomeWithoutMoves) {
    Trial trial;
    trial.setup.machine.home = {400, 180};
    trial.toolpath.modals.resize(1);
    trial.toolpath.calls.resize(1);
    const SceneInstant instant = instantAt(trial, nullptr, SpindleTurn(trial.timeline, trial.toolpath), 1);
    EXPECT_EQ(instant.turretReference, (Point{400, 180}));
}

}  // namespace
}  // namespace firstoff::gui
