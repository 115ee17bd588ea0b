// The passes into which the cycles of a trial unfold, by the line that called them. Made once per trial.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff::gui {

// One pass of a cycle in one execution of its block: moves [first, end) of the toolpath.
struct CyclePass {
    BlockId block = kNoBlock;
    std::uint32_t first = 0, end = 0;
};

class PassIndex {
public:
    PassIndex() = default;
    explicit PassIndex(const Trial& trial);

    // Of a block, in order of execution; empty where it is no cycle.
    std::span<const CyclePass> of(BlockId block) const;
    // Which of them a move belongs to; npos if to none.
    static constexpr std::size_t npos = static_cast<std::size_t>(-1);
    std::size_t passOf(BlockId block, std::uint32_t move) const;

private:
    std::vector<CyclePass> passes_;  // by block, then in order of execution
};

}  // namespace firstoff::gui
