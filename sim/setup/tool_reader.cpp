#include "sim/setup/tool_reader.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/setup/thread_profile.h"
#include "sim/setup/tool_outlines.h"
#include "sim/setup/tool_table.h"

namespace firstoff {

namespace {

ToolKind kindNamed(std::string_view kind) {
    if (kind == "boring") return ToolKind::Boring;
    if (kind == "grooving") return ToolKind::Grooving;
    if (kind == "parting") return ToolKind::Parting;
    if (kind == "drill") return ToolKind::Drill;
    if (kind == "threading") return ToolKind::Threading;
    if (kind == "tap") return ToolKind::Tap;
    if (kind == "centre-drill") return ToolKind::CentreDrill;
    if (kind == "step-drill") return ToolKind::StepDrill;
    if (kind == "reamer") return ToolKind::Reamer;
    return ToolKind::Turning;
}

int usualTipNumber(ToolKind kind) {
    if (worksOnTheAxis(kind)) return 0;
    if (kind == ToolKind::Boring) return 2;
    return kind == ToolKind::Threading ? 8 : 3;
}

class ToolReading {
public:
    ToolReading(const SetupTable& table, std::vector<Finding>& findings) : from_{table, findings} {}

    Tool run() {
        tool_.span = from_.table.span;
        tool_.station = static_cast<int>(from_.number("station"));
        tool_.name = from_.text("name");
        tool_.kind = kindNamed(from_.text("kind"));
        tool_.needs = from_.text("needs") == "M04" ? SpindleDirection::Reverse : SpindleDirection::Forward;
        tool_.tip = {from_.number("tip_z_mm"), from_.number("tip_x_mm") / 2};
        tool_.centreHeight = from_.number("centre_height_mm");
        tool_.overhang = from_.number("overhang_mm");
        readLimits();
        readShank();
        readEdgeLife();
        readTipNumber();
        if (tool_.name.empty()) tool_.name = std::string(from_.text("kind"));
        if (worksOnTheAxis(tool_.kind)) {
            readAxialTool(from_, tool_);
        } else if (isBlade(tool_.kind)) {
            readBlade();
        } else if (tool_.kind == ToolKind::Threading) {
            readThreading();
        } else {
            readInsertTool(from_, tool_);
        }
        giveShape(tool_);
        return std::move(tool_);
    }

private:
    // For forces; 0 and nothing where the set-up does not say.
    void readLimits() {
        if (from_.says("rake_angle_deg")) tool_.rakeAngle = radians(from_.number("rake_angle_deg"));
        tool_.edges = static_cast<int>(from_.number("edges"));
        tool_.maxForceN = from_.number("max_cutting_force_n");
        tool_.maxFeed = from_.number("max_feed_mm_per_rev");
        tool_.maxDepth = from_.number("max_depth_mm");
    }

    // The designation of a holder says its shank; a height alone makes no head of other tools.
    void readShank() {
        tool_.shankSize = from_.number("shank_mm");
        tool_.shank = shankMaterial();
        const bool onTheAxis = worksOnTheAxis(tool_.kind);
        const bool said = from_.table.find("shank_mm") || from_.table.find("holder") || from_.table.incomplete;
        if (!onTheAxis && !said && from_.says("kind")) {
            from_.stop(
                "setup-missing-key", "kind", tr("The tool does not say shank_mm."),
                tr("Add the section of the shank (of a boring bar its diameter), or for an insert the designation "
                   "of its holder."));
        }
        const bool insert = tool_.kind == ToolKind::Turning || tool_.kind == ToolKind::Boring;
        if (onTheAxis || insert || !from_.says("shank_height_mm")) return;
        tool_.head.emplace();
        tool_.head->shankWidth = tool_.shankSize;
        tool_.head->shankHeight = from_.number("shank_height_mm");
    }

