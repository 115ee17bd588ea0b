// Cut-offs that stop short: the piece in front of the groove hangs on the neck that is left of a bar, or on the thin
// wall that is left of a tube.
//
//        r ^   __________     ______      The groove is looked at where the least metal is left under the blade. As
//        long
//          |             |   |            as it is thinner than a shaft would be made, it is a neck: no wider than 4 mm
//          |    held     |___|  piece     (a wall: 1 mm), and a quarter of the metal on either side of it (common
//          |- - - - - - - - - - - - ->    practice of what is broken off by hand, no source).
//                       length      z
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr double kWidestNeckMm = 4;
constexpr double kThickestWallMm = 1;
constexpr double kShareOfTheMetal = 0.25;
constexpr double kBesideMm = 2;   // how far beside the groove the metal is looked at
constexpr int kMostGrooves = 50;  // of one section; each takes a look at a thousand columns or two

// The deepest plunge of a groove.
struct Groove {
    std::size_t timed = 0;
    double z = 0, r = 0;  // of the tip
};

struct Neck {
    Groove groove;
    std::size_t after = 0;  // timed move at which the tool has left
    bool tube = false;
    double sizeMm = 0;  // diameter, or thickness of the wall
    double outer = 0;   // radius
    double z = 0;
    double zFrom = 0, zTo = 0;  // as far as it is a neck
};

class PartingOff {
public:
    explicit PartingOff(const Machining& m) : m_(m) {}

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < m_.timeline.moves.size(); ++i) {
            const Tool* tool = toolAt(m_, i);
            if (tool != tool_) leave(i);
            tool_ = tool;
            note(i);
        }
        leave(m_.timeline.moves.size());
        return report();
    }

