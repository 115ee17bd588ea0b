// What is done to a text: pieces of it replaced. Nothing else of an edit is known here, neither who asked nor undo.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace firstoff {

// The bytes [from, to) give way to `with`; from == to puts something in.
struct TextChange {
    std::size_t from = 0, to = 0;
    std::string with;
    friend bool operator==(const TextChange&, const TextChange&) = default;
};

// In order of place, none overlapping another. All places are those of the text before any of them.
using TextChanges = std::vector<TextChange>;

std::string changedText(std::string_view text, const TextChanges& changes);

}  // namespace firstoff
