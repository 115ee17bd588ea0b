#include "sim/control/call_arguments.h"

#include <array>
#include <string_view>

namespace firstoff {

namespace {

// By letter, A to Z; 0: no argument.
constexpr std::array<std::uint8_t, 26> kNumbers = {1, 2, 3, 7,  8,  9,  0,  11, 4,  5,  6,  0,  13,
                                                   0, 0, 0, 17, 18, 19, 20, 21, 22, 23, 24, 25, 26};
constexpr std::string_view kLengths = "UVWXYZIJKR";
constexpr int kMostSets = 10;

// Where the next I, J or K goes.
class Sets {
public:
    // 0 beyond the last set.
    int place(char letter) {
        if (last_ != 0 && letter <= last_) ++set_;
        outOfOrder_ |= last_ != 0 && letter < last_;
        count_ += 1;
        last_ = letter;
        return set_ < kMostSets ? 4 + 3 * set_ + (letter - 'I') : 0;
    }
    // Each letter once, but not in alphabetical order: as sets they go elsewhere than letter by letter.
    bool unsure() const { return outOfOrder_ && count_ <= 3; }

private:
    int set_ = 0;
    int count_ = 0;
    char last_ = 0;
    bool outOfOrder_ = false;
};

bool callsMacro(const Word& word) {
    return word.letter == 'G' && (word.value == 65 || word.value == 66);
}

}  // namespace

CallArguments callArguments(const Program& program, BlockId block, ExpressionValues& values) {
    CallArguments result;
    Sets sets;
    bool behindCall = false;
    const Block& b = program.blocks[block];
    for (const Word *word = program.begin(b), *end = program.end(b); word != end; ++word) {
        const bool isNumber = word->form == Word::Form::Number;
        if (!behindCall && word->letter == 'G') {
            behindCall = !isNumber || callsMacro(*word);
            continue;
        }
        int number = kNumbers[static_cast<std::size_t>(word->letter - 'A')];
        if (!behindCall || number == 0 || word->comma || word->form == Word::Form::Missing) continue;
        result.letters |= std::uint32_t{1} << (word->letter - 'A');
        const Word* valued = isNumber ? word : values.valued(block, *word, result.failed);
        if (word->letter >= 'I' && word->letter <= 'K') number = sets.place(word->letter);
        if (number == 0) {
            result.tooMany = word;
            continue;
        }
        if (valued == nullptr) continue;
        result.locals[static_cast<std::size_t>(number)] = valued->value;
        const bool length = kLengths.find(word->letter) != std::string_view::npos;
        if (length && !valued->hasPoint && valued->value != 0 && result.noPoint == nullptr) result.noPoint = word;
        if (sets.unsure()) result.unsure = word;
    }
    if (!sets.unsure()) result.unsure = nullptr;
    return result;
}

}  // namespace firstoff
