// What the cuts themselves give away: metal met at rapid, with the spindle stopped or turning the wrong way, by a
// holder, and pips left standing.
#pragma once

#include <memory>
#include <vector>

#include "sim/base/finding.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/program/program.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

// What is meant to take metal: feed, arcs and threads.
inline bool isAtFeed(MoveKind kind) {
    return kind == MoveKind::Feed || kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise ||
           kind == MoveKind::Thread;
}

struct Machining {
    const Program& program;
    const Setup& setup;
    const Toolpath& toolpath;
    const Timeline& timeline;
    const std::shared_ptr<const StockHistory>& stock;
};

// Moves that met metal in a way they must not. A run of neighbouring moves with the same fault, tool and block gives
// one finding, timed at its first contact, with the deepest figure of the run.
std::vector<Finding> contactFindings(const Machining& machining);

// Drills that go deeper than their flutes are long, one per tool call.
std::vector<Finding> drillFindings(const Machining& machining);

// Threads: those whose form cannot be cut into the billet (unproven, one per tool call), passes that stand deeper in
// metal than a thread can be, and starts too near to the metal.
std::vector<Finding> threadFindings(const Machining& machining);

// What a gauge says of every thread that was turned: passes that do not run in one groove, uneven starts, crests gone,
// metric sizes off, or a note with the figures.
std::vector<Finding> threadFormFindings(const Machining& machining);

// Full thread profiles that take too much off the crests, or nothing.
std::vector<Finding> threadCrestFindings(const Machining& machining);

// Metal met by a side of an insert that is no edge: cuts deeper than the edge is long, moves backwards into the work.
// One per tool call, with the amount.
std::vector<Finding> edgeFindings(const Machining& machining);

// Reamers in holes that are too small, or too large to be reamed.
std::vector<Finding> reamerFindings(const Machining& machining);

// Boring and inside threading bars in bores that are too small for them.
std::vector<Finding> boreFindings(const Machining& machining);

// First plunges of face grooves at diameters for which the blade is not bent.
std::vector<Finding> faceGrooveFindings(const Machining& machining);

// Edges and drills off centre height: diameters that come out wrong, and pips.
std::vector<Finding> centreHeightFindings(const Machining& machining);

// Moves of an insert along a contour that its nose does not reach, so that another edge, or the nose on the
// wrong side, takes metal the contour leaves standing. One per block, with the depth. And contours that come so near to
// the angle of the edge behind the nose that it rubs; a note, one per tool call.
std::vector<Finding> gougeFindings(const Machining& machining);

// Pips: where a facing cut stopped short of the axis (or past it with the edge off centre height) and left a stub in
// front of the face it made. A pip that stands at the end is a warning; one that a later tool took off is a note.
std::vector<Finding> pipFindings(const Machining& machining);

// Cut-offs that stop short and leave the piece hanging on a neck or on a thin wall, unless a later move parts it off.
// One per groove, with its size.
std::vector<Finding> partingFindings(const Machining& machining);

// Notes: rings and cores that come loose beside metal that stays, with their diameters and widths.
std::vector<Finding> looseRingFindings(const Machining& machining);

// Notes: cuts over the corners of bars that are not round, one per tool call.
std::vector<Finding> interruptedCutFindings(const Machining& machining);

// Too little of the bar in the jaws for what stands out of them, too slender without support; a note where the speed
// marked on the chuck is not known. Of the set-up, where it says how far the bar sticks out.
std::vector<Finding> gripFindings(const Machining& machining);

// The centre of the tailstock in the way of a tool that goes to the axis, and advanced against a bar without a hole for
// it or past the end of it.
std::vector<Finding> tailstockFindings(const Machining& machining);

// Chuck and second spindle that open, close, grip and travel when they must not: with nothing left to hold the part,
// turning, out of step, at nothing, or pulling at what both hold. What M codes make of the bar and is not modelled is
// said, not proven.
std::vector<Finding> workholdingFindings(const Machining& machining);

// What comes near the piece that the second spindle carries away, or meets it.
std::vector<Finding> carriedPieceFindings(const Machining& machining);

// What a section, all that one tool does, leaves to the sections before it or leaves behind for the next: words that it
// does not give itself, surface speed at the tool change, a spindle stopped in the cut, coolant off, another tool's
// feed or offset.
std::vector<Finding> sectionFindings(const Machining& machining);

}  // namespace firstoff
