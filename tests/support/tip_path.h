// Moves of a tool tip written down by hand, for tests and benchmarks that need no program text. Coordinates are those
// of the imaginary tip in the lathe frame: X as diameter, Z from the chuck face, mm.
#pragma once

#include <cstdint>

#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff::shop {

// Numbers that look random and are the same on every machine for the same seed (the 64-bit mix of splitmix64).
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next() {
        std::uint64_t x = state_ += 0x9e3779b97f4a7c15u;
        x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
        x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
        return x ^ (x >> 31);
    }
    std::uint32_t below(std::uint32_t n) { return static_cast<std::uint32_t>(next() % n); }
    // In [0, 1).
    double fraction() { return static_cast<double>(next() >> 11) * 0x1p-53; }
    double between(double a, double b) { return a + (b - a) * fraction(); }

private:
    std::uint64_t state_;
};

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
    // The spindle from now on.
    TipPath& turning(SpindleDirection direction, double revPerMin);
    // A thread move that starts `startTurns` behind the spindle's marker, in step with the one before if it follows it.
    TipPath& thread(double x, double z, double lead, double startTurns = 0);

    const Toolpath& toolpath() const { return toolpath_; }
    const Timeline& timeline() const { return timeline_; }
    double tipX() const { return 2 * tip_.r; }
    double tipZ() const { return tip_.z; }
    std::uint32_t moves() const { return static_cast<std::uint32_t>(timeline_.moves.size()); }

private:
    TipPath& add(MoveKind kind, Point tip, Point centre = {}, double seconds = 0);

    Setup setup_;
    Toolpath toolpath_;
    Timeline timeline_;
    Point tip_;
    double revPerMin_ = 0;
};

// A thread to the depth of ISO 724 in passes of falling depth, as they are cut in a lathe: radial infeed, straight out.
struct ThreadWork {
    double diameter = 24, pitch = 3, length = 40;
    int passes = 14;
    int starts = 1;
    SpindleDirection direction = SpindleDirection::Forward;
    bool awayFromChuck = false;
    double depth = 0;       // radial; 0: h3
    double startTurns = 0;  // of the first start
};
// Cuts it with the threading tool at `station` on a bar whose front face stands at `frontZ`.
void cutThread(TipPath& path, int station, double frontZ, const ThreadWork& work);
// A threading insert that leaves the root of ISO 68-1, rounded with H/6.
Tool& addFullProfile(Setup& setup, int station, double pitch);

// A feed move along an arc either way round, now and then nearly a whole turn, that ends between two radii.
void addArc(double rMin, double rMax, Dice& dice, TipPath& path);

// A bar of 60 mm turned 80 mm long in many finishing passes over a wavy contour, each written as moves of 0.01 mm, as a
// programming system writes a free-form contour. Ends after `moves` moves.
TipPath wavyContour(const Setup& setup, std::uint32_t moves);
Setup wavyContourSetup();

// Other kinds of work in short or long moves, each with the set-up it is for.
struct Scene {
    Setup setup;
    TipPath path;
};
Scene facing(std::uint32_t moves);       // the front face in steps of 0.01 mm, cut after cut
Scene boring(std::uint32_t moves);       // a drilled hole opened up in steps of 0.01 mm
Scene longPasses(std::uint32_t moves);   // roughing passes of 80 mm
Scene backTurning(std::uint32_t moves);  // a relief turned towards the front by a left-hand tool, steps of 0.01 mm

}  // namespace firstoff::shop
