// Runs every case of tests/cases. The files are listed, so that one that is lost fails loudly, and so does one that
// nobody listed.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/control/case_file.h"

namespace firstoff {
namespace {

const std::string kFolder = "tests/cases/";

const std::vector<std::string> kCases = {"arc-by-centre",
                                         "arc-by-radius",
                                         "arc-closes",
                                         "arc-does-not-close",
                                         "arc-full-circle",
                                         "arc-half-turn",
                                         "arc-more-than-half",
                                         "arc-radius-too-small",
                                         "axis-given-twice",
                                         "blanks-in-numbers",
                                         "block-skip-off",
                                         "block-skip-on",
                                         "blocks-before-profile",
                                         "byte-order-mark",
                                         "clamp-only-while-rapid",
                                         "codes-conflict",
                                         "codes-without-zeros",
                                         "comments",
                                         "compensation-before-roughing",
                                         "compensation-cancelled-on-the-way-home",
                                         "compensation-in-profile",
                                         "compensation-in-roughing",
                                         "compensation-left-on",
                                         "compensation-outside",
                                         "compensation-side-changed",
                                         "compensation-without-radius",
                                         "coordinate-setting",
                                         "corner-beside-arc",
                                         "corner-chamfer",
                                         "corner-does-not-fit",
                                         "corner-fillet",
                                         "corner-fillet-at-taper",
                                         "dwell",
                                         "endless",
                                         "feed-not-above-zero",
                                         "feed-of-other-mode",
                                         "feed-per-minute",
                                         "finishing",
                                         "inch",
                                         "incremental",
                                         "line-ends",
                                         "lower-case",
                                         "machine-coordinates",
                                         "macro",
                                         "macro-alarm",
                                         "macro-assignment",
                                         "macro-at-a-corner",
                                         "macro-cannot-calculate",
                                         "macro-codes",
                                         "macro-do-without-while",
                                         "macro-doubts",
                                         "macro-during-compensation",
                                         "macro-endless-goto",
                                         "macro-endless-loop",
                                         "macro-faulty-text",
                                         "macro-goto",
                                         "macro-goto-into-another-program",
                                         "macro-goto-missing",
                                         "macro-goto-no-number",
                                         "macro-goto-null",
                                         "macro-goto-repeated-number",
                                         "macro-goto-statement-with-number",
                                         "macro-if-goto",
                                         "macro-if-then",
                                         "macro-in-profile",
                                         "macro-jump-in-profile",
                                         "macro-jump-into-loop",
                                         "macro-jump-out-of-loop",
                                         "macro-kept-variable",
                                         "macro-loop-number-4",
                                         "macro-loop-number-inside-itself",
                                         "macro-loop-without-end",
                                         "macro-loop-without-start",
                                         "macro-loops-cross",
                                         "macro-machine-variables",
                                         "macro-message",
                                         "macro-modal-readouts",
                                         "macro-no-such-variable",
                                         "macro-null-compare",
                                         "macro-null-word",
                                         "macro-positions",
                                         "macro-positions-inch",
                                         "macro-read-only",
                                         "macro-rounding-in-word",
                                         "macro-several-assignments",
                                         "macro-while",
                                         "macro-while-nested",
                                         "macro-while-not-entered",
                                         "macro-word-forms",
                                         "macro-words-beside-statement",
                                         "many-m-codes",
                                         "missing-feed",
                                         "missing-profile-block",
                                         "no-motion-code",
                                         "no-program-end",
                                         "no-spaces",
                                         "no-speed-clamp",
                                         "no-tool-called",
                                         "nose-radius-differs",
                                         "not-allowed-in-profile",
                                         "number-out-of-range",
                                         "offset-cancelled",
                                         "optional-stop-off",
                                         "plain-turning",
                                         "profile-before-the-call",
                                         "profile-behind-the-end",
                                         "profile-in-another-program",
                                         "profile-not-monotonic",
                                         "reference-return",
                                         "roughing",
                                         "roughing-a-bore",
                                         "roughing-away-from-the-chuck",
                                         "roughing-depth-in-inch-increments",
                                         "roughing-faults",
                                         "roughing-feeds-in",
                                         "roughing-figures-below-zero",
                                         "roughing-one-block",
                                         "second-program",
                                         "several-m-codes",
                                         "speed-mode-without-speed",
                                         "spindle-without-speed",
                                         "stops",
                                         "subprogram-call",
                                         "surface-speed",
                                         "surface-speed-in-feet",
                                         "tape",
                                         "tape-cut-off",
                                         "text-faults",
                                         "thread-at-surface-speed",
                                         "thread-chained",
                                         "thread-chained-with-angle",
                                         "thread-in-a-profile",
                                         "thread-in-inches",
                                         "thread-lead-always-per-revolution",
                                         "thread-lead-in-e",
                                         "thread-lead-left-over",
                                         "thread-modal",
                                         "thread-number-of-another-system",
                                         "thread-on-a-face",
                                         "thread-speed-changed",
                                         "thread-start-angles",
                                         "thread-straight",
                                         "thread-strange-words",
                                         "thread-system-b",
                                         "thread-system-c",
                                         "thread-tapered",
                                         "thread-two-starts",
                                         "thread-variable-lead",
                                         "thread-variable-lead-faults",
                                         "thread-with-compensation",
                                         "thread-with-corner",
                                         "thread-without-lead",
                                         "tool-not-in-setup",
                                         "tool-words",
                                         "unknown-code",
                                         "unknown-code-takes-the-axes",
                                         "unknown-word",
                                         "wear-offset",
                                         "word-order",
                                         "work-offset-not-given",
                                         "work-offsets"};

class Case : public testing::TestWithParam<std::string> {};

TEST_P(Case, Holds) {
    std::string all;
    for (const std::string& failure : cases::check(kFolder + GetParam() + ".nc")) all += "\n" + failure;
    EXPECT_EQ(all, "") << GetParam();
}

INSTANTIATE_TEST_SUITE_P(Files, Case, testing::ValuesIn(kCases), [](const auto& row) {
    std::string name = row.param;
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
});

TEST(CaseFolder, HasNoFileThatIsNotListed) {
    EXPECT_GE(kCases.size(), 60u);
    for (const auto& entry : std::filesystem::directory_iterator(FIRSTOFF_SOURCE_DIR "/" + kFolder)) {
        const std::string name = entry.path().stem().string();
        EXPECT_NE(std::find(kCases.begin(), kCases.end(), name), kCases.end()) << name;
    }
}

}  // namespace
}  // namespace firstoff
