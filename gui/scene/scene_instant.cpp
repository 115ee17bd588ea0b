// What stands where at a time, read off the trial.
#include "gui/scene/scene_instant.h"

#include <algorithm>

#include "sim/motion/machine_pose.h"

namespace firstoff::gui {

namespace {

int stationAfter(const Trial& trial, std::uint32_t move) {
    const auto& moves = trial.toolpath.moves;
    return move < moves.size() ? trial.toolpath.calls[moves[move].call].station : 0;
}

// Where an index leads: the call of the index move itself, or of the move that follows if the control changes the
// offset only after the turret has come to rest.
void setIndex(const Trial& trial, const TimedMove& timed, SceneInstant& instant) {
    const int before = timed.move > 0 ? stationAfter(trial, timed.move - 1) : 0;
    int after = stationAfter(trial, timed.move);
    if (after == before) after = stationAfter(trial, timed.move + 1);
    if (after == 0) after = before;
    instant.station = before;
    instant.nextStation = after;
    const double length = timed.t1 - timed.t0;
    const double share = length > 0 ? (instant.timeS - timed.t0) / length : 1;
    instant.indexFraction = static_cast<float>(std::clamp(share, 0.0, 1.0));
}

void setPose(const MachinePose& pose, SceneInstant& instant) {
    instant.discAt = pose.station;
    instant.tailstockZ = pose.tailstockZ;
    instant.secondSpindleZ = pose.secondSpindleZ;
}

void setTool(const ToolCall& call, SceneInstant& instant) {
    instant.toolIndex = call.toolIndex;
    instant.tip = instant.turretReference + call.tip;
}

}  // namespace

SceneInstant instantAt(const Trial& trial, StockCursor* cursor, const SpindleTurn& spindle, double timeS) {
    SceneInstant instant;
    instant.trial = &trial;
    instant.stock = cursor;
    instant.turretReference = trial.setup.machine.home;
    instant.datum = trial.toolpath.datums.front();
    instant.tip = instant.turretReference;
    const Timeline& timeline = trial.timeline;
    instant.timeS = std::clamp(timeS, 0.0, std::max(0.0, timeline.cycleTimeS));
    if (trial.setup.tailstock) instant.tailstockZ = trial.setup.tailstock->tipZ;
    if (trial.setup.secondSpindle) instant.secondSpindleZ = trial.setup.secondSpindle->startZ;
    if (timeline.moves.empty()) {
        if (cursor) cursor->seek(0, 0);
        return instant;
    }
    const std::size_t at = timeline.at(instant.timeS);
    const TimedMove& timed = timeline.moves[at];
    const double fraction = fractionAt(timed, trial.toolpath, trial.setup, instant.timeS);
    const Move& move = trial.toolpath.moves[timed.move];
    instant.timedMove = static_cast<std::uint32_t>(at);
    instant.turretReference = pointAt(timed, fraction);
    instant.spindleAngle = spindle.at(instant.timeS);
    instant.datum = trial.toolpath.datumOf(move);
    instant.workOffset = trial.toolpath.modals[move.modal].workOffset;
    const ToolCall& call = trial.toolpath.calls[move.call];
    setTool(call, instant);
    instant.station = instant.nextStation = call.station;
    if (timed.kind == MoveKind::Index) setIndex(trial, timed, instant);
    const double length = timed.t1 - timed.t0;
    const double ofTime = length > 0 ? std::clamp((instant.timeS - timed.t0) / length, 0.0, 1.0) : 1.0;
    setPose(poseAt(timeline, trial.toolpath, trial.setup, at, ofTime), instant);
    if (cursor) cursor->seek(instant.timedMove, fraction);
    return instant;
}

}  // namespace firstoff::gui
