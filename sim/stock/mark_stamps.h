// Where the tools stand each time the spindle comes round to one angle.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/base/outline.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet.h"

namespace firstoff {

struct Stamp {
    Point tip;               // lathe frame
    std::uint32_t form = 0;  // index into MarkStamps::forms
    CutId cut = kUncut;
    double feed = 0;        // mm per revolution there; 0 while the tool dwells
    std::uint32_t run = 0;  // of feed moves that follow on one another, counted from 1
};

// The convex parts of tools, each with its box.
struct StampForm {
    Outline outline;  // tool frame
    Box box;
};

struct MarkStamps {
    std::vector<StampForm> forms;
    std::vector<Stamp> stamps;  // in the order in which they were made
};

// All stamps of the first `moves` timed moves whose tool comes into `near`, at a place `spindleAngle` rad behind the
// one that the tool stands over where a run of feed moves begins. A run goes on as long as one feed move starts where
// the one before ended; while the tool dwells it is stamped where it stands.
MarkStamps markStamps(std::uint32_t moves, const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                      const Box& near, double spindleAngle);

inline bool overlap(const Box& a, const Box& b) {
    return a.zMin <= b.zMax && b.zMin <= a.zMax && a.rMin <= b.rMax && b.rMin <= a.rMax;
}
inline Box moved(const Box& box, Point by) {
    return {box.zMin + by.z, box.zMax + by.z, box.rMin + by.r, box.rMax + by.r};
}

}  // namespace firstoff
