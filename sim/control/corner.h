// A chamfer or a fillet put between two moves: `,C` and `,R`.
#pragma once

#include "sim/base/point.h"
#include "sim/control/toolpath.h"

namespace firstoff {

struct CornerWish {
    double size = 0;  // mm: of a chamfer along each leg from the corner, or the radius of a fillet
    bool fillet = false;
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
        LegTooShort,  // `needMm` of a leg of `haveMm`
        NoCorner,     // the moves run straight on or back on themselves, or no fillet of that radius touches both
        NotModelled,  // a chamfer beside an arc
    };
    Fault fault = Fault::None;
    Point start;   // where the first leg now ends
    Point end;     // where the second leg now begins
    Point centre;  // of a fillet
    MoveKind kind = MoveKind::Feed;
    double needMm = 0;
    double haveMm = 0;
};

// Between `first` and `second`, which meet at first.to; at least one of them may be an arc.
CornerFit fitCorner(const Stretch& first, const Stretch& second, const CornerWish& wish);

}  // namespace firstoff
