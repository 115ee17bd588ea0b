#include "sim/control/program_texts.h"

#include <algorithm>
#include <tuple>

namespace firstoff {

ProgramTexts::ProgramTexts(const Program& program) {
    for (std::size_t part = 0; part < program.parts.size(); ++part) {
        readPart(program, static_cast<std::uint16_t>(part));
    }
    std::stable_sort(texts_.begin(), texts_.end(), [](const ProgramText& a, const ProgramText& b) {
        return std::tuple(a.number, a.byFileName, a.first) < std::tuple(b.number, b.byFileName, b.first);
    });
}

void ProgramTexts::readPart(const Program& program, std::uint16_t part) {
    const BlockId first = program.firstBlockOf(part);
    const BlockId end = program.endBlockOf(part);
    const std::size_t before = texts_.size();
    bool words = false;
    bool closed = false;
    bool open = false;
    for (BlockId at = first; at < end; ++at) {
        const Block& block = program.blocks[at];
        const bool tapeEnds = block.kind == Block::Kind::Percent && words;
        if (open && (tapeEnds || block.programNumber >= 0)) {
            texts_.back().end = at;
            open = false;
        }
        closed |= tapeEnds;
        if (block.programNumber >= 0) {
            texts_.push_back({block.programNumber, at, end, closed, false, false});
            open = true;
        }
        words |= block.wordCount > 0 || block.kind == Block::Kind::Statement;
    }
    const std::int32_t named = program.parts[part].number;
    if (named < 0) return;
    const bool numbered = texts_.size() > before;
    for (std::size_t i = before; i < texts_.size(); ++i) {
        if (texts_[i].number == named) return;
    }
    ProgramText text{named, first, end, false, true, numbered};
    if (numbered) {
        text.first = texts_[before].first;
        text.end = texts_[before].end;
    }
    texts_.push_back(text);
}

const ProgramText* ProgramTexts::find(std::int32_t number) const {
    const auto at = std::lower_bound(texts_.begin(), texts_.end(), number,
                                     [](const ProgramText& text, std::int32_t n) { return text.number < n; });
    return at != texts_.end() && at->number == number ? &*at : nullptr;
}

const ProgramText* ProgramTexts::other(const ProgramText& found) const {
    const std::size_t next = static_cast<std::size_t>(&found - texts_.data()) + 1;
    if (next >= texts_.size() || texts_[next].number != found.number || texts_[next].byFileName) return nullptr;
    return &texts_[next];
}

}  // namespace firstoff
