// Drills, centre drills, step drills, reamers and taps.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/setup/centre_drill_sizes.h"
#include "sim/setup/tool_outlines.h"
#include "sim/setup/tool_table.h"

namespace firstoff {

namespace {

constexpr double kProtectiveChamferDeg = 120;  // ISO 2540, from memory

// Allowance on the diameter for which reamers are made, common practice, no source.
double usualAllowanceMm(double diameter) {
    if (diameter <= 5) return 0.2;
    return diameter <= 20 ? 0.3 : 0.5;
}

class AxialReading {
public:
    AxialReading(const ToolTable& from, Tool& tool) : from_(from), tool_(tool) {}

    void run() {
        readFront();
        readColletChuck();
    }

private:
    void readFront() {
        switch (tool_.kind) {
            case ToolKind::Tap:
                return readTap();
            case ToolKind::CentreDrill:
                return readCentreDrill();
            case ToolKind::Reamer:
                return readReamer();
            case ToolKind::StepDrill:
                readSteps();
                return readDrill();
            default:
                return readDrill();
        }
    }

    // It stands in front of the block, round the shank.
    void readColletChuck() {
        tool_.colletChuckRadius = from_.number("collet_chuck_diameter_mm") / 2;
        tool_.colletChuckLength = from_.number("collet_chuck_length_mm");
        const bool wide = from_.says("collet_chuck_diameter_mm"), isLong = from_.says("collet_chuck_length_mm");
        std::string wrong;
        if (wide != isLong) {
            wrong = wide ? tr("The collet chuck has no length.") : tr("The collet chuck has no diameter.");
        } else if (wide && tool_.colletChuckRadius <= tool_.shankSize / 2) {
            wrong = say("A collet chuck of {:g} mm does not go round a shank of {:g} mm.", 2 * tool_.colletChuckRadius,
                        tool_.shankSize);
        } else if (isLong && tool_.overhang - tool_.colletChuckLength < tool_.fluteLength) {
            wrong =
                say("A collet chuck {:g} mm long in front of the block would grip the flutes: the tool "
                    "stands out {:g} mm, its flutes end at {:g} mm.",
                    tool_.colletChuckLength, tool_.overhang, tool_.fluteLength);
        } else {
            return;
        }
        from_.stop(
            "setup-collet-chuck", wide ? "collet_chuck_diameter_mm" : "collet_chuck_length_mm", wrong,
            tr("Write both sizes of the collet chuck as it stands in front of the block; overhang_mm counts from "
               "the block to the point."));
        tool_.colletChuckRadius = tool_.colletChuckLength = 0;
    }

    void readTap() {
        tool_.diameter = from_.number("diameter_mm");
        tool_.fluteLength = from_.number("flute_length_mm");
        tool_.pitch = from_.number("pitch_mm");
        tool_.chamferThreads = from_.number("chamfer_threads");
        tool_.shankSize = from_.says("shank_diameter_mm") ? from_.number("shank_diameter_mm") : tool_.diameter;
        if (tool_.pitch > 0 && 2 * tool_.pitch < tool_.diameter) return checkTapLength();
        const bool given = from_.table.find("pitch_mm") != nullptr;
        from_.stop(given ? "setup-out-of-range" : "setup-missing-key", given ? "pitch_mm" : "diameter_mm",
                   given ? say("A pitch of {:g} mm does not go with a tap of {:g} mm.", tool_.pitch, tool_.diameter)
                         : tr("The tap does not say pitch_mm."),
                   tr("Write the pitch that is marked on the tap."));
        tool_.pitch = tool_.diameter / 8;
        checkTapLength();
    }

    void checkTapLength() {
        const double chamfer = tapChamferMm(tool_);
        if (tool_.fluteLength > chamfer) return;
        from_.stop(
            "setup-drill-too-short", "flute_length_mm",
            say("The flutes ({:g} mm) are shorter than the tap's chamfer ({:.3f} mm).", tool_.fluteLength, chamfer),
            tr("Write the length from the point to the end of the flutes."));
        tool_.fluteLength = 2 * chamfer;
    }

