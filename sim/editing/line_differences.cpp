#include "sim/editing/line_differences.h"

#include <algorithm>
#include <dtl/dtl.hpp>
#include <unordered_map>

#include "sim/base/characters.h"

namespace firstoff {

namespace {

using Numbers = std::vector<std::size_t>;

// Lines of both sides in a piece beyond which the shortest list is not looked for: it takes time by their product.
constexpr std::size_t kLargestPiece = 4000;

struct Piece {
    std::size_t left = 0, leftEnd = 0, right = 0, rightEnd = 0;
    std::size_t lefts() const { return leftEnd - left; }
    std::size_t rights() const { return rightEnd - right; }
};

// Equal lines get equal numbers, so that they are compared in one step from then on.
class Numbering {
public:
    Numbers of(const std::vector<std::string_view>& lines) {
        Numbers numbers;
        numbers.reserve(lines.size());
        for (std::string_view line : lines) numbers.push_back(known_.try_emplace(line, known_.size()).first->second);
        return numbers;
    }
    std::size_t count() const { return known_.size(); }

private:
    std::unordered_map<std::string_view, std::size_t> known_;
};

class Comparer {
public:
    Comparer(const Numbers& left, const Numbers& right, std::size_t kinds)
        : left_(left), right_(right), kinds_(kinds) {}

    std::vector<LineDifference> run() {
        Piece whole{0, left_.size(), 0, right_.size()};
        trim(whole);
        std::size_t leftAt = whole.left, rightAt = whole.right;
        for (const auto& [l, r] : anchors(whole)) {
            compare({leftAt, l, rightAt, r});
            leftAt = l + 1;
            rightAt = r + 1;
        }
        compare({leftAt, whole.leftEnd, rightAt, whole.rightEnd});
        return std::move(result_);
    }

private:
    void trim(Piece& piece) const {
        while (piece.lefts() > 0 && piece.rights() > 0 && left_[piece.left] == right_[piece.right]) {
            ++piece.left;
            ++piece.right;
        }
        while (piece.lefts() > 0 && piece.rights() > 0 && left_[piece.leftEnd - 1] == right_[piece.rightEnd - 1]) {
            --piece.leftEnd;
            --piece.rightEnd;
        }
    }

    // Lines that stand once on either side, and of those the longest run in the same order.
    std::vector<std::pair<std::size_t, std::size_t>> anchors(const Piece& piece) const {
        struct Seen {
            std::size_t lefts = 0, rights = 0, left = 0, right = 0;
        };
        std::vector<Seen> seen(kinds_);
        for (std::size_t i = piece.left; i < piece.leftEnd; ++i) {
            ++seen[left_[i]].lefts;
            seen[left_[i]].left = i;
        }
        for (std::size_t i = piece.right; i < piece.rightEnd; ++i) {
            ++seen[right_[i]].rights;
            seen[right_[i]].right = i;
        }
        std::vector<std::pair<std::size_t, std::size_t>> pairs;
        for (std::size_t i = piece.left; i < piece.leftEnd; ++i) {
            const Seen& line = seen[left_[i]];
            if (line.lefts == 1 && line.rights == 1) pairs.emplace_back(i, line.right);
        }
        return longestRising(pairs);
    }

    // Patience sorting: ends[n] is where the best run of n + 1 pairs ends so far.
    static std::vector<std::pair<std::size_t, std::size_t>> longestRising(
        const std::vector<std::pair<std::size_t, std::size_t>>& pairs) {
        constexpr std::size_t kNone = static_cast<std::size_t>(-1);
        std::vector<std::size_t> ends;
        std::vector<std::size_t> before(pairs.size(), kNone);
        for (std::size_t i = 0; i < pairs.size(); ++i) {
            const auto at = std::lower_bound(ends.begin(), ends.end(), pairs[i].second,
                                             [&](std::size_t e, std::size_t r) { return pairs[e].second < r; });
            if (at != ends.begin()) before[i] = *std::prev(at);
            if (at == ends.end()) {
                ends.push_back(i);
            } else {
                *at = i;
            }
        }
        std::vector<std::pair<std::size_t, std::size_t>> run;
        for (std::size_t i = ends.empty() ? kNone : ends.back(); i != kNone; i = before[i]) run.push_back(pairs[i]);
        std::reverse(run.begin(), run.end());
        return run;
    }

    void compare(Piece piece) {
        trim(piece);
        if (piece.lefts() == 0 && piece.rights() == 0) return;
        const bool oneSided = piece.lefts() == 0 || piece.rights() == 0;
        if (oneSided || piece.lefts() + piece.rights() > kLargestPiece) {
            add({piece.left, piece.leftEnd, piece.right, piece.rightEnd});
            return;
        }
        shortest(piece);
    }

