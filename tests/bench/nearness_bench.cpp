// How long it takes to know how near bodies are, and the same certainty by brute force: the bodies stepped along so
// finely that nothing moves further than 0.01 mm between two steps, measured at each by the same exact distances. The
// ratio is between the two in one run.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <ctime>
#include <limits>
#include <utility>
#include <vector>

#include "sim/base/units.h"
#include "sim/clearance/nearness.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/outline_chains.h"
#include "tests/bench/nearness_scenes.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr double kStepMm = 0.01;

// Of the processor, so that the ratio does not depend on who else has work for it.
double seconds(std::clock_t since) {
    return static_cast<double>(std::clock() - since) / CLOCKS_PER_SEC;
}

// A shaft of 80 mm turned in steps, a cone and some waves, 160 mm long.
const Billet& shaft() {
    static const Billet made = [] {
        Stock stock;
        stock.outerRadius = 40;
        stock.frontZ = 160;
        Billet billet(stock);
        const ToolShape blade = toolShape(roundedPolygon({{0, 0}, {3, 0}, {3, 60}, {0, 60}}, {0.4, 0.4, 0, 0}));
        const auto cut = [&](Point from, Point to) {
            Sweep sweep;
            sweep.from = from;
            sweep.to = to;
            billet.cut(sweep, blade, 1);
        };
        cut({162, 30}, {80, 30});
        cut({162, 20}, {120, 20});
        cut({162, 10}, {140, 20});
        cut({60, 41}, {60, 25});
        const auto wave = [](int i) { return Point{150 - i * 0.1, 19 - 3 * std::abs(std::sin(i * 0.05))}; };
        for (int i = 0; i < 200; ++i) cut(wave(i), wave(i + 1));
        return billet;
    }();
    return made;
}

const BodyShape& holder() {
    static const BodyShape made(bench::holderPieces());
    return made;
}

// A disc of 220 mm with twelve blocks, shanks and bars.
const BodyShape& turret() {
    static const BodyShape made = [] {
        std::vector<ConvexPiece> pieces{cylinderPiece(0, 60, 110, 150, 0)};
        for (int k = 0; k < 12; ++k) {
            const double turn = k * kPi / 6;
            pieces.push_back(turnedAbout(150, turn, boxPiece({-20, -10, -10}, {0, 100, 10})));
            pieces.push_back(turnedAbout(150, turn, boxPiece({-10, 40, -30}, {60, 110, 30})));
            pieces.push_back(turnedAbout(150, turn, cylinderPiece(-80, 0, 10, 30, 0)));
        }
        return BodyShape(pieces);
    }();
    return made;
}

const BodyShape& chuck() {
    static const BodyShape made({cylinderPiece(-80, 0, 82), cylinderPiece(0, 30, 60)});
    return made;
}

// Straight moves that start some mm above the bar.
std::vector<Placing> moves(double above) {
    shop::Dice dice(3);
    std::vector<Placing> all;
    for (int i = 0; i < 1000; ++i) {
        const Point from{dice.between(-20, 180), 40 + above + dice.between(0, 5)};
        all.push_back(Placing::along(from, from + Point{dice.between(-20, 20), dice.between(0, 20)}));
    }
    return all;
}

void nearnessOfPieces(benchmark::State& state) {
    shop::Dice dice(1);
    std::vector<BodyShape> bodies;
    for (int i = 0; i < 500; ++i) {
        const SpacePoint at{dice.between(0, 100), dice.between(0, 100), dice.between(0, 100)};
        const double size = dice.between(1, 30);
        bodies.emplace_back(std::vector{i % 2 == 0 ? boxPiece(at, at + SpacePoint{size, 20, 10})
                                                   : cylinderPiece(at.z, at.z + 20, size, at.r, at.y)});
    }
    Placing turned = Placing::along({0, 0}, {3, 7});
    turned.turn = 0.4;
    std::size_t i = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(nearness(bodies[i % 500], turned, bodies[(i * 7 + 1) % 500], Placing{}).gap);
        ++i;
    }
}
BENCHMARK(nearnessOfPieces)->Unit(benchmark::kMicrosecond);

// `above`: mm from the bar at the start; `beyond`: gaps above that need not be known, 0 for all.
void nearnessOfHolderToBillet(benchmark::State& state) {
    const BilletHull hull(shaft());
    const std::vector<Placing> all = moves(static_cast<double>(state.range(0)));
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    std::size_t i = 0;
    for (auto _ : state) benchmark::DoNotOptimize(hull.nearness(holder(), all[i++ % all.size()], beyond).gap);
}
BENCHMARK(nearnessOfHolderToBillet)
    ->ArgNames({"above", "beyond"})
    ->Args({5, 2})
    ->Args({5, 0})
    ->Args({-10, 2})
    ->Args({-10, 0})
    ->Unit(benchmark::kMicrosecond);

void nearnessOfOutlineInPlane(benchmark::State& state) {
    const Outline outline = roundedPolygon({{0, 0}, {20, 0}, {20, 100}, {0, 100}}, {2, 2, 0, 0});
    const std::vector<Placing> all = moves(static_cast<double>(state.range(0)));
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    std::size_t i = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(nearnessInPlane(shaft(), outline, all[i++ % all.size()], beyond).gap);
    }
}
BENCHMARK(nearnessOfOutlineInPlane)
    ->ArgNames({"above", "beyond"})
    ->Args({5, 2})
    ->Args({5, 0})
    ->Args({-10, 2})
    ->Args({-10, 0})
    ->Unit(benchmark::kMicrosecond);

