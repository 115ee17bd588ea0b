// Pieces that come loose beside metal that stays: a ring trepanned off an end, round the core it was cut from or within
// a wall, and the core of a ring that stays. They have nowhere to fall to. Notes, since both may be meant.
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/stock/billet_columns.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr int kLooks = 200;  // places along a piece

struct Sizes {
    double zFrom = 1e9, zTo = -1e9;
    double inner = 1e9, outer = 0;  // radii
};

Sizes sizesOf(const Severance& fall) {
    Sizes sizes;
    for (const Loop& loop : fall.section) {
        for (Point p : loop.points) {
            sizes.zFrom = std::min(sizes.zFrom, p.z);
            sizes.zTo = std::max(sizes.zTo, p.z);
            sizes.inner = std::min(sizes.inner, p.r);
            sizes.outer = std::max(sizes.outer, p.r);
        }
    }
    return sizes;
}

// Least and greatest radius of a piece at z; nothing where it has no metal.
std::optional<Interval> pieceAt(const Severance& fall, double z) {
    std::optional<Interval> solid;
    for (const Loop& loop : fall.section) {
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const Point a = loop.points[i];
            const Point b = loop.points[(i + 1) % loop.points.size()];
            if ((a.z <= z) == (b.z <= z)) continue;
            const double r = a.r + (b.r - a.r) * (z - a.z) / (b.z - a.z);
            if (!solid) solid = Interval{r, r};
            solid->inner = std::min(solid->inner, r);
            solid->outer = std::max(solid->outer, r);
        }
    }
    return solid;
}

struct Beside {
    bool within = false, around = false;  // metal that stays
};

Beside staysBeside(const Severance& fall, const Sizes& sizes, const Billet& billet) {
    const Grid& grid = billet.grid();
    Beside beside;
    std::vector<Interval> solids;
    for (int look = 1; look < kLooks; ++look) {
        const double z = sizes.zFrom + (sizes.zTo - sizes.zFrom) * look / kLooks;
        const auto piece = pieceAt(fall, z);
        if (!piece) continue;
        billet.intervals(std::clamp(grid.columnNear(z), 0, grid.columns - 1), solids);
        for (const Interval& solid : solids) {
            if (solid.outer <= piece->inner + tolerance::kTouchMm) beside.within = true;
            if (solid.inner >= piece->outer - tolerance::kTouchMm) beside.around = true;
        }
    }
    return beside;
}

Finding ringFinding(const Machining& m, std::size_t i, const Sizes& sizes, const Beside& beside) {
    Finding finding = findingAt(m, i, Severity::Note, "ring-cut-free");
    const double width = sizes.zTo - sizes.zFrom;
    finding.message = beside.within
                          ? say("Tool {} cuts a ring free, {:.3f} mm outside, {:.3f} mm inside and {:.3f} mm wide; it "
                                "stays round the metal it was cut from. It is tried as if it were gone from here on.",
                                toolWord(m, i), 2 * sizes.outer, 2 * sizes.inner, width)
                          : say("Tool {} cuts a ring free, {:.3f} mm outside, {:.3f} mm inside and {:.3f} mm wide; it "
                                "stays within the wall it was cut from. It is tried as if it were gone from here on.",
                                toolWord(m, i), 2 * sizes.outer, 2 * sizes.inner, width);
    finding.remedy = tr("See that it can leave, or stop (M00) and take it off before the next tool comes.");
    finding.values = {
        {"outer_diameter_mm", 2 * sizes.outer}, {"inner_diameter_mm", 2 * sizes.inner}, {"width_mm", width}};
    return finding;
}

Finding coreFinding(const Machining& m, std::size_t i, const Sizes& sizes) {
    Finding finding = findingAt(m, i, Severity::Note, "core-cut-free");
    const double length = sizes.zTo - sizes.zFrom;
    finding.message =
        say("Tool {} cuts a core free, {:.3f} mm in diameter and {:.3f} mm long, within the wall it was cut from. It "
            "is tried as if it were gone from here on.",
            toolWord(m, i), 2 * sizes.outer, length);
    finding.remedy = tr("See that it can leave: it may jam against the blade.");
    finding.values = {{"diameter_mm", 2 * sizes.outer}, {"length_mm", length}};
    return finding;
}

}  // namespace

std::vector<Finding> looseRingFindings(const Machining& m) {
    std::vector<Finding> findings;
    std::optional<StockCursor> cursor;
    for (const Severance& fall : m.stock->severances()) {
        if (!cursor) cursor.emplace(m.stock);
        cursor->seek(fall.timedMove + 1, 0);
        const Sizes sizes = sizesOf(fall);
        const Beside beside = staysBeside(fall, sizes, cursor->billet());
        if (sizes.inner > tolerance::kTouchMm && (beside.within || beside.around)) {
            findings.push_back(ringFinding(m, fall.timedMove, sizes, beside));
        } else if (beside.around) {
            findings.push_back(coreFinding(m, fall.timedMove, sizes));
        }
    }
    return findings;
}

}  // namespace firstoff
