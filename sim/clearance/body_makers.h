// What machineBodies() is put together from, a part of the machine each. Inside sim/clearance only.
//
// Each adds its bodies to `all`, and to `all.notModelled` what the set-up leaves open.
#pragma once

#include <string>
#include <vector>

#include "sim/base/say.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/setup/setup.h"

namespace firstoff {

void addChuck(MachineBodies& all, const Setup& setup);
void addTailstock(MachineBodies& all, const Setup& setup);
void addSecondSpindle(MachineBodies& all, const Setup& setup);
void addSteadyRest(MachineBodies& all, const Setup& setup);
void addTurret(MachineBodies& all, const Setup& setup);
// Block, holder and edge of every station that has a tool.
void addTools(MachineBodies& all, const Setup& setup);
void addExtraBodies(MachineBodies& all, const Setup& setup);

// Holder and edge of a tool as it stands in working position, frame of the turret; nothing where its shape is not
// known.
std::vector<ConvexPiece> holderPieces(const Tool& tool);
std::vector<ConvexPiece> edgePieces(const Tool& tool);

struct BodyName {
    std::string told, english;
};
template <class... Args>
BodyName bodyName(fmt::format_string<Args...> english, Args&&... args) {
    return {say(english, args...), fmt::format(english, args...)};
}
MachineBody bodyOf(BodyKind kind, Carrier carrier, BodyName name);
// A corner box of a half-section, anticlockwise; for MachineBody::sections. Nothing without area.
void addSection(MachineBody& body, double zFrom, double zTo, double inner, double outer);
// The same with the solid to the axis as a piece.
void addRing(MachineBody& body, double zFrom, double zTo, double inner, double outer);

}  // namespace firstoff
