// Runs every case of tests/cases. The files are listed in list.txt, so that one that is lost fails loudly, and so does
// one that nobody listed.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/control/case_file.h"

namespace firstoff {
namespace {

const std::string kFolder = "tests/cases/";

const std::vector<std::string> kCases = cases::listed();

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
        if (entry.path().extension() != ".nc") continue;
        const std::string name = entry.path().stem().string();
        EXPECT_NE(std::find(kCases.begin(), kCases.end(), name), kCases.end()) << name;
    }
}

}  // namespace
}  // namespace firstoff
