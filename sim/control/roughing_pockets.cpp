#include "sim/control/roughing_pockets.h"

#include <algorithm>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/control/roughing.h"
#include "sim/control/roughing_levels.h"

namespace firstoff {

namespace {

using tolerance::kSamePlaceMm;

class PocketPasses {
public:
    PocketPasses(const std::vector<ProfileElement>& profile, const RoughingOrder& order, CyclePath& path)
        : order_(order), path_(path), start_(path.at()), levels_(start_, profile), here_(levels_.front()) {}

    bool write() {
        const double lowest = levels_.lowest() + kSamePlaceMm;
        if ((start_.r - lowest) / order_.depth > kMostPasses) return false;
        std::vector<OpenSpan> above = levels_.spans(start_.r);
        for (cut_ = 0; levelOf(cut_ + 1) > lowest; ++cut_) {
            const std::vector<OpenSpan> open = levels_.spans(levelOf(cut_ + 1));
            cutLevel(above, open);
            if (path_.pass() > kMostPasses) return false;
            above = open;
        }
        path_.beginPass();
        backToFront();
        return true;
    }

private:
    double levelOf(int number) const { return start_.r - number * order_.depth; }

    // The open spans lie within the spans above, both in order along the way.
    void cutLevel(const std::vector<OpenSpan>& above, const std::vector<OpenSpan>& open) {
        auto next = open.begin();
        for (const OpenSpan& span : above) {
            std::vector<OpenSpan> within;
            for (; next != open.end() && !comesBefore(span.end, next->end); ++next) {
                if (next->length() > kSamePlaceMm) within.push_back(*next);
            }
            if (!within.empty()) cutSpan(span, within);
        }
    }

    bool comesBefore(const WayPlace& a, const WayPlace& b) const {
        if (a.slope != b.slope) return a.slope < b.slope;
        const Point from = levels_.slopes()[a.slope].from;
        return distance(from, a.point) < distance(from, b.point);
    }

    void cutSpan(const OpenSpan& span, const std::vector<OpenSpan>& within) {
        path_.beginPass();
        travel(span.begin);
        for (const OpenSpan& open : within) {
            follow(open.begin);
            // Where the profile ends low it leads no farther down.
            path_.go({open.end.point.z, levelOf(cut_ + 1)}, MoveKind::Feed);
            here_ = open.end;
        }
        follow(span.end);
        escape(span);
    }

    // Along the way to a place farther on.
    void follow(const WayPlace& to) {
        for (; here_.slope <= to.slope; ++here_.slope) {
            ProfileElement piece = levels_.slopes()[here_.slope];
            if (here_.slope == to.slope) piece.to = to.point;
            if (here_.slope == 0) {
                path_.go(piece.to, order_.infeed);
            } else {
                path_.along(piece);
            }
        }
        here_ = to;
    }

    // At the end of the profile nothing may have led up to the level above: straight up then, since in front of the
    // end the profile may stand higher.
    void escape(const OpenSpan& span) {
        const double level = levelOf(cut_);
        if (path_.at().r < level) path_.go({path_.at().z, level}, MoveKind::Feed);
        const double back = std::clamp(order_.retract, 0.0, std::max(0.0, span.begin.point.z - path_.at().z));
        path_.go({path_.at().z + back, level + order_.retract}, MoveKind::Feed);
    }

    // At rapid over what stands between, and down to the place.
    void travel(const WayPlace& to) {
        if (distance(path_.at(), to.point) <= kSamePlaceMm) return;
        over(to, to.point.z);
        const bool front = to.slope == 0;
        const double above = to.point.r + order_.retract;
        if (!front && above < path_.at().r) path_.go({to.point.z, above}, MoveKind::Rapid);
        path_.go(to.point, front ? order_.infeed : MoveKind::Feed);
        here_ = to;
    }

    void over(const WayPlace& to, double z) {
        const double height = clearOf(levels_.highestBetween(here_, to));
        if (path_.at().r < height) path_.go({path_.at().z, height}, MoveKind::Rapid);
        path_.go({z, path_.at().r}, MoveKind::Rapid);
    }

    // Above the lowest level at which `peak` was left standing.
    double clearOf(double peak) const {
        if (peak > start_.r) return peak + order_.retract;
        return std::min(levelOf(levelsAbove(peak)) + order_.retract, start_.r);
    }

    // How many levels were cut above `peak`.
    int levelsAbove(double peak) const {
        const double count = std::floor((start_.r - peak + kSamePlaceMm) / order_.depth);
        return std::clamp(static_cast<int>(count), 0, cut_);
    }

    void backToFront() {
        const ProfileElement& approach = levels_.slopes().front();
        const WayPlace first{0, approach.to};
        const double peak = levels_.highestBetween(here_, first);
        const WayPlace front = levels_.onApproach(levelOf(levelsAbove(peak)));
        over(first, front.point.z);
        const bool slants = approach.to.z < approach.from.z - kSamePlaceMm;
        if (slants) path_.go(front.point, order_.infeed);
    }

    const RoughingOrder& order_;
    CyclePath& path_;
    Point start_;
    RoughingLevels levels_;
    WayPlace here_;
    int cut_ = 0;  // levels cut so far
};

}  // namespace

bool writePocketPasses(const std::vector<ProfileElement>& profile, const RoughingOrder& order, CyclePath& path) {
    return PocketPasses(profile, order, path).write();
}

}  // namespace firstoff
