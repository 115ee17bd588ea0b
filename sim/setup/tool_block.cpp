#include "sim/setup/tool_block.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

// By how much a written block and a written overhang may differ: both are measured by hand with a rule.
constexpr double kByHandMm = 0.5;

bool pointsAway(const Tool& tool) {
    return tipFromNoseCentre(tool.tipNumber).r > 0;
}

// Side of what goes into the block that is nearest to the axis; tool frame.
double farSide(const Tool& tool) {
    if (worksOnTheAxis(tool.kind)) return -std::max(tool.shankSize / 2, tool.colletChuckRadius);
    return tool.holder.empty() ? -tool.shankSize : boundingBox(tool.holder).rMin;
}

double mountingFace(const Setup& setup) {
    const Turret& turret = *setup.turret;
    return turret.kind == Turret::Kind::Gang ? turret.plateR.min : turret.axisR - setup.machine.turretRadius;
}

// That of the turret, made to reach where the tool's overhang leaves it. Ranges may come out upside down.
std::optional<ToolBlock> reachingBlock(const Setup& setup, const Tool& tool) {
    if (!setup.turret || setup.toolBlock.width <= 0) return std::nullopt;
    ToolBlock block = setup.toolBlock;
    block.r.max = mountingFace(setup);
    if (standsAlongZ(tool)) {
        block.z.min = tool.tip.z + tool.overhang;
        block.r.min = tool.tip.r + farSide(tool) - kBlockRoundShankMm;
        return block;
    }
    if (pointsAway(tool)) return std::nullopt;
    block.r.min = tool.tip.r + tool.overhang;
    return block;
}

bool canBe(const ToolBlock& block) {
    return block.z.min < block.z.max && block.r.min < block.r.max && block.width > 0;
}

class BlockReading {
public:
    BlockReading(const SetupTable& table, Setup& setup, Tool& tool)
        : from_{table, setup.findings}, setup_(setup), tool_(tool) {}

    void run() {
        readOwn();
        const std::optional<ToolBlock> block = tool_.block ? tool_.block : reachingBlock(setup_, tool_);
        if (!block) return;
        if (!canBe(*block)) return cannotBe(*block);
        if (tool_.block) checkOverhang(*block);
        checkShank(*block);
    }

private:
    bool given(std::string_view key) const { return from_.table.find(key) != nullptr; }

    void stop(std::string_view key, std::string message, std::string remedy) {
        from_.stop("setup-block", key, std::move(message), std::move(remedy));
    }

    // What it does not say comes from the turret's block.
    void readOwn() {
        const bool z = from_.says("block_z_mm"), r = from_.says("block_x_mm"), width = from_.says("block_width_mm");
        if (!z && !r && !width) return;
        std::optional<ToolBlock> block = reachingBlock(setup_, tool_);
        if (!block && !(z && r && width)) {
            stop(z   ? "block_z_mm"
                 : r ? "block_x_mm"
                     : "block_width_mm",
                 tr("The block of the tool is given in part, and the turret does not say the rest."),
                 tr("Write block_z_mm, block_x_mm and block_width_mm, or the blocks of all tools in [turret]."));
            return;
        }
        if (!block) block.emplace();
        if (z) block->z = from_.range("block_z_mm");
        if (r) block->r = from_.radii("block_x_mm");
        if (width) block->width = from_.number("block_width_mm");
        tool_.block = *block;
    }

    void cannotBe(const ToolBlock& block) {
        const bool alongZ = block.z.min >= block.z.max;
        stop(alongZ && given("block_z_mm") ? "block_z_mm" : "overhang_mm",
             alongZ ? say("Standing out {:g} mm, the tool would leave its block at Z {:g} of the turret, but the "
                          "block ends at {:g}.",
                          tool_.overhang, block.z.min, block.z.max)
                    : say("Standing out {:g} mm, the tool would leave its block at X {:g} of the turret, which "
                          "is not in front of the face it is mounted on ({:g}).",
                          tool_.overhang, 2 * block.r.min, 2 * block.r.max),
             tr("Measure how far the tip stands out of the block (overhang_mm) and where it stands from the turret "
                "reference point (tip_x_mm, tip_z_mm)."));
        tool_.block.reset();
    }

    // The block begins where the tool stands out of it.
    void checkOverhang(const ToolBlock& block) {
        if (!standsAlongZ(tool_) && pointsAway(tool_)) return;
        const bool alongZ = standsAlongZ(tool_);
        if (!from_.says(alongZ ? "block_z_mm" : "block_x_mm")) return;
        const double front = alongZ ? block.z.min : block.r.min;
        const double overhang = front - (alongZ ? tool_.tip.z : tool_.tip.r);
        if (std::abs(overhang - tool_.overhang) <= kByHandMm) return;
        stop(alongZ ? "block_z_mm" : "block_x_mm",
             say("By its block and its tip the tool stands out {:g} mm, overhang_mm says {:g}.", overhang,
                 tool_.overhang),
             alongZ ? tr("Correct block_z_mm, tip_z_mm or overhang_mm.")
                    : tr("Correct block_x_mm (as diameter), tip_x_mm or overhang_mm."));
    }

    void checkShank(const ToolBlock& block) {
        const bool own = from_.says("block_width_mm");
        if (block.width < tool_.shankSize) {
            stop(own ? "block_width_mm" : "overhang_mm",
                 say("A block {:g} mm wide does not hold a shank of {:g} mm.", block.width, tool_.shankSize),
                 own ? tr("Correct block_width_mm or the shank.")
                     : tr("Correct block_width_mm of [turret] or the shank."));
        }
        if (standsAlongZ(tool_) || tool_.holder.empty()) return;
        const Box shank = boundingBox(tool_.holder);
        const double middle = tool_.tip.z + (shank.zMin + shank.zMax) / 2;
        if (middle >= block.z.min && middle <= block.z.max) return;
        const std::string_view key = from_.says("block_z_mm") ? "block_z_mm" : "tip_z_mm";
        stop(key,
             say("The middle of the shank stands at Z {:g} of the turret, the block from {:g} to {:g}.", middle,
                 block.z.min, block.z.max),
             tr("Correct tip_z_mm, or where the block stands (block_z_mm of the tool or of [turret])."));
    }

    TableReading from_;
    Setup& setup_;
    Tool& tool_;
};

}  // namespace

void readToolBlock(const SetupTable& table, Setup& setup, Tool& tool) {
    BlockReading(table, setup, tool).run();
}

std::optional<ToolBlock> toolBlockOf(const Setup& setup, const Tool& tool) {
    if (tool.block) return tool.block;
    const std::optional<ToolBlock> block = reachingBlock(setup, tool);
    return block && canBe(*block) ? block : std::nullopt;
}

bool standsAlongZ(const Tool& tool) {
    return worksOnTheAxis(tool.kind) || tool.kind == ToolKind::Boring || tool.inside || tool.face ||
           (isBlade(tool.kind) && pointsAway(tool));
}

}  // namespace firstoff
