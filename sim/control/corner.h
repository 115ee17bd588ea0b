// A chamfer or a fillet put between two moves: `,C` and `,R`.
#pragma once

#include "sim/base/point.h"
#include "sim/control/toolpath.h"

namespace firstoff {

struct CornerWish {
    // mm: of a chamfer the straight distance of both its ends from the corner, measured to a point of each move, beside
    // an arc too (common practice, no source); of a fillet its radius.
    double size = 0;
    bool fillet = false;
    // Where the word has a sign that says to which side the next move goes: that direction along one axis, else 0, 0.
    Point towards = {};
};

// A straight or circular stretch.
struct Stretch {
    Point from;
    Point to;
    Point centre;
    MoveKind kind = MoveKind::Feed;
};

struct CornerFit {
    enum class Fault : unsigned char {
        None,
        LegTooShort,  // `needMm` of a leg of `haveMm`, both along the leg
        TooLarge,     // nothing of that size touches both moves, however long they were
        NoCorner,     // the moves run straight on or back on themselves
        OtherWay,     // the second move does not go where `towards` says
    };
    Fault fault = Fault::None;
    Point start;   // where the first leg now ends
    Point end;     // where the second leg now begins
    Point centre;  // of a fillet
    MoveKind kind = MoveKind::Feed;
    double needMm = 0;
    double haveMm = 0;
};

// Between `first` and `second`, which meet at first.to; each may be an arc.
CornerFit fitCorner(const Stretch& first, const Stretch& second, const CornerWish& wish);

// The largest chamfer or fillet that fits there, in whole micrometres; 0 where none does, a kilometre where all do.
double largestCorner(const Stretch& first, const Stretch& second, bool fillet);

}  // namespace firstoff
