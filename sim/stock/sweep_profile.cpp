#include "sim/stock/sweep_profile.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

// Concentric arcs reach this much further than their normals say, so that rounding leaves no gap to the next branch.
// The arc runs on tangentially: the error is the square of this.
constexpr double kJointMm = 1e-9;

// A path that goes one way along z, ends in order of z, and for arcs which half of the circle it is on.
struct OneWayPath {
    Point left, right;
    Point centre;
    double radius = 0;  // 0: straight
    bool upperHalf = false;
};

Point mirrored(Point p) {
    return {p.z, -p.r};
}

OneWayPath mirrored(const OneWayPath& path) {
    return {mirrored(path.left), mirrored(path.right), mirrored(path.centre), path.radius, !path.upperHalf};
}

Branch placed(const ChainPiece& piece, Point at, double zFrom, double zTo) {
    Branch branch;
    branch.zFrom = zFrom;
    branch.zTo = zTo;
    if (piece.kind == ChainPiece::Kind::Line) {
        branch.kind = Branch::Kind::Line;
        branch.a = at.r + piece.from.r;
        branch.b = piece.slope;
        branch.c = at.z + piece.from.z;
    } else {
        branch.kind = Branch::Kind::Under;
        branch.a = at.r + piece.centre.r;
        branch.b = piece.radius * piece.radius;
        branch.c = at.z + piece.centre.z;
    }
    return branch;
}

void addPlaced(const ChainPiece& piece, Point at, std::vector<Branch>& out) {
    if (piece.kind == ChainPiece::Kind::Corner) return;
    out.push_back(placed(piece, at, at.z + piece.from.z, at.z + piece.to.z));
}

void addStraightSide(const LowerChain& chain, Point left, Point right, std::vector<Branch>& out) {
    const Point d = right - left;
    const double along = std::sqrt(dot(d, d));
    // Of the strip's normal. A tool that stands still sweeps its own outline, all of it from the left end.
    const double nz = along > 0 ? d.r / along : 1;
    Point tangent = chain.pieces.front().from;
    std::size_t i = 0;
    for (; i < chain.pieces.size() && chain.pieces[i].nzTo <= nz; ++i) {
        addPlaced(chain.pieces[i], left, out);
        tangent = chain.pieces[i].to;
    }
    double splitZ = tangent.z;
    const bool split = i < chain.pieces.size() && chain.pieces[i].nzFrom < nz;
    if (split) {
        const ChainPiece& piece = chain.pieces[i];
        tangent = piece.centre + piece.radius * Point{nz, -std::sqrt(std::max(0.0, 1 - nz * nz))};
        splitZ = std::clamp(tangent.z, piece.from.z, piece.to.z);
        if (piece.kind == ChainPiece::Kind::Arc) {
            out.push_back(placed(piece, left, left.z + piece.from.z, left.z + splitZ));
        }
    }
    if (d.z > 0) {
        Branch strip;
        strip.zFrom = left.z + splitZ;
        strip.zTo = right.z + splitZ;
        strip.a = left.r + tangent.r;
        strip.b = d.r / d.z;
        strip.c = left.z + tangent.z;
        out.push_back(strip);
    }
    if (split) {
        const ChainPiece& piece = chain.pieces[i];
        if (piece.kind == ChainPiece::Kind::Arc) {
            out.push_back(placed(piece, right, right.z + splitZ, right.z + piece.to.z));
        }
        ++i;
    }
    for (; i < chain.pieces.size(); ++i) addPlaced(chain.pieces[i], right, out);
}

// The concentric arc that an outline arc or a corner draws, for the normals it shares with the path.
void addTube(const ChainPiece& piece, const OneWayPath& path, double nzFrom, double nzTo, std::vector<Branch>& out) {
    const double a = std::max(piece.nzFrom, nzFrom);
    const double b = std::min(piece.nzTo, nzTo);
    if (a >= b) return;
    if (path.upperHalf && path.radius <= piece.radius) return;
    const double radius = path.upperHalf ? path.radius - piece.radius : path.radius + piece.radius;
    const Point centre = path.centre + piece.centre;
    Branch branch;
    branch.kind = path.upperHalf ? Branch::Kind::Over : Branch::Kind::Under;
    branch.zFrom = centre.z + (path.upperHalf ? -radius * b : radius * a) - kJointMm;
    branch.zTo = centre.z + (path.upperHalf ? -radius * a : radius * b) + kJointMm;
    branch.a = centre.r;
    branch.b = radius * radius;
    branch.c = centre.z;
    out.push_back(branch);
}

