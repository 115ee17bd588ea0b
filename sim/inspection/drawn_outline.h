// The part beside its drawn outline: where metal is left and where it is missing.
//
// Notation. P: a place on the outline; n: the way out of the drawn metal, square to the outline there. Where the first
// edge of the part that a line from P along n meets leaves metal, P lies in metal: metal is left there. Otherwise P
// lies in air: metal is missing. How much is the distance from P to the nearest place of the part's surface. Places are
// taken every kStepMm, and beside every corner.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "sim/inspection/gauged_part.h"
#include "sim/inspection/part_outline.h"

namespace firstoff {

// A place of the outline, and how far the part stands off there; + metal left, - metal missing. Nothing: there is no
// part.
struct OutlinePlace {
    Point at;
    std::optional<double> off;
    CutId cut = kUncut;  // that left the part's surface there
};

// Along `outline`, lathe frame, with its metal to the left.
std::vector<OutlinePlace> besideOutline(const PartOutline& part, const PartOutline& outline);

// The stretches where the part stands off by more than `bandMm`, in order. Surfaces of cuts that `apart` picks make
// stretches of their own.
std::vector<ContourDeviation> deviationsOf(const std::vector<OutlinePlace>& places, double bandMm,
                                           const std::function<bool(CutId)>& apart = {});

// The profile of a cycle, open, with its metal to the left: turned over where the part says so. Of its ends, what
// leads in to the part and away from it is taken off. Empty where it is nowhere near the part.
Contour profileOnPart(const PartOutline& part, const Contour& profile);

}  // namespace firstoff
