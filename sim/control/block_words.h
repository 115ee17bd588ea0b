// The words of one block sorted by letter, so that their order in the block has no meaning (NISTIR 6556 sec. 3.3.6).
#pragma once

#include <array>
#include <cstdint>
#include <initializer_list>

#include "sim/control/codes.h"
#include "sim/control/expression_values.h"
#include "sim/control/remarks.h"
#include "sim/program/program.h"

namespace firstoff {

// A G or M word and what it orders in the code system in force.
struct Code {
    Order order = Order::Unknown;
    CodeGroup group = CodeGroup::Unknown;
    std::int16_t tenths = -1;  // ten times the number of the code that orders this in code system A (M: its number)
    const Word* word = nullptr;
};

class BlockWords {
public:
    static constexpr std::size_t kMostCodes = 16;  // of G and of M each; more in one block is a finding

    // Reads the words of `block`. Words without a usable number are left out: those without any were reported when the
    // program was read, expressions that cannot be calculated are reported by `values` and set axesUnknown(). A word
    // whose expression is null counts as not written.
    void collect(const Program& program, BlockId block, const ControlOptions& options, Remarks& remarks,
                 ExpressionValues& values);

    BlockId block() const { return block_; }
    bool has(char letter) const { return (mask_ & bit(letter)) != 0; }
    bool hasAny(std::uint32_t letters) const { return (mask_ & letters) != 0; }
    // Whether any of the letters has a number other than 0 without a decimal point.
    bool lacksPoint(std::uint32_t letters) const { return (wholes_ & letters) != 0; }
    const Word* word(char letter) const { return has(letter) ? words_[index(letter)] : nullptr; }
    double number(char letter) const { return words_[index(letter)]->value; }
    std::uint32_t letters() const { return mask_; }  // and the words with a comma

    const Code* gBegin() const { return g_.data(); }
    const Code* gEnd() const { return g_.data() + gCount_; }
    const Code* mBegin() const { return m_.data(); }
    const Code* mEnd() const { return m_.data() + mCount_; }

    const Word* cornerChamfer() const { return cornerChamfer_; }  // `,C`
    const Word* cornerRadius() const { return cornerRadius_; }    // `,R`
    // The angle of a line, `A` or `,A`.
    const Word* angle() const { return commaAngle_ != nullptr ? commaAngle_ : word('A'); }
    const Word* secondU() const { return secondU_; }    // of a one-block G71 with two U words
    const Word* repeated() const { return repeated_; }  // the first word whose letter stood before
    bool axesUnknown() const { return axesUnknown_; }   // a word's value could not be calculated

    // Bits of the words with a comma, above those of the letters.
    static constexpr std::uint32_t kCommaA = std::uint32_t{1} << 26;
    static constexpr std::uint32_t kCommaC = std::uint32_t{1} << 27;
    static constexpr std::uint32_t kCommaR = std::uint32_t{1} << 28;
    static constexpr std::uint32_t kCommas = kCommaA | kCommaC | kCommaR;

    static constexpr std::uint32_t bit(char letter) { return std::uint32_t{1} << (letter - 'A'); }
    static constexpr std::uint32_t bits(std::initializer_list<char> letters) {
        std::uint32_t mask = 0;
        for (char letter : letters) mask |= bit(letter);
        return mask;
    }

private:
    static constexpr std::size_t index(char letter) { return static_cast<std::size_t>(letter - 'A'); }
    void take(const Word& word, Remarks& remarks);
    void takeExpression(const Word& word, Remarks& remarks, ExpressionValues& values);
    void takeCode(const Word& word, Remarks& remarks);
    void takeComma(const Word& word, Remarks& remarks);

    std::array<const Word*, 26> words_;  // valid where the mask says so
    std::uint32_t mask_ = 0;
    std::uint32_t wholes_ = 0;
    BlockId block_ = kNoBlock;
    std::array<Code, kMostCodes> g_;
    std::array<Code, kMostCodes> m_;
    std::uint8_t gCount_ = 0;
    std::uint8_t mCount_ = 0;
    bool axesUnknown_ = false;
    const Word* cornerChamfer_ = nullptr;
    const Word* cornerRadius_ = nullptr;
    const Word* commaAngle_ = nullptr;
    const Word* secondU_ = nullptr;
    const Word* repeated_ = nullptr;
    const Program* program_ = nullptr;
    CodeSystem system_ = CodeSystem::A;
    bool countsIncrements_ = false;
};

}  // namespace firstoff
