// The reference: whole, searchable, and with examples that the control takes without a word.
#include "sim/plain_words/code_reference.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "sim/control/toolpath.h"
#include "sim/plain_words/reference_text.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::StartsWith;

class Reference : public testing::TestWithParam<CodeSystem> {
protected:
    const CodeReference reference_ = codeReference(GetParam());
};

// The tools that the examples name: turning, grooving, threading, boring, drilling, tapping.
Setup examplesLathe(CodeSystem system) {
    Setup setup = shop::barStock(60, 100, 0);
    setup.control.codeSystem = system;
    shop::addTurningTool(setup, 1, 'C', 0.8);
    shop::addGroovingTool(setup, 2, 3, 0.2);
    shop::addThreadingTool(setup, 3);
    shop::addBoringBar(setup, 4, 'C', 0.4);
    shop::addDrill(setup, 5, 8.5);
    shop::addTap(setup, 6, 10, 1.5);
    return setup;
}

TEST_P(Reference, HasEveryCodeOfTheTableOnce) {
    std::multiset<std::string> rows;
    for (const ReferenceRow& row : reference_.rows) rows.insert(row.code);
    for (const CodeEntry& entry : codeTable()) {
        const int tenths = entry.number[static_cast<std::size_t>(GetParam())];
        if (tenths < 0) continue;
        std::string code(1, entry.letter);
        if (tenths < 100) code += '0';
        code += std::to_string(tenths / 10);
        if (tenths % 10 != 0) code += '.' + std::to_string(tenths % 10);
        EXPECT_EQ(rows.count(code), 1u) << code;
        const ReferenceRow* row = referenceRow(reference_, code);
        ASSERT_NE(row, nullptr) << code;
        EXPECT_EQ(row->order, entry.order);
        EXPECT_EQ(row->meaning, entry.meaning);
        EXPECT_EQ(row->carriedOut, entry.group != CodeGroup::Unknown);
    }
}

TEST_P(Reference, HasEveryMeaningOfAWord) {
    for (const WordRole& role : wordRoles()) {
        const auto told = std::find_if(reference_.rows.begin(), reference_.rows.end(), [&](const ReferenceRow& row) {
            return row.order == role.order && std::any_of(row.words.begin(), row.words.end(), [&](const auto& word) {
                       return word.letter[0] == role.letter && word.block == role.block && word.meaning == role.meaning;
                   });
        });
        EXPECT_NE(told, reference_.rows.end()) << role.letter << ' ' << role.meaning;
    }
}

TEST_P(Reference, TellsEachLetterOnceUnderACode) {
    for (const ReferenceRow& row : reference_.rows) {
        std::set<std::pair<CycleBlock, std::string>> seen;
        for (const ReferenceWord& word : row.words) {
            EXPECT_TRUE(seen.emplace(word.block, word.letter).second) << row.code << ' ' << word.letter;
        }
    }
}

TEST_P(Reference, HasExamplesThatTheControlTakesWithoutAWord) {
    int examples = 0;
    for (const ReferenceRow& row : reference_.rows) {
        if (row.example.empty()) continue;
        ++examples;
        EXPECT_THAT(row.program, HasSubstr(row.example));
        EXPECT_THAT(row.example, HasSubstr(row.code));
        const Program program = readProgram(row.program, "example");
        EXPECT_THAT(program.findings, testing::IsEmpty()) << row.program;
        const Toolpath path = interpret(program, examplesLathe(GetParam()));
        for (const Finding& finding : path.findings) {
            ADD_FAILURE() << row.code << ": " << finding.message << "\n" << row.program;
        }
        EXPECT_GT(path.moves.size(), 1u) << row.program;
    }
    EXPECT_GT(examples, 40);
}

TEST_P(Reference, PutsTheCodeItselfFirst) {
    for (const ReferenceRow& row : reference_.rows) {
        if (row.code.find(' ') != std::string::npos) continue;  // several words, which any row may have
        const auto found = searchReference(reference_, row.code);
        ASSERT_FALSE(found.empty()) << row.code;
        EXPECT_EQ(&reference_.rows[found.front()], &row) << row.code;
    }
}

INSTANTIATE_TEST_SUITE_P(Systems, Reference, testing::Values(CodeSystem::A, CodeSystem::B, CodeSystem::C),
                         [](const auto& row) { return std::string(1, "ABC"[static_cast<int>(row.param)]); });

