// The part of a cutting edge that meets metal at one place of its way, and what chip it takes there.
//
// Notation, cutting_load.h carried on. u: direction of travel; n: outward normal of the edge; c = n . u; w: place
// across the travel, which grows along the front one way, so that dw = c db. With f mm of feed per revolution and z
// edges the chip is f c / z thick, and
//     chip area per revolution   A  = f int dw
//     removal per mm of travel   G  = 2 pi int r dw
//     cutting force              Fc = kc11 f^(1-mc) z^mc int c^(1-mc) db
//     torque                     M  = kc11 f^(1-mc) z^mc int r c^(1-mc) db
// so the integrals, which know nothing of feed and speed, are what is found here. Borders between metal and air are
// found on the columns of the billet, each as the tool's own curve crosses it.
//
// At the ends of the front its normal stands square to the travel: one of them is the point that leaves the surface,
// of an insert that at the nose.
#pragma once

#include <vector>

#include "sim/base/outline.h"
#include "sim/base/point.h"
#include "sim/setup/setup.h"

namespace firstoff {

class Billet;

// A stretch of an edge that lies ahead of its travel, tool frame: from left to right, r rising or falling all the way.
struct FrontPiece {
    Point from, to;
    Point centre;
    double radius = 0;    // 0: straight
    bool upper = false;   // arcs: of the upper half of their circle
    Point normal;         // straight: outward
    double ahead = 0;     // straight: normal . u
    double aheadPow = 0;  // ahead^(1 - mc)
};

// The integrals above over what is engaged, mean over a turn. N.B. no feed in them.
struct EngagedSection {
    double across = 0;      // int dw, mm
    double moment = 0;      // int r dw, mm2
    double width = 0;       // int db, mm
    double greatest = 0;    // c
    double force = 0;       // int c^(1-mc) db
    double torque = 0;      // int r c^(1-mc) db
    Point push;             // int n c^(1-mc) db
    Point place;            // int q db, lathe frame
    double forceMost = 0;   // `force` at the angle of the turn where the bar reaches furthest out; where the bar is
                            // round, the same
    double torqueMost = 0;  // `torque` likewise
    double farthest = 0;    // r, of any angle of the turn
    // Across the travel, of unit length, from the middle of the edge towards the end that leaves the surface; nothing
    // where it leaves one on both sides, as a blade that plunges, or is of a tool on the axis.
    Point aside;
    bool leavesSurface = false;  // that end, of two either, stands in metal
};

// The edge of one tool, ready for any direction of travel. Keeps no reference to the tool.
class ToolFront {
public:
    // `exponent`: mc of the material. `farSide`: the tool works beyond the axis; everything is seen mirrored then.
    ToolFront(const Tool& tool, double exponent, bool farSide = false);

    // Makes the front for a direction of unit length. What another part of the same tool has in front of it is left
    // out.
    void face(Point u);
    const std::vector<FrontPiece>& pieces() const { return pieces_; }
    // Of the front, tool frame.
    double zMin() const { return zMin_; }
    double zMax() const { return zMax_; }

    // What is engaged with the tip at `tip`, lathe frame (mirrored for `farSide`), by a billet that was cut by all
    // moves before this one. Only metal on this side of the axis counts: beyond it a tool meets what it has taken
    // already.
    EngagedSection engagedIn(const Billet& billet, Point tip) const;

private:
    struct Sum;
    // Which end of the front leaves the surface, from how far off either end the engaged stretch stops, mm.
    void tellAside(double belowMm, double aboveMm, EngagedSection& section) const;
    void appendFront(const Outline& part, std::vector<FrontPiece>& front) const;
    void appendLine(Point a, Point b, std::vector<FrontPiece>& front) const;
    void appendArc(const OutlineElement& arc, std::vector<FrontPiece>& front) const;
    void appendSeen(const FrontPiece& piece, std::size_t part, const std::vector<std::vector<FrontPiece>>& fronts);
    bool isHidden(Point at, std::size_t part, const std::vector<std::vector<FrontPiece>>& fronts) const;

    std::vector<Outline> parts_;
    double exponent_ = 0;
    double height_ = 0;  // of the edge over the axis, either way
    // Blades and round inserts leave surfaces with both ends of their front; tools on the axis push evenly all round.
    bool eitherEnd_ = false, onAxis_ = false;
    Point u_;
    std::vector<FrontPiece> pieces_;
    double zMin_ = 0, zMax_ = 0;
    double wMin_ = 0, wMax_ = 0;  // across the travel, from the tip
};

}  // namespace firstoff
