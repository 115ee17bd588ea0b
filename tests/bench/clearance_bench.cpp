// Clearances of a whole program: all bodies against all others on every move, margins included.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "sim/base/units.h"
#include "sim/clearance/nearness.h"
#include "sim/output/setup_files.h"
#include "sim/stock/billet_columns.h"
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
    state.counters["us_per_move"] =
        benchmark::Counter(1e-6 * moves, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(clearanceOfContour)
    ->ArgNames({"moves", "margins"})
    ->Args({10'000, 0})
    ->Args({100'000, 0})
    ->Args({100'000, 1})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

// The job with twelve tools, its set-up with the machine and tool files it names.
struct Sleeve {
    Program program;
    Setup setup;
};
Sleeve sleeve() {
    const std::string base = "assets/jobs/union-sleeve";
    return {readProgram(shop::readFile(base + ".nc"), "union-sleeve.nc"),
            readSetup(shop::readFile(base + ".toml"), "union-sleeve.toml",
                      setupFilesBeside(std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml"))};
}

void sleeveWholeTrial(benchmark::State& state) {
    const Sleeve job = sleeve();
    TrialOptions options;
    options.threads = 2;
    for (auto _ : state) benchmark::DoNotOptimize(runTrial(job.program, job.setup, options));
}
BENCHMARK(sleeveWholeTrial)->Unit(benchmark::kMillisecond)->UseRealTime();

void sleeveClearances(benchmark::State& state) {
    const Sleeve job = sleeve();
    const Toolpath path = interpret(job.program, job.setup);
    const Timeline timeline = layOut(path, job.setup);
    const auto stock = StockHistory::cut(timeline, path, job.setup);
    ClearanceOptions options;
    options.threads = 2;
    for (auto _ : state) benchmark::DoNotOptimize(checkClearances(timeline, path, job.setup, stock, options));
    state.counters["us_per_move"] =
        benchmark::Counter(1e-6 * static_cast<double>(timeline.moves.size()),
                           benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(sleeveClearances)->Unit(benchmark::kMillisecond)->UseRealTime();

// The same certainty by steps of time: at each every pair of bodies where it stands. Between two steps nothing goes
// further than twice the bound that the check keeps. One move in twenty, one thread, the billet as it is before the
// move, no margins, no swings: all in favour of the steps.
void sleeveByStepping(benchmark::State& state) {
    constexpr double kStepMm = 0.09;
    constexpr std::size_t kOneIn = 20;
    const Sleeve job = sleeve();
    const Toolpath path = interpret(job.program, job.setup);
    const Timeline timeline = layOut(path, job.setup);
    const auto stock = StockHistory::cut(timeline, path, job.setup);
    const MachineBodies all = machineBodies(job.setup);
    std::vector<BodyShape> shapes;
    for (const MachineBody& body : all.bodies) {
        shapes.push_back(body.pieces.empty() ? BodyShape() : BodyShape(body.pieces, body.isMesh));
    }
    const auto onTurret = [&](std::size_t i) {
        return all.bodies[i].carrier == Carrier::Turret || all.bodies[i].carrier == Carrier::TurretSlide;
    };
    std::size_t moves = 0;
    for (auto _ : state) {
        moves = 0;
        StockCursor cursor(stock, StockCursor::Detail::Envelope);
        for (std::size_t i = 0; i < timeline.moves.size(); i += kOneIn, ++moves) {
            const TimedMove& timed = timeline.moves[i];
            cursor.seek(static_cast<std::uint32_t>(i), 0);
            const BilletHull hull(cursor.billet());
            const int steps = 1 + static_cast<int>(distance(timed.from, timed.to) / kStepMm);
            double least = 1e9;
            for (int step = 0; step <= steps; ++step) {
                const Point at = timed.from + (double(step) / steps) * (timed.to - timed.from);
                const int station = path.calls[path.moves[timed.move].call].station;
                for (std::size_t a = 0; a < shapes.size(); ++a) {
                    if (!onTurret(a) || shapes[a].empty()) continue;
                    Placing placing = Placing::at(at);
                    placing.axisR = all.turretAxisR;
                    placing.turn = all.bodies[a].carrier == Carrier::Turret ? all.turnOf(std::max(station, 1)) : 0;
                    if (all.bodies[a].station != station)
                        least = std::min(least, hull.nearness(shapes[a], placing, least).gap);
                    for (std::size_t b = 1; b < shapes.size(); ++b) {
                        if (onTurret(b) || shapes[b].empty()) continue;
                        least = std::min(least, nearness(shapes[a], placing, shapes[b], Placing::at({}), least).gap);
                    }
                }
            }
            benchmark::DoNotOptimize(least);
        }
    }
    state.counters["us_per_move"] = benchmark::Counter(
        1e-6 * static_cast<double>(moves), benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(sleeveByStepping)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();

}  // namespace
}  // namespace firstoff
