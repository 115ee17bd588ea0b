#include "gui/scene/chip_cut.h"

#include <algorithm>
#include <cmath>

#include "gui/scene/machine_picture.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/spindle_turn.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

constexpr double kEnd = 1e-3;  // of the length of a move: nearer to its end is its end

bool takesMetal(const LoadSample& sample) {
    return sample.chipAreaMm2 > 0;
}

// The place in a run from which metal is taken all the way to `fraction`.
double takenFrom(const LoadResult& loads, const LoadRun& run, double fraction) {
    double from = fraction;
    for (std::uint32_t i = run.count; i-- > 0;) {
        const LoadSample& sample = loads.samples[run.first + i];
        if (double{sample.fraction} > fraction) continue;
        from = double{sample.fraction};
        if (!takesMetal(sample)) break;
    }
    return from;
}

// Does the run before lead into this one with metal in between?
bool leadsInto(const LoadResult& loads, const LoadRun& before, const LoadRun& run) {
    const LoadSample &last = loads.samples[before.first + before.count - 1], &first = loads.samples[run.first];
    return before.timedMove + 1 == run.timedMove && double{last.fraction} > 1 - kEnd && takesMetal(last) &&
           double{first.fraction} < kEnd && takesMetal(first);
}

double cuttingSince(const Trial& trial, const LoadRun& last, double fraction) {
    constexpr int kMostMoves = 1024;  // further back, nothing of the chip is left to be seen
    const LoadRun* run = &last;
    double from = takenFrom(trial.loads, *run, fraction);
    for (int moves = 0; moves < kMostMoves && from < kEnd && run != trial.loads.runs.data(); ++moves) {
        if (!leadsInto(trial.loads, *(run - 1), *run)) break;
        --run;
        from = takenFrom(trial.loads, *run, 1);
    }
    return timeAt(trial.timeline.moves[run->timedMove], trial.toolpath, trial.setup, from);
}

// The way of the tool at a place of a move, lathe frame.
glm::vec2 wayAt(const TimedMove& timed, double fraction) {
    constexpr double kStep = 1e-3;
    const Point from = pointAt(timed, std::max(0.0, fraction - kStep)),
                to = pointAt(timed, std::min(1.0, fraction + kStep));
    const glm::vec2 way = flat(to - from);
    return glm::length(way) > 0 ? glm::normalize(way) : glm::vec2(-1, 0);
}

// Square to the edge in metal, out of it, lathe frame: forces stand that way. Where they are not known, from how much
// wider the edge is than the cut is deep, leaning towards the tip.
glm::vec2 outOfEdge(const LoadSample& load, glm::vec2 way, glm::vec2 fromTip) {
    const glm::vec2 push(load.forceZN, load.forceRN);
    if (glm::length(push) > 0) return glm::normalize(push);
    const float ahead = load.widthMm > 0 ? std::clamp(load.depthMm / load.widthMm, 0.0f, 1.0f) : 1.0f;
    glm::vec2 aside(-way.y, way.x);
    if (glm::dot(aside, fromTip) > 0) aside = -aside;
    return ahead * way + std::sqrt(1 - ahead * ahead) * aside;
}

// Where the hole that a tool on the axis is in comes out, from the tip on, lathe frame.
double mouthOf(const StockCursor& stock, Point tip, double radius) {
    constexpr double kStep = 0.5, kDeepest = 400;
    double z = tip.z;
    while (z < tip.z + kDeepest && stock.outermostAt(z).outer > radius) z += kStep;
    return z;
}

void placeOnEdge(const LoadSample& load, const SceneInstant& instant, const Tool& tool, double fraction, ChipCut& cut) {
    const TimedMove& timed = instant.trial->timeline.moves[instant.timedMove];
    const glm::vec2 middle(load.atZ, load.atR);
    const glm::vec2 out = outOfEdge(load, wayAt(timed, fraction), middle - flat(instant.tip));
    const bool over = tool.needs != SpindleDirection::Reverse;  // see tool_shape.h
    const auto height = static_cast<float>(tool.centreHeight);
    cut.place = {middle, over ? -height : height};
    cut.rake = {0, 0, over ? -1 : 1};
    cut.flow = {-out, 0};
    cut.edge = {out.y, -out.x, 0};
    cut.inside = tool.kind == ToolKind::Boring || cutsInside(tool);
    const glm::vec3 free = cut.inside ? glm::vec3(1, -0.3f, 0) : glm::vec3(0.6f, 1, 0);
    if (glm::dot(cut.edge, free) < 0) cut.edge = -cut.edge;
    cut.plunges = tool.kind == ToolKind::Grooving || tool.kind == ToolKind::Parting;
}

// Chips of tools on the axis come to light at the mouth of the hole, one in each of two flutes.
void placeInFlute(const SceneInstant& instant, const Tool& tool, unsigned which, ChipCut& cut) {
    const double radius = 0.5 * tool.diameter;
    const double mouth = instant.stock ? mouthOf(*instant.stock, instant.tip, radius) : instant.tip.z;
    const float side = which == 0 ? 1.0f : -1.0f;
    cut.place = {static_cast<float>(mouth), 0, 0.8f * side * static_cast<float>(radius)};
    cut.flow = {1, 0, 0};
    cut.rake = {0, 0, side};
    cut.edge = {0, side, 0};
    cut.widthMm = std::min(0.5f * cut.widthMm, 0.8f * static_cast<float>(radius));
    cut.which = which;
}

}  // namespace

std::vector<ChipCut> chipCutsAt(const SceneInstant& instant) {
    if (!instant.trial || instant.toolIndex < 0) return {};
    const Trial& trial = *instant.trial;
    const LoadRun* run = trial.loads.runOf(instant.timedMove);
    if (!run || run->count == 0) return {};
    const TimedMove& timed = trial.timeline.moves[instant.timedMove];
    const double fraction = fractionAt(timed, trial.toolpath, trial.setup, instant.timeS);
    const LoadSample load = loadAt(trial.loads, instant.timedMove, fraction);
    if (!takesMetal(load) || load.widthMm <= 0 || load.thicknessMm <= 0) return {};
    const Tool& tool = trial.setup.tools[static_cast<std::size_t>(instant.toolIndex)];
    ChipCut cut;
    cut.widthMm = load.widthMm;
    cut.thicknessMm = load.thicknessMm;
    cut.metal = metalOf(trial.setup.material);
    cut.timeS = instant.timeS;
    cut.sinceS = cuttingSince(trial, *run, fraction);
    const double revPerS = revPerMinAt(timed, trial.toolpath, trial.setup, fraction) / 60;
    cut.speedMmPerS = 2 * kPi * std::abs(double{load.atR}) * revPerS * SpindleTurn::kSlower;
    if (!worksOnTheAxis(tool.kind)) {
        placeOnEdge(load, instant, tool, fraction, cut);
        return {cut};
    }
    std::vector<ChipCut> cuts(2, cut);
    for (unsigned which = 0; which < 2; ++which) placeInFlute(instant, tool, which, cuts[which]);
    return cuts;
}

}  // namespace firstoff::gui
