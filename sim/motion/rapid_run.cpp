#include "sim/motion/rapid_run.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

constexpr double kNoTime = 1e-7;  // s; stretches shorter than this are none

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

RapidRun::RapidRun(Point from, Point to, const Setup& setup)
    : whole_(0, 0, 0, 0, {}), z_(whole_), r_(whole_), from_(from), to_(to), elbow_(to) {
    const Machine& m = setup.machine;
    const AxisDynamics& axes = m.axes;
    const bool known = axes.known();
    ofZ_ = {known ? axes.accelerationZ : 0, axes.jerkZ};
    ofR_ = {known ? axes.accelerationR : 0, axes.jerkR};
    const Point way = to - from;
    const double share = setup.overrides.rapid;
    z_ = alongAxis(way.z, m.rapidZMmPerMin, share, ofZ_);
    r_ = alongAxis(way.r, m.rapidRMmPerMin, share, ofR_);
    const bool zLonger = z_.seconds() >= r_.seconds();
    const SpeedProfile& longer = zLonger ? z_ : r_;
    const SpeedProfile& shorter = zLonger ? r_ : z_;
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
    hasElbow_ = true;
    elbowSeconds_ = shorter.seconds();
    elbowWay_ = longer.wayAfter(elbowSeconds_);
    const double part = elbowWay_ / way_;
    elbow_ = zLonger ? Point{from.z + part * way.z, to.r} : Point{to.z, from.r + part * way.r};
    if (longer.seconds() - elbowSeconds_ >= kNoTime && !(elbow_ == to)) return;
    // Both are there together. At one pace each that is a straight line.
    hasElbow_ = known;
    elbow_ = to;
    elbowSeconds_ = longer.seconds();
    elbowWay_ = way_;
}

Point RapidRun::placeAfter(double time) const {
    const auto along = [time](const SpeedProfile& axis, double from, double to) {
        return time >= axis.seconds() ? to : from + std::copysign(axis.wayAfter(time), to - from);
    };
    return {along(z_, from_.z, to_.z), along(r_, from_.r, to_.r)};
}

namespace {

// Acceleration of an axis at an instant, mm/s2; with jerk what it is at most.
double gainOf(const SpeedProfile& axis, const PathDynamics& dynamics, double time) {
    if (time < axis.gained()) return dynamics.acceleration;
    return time > axis.loses() ? -dynamics.acceleration : 0;
}

}  // namespace

// How far the way between two instants, over which neither axis goes over from one phase to the next, lies from the
// straight line: under an even acceleration A across it, A t^2 / 8.
double RapidRun::bendOver(double from, double to) const {
    const Point line = placeAfter(to) - placeAfter(from);
    const double l = length(line);
    if (l <= 0) return 0;
    const double middle = (from + to) / 2, time = to - from;
    const Point gain{std::copysign(1.0, to_.z - from_.z) * gainOf(z_, ofZ_, middle),
                     std::copysign(1.0, to_.r - from_.r) * gainOf(r_, ofR_, middle)};
    const double even = std::abs(cross(gain, line)) / l;
    // With jerk the two need not grow together.
    const double most = (std::abs(gain.z * line.r) + std::abs(gain.r * line.z)) / l;
    return (ofZ_.jerk > 0 || ofR_.jerk > 0 ? most : even) * time * time / 8;
}

// As many equal ones as keep to kBendMm each.
int RapidRun::piecesOver(double from, double to) const {
    constexpr int kMost = 100;
    int pieces = std::max(1, static_cast<int>(std::sqrt(bendOver(from, to) / kBendMm)));
    const auto bends = [&](int k) {
        const double step = (to - from) / pieces;
        return bendOver(from + k * step, from + (k + 1) * step) > kBendMm;
    };
    for (int k = 0; k < pieces && pieces < kMost; ++k) {
        if (!bends(k)) continue;
        ++pieces;
        k = -1;
    }
    return pieces;
}

std::vector<RapidRun::Bend> RapidRun::bends() const {
    std::vector<Bend> result;
    if (ofZ_.known()) {
        std::array<double, 6> phases{0, z_.gained(), z_.loses(), r_.gained(), r_.loses(), elbowSeconds_};
        std::sort(phases.begin(), phases.end());
        double from = 0;
        for (double phase : phases) {
            const double to = std::min(phase, elbowSeconds_);
            if (to - from < kNoTime) continue;
            const int pieces = piecesOver(from, to);
            for (int k = 1; k <= pieces; ++k) {
                const double time = from + (to - from) * k / pieces;
                result.push_back({time, placeAfter(time), std::hypot(z_.paceAfter(time), r_.paceAfter(time))});
            }
            from = to;
        }
        if (!result.empty()) result.pop_back();
    }
    result.push_back({elbowSeconds_, elbow_, whole_.paceAfter(elbowSeconds_)});
    return result;
}

double RapidRun::fractionOfAll(double time) const {
    return way_ > 0 ? std::clamp(whole_.wayAfter(time) / way_, 0.0, 1.0) : 1;
}

double RapidRun::fractionBehindElbow(double time) const {
    const double way = way_ - elbowWay_;
    return way > 0 ? std::clamp((whole_.wayAfter(elbowSeconds_ + time) - elbowWay_) / way, 0.0, 1.0) : 1;
}

}  // namespace firstoff
