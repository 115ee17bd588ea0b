// Whether chuck and tailstock hold the part against the cut: an estimate by the method of VDI 3106 as chuck makers'
// manuals give it (chuck_grip.h). The chuck maker's chart and authorised people decide; every text says so.
//
// Friction at the jaws holds what the cut turns the part with and what it pushes along it with; as both act at the same
// jaws, the root of their squares counts. A push towards the chuck needs no friction where the part is seated: its back
// end stands at the chuck's face or on a step of the jaws. What the force of a centre adds to that push counts alike.
// How much a cut far from the jaws levers the part out of them is left to the factor Sz.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/base/say.h"
#include "sim/control/toolpath.h"
#include "sim/cutting/cutting_load.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

// A cut and what it asks of the grip; forces are those of all jaws together, N.
struct GripEstimate {
    std::uint32_t timedMove = 0;
    double fraction = 0;
    double revPerMin = 0;
    double gripDiameterMm = 0;   // of a bar with flats that of the circle within them
    double turningN = 0;         // of the cut, at the diameter gripped
    double axialPushN = 0;       // of the cut and of a centre, towards the chuck positive
    double heldN = 0;            // of both, what friction has to hold
    double neededN = 0;          // Fsp: at speed, safety against the cutting force included
    double lostN = 0;            // what the speed takes away (outside grip) or adds (inside grip: negative)
    double standingN = 0;        // as the set-up gives it
    double leftN = 0;            // standing grip less what is lost
    double neededStandingN = 0;  // Fsp0: standing grip that the method asks for, with both safety factors
    // Least of what leaves this cut what it needs (CG04), what keeps the loss within kGreatestLoss, and what is marked
    // on the chuck; outside grip. 0: no speed does, or none is known.
    double permittedRevPerMin = 0;
    double overhangMm = 0;                                  // of the cut from the front of the jaws
    double forceSafety = 0, speedSafety = 0, friction = 0;  // as taken

    bool holds() const { return standingN >= neededStandingN; }
    // The speed takes all of it: the part comes out of the jaws whatever the cut asks for.
    bool allLost() const { return leftN <= 0; }
};

// The highest speed of the program against the rule of DIN EN 1550, outside grip.
struct SpeedOfGrip {
    std::uint32_t timedMove = 0;
    double fraction = 0;
    double revPerMin = 0;
    double lossShare = 0;           // of the standing grip
    double permittedRevPerMin = 0;  // where that is kGreatestLoss
};

// The cut that pushes hardest at the centre.
struct CentrePush {
    std::uint32_t timedMove = 0;
    double fraction = 0;
    double axialN = 0;  // of the cut, away from the chuck
    double wedgeN = 0;  // of the cut's force across the axis, by the slope of the point
    double pushN() const { return axialN + wedgeN; }
};

struct HoldingResult {
    std::optional<GripEstimate> grip;  // of the cut that asks most; nothing where too little is known
    std::vector<GripEstimate> byTool;  // the same for each tool call that cuts, in order
    // One for each LoadResult::samples: the standing grip that the method asks for by the one there is, so that more
    // than 1 does not hold; 0 where nothing is cut, NaN where it is not known. Empty where no grip is known.
    std::vector<float> gripShare;
    std::optional<SpeedOfGrip> speed;
    std::optional<CentrePush> centre;  // while one stands in the part
    // What the set-up would have to say, in plain words; empty where everything was reckoned.
    std::vector<std::string> missing;
    std::vector<std::string> assumed;  // likewise what was taken for granted
    std::vector<Finding> findings;     // spans hold block + 1 as line, as those of the timeline do
};

// `stock` may be null: then nothing is known.
HoldingResult estimateHolding(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                              const std::shared_ptr<const StockHistory>& stock, const LoadResult& loads);

// Stands, by way of tr, wherever a figure of this stage is shown.
inline constexpr const char* kGripCaution = later(
    "An estimate: what grip and speed hold a part is for the chuck maker's chart and authorised people to decide.");

}  // namespace firstoff
