// What must hold of gaps whatever the bodies: random pieces, rapidcheck. The tolerance is what is stated of gaps.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <vector>

#include "sim/clearance/nearness.h"

namespace firstoff {
namespace {

double coordinate() {
    return *rc::gen::inRange(-40000, 40001) / 1000.0;
}
double size() {
    return *rc::gen::inRange(0, 20001) / 1000.0;
}

ConvexPiece anyPiece() {
    const SpacePoint at{coordinate(), coordinate(), coordinate()};
    switch (*rc::gen::inRange(0, 3)) {
        case 0:
            return boxPiece(at, at + SpacePoint{size(), size(), size()});
        case 1:
            return turnedPiece({{at.z, size()}, {at.z + size(), size()}, {at.z, 0}}, at.r, at.y);
        default: {
            ConvexPiece piece;
            for (int i = *rc::gen::inRange(1, 8); i > 0; --i) {
                piece.corners.push_back(at + SpacePoint{size(), size(), size()});
            }
            return piece;
        }
    }
}

std::vector<ConvexPiece> anyPieces() {
    std::vector<ConvexPiece> pieces;
    for (int i = *rc::gen::inRange(1, 5); i > 0; --i) pieces.push_back(anyPiece());
    return pieces;
}

Placing anyPlacing() {
    Placing at;
    at.axisR = coordinate();
    at.turn = *rc::gen::inRange(-7000, 7001) / 1000.0;
    at.count = *rc::gen::inRange(1, 5);
    for (Point& p : at.shifts) p = {coordinate(), coordinate()};
    return at;
}

RC_GTEST_PROP(NearnessProperty, ItIsTheSameEitherWayRound, ()) {
    const BodyShape a(anyPieces()), b(anyPieces());
    const Placing at = anyPlacing(), bt = anyPlacing();
    RC_ASSERT(std::abs(nearness(a, at, b, bt).gap - nearness(b, bt, a, at).gap) <= kNearnessMm);
}

RC_GTEST_PROP(NearnessProperty, MovingBothAlikeChangesNothing, ()) {
    const BodyShape a(anyPieces()), b(anyPieces());
    Placing at = anyPlacing(), bt = anyPlacing();
    const double gap = nearness(a, at, b, bt).gap;
    const Point by{coordinate(), coordinate()};
    for (Placing* p : {&at, &bt}) {
        for (Point& shift : p->shifts) shift = shift + by;
    }
    RC_ASSERT(std::abs(nearness(a, at, b, bt).gap - gap) <= kNearnessMm);
}

RC_GTEST_PROP(NearnessProperty, TurningBothAlikeChangesNothing, ()) {
    const std::vector<ConvexPiece> a = anyPieces(), b = anyPieces();
    const double axisR = coordinate(), turn = *rc::gen::inRange(-7000, 7001) / 1000.0;
    const double gap = nearness(BodyShape(a), {}, BodyShape(b), {}).gap;
    Placing at;
    at.axisR = axisR;
    at.turn = turn;
    RC_ASSERT(std::abs(nearness(BodyShape(a), at, BodyShape(b), at).gap - gap) <= kNearnessMm);
    std::vector<ConvexPiece> turned;
    for (const ConvexPiece& piece : b) turned.push_back(turnedAbout(axisR, turn, piece));
    RC_ASSERT(std::abs(nearness(BodyShape(a), at, BodyShape(turned), {}).gap - gap) <= kNearnessMm);
}

RC_GTEST_PROP(NearnessProperty, ASweepComesAsNearAsAnyPlaceOnIt, ()) {
    const BodyShape a(anyPieces()), b(anyPieces());
    const Placing sweep = anyPlacing(), bt = anyPlacing();
    const double gap = nearness(a, sweep, b, bt).gap;
    for (int k = 0; k < 8; ++k) {
        double sum = 0;
        Placing at = sweep;
        at.shifts[0] = {0, 0};
        at.count = 1;
        for (std::size_t i = 0; i < static_cast<std::size_t>(sweep.count); ++i) {
            const double share = *rc::gen::inRange(1, 1000);
            sum += share;
            at.shifts[0] = at.shifts[0] + share * sweep.shifts[i];
        }
        at.shifts[0] = (1 / sum) * at.shifts[0];
        RC_ASSERT(gap <= nearness(a, at, b, bt).gap + kNearnessMm);
    }
}

RC_GTEST_PROP(NearnessProperty, ASwingComesAsNearAsAnyTurnOnIt, ()) {
    const BodyShape a(anyPieces()), b(anyPieces());
    Placing at = anyPlacing();
    const Placing bt = anyPlacing();
    const double to = at.turn + *rc::gen::inRange(-7000, 7001) / 1000.0;
    const double from = at.turn;
    const SwingNearness swing = nearnessOfSwing(a, at, to, b, bt);
    double least = 1e300;
    for (int k = 0; k <= 40; ++k) {
        at.turn = from + (to - from) * k / 40;
        const double gap = nearness(a, at, b, bt).gap;
        least = std::min(least, gap);
        RC_ASSERT(swing.nearest.gap <= gap + kNearnessMm);
        // Never late. (Bodies that miss each other by less than is told apart may be said to touch at one turn of
        // them.)
        if (gap == 0 && swing.nearest.gap == 0) {
            RC_ASSERT(swing.fraction <= k / 40.0 + 1e-9);
        }
    }
    at.turn = from + (to - from) * swing.fraction;
    // There it is as near as was told, to what is stated of swings.
    const double there = nearness(a, at, b, bt).gap;
    RC_ASSERT(there <= swing.nearest.gap + swingBelow(there) + kNearnessMm);
}

RC_GTEST_PROP(NearnessProperty, AskingForMoreNeverTellsLess, ()) {
    const BodyShape a(anyPieces()), b(anyPieces());
    const Placing at = anyPlacing(), bt = anyPlacing();
    const double gap = nearness(a, at, b, bt).gap;
    for (double beyond : {0.001, 1.0, 5.0, 20.0, 100.0}) {
        const double told = nearness(a, at, b, bt, beyond).gap;
        RC_ASSERT(told <= gap + kNearnessMm);
        RC_ASSERT(told >= std::min(gap - kNearnessMm, beyond));
        const double swung = nearnessOfSwing(a, at, at.turn + 0.5, b, bt, beyond).nearest.gap;
        RC_ASSERT(swung <= gap + kNearnessMm);
    }
}

}  // namespace
}  // namespace firstoff
