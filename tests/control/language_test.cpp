// assets/language.md says what is understood: it must say all of it, and nothing that is not so.
#include <gtest/gtest.h>

#include <filesystem>
#include <regex>
#include <set>
#include <string>

#include "sim/control/language_table.h"
#include "sim/setup/setup_keys.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

std::string page() {
    return shop::readFile("assets/language.md");
}

bool names(const std::string& text, const std::string& word) {
    return text.find("`" + word + "`") != std::string::npos;
}

TEST(Language, TheTableOfCodesIsTheOneInForce) {
    EXPECT_NE(page().find("\n\n" + languageTable() + "\n"), std::string::npos)
        << "paste what `firstoff codes` prints into assets/language.md";
}

TEST(Language, NamesEverySwitchOfTheControl) {
    const std::string text = page();
    for (const SetupKey& key : setupKeys()) {
        if (key.table != "control") continue;
        EXPECT_TRUE(names(text, std::string(key.key))) << key.key;
    }
}

// Codes as they stand in the sources: words joined by hyphens in quotes.
std::set<std::string> codesInTheSources() {
    // Kinds of move in the table of moves, a word of the set-up reader, and what a dimension is called.
    const std::set<std::string> others = {"arc-cw", "arc-ccw", "setup-m-code-known", "run-out"};
    const std::regex code("\"([a-z]+(?:-[a-z]+)+)\"");
    std::set<std::string> found;
    for (const char* room :
         {"drawing", "program", "control", "motion", "clearance", "cutting", "inspection", "trial"}) {
        for (const auto& file : std::filesystem::directory_iterator(std::string(FIRSTOFF_SOURCE_DIR "/sim/") + room)) {
            if (file.path().extension() != ".cpp" && file.path().extension() != ".h") continue;
            const std::string text = shop::readFile("sim/" + std::string(room) + "/" + file.path().filename().string());
            for (std::sregex_iterator at(text.begin(), text.end(), code), end; at != end; ++at) {
                if (!others.contains((*at)[1])) found.insert((*at)[1]);
            }
        }
    }
    return found;
}

TEST(Language, NamesEveryFindingAndNoOther) {
    const std::string text = page();
    const std::set<std::string> codes = codesInTheSources();
    EXPECT_GT(codes.size(), 200u);
    for (const std::string& code : codes) EXPECT_TRUE(names(text, code)) << code;
    const std::regex row("\\n\\| `([a-z]+(?:-[a-z]+)+)` \\|");
    for (std::sregex_iterator at(text.begin(), text.end(), row), end; at != end; ++at) {
        EXPECT_TRUE(codes.contains((*at)[1])) << (*at)[1] << " is said by nothing";
    }
}

}  // namespace
}  // namespace firstoff
