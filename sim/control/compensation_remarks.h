// What there is to say about a stretch of path under nose-radius compensation, once the whole of it is known.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "sim/control/nose_compensation.h"
#include "sim/control/nose_gouge.h"
#include "sim/control/remarks.h"

namespace firstoff {

// G41 or G42 as ordered: what to compensate with, and where it was written.
struct CompensationOrder {
    CompensationSetting setting;
    Point reckoned;      // tip from the turret reference as the control reckons it
    int tipOfTool = 0;   // tip number of the tool that is really there; setting.tipNumber is the one entered
    double bladeMm = 0;  // width of the edge of a grooving or parting tool, 0 for others
    BlockId block = kNoBlock;
    const Word* word = nullptr;
};

// A stretch from start-up to cancel, as programmed.
struct CompensatedStretch {
    const CompensationOrder& order;
    const std::vector<PathElement>& elements;
    bool cancelled = false;                           // the last element switches compensation off
    std::function<BlockId(std::uint32_t tag)> block;  // which block an element comes from
};

void reportIssues(const CompensatedStretch& stretch, const std::vector<CompensationIssue>& issues, Remarks& remarks);
// Moves that switch compensation on or off and are shorter than the nose is wide on one side.
void reportShortLeads(const CompensatedStretch& stretch, Remarks& remarks);

void reportGouges(const CompensatedStretch& stretch, const std::vector<NoseGouge>& gouges, Remarks& remarks);

// Wrong side. The part lies where the tip points: with t from the nose centre to the imaginary tip and n from the
// profile to the nose centre, -n·t is positive. It is weighed over the length of all feed moves, so that a move that
// backs off does not count much; a stretch is called wrong where three quarters of what can be told say so. Tips 0 and
// 9 tell nothing.
//
// And for an edge with two corners: a wall that only the corner which is not compensated can turn.
bool reportSide(const CompensatedStretch& stretch, Remarks& remarks);  // true: on the wrong side

}  // namespace firstoff
