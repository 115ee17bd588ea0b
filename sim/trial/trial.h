// A trial: one program on one set-up, carried through every stage. Immutable once made; window, command line and sheets
// only read it.
#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <stop_token>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/clearance/clearance.h"
#include "sim/control/toolpath.h"
#include "sim/cutting/bending.h"
#include "sim/cutting/cutting_load.h"
#include "sim/cutting/edge_life.h"
#include "sim/cutting/holding.h"
#include "sim/inspection/gauged_part.h"
#include "sim/motion/timeline.h"
#include "sim/program/program.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"
#include "sim/trial/time_account.h"

namespace firstoff {

struct Trial {
    Program program;
    Setup setup;
    Toolpath toolpath;
    Timeline timeline;
    std::shared_ptr<const StockHistory> stock;  // null when the set-up gives no usable bar
    // All findings of all stages, in order of line, then column, then time.
    std::vector<Finding> findings;
    Verdict verdict = Verdict::NotProven;
    // What this trial did not look at, in plain words; shown wherever the verdict is shown.
    std::vector<std::string> notChecked;
    bool quickLook = false;  // see TrialOptions
    // Of all findings of this stage those of `findings` above are copies. Its bodies are never null.
    ClearanceResult clearance;
    // Likewise of these.
    LoadResult loads;
    BendingResult bending;
    HoldingResult holding;
    std::vector<EdgeUse> edges;
    TimeAccount time;
    GaugedPart gauged;
    double cuttingTimeS = 0;  // time at feed with metal coming off
    double stockVolumeMm3 = 0;
    double removedVolumeMm3 = 0;

    // Start of the first (or, if it was executed more than once, first) execution of a block; the end of the cycle if
    // it was never reached.
    double startOfBlock(BlockId block) const;
    // Block that is being carried out at a time: the geometry block of the move, or the call where that stands in
    // another file; and the step (index into toolpath.steps).
    BlockId blockAt(double timeS) const;
    BlockId shownBlock(std::size_t move) const;  // of a move (index into toolpath.moves), likewise
    std::size_t stepAt(double timeS) const;
    double startOfStep(std::size_t step) const;
};

struct TrialOptions {
    int threads = 0;                                    // 0: what the machine has
    std::size_t historyBytes = std::size_t{256} << 20;  // for keyframes
    // The trial before, where the stock is what that left; without it there is no bar.
    std::shared_ptr<const StockHistory> previous;
    // While something is being tried out by hand: margins are left out, threads and what else is not round are known in
    // 12 directions instead of 256, and gaps above 2 mm are lower bounds. Sizes and contacts are the same. Never to be
    // shown as the last word.
    bool quickLook = false;
    // Called now and then from the calling thread with 0…1 and the stage's name.
    std::function<void(double, const char*)> progress;
    std::stop_token stop;
};

// Null if `options.stop` was asked for before the end.
std::shared_ptr<const Trial> runTrial(Program program, Setup setup, const TrialOptions& options = {});

}  // namespace firstoff
