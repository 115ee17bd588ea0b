// Lines of a program on pages, each with its words below it.
#include <algorithm>

#include "sim/output/sheets/paper_parts.h"

namespace firstoff {

namespace {

constexpr TypeStyle kNumber{7, false, true, 0.45};
constexpr TypeStyle kCode{8.2, true, true, 0};
constexpr TypeStyle kQuietCode{7.6, false, true, 0.4};
constexpr TypeStyle kWord{7.4, false, true, 0};
constexpr TypeStyle kMeaning{7.8, false, false, 0};
constexpr TypeStyle kRemark{7, false, false, 0.3};
constexpr double kNumberPt = 20, kWordPt = 24, kMeaningPt = 74;  // from the left margin
constexpr double kAboveLine = 2, kAboveQuiet = 0.5, kBetween = 0.6;

const TypeStyle& codeStyle(const SheetProgramLine& line) {
    return line.quiet ? kQuietCode : kCode;
}

// Where a word is wider than its column its meaning begins further right.
double meaningAt(const TypeCase& type, const SheetFact& word) {
    return std::max(kMeaningPt, kWordPt + type.width(word.label, kWord) + 6);
}

double above(const SheetProgramLine& line) {
    return line.quiet ? kAboveQuiet : kAboveLine;
}

}  // namespace

double programLineHeight(const TypeCase& type, const SheetProgramLine& line) {
    double height =
        above(line) + type.height(line.text.empty() ? "x" : line.text, codeStyle(line), kBodyPt - kNumberPt);
    for (const SheetFact& word : line.words) {
        height += type.height(word.value, kMeaning, kBodyPt - meaningAt(type, word)) + kBetween;
    }
    for (const std::string& remark : line.remarks) height += type.height(remark, kRemark, kBodyPt - kWordPt) + kBetween;
    return height + (line.words.empty() ? 0 : kAboveLine);
}

void drawProgramLine(PaperPages& pages, const SheetProgramLine& line) {
    const TypeCase& type = pages.type();
    pages.need(programLineHeight(type, line));
    pages.advance(above(line));
    const double number = type.width(line.number, kNumber);
    type.draw(line.number, kNumber, pages.left() + kNumberPt - 6 - number, pages.y() + 0.8);
    pages.advance(
        std::max(type.draw(line.text, codeStyle(line), pages.left() + kNumberPt, pages.y(), kBodyPt - kNumberPt),
                 type.height("x", codeStyle(line), 0)));
    for (const SheetFact& word : line.words) {
        pages.advance(kBetween);
        const double at = meaningAt(type, word);
        type.draw(word.label, kWord, pages.left() + kWordPt, pages.y() + 0.4);
        pages.advance(type.draw(word.value, kMeaning, pages.left() + at, pages.y(), kBodyPt - at));
    }
    for (const std::string& remark : line.remarks) {
        pages.advance(kBetween);
        pages.advance(type.draw(remark, kRemark, pages.left() + kWordPt, pages.y(), kBodyPt - kWordPt));
    }
    if (!line.words.empty()) pages.advance(kAboveLine);
}

}  // namespace firstoff
