#include "sim/stock/blank.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <optional>

#include "sim/base/contour_geometry.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

// Far above the rounding of doubles at lathe sizes, far below anything that matters.
constexpr double kNothingMm = 1e-6;

constexpr int kFlatsSectors = 264;
constexpr int kOtherSectors = 256;

// Where a ray from the spindle axis runs inside something convex.
struct Reach {
    double from = 0, to = 0;
    bool empty() const { return to - from <= 0; }
};

// Of a circle whose centre stands `off` towards the angle 0.
Reach throughCircle(double radius, double off, double angle) {
    const double across = off * std::sin(angle);
    const double square = radius * radius - across * across;
    if (square <= 0) return {};
    const double along = off * std::cos(angle);
    return {std::max(0.0, along - std::sqrt(square)), std::max(0.0, along + std::sqrt(square))};
}

// Of a regular polygon with a flat towards the angle 0, `half` from its centre, which stands `off` that way. Flat k has
// its normal at the angle k 2 pi / flats and lies half + off cos(normal) from the spindle axis.
Reach throughPolygon(int flats, double half, double off, double angle) {
    Reach reach{0, std::numeric_limits<double>::infinity()};
    for (int k = 0; k < flats; ++k) {
        const double normal = 2 * kPi * k / flats;
        const double away = half + off * std::cos(normal);
        const double slant = std::cos(angle - normal);
        constexpr double kAlongTheFlat = 1e-15;
        if (slant > kAlongTheFlat) {
            reach.to = std::min(reach.to, away / slant);
        } else if (slant < -kAlongTheFlat) {
            reach.from = std::max(reach.from, away / slant);
        } else if (away < 0) {
            return {};
        }
    }
    return reach;
}

// All of these shapes are the same on both sides of the angle 0; to the last bit, if they are reckoned on one side.
double foldedAngle(double angle) {
    return std::abs(std::remainder(angle, 2 * kPi));
}

void append(std::vector<Interval>& solids, double inner, double outer) {
    if (outer - inner <= kNothingMm) return;
    if (!solids.empty() && inner - solids.back().outer <= kNothingMm) {
        solids.back().outer = outer;
    } else {
        solids.push_back({inner, outer, kUncut, kUncut});
    }
}

// Inside is what lies between the first crossing and the second, the third and the fourth and so on, as far as it lies
// on this side of the axis.
std::vector<Interval> between(std::vector<double>& crossings) {
    std::sort(crossings.begin(), crossings.end());
    std::vector<Interval> solids;
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
        append(solids, std::max(0.0, crossings[i]), std::max(0.0, crossings[i + 1]));
    }
    return solids;
}

}  // namespace

int wantedSectors(const Stock& stock) {
    if (stock.isRound()) return 1;
    const bool flats = stock.shape == Stock::Shape::Hexagon || stock.shape == Stock::Shape::Square;
    return flats ? kFlatsSectors : kOtherSectors;
}

Blank::Blank(const Stock& stock)
    : shape_(stock.shape), bore_(stock.boreRadius), eccentricity_(stock.eccentricity), contours_(stock.crossSection) {
    assert(shape_ != Stock::Shape::Previous);
    half_ = shape_ == Stock::Shape::Round ? stock.outerRadius - stock.eccentricity : stock.acrossFlats / 2;
    for (const Contour& contour : stock.halfSection) {
        for (std::size_t i = 0; i < contour.size(); ++i) {
            appendPieces(contour[i].at, edgeEnd(contour, i), contour[i].bulge, pieces_);
        }
    }
    sortIntoStretches();
}

// An arc turns back along z where it is farthest to the left or to the right, at the angles 0 and pi of its circle.
// Neighbouring pieces share their ends to the last bit, so a line at any z crosses a closed contour an even number of
// times.
void Blank::appendPieces(Point from, Point to, double bulge, std::vector<Piece>& pieces) {
    const auto arc = arcOf(from, to, bulge);
    if (!arc) {
        pieces.push_back({from, to, {}, 0, false});
        return;
    }
    const double start = std::atan2(from.r - arc->centre.r, from.z - arc->centre.z);
    const double end = start + arc->turn;
    const double step = arc->turn > 0 ? kPi : -kPi;
    double at = start;
    double turning = arc->turn > 0 ? (std::floor(start / kPi) + 1) * kPi : (std::ceil(start / kPi) - 1) * kPi;
    Point here = from;
    while (true) {
        const bool last = arc->turn > 0 ? turning >= end : turning <= end;
        const double next = last ? end : turning;
        const double side = std::cos(turning) > 0 ? arc->radius : -arc->radius;
        const Point there = last ? to : arc->centre + Point{side, 0};
        pieces.push_back({here, there, arc->centre, arc->radius, std::sin((at + next) / 2) > 0});
        if (last) return;
        here = there;
        at = next;
        turning += step;
    }
}

