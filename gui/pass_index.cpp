#include "gui/pass_index.h"

#include <algorithm>

namespace firstoff::gui {

PassIndex::PassIndex(const Trial& trial) {
    const std::vector<Move>& moves = trial.toolpath.moves;
    const Move* before = nullptr;
    for (std::uint32_t i = 0; i < moves.size(); ++i) {
        const Move& move = moves[i];
        const bool shown = move.cycleBlock != kNoBlock && trial.program.isOwn(move.cycleBlock) && move.pass > 0;
        const bool goesOn =
            before != nullptr && shown && move.cycleBlock == before->cycleBlock && move.pass == before->pass;
        if (goesOn) {
            passes_.back().end = i + 1;
        } else if (shown) {
            passes_.push_back({move.cycleBlock, i, i + 1});
        }
        before = shown ? &move : nullptr;
    }
    std::stable_sort(passes_.begin(), passes_.end(),
                     [](const CyclePass& a, const CyclePass& b) { return a.block < b.block; });
}

std::span<const CyclePass> PassIndex::of(BlockId block) const {
    const auto first = std::lower_bound(passes_.begin(), passes_.end(), block,
                                        [](const CyclePass& pass, BlockId b) { return pass.block < b; });
    const auto end =
        std::upper_bound(first, passes_.end(), block, [](BlockId b, const CyclePass& pass) { return b < pass.block; });
    return {first, end};
}

std::size_t PassIndex::passOf(BlockId block, std::uint32_t move) const {
    const std::span<const CyclePass> passes = of(block);
    const auto behind = std::upper_bound(passes.begin(), passes.end(), move,
                                         [](std::uint32_t m, const CyclePass& pass) { return m < pass.first; });
    if (behind == passes.begin() || move >= std::prev(behind)->end) return npos;
    return static_cast<std::size_t>(behind - passes.begin()) - 1;
}

}  // namespace firstoff::gui
