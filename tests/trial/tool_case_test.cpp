// Runs every case of tests/cases/tools: a program, and a set-up file with the bar and the tools it names, read through
// the set-up's own keys. `(expect finding CODE [NAME VALUE within TOLERANCE])` stands on the line the finding is about,
// `note` instead of `finding` where it leaves the verdict alone. Of the codes that these cases are about nothing else
// may be found; what else the program gives away is looked at elsewhere.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

const std::string kFolder = "tests/cases/tools/";

const std::set<std::string> kCodes = {
    "blade-cuts-sideways",       "blade-rubs-groove-wall",   "bore-too-small-for-bar",  "cut-deeper-than-edge",
    "drill-beside-axis",         "drill-deeper-than-flutes", "drill-off-centre-height", "edge-off-centre-height",
    "face-groove-diameter",      "groove-step-above-width",  "flank-rubs-in-bore",      "hole-not-reamed",
    "insert-back-into-material", "insert-cuts-behind-nose",  "reamer-into-solid",       "reamer-takes-too-much",
    "thread-crest-not-topped",   "trailing-edge-rubs",       "rapid-into-material",     "thread-crest-topped-too-much"};

struct Expected {
    std::uint32_t line = 0;
    bool note = false;
    std::string code;
    std::string name;  // of a figure, empty where none is expected
    double value = 0, within = 0;
    bool met = false;
};

std::vector<std::string> listed() {
    std::istringstream list(shop::readFile(kFolder + "list.txt"));
    std::vector<std::string> names;
    for (std::string name; list >> name;) names.push_back(name);
    return names;
}

struct ToolCase {
    std::string program;
    std::string tools;
    std::vector<Expected> expected;
};

ToolCase readToolCase(const std::string& name) {
    ToolCase result;
    result.program = shop::readFile(kFolder + name + ".nc");
    std::istringstream lines(result.program);
    std::uint32_t number = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        const std::size_t open = line.rfind('(');
        if (open == std::string::npos) continue;
        std::istringstream words(line.substr(open + 1, line.rfind(')') - open - 1));
        std::string verb, what, within;
        words >> verb >> what;
        if (verb == "tools") result.tools = what;
        if (verb != "expect") continue;
        Expected expected{number, what == "note", {}, {}, 0, 0, false};
        words >> expected.code >> expected.name >> expected.value >> within >> expected.within;
        result.expected.push_back(expected);
    }
    return result;
}

std::string met(Expected& expected, const Finding& finding) {
    expected.met = true;
    if (expected.note != (finding.severity == Severity::Note)) return "has another severity";
    if (expected.name.empty()) return "";
    for (const auto& [name, value] : finding.values) {
        if (name != expected.name) continue;
        const bool near = std::abs(value - expected.value) <= expected.within;
        return near ? "" : fmt::format("says {} {}, not {}", name, value, expected.value);
    }
    return "has no figure " + expected.name;
}

std::string failuresOf(const std::string& name) {
    ToolCase file = readToolCase(name);
    const std::string setupText =
        shop::readFile(kFolder + "lathe.toml") + shop::readFile(kFolder + file.tools + ".toml");
    auto setup = readSetup(setupText, file.tools);
    std::string failures;
    for (const Finding& f : setup.findings) failures += fmt::format("\nset-up line {}: {}", f.span.line, f.message);
    const auto trial = shop::run(file.program, std::move(setup));
    for (const Finding& f : trial->findings) {
        if (!kCodes.contains(f.code)) continue;
        const auto of = std::find_if(file.expected.begin(), file.expected.end(), [&](const Expected& e) {
            return !e.met && e.line == f.span.line && e.code == f.code;
        });
        const std::string wrong = of == file.expected.end() ? "is not expected" : met(*of, f);
        if (!wrong.empty()) failures += fmt::format("\nline {}: {} {}: {}", f.span.line, f.code, wrong, f.message);
    }
    for (const Expected& e : file.expected) {
        if (!e.met) failures += fmt::format("\nline {}: no {}; found {}", e.line, e.code, shop::found(*trial));
    }
    return failures;
}

const std::vector<std::string> kCases = listed();

class ToolCases : public testing::TestWithParam<std::string> {};

TEST_P(ToolCases, Holds) {
    EXPECT_EQ(failuresOf(GetParam()), "");
}

INSTANTIATE_TEST_SUITE_P(Files, ToolCases, testing::ValuesIn(kCases), [](const auto& row) {
    std::string name = row.param;
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
});

TEST(ToolCaseFolder, HasNoFileThatIsNotListed) {
    EXPECT_GE(kCases.size(), 30u);
    for (const auto& entry : std::filesystem::directory_iterator(FIRSTOFF_SOURCE_DIR "/" + kFolder)) {
        if (entry.path().extension() != ".nc") continue;
        const std::string name = entry.path().stem().string();
        EXPECT_NE(std::find(kCases.begin(), kCases.end(), name), kCases.end()) << name;
    }
}

}  // namespace
}  // namespace firstoff
