#include "sim/setup/turret_reader.h"

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

class TurretReading {
public:
    TurretReading(const SetupTable& table, const Machine& machine, std::vector<Finding>& findings)
        : from_{table, findings}, machine_(machine) {}

    Turret run() {
        t_.span = from_.table.span;
        t_.kind = from_.text("kind") == "gang" ? Turret::Kind::Gang : Turret::Kind::Disc;
        t_.faceZ = from_.number("face_z_mm");
        if (t_.kind == Turret::Kind::Disc) {
            readDisc();
        } else {
            t_.plateR = from_.radii("plate_x_mm");
            t_.plateY = from_.range("plate_y_mm");
        }
        return t_;
    }

private:
    void readDisc() {
        if (from_.says("index")) {
            t_.indexWay = from_.text("index") == "rising" ? Turret::IndexWay::Rising : Turret::IndexWay::Shortest;
        }
        t_.axisR = from_.number("axis_x_mm") / 2;
        checkAxis();
        t_.headRadius = from_.number("head_diameter_mm") / 2;
        t_.headLength = from_.number("head_length_mm");
        const bool wide = from_.says("head_diameter_mm"), isLong = from_.says("head_length_mm");
        if (wide != isLong) {
            from_.stop(
                "setup-turret", wide ? "head_diameter_mm" : "head_length_mm",
                wide ? tr("The head of the turret has no length.") : tr("The head of the turret has no diameter."),
                tr("Write both head_diameter_mm and head_length_mm, or neither."));
            t_.headRadius = t_.headLength = 0;
        }
    }

    // The reference point lies where tools are gauged from, in front of the rim.
    void checkAxis() {
        if (!from_.says("axis_x_mm") || machine_.turretRadius <= 0 || t_.axisR >= machine_.turretRadius) return;
        from_.stop("setup-turret", "axis_x_mm",
                   say("The axis of the disc lies {:g} mm from the turret reference point, but the disc itself "
                       "reaches {:g} mm from its axis: the reference point would lie inside it.",
                       t_.axisR, machine_.turretRadius),
                   tr("axis_x_mm is written as diameter, like every X; correct it or turret_diameter_mm."));
        t_.axisR = machine_.turretRadius;
    }

    TableReading from_;
    const Machine& machine_;
    Turret t_;
};

}  // namespace

Turret readTurret(const SetupTable& table, const Machine& machine, std::vector<Finding>& findings) {
    return TurretReading(table, machine, findings).run();
}

ToolBlock readCommonBlock(const SetupTable& table, std::vector<Finding>& findings) {
    const TableReading from{table, findings};
    const bool isLong = from.says("block_z_mm"), wide = from.says("block_width_mm");
    if (!isLong && !wide) return {};
    if (isLong != wide) {
        from.stop("setup-block", isLong ? "block_z_mm" : "block_width_mm",
                  isLong ? tr("The blocks of the tools have no width.")
                         : tr("The blocks of the tools have no place along Z."),
                  tr("Write both block_z_mm and block_width_mm, or neither."));
        return {};
    }
    ToolBlock block;
    block.z = from.range("block_z_mm");
    block.width = from.number("block_width_mm");
    return block;
}

}  // namespace firstoff
