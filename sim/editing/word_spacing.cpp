#include "sim/editing/word_spacing.h"

#include <algorithm>

#include "sim/base/characters.h"

namespace firstoff {

namespace {

class Spacer {
public:
    Spacer(const Program& program, WordSpacing spacing) : program_(program), spacing_(spacing) {}

    TextChanges run() {
        for (BlockId id = 0; id < program_.endBlockOf(0); ++id) {
            const Block& block = program_.blocks[id];
            if (block.kind == Block::Kind::Words && isPlain(block)) space(block);
        }
        return std::move(changes_);
    }

private:
    // Whether letters without numbers stand in it: drawn together they might be read as something else.
    bool isPlain(const Block& block) const {
        return std::none_of(program_.begin(block), program_.end(block),
                            [](const Word& word) { return word.form == Word::Form::Missing; });
    }

    void space(const Block& block) {
        const std::size_t lineEnd = std::size_t{block.offset} + block.length;
        std::size_t at = block.offset;
        bool afterWord = false;
        for (const Word* word = program_.begin(block); word != program_.end(block); ++word) {
            const bool first = !afterWord;
            if (!first || spacing_ == WordSpacing::None) gap(at, word->offset, first);
            if (word->form == Word::Form::Number) closeUp(*word);
            at = std::size_t{word->offset} + word->length;
            afterWord = true;
        }
        if (afterWord) gap(at, lineEnd, true);
    }

    // Anything but blanks in it – a block skip, a comment, what was not understood – and it is left alone.
    void gap(std::size_t from, std::size_t to, bool atEdge) {
        const std::string_view text = std::string_view(program_.text).substr(from, to - from);
        if (!std::all_of(text.begin(), text.end(), isBlank)) return;
        change(from, to, atEdge || spacing_ == WordSpacing::None ? "" : " ");
    }

    void closeUp(const Word& word) {
        std::string text(program_.textOf(word));
        std::erase_if(text, isBlank);
        change(word.offset, std::size_t{word.offset} + word.length, text);
    }

    void change(std::size_t from, std::size_t to, const std::string& with) {
        if (std::string_view(program_.text).substr(from, to - from) != with) changes_.push_back({from, to, with});
    }

    const Program& program_;
    const WordSpacing spacing_;
    TextChanges changes_;
};

}  // namespace

TextChanges spaceWords(const Program& program, WordSpacing spacing) {
    return Spacer(program, spacing).run();
}

}  // namespace firstoff
