// Notation. rho: programmed radius, signed; s: length along the path; v(rho) = min(C, A / |rho|): the pace, C flat, A
// hyperbola, knee K = A / C. Time is the integral of ds / v.
//
// Straight, ds = (L / |d rho|) d rho: the integral of 1 / v over rho is
//     G(rho) = rho / C                                |rho| <= K
//     G(rho) = +-(K / C + (rho^2 - K^2) / (2 A))      |rho| >  K
// odd and rising, so that t = L / |rho1 - rho0| * |G(rho1) - G(rho0)|, and G has a closed inverse. For K outside the
// stretch this is the facing formula pi (D1^2 - D2^2) / (4000 vc f) of makers' tables (reference rows ST08, ST09), in
// s.
//
// Arc of radius R about rho = c, ds = R d phi, theta = theta0 + q phi with q = +-1: rho = c + R sin theta, and the
// integral of |rho| over phi is +-(c phi - q R cos theta). The arc is cut where |rho| = K, each stretch has one law.
#include "sim/motion/travel_time.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

double integral(const PaceLaw& pace, double rho) {
    const double size = std::abs(rho);
    const double knee = pace.knee();
    if (size <= knee) return rho / pace.flat;
    return std::copysign(knee / pace.flat + (size - knee) * (size + knee) / (2 * pace.hyperbola), rho);
}

double radiusOfIntegral(const PaceLaw& pace, double g) {
    const double knee = pace.knee();
    const double beyond = std::abs(g) - knee / pace.flat;
    if (beyond <= 0) return g * pace.flat;
    return std::copysign(std::sqrt(knee * knee + 2 * pace.hyperbola * beyond), g);
}

bool allFlat(const StraightTravel& t, const PaceLaw& pace) {
    return std::max(std::abs(t.radiusFrom), std::abs(t.radiusTo)) <= pace.knee();
}

// Both ends on the same side of the axis and beyond the knee.
bool allHyperbolic(const StraightTravel& t, const PaceLaw& pace) {
    return t.radiusFrom * t.radiusTo > 0 && std::min(std::abs(t.radiusFrom), std::abs(t.radiusTo)) >= pace.knee();
}

// Angles travelled at which an arc passes |rho| = knee, rising, with 0 before and the whole turn after them.
struct Stretches {
    std::array<double, 6> phi{};
    std::size_t count = 0;

    void insert(double value) {
        std::size_t i = count++;
        for (; i > 0 && phi[i - 1] > value; --i) phi[i] = phi[i - 1];
        phi[i] = value;
    }
};

Stretches stretchesOf(const Arc& arc, double centreRadius, double knee) {
    Stretches result;
    const double whole = std::abs(arc.turn);
    result.insert(0);
    result.insert(whole);
    for (double rho : {knee, -knee}) {
        const double sine = (rho - centreRadius) / arc.radius();
        if (!(std::abs(sine) < 1)) continue;
        const double theta = std::asin(sine);
        for (double angle : {theta, kPi - theta}) {
            double phi = std::copysign(1.0, arc.turn) * (angle - arc.angleFrom);
            phi -= 2 * kPi * std::floor(phi / (2 * kPi));
            if (phi > 0 && phi < whole) result.insert(phi);
        }
    }
    return result;
}

// One arc and its pace, in angle travelled.
class ArcTravel {
public:
    ArcTravel(const Arc& arc, double centreRadius, const PaceLaw& pace)
        : arc_(arc), c_(centreRadius), pace_(pace), stretches_(stretchesOf(arc, centreRadius, pace.knee())) {}

    double total() const {
        double sum = 0;
        for (std::size_t i = 0; i + 1 < stretches_.count; ++i) {
            sum += between(stretches_.phi[i], stretches_.phi[i + 1], lawOf(i));
        }
        return sum;
    }

    double phiAfter(double time) const {
        for (std::size_t i = 0; i + 1 < stretches_.count; ++i) {
            const double from = stretches_.phi[i];
            const double to = stretches_.phi[i + 1];
            const double lasts = between(from, to, lawOf(i));
            if (time <= lasts) return solve(from, to, lawOf(i), time, lasts);
            time -= lasts;
        }
        return stretches_.phi[stretches_.count - 1];
    }

private:
    enum class Law { Flat, Above, Below };  // beyond the knee on the positive or negative side of the axis

    double rho(double phi) const { return c_ + arc_.radius() * std::sin(theta(phi)); }
    double theta(double phi) const { return arc_.angleFrom + std::copysign(phi, arc_.turn); }

    Law lawOf(std::size_t stretch) const {
        const double middle = rho((stretches_.phi[stretch] + stretches_.phi[stretch + 1]) / 2);
        if (std::abs(middle) <= pace_.knee()) return Law::Flat;
        return middle > 0 ? Law::Above : Law::Below;
    }

    // cos a - cos b without loss for near angles: -2 sin((a + b) / 2) sin((a - b) / 2).
    double between(double from, double to, Law law) const {
        const double r = arc_.radius();
        if (law == Law::Flat) return r * (to - from) / pace_.flat;
        const double middle = theta((from + to) / 2);
        const double area = c_ * (to - from) + 2 * r * std::sin(middle) * std::sin((to - from) / 2);
        return (law == Law::Above ? r : -r) * area / pace_.hyperbola;
    }

