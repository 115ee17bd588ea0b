// Bars in bores that are too small for them: by the smallest bore their maker states, else by the flank under the edge.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/trial/flank_clearance.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr int kLooks = 200;        // places along the bar
constexpr int kMostLookedAt = 50;  // moves of one tool call
constexpr double kBehindTheNoseMm = 0.2;
constexpr double kDeeperMm = 1;   // that go this much further in than the one before
constexpr double kRubsMm = 0.01;  // what a clearance angle of a tenth of a degree accounts for

bool pointsOutwards(const Tool& tool) {
    return tipFromNoseCentre(tool.tipNumber).r > 0;
}

class Bores {
public:
    explicit Bores(const Machining& m) : m_(m) {}

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < m_.timeline.moves.size(); ++i) {
            const Tool* tool = toolAt(m_, i);
            if (tool == nullptr || tool->face || !pointsOutwards(*tool)) continue;
            if (tool->minBoreRadius > 0) {
                lookForSmallBore(i, *tool);
            } else if (tool->kind == ToolKind::Boring && tool->flankHeight > 0 && tool->clearanceAngle > 0) {
                noteWall(i);
            }
        }
        for (const auto& [call, wall] : walls_) checkFlank(wall);
        return std::move(findings_);
    }

private:
    struct Entered {
        double deepest = 1e9;
        int looks = 0;
        bool told = false;
    };
    struct Wall {
        std::size_t timed = 0;
        double radius = 0;
    };

    // Where the bore is narrowest from the tip to the front, after the move.
    void lookForSmallBore(std::size_t i, const Tool& tool) {
        const MoveKind kind = m_.timeline.moves[i].kind;
        if (kind == MoveKind::Index || kind == MoveKind::Dwell) return;
        const Point from = tipFrom(m_, i), to = tipTo(m_, i);
        double deep = std::min(from.z, to.z);
        // Wherever the tip has been the bore is at least as large.
        const bool mayBe = deep < m_.setup.stock.frontZ && std::min(from.r, to.r) < tool.minBoreRadius;
        Entered& entered = entered_[moveAt(m_, i).call];
        if (!mayBe || entered.told || entered.looks >= kMostLookedAt || deep > entered.deepest - kDeeperMm) return;
        entered.deepest = deep;
        ++entered.looks;
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(i + 1), 0);
        double narrowest = tool.minBoreRadius;
        // At the tip itself the nose has only begun to open the bore.
        deep += tool.noseRadius + kBehindTheNoseMm;
        for (int look = 0; look <= kLooks; ++look) {
            const Interval metal = cursor_->outermostAt(deep + (m_.setup.stock.frontZ - deep) * look / kLooks);
            // What lies within the tip's own radius is no wall of this bore.
            if (metal.inner > 0) narrowest = std::min(narrowest, metal.inner);
        }
        if (narrowest > tool.minBoreRadius - tolerance::kTouchMm) return;
        entered.told = true;
        Finding finding = findingAt(m_, i, Severity::Stop, "bore-too-small-for-bar");
        finding.message = say("Tool {} goes into a bore of {:.3f} mm; its bar needs {:g} mm at least.", toolWord(m_, i),
                              2 * narrowest, 2 * tool.minBoreRadius);
        finding.remedy = tr("Drill larger first, or take a slimmer bar.");
        finding.values = {{"bore_mm", 2 * narrowest}, {"min_bore_mm", 2 * tool.minBoreRadius}};
        findings_.push_back(std::move(finding));
    }

    // The narrowest wall that a tool call turns along Z.
    void noteWall(std::size_t i) {
        if (!isAtFeed(m_.timeline.moves[i].kind) || !takesMetal(m_, i)) return;
        const Point from = tipFrom(m_, i), to = tipTo(m_, i);
        if (!mostlyAlongZ(to - from)) return;
        const Wall wall{i, std::min(from.r, to.r)};
        if (wall.radius <= tolerance::kTouchMm) return;
        const auto [known, added] = walls_.try_emplace(moveAt(m_, i).call, wall);
        if (!added && wall.radius < known->second.radius) known->second = wall;
    }

    void checkFlank(const Wall& wall) {
        const Tool& tool = *toolAt(m_, wall.timed);
        const double height = heightAgainstTheMetal(tool);
        if (wall.radius <= std::abs(height)) return;
        const double into = flankIntoWallMm(wall.radius, height, tool.clearanceAngle, tool.flankHeight);
        if (into <= kRubsMm) return;
        const bool certain = tool.clearanceMeasured;
        Finding finding = findingAt(m_, wall.timed, certain ? Severity::Warning : Severity::Note, "flank-rubs-in-bore");
        const std::string who = toolWord(m_, wall.timed);
        const double bore = 2 * wall.radius, clearance = degrees(tool.clearanceAngle);
        const double cleared = 2 * smallestClearedRadiusMm(tool.clearanceAngle, tool.flankHeight);
        finding.message =
            certain ? say("In the bore of {:.3f} mm the flank under the edge of tool {} stands {:.3f} mm in the wall: "
                          "{:g} mm below the edge, at a clearance of {:g} degrees, it clears bores from {:.3f} mm.",
                          bore, who, into, tool.flankHeight, clearance, cleared)
                    : say("In the bore of {:.3f} mm the flank under the edge of tool {} stands {:.3f} mm in the wall: "
                          "{:g} mm below the edge, at a clearance of {:g} degrees, it clears bores from {:.3f} mm, "
                          "unless its bar tilts the insert.",
                          bore, who, into, tool.flankHeight, clearance, cleared);
        finding.remedy =
            certain ? tr("Take a thinner insert or one with a larger clearance angle, or a bar for smaller bores.")
                    : tr("Give min_bore_mm of the bar, or clearance_angle_deg as the insert is mounted.");
        finding.values = {{"into_mm", into}, {"bore_mm", 2 * wall.radius}};
        findings_.push_back(std::move(finding));
    }

    const Machining& m_;
    std::optional<StockCursor> cursor_;
    std::map<std::uint32_t, Entered> entered_;  // by tool call
    std::map<std::uint32_t, Wall> walls_;       // by tool call
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> boreFindings(const Machining& machining) {
    return Bores(machining).find();
}

}  // namespace firstoff
