#include "sim/inspection/cut_bending.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/say.h"

namespace firstoff {

namespace {

// A tool that comes by within this of a cylinder goes over it again: two paths programmed alike agree far better, and
// bending is told to a thousandth.
constexpr double kSameRadiusMm = 0.0005;
// Less of bending is not told; whether a second pass takes some of it off is no matter.
constexpr double kToldMm = 0.0005;
constexpr double kRunInShare = 0.5;

bool alongZ(const TimedMove& timed) {
    const Point way = timed.to - timed.from;
    return std::abs(way.z) > std::abs(way.r);
}

BentStretch notKnown(std::string why) {
    return {{}, std::move(why)};
}

BentStretch evenly(Point from, Point to, double errorMm) {
    return {{{from, errorMm}, {to, errorMm}}, {}};
}

// What bends most, with its sign.
double greatestOf(const BentStretch& stretch) {
    double greatest = 0;
    for (const BentPoint& p : stretch.points) {
        if (std::isnan(p.errorMm) || std::abs(p.errorMm) > std::abs(greatest)) greatest = p.errorMm;
        if (std::isnan(greatest)) break;
    }
    return greatest;
}

}  // namespace

BentStretch CutBending::along(CutId cut, Point from, Point to) const {
    if (bending_ == nullptr) return notKnown(tr("loads were not reckoned"));
    if (cut == kUncut) return evenly(from, to, 0);
    if (cut == kCutBefore) return notKnown(tr("it was cut in the trial before"));
    if (!bending_->known) {
        return notKnown(bending_->missing.empty() ? tr("loads were not reckoned")
                                                  : say("it takes {}", bending_->missing.front()));
    }
    const TimedMove& timed = timeline_->moves[cut];
    const Tool* tool = toolOf(toolpath_->moves[timed.move]);
    if (tool != nullptr && worksOnTheAxis(tool->kind)) return evenly(from, to, 0);
    const LoadRun* run = loads_->runOf(cut);
    if (run == nullptr || run->count == 0) return notKnown(tr("the load of the cut that left it was not reckoned"));
    if (run->mean) return notKnown(tr("how far a thread gives way is not counted on its size"));
    BentStretch stretch;
    if (!alongZ(timed) && !isArc(timed.kind)) {
        stretch = evenly(from, to, plunged(cut, *run));
    } else {
        const std::vector<Sample> samples = samplesOf(cut, *run);
        if (samples.empty()) return evenly(from, to, 0);
        stretch.points.push_back({from, errorAt(samples, from.z)});
        for (const Sample& s : samples) {
            if (s.z <= std::min(from.z, to.z) || s.z >= std::max(from.z, to.z)) continue;
            stretch.points.push_back({from + (s.z - from.z) / (to.z - from.z) * (to - from), s.errorMm});
        }
        stretch.points.push_back({to, errorAt(samples, to.z)});
    }
    const double greatest = greatestOf(stretch);
    if (std::isnan(greatest)) return notKnown(tr("what holds the part while that was cut is not known well enough"));
    if (std::abs(greatest) >= kToldMm && wentOverAgain(cut, from, to)) {
        return notKnown(
            say("a later pass on the same diameter takes off some of the {:+.3f} mm that the cut "
                "bent away, and how much is not known",
                greatest));
    }
    return stretch;
}

const Tool* CutBending::toolOf(const Move& move) const {
    const int index = toolpath_->calls[move.call].toolIndex;
    return index < 0 ? nullptr : &setup_->tools[static_cast<std::size_t>(index)];
}

// Between samples evenly; beyond the last ones as there.
double CutBending::errorAt(const std::vector<Sample>& samples, double z) {
    const auto next = std::lower_bound(samples.begin(), samples.end(), z,
                                       [](const Sample& s, double wanted) { return s.z < wanted; });
    if (next == samples.begin()) return samples.front().errorMm;
    if (next == samples.end()) return samples.back().errorMm;
    const Sample &a = *(next - 1), &b = *next;
    return a.errorMm + (b.errorMm - a.errorMm) * (z - a.z) / (b.z - a.z);
}

// By rising z, run-in and run-out left out.
std::vector<CutBending::Sample> CutBending::samplesOf(CutId cut, const LoadRun& run) const {
    const TimedMove& timed = timeline_->moves[cut];
    const Move& move = toolpath_->moves[timed.move];
    std::vector<Sample> samples;
    std::vector<double> chips;
    double reach = 0;
    for (std::uint32_t i = run.first; i < run.first + run.count; ++i) {
        const LoadSample& load = loads_->samples[i];
        if (load.chipAreaMm2 <= 0) continue;
        const Point tip = pointAt(timed, double{load.fraction}) + toolpath_->tipShift(move);
        samples.push_back({tip.z, double{bending_->samples[i].diameterErrorMm}, double{load.chipAreaMm2}});
        chips.push_back(double{load.chipAreaMm2});
        reach = std::max(reach, double{load.depthMm});
    }
    if (samples.size() < 3) return samples;
    if (samples.front().z > samples.back().z) std::reverse(samples.begin(), samples.end());
    const auto middle = chips.begin() + static_cast<std::ptrdiff_t>(chips.size() / 2);
    std::nth_element(chips.begin(), middle, chips.end());
    if (const Tool* tool = toolOf(move)) reach += tool->noseRadius;
    const double backEnd = samples.front().z, frontEnd = samples.back().z;
    const auto runsIn = [&](const Sample& s) {
        return s.chipMm2 < kRunInShare * *middle && std::min(s.z - backEnd, frontEnd - s.z) <= reach;
    };
    auto first = samples.begin(), last = samples.end();
    while (last - first > 1 && runsIn(*first)) ++first;
    while (last - first > 1 && runsIn(*(last - 1))) --last;
    return {first, last};
}

// What a blade that went straight in left at the bottom. Other tools leave faces that way.
double CutBending::plunged(CutId cut, const LoadRun& run) const {
    const Tool* tool = toolOf(toolpath_->moves[timeline_->moves[cut].move]);
    if (tool == nullptr || !isBlade(tool->kind) || dwellsAfter(cut)) return 0;
    for (std::uint32_t i = run.first + run.count; i-- > run.first;) {
        if (loads_->samples[i].chipAreaMm2 <= 0) continue;
        const BendingSample& sample = bending_->samples[i];
        return -2 * (double{sample.partMm} - double{sample.barMm});
    }
    return 0;
}

bool CutBending::dwellsAfter(CutId cut) const {
    if (cut + 1 >= timeline_->moves.size()) return false;
    const TimedMove& next = timeline_->moves[cut + 1];
    constexpr double kTurns = 1, kPerMinute = 60;
    const double turns = (next.t1 - next.t0) * std::abs(next.rpmStart) / kPerMinute;
    return next.kind == MoveKind::Dwell && turns >= kTurns;
}

bool CutBending::wentOverAgain(CutId cut, Point from, Point to) const {
    for (std::size_t i = cut + 1; i < timeline_->moves.size(); ++i) {
        const TimedMove& timed = timeline_->moves[i];
        if (timed.kind != MoveKind::Feed || !alongZ(timed)) continue;
        const Move& move = toolpath_->moves[timed.move];
        const Point shift = toolpath_->tipShift(move);
        const Point a = timed.from + shift, b = timed.to + shift;
        // A blade reaches its width to one side or the other of the corner that it is gauged at.
        const Tool* tool = toolOf(move);
        const double beside = tool != nullptr && isBlade(tool->kind) ? tool->width : 0;
        const double back = std::max(std::min(from.z, to.z), std::min(a.z, b.z) - beside);
        const double front = std::min(std::max(from.z, to.z), std::max(a.z, b.z) + beside);
        if (back > front) continue;
        const double z = (back + front) / 2;
        const double path = a.r + std::clamp((z - a.z) / (b.z - a.z), 0.0, 1.0) * (b.r - a.r);
        const double surface = to.z == from.z ? from.r : from.r + (z - from.z) / (to.z - from.z) * (to.r - from.r);
        if (std::abs(std::abs(path) - surface) <= kSameRadiusMm) return true;
    }
    return false;
}

}  // namespace firstoff
