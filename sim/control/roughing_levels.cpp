#include "sim/control/roughing_levels.h"

#include <algorithm>
#include <cmath>

#include "sim/base/tolerances.h"

namespace firstoff {

RoughingLevels::RoughingLevels(Point start, const std::vector<ProfileElement>& profile) {
    const Point first = profile.front().from;
    slopes_.push_back({{std::max(start.z, first.z), start.r}, first, {}, MoveKind::Feed, kNoBlock});
    for (const ProfileElement& e : profile) addSlopes(e);
    lowest_ = slopes_.front().to.r;
    for (const ProfileElement& slope : slopes_) lowest_ = std::min(lowest_, slope.to.r);
}

// An arc is cut at its highest and lowest points.
void RoughingLevels::addSlopes(const ProfileElement& element) {
    if (!isArc(element.kind)) return slopes_.push_back(element);
    const double radius = distance(element.from, element.centre);
    const double whole = progress(element, element.to);
    std::vector<Point> turns;
    for (double side : {radius, -radius}) {
        const Point at = element.centre + Point{0, side};
        const bool atAnEnd = std::min(distance(at, element.from), distance(at, element.to)) <= tolerance::kSamePlaceMm;
        if (!atAnEnd && progress(element, at) < whole) turns.push_back(at);
    }
    std::sort(turns.begin(), turns.end(),
              [&](Point a, Point b) { return progress(element, a) < progress(element, b); });
    ProfileElement rest = element;
    for (Point turn : turns) {
        ProfileElement slope = rest;
        slope.to = rest.from = turn;
        slopes_.push_back(slope);
    }
    slopes_.push_back(rest);
}

// Of a slope that meets the level, or misses it by no more than a tolerance.
Point RoughingLevels::crossing(const ProfileElement& slope, double level) const {
    const double rise = slope.to.r - slope.from.r;
    const double part = std::abs(rise) > 0 ? (level - slope.from.r) / rise : 0.0;
    if (part <= 0 || part >= 1) return {part <= 0 ? slope.from.z : slope.to.z, level};
    if (!isArc(slope.kind)) return {slope.from.z + part * (slope.to.z - slope.from.z), level};
    const double radius = distance(slope.from, slope.centre);
    const double height = level - slope.centre.r;
    const double half = std::sqrt(std::max(0.0, radius * radius - height * height));
    // Anticlockwise it rises to the right of the centre and falls to the left, clockwise the other way.
    const bool right = (rise > 0) == (slope.kind == MoveKind::ArcAnticlockwise);
    return {slope.centre.z + (right ? half : -half), level};
}

std::vector<OpenSpan> RoughingLevels::spans(double level) const {
    const double limit = level + tolerance::kSamePlaceMm;
    std::vector<OpenSpan> result;
    bool open = slopes_.front().from.r <= limit;
    WayPlace begin = front();
    for (std::size_t i = 0; i < slopes_.size(); ++i) {
        const bool opens = slopes_[i].to.r <= limit;
        if (opens == open) continue;
        const WayPlace place{i, crossing(slopes_[i], level)};
        if (open) result.push_back({begin, place});
        begin = place;
        open = opens;
    }
    if (open) result.push_back({begin, {slopes_.size() - 1, slopes_.back().to}});
    return result;
}

double RoughingLevels::highestBetween(WayPlace a, WayPlace b) const {
    if (b.slope < a.slope) std::swap(a, b);
    double highest = std::max(a.point.r, b.point.r);
    for (std::size_t i = a.slope; i < b.slope; ++i) highest = std::max(highest, slopes_[i].to.r);
    return highest;
}

WayPlace RoughingLevels::onApproach(double level) const {
    const ProfileElement& approach = slopes_.front();
    if (level <= approach.to.r) return {0, approach.to};
    if (level >= approach.from.r) return front();
    return {0, crossing(approach, level)};
}

}  // namespace firstoff
