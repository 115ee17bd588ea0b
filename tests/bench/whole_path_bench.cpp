// A long program from its text to the verdict: read, interpret, lay out in time, cut, find.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <iterator>
#include <string>

#include "sim/trial/trial.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

// wavyContour() as a setter's program: the same tip path in work coordinates, rounded to the control's 0.001 mm.
std::string contourProgram(const Setup& setup, std::uint32_t moves) {
    const shop::TipPath path = shop::wavyContour(setup, moves);
    const Point datum = setup.workOffsets[0];
    std::string text = "%\nO0001\nG21 G54 G40 G97 S1500 M03\nT0101\nG99 F0.2\n";
    auto out = std::back_inserter(text);
    for (const TimedMove& timed : path.timeline().moves) {
        const Point tip = timed.to + path.toolpath().tipShift(path.toolpath().moves[timed.move]);
        const int code = timed.kind == MoveKind::Rapid ? 0 : 1;
        fmt::format_to(out, "G{} X{:.3f} Z{:.3f}\n", code, 2 * (tip.r - datum.r), tip.z - datum.z);
    }
    text += "G0 X150. Z100.\nM30\n%\n";
    return text;
}

void trialOfAContour(benchmark::State& state) {
    const Setup setup = shop::wavyContourSetup();
    const auto moves = static_cast<std::uint32_t>(state.range(0));
    const std::string text = contourProgram(setup, moves);
    std::size_t cut = 0;
    double removed = 0;
    TrialOptions options;
    options.threads = 2;
    for (auto _ : state) {
        const auto trial = runTrial(readProgram(text, "contour"), setup, options);
        cut = trial->timeline.moves.size();
        removed = trial->removedVolumeMm3;
    }
    state.counters["moves"] = static_cast<double>(cut);
    state.counters["text_MB"] = static_cast<double>(text.size()) / (1 << 20);
    state.counters["removed_mm3"] = removed;
}
BENCHMARK(trialOfAContour)
    ->ArgNames({"moves"})
    ->Arg(100'000)
    ->Arg(1'000'000)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

}  // namespace
}  // namespace firstoff
