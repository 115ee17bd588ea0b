// What `firstoff check --json` writes against its schema, assets/schemas/firstoff-report.json, by a validator of
// others.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>

#include "tests/cli/command_run.h"

namespace firstoff {
namespace {

using testing::HasSubstr;

const std::string kSource = FIRSTOFF_SOURCE_DIR;

// What is wrong with a report; empty: nothing.
std::string complaints(const std::string& report) {
    const std::string command = std::string(FIRSTOFF_PYTHON " '") + kSource + "/tests/output/report_schema.py' '" +
                                kSource + "/assets/schemas/firstoff-report.json' '" + report + "' 2>&1";
    FILE* pipe = popen(command.c_str(), "r");
    EXPECT_NE(pipe, nullptr);
    std::string text;
    std::array<char, 4096> buffer{};
    while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe)) text.append(buffer.data(), got);
    const int status = pclose(pipe);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << text << "\nIs python3-jsonschema installed?";
    return text;
}

TEST(ReportSchema, FitsEveryDemoJob) {
    int jobs = 0;
    for (const auto& entry : std::filesystem::directory_iterator(kSource + "/assets/jobs")) {
        if (entry.path().extension() != ".nc") continue;
        ++jobs;
        const shop::Bench bench;
        shop::firstoff("check '" + entry.path().string() + "' --json '" + bench.path("r.json") + "'");
        EXPECT_EQ(complaints(bench.path("r.json")), "") << entry.path();
    }
    EXPECT_GE(jobs, 8);
}

TEST(ReportSchema, FitsSeveralReportsAndThoseOfFilesThatCannotBeUsed) {
    const shop::Bench bench;
    const std::string good = "'" + kSource + "/assets/jobs/bored-bush.nc'";
    shop::firstoff("check " + good + " " + bench.path("none.nc") + " --setup '" + kSource +
                   "/assets/jobs/bored-bush.toml' --json '" + bench.path("r.json") + "'");
    EXPECT_EQ(complaints(bench.path("r.json")), "");
    shop::firstoff("check " + bench.path("none.nc") + " --setup x.toml --json '" + bench.path("s.json") + "'");
    EXPECT_EQ(complaints(bench.path("s.json")), "");
}

struct Spoilt {
    const char* name;
    const char* from;
    const char* to;
    const char* complaint;
};
class SpoiltReport : public testing::TestWithParam<Spoilt> {};

TEST_P(SpoiltReport, IsRefused) {
    const shop::Bench bench;
    shop::firstoff("check '" + kSource + "/assets/jobs/bored-bush.nc' --json '" + bench.path("r.json") + "'");
    std::string report = bench.contents("r.json");
    const std::size_t at = report.find(GetParam().from);
    ASSERT_NE(at, std::string::npos);
    report.replace(at, std::string(GetParam().from).size(), GetParam().to);
    EXPECT_THAT(complaints(bench.put("spoilt.json", report)), HasSubstr(GetParam().complaint));
}

INSTANTIATE_TEST_SUITE_P(
    Table, SpoiltReport,
    testing::Values(Spoilt{"unknownKey", "\"version\": 1", "\"version\": 1, \"novelty\": 2", "novelty"},
                    Spoilt{"unknownVerdict", "\"verdict\": \"clear\"", "\"verdict\": \"fine\"", "fine"},
                    Spoilt{"missingKey", "\"moves\"", "\"movements\"", "moves"},
                    Spoilt{"textForAFigure",
                           "\"cycle_time_s\": ", "\"cycle_time_s\": \"x\", \"cycle\": ", "cycle_time_s"}),
    [](const auto& row) { return std::string(row.param.name); });

}  // namespace
}  // namespace firstoff
