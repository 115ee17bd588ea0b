#include "sim/motion/machine_pose.h"

#include <algorithm>
#include <cassert>
#include <cstdlib>

namespace firstoff {

namespace {

// Station in working position once a tool call stands: a call of station 0 leaves the turret as it is.
int stationOf(const Toolpath& toolpath, std::size_t call) {
    for (std::size_t i = std::min(call + 1, toolpath.calls.size()); i-- > 0;) {
        if (toolpath.calls[i].station > 0) return toolpath.calls[i].station;
    }
    for (const ToolCall& first : toolpath.calls) {
        if (first.station > 0) return first.station;
    }
    return 1;
}

// The call that stands: while something is waited for before an index, the one before.
std::size_t callDuring(const Toolpath& toolpath, const TimedMove& timed) {
    const Move& move = toolpath.moves[timed.move];
    const bool notYet = timed.wait != TimedMove::Wait::None && move.kind == MoveKind::Index && move.call > 0;
    return notYet ? move.call - 1u : move.call;
}

// Part of the way of a timed move at a part of its time.
double wayAt(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, std::size_t index,
             double fraction) {
    const TimedMove& timed = timeline.moves[index];
    if (timed.t1 <= timed.t0) return fraction;
    return fractionAt(timed, toolpath, setup, timed.t0 + fraction * (timed.t1 - timed.t0));
}

double carrierAt(const Timeline& timeline, CarrierTravel::Carrier carrier, double start, std::size_t index,
                 double fraction) {
    const auto after = std::upper_bound(timeline.travels.begin(), timeline.travels.end(), index,
                                        [](std::size_t i, const CarrierTravel& t) { return i < t.timedMove; });
    for (auto travel = after; travel != timeline.travels.begin();) {
        --travel;
        if (travel->carrier != carrier) continue;
        if (travel->timedMove < index) return travel->toZ;
        return travel->fromZ + fraction * (travel->toZ - travel->fromZ);
    }
    return start;
}

// Whether something holds that one action makes and another ends. In doubt, while either is going on, `doubtful`; not
// yet while it waits for the spindle.
bool holds(const Toolpath& toolpath, const TimedMove& timed, MachineAction makes, MachineAction ends, bool start,
           bool doubtful) {
    const std::uint32_t move = timed.move;
    const bool waits = timed.wait != TimedMove::Wait::None;
    const auto after =
        std::upper_bound(toolpath.machineEvents.begin(), toolpath.machineEvents.end(), move,
                         [](std::uint32_t m, const MachineEvent& event) { return m < event.duringMove; });
    for (auto event = after; event != toolpath.machineEvents.begin();) {
        --event;
        if (event->action != makes && event->action != ends) continue;
        if (waits && event->duringMove == move) continue;
        return event->duringMove == move ? doubtful : event->action == makes;
    }
    return start;
}

}  // namespace

MachinePose poseAt(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, std::size_t index,
                   double fraction) {
    assert(index < timeline.moves.size());
    const TimedMove& timed = timeline.moves[index];
    MachinePose pose;
    pose.turret = pointAt(timed, wayAt(timeline, toolpath, setup, index, fraction));
    const auto swing = indexSwing(timeline, toolpath, setup, index);
    pose.station =
        swing ? swing->from + fraction * (swing->to - swing->from) : stationOf(toolpath, callDuring(toolpath, timed));
    if (setup.tailstock) {
        pose.tailstockZ =
            carrierAt(timeline, CarrierTravel::Carrier::Tailstock, setup.tailstock->tipZ, index, fraction);
    }
    if (setup.secondSpindle) {
        pose.secondSpindleZ =
            carrierAt(timeline, CarrierTravel::Carrier::SecondSpindle, setup.secondSpindle->startZ, index, fraction);
    }
    pose.chuckOpen = holds(toolpath, timed, MachineAction::ChuckOpen, MachineAction::ChuckClose, false, true);
    pose.secondSpindleGrips =
        holds(toolpath, timed, MachineAction::SecondSpindleGrip, MachineAction::SecondSpindleRelease, false, false);
    return pose;
}

std::optional<IndexSwing> indexSwing(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                     std::size_t index) {
    assert(index < timeline.moves.size());
    const TimedMove& timed = timeline.moves[index];
    if (timed.kind != MoveKind::Index) return std::nullopt;
    return swingOfCall(toolpath, setup, toolpath.moves[timed.move].call);
}

std::optional<IndexSwing> swingOfCall(const Toolpath& toolpath, const Setup& setup, std::size_t call) {
    if (setup.turret && setup.turret->kind == Turret::Kind::Gang) return std::nullopt;
    const int from = call == 0 ? stationOf(toolpath, 0) : stationOf(toolpath, call - 1);
    const int to = stationOf(toolpath, call);
    if (from == to) return std::nullopt;
    // A station that the turret does not have is a finding of the control; the swing then counts as if it had it.
    const int stations = std::max({setup.machine.stations, from, to, 1});
    const int rising = ((to - from) % stations + stations) % stations;
    const int falling = rising - stations;
    const Turret::IndexWay way = setup.turret ? setup.turret->indexWay : Turret::IndexWay::NotSaid;
    IndexSwing swing{double(from), double(from + rising), std::nullopt};
    if (way == Turret::IndexWay::Rising) return swing;
    if (rising > -falling) swing.to = from + falling;
    if (way == Turret::IndexWay::NotSaid || rising == -falling) {
        swing.otherWayTo = from + (swing.to > from ? falling : rising);
    }
    return swing;
}

}  // namespace firstoff
