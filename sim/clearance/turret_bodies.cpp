// Disc or gang plate, and what slides with it.
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/clearance/body_makers.h"

namespace firstoff {

namespace {

// A prism with a flat for every station, that of station 1 towards the axis.
ConvexPiece discPiece(const Setup& setup) {
    const Turret& turret = *setup.turret;
    const Machine& machine = setup.machine;
    const double back = turret.faceZ + machine.turretThickness;
    if (machine.stations < 3) return cylinderPiece(turret.faceZ, back, machine.turretRadius, turret.axisR);
    const double half = kPi / machine.stations;
    const double corner = machine.turretRadius / std::cos(half);
    ConvexPiece piece;
    for (int i = 0; i < machine.stations; ++i) {
        const double angle = (2 * i + 1) * half;
        for (const double z : {turret.faceZ, back}) {
            piece.corners.push_back({z, turret.axisR - corner * std::cos(angle), corner * std::sin(angle)});
        }
    }
    return piece;
}

void addHead(MachineBodies& all, const Setup& setup) {
    const Turret& turret = *setup.turret;
    if (turret.headRadius <= 0 || turret.headLength <= 0) {
        all.notModelled.push_back(
            {tr("The set-up does not say how large the housing behind the turret disc is, so nothing is "
                "kept clear of it."),
             true, 0, turret.span});
        return;
    }
    MachineBody head = bodyOf(BodyKind::TurretHead, Carrier::TurretSlide, bodyName(later("the turret head")));
    const double from = turret.faceZ + setup.machine.turretThickness;
    head.pieces.push_back(cylinderPiece(from, from + turret.headLength, turret.headRadius, turret.axisR));
    all.bodies.push_back(std::move(head));
}

void addDisc(MachineBodies& all, const Setup& setup) {
    if (setup.machine.turretRadius <= 0 || setup.machine.turretThickness <= 0) {
        all.notModelled.push_back({tr("The set-up gives no size of the turret disc, so nothing is kept clear of it."),
                                   true, 0, setup.turret->span});
        return;
    }
    MachineBody disc = bodyOf(BodyKind::TurretDisc, Carrier::Turret, bodyName(later("the turret disc")));
    disc.pieces.push_back(discPiece(setup));
    all.bodies.push_back(std::move(disc));
}

void addPlate(MachineBodies& all, const Setup& setup) {
    const Turret& turret = *setup.turret;
    const bool sized = setup.machine.turretThickness > 0 && turret.plateR.max > turret.plateR.min &&
                       turret.plateY.max > turret.plateY.min;
    if (!sized) {
        all.notModelled.push_back(
            {tr("The set-up gives no size of the gang plate, so nothing is kept clear of it."), true, 0, turret.span});
        return;
    }
    MachineBody plate = bodyOf(BodyKind::TurretDisc, Carrier::Turret, bodyName(later("the gang plate")));
    plate.pieces.push_back(
        boxPiece({turret.faceZ, turret.plateR.min, turret.plateY.min},
                 {turret.faceZ + setup.machine.turretThickness, turret.plateR.max, turret.plateY.max}));
    all.bodies.push_back(std::move(plate));
}

}  // namespace

void addTurret(MachineBodies& all, const Setup& setup) {
    if (!setup.turret) {
        all.notModelled.push_back(
            {tr("The set-up has no table [turret]: the disc, the blocks and the tools of the stations that "
                "are not in use are left out, and so is what swings past when the turret indexes."),
             true,
             0,
             {}});
        return;
    }
    if (setup.turret->kind == Turret::Kind::Gang) {
        addPlate(all, setup);
        return;
    }
    all.turretAxisR = setup.turret->axisR;
    all.stations = setup.machine.stations;
    addHead(all, setup);
    addDisc(all, setup);
}

}  // namespace firstoff
