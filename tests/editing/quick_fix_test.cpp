#include "sim/editing/quick_fix.h"

#include <gtest/gtest.h>

#include <map>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

std::shared_ptr<const Trial> tried(const std::string& text) {
    return shop::run(text, shop::stepSetup());
}

std::map<std::string, int> counted(const Trial& trial) {
    std::map<std::string, int> codes;
    for (const Finding& finding : trial.findings) ++codes[finding.code];
    return codes;
}

const Finding* firstOf(const Trial& trial, const std::string& code) {
    for (const Finding& finding : trial.findings) {
        if (finding.code == code) return &finding;
    }
    return nullptr;
}

// The turned step of the shop, each part of which a row may spoil.
std::string step(const std::string& approach = "G00 X45. Z2.", const std::string& cut = "G01 Z-20. F.2",
                 const std::string& end = "M30\n", const std::string& start = "") {
    return start + "T0101\nG97 S800 M03\n" + approach + "\nX36.\n" + cut + "\nX45.\nG00 X100. Z100.\n" + end;
}

struct Row {
    const char* code;
    std::string text;
    std::string after;  // what the text becomes
};

const std::vector<Row>& rows() {
    static const std::vector<Row> table = {
        {"unclosed-comment", step("G00 X45. Z2. (NEAR"), step("G00 X45. Z2. (NEAR)")},
        {"nested-comment", step("G00 X45. Z2. (NEAR (IT)"), step("G00 X45. Z2. (NEAR IT)")},
        {"bad-character",
         step("G00 X45. Z2.",
              "G01 Z\xE2\x88\x92"
              "20. F.2"),
         step()},
        {"bad-character", step("G00\xC2\xA0X45. Z2."), step()},
        {"letter-without-number", step("GO X45. Z2."), step("G0 X45. Z2.")},
        {"letter-without-number", step("GOO X45. Z2."), ""},
        {"letter-without-number", step("G00 X45. Z2.", "GO1 Z-20. F.2"), step("G00 X45. Z2.", "G01 Z-20. F.2")},
        {"letter-without-number", step("G00 X45. Z2.", "G01 Z-2O F.2"), step("G00 X45. Z2.", "G01 Z-20 F.2")},
        {"decimal-comma", step("G00 X45. Z2.", "G01 Z-20,0 F.2"), step("G00 X45. Z2.", "G01 Z-20.0 F.2")},
        {"no-program-end", step("G00 X45. Z2.", "G01 Z-20. F.2", ""), step("G00 X45. Z2.", "G01 Z-20. F.2", "M30\n")},
        {"no-program-end", step("G00 X45. Z2.", "G01 Z-20. F.2", "%\n", "%\n"),
         step("G00 X45. Z2.", "G01 Z-20. F.2", "M30\n%\n", "%\n")},
        {"percent-not-closed", step("G00 X45. Z2.", "G01 Z-20. F.2", "M30\n", "%\n"),
         step("G00 X45. Z2.", "G01 Z-20. F.2", "M30\n%\n", "%\n")},
        {"subprogram-without-end", step("G00 X45. Z2.", "M98 P7", "M30\nO7\nG01 Z-20. F.2\n"),
         step("G00 X45. Z2.", "M98 P7", "M30\nO7\nG01 Z-20. F.2\nM99\n")},
        {"word-twice", step("G00 X45. Z2. X45."), step()},
    };
    return table;
}

TEST(QuickFix, TakesItsFindingAwayAndBringsNoOther) {
    for (const Row& row : rows()) {
        if (row.after.empty()) continue;
        SCOPED_TRACE(row.code + (": " + row.text));
        const auto before = tried(row.text);
        const Finding* finding = firstOf(*before, row.code);
        ASSERT_NE(finding, nullptr) << shop::found(*before);
        const auto fix = quickFix(*before, *finding);
        ASSERT_TRUE(fix);
        EXPECT_FALSE(fix->words.empty());
        const std::string text = changedText(row.text, fix->changes);
        EXPECT_EQ(text, row.after);
        const auto after = tried(text);
        EXPECT_EQ(firstOf(*after, row.code), nullptr) << shop::found(*after);
        const auto counts = counted(*before);
        for (const auto& [code, count] : counted(*after)) {
            const auto known = counts.find(code);
            EXPECT_LE(count, known == counts.end() ? 0 : known->second) << code << " came: " << shop::found(*after);
        }
    }
}

TEST(QuickFix, IsNotOfferedWhereSomethingWouldBeGuessed) {
    const std::pair<const char*, std::string> doubtful[] = {
        {"unclosed-bracket", step("G00 X[45. Z2.")},
        {"unopened-comment", step("G00 X45. Z2. )")},
        {"second-decimal-point", step("G00 X45.0.1 Z2.")},
        {"nested-comment", step("G00 X45. (A (B) Z2.)")},
        {"letter-without-number", step("GOX45. Z2.")},
        {"letter-without-number", step("GOO X45. Z2.")},
        {"word-twice", step("G00 X45. Z2. X46.")},
        {"percent-not-closed", step("G00 X45. Z2.", "G01 Z-20. F.2", "", "%\n")},  // cut off, perhaps
        {"no-program-end", step("G00 X45. Z2.", "G01 Z-20. F.2", "", "%\n")},
        {"bad-character", step("G00 X45. Z2.",
                               "G01 Z-20.\xE2\x88\x92"
                               "5 F.2")},
    };
    for (const auto& [code, text] : doubtful) {
        const auto trial = tried(text);
        const Finding* finding = firstOf(*trial, code);
        ASSERT_NE(finding, nullptr) << code << ": " << shop::found(*trial);
        EXPECT_FALSE(quickFix(*trial, *finding)) << code << ": " << text;
    }
}

}  // namespace
}  // namespace firstoff
