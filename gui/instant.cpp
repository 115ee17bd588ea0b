#include "gui/instant.h"

#include <algorithm>

#include "sim/motion/feed_run.h"

namespace firstoff::gui {

namespace {

// What the slide really does there: held at the machine's limit, and less while it gains or loses speed.
void readFeed(Instant& instant, const Trial& trial, const TimedMove& timed) {
    if (classOf(instant.move->kind) != MotionClass::Cutting || timed.kind != instant.move->kind) return;
    const double rpm = instant.revPerMin;
    if (instant.move->kind == MoveKind::Thread) {
        const double asked = instant.move->feed * rpm, limit = trial.setup.machine.maxFeedMmPerMin;
        instant.feedMmPerMin = limit > 0 ? std::min(asked, limit) : asked;
    } else {
        instant.feedMmPerMin = 60 * feedPaceAt(timed, trial.toolpath, trial.setup, instant.timeS);
    }
    instant.feedMmPerRev = rpm > 0 ? instant.feedMmPerMin / rpm : 0;
}

void readMove(Instant& instant, const Trial& trial, const TimelineIndex& index) {
    const TimedMove& timed = trial.timeline.moves[instant.timed];
    instant.move = &trial.toolpath.moves[timed.move];
    instant.modal = &trial.toolpath.modals[instant.move->modal];
    instant.call = &trial.toolpath.calls[instant.move->call];
    instant.fraction = fractionAt(timed, trial.toolpath, trial.setup, instant.timeS);
    instant.turretReference = pointAt(timed, instant.fraction);
    instant.programmed = instant.turretReference + trial.toolpath.programmedShift(*instant.move);
    instant.revPerMin = revPerMinAt(timed, trial.toolpath, trial.setup, instant.fraction);
    instant.turns = index.turns(instant.timed, instant.fraction);
    instant.pass = instant.move->pass;
    readFeed(instant, trial, timed);
}

}  // namespace

Instant instantAt(const Trial& trial, const TimelineIndex& index, double timeS, std::size_t step) {
    Instant instant;
    instant.timeS = std::clamp(timeS, 0.0, trial.timeline.cycleTimeS);
    const std::vector<Step>& steps = trial.toolpath.steps;
    instant.hasMoves = !trial.timeline.moves.empty();
    instant.modal = &trial.toolpath.modals.front();
    instant.call = &trial.toolpath.calls.front();
    if (instant.hasMoves) {
        instant.timed = trial.timeline.at(instant.timeS);
        readMove(instant, trial, index);
    }
    if (steps.empty()) return instant;
    const bool given = step < steps.size() && trial.startOfStep(step) == instant.timeS;
    instant.step = given ? step : std::min(trial.stepAt(instant.timeS), steps.size() - 1);
    instant.block = steps[instant.step].shown;
    if (instant.move && instant.move->cycleBlock == instant.block && instant.move->block != instant.block) {
        instant.geometry = instant.move->block;
    }
    return instant;
}

}  // namespace firstoff::gui
