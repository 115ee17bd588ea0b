#include "sim/setup/drive_reader.h"

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

constexpr double kMillimetresPerMetre = 1000;

// Both axes or neither.
void bothAxes(const TableReading& from, std::string_view x, std::string_view z, double& r, double& along) {
    if (from.says(x) == from.says(z)) return;
    from.stop("setup-missing-key", from.says(x) ? x : z,
              say("{} is given without {}.", from.says(x) ? x : z, from.says(x) ? z : x),
              say("Write both {} and {}, or neither.", x, z));
    r = along = 0;
}

std::vector<SpindleDrive::CurvePoint> readCurve(const TableReading& from) {
    const std::vector<double> speeds = from.list("curve_rev_per_min"), torques = from.list("curve_torque_nm");
    if (speeds.empty() && torques.empty()) return {};
    std::string wrong;
    if (speeds.size() != torques.size()) {
        wrong = say("The torque curve has {} speeds and {} torques.", speeds.size(), torques.size());
    }
    for (std::size_t i = 1; i < speeds.size() && wrong.empty(); ++i) {
        if (speeds[i] > speeds[i - 1]) continue;
        wrong = say("In the torque curve {:g} rev/min stands behind {:g} rev/min; speeds must rise.", speeds[i],
                    speeds[i - 1]);
    }
    std::vector<SpindleDrive::CurvePoint> curve;
    if (wrong.empty()) {
        for (std::size_t i = 0; i < speeds.size(); ++i) curve.push_back({speeds[i], torques[i]});
        return curve;
    }
    from.stop("setup-spindle-curve", from.says("curve_rev_per_min") ? "curve_rev_per_min" : "curve_torque_nm", wrong,
              tr("Write one torque in curve_torque_nm for each speed in curve_rev_per_min, slowest first."));
    return {};
}

}  // namespace

AxisDynamics readAxisDynamics(const SetupTable& machine, std::vector<Finding>& findings) {
    const TableReading from{machine, findings};
    AxisDynamics a;
    a.accelerationR = from.number("acceleration_x_m_per_s2") * kMillimetresPerMetre;
    a.accelerationZ = from.number("acceleration_z_m_per_s2") * kMillimetresPerMetre;
    a.jerkR = from.number("jerk_x_m_per_s3") * kMillimetresPerMetre;
    a.jerkZ = from.number("jerk_z_m_per_s3") * kMillimetresPerMetre;
    a.cornerJumpR = from.number("corner_jump_x_mm_per_min") / 60;
    a.cornerJumpZ = from.number("corner_jump_z_mm_per_min") / 60;
    a.lookAhead = static_cast<int>(from.number("look_ahead_blocks"));
    if (from.text("block_end") == "exact-stop") a.blockEnd = AxisDynamics::BlockEnd::ExactStop;
    bothAxes(from, "acceleration_x_m_per_s2", "acceleration_z_m_per_s2", a.accelerationR, a.accelerationZ);
    bothAxes(from, "jerk_x_m_per_s3", "jerk_z_m_per_s3", a.jerkR, a.jerkZ);
    bothAxes(from, "corner_jump_x_mm_per_min", "corner_jump_z_mm_per_min", a.cornerJumpR, a.cornerJumpZ);
    if (a.known() || from.says("acceleration_x_m_per_s2") || from.says("acceleration_z_m_per_s2")) return a;
    for (const char* key : {"jerk_x_m_per_s3", "corner_jump_x_mm_per_min", "look_ahead_blocks"}) {
        if (!from.says(key)) continue;
        from.stop("setup-missing-key", key, say("{} counts for nothing without the accelerations.", key),
                  tr("Add acceleration_x_m_per_s2 and acceleration_z_m_per_s2, or take it out."));
        break;
    }
    return a;
}

SpindleDrive readSpindleDrive(const SetupTable& table, std::vector<Finding>& findings) {
    const TableReading from{table, findings};
    SpindleDrive s;
    s.span = table.span;
    s.powerKw = from.number("power_kw");
    s.efficiency = from.number("efficiency");
    s.inertiaKgM2 = from.number("inertia_kg_m2");
    s.runUpS = from.number("run_up_s");
    s.waitsForSpeed = !from.says("waits_for_speed") || from.flag("waits_for_speed");
    s.curve = readCurve(from);
    if (from.says("inertia_kg_m2") && from.says("run_up_s")) {
        from.stop("setup-spindle-run-up", "run_up_s",
                  tr("How the spindle runs up is said twice: by its inertia and by the time it takes."),
                  tr("Keep inertia_kg_m2 together with the torque curve, or keep run_up_s."));
        s.inertiaKgM2 = 0;
    }
    return s;
}

OtherTimes readOtherTimes(const SetupTable& table) {
    OtherTimes t;
    t.chuckS = numberIn(table, "chuck_s");
    t.tailstockS = numberIn(table, "tailstock_s");
    t.coolantS = numberIn(table, "coolant_s");
    t.machineCodeS = numberIn(table, "m_code_s");
    t.nextStationS = numberIn(table, "next_station_s");
    t.changePartS = numberIn(table, "change_part_s");
    return t;
}

Overrides readOverrides(const SetupTable& table) {
    constexpr double kPercent = 100;
    Overrides o;
    o.feed = numberIn(table, "feed_percent") / kPercent;
    o.rapid = numberIn(table, "rapid_percent") / kPercent;
    o.spindle = numberIn(table, "spindle_percent") / kPercent;
    return o;
}

}  // namespace firstoff
