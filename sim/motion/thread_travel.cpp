#include "sim/motion/thread_travel.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

class Turns {
public:
    explicit Turns(const ThreadTravel& travel) : t_(travel), slope_((t_.radiusTo - t_.radiusFrom) / t_.way) {
        borders_[count_++] = 0;
        if (t_.spindle.hyperbola > 0 && slope_ != 0) {
            const double knee = t_.spindle.hyperbola / t_.spindle.limit;
            const double first = slope_ > 0 ? -knee : knee;
            for (double radius : {first, 0.0, -first}) addBorder((radius - t_.radiusFrom) / slope_);
        }
        all_ = t_.lead.revolutions(t_.way);
        borders_[count_++] = all_;
    }

    double all() const { return all_; }

    double minutesTo(double turns) const {
        double sum = 0;
        for (std::size_t i = 0; i + 1 < count_; ++i) {
            const double to = std::min(turns, borders_[i + 1]);
            if (to <= borders_[i]) break;
            sum += between(borders_[i], to);
        }
        return sum;
    }

private:
    void addBorder(double way) {
        if (way > 0 && way < t_.way) borders_[count_++] = t_.lead.revolutions(way);
    }

    double radiusAt(double turns) const { return t_.radiusFrom + slope_ * t_.lead.wayAfter(turns); }

    double between(double from, double to) const {
        const double middle = radiusAt((from + to) / 2);
        const bool clamped = std::abs(middle) * t_.spindle.limit <= t_.spindle.hyperbola;
        if (t_.spindle.hyperbola <= 0 || clamped) return (to - from) / t_.spindle.limit;
        return std::abs(radiusTimesTurns(to) - radiusTimesTurns(from)) / t_.spindle.hyperbola;
    }

    double radiusTimesTurns(double n) const {
        return n * (t_.radiusFrom + slope_ * n * (t_.lead.lead / 2 + t_.lead.change * n / 6));
    }

    const ThreadTravel& t_;
    double slope_;  // of the radius over the way
    std::array<double, 5> borders_{};
    std::size_t count_ = 0;
    double all_ = 0;
};

}  // namespace

double seconds(const ThreadTravel& travel) {
    if (travel.way <= 0) return 0;
    const Turns turns(travel);
    return 60 * turns.minutesTo(turns.all());
}

double fractionAfter(const ThreadTravel& travel, double time) {
    if (travel.way <= 0) return 1;
    const Turns turns(travel);
    double low = 0, high = turns.all();
    if (travel.spindle.hyperbola <= 0) {
        low = high = std::min(high, time / 60 * travel.spindle.limit);
    }
    // The time grows with every turn; halving finds the place to the last bit in some fifty steps.
    for (int i = 0; i < 60 && low < high; ++i) {
        const double middle = (low + high) / 2;
        (60 * turns.minutesTo(middle) < time ? low : high) = middle;
    }
    return std::clamp(travel.lead.wayAfter((low + high) / 2) / travel.way, 0.0, 1.0);
}

double fastestMmPerMin(const ThreadTravel& travel) {
    return std::max(travel.lead.lead * travel.spindle.revPerMinAt(travel.radiusFrom),
                    travel.lead.leadAt(travel.way) * travel.spindle.revPerMinAt(travel.radiusTo));
}

}  // namespace firstoff
