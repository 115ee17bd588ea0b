#include "sim/clearance/machine_bodies.h"

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/clearance/body_makers.h"

namespace firstoff {

double MachineBodies::turnOf(int station) const {
    return stations > 0 ? -2 * kPi * (station - 1) / stations : 0;
}

MachineBodies machineBodies(const Setup& setup) {
    MachineBodies all;
    all.bodies.push_back(bodyOf(BodyKind::Billet, Carrier::Spindle, bodyName(later("the billet"))));
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
            return later("billet");
        case BodyKind::ChuckBody:
            return later("chuck body");
        case BodyKind::Jaws:
            return later("jaws");
        case BodyKind::Centre:
            return later("centre");
        case BodyKind::Quill:
            return later("quill");
        case BodyKind::TailstockCasting:
            return later("tailstock casting");
        case BodyKind::SecondChuckBody:
            return later("second chuck body");
        case BodyKind::SecondJaws:
            return later("second jaws");
        case BodyKind::SteadyRest:
            return later("steady rest");
        case BodyKind::TurretHead:
            return later("turret head");
        case BodyKind::TurretDisc:
            return later("turret disc");
        case BodyKind::Block:
            return later("block");
        case BodyKind::Holder:
            return later("holder");
        case BodyKind::Edge:
            return later("edge");
        case BodyKind::Guard:
            return later("guard");
        case BodyKind::Door:
            return later("door");
        case BodyKind::Other:
            return later("other");
    }
    return "";
}

}  // namespace firstoff
