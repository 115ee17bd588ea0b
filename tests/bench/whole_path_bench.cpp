// From text to verdict: a contour of one million moves of 0.01 mm, read, carried out, laid out in time, checked for
// clearance and cut. One row for the whole, one for each stage; counters say how much memory the process held.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

#include "sim/trial/finish.h"
#include "sim/trial/trial.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr std::uint32_t kMoves = 1'000'000;
constexpr double kPassDiameter = 20;  // under the waves

double peakMegabytes() {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);) {
        if (line.rfind("VmHWM:", 0) == 0) return std::stod(line.substr(6)) / 1024;
    }
    return 0;
}

// The wavy contour as a programming system would write it out, to three decimals.
const std::string& contourText() {
    static const std::string text = [] {
        const auto setup = shop::wavyContourSetup();
        const shop::TipPath path = shop::wavyContour(setup, kMoves);
        std::string program = "%\nO1\nG21 G40 G99\nT0101\nG50 S2500\nG96 S200 M03\n";
        auto out = std::back_inserter(program);
        MoveKind motion = MoveKind::Index;
        for (const Move& move : path.toolpath().moves) {
            const Point work = move.to + path.toolpath().tipShift(move) - setup.workOffsets[0];
            if (move.kind != motion) program += move.kind == MoveKind::Rapid ? "G00 " : "G01 F.1 ";
            motion = move.kind;
            fmt::format_to(out, "X{:.3f} Z{:.3f}\n", 2 * work.r, work.z);
        }
        return program + "M30\n%\n";
    }();
    return text;
}

void wholePath(benchmark::State& state) {
    const std::string& text = contourText();
    TrialOptions options;
    options.threads = static_cast<int>(state.range(0));
    std::shared_ptr<const Trial> trial;
    for (auto _ : state) {
        trial.reset();
        trial = runTrial(readProgram(text, "contour"), shop::wavyContourSetup(), options);
    }
    state.counters["moves"] = static_cast<double>(trial->toolpath.moves.size());
    state.counters["text_MB"] = static_cast<double>(text.size()) / 1e6;
    state.counters["process_peak_MB"] = peakMegabytes();
}
BENCHMARK(wholePath)->ArgNames({"threads"})->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(3);

void stageRead(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(readProgram(contourText(), "contour"));
    state.SetBytesProcessed(static_cast<std::int64_t>(state.iterations() * contourText().size()));
}
BENCHMARK(stageRead)->Unit(benchmark::kMillisecond);

void stageInterpret(benchmark::State& state) {
    const Program program = readProgram(contourText(), "contour");
    const auto setup = shop::wavyContourSetup();
    for (auto _ : state) benchmark::DoNotOptimize(interpret(program, setup));
    state.SetItemsProcessed(static_cast<std::int64_t>(state.iterations() * program.blocks.size()));
}
BENCHMARK(stageInterpret)->Unit(benchmark::kMillisecond);

void stageLayOut(benchmark::State& state) {
    const auto setup = shop::wavyContourSetup();
    const Toolpath path = interpret(readProgram(contourText(), "contour"), setup);
    for (auto _ : state) benchmark::DoNotOptimize(layOut(path, setup));
}
BENCHMARK(stageLayOut)->Unit(benchmark::kMillisecond);

// The same with axes that take their time: look-ahead over every block, without jerk (0) and with it.
void stageLayOutAccelerating(benchmark::State& state) {
    auto setup = shop::wavyContourSetup();
    AxisDynamics& axes = setup.machine.axes;
    axes.accelerationR = 3000;
    axes.accelerationZ = 4000;
    axes.jerkR = axes.jerkZ = static_cast<double>(state.range(0));
    axes.cornerJumpR = axes.cornerJumpZ = 5;
    axes.lookAhead = static_cast<int>(state.range(1));
    setup.machine.spindle.runUpS = 3;
    const Toolpath path = interpret(readProgram(contourText(), "contour"), setup);
    for (auto _ : state) benchmark::DoNotOptimize(layOut(path, setup));
    state.counters["moves"] = static_cast<double>(path.moves.size());
}
BENCHMARK(stageLayOutAccelerating)
    ->ArgNames({"jerk", "look_ahead"})
    ->Args({0, 0})
    ->Args({60000, 0})
    ->Args({60000, 40})
    ->Unit(benchmark::kMillisecond);

void stageClearance(benchmark::State& state) {
    const auto setup = shop::wavyContourSetup();
    const Toolpath path = interpret(readProgram(contourText(), "contour"), setup);
    const Timeline timeline = layOut(path, setup);
    const auto stock = StockHistory::cut(timeline, path, setup);
    for (auto _ : state) benchmark::DoNotOptimize(checkClearances(timeline, path, setup, stock));
}
BENCHMARK(stageClearance)->Unit(benchmark::kMillisecond);

// What the window's pane asks for on a click: the finish of a surface of such a program. It is reckoned beside the
// window because of this row.
void finishOfSurfaceAfterContour(benchmark::State& state) {
    // A finishing pass of one line after the contour, over the last of its waves.
    std::string text = contourText();
    text.resize(text.rfind("M30"));
    const auto setup = shop::wavyContourSetup();
    text += fmt::format("G00 X200. Z5.\nX{0:.3f}\nG01 Z-60. F.1\nG00 X200.\nM30\n%\n", kPassDiameter);
    const auto trial = runTrial(readProgram(text, "contour.nc"), setup);
    const auto pass = text.begin() + static_cast<std::ptrdiff_t>(text.rfind("G01 Z-60."));
    const auto block = static_cast<BlockId>(std::count(text.begin(), pass, '\n'));
    double ra = 0;
    for (auto _ : state) {
        const auto report = finishOfSurface(*trial, block, std::nullopt);
        if (report && report->trouble.empty()) ra = report->roughness.ra;
    }
    state.counters["Ra_um"] = 1e3 * ra;
}
BENCHMARK(finishOfSurfaceAfterContour)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace firstoff