std::vector<std::string> found(const std::string& words) {
    static const CodeReference reference = codeReference(CodeSystem::A);
    std::vector<std::string> codes;
    for (const std::size_t row : searchReference(reference, words)) codes.push_back(reference.rows[row].code);
    return codes;
}

TEST(ReferenceSearch, WantsEveryWordInAnyCase) {
    EXPECT_EQ(found("G76").front(), "G76");
    EXPECT_EQ(found("  g1 ").front(), "G01");
    EXPECT_EQ(found("m3").front(), "M03");
    EXPECT_THAT(found("THREAD"), testing::IsSupersetOf({"G32", "G34", "G92", "G76"}));
    EXPECT_THAT(found("thread"), testing::Not(testing::Contains("G00")));
    EXPECT_THAT(found("depth of cut"), ElementsAre("G71", "G72"));
    EXPECT_THAT(found("thread variable"), testing::IsEmpty());
    EXPECT_THAT(found("thread taper"), testing::IsSupersetOf({"G92", "G76"}));
    EXPECT_THAT(found("G41"), ElementsAre("G41", "G40"));  // and what puts an end to it
}

TEST(ReferenceSearch, FindsNothingForNonsenseAndAllWithoutWords) {
    EXPECT_THAT(found("xyzzy"), testing::IsEmpty());
    EXPECT_THAT(found("G71 xyzzy"), testing::IsEmpty());
    EXPECT_EQ(found("").size(), codeReference(CodeSystem::A).rows.size());
    EXPECT_EQ(found(" \t").front(), "G00");
}

struct Hold {
    CodeSystem system;
    const char* code;
    const char* holds;
    const char* ends;
};

TEST(ReferenceModes, SayWhatTakesTheirPlace) {
    const Hold kRows[] = {
        {CodeSystem::A, "G98", "In force until G99.", ""},
        {CodeSystem::B, "G94", "In force until G95.", ""},
        {CodeSystem::B, "G98", "In force until G99.", ""},
        {CodeSystem::C, "G70", "In force until G71.", ""},
        {CodeSystem::A, "G42", "In force until G40 or G41.", ""},
        {CodeSystem::A, "G40", "In force until G41 or G42.", "Ends G41 or G42."},
        {CodeSystem::A, "G71", "In its own block only.", ""},
        {CodeSystem::A, "G09", "In its own block only.", ""},
        {CodeSystem::A, "G64", "In force until G61.", ""},
        {CodeSystem::A, "G12.1", "In force until G13.1.", ""},
        {CodeSystem::A, "G66", "In force until G67.", ""},
        {CodeSystem::A, "G18", "Always in force here.", ""},
        {CodeSystem::A, "M05", "In force until M03 or M04.", "Ends M03 or M04."},
        {CodeSystem::A, "M30", "", ""},
    };
    for (const Hold& row : kRows) {
        const CodeReference reference = codeReference(row.system);
        const ReferenceRow* found = referenceRow(reference, row.code);
        ASSERT_NE(found, nullptr) << row.code;
        EXPECT_EQ(found->holds, row.holds) << row.code;
        EXPECT_EQ(found->ends, row.ends) << row.code;
    }
}

TEST(ReferenceText, ShowsBothBlocksOfACycleApart) {
    const std::string text = referenceText(codeReference(CodeSystem::A), "g71");
    EXPECT_THAT(text, StartsWith("G71 "));
    const std::size_t first = text.find("first block:"), second = text.find("second block:");
    ASSERT_NE(first, std::string::npos);
    ASSERT_NE(second, std::string::npos);
    EXPECT_THAT(text.substr(first, second - first), HasSubstr("depth of cut of each pass, on radius (mm or inch)"));
    EXPECT_THAT(text.substr(second), HasSubstr("left on for finishing, along Z (mm or inch)"));
    EXPECT_THAT(text.substr(second), HasSubstr("G71 P100 Q120 U0.4 W0.1 F0.25"));
}

TEST(ReferenceText, HasHeadingsForThePartsAndSaysWhereNothingIsFound) {
    const CodeReference reference = codeReference(CodeSystem::B);
    const std::string all = referenceText(reference, "");
    for (const ReferencePart part : kReferenceParts) EXPECT_THAT(all, HasSubstr(referencePartName(part) + "\n\n"));
    EXPECT_EQ(referenceText(reference, "xyzzy"), "Nothing in the reference has all of these words: xyzzy\n");
}

}  // namespace
}  // namespace firstoff
