#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <clocale>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "sim/output/json_report.h"
#include "sim/output/table_figures.h"
#include "sim/output/text_report.h"
#include "sim/output/whole_file.h"
#include "tests/support/work_folder.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

TEST(Figures, AreShortAndExactToAMillionth) {
    EXPECT_EQ(tableFigure(0), "0");
    EXPECT_EQ(tableFigure(-0.0), "0");
    EXPECT_EQ(tableFigure(-1e-9), "0");
    EXPECT_EQ(tableFigure(20), "20");
    EXPECT_EQ(tableFigure(100), "100");
    EXPECT_EQ(tableFigure(-1.6), "-1.6");
    EXPECT_EQ(tableFigure(0.000001), "0.000001");
    EXPECT_EQ(tableFigure(12.3456789), "12.345679");
}

TEST(Figures, KeepTheirPointWhateverTheLocale) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    std::setlocale(LC_ALL, "de_DE.UTF-8");  // without effect where that locale is not installed
    EXPECT_EQ(tableFigure(1.5), "1.5");
    std::setlocale(LC_ALL, before.c_str());
}

TEST(Figures, DurationsReadAsTheyAreSpoken) {
    EXPECT_EQ(durationInWords(48.24), "48.2 s");
    EXPECT_EQ(durationInWords(59.97), "1 min 00.0 s");
    EXPECT_EQ(durationInWords(192.4), "3 min 12.4 s");
    EXPECT_EQ(durationInWords(3725), "1 h 02 min 05 s");
}

Trial trialWithOneFinding() {
    Trial trial;
    trial.program.name = "spigot.nc";
    trial.program.text = "%\nN10 G00 X30. Z-20.\n";
    trial.setup.name = "spigot.toml";
    Finding finding;
    finding.severity = Severity::Stop;
    finding.code = "rapid-into-material";
    finding.span = {SourceSpan::File::Program, 2, 5, 3};
    finding.timeS = 1.25;
    finding.message = "The rapid goes 2.5 mm deep into the bar.";
    finding.remedy = "Stay clear of the diameter.";
    finding.values = {{"depth_mm", 2.5}, {"z_mm", -20}};
    trial.findings.push_back(finding);
    trial.verdict = Verdict::Problems;
    trial.timeline.cycleTimeS = 75;
    trial.stockVolumeMm3 = 1000;
    return trial;
}

// The contract: these keys in this order come first.
TEST(JsonReport, HoldsTheKeysOfTheContractInTheirOrder) {
    const Trial trial = trialWithOneFinding();
    const std::string json = jsonReport({&trial});
    std::size_t at = 0;
    for (const char* key : {"\"format\": \"firstoff-report\"",
                            "\"version\": 1",
                            "\"program\": \"spigot.nc\"",
                            "\"setup\": \"spigot.toml\"",
                            "\"verdict\": \"problems\"",
                            "\"cycle_time_s\": 75.0",
                            "\"cutting_time_s\": 0.0",
                            "\"stock_volume_mm3\": 1000.0",
                            "\"removed_volume_mm3\": 0.0",
                            "\"moves\": 0",
                            "\"findings\": [",
                            "\"severity\": \"stop\"",
                            "\"code\": \"rapid-into-material\"",
                            "\"line\": 2",
                            "\"column\": 5",
                            "\"time_s\": 1.25",
                            "\"message\": \"The rapid",
                            "\"values\": {",
                            "\"depth_mm\": 2.5",
                            "\"z_mm\": -20.0"}) {
        const std::size_t found = json.find(key, at);
        ASSERT_NE(found, std::string::npos) << key << " missing or out of order in\n" << json;
        at = found;
    }
}

TEST(JsonReport, OfSeveralProgramsIsAnArray) {
    const Trial trial = trialWithOneFinding();
    EXPECT_EQ(jsonReport({&trial, &trial}).front(), '[');
    EXPECT_EQ(jsonReport({&trial}).front(), '{');
}

TEST(JsonReport, BytesThatAreNoTextDoNotStopIt) {
    Trial trial = trialWithOneFinding();
    trial.program.name = "b\xff.nc";
    EXPECT_THAT(jsonReport({&trial}), HasSubstr(".nc\""));
}

TEST(TextReport, QuotesTheLineAndPointsAtTheWord) {
    const std::string text = textReport(trialWithOneFinding(), "");
    EXPECT_THAT(text, HasSubstr("PROBLEMS"));
    EXPECT_THAT(text, HasSubstr("line 2 column 5"));
    EXPECT_THAT(text, HasSubstr("      N10 G00 X30. Z-20.\n          ^~~\n"));
    EXPECT_THAT(text, HasSubstr("Do: Stay clear"));
}