    void shortest(const Piece& piece) {
        const auto at = [](std::size_t i) { return static_cast<std::ptrdiff_t>(i); };
        const Numbers a(left_.begin() + at(piece.left), left_.begin() + at(piece.leftEnd));
        const Numbers b(right_.begin() + at(piece.right), right_.begin() + at(piece.rightEnd));
        dtl::Diff<std::size_t, Numbers> diff(a, b);
        diff.compose();
        std::size_t l = piece.left, r = piece.right;
        for (const auto& [line, info] : diff.getSes().getSequence()) {
            if (info.type == dtl::SES_DELETE) {
                add({l, l + 1, r, r});
                ++l;
            } else if (info.type == dtl::SES_ADD) {
                add({l, l, r, r + 1});
                ++r;
            } else {
                ++l;
                ++r;
            }
        }
    }

    // Joined to the one before where nothing stands between.
    void add(const LineDifference& next) {
        if (!result_.empty() && result_.back().leftEnd == next.left && result_.back().rightEnd == next.right) {
            result_.back().leftEnd = next.leftEnd;
            result_.back().rightEnd = next.rightEnd;
        } else {
            result_.push_back(next);
        }
    }

    const Numbers& left_;
    const Numbers& right_;
    const std::size_t kinds_;
    std::vector<LineDifference> result_;
};

bool isOfNumber(char c) {
    return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+';
}

std::vector<std::string_view> wordsOf(std::string_view line) {
    std::vector<std::string_view> words;
    for (std::size_t at = 0; at < line.size();) {
        std::size_t end = at + 1;
        if (isLetter(line[at]) || isOfNumber(line[at])) {
            while (end < line.size() && isOfNumber(line[end])) ++end;
        } else if (static_cast<unsigned char>(line[at]) >= 0x80) {
            while (end < line.size() && static_cast<unsigned char>(line[end]) >= 0x80) ++end;
        }
        words.push_back(line.substr(at, end - at));
        at = end;
    }
    return words;
}

std::vector<Stretch> stretchesOf(std::string_view line, const std::vector<std::string_view>& words,
                                 const std::vector<LineDifference>& differences, std::size_t LineDifference::*from,
                                 std::size_t LineDifference::*to) {
    std::vector<Stretch> stretches;
    for (const LineDifference& d : differences) {
        if (d.*from == d.*to) continue;
        const std::string_view first = words[d.*from], last = words[d.*to - 1];
        const auto begin = static_cast<std::size_t>(first.data() - line.data());
        stretches.push_back({begin, static_cast<std::size_t>(last.data() - line.data()) + last.size()});
    }
    return stretches;
}

}  // namespace

std::vector<std::string_view> linesOf(std::string_view text) {
    std::vector<std::string_view> lines;
    std::size_t at = 0;
    for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n', at)) {
        const bool cr = end > at && text[end - 1] == '\r';
        lines.push_back(text.substr(at, end - at - (cr ? 1 : 0)));
        at = end + 1;
    }
    lines.push_back(text.substr(at));
    return lines;
}

// What is the same at both ends need not be numbered: mostly that is nearly all.
std::vector<LineDifference> lineDifferences(const std::vector<std::string_view>& left,
                                            const std::vector<std::string_view>& right) {
    const std::size_t least = std::min(left.size(), right.size());
    std::size_t head = 0, tail = 0;
    while (head < least && left[head] == right[head]) ++head;
    while (tail < least - head && left[left.size() - 1 - tail] == right[right.size() - 1 - tail]) ++tail;
    const auto middle = [&](const std::vector<std::string_view>& lines) {
        return std::vector<std::string_view>(lines.begin() + static_cast<std::ptrdiff_t>(head),
                                             lines.end() - static_cast<std::ptrdiff_t>(tail));
    };
    Numbering numbering;
    const Numbers a = numbering.of(middle(left));
    const Numbers b = numbering.of(middle(right));
    std::vector<LineDifference> differences = Comparer(a, b, numbering.count()).run();
    for (LineDifference& d : differences) {
        for (std::size_t* line : {&d.left, &d.leftEnd, &d.right, &d.rightEnd}) *line += head;
    }
    return differences;
}

WordDifferences wordDifferences(std::string_view left, std::string_view right) {
    const std::vector<std::string_view> lefts = wordsOf(left), rights = wordsOf(right);
    const std::vector<LineDifference> differences = lineDifferences(lefts, rights);
    return {stretchesOf(left, lefts, differences, &LineDifference::left, &LineDifference::leftEnd),
            stretchesOf(right, rights, differences, &LineDifference::right, &LineDifference::rightEnd)};
}

}  // namespace firstoff