    // Both constants, or none: one alone says nothing.
    void readEdgeLife() {
        tool_.edgesPerInsert = static_cast<int>(from_.number("edges_per_insert"));
        tool_.taylorN = from_.number("taylor_n");
        tool_.taylorC = from_.number("taylor_c_m_per_min");
        const bool n = from_.says("taylor_n"), c = from_.says("taylor_c_m_per_min");
        if (n == c) return;
        from_.stop(
            "setup-missing-key", n ? "taylor_n" : "taylor_c_m_per_min",
            n ? tr("The life of the edge has its exponent only.") : tr("The life of the edge has its constant only."),
            tr("Write both taylor_n and taylor_c_m_per_min, or neither."));
        tool_.taylorN = tool_.taylorC = 0;
    }

    Tool::Shank shankMaterial() const {
        const std::string_view name = from_.text("shank");
        if (name == "carbide") return Tool::Shank::Carbide;
        if (name == "damped") return Tool::Shank::Damped;
        return name == "damped-carbide" ? Tool::Shank::DampedCarbide : Tool::Shank::Steel;
    }

    void readTipNumber() {
        tool_.inside = from_.flag("inside");
        const int usual = tool_.inside ? 6 : usualTipNumber(tool_.kind);
        tool_.tipNumber = from_.says("tip_number") ? static_cast<int>(from_.number("tip_number")) : usual;
        if (tool_.kind == ToolKind::Threading) return checkThreadingTip(usual);
        if (isBlade(tool_.kind)) checkBladeTip(usual);
    }

    // A blade points along X or along Z, and its tip on the side where its front is.
    void checkBladeTip(int usual) {
        const Point points = tipFromNoseCentre(tool_.tipNumber);
        const bool alongZ = points.r == 0 && points.z != 0;
        tool_.face = tool_.kind == ToolKind::Grooving && (alongZ || from_.flag("face_groove"));
        if (tool_.face ? points.z != 0 : points.r != 0) return;
        from_
            .stop("setup-tip-not-modelled", "tip_number",
                  tool_.face ? say("The front of a blade for face grooves does not lie at tip {}.", tool_.tipNumber)
                             : say("A blade of this kind does not cut at tip {}.", tool_.tipNumber),
                  tr("Use tip 3, 4 or 8 outside, 2, 1 or 6 in a bore; for grooves in a face a grooving tool with tip "
                     "7, 3 or 2 and face_groove = true."))
            .unproven = true;
        tool_.tipNumber = usual;
    }

    // The tip of a threading tool points to the metal: inwards outside, outwards inside.
    void checkThreadingTip(int usual) {
        const double points = tipFromNoseCentre(tool_.tipNumber).r;
        if (tool_.inside ? points > 0 : points < 0) return;
        from_.stop("setup-tip-not-modelled", "tip_number",
                   tool_.inside
                       ? say("Tip {} does not point outwards, where this tool cuts its thread.", tool_.tipNumber)
                       : say("Tip {} does not point inwards, where this tool cuts its thread.", tool_.tipNumber),
                   tr("Use tip 8 (3, 4) outside, and inside = true with tip 6 (1, 2) in a bore."));
        tool_.tipNumber = usual;
    }

    void needDepth() {
        if (from_.table.find("cutting_depth_mm") || !from_.says("kind")) return;
        from_.stop("setup-missing-key", "kind", tr("The tool does not say cutting_depth_mm."),
                   tr("Add how deep it may cut before its holder follows."));
    }

    void readBlade() {
        needDepth();
        tool_.width = from_.number("width_mm");
        tool_.cornerRadius = from_.number("corner_radius_mm");
        tool_.cuttingDepth = from_.number("cutting_depth_mm");
        tool_.mountedAngle = radians(from_.number("mounted_angle_deg"));
        const double lead = radians(from_.number("front_angle_deg"));
        tool_.frontAngle = from_.text("leading_corner") == "bar" ? -lead : lead;
        if (from_.says("second_corner_radius_mm")) tool_.secondCornerRadius = from_.number("second_corner_radius_mm");
        fitFront();
        fitCorners();
        tool_.noseRadius = gaugedCornerRadius(tool_);
        tool_.minBoreRadius = from_.number("min_bore_mm") / 2;
        tool_.flankHeight = from_.number("blade_height_mm");
        tool_.clearanceAngle = radians(from_.number("clearance_angle_deg"));
        tool_.clearanceMeasured = tool_.clearanceAngle > 0;
        readFaceGroove();
    }

