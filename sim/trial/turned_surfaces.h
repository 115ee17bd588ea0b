// What stands at the end: the held bar and the pieces that fell, and the surfaces on them that a line of the program
// left.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/feed_marks.h"
#include "sim/trial/trial.h"

namespace firstoff {

// Metal of one piece, at the last instant at which anything could cut it.
struct WorkPiece {
    Billet billet;                  // for a fallen piece together with the bar that it fell from
    std::optional<Billet> without;  // what it left behind
    std::uint32_t moves = 0;        // timed moves carried out by then
    int piece = 0;                  // 0 is what is held

    // Does it have metal there?
    bool isIn(int column) const;
    bool isIn(const SurfaceSpan& span) const;
};

// Pieces in order of falling, then what is held after the first `moves` timed moves.
std::vector<WorkPiece> piecesAfter(const Trial& trial, std::uint32_t moves);

// Surfaces along which a block's moves ran at feed and which are still there, from the front end on: outside and inside
// as far as the billet remembers them as that block's, from corner to corner, and faces. What the tool's outline left
// where a move began or ended has no feed marks and is not among them, nor is anything shorter than `kShortestMm`.
std::vector<SurfaceSpan> surfacesLeftBy(const Trial& trial, const WorkPiece& work, BlockId block);

// The same of all blocks at once: a stretch ends where another block's begins.
struct SurfaceOnPart {
    SurfaceSpan span;
    BlockId block = kNoBlock;   // that left it, or the call of what left it from another file
    double rFrom = 0, rTo = 0;  // radius at both ends of the span, mm
};
std::vector<SurfaceOnPart> surfacesLeft(const Trial& trial, const WorkPiece& work);

inline constexpr double kShortestMm = 0.05;

// Timed moves [first, end) that a block of the program's own file brought about, in order: its own with all passes, for
// a line of a profile the moves along it, for the call of a cycle all of the cycle's.
struct MoveRange {
    std::uint32_t first = 0, end = 0;
};
std::vector<MoveRange> movesOf(const Trial& trial, BlockId block);

}  // namespace firstoff
