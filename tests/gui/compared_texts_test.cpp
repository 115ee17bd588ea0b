#include "gui/compared_texts.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace firstoff::gui {
namespace {

TEST(ComparedTexts, StandInStep) {
    const TextDocument left("A\nB\nC\nD"), right("A\nX\nY\nC\nE");
    ComparedTexts compared;
    compared.finish(left, right);
    ASSERT_EQ(compared.differences().size(), 2u);
    constexpr std::size_t kNone = ComparedTexts::kNoLine;
    const ComparedTexts::Row expected[] = {{0, 0, kNone}, {1, 1, 0}, {kNone, 2, 0}, {2, 3, kNone}, {3, 4, 1}};
    ASSERT_EQ(compared.rowCount(), 5u);
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_EQ(compared.row(i).left, expected[i].left) << i;
        EXPECT_EQ(compared.row(i).right, expected[i].right) << i;
        EXPECT_EQ(compared.row(i).difference, expected[i].difference) << i;
    }
    EXPECT_EQ(compared.rowOf(1), 4u);
}

std::vector<std::string> lines(const TextDocument& document) {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < document.lineCount(); ++i) all.emplace_back(document.line(i));
    return all;
}

// Whichever way differences are taken over, in any order, both texts end up with the same lines; what is known without
// comparing anew is what comparing anew says.
RC_GTEST_PROP(ComparedTexts, BecomeOneTextByTakingOver, ()) {
    const auto text = [] {
        std::string made;
        const auto count = *rc::gen::inRange(0, 8);
        for (int i = 0; i < count; ++i) {
            if (i > 0) made += *rc::gen::element<std::string>("\n", "\r\n");
            made += *rc::gen::element<std::string>("A", "B", "C", "D", "");
        }
        return made;
    };
    TextDocument left(text()), right(text());
    ComparedTexts compared;
    compared.finish(left, right);
    while (!compared.differences().empty()) {
        const auto which = *rc::gen::inRange<std::size_t>(0, compared.differences().size());
        const Side side = *rc::gen::arbitrary<bool>() ? Side::Left : Side::Right;
        TextDocument& into = side == Side::Left ? left : right;
        const TextDocument& from = side == Side::Left ? right : left;
        into.replace(compared.taken(which, from, into, side), 0);
        compared.settled(which, side, left, right);
        ComparedTexts anew;
        anew.finish(left, right);
        RC_ASSERT(anew.differences().size() <= compared.differences().size());
        RC_ASSERT(anew.rowCount() >= std::max(left.lineCount(), right.lineCount()));
    }
    RC_ASSERT(lines(left) == lines(right));
}

}  // namespace
}  // namespace firstoff::gui
