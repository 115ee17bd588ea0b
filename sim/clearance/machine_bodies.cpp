#include "sim/clearance/machine_bodies.h"

#include "sim/base/units.h"
#include "sim/clearance/body_makers.h"

namespace firstoff {

double MachineBodies::turnOf(int station) const {
    return stations > 0 ? -2 * kPi * (station - 1) / stations : 0;
}

MachineBodies machineBodies(const Setup& setup) {
    MachineBodies all;
    all.bodies.push_back(bodyOf(BodyKind::Billet, Carrier::Spindle, "the billet"));
    addChuck(all, setup);
    addTailstock(all, setup);
    addSecondSpindle(all, setup);
    addSteadyRest(all, setup);
    addTurret(all, setup);
    addTools(all, setup);
    addExtraBodies(all, setup);
    return all;
}

const char* name(BodyKind kind) {
    switch (kind) {
        case BodyKind::Billet:
            return "billet";
        case BodyKind::ChuckBody:
            return "chuck body";
        case BodyKind::Jaws:
            return "jaws";
        case BodyKind::Centre:
            return "centre";
        case BodyKind::Quill:
            return "quill";
        case BodyKind::TailstockCasting:
            return "tailstock casting";
        case BodyKind::SecondChuckBody:
            return "second chuck body";
        case BodyKind::SecondJaws:
            return "second jaws";
        case BodyKind::SteadyRest:
            return "steady rest";
        case BodyKind::TurretHead:
            return "turret head";
        case BodyKind::TurretDisc:
            return "turret disc";
        case BodyKind::Block:
            return "block";
        case BodyKind::Holder:
            return "holder";
        case BodyKind::Edge:
            return "edge";
        case BodyKind::Guard:
            return "guard";
        case BodyKind::Door:
            return "door";
        case BodyKind::Other:
            return "other";
    }
    return "";
}

}  // namespace firstoff
