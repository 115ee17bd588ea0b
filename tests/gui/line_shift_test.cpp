#include "gui/line_shift.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "gui/text_document.h"

namespace firstoff::gui {
namespace {

TEST(LineShift, FollowsLinesThroughEdits) {
    constexpr std::size_t kGone = LineShift::kGone;
    struct Row {
        const char* what;
        LineEdit edit;
        std::size_t line, now;
    };
    const Row rows[] = {
        {"above", {5, 0, 2, false}, 3, 3},
        {"the line itself keeps its front", {5, 0, 2, false}, 5, 5},
        {"below", {5, 0, 2, false}, 6, 8},
        {"put in at the beginning of a line", {5, 0, 1, true}, 5, 6},
        {"taken out", {5, 2, 0, true}, 5, kGone},
        {"taken out as well", {5, 2, 0, true}, 6, kGone},
        {"what stands behind the lines taken out", {5, 2, 0, true}, 7, 5},
        {"joined to the one above", {5, 1, 0, false}, 6, kGone},
        {"below a join", {5, 1, 0, false}, 7, 6},
    };
    for (const Row& row : rows) {
        const LineShift shift({row.edit});
        EXPECT_EQ(shift.now(row.line), row.now) << row.what;
        if (row.now == kGone) continue;
        EXPECT_EQ(shift.then(row.now), row.line) << row.what;
    }
    EXPECT_EQ(LineShift({{5, 0, 2, false}}).then(6), kGone);  // a line that is new
}

// Lines that are told apart by their text stand where the shift says, through any edits, undone or not.
RC_GTEST_PROP(LineShift, SaysWhereEachLineStands, ()) {
    std::string text;
    for (int i = 0; i < 12; ++i) text += fmt::format("N{} G01 X{}.\n", i, i);
    TextDocument document(text);
    const std::uint64_t then = document.revision();
    const TextDocument before = document;
    for (int i = *rc::gen::inRange(0, 6); i > 0; --i) {
        if (*rc::gen::inRange(0, 4) == 0) {
            document.undo();
            continue;
        }
        const auto from = *rc::gen::inRange<std::size_t>(0, document.text().size() + 1);
        const auto to = std::min(document.text().size(), from + *rc::gen::inRange<std::size_t>(0, 30));
        document.replace(from, to, *rc::gen::element<std::string>("", "\n", "G00\n", "\nM08\nM09", "x"));
    }
    const LineShift shift = document.shiftSince(then);
    for (std::size_t line = 0; line < before.lineCount(); ++line) {
        const std::size_t now = shift.now(line);
        if (now == LineShift::kGone) continue;
        RC_ASSERT(now < document.lineCount());
        RC_ASSERT(shift.then(now) == line);
    }
    // A line that is whole somewhere stands there, if it is followed at all.
    for (std::size_t line = 0; line + 1 < before.lineCount(); ++line) {
        for (std::size_t at = 0; at < document.lineCount(); ++at) {
            if (document.line(at) != before.line(line) || shift.now(line) == LineShift::kGone) continue;
            RC_ASSERT(shift.now(line) == at);
        }
    }
}

TEST(LineShift, IsForgottenUpToARevision) {
    TextDocument document("A\nB\nC\n");
    const std::uint64_t first = document.revision();
    document.replace(0, 0, "X\n");
    const std::uint64_t second = document.revision();
    document.replace(0, 0, "Y\n");
    EXPECT_EQ(document.shiftSince(first).now(0), 2u);
    EXPECT_EQ(document.shiftSince(second).now(1), 2u);
    EXPECT_EQ(document.shiftBetween(first, second).now(0), 1u);
    document.forgetShiftsBefore(second);
    EXPECT_EQ(document.shiftSince(second).now(1), 2u);
    document.undo();
    EXPECT_EQ(document.shiftSince(second).now(1), 1u);
}

}  // namespace
}  // namespace firstoff::gui