void addArcSide(const LowerChain& chain, const OneWayPath& path, std::vector<Branch>& out) {
    for (const ChainPiece& piece : chain.pieces) addPlaced(piece, path.left, out);
    for (const ChainPiece& piece : chain.pieces) addPlaced(piece, path.right, out);
    const double uzLeft = (path.left.z - path.centre.z) / path.radius;
    const double uzRight = (path.right.z - path.centre.z) / path.radius;
    const double nzFrom = path.upperHalf ? -uzRight : uzLeft;
    const double nzTo = path.upperHalf ? -uzLeft : uzRight;
    for (const ChainPiece& piece : chain.pieces) {
        if (piece.kind != ChainPiece::Kind::Line) {
            addTube(piece, path, nzFrom, nzTo, out);
        } else if (!path.upperHalf && piece.nzFrom > nzFrom && piece.nzFrom < nzTo) {
            const double nz = piece.nzFrom;
            addPlaced(piece, path.centre + path.radius * Point{nz, -std::sqrt(std::max(0.0, 1 - nz * nz))}, out);
        }
    }
}

// Least r - slope * z along the path.
double leastAlong(const OneWayPath& path, const Support& s) {
    const double ends = std::min(path.left.r - s.slope * path.left.z, path.right.r - s.slope * path.right.z);
    if (path.radius == 0 || path.upperHalf) return ends;
    const double z = path.centre.z + path.radius * s.nz;
    if (z <= path.left.z || z >= path.right.z) return ends;
    return path.centre.r - s.slope * path.centre.z - path.radius * std::sqrt(1 + s.slope * s.slope);
}

SideBound sideBound(const LowerChain& chain, const OneWayPath& path) {
    const auto offset = [&](const Support& s) { return s.offset + leastAlong(path, s); };
    SideBound bound;
    bound.level = offset(chain.supports[0]);
    bound.rightOffset = offset(chain.supports[1]);
    bound.rightSlope = chain.supports[1].slope;
    bound.leftOffset = offset(chain.supports[2]);
    bound.leftSlope = chain.supports[2].slope;
    return bound;
}

BranchSpan addSide(const LowerChain& chain, const OneWayPath& path, std::vector<Branch>& out) {
    BranchSpan span;
    span.begin = static_cast<std::uint32_t>(out.size());
    if (path.radius == 0) {
        addStraightSide(chain, path.left, path.right, out);
    } else {
        addArcSide(chain, path, out);
    }
    span.end = static_cast<std::uint32_t>(out.size());
    return span;
}

void appendOneWay(const OneWayPath& path, const ToolShape& shape, const Grid& grid, CutId cut,
                  std::vector<SweepProfile>& profiles, std::vector<Branch>& branches) {
    SweepProfile profile;
    profile.firstColumn = std::max(0, grid.columnNear(path.left.z + shape.lower.zMin));
    profile.lastColumn = std::min(grid.columns - 1, grid.columnNear(path.right.z + shape.lower.zMax));
    if (profile.lastColumn < profile.firstColumn) return;
    const OneWayPath other = mirrored(path);
    profile.cut = cut;
    profile.lower = addSide(shape.lower, path, branches);
    profile.upper = addSide(shape.mirroredUpper, other, branches);
    profile.lowerBound = sideBound(shape.lower, path);
    profile.upperBound = sideBound(shape.mirroredUpper, other);
    profile.bottomFrom = (path.left.r <= path.right.r ? path.left.z : path.right.z) + shape.lower.bottomFrom;
    profile.bottomTo = (path.left.r < path.right.r ? path.left.z : path.right.z) + shape.lower.bottomTo;
    profile.centreHeight = shape.centreHeight;
    profile.straight = path.radius == 0;
    profiles.push_back(profile);
}

