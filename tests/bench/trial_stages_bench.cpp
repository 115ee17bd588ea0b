// What a slider costs, and where the time of a trial goes, for every demo job: one row each, with the stages as
// counters in ms and the share that loads take of all the rest. Process time, so that other work on the machine counts
// little.
#include <benchmark/benchmark.h>

#include <ctime>
#include <map>
#include <string>

#include "sim/output/setup_files.h"
#include "sim/trial/comparison.h"
#include "sim/trial/trial.h"
#include "sim/trial/what_if.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

double processMs() {
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

// Adds up what each stage takes.
class StageClock {
public:
    void at(const std::string& stage) {
        if (stage == stage_) return;
        stop();
        stage_ = stage;
    }
    void stop() {
        const double now = processMs();
        if (!stage_.empty()) ms_[stage_] += now - since_;
        since_ = now;
        stage_.clear();
    }
    const std::map<std::string, double>& ms() const { return ms_; }

private:
    std::string stage_;
    double since_ = 0;
    std::map<std::string, double> ms_;
};

// What each stage took in a round; gives the whole.
double countStages(benchmark::State& state, const StageClock& clock) {
    double whole = 0;
    for (const auto& [stage, ms] : clock.ms()) {
        const double each = ms / static_cast<double>(state.iterations());
        state.counters[stage + "_ms"] = each;
        whole += each;
    }
    return whole;
}

void trialStages(benchmark::State& state, const std::string& job) {
    const std::string base = "assets/jobs/" + job;
    const Program program = readProgram(shop::readFile(base + ".nc"), job);
    const auto setup = readSetup(shop::readFile(base + ".toml"), job,
                                 setupFilesBeside(std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml"));
    StageClock clock;
    TrialOptions options;
    options.threads = 2;
    options.progress = [&clock](double, const char* stage) { clock.at(stage); };
    for (auto _ : state) {
        benchmark::DoNotOptimize(runTrial(program, setup, options));
        clock.stop();
    }
    const auto rounds = static_cast<double>(state.iterations());
    const double whole = countStages(state, clock);
    const auto loads = clock.ms().find("reckoning loads");
    if (loads == clock.ms().end()) return;
    state.counters["loads_on_top_percent"] = 100 * (loads->second / rounds) / (whole - loads->second / rounds);
}

// What a slider of the window waits for: a quick look with a change of wear, and what it alters.
void whatIfSlider(benchmark::State& state, const std::string& job) {
    const std::string base = "assets/jobs/" + job;
    const Program program = readProgram(shop::readFile(base + ".nc"), job);
    const auto setup = readSetup(shop::readFile(base + ".toml"), job,
                                 setupFilesBeside(std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml"));
    const auto before = runTrial(program, setup);
    TrialOptions options;
    options.quickLook = true;
    StageClock clock;
    options.progress = [&clock](double, const char* stage) { clock.at(stage); };
    WhatIf whatIf;
    whatIf.wears.push_back({1, 0, 0});
    for (auto _ : state) {
        whatIf.wears[0].xMm += 0.001;
        const auto after = runTrial(before->program, withChanges(before->setup, whatIf), options);
        clock.at("comparing");
        benchmark::DoNotOptimize(compareTrials(*before, *after));
        clock.stop();
    }
    countStages(state, clock);
}
BENCHMARK_CAPTURE(whatIfSlider, bored_bush, "bored-bush")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(whatIfSlider, coupling_spigot, "coupling-spigot")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(whatIfSlider, drain_plug, "drain-plug")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(whatIfSlider, grooved_pulley, "grooved-pulley")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(whatIfSlider, hose_adapter, "hose-adapter")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(whatIfSlider, union_sleeve, "union-sleeve")->Unit(benchmark::kMillisecond)->UseRealTime();

BENCHMARK_CAPTURE(trialStages, bored_bush, "bored-bush")->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();
BENCHMARK_CAPTURE(trialStages, coupling_spigot, "coupling-spigot")
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime();
BENCHMARK_CAPTURE(trialStages, drain_plug, "drain-plug")->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();
BENCHMARK_CAPTURE(trialStages, grooved_pulley, "grooved-pulley")
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime();
BENCHMARK_CAPTURE(trialStages, hose_adapter, "hose-adapter")->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();
BENCHMARK_CAPTURE(trialStages, trap, "trap")->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();
BENCHMARK_CAPTURE(trialStages, union_sleeve, "union-sleeve")->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime();

}  // namespace
}  // namespace firstoff
