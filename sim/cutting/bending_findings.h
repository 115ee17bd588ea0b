// What bending has to say of a program. Inside sim/cutting only.
#pragma once

#include "sim/cutting/bending.h"

namespace firstoff {

// Bars too long for what they are made of, overhang by diameter: 4 for steel (a maker's catalogue), 6 for carbide, 7
// for damped steel, 10 for damped carbide, 14 at most (a page on boring bars; rows of deflection.csv, all opened). A
// note past the first, a warning past what the next better bar is for.
struct BarLimit {
    double noteAbove = 0, warningAbove = 0;
};
BarLimit barLimit(Tool::Shank shank);

// A finished diameter off by more than this is worth knowing: about the tolerance of IT7 at 18 to 30 mm (0.021, ISO
// 286). Past the second it is out of what the finest general tolerance leaves to either side of 6 to 30 mm (ISO 2768-1
// f), so that the part is spoilt unless an offset is corrected.
inline constexpr double kBentNoteMm = 0.02;
inline constexpr double kBentWarningMm = 0.1;

void addBendingFindings(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, const LoadResult& loads,
                        BendingResult& result);

}  // namespace firstoff
