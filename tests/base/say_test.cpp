// Texts in the user's language.
#include "sim/base/say.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sim/base/language_catalogues.h"
#include "sim/base/mo_catalogue.h"

namespace firstoff {
namespace {

// Replacement fields of a format string, each as "number:format"; one within a field ("{:.{}f}") stands there by its
// number and takes its argument after the one that it is in.
std::vector<std::string> fields(std::string_view text) {
    std::vector<std::string> out;
    int next = 0;
    const auto numbered = [&](std::string_view written) {
        return written.empty() ? std::to_string(next++) : std::string(written);
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '{') continue;
        if (text.substr(i, 2) == "{{") {
            ++i;
            continue;
        }
        const std::size_t end = text.find_first_of(":}", i + 1);
        std::string field = numbered(text.substr(i + 1, end - i - 1));
        for (i = end; i < text.size() && text[i] != '}'; ++i) {
            if (text[i] != '{') {
                field += text[i];
                continue;
            }
            const std::size_t close = text.find('}', i);
            field += "{" + numbered(text.substr(i + 1, close - i - 1)) + "}";
            i = close;
        }
        out.push_back(std::move(field));
    }
    std::sort(out.begin(), out.end());
    return out;
}

TEST(Say, KnowsTheFieldsOfItsTexts) {
    using testing::ElementsAre;
    EXPECT_THAT(fields("{} of {:.2f} {{not one}}"), ElementsAre("0", "1:.2f"));
    EXPECT_THAT(fields("{1} before {0:+.3f}"), ElementsAre("0:+.3f", "1"));
    EXPECT_THAT(fields("{:.{}f} {} deep"), ElementsAre("0:.{1}f", "2"));
    EXPECT_THAT(fields("none"), ElementsAre());
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
