// Moves of a tool tip written down by hand, for tests and benchmarks that need no program text. Coordinates are those
// of the imaginary tip in the lathe frame: X as diameter, Z from the chuck face, mm.
#pragma once

#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff::shop {

class TipPath {
public:
    explicit TipPath(const Setup& setup) : setup_(setup) {
        toolpath_.modals.emplace_back(), toolpath_.calls.emplace_back();
    }

    TipPath& tool(int station);
    // Puts the tip somewhere without a move, as at the start of a test.
    TipPath& at(double x, double z);
    TipPath& rapid(double x, double z);
    TipPath& feed(double x, double z);
    // Arcs about a centre given like the end point: X as diameter.
    TipPath& clockwise(double x, double z, double centreX, double centreZ);
    TipPath& anticlockwise(double x, double z, double centreX, double centreZ);
    TipPath& dwell(double seconds);

    const Toolpath& toolpath() const { return toolpath_; }
    const Timeline& timeline() const { return timeline_; }
    std::uint32_t moves() const { return static_cast<std::uint32_t>(timeline_.moves.size()); }

private:
    TipPath& add(MoveKind kind, Point tip, Point centre = {}, double seconds = 0);

    Setup setup_;
    Toolpath toolpath_;
    Timeline timeline_;
    Point tip_;
};

// A bar of 60 mm turned 80 mm long in many finishing passes over a wavy contour, each written as moves of 0.01 mm, as a
// programming system writes a free-form contour. Ends after `moves` moves.
TipPath wavyContour(const Setup& setup, std::uint32_t moves);
Setup wavyContourSetup();

}  // namespace firstoff::shop
