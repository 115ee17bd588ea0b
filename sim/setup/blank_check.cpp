#include "sim/setup/blank_check.h"

#include <fmt/format.h>

#include <cmath>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/setup/setup_document.h"

namespace firstoff {

namespace {

class BlankCheck {
public:
    explicit BlankCheck(Setup& setup) : setup_(setup), s_(setup.stock) {}

    void run() {
        checkHeld();
        checkBetweenJaws();
        checkThroughBore();
        checkCentre();
        checkFlats();
        checkSteadyRest();
    }

private:
    void stop(std::string_view code, SourceSpan span, std::string message, std::string remedy) {
        setup_.findings.push_back(setupStop(code, span, std::move(message), std::move(remedy)));
    }

    void checkHeld() {
        if (s_.backZ < setup_.chuck.jawLength) return;
        stop("setup-bar-not-held", s_.placeSpan,
             say("The bar is {:g} mm long and sticks out {:g} mm: the jaws hold none of it.", s_.frontZ - s_.backZ,
                 s_.frontZ - setup_.chuck.jawLength),
             tr("Shorten stick_out_mm or correct length_mm."));
    }

    // What it measures as it turns.
    std::string thickness() const {
        if (s_.shape == Stock::Shape::Round && s_.eccentricity == 0) return fmt::format("{:g} mm", 2 * s_.outerRadius);
        return say("{:.4g} mm, over all as it turns,", 2 * s_.outerRadius);
    }

    // Work that is gripped from inside may be as large as it likes.
    void checkBetweenJaws() {
        if (setup_.chuck.grip == Chuck::Grip::Inside || s_.outerRadius <= setup_.chuck.jawOuterRadius) return;
        stop("setup-bar-larger-than-chuck", s_.sizeSpan,
             say("A bar of {} does not go between jaws that sweep {:g} mm.", thickness(),
                 2 * setup_.chuck.jawOuterRadius),
             tr("Correct the size of the bar, or jaw_outer_diameter_mm of the chuck."));
    }

    void checkThroughBore() {
        const auto bore = setup_.chuck.throughBoreRadius;
        if (!bore || s_.backZ >= 0 || s_.outerRadius <= *bore) return;
        stop("setup-bar-larger-than-chuck", s_.sizeSpan,
             say("The bar reaches {:g} mm behind the chuck face, but {} does not pass a bore of {:g} mm.", -s_.backZ,
                 thickness(), 2 * *bore),
             tr("Saw the blank shorter, let it stick out further, or correct the diameters."));
    }

    // With the centre in the work its point stands inside the bar, no deeper than its cone is long.
    void checkCentre() {
        if (!setup_.tailstock || !setup_.tailstock->advanced) return;
        const Tailstock& tailstock = *setup_.tailstock;
        const double inside = s_.frontZ - tailstock.tipZ;
        const double cone = tailstock.centreRadius / std::tan(tailstock.centreAngle / 2);
        if (inside >= 0 && inside <= cone) return;
        stop("setup-centre-not-in-work", tailstock.tipSpan,
             inside < 0 ? say("The centre is said to be in the work, but its point stands {:g} mm in front of the end "
                              "of the bar, which is {:g} mm from the chuck face.",
                              -inside, s_.frontZ)
                        : say("The centre is said to be in the work, but its point stands {:g} mm inside the end of "
                              "the bar, which is {:g} mm from the chuck face.",
                              inside, s_.frontZ),
             tr("Correct centre_z_from_chuck_face_mm, or write advanced = false."));
    }

    // Jaws that close together rest on flats only where every jaw meets one squarely.
    void checkFlats() {
        const int flats = s_.shape == Stock::Shape::Hexagon ? 6 : s_.shape == Stock::Shape::Square ? 4 : 0;
        const int jaws = setup_.chuck.jaws;
        if (flats == 0 || jaws < 1 || flats % jaws == 0) return;
        Finding finding = setupStop(
            "setup-jaws-miss-flats", s_.sizeSpan,
            flats == 6 ? say("{} jaws spaced alike do not all rest on flats of a hexagon.", jaws)
                       : say("{} jaws spaced alike do not all rest on flats of a square.", jaws),
            flats == 6 ? tr("A hexagon sits in 2, 3 or 6 jaws; else it takes a bush, a collet or jaws bored for it.")
                       : tr("A square sits in 2 or 4 jaws; else it takes a bush, a collet or jaws bored for it."));
        finding.severity = Severity::Note;
        setup_.findings.push_back(std::move(finding));
    }

    // Its rollers stand on the bar as it is at the start, a turned blank may be of another diameter there.
    void checkSteadyRest() {
        if (!setup_.steadyRest || s_.shape != Stock::Shape::Round || s_.eccentricity != 0) return;
        const SteadyRest& rest = *setup_.steadyRest;
        constexpr double kByHandMm = 0.05;
        const double from = rest.z - rest.width / 2, to = rest.z + rest.width / 2;
        if (to > s_.frontZ || from < s_.backZ) {
            stop("setup-steady-rest", rest.span,
                 say("The steady rest stands from {:g} to {:g} mm in front of the chuck face, the bar ends at "
                     "{:g} mm.",
                     from, to, to > s_.frontZ ? s_.frontZ : s_.backZ),
                 tr("Correct z_from_chuck_face_mm of the steady rest, or the bar."));
        } else if (std::abs(rest.barRadius - s_.outerRadius) > kByHandMm) {
            stop(
                "setup-steady-rest", rest.span,
                say("The rollers of the steady rest are set to {:g} mm, the bar is {:g} mm thick.", 2 * rest.barRadius,
                    2 * s_.outerRadius),
                tr("Write the diameter that the rollers stand on (bar_diameter_mm); for a bar turned there before give "
                   "the blank as a half-section."));
        }
    }

    Setup& setup_;
    const Stock& s_;
};

}  // namespace

double circleRound(const Stock& stock, double half) {
    switch (stock.shape) {
        case Stock::Shape::Hexagon:
            // The corners beside the flat that looks away from the axis.
            return std::hypot(stock.eccentricity + half, half * std::tan(kPi / 6));
        case Stock::Shape::Square:
            return std::hypot(stock.eccentricity + half, half);
        default:
            return stock.eccentricity + half;
    }
}

void checkBlankInChuck(Setup& setup) {
    if (setup.stock.outerRadius > 0) BlankCheck(setup).run();
}

}  // namespace firstoff
