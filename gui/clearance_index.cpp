#include "gui/clearance_index.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace firstoff::gui {

namespace {

constexpr std::size_t kFan = 64;
constexpr double kSameTimeS = 1e-9;

}  // namespace

ClearanceIndex::ClearanceIndex(const Trial& trial) : encounters_(trial.clearance.encounters) {
    byMove_.resize(encounters_.size());
    std::iota(byMove_.begin(), byMove_.end(), std::size_t{0});
    std::stable_sort(byMove_.begin(), byMove_.end(),
                     [&](std::size_t a, std::size_t b) { return encounters_[a].timedMove < encounters_[b].timedMove; });
    if (trial.clearance.perMove.empty()) return;
    perMove_ = trial.clearance.perMove;
    std::vector<std::uint32_t>& finest = levels_.emplace_back(perMove_.size());
    std::iota(finest.begin(), finest.end(), 0u);
    while (levels_.back().size() > kFan) {
        const std::vector<std::uint32_t>& fine = levels_.back();
        std::vector<std::uint32_t> coarse;
        for (std::size_t i = 0; i < fine.size(); i += kFan) {
            std::size_t best = fine[i];
            for (std::size_t k = i + 1; k < std::min(i + kFan, fine.size()); ++k) best = better(best, fine[k]);
            coarse.push_back(static_cast<std::uint32_t>(best));
        }
        levels_.push_back(std::move(coarse));
    }
    const std::size_t least = nearest(0, perMove_.size());
    if (std::isfinite(perMove_[least].gapMm)) nearest_ = least;
}

std::size_t ClearanceIndex::better(std::size_t a, std::size_t b) const {
    const float gapA = perMove_[a].gapMm, gapB = perMove_[b].gapMm;
    if (gapA == gapB) return std::min(a, b);
    return gapB < gapA ? b : a;
}

// Takes entries singly up to the next whole group, then climbs a level, as far as the range allows.
std::size_t ClearanceIndex::nearest(std::size_t first, std::size_t last) const {
    assert(known() && first < last && last <= perMove_.size());
    std::size_t best = first;
    for (std::size_t level = 0; first < last; ++level) {
        const std::vector<std::uint32_t>& entries = levels_[level];
        const bool top = level + 1 == levels_.size();
        while (first < last && (top || first % kFan != 0)) best = better(best, entries[first++]);
        while (last > first && last % kFan != 0) best = better(best, entries[--last]);
        first /= kFan;
        last /= kFan;
    }
    return best;
}

// The last one of this move that has begun, or one that lasts on.
std::optional<Encounter> ClearanceIndex::contactAt(std::size_t timedMove, double timeS) const {
    std::optional<Encounter> found;
    const auto first = std::partition_point(byMove_.begin(), byMove_.end(),
                                            [&](std::size_t i) { return encounters_[i].timedMove < timedMove; });
    for (auto at = first; at != byMove_.end() && encounters_[*at].timedMove == timedMove; ++at) {
        const Encounter& encounter = encounters_[*at];
        if (encounter.gapMm > 0 || encounter.timeS > timeS + kSameTimeS) continue;
        if (!found || encounter.timeS > found->timeS) found = encounter;
    }
    if (found || timedMove >= perMove_.size() || perMove_[timedMove].gapMm > 0) return found;
    // Of what touches on and on only the beginning is told.
    const Clearance& now = perMove_[timedMove];
    for (std::size_t i = firstEncounterFrom(timeS); i-- > 0;) {
        const Encounter& before = encounters_[i];
        if (before.gapMm > 0 || before.body != now.body || before.other != now.other) continue;
        if (before.timedMove >= timedMove) continue;
        Encounter still = before;
        still.gapMm = now.gapMm;
        still.place = now.place;
        return still;
    }
    return std::nullopt;
}

std::optional<Encounter> ClearanceIndex::nearMissAbout(double timeS) const {
    constexpr double kAboutS = 0.1;  // long enough to be seen as it plays
    std::optional<Encounter> found;
    for (std::size_t i = firstEncounterFrom(timeS - kAboutS);
         i < encounters_.size() && encounters_[i].timeS <= timeS + kAboutS; ++i) {
        if (encounters_[i].gapMm > 0 && (!found || encounters_[i].gapMm < found->gapMm)) found = encounters_[i];
    }
    return found;
}

std::optional<Encounter> ClearanceIndex::inForce(std::size_t timedMove, double timeS) const {
    const std::optional<Encounter> contact = contactAt(timedMove, timeS);
    return contact ? contact : nearMissAbout(timeS);
}

std::size_t ClearanceIndex::firstEncounterFrom(double timeS) const {
    const auto found = std::partition_point(encounters_.begin(), encounters_.end(),
                                            [&](const Encounter& e) { return e.timeS < timeS; });
    return static_cast<std::size_t>(found - encounters_.begin());
}

}  // namespace firstoff::gui
