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
    all.bodies.push_back(bodyOf(BodyKind::Billet, Carrier::Spindle, tr("the billet")));
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
            return tr("chuck body");
        case BodyKind::Jaws:
            return "jaws";
        case BodyKind::Centre:
            return "centre";
        case BodyKind::Quill:
            return "quill";
        case BodyKind::TailstockCasting:
            return tr("tailstock casting");
        case BodyKind::SecondChuckBody:
            return tr("second chuck body");
        case BodyKind::SecondJaws:
            return tr("second jaws");
        case BodyKind::SteadyRest:
            return tr("steady rest");
        case BodyKind::TurretHead:
            return tr("turret head");
        case BodyKind::TurretDisc:
            return tr("turret disc");
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