    // Newton steps kept inside a closing bracket; the integrand is positive, so there is one answer.
    double solve(double from, double to, Law law, double time, double lasts) const {
        if (lasts <= 0) return to;
        double low = from;
        double high = to;
        double phi = from + (to - from) * time / lasts;
        if (law == Law::Flat) return phi;
        for (int i = 0; i < 60; ++i) {
            const double error = between(from, phi, law) - time;
            (error > 0 ? high : low) = phi;
            const double slope = arc_.radius() * std::abs(rho(phi)) / pace_.hyperbola;
            double next = phi - error / slope;
            if (!(next > low && next < high)) next = (low + high) / 2;
            if (std::abs(next - phi) <= 1e-15 * (to - from)) break;
            phi = next;
        }
        return phi;
    }

    const Arc& arc_;
    double c_;
    PaceLaw pace_;
    Stretches stretches_;
};

}  // namespace

double seconds(const StraightTravel& travel, const PaceLaw& pace) {
    if (allFlat(travel, pace)) return travel.length / pace.flat;
    if (allHyperbolic(travel, pace)) {
        return travel.length * std::abs(travel.radiusFrom + travel.radiusTo) / (2 * pace.hyperbola);
    }
    const double rise = travel.radiusTo - travel.radiusFrom;
    const double over = integral(pace, travel.radiusTo) - integral(pace, travel.radiusFrom);
    return travel.length * (over / rise);  // not 0: the ends lie on different sides of a knee
}

double fractionAfter(const StraightTravel& travel, const PaceLaw& pace, double time) {
    if (travel.length <= 0) return 1;
    if (allFlat(travel, pace)) return std::clamp(time * pace.flat / travel.length, 0.0, 1.0);
    const double rise = travel.radiusTo - travel.radiusFrom;
    if (allHyperbolic(travel, pace)) {
        // rho^2 = rho0^2 + 2 A t rise / L, and the fraction (rho - rho0) / rise without the cancelling difference.
        const double grown = 2 * pace.hyperbola * time / travel.length;
        const double from = std::abs(travel.radiusFrom);
        const double now =
            std::sqrt(std::max(0.0, from * from + grown * std::copysign(rise, rise * travel.radiusFrom)));
        return std::clamp(grown / (now + from), 0.0, 1.0);
    }
    const double g = integral(pace, travel.radiusFrom) + time * rise / travel.length;
    return std::clamp((radiusOfIntegral(pace, g) - travel.radiusFrom) / rise, 0.0, 1.0);
}

double Arc::length() const {
    return radius() * std::abs(turn);
}

Point Arc::at(double fraction) const {
    const double angle = angleFrom + turn * fraction;
    const double r = radiusFrom + (radiusTo - radiusFrom) * fraction;
    return centre + r * Point{std::cos(angle), std::sin(angle)};
}

Arc arcBetween(Point from, Point to, Point centre, bool clockwise) {
    const Point a = from - centre;
    const Point b = to - centre;
    Arc arc{centre, firstoff::length(a), firstoff::length(b), std::atan2(a.r, a.z), 0};
    if (from == to) {
        arc.turn = clockwise ? -2 * kPi : 2 * kPi;
        return arc;
    }
    if (distance(from, to) <= tolerance::kSamePlaceMm) return arc;
    const double turn = std::atan2(cross(a, b), dot(a, b));
    arc.turn = turn;
    if (clockwise && turn > 0) arc.turn = turn - 2 * kPi;
    if (!clockwise && turn < 0) arc.turn = turn + 2 * kPi;
    return arc;
}

double seconds(const Arc& arc, double centreRadius, const PaceLaw& pace) {
    if (arc.turn == 0) return 0;
    if (std::isinf(pace.hyperbola)) return arc.length() / pace.flat;
    return ArcTravel(arc, centreRadius, pace).total();
}

double fractionAfter(const Arc& arc, double centreRadius, const PaceLaw& pace, double time) {
    if (arc.turn == 0) return 1;
    if (std::isinf(pace.hyperbola)) return std::clamp(time * pace.flat / arc.length(), 0.0, 1.0);
    return std::clamp(ArcTravel(arc, centreRadius, pace).phiAfter(time) / std::abs(arc.turn), 0.0, 1.0);
}

double smallestRadius(const Arc& arc, double centreRadius) {
    const auto rho = [&](double phi) {
        return centreRadius + arc.radius() * std::sin(arc.angleFrom + std::copysign(phi, arc.turn));
    };
    const double whole = std::abs(arc.turn);
    const double from = rho(0);
    const double to = rho(whole);
    if (from * to <= 0) return 0;
    double smallest = std::min(std::abs(from), std::abs(to));
    for (double bottom : {-kPi / 2, kPi / 2}) {
        double phi = std::copysign(1.0, arc.turn) * (bottom - arc.angleFrom);
        phi -= 2 * kPi * std::floor(phi / (2 * kPi));
        if (phi >= whole) continue;
        if (rho(phi) * from <= 0) return 0;
        smallest = std::min(smallest, std::abs(rho(phi)));
    }
    return smallest;
}

}  // namespace firstoff
