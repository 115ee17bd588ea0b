#include "sim/motion/move_turns.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

namespace {

// An arc is looked at in steps of this, over which f is as good as a low polynomial.
constexpr double kArcStep = kPi / 90;

// Gauss-Legendre on [-1, 1] with five points (Abramowitz and Stegun, table 25.4).
constexpr double kPlaces[] = {-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831, 0.9061798459386640};
constexpr double kWeights[] = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665,
                               0.2369268850561891};

bool runsAtFeed(MoveKind kind) {
    return kind == MoveKind::Feed || kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

}  // namespace

MoveTurns::MoveTurns(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup) {
    if (!runsAtFeed(timed.kind)) return;
    const Move& move = toolpath.moves[timed.move];
    const ModalState& modal = toolpath.modals[move.modal];
    spindle_ = spindleLaw(move, modal, setup);
    PaceLimits why;
    pace_ = paceLaw(move, modal, spindle_, setup, why);
    if (spindle_.limit <= 0 || !(pace_.flat > 0) || why.feedMissing) return;
    const Point shift = toolpath.programmedShift(move);
    isArc_ = timed.kind != MoveKind::Feed;
    if (isArc_) {
        arc_ = arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
        centreRadius_ = timed.centre.r + shift.r;
        length_ = arc_.length();
    } else {
        straight_ = {timed.from.r + shift.r, timed.to.r + shift.r, distance(timed.from, timed.to)};
        length_ = straight_.length;
    }
    if (length_ > 0) layStretches();
}

double MoveTurns::radiusAt(double fraction) const {
    if (isArc_) return centreRadius_ + arc_.radius() * std::sin(arc_.angleFrom + fraction * arc_.turn);
    return straight_.radiusFrom + fraction * (straight_.radiusTo - straight_.radiusFrom);
}

double MoveTurns::feedAtRadius(double radius) const {
    const double size = std::abs(radius);
    const double pace = size > pace_.knee() ? pace_.hyperbola / size : pace_.flat;
    return 60 * pace / spindle_.revPerMinAt(radius);
}

double MoveTurns::feedAt(double fraction) const {
    return total_ > 0 ? feedAtRadius(radiusAt(fraction)) : 0;
}

void MoveTurns::layStretches() {
    std::vector<double> borders{0, 1};
    const double kneeN = spindle_.hyperbola > 0 ? spindle_.hyperbola / spindle_.limit : 0;
    const double kneeV = pace_.knee();
    const bool varies = kneeN > 0 && kneeV > kneeN * (1 + 1e-12);
    if (varies) {
        if (isArc_) {
            const int steps = std::max(1, static_cast<int>(std::ceil(std::abs(arc_.turn) / kArcStep)));
            for (int i = 1; i < steps; ++i) borders.push_back(static_cast<double>(i) / steps);
        }
        for (double knee : {-kneeV, -kneeN, kneeN, kneeV}) {
            if (!std::isfinite(knee)) continue;
            if (!isArc_) {
                borders.push_back((knee - straight_.radiusFrom) / (straight_.radiusTo - straight_.radiusFrom));
                continue;
            }
            const double sine = (knee - centreRadius_) / arc_.radius();
            if (!(std::abs(sine) < 1) || arc_.turn == 0) continue;
            for (double angle : {std::asin(sine), kPi - std::asin(sine)}) {
                const double way = (angle - arc_.angleFrom) / arc_.turn;
                const double round = 2 * kPi / std::abs(arc_.turn);
                borders.push_back(way - round * std::floor(way / round));
            }
        }
    }
    borders.erase(std::remove_if(borders.begin(), borders.end(), [](double b) { return !(b >= 0 && b <= 1); }),
                  borders.end());
    std::sort(borders.begin(), borders.end());
    for (std::size_t i = 0; i + 1 < borders.size(); ++i) {
        if (borders[i + 1] <= borders[i]) continue;
        Stretch stretch{borders[i], borders[i + 1], total_, true};
        const double middle = std::abs(radiusAt((stretch.from + stretch.to) / 2));
        stretch.even = !varies || middle <= kneeN || middle >= kneeV;
        stretches_.push_back(stretch);
        total_ += turnsWithin(stretch, stretch.to);
    }
}

// From the start of a stretch to a part of the length within it.
double MoveTurns::turnsWithin(const Stretch& stretch, double fraction) const {
    const double way = (fraction - stretch.from) * length_;
    if (stretch.even) return way / feedAtRadius(radiusAt((stretch.from + stretch.to) / 2));
    if (!isArc_) {
        // f = c |rho|, rho even along the way: the integral of 1 / rho is its logarithm.
        const double a = std::abs(radiusAt(stretch.from));
        const double b = std::abs(radiusAt(fraction));
        const double perRadius = feedAtRadius(a) / a;
        if (a == b) return way / (perRadius * a);
        return way / (b - a) * std::log(b / a) / perRadius;
    }
    double sum = 0;
    for (int k = 0; k < 5; ++k) {
        const double at = stretch.from + (fraction - stretch.from) * (1 + kPlaces[k]) / 2;
        sum += kWeights[k] / feedAtRadius(radiusAt(at));
    }
    return way * sum / 2;
}

double MoveTurns::fractionAfter(double turns) const {
    if (total_ <= 0 || turns >= total_) return 1;
    if (turns <= 0) return 0;
    auto after = std::upper_bound(stretches_.begin(), stretches_.end(), turns,
                                  [](double t, const Stretch& s) { return t < s.turnsBefore; });
    const Stretch& stretch = *std::prev(after);
    const double left = turns - stretch.turnsBefore;
    const double span = stretch.to - stretch.from;
    if (stretch.even) return stretch.from + left * feedAtRadius(radiusAt(stretch.from + span / 2)) / length_;
    double low = stretch.from;
    double high = stretch.to;
    double at = low + span / 2;
    for (int i = 0; i < 60 && low < high; ++i) {
        const double error = turnsWithin(stretch, at) - left;
        (error > 0 ? high : low) = at;
        double next = at - error * feedAtRadius(radiusAt(at)) / length_;
        if (!(next > low && next < high)) next = low + (high - low) / 2;
        if (std::abs(next - at) <= 1e-15) break;
        at = next;
    }
    return at;
}

}  // namespace firstoff
