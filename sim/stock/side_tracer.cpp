#include "sim/stock/side_tracer.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

// A face's jump is at least this many times the jumps beside it. A nose radius runs into a face with jumps that grow by
// less than 2.5 from column to column; chamfers and tapers do not grow at all.
constexpr double kStandsAlone = 4;

// Slopes of a funnel that holds nothing yet lie further apart than this.
constexpr double kUnbound = std::numeric_limits<double>::infinity();

}  // namespace

std::uint16_t SideTracer::toolOf(CutId cut) const {
    return cut < toolOfCut_.size() ? toolOfCut_[cut] : std::uint16_t{0xffff};
}

void SideTracer::keep(Point point, CutId edgeCut) {
    if (!points_.empty()) {
        if (points_.back() == point) return;
        sharpen(point);
        cuts_.push_back(edgeCut);
    }
    points_.push_back(point);
}

// Two long edges with one between them that spans no more than from a column to the next: the long ones meet in a
// corner between those columns, and the short one goes. No column is any further from the side for it.
void SideTracer::sharpen(Point next) {
    if (points_.size() < 3) return;
    Point& b = points_[points_.size() - 2];
    const Point a = points_[points_.size() - 3];
    const Point c = points_.back();
    if (c.z - b.z > 1.5 * pitch_ || b.z - a.z < 3 * pitch_ || next.z - c.z < 3 * pitch_) return;
    const double slopeA = (b.r - a.r) / (b.z - a.z);
    const double slopeC = (next.r - c.r) / (next.z - c.z);
    if (slopeA == slopeC) return;
    const double z = (c.r - slopeC * c.z - b.r + slopeA * b.z) / (slopeA - slopeC);
    if (!(z >= b.z && z <= c.z)) return;
    b = {z, b.r + slopeA * (z - b.z)};
    points_.pop_back();
    cuts_.pop_back();
}

// Keeps the end of the side at a border, and the newest column only where the last edge cannot run on to the end.
void SideTracer::keepEnd(Point end, CutId cut) {
    const double slope = (end.r - anchor_.r) / (end.z - anchor_.z);
    if (slope < slopeMin_ || slope > slopeMax_) keep({newest_.z, newest_.r}, edgeCut_);
    keep(end, cut);
}

void SideTracer::push(const Spot& spot) {
    if (funnelEmpty_) {
        edgeCut_ = spot.cut;
        tool_ = toolOf(spot.cut);
        slopeMin_ = -std::numeric_limits<double>::infinity();
        slopeMax_ = std::numeric_limits<double>::infinity();
        funnelEmpty_ = false;
    } else if (spot.cut != newest_.cut && toolOf(spot.cut) != tool_) {
        const Point border{spot.z - pitch_ / 2, (newest_.r + spot.r) / 2};
        keep(border, edgeCut_);
        anchor_ = border;
        funnelEmpty_ = true;
        push(spot);
        return;
    }
    const double dz = spot.z - anchor_.z;
    const double slope = (spot.r - anchor_.r) / dz;
    // The axis is exact: a side that lies on it does not lean off it within the tolerance, which would draw a needle of
    // a hole down the length of a bar.
    const bool leavesAxis = (spot.r == 0) != (newest_.r == 0) && slopeMax_ - slopeMin_ < kUnbound;
    if (leavesAxis || slope < slopeMin_ || slope > slopeMax_) {
        anchor_ = {newest_.z, newest_.r};
        keep(anchor_, edgeCut_);
        funnelEmpty_ = true;
        push(spot);
        return;
    }
    const double room = tolerance_ / dz;
    slopeMin_ = std::max(slopeMin_, slope - room);
    slopeMax_ = std::min(slopeMax_, slope + room);
    newest_ = spot;
}

// How far a side goes on over the half pitch to a border, after two changes of r: the smaller of the two, nothing where
// they disagree about the direction. No steeper than 45°: a steep flank may just as well have ended before the border.
double SideTracer::goingOn(double change, double changeBefore) const {
    if (change * changeBefore <= 0) return 0;
    const double smaller = std::abs(change) < std::abs(changeBefore) ? change : changeBefore;
    return 0.5 * std::clamp(smaller, -pitch_, pitch_);
}

void SideTracer::start(double change, double changeAfter) {
    anchor_ = {first_.z - pitch_ / 2, std::max(0.0, first_.r - goingOn(change, changeAfter))};
    keep(anchor_, first_.cut);
    push(first_);
    before_ = first_;
}

// The change from `before_` to `here_` is known with the changes on both sides of it: a face, or one more point.
void SideTracer::settle(double changeAfter) {
    const double change = here_.r - before_.r;
    const double jump = std::abs(change);
    const double beside = std::max(std::abs(change1_), std::abs(changeAfter));
    if (jump > tolerance_ && jump > pitch_ && jump > kStandsAlone * beside) {
        const double border = here_.z - pitch_ / 2;
        keepEnd({border, std::max(0.0, before_.r + goingOn(change1_, change2_))}, before_.cut);
        // The one of the two with less metal was cut by the tool that left the face.
        const bool risesAway = (change > 0) == (side_ == Side::Outer);
        anchor_ = {border, std::max(0.0, here_.r - std::clamp(changeAfter, -pitch_, pitch_) / 2)};
        keep(anchor_, risesAway ? before_.cut : here_.cut);
        funnelEmpty_ = true;
        change1_ = 0;
    } else {
        change2_ = change1_;
        change1_ = change;
    }
    push(here_);
    before_ = here_;
}

void SideTracer::add(double z, double r, CutId cut) {
    const Spot spot{z, r, cut};
    if (seen_ == 0) {
        first_ = spot;
    } else if (seen_ == 1) {
        here_ = spot;
    } else {
        if (seen_ == 2) start(here_.r - first_.r, r - here_.r);
        settle(r - here_.r);
        here_ = spot;
    }
    last_ = spot;
    ++seen_;
}

void SideTracer::finish() {
    if (seen_ <= 2) start(0, 0);
    if (seen_ > 1) settle(0);
    keepEnd({newest_.z + pitch_ / 2, std::max(0.0, newest_.r + goingOn(change1_, change2_))}, edgeCut_);
}

}  // namespace firstoff
