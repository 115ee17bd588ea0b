// Cuts over corners. Where the bar is not round the edge is in metal over a part of each revolution only, and struck
// every time it comes in again.
//
// Notation. Between two instants a sector loses l of its metal at one z. A tool fed along Z stands at all radii of the
// cut at once: it is in the air where l = 0. One fed along X stands at one radius after another: where l differs from
// sector to sector the outer (in a bore the inner) part of its way is over corners.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr int kMostLookedAt = 10;  // moves of a tool call; each takes two seeks
// Corners lower than this are what a bar runs out by.
constexpr double kCornerMm = 0.1;
// Thickness of what a leaning edge leaves at a shoulder, as for torn wedges.
constexpr double kWedgeMm = 0.25;

// Radii between which there is metal all round, but for what is gone between.
struct AllRound {
    double inner = 0, outer = 1e9;
};

// What is round the axis at one z.
struct Ring {
    std::vector<double> metal;  // by sector, radially
    double areaMm2 = 0;
    AllRound allRound;
};

Ring ringAt(const Billet& billet, int column) {
    Ring ring;
    std::vector<Interval> solids;
    for (int sector = 0; sector < billet.sectors(); ++sector) {
        billet.intervals(column, solids, sector);
        double sum = 0;
        for (const Interval& solid : solids) {
            sum += solid.outer - solid.inner;
            ring.areaMm2 += kPi * (solid.outer * solid.outer - solid.inner * solid.inner) / billet.sectors();
        }
        ring.metal.push_back(sum);
        ring.allRound.outer = std::min(ring.allRound.outer, solids.empty() ? 0 : solids.back().outer);
        ring.allRound.inner = std::max(ring.allRound.inner, solids.empty() ? 1e9 : solids.front().inner);
    }
    return ring;
}

struct Interruption {
    int times = 0;           // a revolution
    double share = 0;        // of the revolution, in metal
    bool halfWayUp = false;  // counted there
    double cornerMm = 0;     // difference between the sectors, radially
};

// Comings-in of the edge, where a sector counts as metal if it loses more than `limit`.
Interruption countAbove(const std::vector<double>& lost, double limit) {
    Interruption result;
    std::size_t in = 0;
    for (std::size_t s = 0; s < lost.size(); ++s) {
        const bool before = lost[(s + lost.size() - 1) % lost.size()] > limit;
        if (lost[s] <= limit) continue;
        ++in;
        if (!before) ++result.times;
    }
    result.share = static_cast<double>(in) / static_cast<double>(lost.size());
    return result;
}

class InterruptedCuts {
public:
    explicit InterruptedCuts(const Machining& m) : m_(m) {}

    std::vector<Finding> find() {
        if (m_.setup.stock.isRound()) return {};
        for (std::size_t i = 0; i < m_.timeline.moves.size(); ++i) look(i);
        return std::move(findings_);
    }

private:
    struct Call {
        int looks = 0;
        bool told = false;
    };

    void look(std::size_t i) {
        const MoveKind kind = m_.timeline.moves[i].kind;
        if (toolAt(m_, i) == nullptr || !isAtFeed(kind) || kind == MoveKind::Thread || !takesMetal(m_, i)) return;
        Call& call = calls_[moveAt(m_, i).call];
        if (call.told || call.looks >= kMostLookedAt || !reachesCorners(i)) return;
        ++call.looks;
        const auto interruption = interruptionOf(i);
        if (!interruption) return;
        call.told = true;
        report(i, *interruption);
    }