private:
    void note(std::size_t i) {
        if (tool_ == nullptr || tool_->kind != ToolKind::Parting || tool_->face) return;
        if (!isAtFeed(m_.timeline.moves[i].kind) || !takesMetal(m_, i)) return;
        const Point from = tipFrom(m_, i), to = tipTo(m_, i);
        if (mostlyAlongZ(to - from)) return;
        const Groove groove{i, to.z, std::min(from.r, to.r)};
        const auto same = std::find_if(grooves_.begin(), grooves_.end(), [&](const Groove& known) {
            return std::abs(known.z - groove.z) < tool_->width;
        });
        if (same == grooves_.end()) {
            if (grooves_.size() < kMostGrooves) grooves_.push_back(groove);
        } else if (groove.r < same->r) {
            *same = groove;
        }
    }

    // The tool has done all it does before move `i`.
    void leave(std::size_t i) {
        if (!grooves_.empty()) {
            StockCursor& cursor = at(i);
            for (const Groove& groove : grooves_) {
                const auto neck = neckOf(groove, cursor.billet(), i);
                if (!neck) continue;
                std::erase_if(necks_, [&](const Neck& n) { return std::abs(n.z - neck->z) < tool_->width; });
                necks_.push_back(*neck);
            }
        }
        grooves_.clear();
    }

    StockCursor& at(std::size_t moves) {
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(moves), 0);
        return *cursor_;
    }

    // Of the stretch that a blade from outside leaves: a ring beside a groove in the face hangs on its own wall.
    static double thickness(const std::vector<Interval>& solids) {
        return solids.empty() ? 0 : solids.back().outer - solids.back().inner;
    }

    // How thick the metal is at most in some columns; 0 where there is none.
    static double thickest(const Billet& billet, int from, int to) {
        std::vector<Interval> solids;
        double most = 0;
        for (int c = std::max(0, from); c <= std::min(to, billet.grid().columns - 1); ++c) {
            billet.intervals(c, solids);
            most = std::max(most, thickness(solids));
        }
        return most;
    }

    // Nothing where the groove goes through, where what is under the blade does not run on from one side of the groove
    // to the other, or where it is too shallow to be meant for a cut-off.
    std::optional<Neck> neckOf(const Groove& groove, const Billet& billet, std::size_t after) const {
        const Grid& grid = billet.grid();
        const Box blade = boundingBox(tool_->cutting);
        const int first = std::max(grid.columnNear(groove.z + blade.zMin) + 1, 0);
        const int last = std::min(grid.columnNear(groove.z + blade.zMax) - 1, grid.columns - 1);
        std::vector<Interval> solids, least;
        Interval before;
        int thinnest = -1;
        for (int c = first; c <= last; ++c) {
            billet.intervals(c, solids);
            if (solids.empty() || (c > first && !holds(before, solids.back()))) return std::nullopt;
            before = solids.back();
            if (thinnest >= 0 && thickness(solids) >= thickness(least)) continue;
            thinnest = c;
            least = solids;
        }
        if (thinnest < 0) return std::nullopt;
        const int beside = static_cast<int>(kBesideMm / grid.pitch);
        const double behind = thickest(billet, first - beside, first - 2);
        const double front = thickest(billet, last + 2, last + beside);
        Neck neck{groove, after, least.back().inner > 0, thickness(least), least.back().outer, grid.z(thinnest)};
        const double limit = neck.tube ? kThickestWallMm : kWidestNeckMm / 2;
        if (neck.sizeMm > std::min(limit, kShareOfTheMetal * std::min(behind, front))) return std::nullopt;
        const auto isNeck = [&](int c) {
            billet.intervals(c, solids);
            return !solids.empty() && thickness(solids) <= limit;
        };
        int from = thinnest, to = thinnest;
        while (from > 0 && isNeck(from - 1)) --from;
        while (to + 1 < grid.columns && isNeck(to + 1)) ++to;
        neck.zFrom = grid.border(from);
        neck.zTo = grid.border(to + 1);
        if (!neck.tube) neck.sizeMm *= 2;
        return neck;
    }

    static bool reaches(const std::vector<Loop>& section, double z) {
        double least = 1e9, most = -1e9;
        for (const Loop& loop : section) {
            for (Point p : loop.points) least = std::min(least, p.z), most = std::max(most, p.z);
        }
        return z > least && z < most;
    }

    // Both what is in front of the neck and the neck itself are still one with what is behind, held or fallen.
    bool isLeft(const Neck& neck, const StockCursor& end) const {
        const double front = neck.zTo + tolerance::kTouchMm;
        if (end.outermostAt(neck.z).outer > 0) return end.outermostAt(front).outer > 0;
        const auto& all = m_.stock->severances();
        return std::any_of(all.begin(), all.end(), [&](const Severance& fall) {
            return fall.timedMove >= neck.after && reaches(fall.section, neck.z) && reaches(fall.section, front) &&
                   reaches(fall.section, neck.zFrom - tolerance::kTouchMm);
        });
    }

    std::vector<Finding> report() {
        std::vector<Finding> findings;
        if (necks_.empty()) return findings;
        const StockCursor& end = at(m_.timeline.moves.size());
        for (const Neck& neck : necks_) {
            if (isLeft(neck, end)) findings.push_back(describe(neck));
        }
        return findings;
    }

    Finding describe(const Neck& neck) const {
        Finding finding = findingAt(m_, neck.groove.timed, Severity::Warning, "piece-hangs-on-neck");
        finding.place = Point{neck.z, neck.outer};
        const double length = neck.zTo - neck.zFrom;
        finding.message = neck.tube ? say("Tool {} does not part the piece off: it hangs on a wall of {:.3f} mm, "
                                          "{:.3f} mm long, and may break off, bend away or be thrown.",
                                          toolWord(m_, neck.groove.timed), neck.sizeMm, length)
                                    : say("Tool {} does not part the piece off: it hangs on a neck with a diameter of "
                                          "{:.3f} mm, {:.3f} mm long, and may break off, bend away or be thrown.",
                                          toolWord(m_, neck.groove.timed), neck.sizeMm, length);
        finding.remedy =
            tr("Part deeper, to X0 and past it by what the front slants and the edge is off centre; or take the "
               "piece off by hand with the spindle stopped.");
        finding.values = {{neck.tube ? "wall_mm" : "diameter_mm", neck.sizeMm}, {"length_mm", length}};
        if (neck.tube)
            finding.remedy = tr("Part deeper, into the bore; or take the piece off by hand with the spindle stopped.");
        return finding;
    }

    const Machining& m_;
    std::optional<StockCursor> cursor_;
    const Tool* tool_ = nullptr;   // in the working place
    std::vector<Groove> grooves_;  // that it has cut
    std::vector<Neck> necks_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> partingFindings(const Machining& machining) {
    return PartingOff(machining).find();
}

}  // namespace firstoff
