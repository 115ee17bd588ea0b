// Everything that a history needs to cut any part of a program again: the path of the true tip and the tools, copied
// from the timeline, so that nothing outside has to live on.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet.h"
#include "sim/stock/outline_chains.h"

namespace firstoff {

inline constexpr std::uint16_t kNoTool = 0xffff;

class CutPlan {
public:
    CutPlan(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup);

    std::uint32_t moves() const { return static_cast<std::uint32_t>(steps_.size()); }
    // Of the tip along a timed move.
    Sweep sweep(std::uint32_t move) const;
    // A move that may take metal: a tool is in the turret's working place, and it goes somewhere or has just been
    // indexed there.
    bool mayCut(std::uint32_t move) const { return tools_[move] != kNoTool && steps_[move].meets; }
    const ToolShape& shape(std::uint32_t move) const { return shapes_[tools_[move]]; }
    const ToolShape& holder(std::uint32_t move) const { return holders_[tools_[move]]; }
    // Index into Setup::tools per timed move, kNoTool without one.
    const std::vector<std::uint16_t>& tools() const { return tools_; }
    double heldZ() const { return heldZ_; }

    std::size_t bytes() const;

private:
    struct Step {
        Point from, to;            // true tip, lathe frame
        std::uint32_t centre = 0;  // index into centres_, arcs only
        Sweep::Path path = Sweep::Path::Line;
        bool meets = false;
    };
    std::vector<Step> steps_;
    std::vector<Point> centres_;
    std::vector<std::uint16_t> tools_;
    std::vector<ToolShape> shapes_, holders_;  // per tool of the set-up
    double heldZ_ = 0;                         // metal at or behind this is in the jaws
};

}  // namespace firstoff
