// The moves of stock_bench.cpp cut by a general-purpose polygon library, for the ratio: per move the convex hull of two
// placements of the insert's polygon (arcs within 1 µm), subtracted from the section. Its time per move grows with the
// section, so the counts are small and the ratio at a million moves would be larger.
#include <benchmark/benchmark.h>

#include "sim/stock/cut_plan.h"
#include "sim/stock/history.h"
#include "tests/support/geos_stock.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kChordErrorMm = 0.001;

void perMove(benchmark::State& state) {
    state.counters["us_per_move"] =
        benchmark::Counter(static_cast<double>(state.range(0)) * 1e-6,
                           benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void cutContourGeos(benchmark::State& state) {
    const Setup setup = shop::wavyContourSetup();
    const shop::TipPath path = shop::wavyContour(setup, static_cast<std::uint32_t>(state.range(0)));
    const CutPlan plan(path.timeline(), path.toolpath(), setup);
    const std::vector<Point> insert = polyline(setup.tools[0].cutting, kChordErrorMm);
    for (auto _ : state) {
        shop::GeosStock metal(setup.stock.backZ, setup.stock.frontZ, 0, setup.stock.outerRadius);
        for (std::uint32_t move = 0; move < plan.moves(); ++move) metal.cut(plan.sweep(move), insert, kChordErrorMm);
        benchmark::DoNotOptimize(metal.area());
    }
    perMove(state);
}
BENCHMARK(cutContourGeos)->ArgNames({"moves"})->Arg(500)->Arg(2000)->Unit(benchmark::kMillisecond);

void cutContourOneThread(benchmark::State& state) {
    const Setup setup = shop::wavyContourSetup();
    const shop::TipPath path = shop::wavyContour(setup, static_cast<std::uint32_t>(state.range(0)));
    HistoryOptions options;
    options.threads = 1;
    for (auto _ : state) StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
    perMove(state);
}
BENCHMARK(cutContourOneThread)->ArgNames({"moves"})->Arg(2000)->Arg(100'000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace firstoff
