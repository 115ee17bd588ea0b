// How near everything in the machine comes to everything else, move by move.
//
// Certain, not sampled. What moves straight is measured with all it sweeps on the way in one go: the sweep of a convex
// solid along a line is convex. Arcs and index swings are cut into stretches whose sweep is enclosed, as finely as the
// nearest body asks for. Whatever turns with the spindle counts as what it sweeps, standing or turning. The billet is
// taken as it is at that instant; where a move itself takes off the metal that is in question, the move is followed in
// stretches. Errors of shapes and paths are added on the safe side: a gap is never larger than the true one, and
// smaller by no more than `errorMm`; of swings that stay more than 50 mm clear, by no more than a quarter of what is
// beyond that besides. But for what counts as filled: bores of the billet, for all but the tool in use, and on a pass
// of a thread the crests that it takes down.
#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <stop_token>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/base/space.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

// The closest approach of one timed move. What is meant to touch does not count: the edge in use and the billet at
// feed, what grips and what it holds, an advanced centre and the bar.
struct Clearance {
    // mm; zero or less: contact. Of the tool in use against what is turned on the spindle axis less than zero says how
    // far it reaches in, the shortest way out. Infinity: there is nothing to hit.
    float gapMm = 0;
    std::uint16_t body = 0;   // that moves, or the tool in use; into MachineBodies::bodies
    std::uint16_t other = 0;  // that it comes near
    SpacePoint place;         // lathe frame, on `other`, where they are nearest; turned bodies: where they sweep
};

// One contact, or one near miss, as a finding tells it: for showing it.
struct Encounter {
    std::size_t timedMove = 0;
    double timeS = 0;  // of the first contact, or of the closest approach
    double fraction = 0;
    std::uint16_t body = 0, other = 0;
    double gapMm = 0;  // zero or less: contact
    SpacePoint place;
    std::string code;  // of the finding
};

// By how much things may be wrong before the first contact, mm, each way; kMarginLimit where nothing is met up to
// there. Told on the safe side, by 2 % at most (0.005 to 1 mm). See margins.h for what counts.
inline constexpr double kMarginLimit = 50;
struct Margin {
    double mm = kMarginLimit;
    std::size_t timedMove = 0;  // where the first contact would be
    std::uint16_t body = 0, other = 0;
};
struct ToolMargins {
    int toolIndex = -1;
    int station = 0;
    Margin xLarger, xSmaller;  // X offset, as radius: the tool stands further out, further in
    Margin zAway, zToward;     // Z offset: the tool stands further from the chuck, nearer to it
    Margin overhangLess;       // the tool stands less far out of its block, gauged as it is
    Margin overhangMore;       // the tool stands further out than it was gauged
};
struct SetupMargins {
    Margin stickOutMore, stickOutLess;  // of the bar, the datum where it is
    Margin datumAway, datumToward;      // of Z0, the bar where it is
};
struct Margins {
    std::vector<ToolMargins> tools;  // in order of station, those that the program uses
    SetupMargins setup;
};

struct PairChecked {
    std::uint16_t body = 0, other = 0;
    float gapMm = 0;            // smallest of the whole program, never above the true one; large gaps are not
                                // followed up: then the true one is larger still
    bool exact = true;          // false: the gap is that kind of lower bound
    std::size_t timedMove = 0;  // where
};

struct ClearanceResult {
    std::shared_ptr<const MachineBodies> bodies;
    std::vector<Clearance> perMove;  // per timed move: the smallest
    std::vector<Finding> findings;
    std::vector<Encounter> encounters;  // in order of time
    std::vector<PairChecked> pairs;     // body pairs that can come near each other, each once
    Margins margins;
    double errorMm = 0;  // largest by which a gap may be below the true one
    // What these moves would have needed and is not looked at, in plain sentences, each once.
    std::vector<std::string> notModelled;
};

struct ClearanceOptions {
    int threads = 0;  // 0: what the machine has; results do not depend on it
    bool margins = true;
    // Gaps above this are followed up no further than the setup's near misses ask for: what is told of them then is a
    // lower bound.
    double followMm = std::numeric_limits<double>::infinity();
    std::stop_token stop;
};

// `stock` may be null: then nothing is measured against the billet. Stops early, with what it has, when asked to.
ClearanceResult checkClearances(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                const std::shared_ptr<const StockHistory>& stock, const ClearanceOptions& options = {});

}  // namespace firstoff
