// Everything that a history needs to cut any part of a program again: the path of the true tip and the tools, copied
// from the timeline, so that nothing outside has to live on.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet.h"
#include "sim/stock/outline_chains.h"
#include "sim/stock/stamps.h"
#include "sim/stock/thread_zone.h"

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
    // A move of a thread: takes only what `teeth` meet at the `turns` of the spindle, see thread_zone.h.
    bool inThread(std::uint32_t move) const { return steps_[move].thread != ThreadPart::None; }
    const SpindleTurns* turns(std::uint32_t move) const;
    std::span<const ToolShape> teeth(std::uint32_t move) const;
    // The cutting part of the move's tool, in convex parts.
    std::span<const ToolShape> shapes(std::uint32_t move) const { return shapes_[tools_[move]]; }
    const ToolShape& holder(std::uint32_t move) const { return holders_[tools_[move]]; }
    // Index into Setup::tools per timed move, kNoTool without one.
    const std::vector<std::uint16_t>& tools() const { return tools_; }
    double heldZ() const { return heldZ_; }
    // Where the blank begins and ends, to the last bit; its columns stand on whole pitches.
    Range blankEnds() const { return blankEnds_; }
    // Along z, all that threads are cut in, mm.
    double threadedLength() const { return threadedLength_; }

    std::size_t bytes() const;

private:
    // Positions of the turret reference; the tip is a tool call's displacement away. Moves nearly always start where
    // the one before ended, so only ends are kept: a long program has millions of these.
    struct Step {
        Point to;
        std::uint32_t detail = 0;  // index into centres_ for arcs, into turns_ for threads
        std::uint16_t call = 0;    // index into tips_
        Sweep::Path path = Sweep::Path::Line;
        ThreadPart thread = ThreadPart::None;
        bool meets = false;
    };
    struct Start {
        std::uint32_t move = 0;
        Point from;
    };
    Point start(std::uint32_t move) const;
    void measureThreads();

    std::vector<Step> steps_;
    std::vector<Start> starts_;  // of moves that do not start where the one before ended, in order
    std::vector<Point> centres_;
    std::vector<Point> tips_;           // per tool call
    std::vector<std::uint16_t> tools_;  // per move
    std::vector<SpindleTurns> turns_;
    std::vector<std::vector<ToolShape>> shapes_, teeth_;  // per tool of the set-up
    std::vector<ToolShape> holders_;                      // per tool of the set-up
    Range blankEnds_;
    double threadedLength_ = 0;
    double heldZ_ = 0;  // metal at or behind this is in the jaws
};

}  // namespace firstoff
