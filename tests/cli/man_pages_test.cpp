// The man pages have every option that the programs print, command by command, and no other.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>

#include "tests/cli/command_run.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

// The page as it reads: hyphens as they are typed.
std::string page(const std::string& name) {
    std::string text = shop::readFile("assets/man/" + name);
    for (std::size_t at = text.find("\\-"); at != std::string::npos; at = text.find("\\-", at)) text.erase(at, 1);
    return text;
}

// Options that stand in the text as words of their own.
std::set<std::string> options(const std::string& text) {
    static const std::regex option("--[a-z][a-z-]*");
    std::set<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), option), end; at != end; ++at) found.insert(at->str());
    return found;
}

// Those that an entry of a page is about, which stand in its first line in bold.
std::set<std::string> entries(const std::string& section) {
    std::set<std::string> found;
    std::istringstream lines(section);
    std::string line;
    bool tag = false;
    while (std::getline(lines, line)) {
        if (tag) found.merge(options(line));
        tag = line == ".TP";
    }
    return found;
}

std::map<std::string, std::string> sectionsByCommand(const std::string& text) {
    std::map<std::string, std::string> sections;
    std::istringstream lines(text);
    std::string line, command;
    while (std::getline(lines, line)) {
        if (line.rfind(".SS ", 0) == 0) command = line.substr(4);
        if (line.rfind(".SH ", 0) == 0) command.clear();
        if (!command.empty()) sections[command] += line + "\n";
    }
    return sections;
}

// "  check      try programs …": the commands that the help lists.
std::set<std::string> commandsOfHelp() {
    std::set<std::string> commands;
    std::istringstream lines(shop::firstoff("--help").out);
    std::string line;
    bool within = false;
    while (std::getline(lines, line)) {
        if (line == "Subcommands:") {
            within = true;
        } else if (line.empty()) {
            within = false;
        } else if (within && line.size() > 2 && line[2] != ' ') {
            commands.insert(line.substr(2, line.find(' ', 2) - 2));
        }
    }
    return commands;
}

TEST(ManPages, HaveEveryCommandWithItsOptions) {
    const auto sections = sectionsByCommand(page("firstoff.1"));
    std::set<std::string> told;
    for (const auto& [command, text] : sections) told.insert(command);
    EXPECT_EQ(told, commandsOfHelp());
    EXPECT_GT(told.size(), 10u);
    for (const auto& [command, text] : sections) {
        std::set<std::string> printed = options(shop::firstoff(command + " --help").out);
        printed.erase("--help");  // told once, for all of them
        EXPECT_EQ(entries(text), printed) << command;
    }
}

TEST(ManPages, HaveEveryOptionBeforeTheCommand) {
    const std::string text = page("firstoff.1");
    const std::size_t from = text.find(".SH OPTIONS"), to = text.find(".SH COMMANDS");
    ASSERT_LT(from, to);
    std::string help = shop::firstoff("--help").out;
    help.resize(help.find("Subcommands:"));
    EXPECT_EQ(entries(text.substr(from, to - from)), options(help));
}

TEST(ManPages, HaveEveryOptionOfTheWindow) {
    // Its help stands in one text in the sources, which the window itself prints.
    const std::string source = shop::readFile("gui/startup.cpp");
    const std::size_t from = source.find("R\"(firstoff-window"), to = source.find(")\"", from);
    ASSERT_NE(from, std::string::npos);
    std::set<std::string> printed = options(source.substr(from, to - from));
    std::set<std::string> told = entries(page("firstoff-window.1"));
    EXPECT_EQ(told.erase("--help"), 1u);
    printed.erase("--help");
    EXPECT_EQ(told, printed);
}

// A page with faults of markup is shown with holes in it; what roff asks for at the start must be there.
TEST(ManPages, BeginAsPagesDo) {
    for (const char* name : {"firstoff.1", "firstoff-window.1"}) {
        const std::string text = page(name);
        EXPECT_THAT(text, testing::HasSubstr("\n.TH FIRSTOFF")) << name;
        for (const char* part : {".SH NAME\nfirstoff", ".SH SYNOPSIS\n", ".SH DESCRIPTION\n", ".SH CAUTION\n"}) {
            EXPECT_THAT(text, testing::HasSubstr(part)) << name;
        }
        EXPECT_EQ(std::count(text.begin(), text.end(), '\t'), 0);
    }
}

}  // namespace
}  // namespace firstoff
