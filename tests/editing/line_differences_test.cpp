#include "sim/editing/line_differences.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>

namespace firstoff {
namespace {

std::vector<LineDifference> between(const std::string& left, const std::string& right) {
    return lineDifferences(linesOf(left), linesOf(right));
}

TEST(LineDifferences, AreFewAndInPlace) {
    struct Row {
        const char* left;
        const char* right;
        std::vector<LineDifference> differences;
    };
    const Row rows[] = {
        {"A\nB\nC", "A\nB\nC", {}},
        {"A\nB\nC", "A\nX\nC", {{1, 2, 1, 2}}},
        {"A\nB\nC", "A\nC", {{1, 2, 1, 1}}},
        {"A\nC", "A\nB\nC", {{1, 1, 1, 2}}},
        {"A\nB\nC\nD\nE", "B\nC\nX\nE", {{0, 1, 0, 0}, {3, 4, 2, 3}}},
        {"", "A\nB", {{0, 1, 0, 2}}},
        {"A\r\nB\r\n", "A\nB\n", {}},  // line ends are not looked at
    };
    for (const Row& row : rows)
        EXPECT_EQ(between(row.left, row.right), row.differences) << row.left << "|" << row.right;
}

// Taking the right side of every difference makes the right text of the left one.
RC_GTEST_PROP(LineDifferences, TurnOneTextIntoTheOther, ()) {
    const auto lines = rc::gen::container<std::vector<std::string>>(
        rc::gen::element<std::string>("A", "B", "C", "D", "E", "F", "G", "H"));
    const std::vector<std::string> left = *lines, right = *lines;
    const std::vector<std::string_view> l(left.begin(), left.end()), r(right.begin(), right.end());
    std::vector<std::string_view> made;
    std::size_t at = 0;
    for (const LineDifference& d : lineDifferences(l, r)) {
        RC_ASSERT(at <= d.left);
        made.insert(made.end(), l.begin() + static_cast<std::ptrdiff_t>(at),
                    l.begin() + static_cast<std::ptrdiff_t>(d.left));
        RC_ASSERT(made.size() == d.right);
        made.insert(made.end(), r.begin() + static_cast<std::ptrdiff_t>(d.right),
                    r.begin() + static_cast<std::ptrdiff_t>(d.rightEnd));
        at = d.leftEnd;
    }
    made.insert(made.end(), l.begin() + static_cast<std::ptrdiff_t>(at), l.end());
    RC_ASSERT(made == r);
}

// Far too many lines for a table of all pairs; of those that stand once, the places where they differ are found.
TEST(LineDifferences, OfAHundredThousandLinesAreFound) {
    std::string left, right;
    for (int i = 0; i < 100'000; ++i) {
        const std::string line = fmt::format("N{} G01 X20.\n", i);
        left += line;
        if (i % 10'000 == 5'000) right += "G04 P1\n";
        if (i % 10'000 != 7'000) right += line;
    }
    const auto differences = between(left, right);
    ASSERT_EQ(differences.size(), 20u);
    EXPECT_EQ(differences[0], (LineDifference{5'000, 5'000, 5'000, 5'001}));
    EXPECT_EQ(differences[1], (LineDifference{7'000, 7'001, 7'001, 7'001}));
}

TEST(LineDifferences, OfTextsWithNothingInCommonAreOne) {
    std::string left, right;
    for (int i = 0; i < 20'000; ++i) {
        left += fmt::format("X{}\n", i);
        right += fmt::format("Z{}\n", i);
    }
    EXPECT_EQ(between(left + "M30", right + "M30"), (std::vector<LineDifference>{{0, 20'000, 0, 20'000}}));
}

TEST(WordDifferences, AreThoseOfWords) {
    const auto d = wordDifferences("G01 X20. Z-5. F.2", "G01 X20.5 Z-5. F.2 M08");
    EXPECT_EQ(d.left, (std::vector<Stretch>{{4, 8}}));
    EXPECT_EQ(d.right, (std::vector<Stretch>{{4, 9}, {18, 22}}));
    EXPECT_TRUE(wordDifferences("G01", "G01").left.empty());
}

}  // namespace
}  // namespace firstoff
