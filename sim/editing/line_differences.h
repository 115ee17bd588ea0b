// Where two texts differ, line by line, and within a line word by word: for looking at a program beside the one it was.
//
// The shortest list of differences comes from dtl (Wu, Manber, Myers, Miller, An O(NP) sequence comparison algorithm,
// Information Processing Letters 35 (1990)). So that a million lines are done in a moment, lines that stand once in
// either text and in the same order cut both texts into pieces first; a piece too large for a shortest list counts as
// one difference.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace firstoff {

// Lines [left, leftEnd) of one text stand where [right, rightEnd) stand in the other; all others are the same and in
// step.
struct LineDifference {
    std::size_t left = 0, leftEnd = 0;
    std::size_t right = 0, rightEnd = 0;
    friend bool operator==(const LineDifference&, const LineDifference&) = default;
};

// Lines without their ends (LF or CR LF); a text that ends with a line end has one more line, an empty one.
std::vector<std::string_view> linesOf(std::string_view text);

std::vector<LineDifference> lineDifferences(const std::vector<std::string_view>& left,
                                            const std::vector<std::string_view>& right);

// Bytes of a line that the other one does not have.
struct Stretch {
    std::size_t from = 0, to = 0;
    friend bool operator==(const Stretch&, const Stretch&) = default;
};
struct WordDifferences {
    std::vector<Stretch> left, right;
};
// By words of a program (a letter and its figures), blanks and whatever else stands alone.
WordDifferences wordDifferences(std::string_view left, std::string_view right);

}  // namespace firstoff
