#include "sim/setup/tool_reader.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

#include "sim/base/units.h"
#include "sim/setup/insert_shapes.h"
#include "sim/setup/setup_keys.h"

namespace firstoff {

namespace {

std::string_view textIn(const SetupTable& table, std::string_view key) {
    const SetupEntry* entry = table.usable(key);
    return entry ? std::string_view(entry->value.text) : std::string_view();
}

ToolKind kindNamed(std::string_view kind) {
    if (kind == "boring") return ToolKind::Boring;
    if (kind == "grooving") return ToolKind::Grooving;
    if (kind == "parting") return ToolKind::Parting;
    if (kind == "drill") return ToolKind::Drill;
    if (kind == "threading") return ToolKind::Threading;
    if (kind == "tap") return ToolKind::Tap;
    return ToolKind::Turning;
}

int usualTipNumber(ToolKind kind) {
    switch (kind) {
        case ToolKind::Boring:
            return 2;
        case ToolKind::Drill:
        case ToolKind::Tap:
            return 0;
        case ToolKind::Threading:
            return 8;
        default:
            return 3;
    }
}

// Tip numbers whose outline toolOutline() draws. A grooving edge that faces along z would need another outline.
bool drawn(ToolKind kind, int tipNumber) {
    if (kind != ToolKind::Grooving && kind != ToolKind::Parting) return true;
    return tipNumber != 0 && tipNumber != 5 && tipNumber != 7 && tipNumber != 9;
}

class ToolReading {
public:
    ToolReading(const SetupTable& table, std::vector<Finding>& findings) : table_(table), findings_(findings) {}

    Tool run() {
        tool_.span = table_.span;
        tool_.station = static_cast<int>(numberIn(table_, "station"));
        tool_.name = textIn(table_, "name");
        tool_.kind = kindNamed(textIn(table_, "kind"));
        tool_.needs = textIn(table_, "needs") == "M04" ? SpindleDirection::Reverse : SpindleDirection::Forward;
        tool_.tip = {numberIn(table_, "tip_z_mm"), numberIn(table_, "tip_x_mm") / 2};
        tool_.centreHeight = numberIn(table_, "centre_height_mm");
        tool_.overhang = numberIn(table_, "overhang_mm");
        tool_.shankSize = numberIn(table_, "shank_mm");
        readTipNumber();
        if (tool_.name.empty()) tool_.name = std::string(textIn(table_, "kind"));
        switch (tool_.kind) {
            case ToolKind::Turning:
            case ToolKind::Boring:
                readInsertTool();
                break;
            case ToolKind::Grooving:
            case ToolKind::Parting:
                readBlade();
                break;
            case ToolKind::Drill:
                readDrill();
                break;
            case ToolKind::Threading:
                readThreading();
                break;
            case ToolKind::Tap:
                readTap();
                break;
        }
        tool_.cutting = toolOutline(tool_);
        tool_.holder = holderOutline(tool_);
        return std::move(tool_);
    }

private:
    SourceSpan spanOf(std::string_view key) const {
        const SetupEntry* entry = table_.find(key);
        return entry ? entry->value.span : table_.span;
    }

    void stop(std::string_view code, std::string_view key, std::string message, std::string remedy) {
        findings_.push_back(setupStop(code, spanOf(key), std::move(message), std::move(remedy)));
    }

    void readTipNumber() {
        const SetupEntry* inside = table_.usable("inside");
        tool_.inside = inside != nullptr && inside->value.flag;
        const int usual = tool_.inside ? 6 : usualTipNumber(tool_.kind);
        tool_.tipNumber = table_.usable("tip_number") ? static_cast<int>(numberIn(table_, "tip_number")) : usual;
        if (tool_.kind == ToolKind::Threading) return checkThreadingTip(usual);
        if (drawn(tool_.kind, tool_.tipNumber)) return;
        stop("setup-tip-not-modelled", "tip_number",
             fmt::format("A groove cut along Z (tip {}) is not modelled.", tool_.tipNumber),
             "Use tip 3, 4 or 8 outside, 2, 1 or 6 in a bore; a face groove cannot be proved here.");
        findings_.back().unproven = true;
        tool_.tipNumber = usual;
    }

    // The tip of a threading tool points to the metal: inwards outside, outwards inside.
    void checkThreadingTip(int usual) {
        const double points = tipFromNoseCentre(tool_.tipNumber).r;
        if (tool_.inside ? points > 0 : points < 0) return;
        stop("setup-tip-not-modelled", "tip_number",
             fmt::format("Tip {} does not point {}, where this tool cuts its thread.", tool_.tipNumber,
                         tool_.inside ? "outwards" : "inwards"),
             "Use tip 8 (3, 4) outside, and inside = true with tip 6 (1, 2) in a bore.");
        tool_.tipNumber = usual;
    }

