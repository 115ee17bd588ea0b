// What a chip asks for, by Kienzle's law: force, power and torque from the size of the chip and two figures of the
// material.
//
//     kc = kc11 h^-mc          specific cutting force, N/mm2; h: thickness of the chip, mm
//     Fc = kc b h              along the cutting speed; b: width of the chip, mm
//     P  = Fc vc               M = Fc r
//
// O. Kienzle, Werkstattstechnik und Maschinenbau 42 (1952), as makers' formula pages give it (sources in
// tests/reference/power_examples.csv and cutting_force.csv). Figures count for a sharp edge, carbide at its usual
// speeds; thicknesses outside some 0.05 to 2.5 mm reach beyond what the tables were measured at (from memory).
#pragma once

#include "sim/base/point.h"
#include "sim/setup/setup.h"

namespace firstoff {

// Of a material and a tool, what forces are reckoned with.
struct ChipLaw {
    double kc11 = 0;  // N/mm2, rake already in it
    double mc = 0;

    // N/mm2 at a thickness > 0, mm.
    double specificForce(double thicknessMm) const;
};

// A degree of rake more takes one in a hundred off the force, one less adds it, counted from the rake that the figures
// of the material hold for (rule of the trade; from memory). Only where the tool says its rake. Past kMostRakeChange
// the rule is not followed further.
inline constexpr double kRakeSharePerDegree = 0.01;
inline constexpr double kMostRakeChange = 0.3;
double rakeFactor(const Material& material, const Tool& tool);

ChipLaw chipLaw(const Material& material, const Tool& tool);

// Feed force and passive force, both in the cutting plane and square to each other, taken together as one force square
// to the engaged edge: 0.50 and 0.25 of the cutting force give 0.56 of it. A rule whose own author calls it inaccurate
// (E. Isakov, see tests/reference/deflection.csv).
//
// An edge that leans beyond square (entering angle above 90 degrees) would pull the part towards itself by this, and an
// edge at 90 degrees push it nowhere. In truth it is pushed away all the same, with 0.3 to 0.5 of the cutting force at
// 90 degrees (common practice, no source). So the passive force is never taken as less than the rule has it, 0.25 of
// the cutting force, away from the tool.
inline constexpr double kFeedForceShare = 0.50;
inline constexpr double kPassiveForceShare = 0.25;
double sidewaysShare();

// Feed and passive force in one, N, for a cutting force that stands square to the edge along `push` (any length above
// 0). `aside`: unit vector across the travel, away from the tool's side of it; nothing where there is no such side.
struct SidewaysForce {
    Point force;
    bool least = false;  // its part along `aside` is kPassiveForceShare and not that of the edge's lean
};
SidewaysForce sidewaysForce(double cuttingN, Point push, Point aside);

// N; width and thickness in mm.
double cuttingForceN(const ChipLaw& law, double widthMm, double thicknessMm);
// kW, from N and m/min.
double powerKw(double forceN, double speedMPerMin);
// N m, of a force at a radius, mm.
double torqueNm(double forceN, double radiusMm);
// Of the motor, for so much at the cut; efficiency > 0.
double motorPowerKw(double cutKw, double efficiency);
// kW, of a torque (N m) at a speed (rev/min), and back.
double powerOfTorqueKw(double torqueNm, double revPerMin);

// Of a plain cut, cm3/min.
double removalCm3PerMin(double speedMPerMin, double depthMm, double feedMmPerRev);

// Of the insert's edge: a chip of `feed` per revolution and `depth`, under an entering angle (rad).
struct PlainChip {
    double thicknessMm = 0, widthMm = 0;
};
PlainChip plainChip(double feedMmPerRev, double depthMm, double enteringAngle);

}  // namespace firstoff
