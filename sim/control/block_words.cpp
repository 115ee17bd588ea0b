#include "sim/control/block_words.h"

#include <fmt/format.h>

#include <cmath>

namespace firstoff {

namespace {

// No lathe is a hundred metres long, and no other word needs a number as large.
constexpr double kLargestNumber = 1e5;
constexpr double kLargestCount = 1e9;  // for words that count something: P, Q, S, T, N, O, D

// A number that should be whole counts as whole if within 0.0001 (NISTIR 6556 sec. 3.3.2.1); codes may have one
// decimal.
constexpr double kWholeWithin = 1e-4;

bool countsSomething(char letter) {
    return letter == 'N' || letter == 'O' || letter == 'P' || letter == 'Q' || letter == 'S' || letter == 'T' ||
           letter == 'D';
}

}  // namespace

void BlockWords::collect(const Program& program, BlockId block, CodeSystem system, Remarks& remarks) {
    program_ = &program;
    system_ = system;
    block_ = block;
    mask_ = 0;
    gCount_ = 0;
    mCount_ = 0;
    axesUnknown_ = false;
    cornerChamfer_ = cornerRadius_ = secondU_ = nullptr;
    const Block& b = program.blocks[block];
    for (const Word *word = program.begin(b), *end = program.end(b); word != end; ++word) take(*word, remarks);
}

void BlockWords::take(const Word& word, Remarks& remarks) {
    if (word.form != Word::Form::Number) {
        if (word.form == Word::Form::Missing) return;
        axesUnknown_ = true;
        remarks.at(
            block_, word,
            {Severity::Warning,
             "expression-not-carried-out",
             fmt::format("{} needs a value that is computed while the program runs; expressions are not carried out, "
                         "so this block's movement was left out.",
                         program_->textOf(word)),
             "Write the number, or prove this part of the program on the machine.",
             {},
             true});
        return;
    }
    if (word.comma) return takeComma(word, remarks);
    if (word.letter == 'G' || word.letter == 'M') return takeCode(word, remarks);
    if (std::abs(word.value) > (countsSomething(word.letter) ? kLargestCount : kLargestNumber)) {
        remarks.at(
            block_, word,
            {Severity::Stop, "number-out-of-range",
             fmt::format("{} is larger than anything on a lathe; the word was left out.", program_->textOf(word)),
             "Check for a missing decimal point or a figure too many."});
        return;
    }
    if (has(word.letter)) {
        if (word.letter == 'U' && secondU_ == nullptr) {
            secondU_ = &word;
            return;
        }
        remarks.at(block_, word,
                   {Severity::Stop, "word-twice",
                    fmt::format("The letter {} stands twice in this block; the last one, {}, was taken.", word.letter,
                                program_->textOf(word)),
                    "Write each letter once per block, except G and M."});
    }
    words_[index(word.letter)] = &word;
    mask_ |= bit(word.letter);
}

void BlockWords::takeCode(const Word& word, Remarks& remarks) {
    const bool isG = word.letter == 'G';
    std::uint8_t& count = isG ? gCount_ : mCount_;
    if (count == kMostCodes) {
        remarks.at(block_, word,
                   {Severity::Stop, "too-many-codes",
                    fmt::format("There are more than {} {} words in this block.", kMostCodes, word.letter),
                    "Spread them over several blocks."});
        return;
    }
    Code code;
    code.word = &word;
    const double tenths = word.value * 10;
    const double whole = std::round(tenths);
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
    } else if (word.letter == 'R' && cornerRadius_ == nullptr) {
        cornerRadius_ = &word;
    } else {
        remarks.at(block_, word,
                   {Severity::Warning,
                    "unknown-word",
                    fmt::format("{} is not understood and was left out.", program_->textOf(word)),
                    "Write the end point of the move instead.",
                    {},
                    true});
    }
}

}  // namespace firstoff
