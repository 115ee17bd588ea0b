// Moves that touch, gathered into findings: one for a run of moves, or for all passes of a cycle.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "sim/base/finding.h"
#include "sim/clearance/envelopes.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

// What one move touches first, and how deep it goes into anything that shares its finding code.
struct Contact {
    Body body = Body::ChuckBody;
    ToolPart part = ToolPart::Edge;
    double fraction = 0;  // of the move's length at first contact
    double depthMm = 0;   // deepest on this move
    Point place;          // of the body, lathe frame, at first contact
    int toolIndex = -1;
};

// Bodies of one group give one finding code: chuck, jaws, tailstock.
inline constexpr std::size_t kBodyGroups = 3;
std::size_t groupOf(Body body);

// Per group, nothing where `depthMm` is below zero.
using Contacts = std::array<Contact, kBodyGroups>;
Contacts noContacts();

class ContactRuns {
public:
    ContactRuns(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup) {}

    // In order of timed moves, for those that touch.
    void touch(std::uint32_t timedMove, const Contacts& contacts);
    // For those that do not.
    void pass(std::uint32_t timedMove);
    std::vector<Finding> findings() const;

private:
    struct Run {
        bool open = false;
        int told = -1;  // index into told_; -1: hidden behind what the tool met first
        std::uint32_t lastTouch = 0;
        BlockId cycle = kNoBlock;
    };
    struct Told {
        Contact first;
        std::uint32_t timedMove = 0;
        double depthMm = 0;
    };
    Finding findingOf(const Told& told) const;
    double timeOf(const Told& told) const;
    BlockId cycleOf(std::uint32_t timedMove) const;

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    std::array<Run, kBodyGroups> runs_;
    std::vector<Told> told_;
};

}  // namespace firstoff
