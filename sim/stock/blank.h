// The blank as columns, before anything is cut.
//
// Frame: sector angle t is 0 at the spindle marker and grows in the order in which the sectors pass the tool under M03.
// Seen from the front that is clockwise, while drawings turn anticlockwise from x to y; so, x towards the angle 0, the
// ray of sector t runs along (cos t, -sin t) of a cross-section.
#pragma once

#include <vector>

#include "sim/setup/setup.h"
#include "sim/stock/billet.h"

namespace firstoff {

// Sectors that show the blank as it is: 1 where it is round; 264 for hexagon and square, a multiple of 24, so that
// corners and middles of flats stand on sectors; 256 for all others. What another trial left has as many as that: see
// left_over.h.
int wantedSectors(const Stock& stock);

// Prepared once for many columns. Keeps no reference to the stock. Not for Shape::Previous.
class Blank {
public:
    explicit Blank(const Stock& stock);

    // Solid stretches at z (lathe frame) under a sector angle (rad), from the axis outwards, exact: hexagon, square and
    // eccentric circle in closed form, drawings edge by edge with their arcs, what lies inside an odd number of
    // contours being metal. Depends on z for a half-section only, which ends where it is drawn; other blanks are not
    // cut to length here. Stretches and gaps of less than a millionth of a millimetre are rounding, not metal.
    std::vector<Interval> column(double z, double angle) const;

private:
    // A stretch of an edge that runs one way along z: half-sections are cut into these beforehand.
    struct Piece {
        Point from, to;
        Point centre;       // arcs
        double radius = 0;  // 0: straight
        bool upper = false;
    };

    static void appendPieces(Point from, Point to, double bulge, std::vector<Piece>& pieces);
    static void appendCrossing(const Piece& piece, double z, std::vector<double>& radii);
    std::vector<Interval> rolled(double angle) const;
    std::vector<Interval> crossSection(double angle) const;
    std::vector<Interval> halfSection(double z) const;
    void sortIntoStretches();
    std::size_t stretchAt(double z) const;

    Stock::Shape shape_;
    double half_ = 0;  // radius, or half of what it measures across flats
    double bore_ = 0;  // radius
    double eccentricity_ = 0;
    std::vector<Contour> contours_;  // of a cross-section
    std::vector<Piece> pieces_;      // of a half-section
    // Pieces that may be met within each of many equal stretches along z: first_[i] to first_[i + 1] of met_.
    double firstZ_ = 0, stretchMm_ = 1;
    std::vector<std::size_t> first_, met_;
};

// One column; where many are wanted, prepare a Blank.
std::vector<Interval> blankColumn(const Stock& stock, double z, double angle);

}  // namespace firstoff
