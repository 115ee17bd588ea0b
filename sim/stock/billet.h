// The billet: a revolved field of radial columns over z, and what one sweep of a tool does to it.
//
// Column i stands at z = z0 + (i + 0.5) * pitch (lathe frame) and is a short list of solid intervals [inner, outer] in
// r, almost always one. r is exact to floating point; z is known to half a pitch. Every surface of an interval
// remembers the timed move that cut it.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/outline.h"
#include "sim/base/point.h"
#include "sim/setup/setup.h"

namespace firstoff {

using CutId = std::uint32_t;  // index of the timed move that left a surface
inline constexpr CutId kUncut = 0xffffffffu;
inline constexpr CutId kCutBefore = 0xfffffffeu;  // by the trial that left this blank
inline bool isCutHere(CutId cut) {
    return cut < kCutBefore;
}

// A solid stretch of one column.
struct Interval {
    double inner = 0;  // mm, radius
    double outer = 0;
    CutId innerCut = kUncut;
    CutId outerCut = kUncut;
};

// A tool's outline on its way from one placement to another. Placements are positions of the imaginary tip, lathe
// frame.
struct Sweep {
    enum class Path : std::uint8_t { Line, ArcClockwise, ArcAnticlockwise };
    Point from;
    Point to;
    Point centre;  // arcs
    Path path = Path::Line;
};

// What a sweep did.
struct Removed {
    double volumeMm3 = 0;  // swept out of the solid, whole revolution
    double deepestMm = 0;  // greatest radial depth taken from any column
    double atZ = 0;        // where that was
};

// One closed loop of the half-section, and the cut that left each edge (edge i runs from point i to point i + 1).
struct Loop {
    int piece = 0;              // 0: what is still held; 1…: pieces cut off, in order of falling
    std::vector<Point> points;  // lathe frame, r >= 0, anticlockwise, first point not repeated
    std::vector<CutId> cuts;
};

// The same with arcs as arcs, see exact_section.h.
struct SectionContour {
    int piece = 0;
    Contour outline;          // z as x, r as y; lathe frame
    std::vector<CutId> cuts;  // of the edge that leaves each corner
};

}  // namespace firstoff
