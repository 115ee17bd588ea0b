// Debug and release, wide and narrow vectors: the same bits. The kernels as the library has them against the same
// source compiled without optimisation and without vectors of the processor's own width.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstring>

#include "sim/stock/column_kernels.h"
#include "sim/stock/grid.h"
#include "tests/support/tip_path.h"

namespace firstoff {

// As in column_kernels.h, but compiled in plain_kernels.cpp.
namespace plain_kernel {
struct Loss {
    double area, deepest;
    int column;
    double minR, maxR;
};
struct Extremes {
    double min, max;
};
struct Place {
    double z0, pitch, base;
};
void takeLeast(double* r, int from, int to, const Place& place, const Branch& branch);
void setTo(double* r, const Place& place, const Branch& branch);
bool anyLess(const double* a, const double* b);
Extremes extremes(const double* r);
Loss lowerOuter(double* outer, CutId* cuts, const double* lo, CutId cut);
Loss raiseInner(double* inner, CutId* cuts, const double* hi, CutId cut);
bool onlyLowers(const double* outer, const double* inner, const double* lo, const double* hi);
bool onlyRaises(const double* outer, const double* inner, const double* lo, const double* hi);
double areaBetween(const double* outer, const double* inner);
}  // namespace plain_kernel

namespace {

struct alignas(64) Columns {
    std::array<double, kChunkColumns> r;
    double* data() { return r.data(); }
};

bool sameBits(const Columns& a, const Columns& b) {
    return std::memcmp(a.r.data(), b.r.data(), sizeof a.r) == 0;
}

Columns randomColumns(shop::Dice& dice, double from, double to) {
    Columns columns;
    for (double& r : columns.r) r = dice.between(from, to);
    return columns;
}

Branch randomBranch(shop::Dice& dice) {
    Branch branch;
    branch.kind = static_cast<Branch::Kind>(dice.below(3));
    branch.zFrom = dice.between(9.9, 10.1);
    branch.zTo = branch.zFrom + dice.between(0, 0.1);
    branch.c = dice.between(9.5, 10.5);
    branch.a = dice.between(5, 20);
    branch.b = branch.kind == Branch::Kind::Line ? dice.between(-2, 2) : dice.between(0, 1);
    return branch;
}

TEST(Kernels, PlacesAreTheSameBits) {
    shop::Dice dice(1);
    for (int i = 0; i < 500; ++i) {
        const Branch branch = randomBranch(dice);
        const double base = 4900 + dice.below(100);
        Columns a = randomColumns(dice, 5, 20);
        Columns b = a;
        const int from = static_cast<int>(dice.below(8)) * kernel::kLanes;
        const int to = from + static_cast<int>(dice.below(9)) * kernel::kLanes;
        kernel::takeLeast(a.data(), from, std::min(to, kChunkColumns), {0.1, 0.002, base}, branch);
        plain_kernel::takeLeast(b.data(), from, std::min(to, kChunkColumns), {0.1, 0.002, base}, branch);
        ASSERT_TRUE(sameBits(a, b)) << i;
        kernel::setTo(a.data(), {0.1, 0.002, base}, branch);
        plain_kernel::setTo(b.data(), {0.1, 0.002, base}, branch);
        ASSERT_TRUE(sameBits(a, b)) << i;
    }
}

TEST(Kernels, CutsAreTheSameBits) {
    shop::Dice dice(2);
    for (int i = 0; i < 500; ++i) {
        const Columns wanted = randomColumns(dice, 9, 11);
        Columns a = randomColumns(dice, 9, 11);
        Columns b = a;
        std::array<CutId, kChunkColumns> cutsA{};
        std::array<CutId, kChunkColumns> cutsB{};
        const auto check = [&](const kernel::Loss& x, const plain_kernel::Loss& y) {
            EXPECT_EQ(x.area, y.area);
            EXPECT_EQ(x.deepest, y.deepest);
            EXPECT_EQ(x.column, y.column);
            EXPECT_EQ(x.minR, y.minR);
            EXPECT_EQ(x.maxR, y.maxR);
            EXPECT_TRUE(sameBits(a, b));
            EXPECT_EQ(cutsA, cutsB);
        };
        check(kernel::lowerOuter(a.data(), cutsA.data(), wanted.r.data(), 5),
              plain_kernel::lowerOuter(b.data(), cutsB.data(), wanted.r.data(), 5));
        const Columns more = randomColumns(dice, 9, 11);
        check(kernel::raiseInner(a.data(), cutsA.data(), more.r.data(), 6),
              plain_kernel::raiseInner(b.data(), cutsB.data(), more.r.data(), 6));
        EXPECT_EQ(kernel::areaBetween(a.data(), wanted.r.data()), plain_kernel::areaBetween(b.data(), wanted.r.data()));
        EXPECT_EQ(kernel::extremes(a.data()).min, plain_kernel::extremes(b.data()).min);
        EXPECT_EQ(kernel::extremes(a.data()).max, plain_kernel::extremes(b.data()).max);
    }
}

TEST(Kernels, QuestionsHaveTheSameAnswers) {
    shop::Dice dice(3);
    int yes = 0;
    for (int i = 0; i < 2000; ++i) {
        const double span = dice.between(0, 1);
        const Columns outer = randomColumns(dice, 10, 10 + span);
        const Columns inner = randomColumns(dice, 8, 8 + span);
        const Columns lo = randomColumns(dice, 7.9, 8 + 2.2 * dice.fraction());
        Columns hi = lo;
        for (double& r : hi.r) r += dice.between(0, 3);
        const bool lowers = kernel::onlyLowers(outer.r.data(), inner.r.data(), lo.r.data(), hi.r.data());
        const bool raises = kernel::onlyRaises(outer.r.data(), inner.r.data(), lo.r.data(), hi.r.data());
        const bool less = kernel::anyLess(lo.r.data(), inner.r.data());
        EXPECT_EQ(lowers, plain_kernel::onlyLowers(outer.r.data(), inner.r.data(), lo.r.data(), hi.r.data()));
        EXPECT_EQ(raises, plain_kernel::onlyRaises(outer.r.data(), inner.r.data(), lo.r.data(), hi.r.data()));
        EXPECT_EQ(less, plain_kernel::anyLess(lo.r.data(), inner.r.data()));
        yes += less ? 1 : 0;
    }
    EXPECT_GT(yes, 100);
}

}  // namespace
}  // namespace firstoff
