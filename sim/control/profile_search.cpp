#include "sim/control/profile_search.h"

#include <algorithm>

namespace firstoff {

BlockId endOfProgramText(const Program& program) {
    bool anyWords = false;
    for (std::size_t i = 0; i < program.endBlockOf(0); ++i) {
        const Block& block = program.blocks[i];
        const bool frames = block.kind == Block::Kind::Percent || block.programNumber >= 0;
        if (anyWords && frames) return static_cast<BlockId>(i);
        // The number alone is no block to carry out: a file may begin with several lines of frame.
        anyWords |= block.wordCount > (block.programNumber >= 0 ? 1 : 0) || block.kind == Block::Kind::Statement;
    }
    return program.endBlockOf(0);
}

std::optional<BlockId> ProfileSearch::find(std::int32_t number, BlockId from) {
    if (const auto ahead = findForwards(number, from)) return ahead;
    return findForwards(number, first_);
}

std::optional<BlockId> ProfileSearch::findForwards(std::int32_t number, BlockId from) {
    index();
    const auto at = std::lower_bound(byNumber_.begin(), byNumber_.end(), std::pair{number, std::max(from, first_)});
    if (at == byNumber_.end() || at->first != number || at->second >= end_) return std::nullopt;
    return at->second;
}

std::size_t ProfileSearch::count(std::int32_t number) {
    index();
    const auto first = std::lower_bound(byNumber_.begin(), byNumber_.end(), std::pair{number, first_});
    const auto last = std::lower_bound(first, byNumber_.end(), std::pair{number, end_});
    return static_cast<std::size_t>(last - first);
}

void ProfileSearch::index() {
    if (indexed_) return;
    indexed_ = true;
    for (std::size_t i = 0; i < program_.blocks.size(); ++i) {
        const std::int32_t number = program_.blocks[i].sequenceNumber;
        if (number >= 0) byNumber_.emplace_back(number, static_cast<BlockId>(i));
    }
    std::sort(byNumber_.begin(), byNumber_.end());
}

}  // namespace firstoff
