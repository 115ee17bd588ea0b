// The inner loops over the columns of a chunk. Each has one fixed order of operations, so that the result does not
// depend on the width of the vectors the processor has.
#pragma once

#include <cstdint>

#include "sim/stock/billet.h"
#include "sim/stock/sweep_profile.h"

namespace firstoff::kernel {

inline constexpr int kLanes = 8;

// What a chunk lost: sum of r² differences, and the deepest column with its depth.
struct Loss {
    double area = 0;
    double deepest = 0;
    int column = 0;
    double minR = 0, maxR = 0;  // of the surface afterwards
};

struct Extremes {
    double min = 0, max = 0;
};

// Places the columns of a chunk: column k stands at (base + k + 0.5) * pitch + z0.
struct Place {
    double z0 = 0, pitch = 0, base = 0;
};

// r[k] = least of r[k] and the branch, for the columns of [from, to) that the branch reaches. `from` and `to` are
// multiples of kLanes.
void takeLeast(double* r, int from, int to, const Place& place, const Branch& branch);

// r[k] = the branch, which reaches all columns of the chunk.
void setTo(double* r, const Place& place, const Branch& branch);

// Is any a[k] < b[k]?
bool anyLess(const double* a, const double* b);

Extremes extremes(const double* r);

// Lowers the outer surface to lo where lo is less.
Loss lowerOuter(double* outer, CutId* cuts, const double* lo, CutId cut);

// Raises the inner surface to hi where hi is greater.
Loss raiseInner(double* inner, CutId* cuts, const double* hi, CutId cut);

// Can the whole chunk be cut by lowering its outer surface: each column either misses the sweep or loses its outside
// and keeps its inside? Columns that the sweep does not reach have lo = infinity.
bool onlyLowers(const double* outer, const double* inner, const double* lo, const double* hi);

// The same for raising the inner surface. Columns that the sweep does not reach have hi = -infinity.
bool onlyRaises(const double* outer, const double* inner, const double* lo, const double* hi);

// Sum of outer² - inner².
double areaBetween(const double* outer, const double* inner);

}  // namespace firstoff::kernel
