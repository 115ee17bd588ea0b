#include "sim/stock/column_kernels.h"

#include <cmath>
#include <limits>

#include "sim/stock/grid.h"

// One copy for every x86-64 and one for those with 256-bit vectors, chosen when the program starts. No fused
// operations: both give the same bits. Sanitizers do not get on with that choice, nor is it known to other processors.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define FIRSTOFF_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define FIRSTOFF_WIDE
#endif

namespace firstoff::kernel {

namespace {

constexpr int kColumns = kChunkColumns;
constexpr double kInf = std::numeric_limits<double>::infinity();

// A loss gathered in lanes, lane l taking every eighth column.
struct LaneLoss {
    double area[kLanes] = {};
    double deepest[kLanes] = {};
    double column[kLanes] = {};
    double least[kLanes] = {kInf, kInf, kInf, kInf, kInf, kInf, kInf, kInf};
    double most[kLanes] = {};
};

Loss summed(const LaneLoss& lanes) {
    Loss loss{0, 0, 0, kInf, 0};
    for (int l = 0; l < kLanes; ++l) {
        loss.area += lanes.area[l];
        if (lanes.deepest[l] > loss.deepest) {
            loss.deepest = lanes.deepest[l];
            loss.column = static_cast<int>(lanes.column[l]);
        }
        loss.minR = lanes.least[l] < loss.minR ? lanes.least[l] : loss.minR;
        loss.maxR = lanes.most[l] > loss.maxR ? lanes.most[l] : loss.maxR;
    }
    return loss;
}

}  // namespace

FIRSTOFF_WIDE void takeLeast(double* __restrict r, int from, int to, const Place& place, const Branch& branch) {
    const double z0 = place.z0, pitch = place.pitch, base = place.base;
    const double zFrom = branch.zFrom, zTo = branch.zTo, a = branch.a, b = branch.b, c = branch.c;
    if (branch.kind == Branch::Kind::Line) {
        for (int g = from; g < to; g += kLanes) {
            for (int l = 0; l < kLanes; ++l) {
                const double z = z0 + (base + (static_cast<double>(g + l) + 0.5)) * pitch;
                double v = a + b * (z - c);
                v = (z >= zFrom) & (z <= zTo) ? v : kInf;
                r[g + l] = v < r[g + l] ? v : r[g + l];
            }
        }
        return;
    }
    const double sign = branch.kind == Branch::Kind::Under ? -1.0 : 1.0;
    for (int g = from; g < to; g += kLanes) {
        for (int l = 0; l < kLanes; ++l) {
            const double z = z0 + (base + (static_cast<double>(g + l) + 0.5)) * pitch;
            const double x = z - c;
            double h = b - x * x;
            h = h > 0 ? h : 0;
            double v = a + sign * std::sqrt(h);
            v = (z >= zFrom) & (z <= zTo) ? v : kInf;
            r[g + l] = v < r[g + l] ? v : r[g + l];
        }
    }
}

FIRSTOFF_WIDE bool anyLess(const double* a, const double* b) {
    std::int64_t any = 0;
    for (int k = 0; k < kColumns; ++k) any |= a[k] < b[k] ? 1 : 0;
    return any != 0;
}

FIRSTOFF_WIDE Extremes extremes(const double* r) {
    double lo[kLanes], hi[kLanes];
    for (int l = 0; l < kLanes; ++l) lo[l] = hi[l] = r[l];
    for (int g = kLanes; g < kColumns; g += kLanes) {
        for (int l = 0; l < kLanes; ++l) {
            lo[l] = r[g + l] < lo[l] ? r[g + l] : lo[l];
            hi[l] = r[g + l] > hi[l] ? r[g + l] : hi[l];
        }
    }
    Extremes e{lo[0], hi[0]};
    for (int l = 1; l < kLanes; ++l) {
        e.min = lo[l] < e.min ? lo[l] : e.min;
        e.max = hi[l] > e.max ? hi[l] : e.max;
    }
    return e;
}

FIRSTOFF_WIDE Loss lowerOuter(double* __restrict outer, CutId* __restrict cuts, const double* __restrict lo,
                              CutId cut) {
    for (int k = 0; k < kColumns; ++k) cuts[k] = lo[k] < outer[k] ? cut : cuts[k];
    LaneLoss lanes;
    for (int g = 0; g < kColumns; g += kLanes) {
        for (int l = 0; l < kLanes; ++l) {
            const double before = outer[g + l];
            const double after = lo[g + l] < before ? lo[g + l] : before;
            const double depth = before - after;
            outer[g + l] = after;
            lanes.area[l] += depth * (before + after);
            lanes.column[l] = depth > lanes.deepest[l] ? static_cast<double>(g + l) : lanes.column[l];
            lanes.deepest[l] = depth > lanes.deepest[l] ? depth : lanes.deepest[l];
            lanes.least[l] = after < lanes.least[l] ? after : lanes.least[l];
            lanes.most[l] = after > lanes.most[l] ? after : lanes.most[l];
        }
    }
    return summed(lanes);
}

FIRSTOFF_WIDE Loss raiseInner(double* __restrict inner, CutId* __restrict cuts, const double* __restrict hi,
                              CutId cut) {
    for (int k = 0; k < kColumns; ++k) cuts[k] = hi[k] > inner[k] ? cut : cuts[k];
    LaneLoss lanes;
    for (int g = 0; g < kColumns; g += kLanes) {
        for (int l = 0; l < kLanes; ++l) {
            const double before = inner[g + l];
            const double after = hi[g + l] > before ? hi[g + l] : before;
            const double depth = after - before;
            inner[g + l] = after;
            lanes.area[l] += depth * (before + after);
            lanes.column[l] = depth > lanes.deepest[l] ? static_cast<double>(g + l) : lanes.column[l];
            lanes.deepest[l] = depth > lanes.deepest[l] ? depth : lanes.deepest[l];
            lanes.least[l] = after < lanes.least[l] ? after : lanes.least[l];
            lanes.most[l] = after > lanes.most[l] ? after : lanes.most[l];
        }
    }
    return summed(lanes);
}

FIRSTOFF_WIDE bool onlyLowers(const double* outer, const double* inner, const double* lo, const double* hi) {
    std::int64_t other = 0;
    for (int k = 0; k < kColumns; ++k) {
        const bool missed = lo[k] >= outer[k];
        const bool lowered = (hi[k] >= outer[k]) & (lo[k] > inner[k]);
        other |= missed | lowered ? 0 : 1;
    }
    return other == 0;
}

FIRSTOFF_WIDE bool onlyRaises(const double* outer, const double* inner, const double* lo, const double* hi) {
    std::int64_t other = 0;
    for (int k = 0; k < kColumns; ++k) {
        const bool missed = (hi[k] <= inner[k]) | (lo[k] >= hi[k]);
        const bool raised = (lo[k] <= inner[k]) & (hi[k] < outer[k]);
        other |= missed | raised ? 0 : 1;
    }
    return other == 0;
}

FIRSTOFF_WIDE double areaBetween(const double* outer, const double* inner) {
    double area[kLanes] = {};
    for (int g = 0; g < kColumns; g += kLanes) {
        for (int l = 0; l < kLanes; ++l) {
            const double o = outer[g + l];
            const double i = inner[g + l];
            area[l] += (o - i) * (o + i);
        }
    }
    double sum = 0;
    for (int l = 0; l < kLanes; ++l) sum += area[l];
    return sum;
}

}  // namespace firstoff::kernel
