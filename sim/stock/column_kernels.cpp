#include "sim/stock/column_kernels.h"

#include <cmath>
#include <cstring>
#include <limits>

#include "sim/stock/grid.h"

// One copy for every x86-64 and one for those with 256-bit vectors, chosen when the program starts. No fused
// operations: both give the same bits. Sanitizers do not get on with that choice, nor is it known to other processors.
#if !defined(FIRSTOFF_PLAIN_KERNELS) && defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define FIRSTOFF_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define FIRSTOFF_WIDE
#endif

namespace firstoff::kernel {

namespace {

constexpr int kColumns = kChunkColumns;
constexpr double kInf = std::numeric_limits<double>::infinity();

// Four numbers at a time, whatever the processor does them in. Lane l takes every fourth column, so that sums have one
// order everywhere.
constexpr int kWidth = 4;
typedef double Lanes __attribute__((vector_size(kWidth * sizeof(double))));

// A loss gathered in lanes.
struct LaneLoss {
    Lanes area{0, 0, 0, 0}, deepest{0, 0, 0, 0}, column{0, 0, 0, 0}, most{0, 0, 0, 0};
    Lanes least{kInf, kInf, kInf, kInf};
};

struct alignas(64) Halves {
    double at[kColumns];
    constexpr Halves() : at() {
        for (int k = 0; k < kColumns; ++k) at[k] = k + 0.5;
    }
};
constexpr Halves kHalves;

Loss summed(const LaneLoss& lanes) {
    Loss loss{0, 0, 0, kInf, 0};
    for (int l = 0; l < kWidth; ++l) {
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
        for (int k = from; k < to; ++k) {
            const double z = z0 + (base + kHalves.at[k]) * pitch;
            double v = a + b * (z - c);
            v = ((z >= zFrom) & (z <= zTo)) ? v : kInf;
            r[k] = v < r[k] ? v : r[k];
        }
        return;
    }
    const double sign = branch.kind == Branch::Kind::Under ? -1.0 : 1.0;
    for (int k = from; k < to; ++k) {
        const double z = z0 + (base + kHalves.at[k]) * pitch;
        const double x = z - c;
        double h = b - x * x;
        h = h > 0 ? h : 0;
        double v = a + sign * std::sqrt(h);
        v = ((z >= zFrom) & (z <= zTo)) ? v : kInf;
        r[k] = v < r[k] ? v : r[k];
    }
}

FIRSTOFF_WIDE void setTo(double* __restrict r, const Place& place, const Branch& branch) {
    const double z0 = place.z0, pitch = place.pitch, base = place.base;
    const double a = branch.a, b = branch.b, c = branch.c;
    if (branch.kind == Branch::Kind::Line) {
        for (int k = 0; k < kColumns; ++k) {
            const double z = z0 + (base + kHalves.at[k]) * pitch;
            r[k] = a + b * (z - c);
        }
        return;
    }
    const double sign = branch.kind == Branch::Kind::Under ? -1.0 : 1.0;
    for (int k = 0; k < kColumns; ++k) {
        const double x = z0 + (base + kHalves.at[k]) * pitch - c;
        const double h = b - x * x;
        r[k] = a + sign * std::sqrt(h > 0 ? h : 0);
    }
}

FIRSTOFF_WIDE bool anyLess(const double* __restrict a, const double* __restrict b) {
    std::int64_t any = 0;
    for (int k = 0; k < kColumns; ++k) any |= a[k] < b[k] ? 1 : 0;
    return any != 0;
}

FIRSTOFF_WIDE Extremes extremes(const double* r) {
    Lanes least{kInf, kInf, kInf, kInf};
    Lanes most{-kInf, -kInf, -kInf, -kInf};
    for (int g = 0; g < kColumns; g += kWidth) {
        Lanes v;
        std::memcpy(&v, r + g, sizeof v);
        least = v < least ? v : least;
        most = v > most ? v : most;
    }
    Extremes e{least[0], most[0]};
    for (int l = 1; l < kWidth; ++l) {
        e.min = least[l] < e.min ? least[l] : e.min;
        e.max = most[l] > e.max ? most[l] : e.max;
    }
    return e;
}

FIRSTOFF_WIDE Loss lowerOuter(double* __restrict outer, CutId* __restrict cuts, const double* __restrict lo,
                              CutId cut) {
    for (int k = 0; k < kColumns; ++k) cuts[k] = lo[k] < outer[k] ? cut : cuts[k];
    LaneLoss lanes;
    for (int g = 0; g < kColumns; g += kWidth) {
        Lanes before, wanted, column;
        std::memcpy(&before, outer + g, sizeof before);
        std::memcpy(&wanted, lo + g, sizeof wanted);
        std::memcpy(&column, kHalves.at + g, sizeof column);
        const Lanes after = wanted < before ? wanted : before;
        const Lanes depth = before - after;
        std::memcpy(outer + g, &after, sizeof after);
        lanes.area += depth * (before + after);
        lanes.column = depth > lanes.deepest ? column : lanes.column;
        lanes.deepest = depth > lanes.deepest ? depth : lanes.deepest;
        lanes.least = after < lanes.least ? after : lanes.least;
        lanes.most = after > lanes.most ? after : lanes.most;
    }
    return summed(lanes);
}

FIRSTOFF_WIDE Loss raiseInner(double* __restrict inner, CutId* __restrict cuts, const double* __restrict hi,
                              CutId cut) {
    for (int k = 0; k < kColumns; ++k) cuts[k] = hi[k] > inner[k] ? cut : cuts[k];
    LaneLoss lanes;
    for (int g = 0; g < kColumns; g += kWidth) {
        Lanes before, wanted, column;
        std::memcpy(&before, inner + g, sizeof before);
        std::memcpy(&wanted, hi + g, sizeof wanted);
        std::memcpy(&column, kHalves.at + g, sizeof column);
        const Lanes after = wanted > before ? wanted : before;
        const Lanes depth = after - before;
        std::memcpy(inner + g, &after, sizeof after);
        lanes.area += depth * (before + after);
        lanes.column = depth > lanes.deepest ? column : lanes.column;
        lanes.deepest = depth > lanes.deepest ? depth : lanes.deepest;
        lanes.least = after < lanes.least ? after : lanes.least;
        lanes.most = after > lanes.most ? after : lanes.most;
    }
    return summed(lanes);
}

FIRSTOFF_WIDE bool onlyLowers(const double* outer, const double* inner, const double* lo, const double* hi) {
    std::int64_t other = 0;
    for (int k = 0; k < kColumns; ++k) {
        const bool missed = lo[k] >= outer[k];
        const bool lowered = (hi[k] >= outer[k]) & (lo[k] > inner[k]);
        other |= (missed | lowered) ? 0 : 1;
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
    Lanes area{0, 0, 0, 0};
    for (int g = 0; g < kColumns; g += kWidth) {
        Lanes o, i;
        std::memcpy(&o, outer + g, sizeof o);
        std::memcpy(&i, inner + g, sizeof i);
        area += (o - i) * (o + i);
    }
    double sum = 0;
    for (int l = 0; l < kWidth; ++l) sum += area[l];
    return sum;
}

}  // namespace firstoff::kernel
