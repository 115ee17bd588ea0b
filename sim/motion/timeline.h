// Moves laid out in time: where the turret stands and how fast the spindle turns at every instant.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/base/finding.h"
#include "sim/base/point.h"
#include "sim/control/toolpath.h"
#include "sim/setup/setup.h"

namespace firstoff {

// A stretch of a move, straight or one arc. Most moves give one; a per-axis rapid gives two (both axes, then the
// longer), or several for the bends of the way while axes change their speeds; where the spindle has to be waited for
// or the feed is held, one or two without way stand before them.
struct TimedMove {
    Point from;  // turret reference, lathe frame
    Point to;
    Point centre;   // arcs
    double t0 = 0;  // s from the start of the cycle
    double t1 = 0;
    double rpmStart = 0;  // rev/min, after surface speed and clamp; 0 with the spindle stopped
    double rpmEnd = 0;
    std::uint32_t move = 0;  // index into Toolpath::moves
    MoveKind kind = MoveKind::Rapid;
    // What a stretch without way of a move that has one waits for, its kind is Dwell then.
    enum class Wait : std::uint8_t { None, SpindleSpeed, FeedHold };
    Wait wait = Wait::None;
    // Pace along the path at both ends, mm/s, where the axes take time to change it; negative: they do not. Of a rapid
    // in two stretches the true way of the axes bends a little away from the first one.
    float paceFrom = -1, paceTo = -1;
};

// A travel of tailstock or second spindle along Z, evenly over the time of one timed move.
struct CarrierTravel {
    enum class Carrier : std::uint8_t { Tailstock, SecondSpindle };
    Carrier carrier = Carrier::Tailstock;
    double fromZ = 0, toZ = 0;    // lathe frame: point of the centre, face of the second chuck
    std::uint32_t timedMove = 0;  // index into Timeline::moves
    BlockId block = kNoBlock;
};

struct Timeline {
    std::vector<TimedMove> moves;
    std::vector<CarrierTravel> travels;  // in order of timed moves
    // First timed move of each move of the toolpath, plus one entry past the end.
    std::vector<std::uint32_t> firstOf;
    // First timed move of a move of the toolpath that is no wait; what the move does, it does from there on.
    std::uint32_t workOf(std::uint32_t move) const;
    double cycleTimeS = 0;
    double feedTimeS = 0;  // time at feed, whether metal is met or not
    // By which the cycle really takes longer, since the spindle falls behind the surface speed asked for while facing;
    // not in cycleTimeS. See surface_speed_lag.h.
    double lagS = 0;
    std::vector<Finding> findings;

    // Index of the timed move that runs at `timeS` (the last one to start at or before it); 0 <= result < moves.size().
    // Times before 0 and past the end are taken as the ends. Asserts that there are moves.
    std::size_t at(double timeS) const;
};

// Lays out a toolpath in time. Feed per revolution with constant surface speed is integrated along the move, with the
// speed clamp, the spindle's limit and the feed limit acting where they act. Where the set-up says how axes and spindle
// gain speed, they take their time: see path_paces.h, feed_run.h, rapid_run.h and spindle_run_up.h. Before a feed move,
// and before chuck, tailstock or second spindle act, the spindle is waited for; a change of speed beside a rapid or an
// index takes nothing by itself.
Timeline layOut(const Toolpath& toolpath, const Setup& setup);

// How far along the path of `timed` (0 to 1 of its length) the tool is at `timeS`.
double fractionAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double timeS);

// Point at `fraction` of the length of `timed`: turret reference, lathe frame.
Point pointAt(const TimedMove& timed, double fraction);

// When it is there: the inverse of fractionAt.
double timeAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double fraction);

// Spindle speed in rev/min at `fraction`. Continuous in time where the set-up says how the spindle runs up; while it
// turns over from one way to the other beside a rapid, the speed told does not go through nothing.
double revPerMinAt(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, double fraction);

}  // namespace firstoff
