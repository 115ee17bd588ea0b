// Finding in the text of a program.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "sim/editing/text_change.h"

namespace firstoff {

struct TextQuery {
    std::string what;        // without line ends; matches never reach over one
    bool matchCase = false;  // capitals of ASCII only; nothing else stands in a word of a program
    // As a block has words: a letter with its number. X12 is not found in X120, X12.5 or ,X12; G01 is found in
    // N10G01X20. Letters that stand together, as in GOTO or in a comment, are one word.
    bool wholeWords = false;
    friend bool operator==(const TextQuery&, const TextQuery&) = default;
};

struct TextMatch {
    std::size_t from = 0, to = 0;  // bytes
    friend bool operator==(const TextMatch&, const TextMatch&) = default;
};

// Horspool's search, Practical fast searching in strings, Software: Practice and Experience 10 (1980).
class TextSearch {
public:
    explicit TextSearch(TextQuery query);

    const TextQuery& query() const { return query_; }
    bool empty() const { return query_.what.empty(); }
    // The first match that begins at `from` or behind it and before `before`. None for an empty query.
    std::optional<TextMatch> next(std::string_view text, std::size_t from,
                                  std::size_t before = std::string_view::npos) const;
    // The last match that begins before `before`.
    std::optional<TextMatch> previous(std::string_view text, std::size_t before) const;
    // Whether [from, to) is a match as it stands: a selection that a replacement may take.
    bool matches(std::string_view text, TextMatch place) const;

private:
    std::optional<std::size_t> occurrence(std::string_view text, std::size_t from, std::size_t before) const;
    bool equals(std::string_view text, std::size_t at) const;
    bool isWhole(std::string_view text, std::size_t at) const;

    TextQuery query_;
    std::string folded_;                    // what is looked for, in capitals unless case counts
    std::array<unsigned char, 256> fold_;   // of a byte of the text
    std::array<std::size_t, 256> shift_{};  // by the folded byte beneath the last one of the query
};

// Every match replaced, none within another.
TextChanges replaceAll(std::string_view text, const TextSearch& search, std::string_view with);

// A line (from 0) that "45" or "N120" asks for: the line of that number, or the one whose block has that sequence
// number, the first behind line `from`, else the first of all. Nothing where there is none or `wish` is neither.
std::optional<std::size_t> lineAskedFor(std::string_view text, std::string_view wish, std::size_t from);

}  // namespace firstoff
