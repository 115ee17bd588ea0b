// The half-section of a billet as it was really cut: straight edges and arcs, corners where they meet.
//
// A run of columns that lies on one curve of the cut that left it (cut_curves.h) is one edge, whichever way it was
// programmed. Corners are where neighbouring edges meet; they are looked for only between the two columns beside them:
//   - both end there at the same place (a nose running into a flank): that place;
//   - they cross: the crossing;
//   - neither: an upright face stands between, where the sweep that took the metal beside it ends.
// Columns that lie on no such curve (threads, blanks of other shapes, edges off centre height) and stretches of many
// edges that are only a few columns long are drawn as polylines, as section.h does.
//
// So every edge passes through all of its columns, to 1e-8 mm for curves and to the tolerance for polylines, and
// corners are as good as the rounding of the moves.
#pragma once

#include <optional>
#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/cut_plan.h"

namespace firstoff {

// What a billet was cut with: the first `moves` moves of a plan, and the beginning of the next.
struct CutSoFar {
    const CutPlan& plan;
    std::uint32_t moves = 0;
    std::optional<Sweep> begun;
};

// Contours of everything in the billet as one sector has it, metal to their left, marked with `piece`. Polylines are
// within `toleranceMm` of the columns.
std::vector<SectionContour> exactSection(const Billet& billet, const CutSoFar& cut, double toleranceMm, int piece = 0,
                                         int sector = kEnvelope);

}  // namespace firstoff
