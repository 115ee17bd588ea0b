#include "sim/control/block_words.h"

#include <cmath>

#include "sim/base/say.h"

namespace firstoff {

namespace {

// No lathe is a hundred metres long, and no other word needs a number as large.
constexpr double kLargestNumber = 1e5;
constexpr double kLargestCount = 1e9;  // for words that count something: P, Q, S, T, N, O, D

bool countsSomething(char letter) {
    return letter == 'N' || letter == 'O' || letter == 'P' || letter == 'Q' || letter == 'S' || letter == 'T' ||
           letter == 'D';
}

}  // namespace

void BlockWords::collect(const Program& program, BlockId block, const ControlOptions& options, Remarks& remarks,
                         ExpressionValues& values) {
    program_ = &program;
    system_ = options.codeSystem;
    countsIncrements_ = options.wholeNumbers == ControlOptions::WholeNumbers::Increments;
    block_ = block;
    mask_ = wholes_ = 0;
    gCount_ = 0;
    mCount_ = 0;
    axesUnknown_ = false;
    cornerChamfer_ = cornerRadius_ = commaAngle_ = secondU_ = repeated_ = nullptr;
    const Block& b = program.blocks[block];
    for (const Word *word = program.begin(b), *end = program.end(b); word != end; ++word) {
        if (word->form == Word::Form::Number) {
            take(*word, remarks);
        } else if (word->form == Word::Form::Expression) {
            takeExpression(*word, remarks, values);
        }
    }
}

void BlockWords::takeExpression(const Word& word, Remarks& remarks, ExpressionValues& values) {
    if (const Word* valued = values.valued(block_, word, axesUnknown_)) take(*valued, remarks);
}

void BlockWords::take(const Word& word, Remarks& remarks) {
    if (word.comma) return takeComma(word, remarks);
    if (word.letter == 'G' || word.letter == 'M') return takeCode(word, remarks);
    const bool count = countsSomething(word.letter) || (countsIncrements_ && !word.hasPoint);
    if (std::abs(word.value) > (count ? kLargestCount : kLargestNumber)) {
        remarks.at(block_, word,
                   {Severity::Stop, "number-out-of-range",
                    say("{} is larger than anything on a lathe; the word was left out.", program_->textOf(word)),
                    tr("Check for a missing decimal point or a figure too many.")});
        return;
    }
    if (has(word.letter)) {
        if (word.letter == 'U' && secondU_ == nullptr) {
            secondU_ = &word;
            return;
        }
        if (repeated_ == nullptr) repeated_ = &word;
    }
    words_[index(word.letter)] = &word;
    mask_ |= bit(word.letter);
    if (!word.hasPoint && word.value != 0) wholes_ |= bit(word.letter);
}

void BlockWords::takeCode(const Word& word, Remarks& remarks) {
    const bool isG = word.letter == 'G';
    std::uint8_t& count = isG ? gCount_ : mCount_;
    if (count == kMostCodes) {
        remarks.at(block_, word,
                   {Severity::Stop, "too-many-codes",
                    say("There are more than {} {} words in this block.", kMostCodes, word.letter),
                    tr("Spread them over several blocks.")});
        return;
    }
    Code code;
    code.word = &word;
    const double tenths = word.value * 10;
    const double whole = std::round(tenths);
    // Whole within a little; codes may have one decimal.
    const bool known = whole >= 0 && whole < 10000 && std::abs(tenths - whole) <= 10 * kWholeWithin;
    if (const CodeEntry* entry = known ? codeEntry(word.letter, static_cast<int>(whole), system_) : nullptr) {
        code.order = entry->order;
        code.group = entry->group;
        code.tenths = entry->number[0];
    }
    (isG ? g_ : m_)[count++] = code;
}

void BlockWords::takeComma(const Word& word, Remarks& remarks) {
    if (word.letter == 'C' && cornerChamfer_ == nullptr) {
        cornerChamfer_ = &word;
        mask_ |= kCommaC;
    } else if (word.letter == 'R' && cornerRadius_ == nullptr) {
        cornerRadius_ = &word;
        mask_ |= kCommaR;
    } else if (word.letter == 'A' && commaAngle_ == nullptr) {
        commaAngle_ = &word;
        mask_ |= kCommaA;
    } else {
        remarks.at(block_, word,
                   {Severity::Warning,
                    "unknown-word",
                    say("{} is not understood and was left out.", program_->textOf(word)),
                    tr("Write the end point of the move instead."),
                    {},
                    true});
    }
}

}  // namespace firstoff
