// Ways of the tool in the half-section: of the cycle or block that runs, and of the tool that is called.
#pragma once

#include <cstdint>
#include <vector>

#include "gui/instant.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

struct PathLine {
    enum class Of : std::uint8_t {
        Tip,         // imaginary tip, or the end of a drill
        NoseCentre,  // under nose-radius compensation
        Programmed,  // the contour that compensation keeps the nose on
    };
    Point from, to;          // lathe frame
    Point centre;            // arcs
    double radius = 0;       // arcs; 0: straight
    bool clockwise = false;  // as drawn with r upwards
    Of of = Of::Tip;
    MotionClass motion = MotionClass::Cutting;
    std::uint32_t timed = 0;  // index into Timeline::moves
    bool lit = false;         // of the block that runs, or of its cycle
};

struct SectionPaths {
    std::vector<PathLine> lines;  // in order of time
    bool cutShort = false;        // there is more of it than is drawn
};

// The way of the tool called at the instant, from its call to the next, at most `most` moves of it about the present.
SectionPaths sectionPaths(const Trial& trial, const Instant& instant, std::size_t most);

// Points along the line, ends included.
std::vector<Point> alongLine(const PathLine& line, double chordErrorMm);

}  // namespace firstoff::gui
