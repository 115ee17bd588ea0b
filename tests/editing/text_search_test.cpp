#include "sim/editing/text_search.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace firstoff {
namespace {

std::vector<std::size_t> places(const std::string& text, const TextQuery& query) {
    const TextSearch search(query);
    std::vector<std::size_t> found;
    for (auto match = search.next(text, 0); match; match = search.next(text, match->from + 1))
        found.push_back(match->from);
    return found;
}

TEST(TextSearch, FindsWordsOfABlock) {
    struct Row {
        const char* text;
        const char* what;
        bool wholeWords;
        std::vector<std::size_t> at;
    };
    const Row rows[] = {
        {"X12 X120 X12. X12.5 X1", "X12", false, {0, 4, 9, 14}},
        {"X12 X120 X12. X12.5 X1", "X12", true, {0}},
        {"N10G01X20.F.2", "G01", true, {3}},       // no blanks between words
        {"N10G01X20.F.2", "X20.", true, {6}},      //
        {"N10G01X20.F.2", "X20", true, {}},        // X20. is another word
        {"N10G01X20.F.2", "20.", true, {}},        // figures belong to their letter
        {"G01 ,C2. C2.", "C2.", true, {9}},        // a corner is another word than C
        {"G01 ,C2. C2.", ",C2.", true, {4}},       //
        {"(TURN AND RETURN)", "TURN", true, {1}},  //
        {"#1=#12+#1", "#1", true, {0, 7}},         //
        {"X-5. X5.", "X5.", true, {5}},            //
        {"GOTO100", "GOTO", true, {}},             // it goes on with its number
        {"x12 X12", "X12", false, {0, 4}},         // capitals do not count
        {"aaaa", "aa", false, {0, 1, 2}},          //
        {"", "X", false, {}},                      //
        {"X", "", false, {}},                      //
    };
    for (const Row& row : rows) {
        EXPECT_EQ(places(row.text, {row.what, false, row.wholeWords}), row.at) << row.what << " in " << row.text;
    }
    EXPECT_EQ(places("x12 X12", {"X12", true, false}), std::vector<std::size_t>{4});
}

TEST(TextSearch, GoesBackwardsToTheLastOneBefore) {
    const std::string text = "X1 " + std::string(20'000, ' ') + "X1 X1";
    const TextSearch search({"X1"});
    EXPECT_EQ(search.previous(text, text.size()), (TextMatch{20'006, 20'008}));
    EXPECT_EQ(search.previous(text, 20'006), (TextMatch{20'003, 20'005}));
    EXPECT_EQ(search.previous(text, 20'003), (TextMatch{0, 2}));
    EXPECT_EQ(search.previous(text, 0), std::nullopt);
}

TEST(TextSearch, ReplacesAllOfThem) {
    const std::string text = "G01 X12 X120\nx12\n";
    const TextChanges changes = replaceAll(text, TextSearch({"X12", false, true}), "X13.");
    EXPECT_EQ(changedText(text, changes), "G01 X13. X120\nX13.\n");
    EXPECT_EQ(changes.size(), 2u);
}

// The search that leaps finds what looking at every place finds.
RC_GTEST_PROP(TextSearch, LeapsOverNothing, ()) {
    const auto letters = rc::gen::container<std::string>(rc::gen::element('X', 'x', '1', '2', '.', ' '));
    const std::string text = *letters;
    const std::string what = *rc::gen::resize(4, letters);
    RC_PRE(!what.empty());
    std::vector<std::size_t> expected;
    for (std::size_t at = 0; at + what.size() <= text.size(); ++at) {
        if (text.compare(at, what.size(), what) == 0) expected.push_back(at);
    }
    RC_ASSERT(places(text, {what, true, false}) == expected);
}

TEST(LineAskedFor, IsALineOrASequenceNumber) {
    const std::string text = "%\nO1\nN10 G21\n/N20 G00\n N30 X1\n/2 N20 Z1\nM30";
    struct Row {
        const char* wish;
        std::size_t from;
        std::optional<std::size_t> line;
    };
    const Row rows[] = {
        {"1", 0, 0},      {"7", 0, 6},   {"8", 0, {}},  {"0", 0, {}},   {"N10", 0, 2}, {"n30", 0, 4},
        {" N 30 ", 0, 4}, {"N20", 0, 3}, {"N20", 3, 5}, {"N20", 5, 3},  // on from the caret, then from the beginning
        {"N40", 0, {}},   {"", 0, {}},   {"N", 0, {}},  {"X10", 0, {}}, {"4x", 0, {}},
    };
    for (const Row& row : rows) EXPECT_EQ(lineAskedFor(text, row.wish, row.from), row.line) << row.wish;
}

}  // namespace
}  // namespace firstoff
