// The block that runs, told word by word; and above it a look-up of codes and words.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "gui/page.h"
#include "gui/pane.h"
#include "sim/plain_words/block_explained.h"
#include "sim/plain_words/code_reference.h"
#include "sim/plain_words/modal_origin.h"

namespace firstoff::gui {

class WordsPane {
public:
    void draw(const PaneContext& context, const Rect& rect);

    // What is looked up; empty: the block that runs is told.
    const std::string& lookedUp() const { return typed_; }
    std::size_t found() const { return rows_.size(); }
    void lookUp(std::string words) { typed_ = std::move(words); }

private:
    void take(const PaneContext& context);
    void drawBlock(const Page& page);
    void drawLookUp(const Page& page);
    void drawRow(const Page& page, std::size_t row);

    // What is told, kept while the block stays the same.
    std::shared_ptr<const Trial> trial_;
    BlockId block_ = kNoBlock;
    std::size_t step_ = kNoStep;
    std::vector<WordExplained> words_;

    CodeReference reference_;
    std::string referenceIn_;    // language and code system it was made for
    std::string typed_, found_;  // `rows_` are those of `found_`
    std::vector<std::size_t> rows_;
    std::size_t open_ = static_cast<std::size_t>(-1);  // the row that is told in full
};

// A tool tip about a word: what it is and what it says there.
void tellWord(const PaneContext& context, const WordExplained& word);

// The same about the word that set something, with its line.
void tellOrigin(const PaneContext& context, const ModalOrigin& origin);

// About the word of the program at a byte of a line (both from 0), where the trial shown is of this text; false where
// there is none.
bool tellWordAt(const PaneContext& context, std::size_t line, std::size_t byte);

// The colour that the program pane gives a word.
Colour inkOfWord(const Palette& palette, std::string_view word);

}  // namespace firstoff::gui
