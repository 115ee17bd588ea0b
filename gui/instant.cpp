#include "gui/instant.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

void readFeed(Instant& instant) {
    if (classOf(instant.move->kind) != MotionClass::Cutting) return;
    const double rpm = instant.revPerMin;
    const bool perRev = instant.modal->feedPerRev;
    const double feed = instant.move->feed;
    instant.feedMmPerMin = perRev ? feed * rpm : feed;
    instant.feedMmPerRev = perRev ? feed : (rpm > 0 ? feed / rpm : 0);
}

void readMove(Instant& instant, const Trial& trial, const TimelineIndex& index) {
    const TimedMove& timed = trial.timeline.moves[instant.timed];
    instant.move = &trial.toolpath.moves[timed.move];
    instant.modal = &trial.toolpath.modals[instant.move->modal];
    instant.call = &trial.toolpath.calls[instant.move->call];
    instant.fraction = fractionAt(timed, trial.toolpath, trial.setup, instant.timeS);
    instant.turretReference = pointAt(timed, instant.fraction);
    instant.programmed = instant.turretReference + trial.toolpath.programmedShift(*instant.move, trial.setup);
    instant.revPerMin = revPerMinAt(timed, trial.toolpath, trial.setup, instant.fraction);
    instant.turns = index.turns(instant.timed, instant.fraction);
    instant.pass = instant.move->pass;
    readFeed(instant);
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
    instant.block = steps[instant.step].block;
    if (instant.move && instant.move->cycleBlock == instant.block && instant.move->block != instant.block) {
        instant.geometry = instant.move->block;
    }
    return instant;
}

}  // namespace firstoff::gui
