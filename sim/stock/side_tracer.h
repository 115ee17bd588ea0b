// Follows one side of the metal along z, from column to column, and keeps only the points that matter.
//
// Notation. From the last point kept, the anchor A, every point P_i since allows the slopes s with |A.r + s (P_i.z -
// A.z) - P_i.r| <= tolerance. These spans of slopes are intersected as the points come (the funnel). As long as the
// slope to the newest point lies in the intersection of all before, one edge from A to it is within tolerance of
// everything between; when it does not, the point before becomes the new anchor. One division per point; every point
// kept is a column's own.
//
// Faces. A jump between two columns that stands alone - much larger than the jumps before and after it - is a face
// square to the axis, and is drawn upright on the border between the two. Steep tapers jump evenly and are left to the
// funnel.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "sim/base/point.h"
#include "sim/stock/billet.h"

namespace firstoff {

enum class Side : std::uint8_t { Inner, Outer };

class SideTracer {
public:
    SideTracer(Side side, double toleranceMm, double pitch, std::span<const std::uint16_t> toolOfCut)
        : side_(side), tolerance_(toleranceMm), pitch_(pitch), toolOfCut_(toolOfCut) {}

    // Next column, from left to right. The side starts half a pitch before the first and ends half a pitch behind the
    // last.
    void add(double z, double r, CutId cut);
    void finish();

    Side side() const { return side_; }
    // After finish(): points from left to right, and the cut of the edge behind each but the last.
    const std::vector<Point>& points() const { return points_; }
    const std::vector<CutId>& cuts() const { return cuts_; }
    // Radius at the first and the last column.
    double firstR() const { return first_.r; }
    double lastR() const { return last_.r; }
    // Moves an end on its border; for sides that would cross there.
    void moveStart(double r) { points_.front().r = r; }
    void moveEnd(double r) { points_.back().r = r; }

private:
    struct Spot {
        double z = 0, r = 0;
        CutId cut = kUncut;
    };
    double goingOn(double change, double changeBefore) const;
    void start(double change, double changeAfter);
    void settle(double changeAfter);
    void push(const Spot& spot);
    void keep(Point point, CutId edgeCut);
    void keepEnd(Point end, CutId cut);
    void sharpen(Point next);
    std::uint16_t toolOf(CutId cut) const;

    Side side_;
    double tolerance_;
    double pitch_;
    std::span<const std::uint16_t> toolOfCut_;

    Spot first_, last_;
    Spot before_, here_;  // `before_` is in the funnel, `here_` not yet
    double change1_ = 0;  // of r, from the column before `before_` to it
    double change2_ = 0;  // and the change before that
    int seen_ = 0;

    Point anchor_;
    Spot newest_;
    CutId edgeCut_ = kUncut;
    std::uint16_t tool_ = 0;
    double slopeMin_ = 0, slopeMax_ = 0;
    bool funnelEmpty_ = true;

    std::vector<Point> points_;
    std::vector<CutId> cuts_;
};

}  // namespace firstoff
