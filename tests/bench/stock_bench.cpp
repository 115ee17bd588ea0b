// Cutting, seeking and sections of a long contour program; the same moves by a general-purpose polygon library are in
// geos_bench.cpp.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <ctime>
#include <fstream>
#include <map>
#include <memory>
#include <string>

#include "sim/stock/billet_columns.h"
#include "sim/stock/history.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

using Clock = std::chrono::steady_clock;

struct Job {
    Setup setup = shop::wavyContourSetup();
    shop::TipPath path;
    explicit Job(std::uint32_t moves) : path(shop::wavyContour(setup, moves)) {}
};

const Job& job(std::uint32_t moves) {
    static std::map<std::uint32_t, std::unique_ptr<Job>> jobs;
    std::unique_ptr<Job>& slot = jobs[moves];
    if (!slot) slot = std::make_unique<Job>(moves);
    return *slot;
}

double peakMegabytes() {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);) {
        if (line.rfind("VmHWM:", 0) == 0) return std::stod(line.substr(6)) / 1024;
    }
    return 0;
}

void cutContour(benchmark::State& state) {
    const Job& scene = job(static_cast<std::uint32_t>(state.range(0)));
    HistoryOptions options;
    options.threads = static_cast<int>(state.range(1));
    std::shared_ptr<const StockHistory> history;
    for (auto _ : state) {
        history = StockHistory::cut(scene.path.timeline(), scene.path.toolpath(), scene.setup, options);
    }
    state.counters["moves_per_s"] =
        benchmark::Counter(static_cast<double>(state.range(0)), benchmark::Counter::kIsIterationInvariantRate);
    state.counters["keyframes"] = static_cast<double>(history->keyframeCount());
    state.counters["history_MB"] = static_cast<double>(history->bytes()) / (1 << 20);
    state.counters["process_peak_MB"] = peakMegabytes();
}
BENCHMARK(cutContour)
    ->ArgNames({"moves", "threads"})
    ->Args({10'000, 1})
    ->Args({10'000, 2})
    ->Args({100'000, 2})
    ->Args({1'000'000, 1})
    ->Args({1'000'000, 2})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

const std::shared_ptr<const StockHistory>& historyOf(std::uint32_t moves) {
    static std::map<std::uint32_t, std::shared_ptr<const StockHistory>> histories;
    std::shared_ptr<const StockHistory>& slot = histories[moves];
    if (!slot) slot = StockHistory::cut(job(moves).path.timeline(), job(moves).path.toolpath(), job(moves).setup);
    return slot;
}

void seekRandom(benchmark::State& state) {
    const auto moves = static_cast<std::uint32_t>(state.range(0));
    StockCursor cursor(historyOf(moves));
    shop::Dice dice(1);
    std::vector<double> milliseconds;
    std::vector<double> processor;  // the same in processor time, which other programs do not lengthen
    for (auto _ : state) {
        for (int i = 0; i < 1000; ++i) {
            const std::uint32_t move = dice.below(moves);
            const double fraction = dice.fraction();
            const auto start = Clock::now();
            const std::clock_t busy = std::clock();
            cursor.seek(move, fraction);
            processor.push_back(1000.0 * static_cast<double>(std::clock() - busy) / CLOCKS_PER_SEC);
            milliseconds.push_back(std::chrono::duration<double, std::milli>(Clock::now() - start).count());
        }
    }
    const auto share = [](std::vector<double>& times, double part) {
        std::sort(times.begin(), times.end());
        return times[static_cast<std::size_t>(part * static_cast<double>(times.size() - 1))];
    };
    state.counters["p50_ms"] = share(milliseconds, 0.5);
    state.counters["p99_ms"] = share(milliseconds, 0.99);
    state.counters["max_ms"] = share(milliseconds, 1);
    state.counters["p50_cpu_ms"] = share(processor, 0.5);
    state.counters["p99_cpu_ms"] = share(processor, 0.99);
}
BENCHMARK(seekRandom)->ArgNames({"moves"})->Arg(1'000'000)->Unit(benchmark::kMillisecond)->Iterations(1);

void section(benchmark::State& state) {
    const auto moves = static_cast<std::uint32_t>(state.range(0));
    StockCursor cursor(historyOf(moves));
    cursor.seek(moves / 2, 0.5);
    std::size_t points = 0;
    for (auto _ : state) {
        const std::vector<Loop> loops = cursor.section(static_cast<double>(state.range(1)) / 10000);
        points = 0;
        for (const Loop& loop : loops) points += loop.points.size();
        benchmark::DoNotOptimize(points);
    }
    state.counters["points"] = static_cast<double>(points);
    state.counters["columns"] = cursor.billet().grid().columns;
}
BENCHMARK(section)
    ->ArgNames({"moves", "tolerance_0.1um"})
    ->Args({1'000'000, 5})
    ->Args({1'000'000, 200})
    ->Unit(benchmark::kMillisecond);

void cutScene(benchmark::State& state, shop::Scene (*scene)(std::uint32_t)) {
    const shop::Scene work = scene(static_cast<std::uint32_t>(state.range(0)));
    HistoryOptions options;
    options.threads = 1;
    std::shared_ptr<const StockHistory> history;
    for (auto _ : state) {
        history = StockHistory::cut(work.path.timeline(), work.path.toolpath(), work.setup, options);
    }
    state.counters["s_per_move"] = benchmark::Counter(
        work.path.moves(), benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
    state.counters["removed_mm3"] = history->startVolumeMm3() - history->endVolumeMm3();
}
BENCHMARK_CAPTURE(cutScene, facing, shop::facing)->Arg(100'000)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cutScene, boring, shop::boring)->Arg(100'000)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cutScene, longPasses, shop::longPasses)->Arg(10'000)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cutScene, backTurning, shop::backTurning)->Arg(20'000)->Unit(benchmark::kMillisecond);

// M24 x 3, 40 mm long, in 14 passes, at so many sectors.
void cutThread(benchmark::State& state) {
    auto setup = shop::barStock(24, 60);
    shop::addFullProfile(setup, 5, 3);
    shop::TipPath path(setup);
    shop::cutThread(path, 5, setup.stock.frontZ, {});
    HistoryOptions options;
    options.threads = static_cast<int>(state.range(1));
    options.sectors = static_cast<int>(state.range(0));
    std::shared_ptr<const StockHistory> history;
    for (auto _ : state) {
        history.reset();
        history = StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
    }
    state.counters["keyframes"] = static_cast<double>(history->keyframeCount());
    state.counters["history_MB"] = static_cast<double>(history->bytes()) / (1 << 20);
}
BENCHMARK(cutThread)
    ->ArgNames({"sectors", "threads"})
    ->Args({256, 1})
    ->Args({256, 2})
    ->Args({64, 2})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

}  // namespace
}  // namespace firstoff
