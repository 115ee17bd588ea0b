// Which bodies are watched against which, and what a contact between them is called.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/clearance/machine_bodies.h"
#include "sim/clearance/machine_way.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"

namespace firstoff {

struct BodyPair {
    std::uint16_t body = 0;  // the one that moves
    std::uint16_t other = 0;
    // Nothing moves one against the other, they only have to be apart.
    bool still = false;
};

// In the order of the bodies. Left out: bodies of one carrier; what grips or stands on the billet against it (jaws of
// both spindles, rollers of a steady rest, and the centre where it is or comes to be in the bar).
std::vector<BodyPair> pairsToWatch(const MachineBodies& bodies, const Setup& setup, const Timeline& timeline);

// How two bodies of a pair move against each other on a way.
struct PairMotion {
    bool moves = false;   // at all, or the turret is one of them
    bool swings = false;  // the body indexes
    double travelMm = 0;  // most that any point of one travels against the other, without the swing
};
PairMotion motionOf(const BodyPair& pair, const MachineBodies& bodies, const MachineWay& way);

// The tool in use: its edge, its holder.
bool isInUse(const MachineBody& body, const MachineWay& way);

// "tool-into-jaws" …: the code of the finding that a contact makes.
const char* contactCode(const MachineBody& body, const MachineBody& other, const MachineWay& way);

}  // namespace firstoff
