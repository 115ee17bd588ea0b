#include "sim/motion/spindle_run_up.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "sim/base/units.h"

namespace firstoff {

double inertiaOfBlank(const Setup& setup) {
    const Stock& stock = setup.stock;
    const double length = stock.frontZ - stock.backZ;
    if (setup.material.densityKgPerDm3 <= 0 || length <= 0 || stock.outerRadius <= stock.boreRadius) return 0;
    constexpr double kKgPerMm3 = 1e-6;  // of 1 kg/dm3
    constexpr double kSquareMetres = 1e-6;
    const double outer = stock.outerRadius * stock.outerRadius, inner = stock.boreRadius * stock.boreRadius;
    const double mass = setup.material.densityKgPerDm3 * kKgPerMm3 * kPi * (outer - inner) * length;
    return mass * (outer + inner) / 2 * kSquareMetres;
}

SpindleRunUp::SpindleRunUp(const Setup& setup) {
    const SpindleDrive& drive = setup.machine.spindle;
    if (drive.runUpS > 0 && setup.machine.maxRevPerMin > 0) {
        inertia_ = drive.runUpS / setup.machine.maxRevPerMin;
        pieces_.push_back({0, 0, 1, 0});
        return;
    }
    if (drive.inertiaKgM2 <= 0 || drive.curve.empty()) return;
    inertia_ = 2 * kPi / 60 * (drive.inertiaKgM2 + inertiaOfBlank(setup));
    pieces_.push_back({0, 0, drive.curve.front().torqueNm, 0});
    for (std::size_t i = 0; i < drive.curve.size(); ++i) {
        const SpindleDrive::CurvePoint& at = drive.curve[i];
        Piece piece{at.revPerMin, pieces_.back().before + within(pieces_.back(), at.revPerMin), at.torqueNm, 0};
        if (i + 1 < drive.curve.size()) {
            const SpindleDrive::CurvePoint& next = drive.curve[i + 1];
            piece.slope = (next.torqueNm - at.torqueNm) / (next.revPerMin - at.revPerMin);
        }
        if (at.revPerMin <= pieces_.back().from) pieces_.pop_back();
        pieces_.push_back(piece);
    }
}

double SpindleRunUp::within(const Piece& piece, double revPerMin) const {
    const double gained = revPerMin - piece.from;
    const double grown = piece.slope * gained / piece.torque;
    // ln(1 + x) / x where x may be nothing.
    const double share = std::abs(grown) > 1e-12 ? std::log1p(grown) / grown : 1;
    return inertia_ * gained / piece.torque * share;
}

double SpindleRunUp::secondsTo(double revPerMin) const {
    const auto after = std::upper_bound(pieces_.begin(), pieces_.end(), revPerMin,
                                        [](double n, const Piece& piece) { return n < piece.from; });
    const Piece& piece = after == pieces_.begin() ? *after : *std::prev(after);
    return piece.before + within(piece, revPerMin);
}

double SpindleRunUp::revPerMinAfter(double seconds) const {
    const auto after = std::upper_bound(pieces_.begin(), pieces_.end(), seconds,
                                        [](double t, const Piece& piece) { return t < piece.before; });
    const Piece& piece = after == pieces_.begin() ? *after : *std::prev(after);
    const double steady = (seconds - piece.before) * piece.torque / inertia_;
    const double grown = (seconds - piece.before) * piece.slope / inertia_;
    return piece.from + steady * (std::abs(grown) > 1e-12 ? std::expm1(grown) / grown : 1);
}

double SpindleRunUp::gainAt(double revPerMin) const {
    const auto after = std::upper_bound(pieces_.begin(), pieces_.end(), revPerMin,
                                        [](double n, const Piece& piece) { return n < piece.from; });
    const Piece& piece = after == pieces_.begin() ? *after : *std::prev(after);
    return (piece.torque + piece.slope * (revPerMin - piece.from)) / inertia_;
}

}  // namespace firstoff
