// Figures and words of papers, and the sum that tells one state of a file from another.
#include "sim/output/sheets/sheet_text.h"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/output/finding_words.h"
#include "sim/output/sha256.h"

namespace firstoff {
namespace {

TEST(SheetFigures, HaveFixedDecimals) {
    EXPECT_EQ(figure(12.3456, 3), "12.346");
    EXPECT_EQ(figure(-0.0001, 3), "0.000");
    EXPECT_EQ(figure(-0.5, 0), "0");  // to even, and no -0
    EXPECT_EQ(figure(NAN, 2), "–");
    EXPECT_EQ(shortFigure(0.2, 4), "0.2");
    EXPECT_EQ(shortFigure(100, 3), "100");
    EXPECT_EQ(shortFigure(1500, 0), "1500");
}

TEST(SheetFigures, StandOnThePoint) {
    // A figure space for each decimal, a narrower one for the point.
    EXPECT_EQ(onThePoint({"1", "22.5", "-3.125", "–", "> 50", ""}),
              (std::vector<std::string>{"1\u2008\u2007\u2007\u2007", "22.5\u2007\u2007", "-3.125", "–", "> 50", ""}));
    EXPECT_EQ(onThePoint({"1", "22"}), (std::vector<std::string>{"1", "22"}));
}

TEST(SheetWords, AreShortenedBetweenCharacters) {
    EXPECT_EQ(shortened("abc", 3), "abc");
    EXPECT_EQ(shortened("abcd", 3), "ab…");
    EXPECT_EQ(shortened("äöü", 3), "äöü");
    EXPECT_EQ(shortened("äöüß", 3), "äö…");
    EXPECT_EQ(shortened("", 3), "");
}

TEST(PlainText, HidesWhatTurnsOrControls) {
    EXPECT_EQ(plainText("a\tb\nc\x1b"), "a b?c?");
    EXPECT_EQ(plainText("\u202Eevil\u2066"), "?evil?");  // would read from right to left
    EXPECT_EQ(plainText("\u201Cso\u201D – 日本"), "\u201Cso\u201D – 日本");
    EXPECT_EQ(plainText("\xff\xc3"), "??");
}

// FIPS 180-2 appendix B.1 to B.3, and the empty text of the NIST test vectors.
TEST(Sha256, GivesThePublishedSums) {
    EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    EXPECT_EQ(sha256(std::string(1000000, 'a')), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

}  // namespace
}  // namespace firstoff