    void readInsertTool() {
        shape_ = *insertShape('C');
        readInsert();
        tool_.insertShape = shape_.letter;
        tool_.insertAngle = radians(shape_.angleDeg);
        tool_.enteringAngle = radians(numberIn(table_, "entering_angle_deg"));
        if (tool_.kind == ToolKind::Boring) tool_.cuttingDepth = tool_.overhang;
        fitNoseRadius();
        if (table_.usable("kind")) checkEnteringAngle();
    }

    void readInsert() {
        const std::string_view text = textIn(table_, "insert");
        // Missing or of the wrong type was said already.
        if (!table_.usable("insert")) return takeEdgeAndNose(nullptr);
        if (const auto designation = readInsertDesignation(text)) return takeDesignation(*designation);
        const char letter = text.size() == 1 ? text.front() : '\0';
        if (const auto shape = insertShape(letter)) {
            takeShape(*shape);
            for (std::string_view key : {"edge_length_mm", "nose_radius_mm"}) needWithLetter(key);
        } else {
            stop("setup-unknown-insert", "insert", fmt::format("\"{}\" names no insert.", text),
                 "Write a designation such as \"CNMG120408\", or the shape letter alone (C D E F K S T V W R …) with "
                 "edge_length_mm and nose_radius_mm.");
        }
        takeEdgeAndNose(nullptr);
    }

    void needWithLetter(std::string_view key) {
        if (table_.find(key) || (shape_.letter == 'R' && key == "nose_radius_mm")) return;
        stop("setup-missing-key", "insert", fmt::format("The letter {} alone does not say {}.", shape_.letter, key),
             fmt::format("Add {}, or write the whole designation.", key));
    }

    void takeShape(const InsertShape& shape) {
        shape_ = shape;
        if (shape.modelled) return;
        stop("setup-insert-not-modelled", "insert",
             fmt::format("The outline of inserts of shape {} is not modelled.", shape.letter),
             "Use the shape of the corner that cuts, or prove this tool out on the machine.");
        findings_.back().unproven = true;
        shape_ = *insertShape('S');
    }

    void takeDesignation(const InsertDesignation& designation) {
        takeShape(designation.shape);
        takeEdgeAndNose(&designation);
        contradiction("edge_length_mm", designation.edgeLengthMm, 1.0);
        contradiction("nose_radius_mm", designation.noseRadiusMm, 0.06);
    }

    // `slack`: 1 mm for edges, which people write as the size code; 0.06 mm for corners, which are inch sizes rounded
    // (0.794 mm is called 08, 0.4 is 0.397).
    void contradiction(std::string_view key, double designated, double slack) {
        if (!table_.usable(key)) return;
        const double written = numberIn(table_, key);
        if (std::abs(written - designated) <= slack) return;
        stop("setup-insert-contradiction", key,
             fmt::format("{} says {:g}, the designation {} says {:g}.", key, written, textIn(table_, "insert"),
                         designated),
             "Look at the insert in the holder and correct the wrong one.");
    }

    void takeEdgeAndNose(const InsertDesignation* designation) {
        tool_.edgeLength = numberIn(table_, "edge_length_mm");
        tool_.noseRadius = numberIn(table_, "nose_radius_mm");
        if (!designation) return;
        if (!table_.usable("edge_length_mm")) tool_.edgeLength = designation->edgeLengthMm;
        if (!table_.usable("nose_radius_mm")) tool_.noseRadius = designation->noseRadiusMm;
    }

    void fitNoseRadius() {
        const double largest = largestNoseRadiusMm(shape_, tool_.edgeLength);
        if (shape_.letter == 'R') {
            const bool agrees = !table_.usable("nose_radius_mm") || std::abs(tool_.noseRadius - largest) < 0.06;
            if (!agrees) {
                stop("setup-insert-contradiction", "nose_radius_mm",
                     fmt::format("A round insert of {:g} mm has a nose radius of {:g}, not {:g}.", tool_.edgeLength,
                                 largest, tool_.noseRadius),
                     "Leave nose_radius_mm out for a round insert.");
            }
            tool_.noseRadius = largest;
        } else if (tool_.noseRadius > largest) {
            stop("setup-nose-radius-too-big", "nose_radius_mm",
                 fmt::format("A nose radius of {:g} mm does not fit an edge of {:g} mm; {:.3f} mm is the most.",
                             tool_.noseRadius, tool_.edgeLength, largest),
                 "Correct nose_radius_mm or edge_length_mm.");
            tool_.noseRadius = 0.9 * largest;
        }
    }

    // With the corner below everything else, neither edge may hang lower: kappa + epsilon <= 180°.
    void checkEnteringAngle() {
        const int tip = tool_.tipNumber;
        const bool noseIsLowest = tip != 0 && tip != 9 && tip != 5 && tip != 7 && shape_.letter != 'R';
        const double heel = degrees(tool_.enteringAngle) + shape_.angleDeg - 180;
        if (shape_.letter != 'R' && !table_.find("entering_angle_deg")) {
            stop("setup-missing-key", "insert", "The tool does not say entering_angle_deg.",
                 "Add the angle between the cutting edge and the feed along Z, 95 for most turning holders.");
        } else if (noseIsLowest && heel > 1e-9) {
            stop(
                "setup-entering-angle", "entering_angle_deg",
                fmt::format("At an entering angle of {:g}° the heel of a {:g}° corner would hang {:g}° below the nose.",
                            degrees(tool_.enteringAngle), shape_.angleDeg, heel),
                fmt::format("It can be {:g} at most for this insert.", 180 - shape_.angleDeg));
            tool_.enteringAngle = radians(180 - shape_.angleDeg);
        }
    }

