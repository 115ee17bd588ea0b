// How near the tool in use comes to chuck, jaws and tailstock, and where it hits them.
//
// Everything that turns or is turned on the spindle axis counts as its envelope in the turning half-plane, standing or
// turning: the chuck body a disc; the jaws the ring they sweep, out to `jawOuterRadius`. Both are open inside the bar's
// own radius as far as the bar reaches, since a tool in there meets the bar first. Of the tailstock the point of its
// centre is a cone, and all behind the point a cylinder as thick as the quill, since a set-up does not say how far the
// centre's shank stands out. Both sides of the axis count, so that a drill or a tool past the centre is seen.
//
// Certain, not sampled: the tool never turns, only shifts, so the places of the tip where it meets a body form one
// convex zone, and the gap is the distance of the tip's path from that zone. Straight moves are exact to 1e-9 mm. Arcs
// are taken as chords within half a micrometre, which is taken off the gap.
#pragma once

#include <cstdint>
#include <stop_token>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/base/point.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

enum class Body : std::uint8_t { ChuckBody, Jaws, TailstockQuill, TailstockCentre };

// "chuck", "jaws", … as messages say it.
const char* name(Body body);

enum class ToolPart : std::uint8_t { Edge, Holder };

struct Clearance {
    // mm. Zero or less: contact, and how far the tool reaches into the body, measured the shortest way out. Infinity:
    // no tool in place, or nothing there to hit.
    float gapMm = 0;
    Body body = Body::ChuckBody;
    ToolPart part = ToolPart::Edge;
    Point place;  // of the body, lathe frame, where the tool is nearest (or deepest in)
};

struct ClearanceResult {
    std::vector<Clearance> perMove;  // per timed move: the smallest
    // `tool-into-chuck`, `tool-into-jaws`, `tool-into-tailstock`: one for a run of moves that touch, and one for a
    // cycle however many of its passes touch; with line, time and place of the first contact, and the deepest reach of
    // the run.
    std::vector<Finding> findings;
    // What these moves would have needed and is not looked at, in plain sentences, each once.
    std::vector<std::string> notModelled;
};

// Single-threaded; stops early, with what it has, when `stop` is asked for.
ClearanceResult checkClearances(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                std::stop_token stop);

}  // namespace firstoff
