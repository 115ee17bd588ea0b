#include "sim/cutting/mean_load.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

// Radius of the tooth's point and how deep it stands in the metal.
struct Depth {
    double tipR = 0, depth = 0;
    bool inside = false;

    double middle() const { return std::max(tipR + (inside ? -depth : depth) / 2, tipR / 2); }
    double farthest() const { return inside ? tipR : tipR + depth; }
};

Depth depthOf(const Tool& tool, Point tip, const Cut& cut) {
    Depth depth;
    depth.inside = tool.inside || tool.kind == ToolKind::Tap;
    depth.tipR = tool.kind == ToolKind::Tap ? tool.diameter / 2 : std::abs(tip.r);
    depth.depth = double{cut.deepestMm};
    return depth;
}

// The part of a move, 0 to 1, along which the tooth stands in metal, looked at in a hundred places.
Range inMetal(const TimedMove& timed, Point tip, const Depth& depth, const Billet& before) {
    constexpr int kPlaces = 100;
    const Grid& grid = before.grid();
    Range part{2, -1};
    std::vector<Interval> solids;
    for (int i = 0; i <= kPlaces; ++i) {
        const double fraction = static_cast<double>(i) / kPlaces;
        const double z = (pointAt(timed, fraction) + tip).z;
        if (z < grid.border(0) || z > grid.border(grid.columns)) continue;
        before.intervals(std::clamp(grid.columnNear(z), 0, grid.columns - 1), solids);
        const bool met = std::any_of(solids.begin(), solids.end(), [&](const Interval& solid) {
            return depth.inside ? solid.inner < depth.tipR && solid.outer > depth.tipR - depth.depth
                                : solid.outer > depth.tipR;
        });
        if (!met) continue;
        part.min = std::min(part.min, fraction);
        part.max = std::max(part.max, fraction);
    }
    // What the flanks of the tooth take before and behind its point belongs to the whole of it.
    return part.max > part.min ? part : Range{0, 1};
}

}  // namespace

MoveLoad meanLoad(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup, const ChipLaw& law,
                  const Billet& before, const Cut& cut) {
    const Move& move = toolpath.moves[timed.move];
    const Tool& tool = setup.tools[static_cast<std::size_t>(toolpath.calls[move.call].toolIndex)];
    const Point tip = toolpath.tipShift(move);
    MoveLoad load;
    load.mean = true;
    const double perS = (timed.rpmStart + timed.rpmEnd) / 2 / 60;
    const double seconds = timed.t1 - timed.t0;
    const Depth depth = depthOf(tool, timed.from + tip, cut);
    if (perS <= 0 || seconds <= 0 || depth.middle() <= 0 || depth.depth <= 0) {
        load.left = perS > 0 ? MoveLoad::Left::NotFollowed : MoveLoad::Left::SpindleStands;
        return load;
    }
    const Range part = inMetal(timed, tip, depth, before);
    const double time = (part.max - part.min) * seconds;
    const double metal = double{cut.removedMm3};
    const double area = metal / (2 * kPi * depth.middle() * perS * time);
    const double halfAngle = halfThreadAngle(tool);
    const double width = 2 * depth.depth / std::cos(halfAngle);
    const double teeth = edgesOf(tool) * (tool.kind == ToolKind::Tap ? std::max(1.0, tool.chamferThreads) : 1.0);
    LoadSample sample;
    sample.chipAreaMm2 = static_cast<float>(area);
    sample.widthMm = static_cast<float>(width);
    sample.depthMm = static_cast<float>(depth.depth);
    sample.thicknessMm = static_cast<float>(area / (width * teeth));
    sample.removalMm3PerS = static_cast<float>(metal / time);
    sample.atR = static_cast<float>(depth.middle());
    sample.farthestR = static_cast<float>(depth.farthest());
    if (law.kc11 > 0) {
        const double force = law.specificForce(area / (width * teeth)) * area;
        sample.cuttingN = sample.cuttingMostN = static_cast<float>(force);
        sample.torqueNm = sample.torqueMostNm = static_cast<float>(torqueNm(force, depth.middle()));
        sample.powerKw = static_cast<float>(torqueNm(force, depth.middle()) * 2 * kPi * perS / 1000);
        // Both flanks push along the axis against each other; what is left is square to it.
        const double outwards = depth.inside ? 1 : -1;
        if (tool.kind != ToolKind::Tap) sample.forceRN = static_cast<float>(outwards * sidewaysShare() * force);
        load.energyJ = double{sample.powerKw} * 1000 * time;
    }
    load.removedMm3 = metal;
    for (double fraction : {part.min, part.max}) {
        sample.fraction = static_cast<float>(fraction);
        sample.atZ = static_cast<float>((pointAt(timed, fraction) + tip).z);
        load.samples.push_back(sample);
    }
    return load;
}

}  // namespace firstoff
