// Which DO belongs to which END in the text of one program.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/control/remarks.h"
#include "sim/program/program.h"

namespace firstoff {

struct Loop {
    BlockId begin = kNoBlock;  // the block with DO
    BlockId end = kNoBlock;    // the block with END
    BlockId outer = kNoBlock;  // the DO of the loop around it
};

class Loops {
public:
    // Reads the blocks first … end; loops that cross, nest wrongly or lack a side are reported.
    Loops(const Program& program, BlockId first, BlockId end, Remarks& remarks);

    // Null where the DO or END has no other side.
    const Loop* beginningAt(BlockId block) const;
    const Loop* endingAt(BlockId block) const;
    // The loop that a jump enters from outside; null if none.
    const Loop* entered(BlockId from, BlockId to) const;

private:
    struct Open {
        BlockId block = kNoBlock;
        std::uint8_t number = 0;
        BlockId outer = kNoBlock;
    };
    void open(BlockId block, std::uint8_t number);
    void close(BlockId block, std::uint8_t number);

    const Program& program_;
    Remarks& remarks_;
    std::vector<Open> open_;  // each number once at most
    std::vector<Loop> byBegin_;
    std::vector<Loop> byEnd_;
};

}  // namespace firstoff
