// What the cut asks for at every instant of every move that takes metal: chip, forces, power, torque, removal rate.
//
// A convex edge on its way along u meets metal with its front alone, where its outward normal n and u point the same
// way, and no point of the front has been where it is now. So what is engaged at a place is that part of the front that
// lies in the billet as it was before the move: no time stepping is needed to know it. With f mm of feed along u per
// revolution, an element db of the front takes
//     chip thickness   h = f (u . n) / edges
//     chip area        dA = f (u . n) db
//     cutting force    dFc = kc11 h^(1 - mc) db edges          (Kienzle; corrections in chip_force.h)
//     torque           dM = r dFc
//     removal          dQ = 2 pi r (rev/s) dA                  (a whole revolution of the ring that dA sweeps)
// Power is 2 pi (rev/s) M. Feed and passive force stand square to the engaged front, in the cutting plane; across the
// travel the part is never pushed aside with less than the rule's share of the passive force (chip_force.h).
#pragma once

#include <cstdint>
#include <memory>
#include <stop_token>
#include <string>
#include <vector>

#include "sim/base/finding.h"
#include "sim/base/point.h"
#include "sim/control/toolpath.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/history.h"

namespace firstoff {

struct LoadSample {
    float fraction = 0;      // of the length of the timed move
    float chipAreaMm2 = 0;   // per revolution, all edges
    float widthMm = 0;       // of the engaged front, along it
    float depthMm = 0;       // of the cut: the same across the travel
    float thicknessMm = 0;   // of the chip, greatest
    float cuttingN = 0;      // along the cutting speed; 0 where the material is not known
    float cuttingMostN = 0;  // the same where the bar reaches furthest out; as cuttingN where it is round
    float forceZN = 0;       // on the part, in the cutting plane, lathe frame
    float forceRN = 0;       // + pushes the part away from the axis
    float torqueNm = 0;      // mean of a turn
    float torqueMostNm = 0;  // the same where the bar reaches furthest out; as torqueNm where it is round
    float powerKw = 0;       // at the cut, mean of a turn
    float removalMm3PerS = 0;
    float atR = 0;        // radius that the cutting force stands at (torque / force), mm
    float atZ = 0;        // middle of the engaged front, lathe frame
    float farthestR = 0;  // of what is engaged, from the axis, mm: where the edge runs fastest
    // The point of the edge that leaves the surface stands in metal; false while the edge is only entering or runs out.
    bool leavesSurface = false;
};

// mm per revolution at the true pace; 0 in air. Not of runs that are one mean figure.
inline double feedMmPerRev(const LoadSample& sample) {
    return sample.depthMm > 0 ? double{sample.chipAreaMm2} / double{sample.depthMm} : 0;
}

// The samples of one timed move, in order of their place; at least two. Between two of them every figure runs evenly
// over time; before the first and past the last nothing is cut.
struct LoadRun {
    std::uint32_t timedMove = 0;
    std::uint32_t first = 0, count = 0;  // into LoadResult::samples
    // Passes of a thread, and holes tapped: one figure for the whole cut, from the metal that it took.
    bool mean = false;
};

// The greatest figure of one tool call and where it was.
struct LoadPeak {
    float value = 0;
    std::uint32_t sample = 0;  // into LoadResult::samples
    std::uint32_t timedMove = 0;
};
struct ToolLoad {
    std::uint32_t call = 0;  // into Toolpath::calls
    int toolIndex = -1;
    LoadPeak cuttingN, torqueNm, powerKw, thicknessMm, removalMm3PerS, chipAreaMm2;  // cuttingMostN, torqueMostNm
    double energyJ = 0;                                                              // at the cut
    double removedMm3 = 0;                                                           // integral of the removal rate
    bool leastPassive = false;  // somewhere the passive force is the rule's share and not that of the edge's lean
};

struct LoadResult {
    std::vector<LoadRun> runs;  // in order of timed moves
    std::vector<LoadSample> samples;
    std::vector<ToolLoad> tools;  // in order of tool calls, those that took metal
    // False: no data of the material; forces, torque and power are 0 and not said anywhere.
    bool forcesKnown = false;
    std::vector<Finding> findings;
    // What was taken for granted, in plain sentences, each once; shown wherever figures are shown.
    std::vector<std::string> assumed;
    // What takes metal and was not reckoned, likewise.
    std::vector<std::string> notReckoned;

    // The samples of a timed move; nothing where it took no metal.
    const LoadRun* runOf(std::uint32_t timedMove) const;
};

struct LoadOptions {
    int threads = 0;  // 0: what the machine has; results do not depend on it
    std::stop_token stop;
};

// Figures at a part of the length of a timed move, between the samples; all 0 where it takes no metal there.
LoadSample loadAt(const LoadResult& loads, std::uint32_t timedMove, double fraction);

// `stock` may be null: then there are no runs. Stops early, with what it has, when asked to.
LoadResult reckonLoads(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                       const std::shared_ptr<const StockHistory>& stock, const LoadOptions& options = {});

}  // namespace firstoff
