// Two trials side by side, before and after an edit or a what-if: what moved on the part, in time and in findings.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/trial/trial.h"

namespace firstoff {

// A stretch of a surface that stands elsewhere.
struct SurfaceChange {
    enum class Side : std::uint8_t { Outside, Inside };
    Side side = Side::Outside;
    int piece = 0;              // as in Loop::piece
    double fromZ = 0, toZ = 0;  // lathe frame, fromZ < toZ
    double amountMm = 0;        // radially, greatest: + metal more than before, - less
    Point place;                // of that, on the surface as it is after (where it is gone: as it was)
    // The change is wider in r than along z: a shoulder or an end that stands elsewhere along z, by that much, + where
    // metal came to it. A fillet beside it moves too and counts to the stretch.
    bool isFace = false;
    double alongMm = 0;
    BlockId block = kNoBlock;  // of the after trial, that left the surface there; kNoBlock: nobody or gone
};

struct FindingChange {
    bool gone = false;  // else new
    Finding finding;    // lines as in the trial that it is from
};

struct SizeChange {
    std::size_t dimension = 0;  // into GaugedPart::dimensions of the after trial
    std::string name;
    double before = 0, after = 0;  // to be expected, bending counted where it is known; NaN where it was not found
    GaugedDimension::State stateBefore = GaugedDimension::State::NotFound;
    GaugedDimension::State stateAfter = GaugedDimension::State::NotFound;
};

struct Comparison {
    std::vector<SurfaceChange> surfaces;  // pieces in order, outside before inside, from the front end on
    std::vector<SizeChange> sizes;        // all that both have by the same name, changed or not
    std::vector<FindingChange> findings;  // gone ones before new ones, in the order of reading
    double cycleBeforeS = 0, cycleAfterS = 0;
    double removedBeforeMm3 = 0, removedAfterMm3 = 0;
    // Of all tools together; 0 where the material is not known.
    double peakKwBefore = 0, peakKwAfter = 0;
    double peakNBefore = 0, peakNAfter = 0;
    int piecesBefore = 0, piecesAfter = 0;  // that fell
    bool sameBlank = true;                  // false: the surfaces are compared all the same
};

// Findings are the same where code, text of the line and tool offset of its figures agree, whatever the line number: an
// edit above them moves them. Radii that agree to kSameRadiusMm are the same.
inline constexpr double kSameRadiusMm = 1e-5;
Comparison compareTrials(const Trial& before, const Trial& after);

}  // namespace firstoff
