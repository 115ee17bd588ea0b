#include "sim/cutting/held_part.h"

#include "sim/motion/machine_pose.h"

namespace firstoff {

const HeldPart& HeldAlong::at(std::uint32_t timedMove) {
    const auto& events = toolpath_.machineEvents;
    const std::size_t before = event_;
    while (event_ < events.size() && events[event_].duringMove <= timeline_.moves[timedMove].move) ++event_;
    if (known_ && event_ == before) return now_;
    known_ = true;
    // At its end: carriers travel while nothing else moves.
    const MachinePose pose = poseAt(timeline_, toolpath_, setup_, timedMove, 1);
    now_ = {pose.chuckOpen, pose.secondSpindleGrips, pose.tailstockZ};
    return now_;
}

}  // namespace firstoff
