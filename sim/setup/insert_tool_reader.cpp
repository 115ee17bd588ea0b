// Turning tools and boring bars: the insert and how it is mounted.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/setup/insert_shapes.h"
#include "sim/setup/tool_outlines.h"
#include "sim/setup/tool_table.h"

namespace firstoff {

namespace {

class InsertReading {
public:
    InsertReading(const ToolTable& from, Tool& tool) : from_(from), tool_(tool) {}

    void run() {
        shape_ = *insertShape('C');
        readInsert();
        tool_.insertShape = shape_.letter;
        tool_.insertAngle = radians(shape_.angleDeg);
        const std::optional<double> byHolder = readHolder(from_, tool_);
        tool_.enteringAngle =
            radians(byHolder && !from_.says("entering_angle_deg") ? *byHolder : from_.number("entering_angle_deg"));
        if (tool_.kind == ToolKind::Boring) tool_.cuttingDepth = tool_.overhang;
        readEdgeWidth();
        fitNoseRadius();
        if (from_.says("kind")) checkEnteringAngle();
        readWiper();
        readFlank();
        tool_.minBoreRadius = from_.number("min_bore_mm") / 2;
    }

private:
    void readInsert() {
        const std::string_view text = from_.text("insert");
        // Missing or of the wrong type was said already.
        if (!from_.says("insert")) return takeEdgeAndNose(nullptr);
        if (const auto designation = readInsertDesignation(text)) return takeDesignation(*designation);
        const char letter = text.size() == 1 ? text.front() : '\0';
        if (const auto shape = insertShape(letter)) {
            shape_ = *shape;
            for (std::string_view key : {"edge_length_mm", "nose_radius_mm"}) needWithLetter(key);
        } else {
            from_.stop(
                "setup-unknown-insert", "insert", say("\"{}\" names no insert.", text),
                tr("Write a designation such as \"CNMG120408\", or the shape letter alone (C D E F K S T V W R …) with "
                   "edge_length_mm and nose_radius_mm."));
        }
        takeEdgeAndNose(nullptr);
    }

    void needWithLetter(std::string_view key) {
        if (from_.table.find(key) || (shape_.letter == 'R' && key == "nose_radius_mm")) return;
        from_.stop("setup-missing-key", "insert", say("The letter {} alone does not say {}.", shape_.letter, key),
                   say("Add {}, or write the whole designation.", key));
    }

    void takeDesignation(const InsertDesignation& designation) {
        shape_ = designation.shape;
        takeEdgeAndNose(&designation);
        contradiction("edge_length_mm", designation.edgeLengthMm, 1.0);
        contradiction("nose_radius_mm", designation.noseRadiusMm, 0.06);
        tool_.flankHeight = designation.thicknessMm;
        // Square flanks (N) clear because the holder tilts the insert, by how much is its own affair: not known.
        tool_.clearanceAngle = radians(designation.clearanceDeg.value_or(0));
    }

    // `slack`: 1 mm for edges, which people write as the size code; 0.06 mm for corners, which are inch sizes rounded
    // (0.794 mm is called 08, 0.4 is 0.397).
    void contradiction(std::string_view key, double designated, double slack) {
        if (!from_.says(key)) return;
        const double written = from_.number(key);
        if (std::abs(written - designated) <= slack) return;
        from_.stop("setup-insert-contradiction", key,
                   say("{} says {:g}, the designation {} says {:g}.", key, written, from_.text("insert"), designated),
                   tr("Look at the insert in the holder and correct the wrong one."));
    }

    void takeEdgeAndNose(const InsertDesignation* designation) {
        tool_.edgeLength = from_.number("edge_length_mm");
        tool_.noseRadius = from_.number("nose_radius_mm");
        if (!designation) return;
        if (!from_.says("edge_length_mm")) tool_.edgeLength = designation->edgeLengthMm;
        if (!from_.says("nose_radius_mm")) tool_.noseRadius = designation->noseRadiusMm;
    }

