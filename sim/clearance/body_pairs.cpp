#include "sim/clearance/body_pairs.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

bool onTurret(Carrier carrier) {
    return carrier == Carrier::Turret || carrier == Carrier::TurretSlide;
}

// Carriers in the order in which they count as the one that moves.
int rankOf(Carrier carrier) {
    switch (carrier) {
        case Carrier::Turret:
        case Carrier::TurretSlide:
            return 3;
        case Carrier::Tailstock:
            return 2;
        case Carrier::SecondSpindle:
            return 1;
        case Carrier::Bed:
        case Carrier::Spindle:
            return 0;
    }
    return 0;
}

bool centreComesIntoTheBar(const Setup& setup, const Timeline& timeline) {
    if (!setup.tailstock) return false;
    return setup.tailstock->advanced ||
           std::any_of(timeline.travels.begin(), timeline.travels.end(), [](const CarrierTravel& travel) {
               return travel.carrier == CarrierTravel::Carrier::Tailstock && travel.toZ < travel.fromZ;
           });
}

bool isMeantToTouchTheBillet(BodyKind kind, bool centreInBar) {
    return kind == BodyKind::ChuckBody || kind == BodyKind::Jaws || kind == BodyKind::SecondJaws ||
           kind == BodyKind::SteadyRest || (kind == BodyKind::Centre && centreInBar);
}

}  // namespace

std::vector<BodyPair> pairsToWatch(const MachineBodies& all, const Setup& setup, const Timeline& timeline) {
    const bool centreInBar = centreComesIntoTheBar(setup, timeline);
    std::vector<BodyPair> pairs;
    for (std::size_t i = 0; i < all.bodies.size(); ++i) {
        for (std::size_t j = 0; j < all.bodies.size(); ++j) {
            const MachineBody& a = all.bodies[i];
            const MachineBody& b = all.bodies[j];
            if (a.carrier == b.carrier || (onTurret(a.carrier) && onTurret(b.carrier))) continue;
            const int ra = rankOf(a.carrier), rb = rankOf(b.carrier);
            if (ra < rb || (ra == rb && (ra > 0 || a.carrier == Carrier::Spindle))) continue;
            if (b.kind == BodyKind::Billet && isMeantToTouchTheBillet(a.kind, centreInBar)) continue;
            // A body on the bed round the bar, against the bar: a steady rest, or the user's own guard.
            pairs.push_back({static_cast<std::uint16_t>(i), static_cast<std::uint16_t>(j), ra == 0});
        }
    }
    return pairs;
}

PairMotion motionOf(const BodyPair& pair, const MachineBodies& all, const MachineWay& way) {
    const MachineBody& a = all.bodies[pair.body];
    const MachineBody& b = all.bodies[pair.other];
    PairMotion motion;
    const auto travels = [&](Carrier carrier) {
        return carrier == Carrier::Tailstock       ? std::abs(way.tailstock.max - way.tailstock.min)
               : carrier == Carrier::SecondSpindle ? std::abs(way.second.max - way.second.min)
                                                   : 0;
    };
    motion.travelMm = travels(a.carrier) + travels(b.carrier);
    if (onTurret(a.carrier)) {
        motion.moves = true;
        motion.travelMm += way.length + 2 * way.turret.slack;
        motion.swings = a.carrier == Carrier::Turret && way.swings();
    }
    motion.moves = motion.moves || motion.travelMm > 0;
    return motion;
}

bool isInUse(const MachineBody& body, const MachineWay& way) {
    return way.toolIndex >= 0 && body.toolIndex == way.toolIndex && !way.swings() &&
           (body.kind == BodyKind::Edge || body.kind == BodyKind::Holder);
}

const char* contactCode(const MachineBody& body, const MachineBody& other, const MachineWay& way) {
    if (!onTurret(body.carrier)) {
        if (body.carrier == Carrier::Tailstock) return "tailstock-into-body";
        if (body.carrier == Carrier::SecondSpindle) return "second-spindle-into-body";
        return "bodies-overlap";
    }
    if (way.swings() && body.carrier == Carrier::Turret) return "swing-into-body";
    if (body.station > 0 && body.station != way.station) return "neighbour-into-body";
    if (!isInUse(body, way)) return "turret-into-body";
    switch (other.kind) {
        case BodyKind::Billet:
            return "holder-into-material";
        case BodyKind::ChuckBody:
            return "tool-into-chuck";
        case BodyKind::Jaws:
            return "tool-into-jaws";
        case BodyKind::Centre:
        case BodyKind::Quill:
        case BodyKind::TailstockCasting:
            return "tool-into-tailstock";
        case BodyKind::SecondChuckBody:
        case BodyKind::SecondJaws:
            return "tool-into-second-spindle";
        case BodyKind::SteadyRest:
            return "tool-into-steady-rest";
        default:
            return "tool-into-guard";
    }
}

}  // namespace firstoff
