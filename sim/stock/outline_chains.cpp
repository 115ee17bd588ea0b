#include "sim/stock/outline_chains.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

// Normals that differ by less than this are one normal: the joints of tangent edges and arcs. A corner left out in that
// way would be off by less than 1e-18 of the move's length.
constexpr double kSameNormal = 1e-9;

// A line that stands this straight up has no extent along z.
constexpr double kUpright = 1e-12;

void addLine(const OutlineElement& e, std::vector<ChainPiece>& pieces) {
    const Point d = e.to - e.from;
    const double len = std::sqrt(dot(d, d));
    if (!(d.z > kUpright * len)) return;
    ChainPiece piece;
    piece.kind = ChainPiece::Kind::Line;
    piece.from = e.from;
    piece.to = e.to;
    piece.slope = d.r / d.z;
    piece.nzFrom = piece.nzTo = d.r / len;
    pieces.push_back(piece);
}

// The stretch of an arc whose normal points down; an arc is shorter than half a turn, so there is at most one.
void addArc(const OutlineElement& e, std::vector<ChainPiece>& pieces) {
    const Point first = (1 / e.radius) * (e.from - e.centre);
    const Point last = (1 / e.radius) * (e.to - e.centre);
    if (first.r >= 0 && last.r >= 0) return;
    ChainPiece piece;
    piece.kind = ChainPiece::Kind::Arc;
    piece.centre = e.centre;
    piece.radius = e.radius;
    piece.from = first.r < 0 ? e.from : e.centre + Point{-e.radius, 0};
    piece.to = last.r < 0 ? e.to : e.centre + Point{e.radius, 0};
    piece.nzFrom = first.r < 0 ? std::max(-1.0, first.z) : -1;
    piece.nzTo = last.r < 0 ? std::min(1.0, last.z) : 1;
    if (piece.nzTo > piece.nzFrom && piece.to.z > piece.from.z) pieces.push_back(piece);
}

ChainPiece corner(Point at, double nzFrom, double nzTo) {
    ChainPiece piece;
    piece.kind = ChainPiece::Kind::Corner;
    piece.from = piece.to = piece.centre = at;
    piece.nzFrom = nzFrom;
    piece.nzTo = nzTo;
    return piece;
}

// Closes the turns of the normal with corners and makes neighbours share their ends to the last bit, so that no column
// can fall between two stretches.
std::vector<ChainPiece> joined(const std::vector<ChainPiece>& pieces) {
    std::vector<ChainPiece> chain;
    double nz = -1;
    for (const ChainPiece& piece : pieces) {
        const Point at = chain.empty() ? piece.from : chain.back().to;
        if (piece.nzFrom - nz > kSameNormal) chain.push_back(corner(at, nz, piece.nzFrom));
        chain.push_back(piece);
        chain.back().from = at;
        chain.back().nzFrom = std::max(nz, piece.nzFrom);
        nz = chain.back().nzTo = std::max(nz, piece.nzTo);
    }
    if (1 - nz > kSameNormal) chain.push_back(corner(chain.back().to, nz, 1));
    chain.front().nzFrom = -1;
    chain.back().nzTo = 1;
    return chain;
}

Support support(const LowerChain& chain, double slope) {
    Support s;
    s.slope = slope;
    s.nz = slope / std::sqrt(1 + slope * slope);
    const Point normal{s.nz, -1 / std::sqrt(1 + slope * slope)};
    bool first = true;
    for (const ChainPiece& piece : chain.pieces) {
        // The point of this stretch that lies furthest along the normal.
        Point p = s.nz >= piece.nzTo ? piece.to : piece.from;
        if (piece.kind == ChainPiece::Kind::Arc && s.nz > piece.nzFrom && s.nz < piece.nzTo) {
            p = piece.centre + piece.radius * normal;
        }
        const double offset = p.r - slope * p.z;
        s.offset = first ? offset : std::min(s.offset, offset);
        first = false;
    }
    return s;
}

LowerChain lowerChain(const Outline& outline) {
    std::vector<ChainPiece> pieces;
    for (const OutlineElement& e : outline.elements) {
        if (e.radius > 0) {
            addArc(e, pieces);
        } else {
            addLine(e, pieces);
        }
    }
    LowerChain chain;
    if (pieces.empty()) return chain;
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const ChainPiece& a, const ChainPiece& b) { return a.nzFrom + a.nzTo < b.nzFrom + b.nzTo; });
    chain.pieces = joined(pieces);
    chain.zMin = chain.pieces.front().from.z;
    chain.zMax = chain.pieces.back().to.z;
    // Rounding may tilt a level edge: the bottom then reaches from one of its ends to the other all the same.
    constexpr double kLevel = 1e-9;
    chain.bottomFrom = chain.zMax;
    chain.bottomTo = chain.zMin;
    for (const ChainPiece& piece : chain.pieces) {
        if (piece.nzTo < -kLevel || piece.nzFrom > kLevel) continue;
        const bool turns = piece.kind == ChainPiece::Kind::Arc;
        chain.bottomFrom = std::min(chain.bottomFrom, turns ? piece.centre.z : piece.from.z);
        chain.bottomTo = std::max(chain.bottomTo, turns ? piece.centre.z : piece.to.z);
    }
    double right = 0;
    double left = 0;
    double rightLength = 0;
    double leftLength = 0;
    for (const ChainPiece& piece : chain.pieces) {
        if (piece.kind != ChainPiece::Kind::Line) continue;
        const double extent = piece.to.z - piece.from.z;
        if (piece.slope > 0 && extent > rightLength) right = piece.slope, rightLength = extent;
        if (piece.slope < 0 && extent > leftLength) left = piece.slope, leftLength = extent;
    }
    chain.supports = {support(chain, 0), support(chain, right), support(chain, left)};
    return chain;
}

Outline mirroredInR(const Outline& outline) {
    Outline result;
    for (auto e = outline.elements.rbegin(); e != outline.elements.rend(); ++e) {
        OutlineElement m = *e;
        m.from = {e->to.z, -e->to.r};
        m.to = {e->from.z, -e->from.r};
        m.centre.r = -m.centre.r;
        result.elements.push_back(m);
    }
    return result;
}

}  // namespace

ToolShape toolShape(const Outline& outline, double centreHeight) {
    ToolShape shape;
    if (outline.empty()) return shape;
    shape.lower = lowerChain(outline);
    shape.mirroredUpper = lowerChain(mirroredInR(outline));
    shape.centreHeight = centreHeight;
    return shape;
}

}  // namespace firstoff
