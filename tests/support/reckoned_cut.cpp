#include "tests/support/reckoned_cut.h"

#include <algorithm>
#include <utility>

#include "sim/control/toolpath.h"

namespace firstoff::shop {

std::vector<std::uint32_t> ReckonedCut::cutsOfLine(std::uint32_t line) const {
    std::vector<std::uint32_t> moves;
    for (const LoadRun& run : loads.runs) {
        const BlockId block = toolpath.moves[timeline.moves[run.timedMove].move].block;
        if (block + 1 == line) moves.push_back(run.timedMove);
    }
    return moves;
}

float ReckonedCut::most(std::uint32_t timedMove, float LoadSample::*figure) const {
    float greatest = 0;
    const LoadRun* run = loads.runOf(timedMove);
    for (std::uint32_t i = 0; run != nullptr && i < run->count; ++i) {
        greatest = std::max(greatest, loads.samples[run->first + i].*figure);
    }
    return greatest;
}

double ReckonedCut::timeAt(std::uint32_t timedMove, double fraction) const {
    const TimedMove& timed = timeline.moves[timedMove];
    double before = timed.t0, after = timed.t1;
    for (int i = 0; i < 60; ++i) {
        const double middle = (before + after) / 2;
        (fractionAt(timed, toolpath, setup, middle) < fraction ? before : after) = middle;
    }
    return (before + after) / 2;
}

double ReckonedCut::removalOverTime(std::uint32_t timedMove) const {
    const LoadRun* run = loads.runOf(timedMove);
    double sum = 0;
    for (std::uint32_t i = 1; run != nullptr && i < run->count; ++i) {
        const LoadSample &a = loads.samples[run->first + i - 1], &b = loads.samples[run->first + i];
        const double seconds = timeAt(timedMove, double{b.fraction}) - timeAt(timedMove, double{a.fraction});
        sum += seconds * (double{a.removalMm3PerS} + double{b.removalMm3PerS}) / 2;
    }
    return sum;
}

double ReckonedCut::removalOverTime() const {
    double sum = 0;
    for (const LoadRun& run : loads.runs) sum += removalOverTime(run.timedMove);
    return sum;
}

double ReckonedCut::removed() const {
    double sum = 0;
    for (const LoadRun& run : loads.runs) sum += double{stock->cuts()[run.timedMove].removedMm3};
    return sum;
}

ReckonedCut cutAndReckon(const std::string& program, firstoff::Setup setup, int threads) {
    Program text = readProgram(program, "test");
    const Toolpath toolpath = interpret(text, setup);
    ReckonedCut cut{std::move(text), std::move(setup), toolpath, {}, {}, {}};
    cut.timeline = layOut(cut.toolpath, cut.setup);
    cut.stock = StockHistory::cut(cut.timeline, cut.toolpath, cut.setup);
    LoadOptions options;
    options.threads = threads;
    cut.loads = reckonLoads(cut.timeline, cut.toolpath, cut.setup, cut.stock, options);
    return cut;
}

Material material(double kc11, double mc) {
    Material m;
    m.name = "of the test";
    m.kc11 = kc11;
    m.mc = mc;
    m.source = "the test";
    return m;
}

}  // namespace firstoff::shop