void makeHull(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(BilletHull(shaft()));
}
BENCHMARK(makeHull)->Unit(benchmark::kMicrosecond);

void updateHull(benchmark::State& state) {
    BilletHull hull(shaft());
    for (auto _ : state) hull.update(shaft(), 100, 101);
}
BENCHMARK(updateHull)->Unit(benchmark::kMicrosecond);

// A move of 40 mm past the chuck, and the same stepped through.
void sweepAgainstStepping(benchmark::State& state) {
    const Point from{60, 95}, to{55, 55};
    Nearness n;
    for (auto _ : state) {
        n = nearness(holder(), Placing::along(from, to), chuck(), {});
        benchmark::DoNotOptimize(std::as_const(n.gap));
    }
    const int steps = static_cast<int>(std::ceil(distance(from, to) / kStepMm));
    const auto start = std::clock();
    constexpr int kTimes = 5000;
    for (int i = 0; i < kTimes; ++i) {
        benchmark::DoNotOptimize(nearness(holder(), Placing::along(from, to), chuck(), {}).gap);
    }
    const double direct = seconds(start) / kTimes;
    const auto startStepping = std::clock();
    double least = kInf;
    for (int k = 0; k <= steps; ++k) {
        const Point at = from + (double(k) / steps) * (to - from);
        least = std::min(least, nearness(holder(), Placing::at(at), chuck(), {}, least).gap);
    }
    state.counters["steps"] = steps;
    const double stepping = seconds(startStepping);
    state.counters["stepping_us"] = 1e6 * stepping;
    state.counters["stepping_takes_times"] = stepping / direct;
    state.counters["gap_mm"] = n.gap;
    state.counters["stepping_gap_mm"] = least;
}
BENCHMARK(sweepAgainstStepping)->Unit(benchmark::kMicrosecond);

// A quarter turn of the turret beside the chuck (0) or the bar (1), `beyond` as above.
void swingAgainstStepping(benchmark::State& state) {
    const BilletHull hull(shaft());
    const bool bar = state.range(0) == 1;
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    Placing at = Placing::at({100, bar ? 62.0 : 50.0});
    at.axisR = 150;
    const double turnTo = kPi / 2;
    const auto swing = [&] {
        return bar ? hull.nearnessOfSwing(turret(), at, turnTo, beyond)
                   : nearnessOfSwing(turret(), at, turnTo, chuck(), Placing{}, beyond);
    };
    SwingNearness n;
    for (auto _ : state) {
        n = swing();
        benchmark::DoNotOptimize(std::as_const(n.fraction));
    }
    const int steps = static_cast<int>(std::ceil(turret().reach(150) * turnTo / kStepMm));
    auto start = std::clock();
    constexpr int kTimes = 100;
    for (int i = 0; i < kTimes; ++i) {
        n = swing();
        benchmark::DoNotOptimize(std::as_const(n.fraction));
    }
    const double direct = seconds(start) / kTimes;
    start = std::clock();
    double least = beyond;
    for (int k = 0; k <= steps; ++k) {
        at.turn = turnTo * k / steps;
        const double gap =
            bar ? hull.nearness(turret(), at, least).gap : nearness(turret(), at, chuck(), Placing{}, least).gap;
        least = std::min(least, gap);
    }
    const double stepping = seconds(start);
    state.counters["steps"] = steps;
    state.counters["stepping_us"] = 1e6 * stepping;
    state.counters["stepping_takes_times"] = stepping / direct;
    state.counters["gap_mm"] = n.nearest.gap;
    state.counters["stepping_gap_mm"] = least;
}
BENCHMARK(swingAgainstStepping)
    ->ArgNames({"bar", "beyond"})
    ->Args({0, 2})
    ->Args({0, 0})
    ->Args({1, 2})
    ->Args({1, 0})
    ->Unit(benchmark::kMicrosecond);

void makeMesh(benchmark::State& state) {
    std::vector<ConvexPiece> triangles = bench::chuckMesh(static_cast<int>(state.range(0)));
    double shift = 0;
    for (auto _ : state) {
        // Never the same twice, so that none is kept from before.
        if (state.range(1) == 0) triangles[0].corners[0].z = -80 - (shift += 1e-6);
        benchmark::DoNotOptimize(BodyShape(triangles, true));
    }
    state.counters["triangles"] = static_cast<double>(triangles.size());
}
BENCHMARK(makeMesh)
    ->ArgNames({"triangles", "kept"})
    ->Args({100'000, 0})
    ->Args({100'000, 1})
    ->Unit(benchmark::kMillisecond);

// The holder on moves some mm off a mesh of 100,000 triangles.
void nearnessOfHolderToMesh(benchmark::State& state) {
    const BodyShape mesh(bench::chuckMesh(100'000), true);
    const std::vector<Point> starts = bench::startsBeside(static_cast<double>(state.range(0)));
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    std::size_t i = 0;
    for (auto _ : state) {
        const Point from = starts[i++ % starts.size()];
        const Nearness n = nearness(holder(), Placing::along(from, from + Point{10, 10}), mesh, {}, beyond);
        benchmark::DoNotOptimize(std::as_const(n.gap));
    }
}
BENCHMARK(nearnessOfHolderToMesh)
    ->ArgNames({"off", "beyond"})
    ->Args({5, 2})
    ->Args({5, 0})
    ->Args({-5, 2})
    ->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace firstoff
