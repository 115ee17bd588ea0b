// Where everything that travels stands at an instant.
#pragma once

#include <optional>

#include "sim/motion/timeline.h"

namespace firstoff {

struct MachinePose {
    Point turret;        // turret reference, lathe frame
    double station = 1;  // in working position; between two while the disc indexes, past the last one counts on from 1
    std::optional<double> tailstockZ;      // point of its centre, lathe frame
    std::optional<double> secondSpindleZ;  // face of its chuck, lathe frame
    bool chuckOpen = false;
    bool secondSpindleGrips = false;
};

// `fraction` of the time of timed move `index`. Before the first T word the station is that of the first one called,
// or 1.
MachinePose poseAt(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, std::size_t index,
                   double fraction);

// The stations between which the turret indexes during a timed move, as the disc turns: from 12 to 1 rising is from 12
// to 13. `otherWayTo`: the same goal the other way round, where the set-up leaves the way open or it is half a turn.
struct IndexSwing {
    double from = 1, to = 1;
    std::optional<double> otherWayTo;
};
// Of a tool call (index into Toolpath::calls); nothing where it does not index, or is a gang plate.
std::optional<IndexSwing> swingOfCall(const Toolpath& toolpath, const Setup& setup, std::size_t call);
// Likewise of a timed move.
std::optional<IndexSwing> indexSwing(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                     std::size_t index);

}  // namespace firstoff