    // The slanting front must leave some of the side, and the roundings of its corners too.
    void fitFront() {
        const double rise = tool_.width * std::tan(std::abs(tool_.frontAngle));
        if (rise < 0.9 * tool_.cuttingDepth) return;
        from_.stop("setup-out-of-range", "front_angle_deg",
                   say("At {:g} degrees the front of a blade {:g} mm wide rises {:.3f} mm, of {:g} mm that it "
                       "may cut deep.",
                       degrees(std::abs(tool_.frontAngle)), tool_.width, rise, tool_.cuttingDepth),
                   tr("Correct front_angle_deg, width_mm or cutting_depth_mm."));
        tool_.frontAngle = 0;
    }

    void fitCorners() {
        const double side = tool_.cuttingDepth - tool_.width * std::tan(std::abs(tool_.frontAngle));
        const auto fits = [&](double first, double second) {
            const double lean = tool_.frontAngle;
            const double most =
                std::max(first * std::tan((kPi / 2 - lean) / 2), second * std::tan((kPi / 2 + lean) / 2));
            return second <= roomForSecondCornerMm(tool_, first) + 1e-12 && most <= side;
        };
        const double second = tool_.secondCornerRadius.value_or(tool_.cornerRadius);
        if (fits(tool_.cornerRadius, second)) return;
        // The largest equal corners, for the safe value and for the remedy.
        double low = 0, high = std::min(tool_.width, tool_.cuttingDepth);
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            (fits(middle, middle) ? low : high) = middle;
        }
        from_.stop("setup-nose-radius-too-big",
                   from_.says("second_corner_radius_mm") ? "second_corner_radius_mm" : "corner_radius_mm",
                   second == tool_.cornerRadius
                       ? say("Two corners of {:g} mm do not fit an edge {:g} mm wide.", second, tool_.width)
                       : say("Corners of {:g} and {:g} mm do not fit an edge {:g} mm wide.", tool_.cornerRadius, second,
                             tool_.width),
                   say("{:g} mm is the most for both.", low));
        tool_.cornerRadius = 0.9 * low;
        tool_.secondCornerRadius.reset();
    }

    void readFaceGroove() {
        tool_.faceGrooveMinRadius = from_.number("face_groove_min_diameter_mm") / 2;
        tool_.faceGrooveMaxRadius = from_.number("face_groove_max_diameter_mm") / 2;
        const bool given = from_.says("face_groove_min_diameter_mm") || from_.says("face_groove_max_diameter_mm");
        if (given && !tool_.face) {
            from_.stop("setup-key-of-another-kind",
                       from_.says("face_groove_min_diameter_mm") ? "face_groove_min_diameter_mm"
                                                                 : "face_groove_max_diameter_mm",
                       tr("The blade does not stand along Z, so it cuts no face grooves."),
                       tr("Set face_groove = true or tip_number = 7, or take the diameters out."));
        }
        const bool both = tool_.faceGrooveMinRadius > 0 && tool_.faceGrooveMaxRadius > 0;
        if (!both || tool_.faceGrooveMinRadius <= tool_.faceGrooveMaxRadius) return;
        from_.stop("setup-out-of-range", "face_groove_max_diameter_mm",
                   say("The largest first cut ({:g} mm) is below the smallest ({:g} mm).",
                       2 * tool_.faceGrooveMaxRadius, 2 * tool_.faceGrooveMinRadius),
                   tr("Write the range that is marked on the blade."));
        tool_.faceGrooveMaxRadius = 0;
    }

