// The grip of a chuck at speed, by the method of VDI 3106 as chuck makers' manuals give it. No standard was opened;
// rows CG01 to CG21 of tests/reference/chuck_grip.csv name the manuals that were.
//
//     Fsp0   grip of all jaws together, standing still, N        Mc    mass times radius, all jaws, kg m
//     Fc     what the speed takes away or adds, N                n     rev/min
//     F      what the cut asks friction to hold, N               mu    friction between jaw and work
//     Sz     factor against the cutting force                    Ssp   factor against the loss at speed
//
//     Fc = Mc (pi n / 30)²                      sum over top jaws and base jaws        (CG01)
//     Fsp = F Sz / mu                           grip that the cut needs                (CG02, CG14)
//     Fsp0 = Ssp (Fsp + Fc), inside grip Ssp (Fsp - Fc)                                (CG03)
//     n = (30 / pi) sqrt((Fsp0 - Fsp) / Mc)     speed at which just Fsp is left        (CG04)
//
// Jaws that open in a bore are pressed outwards by the speed: it adds to their grip.
#pragma once

#include <optional>

#include "sim/setup/setup.h"

namespace firstoff {

// Both factors are 1.5 at least (VDI 3106, CG02, CG03).
inline constexpr double kLeastForceSafety = 1.5;
inline constexpr double kLeastSpeedSafety = 1.5;
// Sz as a maker of chucks wants it (CG15; the labels of its rows were partly lost in the copy that was read): for work
// that stands out no farther than the diameter gripped or is supported at its end, and for the harder case.
inline constexpr double kWantedForceSafety = 2.0;
inline constexpr double kWantedForceSafetyOverhung = 4.0;
// Fc must not be more of the standing grip than this (DIN EN 1550, CG12); DIN 6386 sets the reference speed where a
// third is left (CG13), which is the same but for rounding.
inline constexpr double kGreatestLoss = 0.67;
inline constexpr double kLeftAtReferenceSpeed = 1.0 / 3;
// The least friction of what is usual (CG18, from memory): smooth jaws 0.10 to 0.15, soft jaws turned on the machine
// 0.15 to 0.20, serrated jaws 0.25 to 0.50.
inline constexpr double kSmoothFriction = 0.10;
inline constexpr double kSoftJawFriction = 0.15;

// kg m; `baseJawKgM` of one base jaw, mass of one top jaw in kg and the radius of its centre of mass in mm.
double jawMomentKgM(int jaws, double topJawKg, double topJawRadiusMm, double baseJawKgM);

// Of all jaws, N.
double centrifugalN(double momentKgM, double revPerMin);

// Fsp, N. `heldN` is what friction has to hold at the diameter gripped. Asserts friction > 0.
double neededGripN(double heldN, double friction, double forceSafety);

// A force at one diameter as it acts at another: the cutting force at the diameter it cuts, held at the one gripped.
double atGripN(double forceN, double atDiameterMm, double gripDiameterMm);

// What is left of (inside: has become of) the standing grip at speed, N; never below 0.
double leftAtSpeedN(double standingN, double lossN, Chuck::Grip way);

// Fsp0 that the method asks for, N; inside grip never less than Fsp, so that the work is held before the spindle turns.
double neededStandingN(double neededN, double centrifugalN, double speedSafety, Chuck::Grip way);

// Nothing where the standing grip is less than what is needed. Inside grip has no such speed; ask for outside grip
// only. Asserts momentKgM > 0.
std::optional<double> permittedRevPerMin(double standingN, double neededN, double momentKgM);

// Speed at which the jaws' pull has grown to `share` of the standing grip; outside grip. Asserts momentKgM > 0.
double revPerMinOfLoss(double standingN, double momentKgM, double share);

// Pull-out by one jaw of a chuck with three (CG16): what its friction holds, N.
double heldByOneJawN(double gripN, double friction, int jaws);

}  // namespace firstoff
