// What a toolpath asks of the machine that it cannot do or must not do: travel, feed, speed.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/base/finding.h"
#include "sim/control/toolpath.h"
#include "sim/motion/pace.h"
#include "sim/motion/surface_speed_lag.h"
#include "sim/setup/setup.h"

namespace firstoff {

// Collects findings, each at most once per block of the program, however many passes a cycle makes of it.
class MotionLimits {
public:
    MotionLimits(const Toolpath& toolpath, const Setup& setup, std::vector<Finding>& findings);

    // Before the checks of a move: what M codes have done up to it.
    void follow(std::uint32_t index);
    // Over-travel anywhere along the move, said where it begins or grows.
    void checkTravel(const Move& move, double timeS);
    // `fastest`: highest spindle speed met along the move, rev/min. Said where a chuck's limit is passed or the
    // machine's is asked for, not again while that stays so. The second chuck counts while it turns in step or grips.
    void checkSpeed(const Move& move, double fastest, double timeS);
    // Feed moves: what the feed asked for, and why it could not be had.
    void checkFeed(const Move& move, double fastest, const PaceLimits& limits, double timeS);

    // Threads: `fastest` is the pace along the path that lead and speed ask for, mm/min. The slide that cannot follow
    // the spindle cuts a wrong lead, so this is more than a note.
    void checkThread(const Move& move, double fastest, double timeS);

    // Facing under surface speed: the spindle does not keep up.
    void tellLag(const Move& move, const SurfaceSpeedLag& lag, double timeS);

private:
    enum Topic : std::uint16_t {
        OverX = 1,
        OverZ = 2,
        ChuckSpeed = 4,
        Feed = 8,
        Stopped = 16,
        Missing = 32,
        MachineSpeed = 64,
        SecondChuckSpeed = 128,
        Lag = 256
    };

    // Null if this block has had its finding on the topic.
    Finding* add(Topic topic, const Move& move, double timeS, Severity severity, const char* code);
    void checkSecondChuck(const Move& move, double fastest, double timeS);
    void checkAskedSpeed(const Move& move, double timeS);
    void checkAxis(Topic topic, const Move& move, double timeS, Range reached, Range before, Range travel);

    const Toolpath& toolpath_;
    const Setup& setup_;
    std::vector<Finding>& findings_;
    std::vector<std::uint16_t> said_;  // by block, bits of Topic
    bool feedMissingSaid_ = false;     // the control has said it already
    bool aboveChuckLimit_ = false;     // the move before was
    bool aboveMachineLimit_ = false;
    bool aboveSecondLimit_ = false;
    std::size_t event_ = 0;  // into Toolpath::machineEvents
    bool secondTurns_ = false, secondGrips_ = false;
};

}  // namespace firstoff
