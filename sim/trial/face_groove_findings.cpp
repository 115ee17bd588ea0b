// Grooves in a face. The blade stands in a ring, and its sides are bent, or drawn back, for rings of some diameters: in
// a smaller one its outer side meets the outer wall, in a larger one its inner side meets the inner wall. Only the
// first plunge into the full metal counts: the next ones widen the groove from inside.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/trial/flank_clearance.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr int kMostLookedAt = 100;  // plunges; each takes a seek
constexpr double kBesideMm = 0.05;  // how far beside the blade a wall is looked for
constexpr double kRubsMm = 0.01;    // what a clearance angle of a tenth of a degree accounts for

struct Ring {
    double inner = 0, outer = 0;  // radii of both walls
};

bool hasLimits(const Tool& tool) {
    return tool.faceGrooveMinRadius > 0 || tool.faceGrooveMaxRadius > 0;
}
bool hasFlank(const Tool& tool) {
    return tool.flankHeight > 0 && tool.clearanceAngle > 0 && tool.faceGrooveMinRadius <= 0;
}

class FaceGrooves {
public:
    explicit FaceGrooves(const Machining& m) : m_(m) {}

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < m_.timeline.moves.size() && lookedAt_ < kMostLookedAt; ++i) look(i);
        return std::move(findings_);
    }

private:
    void look(std::size_t i) {
        const Tool* tool = toolAt(m_, i);
        if (tool == nullptr || !tool->face || !isAtFeed(m_.timeline.moves[i].kind) || !takesMetal(m_, i)) return;
        const std::uint32_t call = moveAt(m_, i).call;
        if (call != call_) opened_.clear();
        call_ = call;
        const Box box = boundingBox(tool->cutting);
        const Point from = tipFrom(m_, i), to = tipTo(m_, i);
        const Ring ring{std::min(from.r, to.r) + box.rMin, std::max(from.r, to.r) + box.rMax};
        const bool first = std::none_of(opened_.begin(), opened_.end(), [&](const Ring& open) {
            return ring.inner <= open.outer + kBesideMm && open.inner <= ring.outer + kBesideMm;
        });
        opened_.push_back(ring);
        if (!first || !mostlyAlongZ(to - from) || ring.inner <= 0) return;
        if (hasLimits(*tool) || hasFlank(*tool)) judge(i, *tool, ring);
    }

    void judge(std::size_t i, const Tool& tool, const Ring& ring) {
        const bool small = tool.faceGrooveMinRadius > 0 && ring.outer < tool.faceGrooveMinRadius - tolerance::kTouchMm;
        const bool large = tool.faceGrooveMaxRadius > 0 && ring.outer > tool.faceGrooveMaxRadius + tolerance::kTouchMm;
        const double height = heightAgainstTheMetal(tool);
        const double into = hasFlank(tool) && ring.outer > std::abs(height)
                                ? flankIntoWallMm(ring.outer, height, tool.clearanceAngle, tool.flankHeight)
                                : 0;
        if (!small && !large && into <= kRubsMm) return;
        // Just above the bottom of the plunge.
        const double front = tipFromNoseCentre(tool.tipNumber).z;
        const double z = tipTo(m_, i).z - kBesideMm * front;
        ++lookedAt_;
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(i), 0);
        if (small && hasMetal(z, ring.outer + kBesideMm)) sayLimit(i, ring, tool.faceGrooveMinRadius);
        if (large && hasMetal(z, ring.inner - kBesideMm)) sayLimit(i, ring, tool.faceGrooveMaxRadius);
        if (into > kRubsMm && hasMetal(z, ring.outer + kBesideMm)) sayFlank(i, tool, ring, into);
    }

    bool hasMetal(double z, double r) const {
        const Billet& billet = cursor_->billet();
        const Grid& grid = billet.grid();
        if (r <= 0 || z < grid.border(0) || z > grid.border(grid.columns)) return false;
        std::vector<Interval> solids;
        billet.intervals(std::clamp(grid.columnNear(z), 0, grid.columns - 1), solids);
        return std::any_of(solids.begin(), solids.end(), [r](const Interval& s) { return r > s.inner && r < s.outer; });
    }

    void sayLimit(std::size_t i, const Ring& ring, double limit) {
        const bool small = ring.outer < limit;
        Finding finding = findingAt(m_, i, Severity::Stop, "face-groove-diameter");
        finding.message = small ? say("Tool {} starts a groove of {:.3f} mm outside into the full face; its blade is "
                                      "made for a first cut of {:g} mm at least, and the outer wall meets its side.",
                                      toolWord(m_, i), 2 * ring.outer, 2 * limit)
                                : say("Tool {} starts a groove of {:.3f} mm outside into the full face; its blade is "
                                      "made for a first cut of {:g} mm at most, and the inner wall meets its side.",
                                      toolWord(m_, i), 2 * ring.outer, 2 * limit);
        finding.remedy =
            small ? tr("Start further out and widen the groove inwards, or take a blade for smaller diameters.")
                  : tr("Start further in and widen the groove outwards, or take a blade for larger diameters.");
        finding.values = {{"outer_diameter_mm", 2 * ring.outer}, {"limit_mm", 2 * limit}};
        findings_.push_back(std::move(finding));
    }

    void sayFlank(std::size_t i, const Tool& tool, const Ring& ring, double into) {
        Finding finding = findingAt(m_, i, Severity::Warning, "blade-rubs-groove-wall");
        finding.message =
            say("The blade of tool {} stands {:.3f} mm in the outer wall of the groove of {:.3f} mm: {:g} mm below the "
                "edge, at a clearance of {:g} degrees, it clears walls from {:.3f} mm.",
                toolWord(m_, i), into, 2 * ring.outer, tool.flankHeight, degrees(tool.clearanceAngle),
                2 * smallestClearedRadiusMm(tool.clearanceAngle, tool.flankHeight));
        finding.remedy = tr("Take a blade bent for this diameter, or one that is less high.");
        finding.values = {{"into_mm", into}, {"outer_diameter_mm", 2 * ring.outer}};
        findings_.push_back(std::move(finding));
    }

    const Machining& m_;
    std::optional<StockCursor> cursor_;
    std::vector<Ring> opened_;  // by the tool call in hand
    std::uint32_t call_ = 0xffffffffu;
    std::vector<Finding> findings_;
    int lookedAt_ = 0;
};

}  // namespace

std::vector<Finding> faceGrooveFindings(const Machining& machining) {
    return FaceGrooves(machining).find();
}

}  // namespace firstoff
