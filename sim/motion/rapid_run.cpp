#include "sim/motion/rapid_run.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

// A rate of 0 comes only from a set-up put together by hand; such an axis is there at once.
SpeedProfile alongAxis(double way, double mmPerMin, double share, const PathDynamics& dynamics) {
    if (mmPerMin <= 0) return {0, 0, 0, 0, dynamics};
    return {std::abs(way), 0, 0, mmPerMin * share / 60, dynamics};
}

// What lets neither axis have more than its own, moving by the parts `z` and `r` of the way.
double least(double z, double r, double ofZ, double ofR) {
    const double forZ = z > 0 ? ofZ / z : std::numeric_limits<double>::infinity();
    const double forR = r > 0 ? ofR / r : std::numeric_limits<double>::infinity();
    return std::min(forZ, forR);
}

}  // namespace

RapidRun::RapidRun(Point from, Point to, const Setup& setup) : whole_(0, 0, 0, 0, {}), from_(from), elbow_(to) {
    const Machine& m = setup.machine;
    const AxisDynamics& axes = m.axes;
    const bool known = axes.known();
    const PathDynamics ofZ{known ? axes.accelerationZ : 0, axes.jerkZ}, ofR{known ? axes.accelerationR : 0, axes.jerkR};
    const Point way = to - from;
    const double share = setup.overrides.rapid;
    const SpeedProfile z = alongAxis(way.z, m.rapidZMmPerMin, share, ofZ);
    const SpeedProfile r = alongAxis(way.r, m.rapidRMmPerMin, share, ofR);
    const bool zLonger = z.seconds() >= r.seconds();
    const SpeedProfile& longer = zLonger ? z : r;
    const SpeedProfile& shorter = zLonger ? r : z;
    way_ = std::abs(zLonger ? way.z : way.r);
    whole_ = longer;
    if (way.z == 0 || way.r == 0 || shorter.seconds() <= 0) return;
    if (!m.rapidPerAxis) {
        if (!known) return;  // at the pace of the slower axis: as long as that takes
        way_ = length(way);
        const double partZ = std::abs(way.z) / way_, partR = std::abs(way.r) / way_;
        const double most = share / 60 * least(partZ, partR, m.rapidZMmPerMin, m.rapidRMmPerMin);
        whole_ = {way_,
                  0,
                  0,
                  most,
                  {least(partZ, partR, axes.accelerationZ, axes.accelerationR),
                   axes.jerkZ > 0 && axes.jerkR > 0 ? least(partZ, partR, axes.jerkZ, axes.jerkR) : 0}};
        return;
    }
    if (shorter.seconds() == longer.seconds()) return;
    hasElbow_ = true;
    elbowSeconds_ = shorter.seconds();
    elbowWay_ = longer.wayAfter(elbowSeconds_);
    const double part = elbowWay_ / way_;
    elbow_ = zLonger ? Point{from.z + part * way.z, to.r} : Point{to.z, from.r + part * way.r};
}

double RapidRun::fractionOfFirst(double time) const {
    const double way = hasElbow_ ? elbowWay_ : way_;
    return way > 0 ? std::clamp(whole_.wayAfter(time) / way, 0.0, 1.0) : 1;
}

double RapidRun::fractionOfSecond(double time) const {
    const double way = way_ - elbowWay_;
    return way > 0 ? std::clamp((whole_.wayAfter(elbowSeconds_ + time) - elbowWay_) / way, 0.0, 1.0) : 1;
}

double RapidRun::paceIntoElbow() const {
    return elbowWay_ > 0 ? paceOutOfElbow() * distance(from_, elbow_) / elbowWay_ : 0;
}

}  // namespace firstoff
