// How a program is typed makes no difference: small letters, blanks put in or taken out (NISTIR 6556 sec. 3.3). Every
// case is run again as its twin.
#include <gtest/gtest.h>

#include <cctype>
#include <random>
#include <string>

#include "tests/control/case_file.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

// Calls `change` with each stretch of a program that is neither comment nor line end, and puts the answers together.
template <typename Change>
std::string outsideComments(const std::string& text, Change change) {
    std::string result;
    std::string stretch;
    const auto flush = [&] {
        result += change(stretch);
        stretch.clear();
    };
    for (std::size_t i = 0; i < text.size();) {
        std::size_t end = i;
        if (text[i] == '(') end = std::min(text.find_first_of(")\n\r", i), text.size() - 1) + 1;
        if (text[i] == ';') end = std::min(text.find_first_of("\n\r", i), text.size());
        if (text[i] == '\n' || text[i] == '\r') end = i + 1;
        if (end == i) {
            stretch += text[i++];
            continue;
        }
        flush();
        result += text.substr(i, end - i);
        i = end;
    }
    flush();
    return result;
}

std::string inSmallLetters(std::string stretch) {
    for (char& c : stretch) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return stretch;
}

std::string withoutBlanks(const std::string& stretch) {
    std::string result;
    for (char c : stretch) {
        if (c != ' ' && c != '\t') result += c;
    }
    return result;
}

bool isLetter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

// Blanks at random, but not inside names (`GOTO`, `SIN`), which controls read as one.
class Respacing {
public:
    std::string operator()(const std::string& stretch) {
        std::string result;
        for (std::size_t i = 0; i < stretch.size(); ++i) {
            result += stretch[i];
            const bool inName = i + 1 < stretch.size() && isLetter(stretch[i]) && isLetter(stretch[i + 1]);
            if (!inName && random_() % 3 == 0) result += random_() % 2 == 0 ? " " : "\t";
        }
        return result;
    }

private:
    std::minstd_rand random_{20260101};
};

// Texts in which blanks or letters are what the case is about.
bool isAboutSpelling(const std::string& name) {
    return name == "text-faults" || name == "line-ends" || name == "byte-order-mark";
}

void expectSame(const Toolpath& a, const Toolpath& b, const std::string& name) {
    ASSERT_EQ(a.moves.size(), b.moves.size()) << name;
    for (std::size_t i = 0; i < a.moves.size(); ++i) {
        EXPECT_EQ(a.moves[i].kind, b.moves[i].kind) << name << ", move " << i;
        EXPECT_EQ(a.moves[i].to, b.moves[i].to) << name << ", move " << i;
        EXPECT_EQ(a.moves[i].block, b.moves[i].block) << name << ", move " << i;
    }
    ASSERT_EQ(a.findings.size(), b.findings.size()) << name;
    for (std::size_t i = 0; i < a.findings.size(); ++i) EXPECT_EQ(a.findings[i].code, b.findings[i].code) << name;
    EXPECT_EQ(a.modals, b.modals) << name;
}

template <typename Change>
void runTwins(Change change) {
    for (const std::string& name : cases::listed()) {
        if (isAboutSpelling(name)) continue;
        const std::string text = shop::readFile("tests/cases/" + name + ".nc");
        expectSame(cases::carryOut(text), cases::carryOut(outsideComments(text, change)), name);
    }
}

TEST(Spelling, SmallLettersAreTheSame) {
    runTwins(inSmallLetters);
}

TEST(Spelling, BlanksTakenOutAreTheSame) {
    runTwins(withoutBlanks);
}

TEST(Spelling, BlanksPutInAreTheSame) {
    runTwins(Respacing());
}

}  // namespace
}  // namespace firstoff
