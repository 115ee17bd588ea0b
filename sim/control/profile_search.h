// Where the program ends in its text, and where in it the blocks are that a cycle's P and Q name.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "sim/program/program.h"

namespace firstoff {

// The first block that no longer belongs to the program carried out: a `%` or the number of another program behind
// blocks with words; the number of blocks if there is none.
BlockId endOfProgramText(const Program& program);

// Searches blocks of the program carried out, not of others in the same tape.
class ProfileSearch {
public:
    ProfileSearch(const Program& program, BlockId end) : program_(program), end_(end) {}

    // From now on blocks first … end are those of the program carried out.
    void setRange(BlockId first, BlockId end) {
        first_ = first;
        end_ = end;
    }

    // The block with sequence number `number` that a search from `from` on finds: forwards to the end of the text, then
    // from its beginning.
    std::optional<BlockId> find(std::int32_t number, BlockId from);
    // The first one from `from` on, without going back to the beginning.
    std::optional<BlockId> findForwards(std::int32_t number, BlockId from);
    // How many blocks have the number.
    std::size_t count(std::int32_t number);

private:
    void index();

    const Program& program_;
    BlockId first_ = 0;
    BlockId end_;
    std::vector<std::pair<std::int32_t, BlockId>> byNumber_;  // sorted; made at the first search
    bool indexed_ = false;
};

}  // namespace firstoff
