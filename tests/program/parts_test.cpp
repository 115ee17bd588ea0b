// Programs in several files: lines and findings keep to their own file.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <stdexcept>
#include <string>

#include "sim/program/called_files.h"
#include "sim/program/program.h"

namespace firstoff {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

TEST(AppendProgram, KeepsTheLinesOfEachFile) {
    Program program = readProgram("O1\nM98 P2\nM30\n", "main.nc");
    appendProgram(program, "O2\nG00 X5.\nM99\n", "O2.nc", 2);
    ASSERT_EQ(program.blocks.size(), 6u);
    EXPECT_EQ(program.lineOf(2), 3u);
    EXPECT_EQ(program.lineOf(3), 1u);
    EXPECT_EQ(program.partOf(2), 0);
    EXPECT_EQ(program.partOf(3), 1);
    EXPECT_EQ(program.lineName(1), "line 2");
    EXPECT_EQ(program.lineName(4), "line 2 of O2.nc");
    EXPECT_EQ(program.endBlockOf(0), 3u);
    EXPECT_EQ(program.blockAt(1, 3), 5u);
    EXPECT_EQ(program.blockAt(0, 4), kNoBlock) << "not a line of the other file";
    EXPECT_EQ(program.textOf(program.begin(program.blocks[4])[1]), "X5.");
    EXPECT_EQ(program.textOfPart(1), "O2\nG00 X5.\nM99\n");
    EXPECT_TRUE(program.isOwn(2));
    EXPECT_FALSE(program.isOwn(3));
}

TEST(AppendProgram, MarksItsFindings) {
    Program program = readProgram("G00 X!\nM30\n", "main.nc");
    appendProgram(program, "G00 X1.\nG00 Y?\n", "O2.nc", 2);
    appendProgram(program, std::string("\0", 1), "O3.nc", 3);
    ASSERT_EQ(program.findings.size(), 3u);
    EXPECT_EQ(program.findings[0].span.part, 0);
    EXPECT_EQ(program.findings[1].span.part, 1);
    EXPECT_EQ(program.findings[1].span.line, 2u);
    EXPECT_EQ(program.findings[2].span.part, 2);
    EXPECT_EQ(program.findings[2].code, "not-a-text-file");
}

TEST(AppendProgram, EndsTheReadingOfEachFileAtItsOwnPercent) {
    Program program = readProgram("%\nO1\nM30\n%\n?\n", "main.nc");
    appendProgram(program, "%\nO2\n?\nM99\n%\n?\n", "O2.nc", 2);
    ASSERT_EQ(program.findings.size(), 3u);
    EXPECT_EQ(program.findings[0].severity, Severity::Note);
    EXPECT_EQ(program.findings[1].severity, Severity::Stop);
    EXPECT_EQ(program.findings[2].severity, Severity::Note);
}

struct NameRow {
    const char* name;
    int number;  // -1: none
};

class FileName : public testing::TestWithParam<NameRow> {};

TEST_P(FileName, MayStandForANumber) {
    EXPECT_EQ(programNumberOfFile(GetParam().name).value_or(-1), GetParam().number) << GetParam().name;
}

INSTANTIATE_TEST_SUITE_P(Names, FileName,
                         testing::Values(NameRow{"O1234", 1234}, NameRow{"1234", 1234}, NameRow{"o0012.NC", 12},
                                         NameRow{"O7.txt", 7}, NameRow{"7.tap", 7}, NameRow{"O7.Cnc", 7},
                                         NameRow{"O7.ngc", 7}, NameRow{"O7.toml", -1}, NameRow{"O7.nc.bak", -1},
                                         NameRow{"O.nc", -1}, NameRow{"OO7.nc", -1}, NameRow{"shaft.nc", -1},
                                         NameRow{"O7a.nc", -1}, NameRow{"O123456789.nc", -1}, NameRow{"", -1},
                                         NameRow{"O7.", -1}));

// A folder by hand.
class Folder : public testing::Test {
protected:
    std::map<std::string, std::string> files;
    std::vector<std::string> asked;

    Program read(const std::string& text) {
        Program program = readProgram(text, "main.nc");
        std::vector<std::string> names;
        for (const auto& [name, contents] : files) names.push_back(name);
        appendCalledFiles(program, names, [&](const std::string& name) {
            asked.push_back(name);
            if (files[name] == "!") throw std::runtime_error(name + " cannot be read");
            return files[name];
        });
        return program;
    }
};

TEST_F(Folder, GivesWhatIsCalledAndNoMore) {
    files = {{"O10.nc", "O10\nM99\n"}, {"O11.nc", "O11\nM99\n"}, {"20.txt", "M99\n"}, {"O30", "O30\nM99\n"}};
    const Program program = read("O1\nM98 P10\nG65 P20 X1.\nM98 P0030030\nM30\n");
    EXPECT_THAT(asked, ElementsAre("O10.nc", "20.txt", "O30"));
    EXPECT_EQ(program.parts.size(), 4u);
    EXPECT_THAT(program.findings, IsEmpty());
}

TEST_F(Folder, GivesWhatTheCalledOnesCall) {
    files = {{"O10.nc", "O10\nM98 P20\nM98 P1\nM99\n"}, {"O20.nc", "O20\nM98 P10\nM99\n"}, {"O1.nc", "O1\nM30\n"}};
    read("O1\nM98 P10\nM30\n");
    EXPECT_THAT(asked, ElementsAre("O10.nc", "O20.nc")) << "each once, and none that the program holds itself";
}

TEST_F(Folder, GivesAllWhereTheNumberIsCalculated) {
    files = {{"O10.nc", "O10\nM99\n"}, {"O20.nc", "O20\nM99\n"}, {"shaft.nc", "O30\nM30\n"}};
    read("O1\n#1=10\nG65 P#1\nM30\n");
    EXPECT_THAT(asked, ElementsAre("O10.nc", "O20.nc"));
}

TEST_F(Folder, IsNotLookedThroughWithoutCalls) {
    EXPECT_FALSE(callsPrograms(readProgram("O1\nG00 X1.\nM99\nM30\n", "main.nc")));
    EXPECT_TRUE(callsPrograms(readProgram("O1\nM98 P2\n", "main.nc")));
}

TEST_F(Folder, MayHoldTwoFilesForOneNumber) {
    files = {{"O10.nc", "O10\nM99\n"}, {"O10.txt", "O10\nM99\n"}};
    const Program program = read("O1\nM98 P10\nM30\n");
    EXPECT_THAT(asked, ElementsAre("O10.nc"));
    ASSERT_EQ(program.findings.size(), 1u);
    EXPECT_EQ(program.findings[0].code, "several-files-for-program");
    EXPECT_EQ(program.findings[0].span.line, 2u);
    EXPECT_TRUE(program.findings[0].unproven);
}

TEST_F(Folder, MayHoldAFileThatCannotBeRead) {
    files = {{"O10.nc", "!"}};
    const Program program = read("O1\nM98 P10\nM30\n");
    ASSERT_EQ(program.findings.size(), 1u);
    EXPECT_EQ(program.findings[0].code, "file-not-usable");
    EXPECT_EQ(program.parts.size(), 1u);
}

}  // namespace
}  // namespace firstoff
