// Contacts and near misses of single moves, gathered into what is told: one finding for a run of moves of a pair, or
// for all passes of a cycle.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/base/finding.h"
#include "sim/clearance/body_pairs.h"
#include "sim/clearance/clearance.h"
#include "sim/clearance/move_gauge.h"

namespace firstoff {

// A pair that touches or comes too near on one move.
struct Sighting {
    std::uint32_t timedMove = 0;
    std::uint32_t pair = 0;  // into the pairs watched
    PairGap gap;
    double nearestAt = 0;
    const char* code = "";  // of a contact
    double limitMm = 0;     // the distance that is too near
};

struct Told {
    std::vector<Finding> findings;
    std::vector<Encounter> encounters;  // in order of time, one for each finding
};

struct TellingContext {
    const Timeline& timeline;
    const Toolpath& toolpath;
    const Setup& setup;
    const MachineBodies& bodies;
    const MachineWays& ways;
    const std::vector<BodyPair>& pairs;
};

// `sightings` in order of timed moves. `cutSaid`: per timed move, the cutting has said already that the holder, or the
// tool that indexes in, is in the metal there.
Told tell(const TellingContext& context, const std::vector<Sighting>& sightings, const std::vector<bool>& cutSaid);

}  // namespace firstoff