    void readDrill() {
        tool_.diameter = from_.number("diameter_mm");
        tool_.pointAngle = radians(from_.number("point_angle_deg"));
        tool_.fluteLength = from_.number("flute_length_mm");
        tool_.shankSize = from_.says("shank_diameter_mm") ? from_.number("shank_diameter_mm") : largestDiameter();
        const double point = endOfFront();
        if (tool_.fluteLength > point) return;
        from_.stop("setup-drill-too-short", "flute_length_mm",
                   say("The flutes ({:g} mm) are shorter than the drill's point and steps ({:.3f} mm).",
                       tool_.fluteLength, point),
                   tr("Write the length from the point to the end of the flutes."));
        tool_.fluteLength = 2 * point;
    }

    double pointLength() const { return tool_.diameter / 2 / std::tan(tool_.pointAngle / 2); }

    double largestDiameter() const {
        return tool_.drillSteps.empty() ? tool_.diameter : 2 * tool_.drillSteps.back().radius;
    }

    // Where the last step has grown to its full size.
    double endOfFront() const {
        double end = pointLength(), before = tool_.diameter / 2;
        for (const DrillStep& step : tool_.drillSteps) {
            end = endOfStep(step, before);
            before = step.radius;
        }
        return end;
    }

    // Steps that grow, one behind the other. The first that does not ends the list.
    void readSteps() {
        const double diameter = from_.number("diameter_mm");
        const std::vector<double> diameters = from_.list("step_diameters_mm");
        const std::vector<double> lengths = from_.list("step_lengths_mm");
        const std::vector<double> angles = from_.list("step_angles_deg");
        if (diameters.size() != lengths.size() || (!angles.empty() && angles.size() != diameters.size())) {
            from_.stop(
                "setup-steps-contradict", "step_diameters_mm",
                say("There are {} step diameters, {} lengths and {} angles.", diameters.size(), lengths.size(),
                    angles.size()),
                tr("Give one length (from the point to where the step begins) and one angle for each diameter."));
        }
        double before = diameter / 2;
        double end = before / std::tan(radians(from_.number("point_angle_deg")) / 2);
        for (std::size_t i = 0; i < std::min(diameters.size(), lengths.size()); ++i) {
            const double angle = radians(i < angles.size() ? angles[i] : from_.number("step_angles_deg"));
            const DrillStep step{lengths[i], diameters[i] / 2, angle};
            if (step.radius <= before + 1e-6 || step.at < end + 1e-6) {
                from_.stop("setup-steps-contradict", "step_diameters_mm",
                           say("The step of {:g} mm at {:g} mm does not follow on what is in front of it, {:g} "
                               "mm across up to {:.3f} mm.",
                               diameters[i], lengths[i], 2 * before, end),
                           tr("Write the steps from the point backwards, each larger than the one before it."));
                return;
            }
            tool_.drillSteps.push_back(step);
            end = endOfStep(step, before);
            before = step.radius;
        }
    }

    // What the file does not say comes from the standard's table for that pilot, if it is in there.
    double sized(std::string_view key, const std::optional<CentreDrillSize>& size, double CentreDrillSize::*member) {
        if (from_.says(key)) return from_.number(key);
        if (size) return (*size).*member;
        from_.stop("setup-missing-key", "pilot_diameter_mm",
                   say("A pilot of {:g} mm is none of the standard's; the tool does not say {}.", tool_.diameter, key),
                   say("Add {}.", key));
        return 0;
    }

