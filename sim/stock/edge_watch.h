// Watches the border between two slabs that are cut one after the other, though in the program's time their moves
// alternate. Each side notes how its border column looked after every move that changed it; read together in order of
// moves, the notes tell after which move metal right of the border had no hold left of it.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/stock/billet.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

class EdgeNotes {
public:
    void clear();
    // `column` of `billet` as it is after `move`.
    void note(std::uint32_t move, const Billet& billet, int column);

    struct Entry {
        std::uint32_t move = 0;
        std::uint32_t begin = 0, end = 0;  // into the solids
    };
    const std::vector<Entry>& entries() const { return entries_; }
    const Interval* solids(std::uint32_t at) const { return solids_.data() + at; }

private:
    std::vector<Entry> entries_;
    std::vector<Interval> solids_;
    std::vector<Interval> column_;
};

// Appends to `moves` those after which the column right of a border had a stretch without hold in the column left of
// it. `before`: the billet before any of the notes; `border`: the right column.
void appendLoosened(const Billet& before, int border, const EdgeNotes& left, const EdgeNotes& right,
                    std::vector<std::uint32_t>& moves);

}  // namespace firstoff
