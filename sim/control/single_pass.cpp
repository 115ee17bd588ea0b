#include "sim/control/single_pass.h"

#include "sim/base/tolerances.h"

namespace firstoff {

namespace {

// Where the cut begins: level with S in the direction of the cut.
Point cutFrom(const SinglePass& pass) {
    return pass.facing ? Point{pass.end.z + pass.taper, pass.start.r} : Point{pass.start.z, pass.end.r + pass.taper};
}

// Where the cut has been led out to: level with S across the direction of the cut.
Point leadOut(const SinglePass& pass) {
    return pass.facing ? Point{pass.start.z, pass.end.r} : Point{pass.end.z, pass.start.r};
}

}  // namespace

bool taperLeadsAway(const SinglePass& pass) {
    const Point from = cutFrom(pass);
    const double depth = pass.facing ? pass.end.z - pass.start.z : pass.end.r - pass.start.r;
    const double depthAtStart = pass.facing ? from.z - pass.start.z : from.r - pass.start.r;
    // Without any depth at its end the taper alone says which way the part lies.
    return depth * depthAtStart < -tolerance::kSamePlaceMm;
}

bool cutsNothing(const SinglePass& pass) {
    return distance(cutFrom(pass), pass.end) <= tolerance::kSamePlaceMm;
}

std::vector<CycleMove> planSinglePass(const SinglePass& pass) {
    std::vector<CycleMove> moves;
    Point at = pass.start;
    const auto go = [&](Point to, MoveKind kind) {
        if (distance(at, to) <= tolerance::kSamePlaceMm) return;
        moves.push_back({at, to, {}, kind, 1});
        at = to;
    };
    go(cutFrom(pass), MoveKind::Rapid);
    go(pass.end, MoveKind::Feed);
    go(leadOut(pass), MoveKind::Feed);
    go(pass.start, MoveKind::Rapid);
    return moves;
}

}  // namespace firstoff