    void readBlade() {
        tool_.width = numberIn(table_, "width_mm");
        tool_.cornerRadius = numberIn(table_, "corner_radius_mm");
        tool_.cuttingDepth = numberIn(table_, "cutting_depth_mm");
        const double largest = std::min(tool_.width / 2, tool_.cuttingDepth);
        if (tool_.cornerRadius > largest) {
            stop(
                "setup-nose-radius-too-big", "corner_radius_mm",
                fmt::format("Two corners of {:g} mm do not fit an edge {:g} mm wide.", tool_.cornerRadius, tool_.width),
                fmt::format("{:g} mm is the most.", largest));
            tool_.cornerRadius = 0.9 * largest;
        }
        tool_.noseRadius = tool_.cornerRadius;
    }

    void readThreading() {
        tool_.threadAngle = radians(numberIn(table_, "thread_angle_deg"));
        tool_.noseRadius = numberIn(table_, "nose_radius_mm");
        tool_.width = numberIn(table_, "nose_flat_mm");
        tool_.cuttingDepth = numberIn(table_, "cutting_depth_mm");
        tool_.pitch = numberIn(table_, "pitch_mm");
        // Where a round nose meets the flanks must lie below the top of the profile.
        const double largest = tool_.cuttingDepth / (1 - std::sin(tool_.threadAngle / 2));
        if (tool_.noseRadius < largest) return;
        stop("setup-nose-radius-too-big", "nose_radius_mm",
             fmt::format("A nose radius of {:g} mm does not fit a profile {:g} mm deep.", tool_.noseRadius,
                         tool_.cuttingDepth),
             fmt::format("It must be below {:.3f} mm.", largest));
        tool_.noseRadius = 0.9 * largest;
    }

    void readTap() {
        tool_.diameter = numberIn(table_, "diameter_mm");
        tool_.fluteLength = numberIn(table_, "flute_length_mm");
        tool_.pitch = numberIn(table_, "pitch_mm");
        tool_.shankSize = table_.usable("shank_diameter_mm") ? numberIn(table_, "shank_diameter_mm") : tool_.diameter;
        if (tool_.pitch > 0 && 2 * tool_.pitch < tool_.diameter) return checkTapLength();
        const bool given = table_.find("pitch_mm") != nullptr;
        stop(given ? "setup-out-of-range" : "setup-missing-key", given ? "pitch_mm" : "diameter_mm",
             given ? fmt::format("A pitch of {:g} mm does not go with a tap of {:g} mm.", tool_.pitch, tool_.diameter)
                   : "The tap does not say pitch_mm.",
             "Write the pitch that is marked on the tap.");
        tool_.pitch = tool_.diameter / 8;
        checkTapLength();
    }

    void checkTapLength() {
        const double chamfer = tapChamferMm(tool_);
        if (tool_.fluteLength > chamfer) return;
        stop("setup-drill-too-short", "flute_length_mm",
             fmt::format("The flutes ({:g} mm) are shorter than the tap's chamfer ({:.3f} mm).", tool_.fluteLength,
                         chamfer),
             "Write the length from the point to the end of the flutes.");
        tool_.fluteLength = 2 * chamfer;
    }

    void readDrill() {
        tool_.diameter = numberIn(table_, "diameter_mm");
        tool_.pointAngle = radians(numberIn(table_, "point_angle_deg"));
        tool_.fluteLength = numberIn(table_, "flute_length_mm");
        tool_.shankSize = table_.usable("shank_diameter_mm") ? numberIn(table_, "shank_diameter_mm") : tool_.diameter;
        const double point = tool_.diameter / 2 / std::tan(tool_.pointAngle / 2);
        if (tool_.fluteLength > point) return;
        stop("setup-drill-too-short", "flute_length_mm",
             fmt::format("The flutes ({:g} mm) are shorter than the drill's point ({:.3f} mm).", tool_.fluteLength,
                         point),
             "Write the length from the point to the end of the flutes.");
        tool_.fluteLength = 2 * point;
    }

    const SetupTable& table_;
    std::vector<Finding>& findings_;
    Tool tool_;
    InsertShape shape_;
};

}  // namespace

double numberIn(const SetupTable& table, std::string_view key) {
    if (const SetupEntry* entry = table.usable(key)) return entry->value.number;
    const SetupKey* known = setupKey(keyTableOf(table.name), key);
    assert(known);
    return known->fallback;
}

Tool readTool(const SetupTable& table, std::vector<Finding>& findings) {
    return ToolReading(table, findings).run();
}

}  // namespace firstoff