    StockCursor& at(std::size_t moves) {
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(moves), 0);
        return *cursor_;
    }

    static int columnOf(double z, const Grid& grid) { return std::clamp(grid.columnNear(z), 0, grid.columns - 1); }

    // Whether the cut can go beyond what is metal all round, by the blank and without a look at the billet.
    bool reachesCorners(std::size_t i) {
        const Cut& cut = m_.stock->cuts()[i];
        const double depth = cut.deepestMm;
        const AllRound& blank = blankAt(cut.atZ);
        const double least = std::min(tipFrom(m_, i).r, tipTo(m_, i).r);
        const double most = std::max(tipFrom(m_, i).r, tipTo(m_, i).r);
        return most + depth > blank.outer + tolerance::kTouchMm || least - depth < blank.inner - tolerance::kTouchMm;
    }

    // One look at the blank for every 64 columns.
    const AllRound& blankAt(double z) {
        if (!start_) start_.emplace(m_.stock);
        const Billet& billet = start_->billet();
        const int column = columnOf(z, billet.grid());
        const auto [known, added] = blank_.try_emplace(column / kChunkColumns);
        if (added) known->second = ringAt(billet, column).allRound;
        return known->second;
    }

    std::optional<Interruption> interruptionOf(std::size_t i) {
        const int column = columnOf(m_.stock->cuts()[i].atZ, at(i).billet().grid());
        const Billet& before = cursor_->billet();
        if (before.isRound(column / kChunkColumns)) return std::nullopt;
        const Ring was = ringAt(before, column);
        const Ring is = ringAt(at(i + 1).billet(), column);
        std::vector<double> lost = was.metal;
        for (std::size_t s = 0; s < lost.size(); ++s) lost[s] -= is.metal[s];
        const auto [least, most] = std::minmax_element(lost.begin(), lost.end());
        const double corner = *most - *least;
        if (corner < kCornerMm) return std::nullopt;
        const bool alongZ = mostlyAlongZ(tipTo(m_, i) - tipFrom(m_, i));
        if (alongZ && *least > tolerance::kTouchMm) return std::nullopt;
        const bool thin = m_.stock->cuts()[i].removedMm3 < kWedgeMm * (was.areaMm2 - is.areaMm2);
        if (!alongZ && thin) return std::nullopt;
        Interruption result = countAbove(lost, alongZ ? tolerance::kTouchMm : *least + corner / 2);
        result.cornerMm = corner;
        result.halfWayUp = !alongZ;
        return result.times > 0 ? std::optional(result) : std::nullopt;
    }

    static std::string inWords(const std::string& tool, const Interruption& cut) {
        const double percent = 100 * cut.share;
        if (cut.times == 1 && cut.halfWayUp) {
            return say(
                "Tool {} cuts over corners {:.3f} mm high: its edge comes into the metal 1 time a revolution and, half "
                "way up them, is in it over {:.0f} % of the way round.",
                tool, cut.cornerMm, percent);
        }
        if (cut.times == 1) {
            return say(
                "Tool {} cuts over corners {:.3f} mm high: its edge comes into the metal 1 time a revolution and is in "
                "it over {:.0f} % of the way round.",
                tool, cut.cornerMm, percent);
        }
        if (cut.halfWayUp) {
            return say(
                "Tool {} cuts over corners {:.3f} mm high: its edge comes into the metal {} times a revolution and, "
                "half way up them, is in it over {:.0f} % of the way round.",
                tool, cut.cornerMm, cut.times, percent);
        }
        return say(
            "Tool {} cuts over corners {:.3f} mm high: its edge comes into the metal {} times a revolution and is in "
            "it over {:.0f} % of the way round.",
            tool, cut.cornerMm, cut.times, percent);
    }

    void report(std::size_t i, const Interruption& cut) {
        Finding finding = findingAt(m_, i, Severity::Note, "interrupted-cut");
        finding.message = inWords(toolWord(m_, i), cut);
        finding.remedy = tr(
            "Turn slower than a round bar, with a tough grade and a strong edge, and grip firmly, as is usual for such "
            "cuts.");
        finding.values = {
            {"corner_mm", cut.cornerMm}, {"times_per_rev", static_cast<double>(cut.times)}, {"in_metal", cut.share}};
        findings_.push_back(std::move(finding));
    }

    const Machining& m_;
    std::optional<StockCursor> cursor_, start_;
    std::map<int, AllRound> blank_;  // by chunk
    std::map<std::uint32_t, Call> calls_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> interruptedCutFindings(const Machining& machining) {
    return InterruptedCuts(machining).find();
}

}  // namespace firstoff
