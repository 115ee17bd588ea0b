// Texts in the user's language.
#include "sim/base/say.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <string>
#include <vector>

#include "sim/base/language_catalogues.h"
#include "sim/base/mo_catalogue.h"

namespace firstoff {
namespace {

// Replacement fields of a format string, in the order in which they take their arguments, each as "number:format".
std::vector<std::string> fields(std::string_view text) {
    std::vector<std::string> out;
    static const std::regex kField(R"(\{\{|\}\}|\{([0-9]*)(:[^{}]*)?\})");
    int next = 0;
    const std::string all(text);
    for (std::sregex_iterator i(all.begin(), all.end(), kField), end; i != end; ++i) {
        if (i->str() == "{{" || i->str() == "}}") continue;
        const std::string number = (*i)[1].length() > 0 ? (*i)[1].str() : std::to_string(next++);
        out.push_back(number + (*i)[2].str());
    }
    std::sort(out.begin(), out.end());
    return out;
}

TEST(Say, TellsTheEnglishAsItStands) {
    EXPECT_EQ(say("{} of {} blocks", 3, 7), "3 of 7 blocks");
    EXPECT_STREQ(tr("Open program…"), "Open program…");
    EXPECT_EQ(languageInUse(), "en");
}

TEST(Say, TellsGermanOnceItIsChosen) {
    const LanguageForNow german("de");
    EXPECT_STREQ(tr("Open program…"), "Programm öffnen …");
    EXPECT_STREQ(tr("a text that no catalogue has"), "a text that no catalogue has");
    EXPECT_STREQ(tr(""), "");
}

TEST(Say, RefusesALanguageThatItDoesNotHave) {
    EXPECT_FALSE(useLanguage("tlh"));
    EXPECT_EQ(languageInUse(), "en");
}

// A field lost, added or of another format would tell a wrong figure or none.
TEST(Say, GermanTextsTakeTheSameFigures) {
    const MoCatalogue german(germanCatalogue());
    ASSERT_GT(german.size(), 1u);
    for (std::uint32_t i = 0; i < german.size(); ++i) {
        if (german.english(i).empty()) continue;  // the header
        EXPECT_EQ(fields(german.translation(i)), fields(german.english(i))) << german.english(i);
    }
}

TEST(MoCatalogue, TakesASpoiltFileAsEmpty) {
    const auto whole = germanCatalogue();
    const std::uint32_t texts = MoCatalogue(whole).size();
    std::uint32_t shorter = 0;
    for (std::size_t size = 0; size < whole.size(); ++size) {
        const MoCatalogue cut(whole.subspan(0, size));
        shorter += cut.size();
    }
    EXPECT_GT(texts, 0u);
    // Only the last zero of the last text may be missed by nothing.
    EXPECT_EQ(shorter, 0u);
    std::vector<unsigned char> other(whole.begin(), whole.end());
    other[0] ^= 0xff;
    EXPECT_EQ(MoCatalogue(other).size(), 0u);
}

}  // namespace
}  // namespace firstoff