TEST(TextReport, NeverGoesWithoutTheCaution) {
    Trial trial;
    trial.verdict = Verdict::Clear;
    const std::string text = textReport(trial, "");
    EXPECT_THAT(text, HasSubstr("does not replace a dry run, single block and a hand on the feed hold"));
    EXPECT_THAT(text, HasSubstr("authorised people"));
}

TEST(Reports, SayWhatWasNotCheckedBesideTheVerdict) {
    Trial trial = trialWithOneFinding();
    EXPECT_THAT(jsonReport({&trial}), HasSubstr("\"not_checked\": []"));
    EXPECT_EQ(textReport(trial, "").find("Not checked"), std::string::npos);
    trial.notChecked = {"The holder of station 2.", "The neighbours on the turret."};
    EXPECT_THAT(jsonReport({&trial}), HasSubstr("\"not_checked\": [\n    \"The holder of station 2.\",\n"));
    const std::string text = textReport(trial, "");
    const std::size_t list =
        text.find("  Not checked:\n  - The holder of station 2.\n  - The neighbours on the turret.\n");
    ASSERT_NE(list, std::string::npos) << text;
    EXPECT_LT(list, text.find("does not replace a dry run"));
}

TEST(TextReport, DoesNotSayThatNothingWasFoundAboveANote) {
    Trial trial = trialWithOneFinding();
    trial.findings[0].severity = Severity::Note;
    trial.verdict = Verdict::Clear;
    EXPECT_THAT(textReport(trial, ""), HasSubstr("nothing was found but what is noted"));
    trial.findings.clear();
    EXPECT_THAT(textReport(trial, ""), HasSubstr("and nothing was found."));
}

TEST(TextReport, QuotesTheSetUpForFindingsInTheSetUp) {
    Trial trial = trialWithOneFinding();
    trial.findings[0].span = {SourceSpan::File::Setup, 1, 8, 2};
    EXPECT_THAT(textReport(trial, "jaws = 99\n"), HasSubstr("      jaws = 99\n             ^~\n"));
}

TEST(TextReport, LetsNoControlByteReachTheTerminal) {
    Trial trial = trialWithOneFinding();
    trial.program.text =
        "%\nN10 \x1b[2J\x07\xc2\x9b\xff X30. (S\xc3\xbc"
        "d)\n";
    const std::string text = textReport(trial, "");
    EXPECT_THAT(text, HasSubstr("N10 ?[2J??? X30. (S\xc3\xbc"
                                "d)"));
    EXPECT_EQ(text.find('\x1b'), std::string::npos);
    EXPECT_EQ(text.find('\x07'), std::string::npos);
}

TEST(TextReport, ALineTooLongToShowIsCutAroundThePlace) {
    Trial trial = trialWithOneFinding();
    trial.program.text = "%\n" + std::string(5000, 'A') + "X1" + std::string(5000, 'B') + "\n";
    trial.findings[0].span = {SourceSpan::File::Program, 2, 5001, 2};
    const std::string text = textReport(trial, "");
    EXPECT_THAT(text, HasSubstr("AX1B"));
    EXPECT_LT(text.size(), 2000u);
}

class WholeFile : public testing::Test {
protected:
    std::size_t filesThere() const {
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder_), {}));
    }
    const shop::WorkFolder folder_;  // every test its own: ctest runs them beside each other
};

TEST_F(WholeFile, IsWrittenAndLeavesNoTemporary) {
    writeWholeFile(folder_ / "a.csv", "first");
    writeWholeFile(folder_ / "a.csv", "second");
    EXPECT_EQ(readWholeFile(folder_ / "a.csv"), "second");
    EXPECT_EQ(filesThere(), 1u);
}

TEST_F(WholeFile, ThatCannotBeWrittenLeavesNothing) {
    EXPECT_THROW(writeWholeFile(folder_ / "none" / "a.csv", "text"), std::runtime_error);
    EXPECT_THROW(writeWholeFile(folder_, "text"), std::runtime_error);
    EXPECT_EQ(filesThere(), 0u);
}

TEST_F(WholeFile, ThatCannotBeReadSaysWhy) {
    const auto reason = [](const std::filesystem::path& path) -> std::string {
        try {
            readWholeFile(path);
        } catch (const std::runtime_error& error) {
            return error.what();
        }
        return "";
    };
    EXPECT_THAT(reason(folder_ / "none.nc"), HasSubstr("no such file"));
    EXPECT_THAT(reason(folder_), HasSubstr("folder"));
    std::ofstream(folder_ / "empty.nc").flush();
    EXPECT_THAT(reason(folder_ / "empty.nc"), HasSubstr("empty"));
}

}  // namespace
}  // namespace firstoff