// Is the radius direction `u` on the half of the circle that an anticlockwise walk leaves last: above the axis of the
// circle or at its right end, where the upper half begins?
bool onUpperHalf(Point u) {
    return u.r > 0 || (u.r == 0 && u.z > 0);
}

// Walks the arc anticlockwise from `first` to `last` and calls `part` for each stretch that goes one way along z.
template <typename Part>
void splitArc(Point first, Point last, Point centre, double radius, const Part& part) {
    Point at = first;
    bool upper = onUpperHalf(first - centre);
    for (int half = 0; half < 3; ++half) {
        const bool lastOnHalf = onUpperHalf(last - centre) == upper;
        const bool ahead = cross(at - centre, last - centre) > 0;
        const bool ends = lastOnHalf && ahead;
        const Point turn{centre.z + (upper ? -radius : radius), centre.r};
        const Point to = ends ? last : turn;
        OneWayPath path{at, to, centre, radius, upper};
        if (path.left.z > path.right.z) std::swap(path.left, path.right);
        if (path.right.z > path.left.z) part(path);
        if (ends) return;
        at = turn;
        upper = !upper;
    }
    if (!(last == at)) {
        OneWayPath path{at, last, centre, radius, upper};
        if (path.left.z > path.right.z) std::swap(path.left, path.right);
        if (path.right.z > path.left.z) part(path);
    }
}

double arcRadius(const Sweep& sweep) {
    return 0.5 * (distance(sweep.centre, sweep.from) + distance(sweep.centre, sweep.to));
}

}  // namespace

void appendProfiles(const Sweep& sweep, const ToolShape& shape, const Grid& grid, CutId cut,
                    std::vector<SweepProfile>& profiles, std::vector<Branch>& branches) {
    if (shape.empty()) return;
    if (sweep.path == Sweep::Path::Line) {
        OneWayPath path{sweep.from, sweep.to, {}, 0, false};
        if (path.left.z > path.right.z) std::swap(path.left, path.right);
        appendOneWay(path, shape, grid, cut, profiles, branches);
        return;
    }
    const bool clockwise = sweep.path == Sweep::Path::ArcClockwise;
    const Point first = clockwise ? sweep.to : sweep.from;
    const Point last = clockwise ? sweep.from : sweep.to;
    const double radius = arcRadius(sweep);
    if (!(radius > tolerance::kSamePlaceMm)) return;
    splitArc(first, last, sweep.centre, radius,
             [&](const OneWayPath& path) { appendOneWay(path, shape, grid, cut, profiles, branches); });
}

void appendOutline(const LowerChain& chain, std::vector<Branch>& branches) {
    for (const ChainPiece& piece : chain.pieces) addPlaced(piece, {}, branches);
}

double sideAt(const Branch* begin, const Branch* end, double z) {
    double least = std::numeric_limits<double>::infinity();
    for (const Branch* branch = begin; branch != end; ++branch) {
        if (z < branch->zFrom || z > branch->zTo) continue;
        const double x = z - branch->c;
        double r = 0;
        if (branch->kind == Branch::Kind::Line) {
            r = branch->a + branch->b * x;
        } else {
            const double h = std::sqrt(std::max(0.0, branch->b - x * x));
            r = branch->kind == Branch::Kind::Under ? branch->a - h : branch->a + h;
        }
        least = std::min(least, r);
    }
    return least;
}

Sweep firstPart(const Sweep& sweep, double fraction) {
    Sweep part = sweep;
    if (sweep.path == Sweep::Path::Line) {
        part.to = sweep.from + fraction * (sweep.to - sweep.from);
        return part;
    }
    const Point a = sweep.from - sweep.centre;
    const Point b = sweep.to - sweep.centre;
    const bool clockwise = sweep.path == Sweep::Path::ArcClockwise;
    double turn = std::atan2(cross(a, b), dot(a, b));
    if (clockwise) turn = -turn;
    if (turn <= 0) turn += 2 * kPi;
    const double angle = (clockwise ? -1 : 1) * fraction * turn;
    const Point turned = std::cos(angle) * a + std::sin(angle) * leftOf(a);
    const double scale = 1 + fraction * (length(b) / length(a) - 1);
    part.to = sweep.centre + scale * turned;
    return part;
}

}  // namespace firstoff
