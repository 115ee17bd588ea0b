// Which cuts left the surfaces that stand in the end, on the part and on the pieces parted off.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "sim/stock/history.h"

namespace firstoff {

class LastCuts {
public:
    // Whether timed move `cut` left what stands at `z` (lathe frame), or next to it: an insert cuts beside its tip.
    bool stands(std::uint32_t cut, double z) const;

    void mark(std::uint32_t cut, double z);
    explicit LastCuts(std::size_t timedMoves = 0) : stretches_(timedMoves) {}

private:
    // From the first to the last column with a surface of that cut.
    struct Stretch {
        float from = 1, to = 0;  // empty
    };
    std::vector<Stretch> stretches_;
};

// `cursor` of that history is moved, forwards.
LastCuts lastCutsOf(const std::shared_ptr<const StockHistory>& stock, StockCursor& cursor, std::size_t timedMoves);

}  // namespace firstoff