void Blank::appendCrossing(const Piece& piece, double z, std::vector<double>& radii) {
    if ((piece.from.z <= z) == (piece.to.z <= z)) return;
    if (piece.radius == 0) {
        const double share = (z - piece.from.z) / (piece.to.z - piece.from.z);
        radii.push_back(piece.from.r + share * (piece.to.r - piece.from.r));
        return;
    }
    const double off = z - piece.centre.z;
    const double rise = std::sqrt(std::max(0.0, (piece.radius - off) * (piece.radius + off)));
    radii.push_back(piece.centre.r + (piece.upper ? rise : -rise));
}

void Blank::sortIntoStretches() {
    if (pieces_.empty()) return;
    double last = firstZ_ = pieces_.front().from.z;
    for (const Piece& piece : pieces_) {
        firstZ_ = std::min({firstZ_, piece.from.z, piece.to.z});
        last = std::max({last, piece.from.z, piece.to.z});
    }
    // So many stretches that few pieces are met in each, but not so many that long pieces fill the memory.
    constexpr std::size_t kMostStretches = 4096;
    std::size_t stretches = std::min(pieces_.size(), kMostStretches);
    std::vector<std::size_t> count;
    std::size_t total = 0;
    do {
        stretchMm_ = std::max((last - firstZ_) / static_cast<double>(stretches), kNothingMm);
        first_.assign(stretches + 1, 0);
        count.assign(stretches, 0);
        total = 0;
        for (const Piece& piece : pieces_) {
            const std::size_t to = stretchAt(std::max(piece.from.z, piece.to.z));
            const std::size_t from = stretchAt(std::min(piece.from.z, piece.to.z));
            for (std::size_t i = from; i <= to; ++i) ++count[i];
            total += to - from + 1;
        }
        stretches /= 2;
    } while (total > 8 * pieces_.size() && stretches > 0);
    for (std::size_t i = 0; i < count.size(); ++i) first_[i + 1] = first_[i] + count[i];
    met_.resize(total);
    std::vector<std::size_t> next(first_.begin(), first_.end() - 1);
    for (std::size_t p = 0; p < pieces_.size(); ++p) {
        const std::size_t to = stretchAt(std::max(pieces_[p].from.z, pieces_[p].to.z));
        for (std::size_t i = stretchAt(std::min(pieces_[p].from.z, pieces_[p].to.z)); i <= to; ++i) met_[next[i]++] = p;
    }
}

std::size_t Blank::stretchAt(double z) const {
    const double stretch = (z - firstZ_) / stretchMm_;
    const std::size_t last = first_.size() - 2;
    return stretch >= static_cast<double>(last) ? last : stretch > 0 ? static_cast<std::size_t>(stretch) : 0;
}

std::vector<Interval> Blank::halfSection(double z) const {
    std::vector<double> radii;
    if (pieces_.empty()) return {};
    const std::size_t stretch = stretchAt(z);
    for (std::size_t i = first_[stretch]; i < first_[stretch + 1]; ++i) appendCrossing(pieces_[met_[i]], z, radii);
    return between(radii);
}

// Turned so that the ray runs along r: a scan of the contours at z 0, of which the half beyond the axis is dropped.
std::vector<Interval> Blank::crossSection(double angle) const {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    const auto turned = [c, s](Point p) { return Point{-(p.z * s + p.r * c), p.z * c - p.r * s}; };
    std::vector<Piece> pieces;
    std::vector<double> radii;
    for (const Contour& contour : contours_) {
        for (std::size_t i = 0; i < contour.size(); ++i) {
            pieces.clear();
            appendPieces(turned(contour[i].at), turned(edgeEnd(contour, i)), contour[i].bulge, pieces);
            for (const Piece& piece : pieces) appendCrossing(piece, 0, radii);
        }
    }
    return between(radii);
}

std::vector<Interval> Blank::rolled(double angle) const {
    const double folded = foldedAngle(angle);
    const int flats = shape_ == Stock::Shape::Hexagon ? 6 : 4;
    const Reach outside = shape_ == Stock::Shape::Round ? throughCircle(half_, eccentricity_, folded)
                                                        : throughPolygon(flats, half_, eccentricity_, folded);
    const Reach bore = bore_ > 0 ? throughCircle(bore_, eccentricity_, folded) : Reach{};
    std::vector<Interval> solids;
    if (bore.empty()) {
        append(solids, outside.from, outside.to);
        return solids;
    }
    append(solids, outside.from, std::min(outside.to, bore.from));
    append(solids, std::max(outside.from, bore.to), outside.to);
    return solids;
}

std::vector<Interval> Blank::column(double z, double angle) const {
    switch (shape_) {
        case Stock::Shape::Round:
        case Stock::Shape::Hexagon:
        case Stock::Shape::Square:
            return rolled(angle);
        case Stock::Shape::CrossSection:
            return crossSection(angle);
        case Stock::Shape::HalfSection:
            return halfSection(z);
        case Stock::Shape::Previous:
            break;
    }
    return {};
}

std::vector<Interval> blankColumn(const Stock& stock, double z, double angle) {
    return Blank(stock).column(z, angle);
}

}  // namespace firstoff
