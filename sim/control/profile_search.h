// Finds the blocks that a cycle's P and Q name.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "sim/program/program.h"

namespace firstoff {

class ProfileSearch {
public:
    explicit ProfileSearch(const Program& program) : program_(program) {}

    // The block with sequence number `number` that a search from `from` on finds: forwards to the end of the text, then
    // from its beginning.
    std::optional<BlockId> find(std::int32_t number, BlockId from);
    // The first one from `from` on, without going back to the beginning.
    std::optional<BlockId> findForwards(std::int32_t number, BlockId from);

private:
    void index();

    const Program& program_;
    std::vector<std::pair<std::int32_t, BlockId>> byNumber_;  // sorted; made at the first search
    bool indexed_ = false;
};

}  // namespace firstoff
