#include "gui/program_rows.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace firstoff::gui {
namespace {

TEST(ProgramRows, AreTheLinesWhereNothingStandsBeneath) {
    ProgramRows rows;
    rows.set(5, {});
    EXPECT_EQ(rows.count(), 5u);
    EXPECT_EQ(rows.rowOf(3), 3u);
    EXPECT_EQ(rows.at(3), (ProgramRows::Place{3, 0}));
    EXPECT_EQ(rows.at(99), (ProgramRows::Place{4, 0}));
}

TEST(ProgramRows, HoldMoreBeneathSomeLines) {
    ProgramRows rows;
    rows.set(4, {{1, 2}, {3, 1}});
    EXPECT_EQ(rows.count(), 7u);
    const ProgramRows::Place expected[] = {{0, 0}, {1, 0}, {1, 1}, {1, 2}, {2, 0}, {3, 0}, {3, 1}};
    for (std::size_t row = 0; row < 7; ++row) EXPECT_EQ(rows.at(row), expected[row]) << row;
}

// Row by row they say what a plain list of all rows says.
RC_GTEST_PROP(ProgramRows, SayWhatAListOfAllRowsSays, ()) {
    const auto lines = *rc::gen::inRange<std::size_t>(1, 30);
    std::vector<ProgramRows::Extra> extras;
    std::vector<ProgramRows::Place> list;
    for (std::size_t line = 0; line < lines; ++line) {
        const auto more = *rc::gen::inRange<std::size_t>(0, 4);
        if (more > 0 || *rc::gen::arbitrary<bool>()) extras.push_back({line, more});
        for (std::size_t below = 0; below <= more; ++below) list.push_back({line, below});
    }
    ProgramRows rows;
    rows.set(lines, extras);
    RC_ASSERT(rows.count() == list.size());
    for (std::size_t row = 0; row < list.size(); ++row) {
        RC_ASSERT(rows.at(row) == list[row]);
        RC_ASSERT(rows.rowOf(list[row].line) + list[row].below == row);
    }
}

}  // namespace
}  // namespace firstoff::gui
