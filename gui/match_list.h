// All places of a text where a search finds something, gathered a piece per frame so that no frame waits for it.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/editing/text_search.h"

namespace firstoff::gui {

class MatchList {
public:
    // Goes on for one frame's share. `revision` names the text: another one, or another search, begins anew.
    void look(const std::string& text, std::uint64_t revision, const TextSearch& search);
    void clear();

    bool complete() const { return complete_; }
    // Where matches begin, in order; none within another. Until it is complete those of the text so far.
    const std::vector<std::size_t>& places() const { return places_; }
    // Which of them (from 1) begins at a place; 0: none.
    std::size_t numberOf(std::size_t place) const;

private:
    std::uint64_t revision_ = 0;
    TextQuery query_;
    std::vector<std::size_t> places_;
    std::size_t lookedTo_ = 0;
    bool complete_ = false;
};

}  // namespace firstoff::gui
