#include "sim/cutting/beam.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

double roundStiffness(double youngGPa, double diameterMm, double boreMm) {
    constexpr double kNPerMm2PerGPa = 1000;
    return youngGPa * kNPerMm2PerGPa * kPi * (std::pow(diameterMm, 4) - std::pow(boreMm, 4)) / 64;
}

Beam::Beam(const std::vector<double>& stationsMm, const std::vector<double>& stiffness) : stations_(stationsMm) {
    assert(!stiffness.empty() && stations_.size() == stiffness.size() + 1 && stations_.front() == 0);
    flexibility_.reserve(stiffness.size());
    before_.reserve(stations_.size());
    before_.emplace_back();
    for (std::size_t i = 0; i < stiffness.size(); ++i) {
        assert(stiffness[i] > 0 && stations_[i + 1] > stations_[i]);
        flexibility_.push_back(1 / stiffness[i]);
        before_.push_back(upTo(stations_[i + 1]));
    }
}

double Beam::within(double x) const {
    return std::clamp(x, 0.0, lengthMm());
}

Beam::Integrals Beam::upTo(double x) const {
    const auto after = std::upper_bound(stations_.begin(), stations_.begin() + std::ssize(flexibility_), x);
    const std::size_t i = after == stations_.begin() ? 0 : static_cast<std::size_t>(after - stations_.begin()) - 1;
    const double from = stations_[i], f = flexibility_[i];
    return {before_[i].i0 + f * (x - from), before_[i].i1 + f * (x * x - from * from) / 2,
            before_[i].i2 + f * (x * x * x - from * from * from) / 3};
}

double Beam::clamped(double a, double b) const {
    a = within(a);
    b = within(b);
    const Integrals m = upTo(std::min(a, b));
    return std::max(0.0, a * b * m.i0 - (a + b) * m.i1 + m.i2);
}

double Beam::supportShare(double a, double p) const {
    assert(p > 0);
    return clamped(a, p) / clamped(p, p);
}

double Beam::clampedAndSupported(double a, double b, double p) const {
    return clamped(a, b) - supportShare(a, p) * clamped(b, p);
}

double Beam::betweenCentres(double a, double b) const {
    const double first = within(std::min(a, b)), second = within(std::max(a, b)), l = lengthMm();
    const Integrals i = upTo(first), j = upTo(second), k = upTo(l);
    const double lever = 1 / l;
    const double left = (1 - first * lever) * (1 - second * lever) * i.i2;
    const double middle = first * (1 - second * lever) * ((j.i1 - i.i1) - lever * (j.i2 - i.i2));
    const double right = first * second * ((k.i0 - j.i0) - 2 * lever * (k.i1 - j.i1) + lever * lever * (k.i2 - j.i2));
    return left + middle + right;
}

}  // namespace firstoff
