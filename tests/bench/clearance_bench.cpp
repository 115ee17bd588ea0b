// Clearances of a whole program: all bodies against all others on every move, margins included.
#include <benchmark/benchmark.h>

#include <cmath>
#include <string>

#include "sim/base/units.h"
#include "sim/trial/trial.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

// A turret of twelve stations, each with a tool, round the wavy contour that the other rows cut.
Setup crowdedTurret() {
    Setup setup = shop::wavyContourSetup();
    Turret turret = *setup.turret;
    turret.axisR = setup.machine.turretRadius + 42;
    turret.headRadius = 0.6 * setup.machine.turretRadius;
    turret.headLength = 120;
    setup.turret = turret;
    setup.toolBlock = {{0, setup.machine.turretThickness - 5}, {}, 60};
    const Tool first = setup.tools.front();
    for (int station = 1; station <= setup.machine.stations; ++station) {
        if (setup.toolAt(station)) continue;
        Tool tool = first;
        tool.station = station;
        setup.tools.push_back(tool);
    }
    return setup;
}

void clearanceOfContour(benchmark::State& state) {
    const auto moves = static_cast<std::uint32_t>(state.range(0));
    const Setup setup = crowdedTurret();
    const shop::TipPath path = shop::wavyContour(setup, moves);
    const auto stock = StockHistory::cut(path.timeline(), path.toolpath(), setup);
    ClearanceOptions options;
    options.threads = 2;
    options.margins = state.range(1) != 0;
    ClearanceResult result;
    for (auto _ : state) result = checkClearances(path.timeline(), path.toolpath(), setup, stock, options);
    state.counters["pairs"] = static_cast<double>(result.pairs.size());
    state.counters["us_per_move"] = benchmark::Counter(1e-6 * moves, benchmark::Counter::kIsIterationInvariantRate |
                                                                         benchmark::Counter::kInvert);
}
BENCHMARK(clearanceOfContour)
    ->ArgNames({"moves", "margins"})
    ->Args({10'000, 0})
    ->Args({100'000, 0})
    ->Args({100'000, 1})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
}  // namespace firstoff
