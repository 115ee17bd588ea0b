// How much the diameter that a cut left differs from the path of its tool, place by place, because part and bar gave
// way; from the samples of sim/cutting/bending.h, between them evenly.
//
// Where the edge is still running in, or out, it bends less than on the way: such samples (less than half the chip that
// the move takes in the middle of its samples, no farther from the ends of the cut than nose and depth reach) are left
// out, and the nearest full one counts. A blade that plunges leaves its bottom with the force it has there; where it
// dwells for a turn or more it cuts itself free. Where a tool goes over a cylinder again on the same radius it takes
// off some of what bent away, nobody knows how much: that is not known.
#pragma once

#include <string>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/cutting/bending.h"
#include "sim/cutting/cutting_load.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet.h"

namespace firstoff {

struct BentPoint {
    Point place;         // lathe frame, on the path's surface
    double errorMm = 0;  // of the diameter, above the path's, + larger
};

struct BentStretch {
    std::vector<BentPoint> points;  // from its beginning to its end; empty: not known
    std::string why;                // not known: why, in plain words
};

class CutBending {
public:
    // Nothing is known.
    CutBending() = default;
    // All of them must outlive this.
    CutBending(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, const LoadResult& loads,
               const BendingResult& bending)
        : timeline_(&timeline), toolpath_(&toolpath), setup_(&setup), loads_(&loads), bending_(&bending) {}

    bool known() const { return bending_ != nullptr && bending_->known; }
    // Along a straight stretch (lathe frame) of the surface that `cut` left: at both ends and at the samples between.
    BentStretch along(CutId cut, Point from, Point to) const;

private:
    struct Sample {
        double z = 0, errorMm = 0, chipMm2 = 0;
    };
    static double errorAt(const std::vector<Sample>& samples, double z);
    std::vector<Sample> samplesOf(CutId cut, const LoadRun& run) const;
    const Tool* toolOf(const Move& move) const;
    double plunged(CutId cut, const LoadRun& run) const;
    bool dwellsAfter(CutId cut) const;
    bool wentOverAgain(CutId cut, Point from, Point to) const;

    const Timeline* timeline_ = nullptr;
    const Toolpath* toolpath_ = nullptr;
    const Setup* setup_ = nullptr;
    const LoadResult* loads_ = nullptr;
    const BendingResult* bending_ = nullptr;
};

}  // namespace firstoff