    void readThreading() {
        tool_.threadAngle = radians(from_.number("thread_angle_deg"));
        tool_.noseRadius = from_.number("nose_radius_mm");
        tool_.width = from_.number("nose_flat_mm");
        tool_.cuttingDepth = from_.number("cutting_depth_mm");
        tool_.pitch = from_.number("pitch_mm");
        tool_.mountedAngle = radians(from_.number("mounted_angle_deg"));
        tool_.minBoreRadius = from_.number("min_bore_mm") / 2;
        if (from_.text("profile") == "full") tool_.profile = ThreadProfile::Full;
        takeStandardProfile();
        fitThreadNose();
        fitFullProfile();
    }

    // What the file leaves to the standard of the thread's angle and pitch.
    void takeStandardProfile() {
        const auto basics = tool_.pitch > 0 ? threadBasics(tool_.threadAngle, tool_.pitch, tool_.inside) : std::nullopt;
        if (!basics) return needDepth();
        if (!from_.table.find("nose_radius_mm") && !from_.table.find("nose_flat_mm")) {
            tool_.noseRadius = basics->rootRadius;
            tool_.width = basics->rootFlat;
        }
        if (!from_.table.find("cutting_depth_mm")) {
            // A partial profile runs on until its flanks stand a pitch apart, less what a crest must keep.
            const double higher = 0.5 * basics->crestFlat / (2 * std::tan(tool_.threadAngle / 2));
            tool_.cuttingDepth = basics->depth + (tool_.profile == ThreadProfile::Full ? 0 : higher);
        }
        if (tool_.profile != ThreadProfile::Full || !basics->roundedCrest) return;
        from_
            .stop(
                "setup-thread-profile-not-modelled", "profile",
                tr("A full profile of 55 degrees rounds the crests; here it only tops them flat."),
                tr("Gauge the crests of the first part, or leave profile out for an insert that does not touch them."))
            .unproven = true;
    }

    void fitThreadNose() {
        // Where a round nose meets the flanks must lie below the top of the profile.
        const double largest = tool_.cuttingDepth / (1 - std::sin(tool_.threadAngle / 2));
        if (tool_.noseRadius < largest) return;
        from_.stop(
            "setup-nose-radius-too-big", "nose_radius_mm",
            say("A nose radius of {:g} mm does not fit a profile {:g} mm deep.", tool_.noseRadius, tool_.cuttingDepth),
            say("It must be below {:.3f} mm.", largest));
        tool_.noseRadius = 0.9 * largest;
    }

    void fitFullProfile() {
        if (tool_.profile != ThreadProfile::Full) return;
        if (tool_.pitch <= 0) {
            from_.stop("setup-missing-key", "profile", tr("A full profile does not say pitch_mm."),
                       tr("Add the pitch that the insert is made for."));
            tool_.profile = ThreadProfile::Partial;
            return;
        }
        const double below =
            tool_.width > 0 ? 0 : tool_.noseRadius / std::sin(tool_.threadAngle / 2) - tool_.noseRadius;
        const double groove = tool_.width + 2 * (tool_.cuttingDepth + below) * std::tan(tool_.threadAngle / 2);
        if (groove < tool_.pitch) return;
        from_.stop("setup-out-of-range", "cutting_depth_mm",
                   say("A profile {:g} mm deep is {:.3f} mm wide at its top: no crest is left of a pitch of {:g} "
                       "mm.",
                       tool_.cuttingDepth, groove, tool_.pitch),
                   tr("Leave cutting_depth_mm out for a profile by the standard, or correct it."));
        tool_.profile = ThreadProfile::Partial;
    }

    ToolTable from_;
    Tool tool_;
};

}  // namespace

Tool readTool(const SetupTable& table, std::vector<Finding>& findings) {
    return ToolReading(table, findings).run();
}

}  // namespace firstoff
