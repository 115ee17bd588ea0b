// The block of a tool, where the set-up gives only that of the turret: a box between the mounting face and where the
// tool stands out of it.
//
//      z >
//   ______________________ mounting face    across the axis: down to where the overhang begins,
//     |   block   |                         r = tip.r + overhang
//     |___________|
//         | |   shank                       along the axis: round the shank, kRoundShankMm below it, its front where
//         |_|_                              the overhang begins, z = tip.z + overhang
//           tip
#include <algorithm>

#include "sim/setup/setup.h"

namespace firstoff {

namespace {

// What a block has below a bar or a drill, towards the axis; common practice, no source.
constexpr double kRoundShankMm = 15;

bool standsAlongTheAxis(const Tool& tool) {
    return worksOnTheAxis(tool.kind) || tool.kind == ToolKind::Boring || tool.inside || tool.face;
}

}  // namespace

std::optional<ToolBlock> toolBlockOf(const Setup& setup, const Tool& tool) {
    if (tool.block) return tool.block;
    const ToolBlock& usual = setup.toolBlock;
    if (!setup.turret || usual.width <= 0 || usual.z.max <= usual.z.min || tool.overhang <= 0) return {};
    const Turret& turret = *setup.turret;
    const double face =
        turret.kind == Turret::Kind::Disc ? turret.axisR - setup.machine.turretRadius : turret.plateR.min;
    ToolBlock block = usual;
    block.r.max = face;
    if (standsAlongTheAxis(tool)) {
        const double shank = tool.holder.empty() ? -tool.shankSize / 2 : boundingBox(tool.holder).rMin;
        block.r.min = std::min(tool.tip.r + shank - kRoundShankMm, face);
        block.z.min = std::min(tool.tip.z + tool.overhang, usual.z.max);
    } else {
        block.r.min = std::min(tool.tip.r + tool.overhang, face);
    }
    return block;
}

}  // namespace firstoff
