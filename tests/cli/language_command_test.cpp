// What the command tells in another language: sentences, and nothing that a program reads.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <set>
#include <string>

#include <nlohmann/json.hpp>

#include "sim/base/say.h"
#include "tests/cli/command_run.h"

namespace firstoff {
namespace {

using nlohmann::json;
using shop::CommandRun;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const std::string kTrap = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/trap.nc";

// Values that people read. "body" and "other" are bodies of the machine by the words that messages call them.
const std::set<std::string> kForPeople = {"message",     "remedy",       "why",         "assumed", "missing",
                                          "taken",       "caution",      "source",      "body",    "other",
                                          "not_checked", "not_modelled", "not_reckoned"};

// Of the same kind, the same keys, and the same values except where people read.
void expectAlike(const json& english, const json& german, const std::string& path, bool forPeople, int& told) {
    ASSERT_EQ(english.type(), german.type()) << path;
    if (english.is_object()) {
        for (const auto& [key, value] : english.items()) {
            ASSERT_TRUE(german.contains(key)) << path << '/' << key;
            expectAlike(value, german.at(key), path + '/' + key, kForPeople.contains(key), told);
        }
    }
    if (english.is_structured()) {
        ASSERT_EQ(english.size(), german.size()) << path;
    }
    if (english.is_array()) {
        for (std::size_t i = 0; i < english.size(); ++i) {
            expectAlike(english[i], german[i], path + '/' + std::to_string(i), forPeople, told);
        }
    }
    if (english.is_structured()) return;
    if (english.is_string() && forPeople) {
        told += english != german;
        EXPECT_EQ(english.get<std::string>().empty(), german.get<std::string>().empty()) << path;
    } else {
        EXPECT_EQ(english, german) << path;
    }
}

// Spaces and line ends alike, since reports are wrapped.
std::string unwrapped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        const bool space = std::isspace(static_cast<unsigned char>(c)) != 0;
        if (!space) result += c;
        if (space && !result.empty() && result.back() != ' ') result += ' ';
    }
    return result;
}

std::string inGerman(const char* english) {
    const LanguageForNow german("de");
    return tr(english);
}

TEST(LanguageOfTheCommand, ACheckInGermanTellsGermanSentences) {
    const CommandRun english = shop::firstoff("--language en check " + kTrap);
    const CommandRun german = shop::firstoff("--language de check " + kTrap);
    EXPECT_EQ(english.exitCode, 1) << english.err;
    EXPECT_EQ(german.exitCode, 1) << german.err;
    // One of the verdict, one of a finding's remedy.
    for (const char* text : {"PROBLEMS: as it stands, something would hit, scrap the part or stop the machine",
                             "Approach clear of the bar and make the last stretch a feed move (G01)."}) {
        const std::string translated = inGerman(text);
        EXPECT_NE(translated, text) << "no German for it";
        EXPECT_THAT(unwrapped(english.out), HasSubstr(text));
        EXPECT_THAT(unwrapped(german.out), HasSubstr(translated));
        EXPECT_THAT(unwrapped(german.out), Not(HasSubstr(text)));
    }
    EXPECT_THAT(german.out, HasSubstr("[rapid-into-material]"));  // codes stay
}

TEST(LanguageOfTheCommand, JsonDiffersInNothingButSentences) {
    const json english = json::parse(shop::firstoff("--language en check --json - " + kTrap).out);
    const json german = json::parse(shop::firstoff("--language de check --json - " + kTrap).out);
    int told = 0;
    expectAlike(english, german, "", false, told);
    EXPECT_GT(told, 0);
}

TEST(LanguageOfTheCommand, TablesForSpreadsheetsAreTheSame) {
    for (const char* table : {"moves ", "times --out - ", "gauge --out - ", "loads --out - ", "section "}) {
        const std::string english = shop::firstoff(std::string("--language en ") + table + kTrap).out;
        EXPECT_FALSE(english.empty()) << table;
        EXPECT_EQ(shop::firstoff(std::string("--language de ") + table + kTrap).out, english) << table;
    }
}

TEST(LanguageOfTheCommand, FollowsTheEnvironmentUnlessOneIsAskedFor) {
    const std::string english = shop::firstoff("--help").out;
    const std::string german = shop::firstoff("--language de --help").out;
    ASSERT_NE(english, german);
    const struct {
        const char* environment;
        const char* option;
        bool german;
    } cases[] = {
        {"LC_ALL=de_DE.UTF-8 LANG=en_GB.UTF-8", "", true},
        {"LC_ALL= LC_MESSAGES=de_AT LANG=en_GB.UTF-8", "", true},
        {"LC_ALL= LC_MESSAGES= LANG=de", "", true},
        {"LC_ALL=C LANG=de_DE.UTF-8", "", false},
        {"LC_ALL= LC_MESSAGES=en_GB LANG=de_DE.UTF-8", "", false},
        {"LC_ALL=fr_FR.UTF-8 LANG=de_DE.UTF-8", "", false},
        {"LC_ALL= LC_MESSAGES= LANG=", "", false},
        {"LC_ALL=deutsch", "", false},
        {"LC_ALL=de_DE.UTF-8", "--language en ", false},
        {"LC_ALL=en_GB.UTF-8", "--language=de ", true},
    };
    for (const auto& c : cases) {
        const std::string out = shop::firstoff(std::string(c.option) + "--help", c.environment).out;
        EXPECT_EQ(out, c.german ? german : english) << c.environment << ' ' << c.option;
    }
}

TEST(LanguageOfTheCommand, OneThatThereIsNotIsAUsageErrorThatNamesThoseThereAre) {
    const CommandRun run = shop::firstoff("--language tlh check " + kTrap);
    EXPECT_EQ(run.exitCode, 2);
    EXPECT_TRUE(run.out.empty()) << run.out;
    EXPECT_THAT(run.err, HasSubstr("--language"));
    EXPECT_THAT(run.err, HasSubstr("en"));
    EXPECT_THAT(run.err, HasSubstr("de"));
}

TEST(LanguageOfTheCommand, AMistypedCommandBehindItIsStillToldAsSuch) {
    EXPECT_THAT(shop::firstoff("--language en chek job.nc").err, StartsWith("firstoff: there is no command chek"));
}

}  // namespace
}  // namespace firstoff
