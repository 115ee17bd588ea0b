// What a profile leaves open at each level of roughing, for profiles that rise and fall.
//
// Frame of CycleFrame: z falls along the profile, r is height. The way S…A'…B, that is the approach and the profile, is
// cut into slopes, each of which only rises or only falls (or stays level), so that a level meets it once at most.
// An open span of a level is a stretch of the way that nowhere stands above it; spans of a lower level lie within spans
// of a higher one.
#pragma once

#include <cstddef>
#include <vector>

#include "sim/control/cycle_profile.h"

namespace firstoff {

// A place on the way: on which slope, and where.
struct WayPlace {
    std::size_t slope = 0;
    Point point;
};

struct OpenSpan {
    WayPlace begin;
    WayPlace end;
    double length() const { return begin.point.z - end.point.z; }
};

class RoughingLevels {
public:
    // Slope 0 is the straight approach from `start` to the first point of the profile; upright where an allowance has
    // moved that in front of the start.
    RoughingLevels(Point start, const std::vector<ProfileElement>& profile);

    const std::vector<ProfileElement>& slopes() const { return slopes_; }
    double lowest() const { return lowest_; }
    WayPlace front() const { return {0, slopes_.front().from}; }

    // In order along the way. A stretch at exactly `level` is open.
    std::vector<OpenSpan> spans(double level) const;
    // The greatest height between two places, in either order.
    double highestBetween(WayPlace a, WayPlace b) const;
    // Where the approach comes down to `level`; its lower end if that is above the level.
    WayPlace onApproach(double level) const;

private:
    void addSlopes(const ProfileElement& element);
    Point crossing(const ProfileElement& slope, double level) const;

    std::vector<ProfileElement> slopes_;
    double lowest_ = 0;
};

}  // namespace firstoff