    void fitNoseRadius() {
        const double shorter = tool_.edgeWidth > 0 ? std::min(tool_.edgeWidth, tool_.edgeLength) : tool_.edgeLength;
        const double largest = largestNoseRadiusMm(shape_, shorter);
        if (shape_.letter == 'R') {
            const bool agrees = !from_.says("nose_radius_mm") || std::abs(tool_.noseRadius - largest) < 0.06;
            if (!agrees) {
                from_.stop("setup-insert-contradiction", "nose_radius_mm",
                           say("A round insert of {:g} mm has a nose radius of {:g}, not {:g}.", tool_.edgeLength,
                               largest, tool_.noseRadius),
                           tr("Leave nose_radius_mm out for a round insert."));
            }
            tool_.noseRadius = largest;
        } else if (tool_.noseRadius > largest) {
            from_.stop("setup-nose-radius-too-big", "nose_radius_mm",
                       say("A nose radius of {:g} mm does not fit an edge of {:g} mm; {:.3f} mm is the most.",
                           tool_.noseRadius, tool_.edgeLength, largest),
                       tr("Correct nose_radius_mm or edge_length_mm."));
            tool_.noseRadius = 0.9 * largest;
        }
    }

    // With the corner below everything else, neither edge may hang lower: kappa + epsilon <= 180°.
    void checkEnteringAngle() {
        const int tip = tool_.tipNumber;
        const bool noseIsLowest = tip != 0 && tip != 9 && tip != 5 && tip != 7 && shape_.letter != 'R';
        const double heel = degrees(tool_.enteringAngle) + shape_.angleDeg - 180;
        if (shape_.letter != 'R' && !from_.table.find("entering_angle_deg") && !from_.table.find("holder")) {
            from_.stop("setup-missing-key", "insert", tr("The tool does not say entering_angle_deg."),
                       tr("Add the angle between the cutting edge and the feed along Z, 95 for most turning holders."));
        } else if (noseIsLowest && heel > 1e-9) {
            from_.stop("setup-entering-angle", from_.table.find("entering_angle_deg") ? "entering_angle_deg" : "holder",
                       say("At an entering angle of {:g}° the heel of a {:g}° corner would hang {:g}° below the nose.",
                           degrees(tool_.enteringAngle), shape_.angleDeg, heel),
                       say("It can be {:g} at most for this insert.", 180 - shape_.angleDeg));
            tool_.enteringAngle = radians(180 - shape_.angleDeg);
        }
    }

    void readEdgeWidth() {
        tool_.edgeWidth = from_.number("edge_width_mm");
        const bool two = hasTwoEdges(shape_);
        if (!two && from_.says("edge_width_mm")) {
            from_.stop("setup-insert-contradiction", "edge_width_mm",
                       say("All edges of an insert of shape {} are of one length.", shape_.letter),
                       tr("Leave edge_width_mm out; it is for the shapes A, B, K and L."));
            tool_.edgeWidth = 0;
        }
    }

    void readWiper() {
        tool_.wiperFlat = from_.number("wiper_flat_mm");
        if (tool_.wiperFlat <= 0) return;
        const double most = largestWiperFlatMm(tool_);
        if (tool_.wiperFlat <= most) return;
        from_.stop("setup-wiper-does-not-fit", "wiper_flat_mm",
                   most <= 0 ? std::string(tr("As this insert is mounted a wiper has no place: neither edge leans away "
                                              "from its feed."))
                             : say("A wiper of {:g} mm takes too much of an edge; {:.3f} mm is the most.",
                                   tool_.wiperFlat, most),
                   tr("Correct wiper_flat_mm (a fraction of the nose radius is usual), or the entering angle."));
        tool_.wiperFlat = 0.9 * most;
    }

    void readFlank() {
        if (from_.says("insert_thickness_mm")) tool_.flankHeight = from_.number("insert_thickness_mm");
        if (!from_.says("clearance_angle_deg")) return;
        tool_.clearanceAngle = radians(from_.number("clearance_angle_deg"));
        tool_.clearanceMeasured = true;
    }

    const ToolTable& from_;
    Tool& tool_;
    InsertShape shape_;
};

}  // namespace

void readInsertTool(const ToolTable& from, Tool& tool) {
    InsertReading(from, tool).run();
}

}  // namespace firstoff
