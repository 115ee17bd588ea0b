// A block told word by word, with what its figures come to at that place of the program: for people who learn to read
// one.
//
// What a code or a word means comes from the tables that the control itself works by (codes.h, word_roles.h); figures
// come from the moves, the modal state and the set-up of a trial. A word that has no meaning known here says so. Where
// a block was never carried out, there are no figures, only meanings.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "sim/trial/trial.h"

namespace firstoff {

struct WordExplained {
    SourceSpan span;   // of the word in its file
    std::string word;  // as it is written
    std::string text;  // one or two sentences
};

// Of a block's words in the order they are written. `step`: which of its executions (index into Toolpath::steps);
// nothing: the first, which is looked for; past the last: none. A macro statement, a comment and a blank line have no
// words.
std::vector<WordExplained> explainBlock(const Trial& trial, BlockId block, std::optional<std::size_t> step = {});

// By block: its first execution, as explainBlock takes it; the number of steps for a block that is never carried out.
// For whoever explains many blocks of a long program.
std::vector<std::size_t> firstSteps(const Trial& trial);

}  // namespace firstoff