    void readCentreDrill() {
        tool_.diameter = from_.number("pilot_diameter_mm");
        tool_.pointAngle = radians(from_.number("point_angle_deg"));
        const bool formB = from_.text("centre_form") == "B";
        const auto size = centreDrillSize(tool_.diameter);
        double pilot = sized("pilot_length_mm", size, &CentreDrillSize::pilotLengthMm);
        double body = sized("body_diameter_mm", size, formB ? &CentreDrillSize::bodyBMm : &CentreDrillSize::bodyAMm);
        if (pilot <= pointLength()) {
            if (pilot > 0) contradicts("pilot_length_mm", tr("The pilot is shorter than its point."));
            pilot = 1.3 * pointLength() + 0.1 * tool_.diameter;
        }
        if (body <= tool_.diameter) {
            if (body > 0) contradicts("body_diameter_mm", tr("The body is no thicker than the pilot."));
            body = 2.5 * tool_.diameter;
        }
        const double cone = radians(from_.number("cone_angle_deg"));
        if (formB) {
            readProtectiveChamfer(pilot, body, cone, size);
        } else {
            tool_.drillSteps = {{pilot, body / 2, cone}};
        }
        // A short stretch of the body itself is looked at as well.
        tool_.fluteLength = endOfFront() + body / 2;
        tool_.shankSize = from_.says("shank_diameter_mm") ? from_.number("shank_diameter_mm") : body;
    }

    void readProtectiveChamfer(double pilot, double body, double cone, const std::optional<CentreDrillSize>& size) {
        double protective = sized("protective_diameter_mm", size, &CentreDrillSize::protectiveMm);
        if (protective <= tool_.diameter || protective >= body) {
            if (protective > 0) {
                contradicts("protective_diameter_mm", tr("The chamfer must begin between the pilot and the body."));
            }
            protective = (tool_.diameter + body) / 2;
        }
        const DrillStep first{pilot, protective / 2, cone};
        tool_.drillSteps = {first};
        tool_.drillSteps.push_back(
            {endOfStep(first, tool_.diameter / 2), body / 2, std::max(radians(kProtectiveChamferDeg), cone)});
    }

    void contradicts(std::string_view key, std::string message) {
        from_.stop("setup-steps-contradict", key, std::move(message), tr("Measure the centre drill and correct it."));
    }

    void readReamer() {
        tool_.diameter = from_.number("diameter_mm");
        tool_.fluteLength = from_.number("flute_length_mm");
        tool_.shankSize = from_.says("shank_diameter_mm") ? from_.number("shank_diameter_mm") : tool_.diameter;
        tool_.chamferAngle = radians(from_.number("chamfer_angle_deg"));
        const double allowance = from_.says("reaming_allowance_mm") ? from_.number("reaming_allowance_mm")
                                                                    : usualAllowanceMm(tool_.diameter);
        tool_.reamingAllowance = std::min(allowance, 0.5 * tool_.diameter) / 2;
        const double perMm = std::tan(tool_.chamferAngle);
        tool_.chamferLength =
            from_.says("chamfer_length_mm")
                ? from_.number("chamfer_length_mm")
                : std::clamp(4 * tool_.reamingAllowance, 0.1 * tool_.diameter, 0.4 * tool_.diameter) / perMm;
        const double rise = tool_.chamferLength * perMm;
        if (rise < tool_.diameter / 2 && rise >= tool_.reamingAllowance && tool_.chamferLength < tool_.fluteLength) {
            return;
        }
        from_.stop(
            "setup-reamer-chamfer", "chamfer_length_mm",
            say("A chamfer {:g} mm long at {:g} degrees reaches {:.3f} mm down; it must take an allowance "
                "of {:g} mm on the diameter, stay above the axis and be shorter than the flutes ({:g} "
                "mm).",
                tool_.chamferLength, degrees(tool_.chamferAngle), rise, 2 * tool_.reamingAllowance, tool_.fluteLength),
            tr("Correct chamfer_length_mm, chamfer_angle_deg, reaming_allowance_mm or flute_length_mm."));
        tool_.reamingAllowance = std::min(tool_.reamingAllowance, 0.2 * tool_.diameter);
        tool_.chamferLength = tool_.reamingAllowance / perMm;
        tool_.fluteLength = std::max(tool_.fluteLength, 2 * tool_.chamferLength);
    }

    const ToolTable& from_;
    Tool& tool_;
};

}  // namespace

void readAxialTool(const ToolTable& from, Tool& tool) {
    AxialReading(from, tool).run();
}

}  // namespace firstoff
