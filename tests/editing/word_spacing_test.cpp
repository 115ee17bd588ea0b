#include "sim/editing/word_spacing.h"

#include <gtest/gtest.h>

namespace firstoff {
namespace {

std::string spaced(const std::string& text, WordSpacing spacing) {
    return changedText(text, spaceWords(readProgram(text, "test"), spacing));
}

TEST(WordSpacing, PutsOneBlankBetweenWordsOrNone) {
    struct Row {
        const char* text;
        const char* oneBlank;
        const char* none;
    };
    const Row rows[] = {
        {"N10G01X20.Z-5.F.2", "N10 G01 X20. Z-5. F.2", "N10G01X20.Z-5.F.2"},
        {"N10   G01\tX20.", "N10 G01 X20.", "N10G01X20."},
        {"  G01  X20. ", "  G01 X20.", "G01X20."},
        {"G01 X - 5. ,R 2.", "G01 X-5. ,R2.", "G01X-5.,R2."},       // blanks inside words mean nothing
        {"/1 N10  G00", "/1 N10 G00", "/1 N10G00"},                 // the skip is left
        {"G00  (A  B)  X1", "G00  (A  B)  X1", "G00  (A  B)  X1"},  // remarks and what is beside them as well
        {"G00X1  (A  B)", "G00 X1  (A  B)", "G00X1  (A  B)"},       //
        {"#1 = 2  (A)", "#1 = 2  (A)", "#1 = 2  (A)"},              // statements
        {"N5  IF [#1 EQ 2]  GOTO 10", "N5  IF [#1 EQ 2]  GOTO 10", "N5  IF [#1 EQ 2]  GOTO 10"},
        {"G01  X[#1 + 2]  Z1.", "G01 X[#1 + 2] Z1.", "G01X[#1 + 2]Z1."},
        {"G01  X  Z1.", "G01  X  Z1.", "G01  X  Z1."},  // a letter without number: nothing is drawn together
        {"%", "%", "%"},
        {"", "", ""},
    };
    for (const Row& row : rows) {
        EXPECT_EQ(spaced(row.text, WordSpacing::OneBlank), row.oneBlank);
        EXPECT_EQ(spaced(row.text, WordSpacing::None), row.none);
    }
    EXPECT_EQ(spaced("G00X1\r\nM30\r\n", WordSpacing::OneBlank), "G00 X1\r\nM30\r\n");
}

}  // namespace
}  // namespace firstoff
