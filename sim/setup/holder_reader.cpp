// The holder of an insert: by its designation, by the measures of its head, and the shank.
#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/setup/holder_designation.h"
#include "sim/setup/insert_shapes.h"
#include "sim/setup/tool_table.h"

namespace firstoff {

namespace {

// What people write for an angle and for an edge: N is 62.5 or 63, a C edge 12 or 12.9.
constexpr double kAngleSlackDeg = 1, kEdgeSlackMm = 1;
constexpr double kAlikeMm = 0.05;

class HolderOfInsert {
public:
    HolderOfInsert(const ToolTable& from, Tool& tool) : from_(from), tool_(tool) {}

    std::optional<double> run() {
        const bool measures =
            from_.says("head_width_mm") || from_.says("head_length_mm") || from_.says("shank_height_mm");
        if (!from_.says("holder") && !measures) return std::nullopt;
        HolderHead head;
        head.shankWidth = tool_.shankSize;
        std::optional<double> angle;
        if (from_.says("holder")) angle = byDesignation(head);
        if (from_.says("head_width_mm")) head.headWidth = from_.number("head_width_mm");
        if (from_.says("head_length_mm")) head.headLength = from_.number("head_length_mm");
        if (from_.says("shank_height_mm")) head.shankHeight = from_.number("shank_height_mm");
        checkHead(head);
        tool_.head = head;
        return angle;
    }

private:
    void contradicts(std::string_view key, std::string message) {
        from_.stop("setup-holder-contradiction", key, std::move(message),
                   tr("Look at the holder and at the insert in it, and correct the wrong one."));
    }

    // The entering angle that it says for the feed along Z; nothing for a designation that is not understood.
    std::optional<double> byDesignation(HolderHead& head) {
        head.designation = from_.text("holder");
        const HolderReading read = readHolderDesignation(head.designation);
        if (!read.designation) {
            from_.stop("setup-unknown-holder", "holder",
                       say("\"{}\" is not understood as a holder: {}.", head.designation, read.fault),
                       tr("Write a designation by ISO 5608 or 5609 such as \"PCLNR 2020 K12\" or \"S20S-SCLCR 09\", or "
                          "the sizes themselves: shank_mm, entering_angle_deg, head_width_mm."));
            return std::nullopt;
        }
        const HolderDesignation& d = *read.designation;
        if (d.bar != (tool_.kind == ToolKind::Boring)) {
            contradicts("holder", d.bar ? say("{} is a boring bar, the tool is of kind \"{}\".", head.designation,
                                              from_.text("kind"))
                                        : say("{} is a holder with a square shank, the tool is of kind \"{}\".",
                                              head.designation, from_.text("kind")));
            return std::nullopt;
        }
        takeShank(d, head);
        checkInsert(d);
        checkHand(d);
        return enteringAngle(d);
    }

    void takeShank(const HolderDesignation& d, HolderHead& head) {
        head.shankWidth = d.shankWidthMm;
        head.shankHeight = d.shankHeightMm;
        if (from_.says("shank_mm") && std::abs(tool_.shankSize - d.shankWidthMm) > kAlikeMm) {
            contradicts("shank_mm", say("shank_mm says {:g}, the holder {} has {:g} mm.", tool_.shankSize,
                                        head.designation, d.shankWidthMm));
        }
        tool_.shankSize = d.shankWidthMm;
        if (d.lengthMm > 0 && tool_.overhang >= d.lengthMm) {
            contradicts("overhang_mm", say("The tool stands out {:g} mm, but the whole holder {} is {:g} mm long.",
                                           tool_.overhang, head.designation, d.lengthMm));
        }
        const auto f = d.bar ? barHeadWidthMm(d.shankWidthMm) : holderHeadWidthMm(d.style.letter, d.shankWidthMm);
        if (f) head.headWidth = d.bar ? *f + d.shankWidthMm / 2 : *f;
    }

    void checkInsert(const HolderDesignation& d) {
        if (!from_.says("insert")) return;
        const std::string_view insert = from_.text("insert");
        if (d.insertShape != tool_.insertShape) {
            contradicts("holder", say("The holder takes inserts of shape {}, the insert is of shape {}.", d.insertShape,
                                      tool_.insertShape));
        } else if (std::abs(std::floor(tool_.edgeLength + 0.1) - d.insertSizeMm) > kEdgeSlackMm) {
            contradicts("holder", say("The holder takes inserts of size {:g}, the edge of the insert is {:.4g} "
                                      "mm long.",
                                      d.insertSizeMm, tool_.edgeLength));
        }
        const bool whole = insert.size() > 1 && readInsertDesignation(insert).has_value();
        if (!whole || std::toupper(static_cast<unsigned char>(insert[1])) == d.insertClearance) return;
        contradicts("holder", say("The holder takes inserts with the clearance {}, the insert {} has {}.",
                                  d.insertClearance, insert, insert[1]));
    }

    // With M03 a right-hand tool cuts towards the chuck, wherever it stands round the bar, right way up or upside down;
    // with M04 a left-hand one does (elementary: turned about the axis it stays what it is, mirrored it changes).
    void checkHand(const HolderDesignation& d) {
        const double side = tipFromNoseCentre(tool_.tipNumber).z;
        if (d.hand == 'N' || side == 0 || !from_.says("needs")) return;
        const bool towardsChuck = side < 0;
        const bool right = towardsChuck == (tool_.needs == SpindleDirection::Forward);
        if (right == (d.hand == 'R')) return;
        contradicts(
            from_.says("tip_number") ? "tip_number" : "holder",
            towardsChuck
                ? say("A tool of hand {} that needs {} cuts away from the chuck, tip {} lies on the other side.",
                      d.hand, from_.text("needs"), tool_.tipNumber)
                : say("A tool of hand {} that needs {} cuts towards the chuck, tip {} lies on the other side.", d.hand,
                      from_.text("needs"), tool_.tipNumber));
    }

    // An outside holder stands across the axis: the feed of an edge at its end runs along X there, and along Z the edge
    // stands at 90° + angle - corner.
    double enteringAngle(const HolderDesignation& d) {
        double angle = d.style.angleDeg;
        if (!d.bar && d.style.endCutting) angle += 90 - degrees(tool_.insertAngle);
        if (from_.says("entering_angle_deg") && std::abs(from_.number("entering_angle_deg") - angle) > kAngleSlackDeg) {
            contradicts("entering_angle_deg", say("entering_angle_deg says {:g}, the style {} of the holder {:g}.",
                                                  from_.number("entering_angle_deg"), d.style.letter, angle));
        }
        return angle;
    }

    void checkHead(HolderHead& head) {
        const double least = head.shankWidth / 2;
        if (head.headWidth > 0 && head.headWidth < least - kAlikeMm) {
            from_.stop("setup-holder-contradiction", "head_width_mm",
                       say("From the tip to the far side of the shank it is {:g} mm, less than half the shank "
                           "({:g} mm).",
                           head.headWidth, head.shankWidth),
                       tr("Measure across the tool, from the tip to the far side of the shank."));
            head.headWidth = 0;
        }
        if (head.headLength <= tool_.overhang) return;
        from_.stop(
            "setup-holder-contradiction", "head_length_mm",
            say("The head is {:g} mm long, but the tool stands out {:g} mm only.", head.headLength, tool_.overhang),
            tr("Measure from the tip to where the plain shank begins; it must lie outside the block."));
        head.headLength = 0;
    }

    const ToolTable& from_;
    Tool& tool_;
};

}  // namespace

std::optional<double> readHolder(const ToolTable& from, Tool& tool) {
    return HolderOfInsert(from, tool).run();
}

}  // namespace firstoff
