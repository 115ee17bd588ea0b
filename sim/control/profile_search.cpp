#include "sim/control/profile_search.h"

#include <algorithm>

namespace firstoff {

std::optional<BlockId> ProfileSearch::find(std::int32_t number, BlockId from) {
    if (const auto ahead = findForwards(number, from)) return ahead;
    return findForwards(number, 0);
}

std::optional<BlockId> ProfileSearch::findForwards(std::int32_t number, BlockId from) {
    index();
    const auto at = std::lower_bound(byNumber_.begin(), byNumber_.end(), std::pair{number, from});
    if (at == byNumber_.end() || at->first != number) return std::nullopt;
    return at->second;
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
