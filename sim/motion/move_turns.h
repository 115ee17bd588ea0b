// Where the tool is at each whole turn of the spindle along a feed move.
//
// Notation. rho: programmed radius, signed; N(rho): spindle speed; v(rho): pace along the path (pace.h); s: length
// along the path. A length ds takes ds / v, in which the spindle turns N / 60 of that, so that
//     turns = integral of ds / f(rho),    f(rho) = 60 v(rho) / N(rho)    (feed per revolution as it really runs)
// f is F itself for feed per revolution, except where the machine's greatest feed holds the pace back; under feed per
// minute it grows as the spindle slows down. With knees K_N = H / limit and K_v = A / C it is constant below K_N, grows
// as |rho| between K_N and K_v, and is constant again beyond K_v.
#pragma once

#include <vector>

#include "sim/control/toolpath.h"
#include "sim/motion/pace.h"
#include "sim/motion/timeline.h"
#include "sim/motion/travel_time.h"
#include "sim/setup/setup.h"

namespace firstoff {

class MoveTurns {
public:
    // Of a straight or arc move at feed. Threads, rapids, and moves with the spindle stopped have none.
    MoveTurns(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup);

    // Of the whole move; 0 where it has none.
    double total() const { return total_; }
    // Part of the length, 0 to 1, covered after so many turns.
    double fractionAfter(double turns) const;
    // Feed per revolution at a part of the length, mm.
    double feedAt(double fraction) const;

private:
    // A stretch of the move over which f has one law.
    struct Stretch {
        double from = 0, to = 0;  // parts of the length
        double turnsBefore = 0;
        bool even = true;  // f is constant
    };
    double radiusAt(double fraction) const;
    double feedAtRadius(double radius) const;
    double turnsWithin(const Stretch& stretch, double fraction) const;
    void layStretches();

    SpindleLaw spindle_;
    PaceLaw pace_;
    StraightTravel straight_;
    Arc arc_;
    double centreRadius_ = 0;
    bool isArc_ = false;
    double length_ = 0;
    std::vector<Stretch> stretches_;
    double total_ = 0;
};

}  // namespace firstoff
