// The moves of stock_bench.cpp cut by a general-purpose polygon library, for the ratio: per move the convex hull of two
// placements of the insert's polygon (arcs within 0.1 µm), subtracted from the section. Its time per move grows with
// the section, so it is taken over the last 200 moves: after 500 moves, and in the second pass along the bar, where the
// section has about as many corners as the program has moves in a pass. Processor time on both sides, one thread. What
// the billet gives besides - the volume of each move, who cut which surface, history - the library does not.
#include <benchmark/benchmark.h>

#include <ctime>

#include "sim/stock/cut_plan.h"
#include "sim/stock/history.h"
#include "tests/support/geos_stock.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kChordErrorMm = 0.0001;
constexpr std::uint32_t kTimedMoves = 200;

void perMove(benchmark::State& state, double moves) {
    state.counters["s_per_move"] =
        benchmark::Counter(moves, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void cutContourGeos(benchmark::State& state) {
    const Setup setup = shop::wavyContourSetup();
    const shop::TipPath path = shop::wavyContour(setup, static_cast<std::uint32_t>(state.range(0)));
    const CutPlan plan(path.timeline(), path.toolpath(), setup);
    const std::vector<Point> insert = polyline(setup.tools[0].cutting, kChordErrorMm);
    for (auto _ : state) {
        shop::GeosStock metal(setup.stock.backZ, setup.stock.frontZ, 0, setup.stock.outerRadius);
        std::clock_t start = 0;
        for (std::uint32_t move = 0; move < plan.moves(); ++move) {
            if (move + kTimedMoves == plan.moves()) start = std::clock();
            metal.cut(plan.sweep(move), insert, kChordErrorMm);
        }
        state.SetIterationTime(static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
        benchmark::DoNotOptimize(metal.area());
    }
    perMove(state, kTimedMoves);
}
BENCHMARK(cutContourGeos)
    ->ArgNames({"moves"})
    ->Arg(500)
    ->Arg(10'000)
    ->Unit(benchmark::kMillisecond)
    ->Iterations(1)
    ->UseManualTime();

void cutContourOneThread(benchmark::State& state) {
    const Setup setup = shop::wavyContourSetup();
    const shop::TipPath path = shop::wavyContour(setup, static_cast<std::uint32_t>(state.range(0)));
    HistoryOptions options;
    options.threads = 1;
    for (auto _ : state) StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
    perMove(state, static_cast<double>(state.range(0)));
}
BENCHMARK(cutContourOneThread)->ArgNames({"moves"})->Arg(2000)->Arg(100'000)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace firstoff
