// How far part and bar give way under the cut, and the diameter that comes of it.
//
// The part is a beam of its true section at that instant, clamped at the front of the jaws; a centre, where one is
// advanced, holds it at its end. A boring bar is a cantilever of its overhang. Formulas and examples:
// tests/reference/deflection.csv.
#pragma once

#include <cstdint>
#include <memory>
#include <stop_token>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/control/toolpath.h"
#include "sim/cutting/cutting_load.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

struct BendingSample {
    float partMm = 0;  // radially, away from the tool at the cut; NaN where the modulus is not known
    float barMm = 0;   // of a boring bar, away from the part; 0 for other tools
    // Diameter that the cut leaves above what is programmed; + larger (outside), smaller (inside).
    float diameterErrorMm = 0;
};

struct ToolBending {
    std::uint32_t call = 0;  // into Toolpath::calls
    float worstMm = 0;       // diameter error of the last pass over a surface, greatest size
    std::uint32_t sample = 0;
    std::uint32_t timedMove = 0;
    double overhangRatio = 0;  // of a boring bar: overhang by diameter; 0 others
};

struct BendingResult {
    std::vector<BendingSample> samples;  // one for each LoadResult::samples
    std::vector<ToolBending> tools;
    bool known = false;  // false: forces or the modulus of the material are not known
    std::vector<std::string> assumed;
    std::vector<Finding> findings;
};

struct BendingOptions {
    int threads = 0;
    std::stop_token stop;
};

BendingResult reckonBending(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                            const std::shared_ptr<const StockHistory>& stock, const LoadResult& loads,
                            const BendingOptions& options = {});

}  // namespace firstoff
