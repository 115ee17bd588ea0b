// What moves during one timed move, and along which way.
#pragma once

#include <optional>
#include <vector>

#include "sim/clearance/approach.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

struct MachineWay {
    MoveKind kind = MoveKind::Rapid;
    // Of the turret reference, lathe frame: straight from point to point, the true way no further off than the slack.
    TipWay turret;
    double length = 0;
    // A rapid whose path the set-up does not say: the straight way of the whole move, told with the first of its legs.
    std::optional<TipWay> straightInstead;
    double turn = 0;                    // of the disc, rad, at the start
    std::optional<double> turnTo;       // while it indexes
    std::optional<double> otherTurnTo;  // the other way round, where that may be
    Range tailstock, second;            // z of their frames at start and end, in that order
    bool tailstockMoves = false, secondMoves = false;
    int toolIndex = -1;  // in use; -1: none
    int station = 0;

    bool swings() const { return turnTo.has_value(); }
    // What takes metal off at feed.
    bool feeds() const;
};

class MachineWays {
public:
    MachineWays(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, const MachineBodies& bodies);
    // `way` is overwritten, so that its memory is used again.
    void at(std::size_t timedMove, MachineWay& way) const;
    const TimedMove& timed(std::size_t timedMove) const { return timeline_.moves[timedMove]; }
    // Time at which a timed move has gone `fraction` of its length.
    double timeAt(std::size_t timedMove, double fraction) const;

private:
    int stationOn(std::size_t timedMove) const;

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const MachineBodies& bodies_;
    int firstStation_ = 1;
    // Per travel (into Timeline::travels) nothing more is needed; these hold where each carrier stands after it.
    std::vector<std::pair<std::uint32_t, double>> tailstockAfter_, secondAfter_;
    double tailstockStart_ = 0, secondStart_ = 0;
};

}  // namespace firstoff
