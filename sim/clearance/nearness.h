// How near two bodies are, exactly, wherever they stand or sweep.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <memory>
#include <vector>

#include "sim/base/outline.h"
#include "sim/base/space.h"
#include "sim/clearance/convex_piece.h"

namespace firstoff {

class Billet;

// Where a body stands: turned about an axis parallel to Z, then shifted in z and r. With more than one shift: all it
// sweeps while it is shifted to and fro between them, which is the convex hull of the shifts (a straight move has two,
// a straight move that may as a whole be out of place by some amount has four).
struct Placing {
    double axisR = 0;  // in the body's own frame
    double turn = 0;   // rad, see turnedAbout()
    std::array<Point, 4> shifts{};
    int count = 1;

    static Placing at(Point shift) { return {0, 0, {shift}, 1}; }
    static Placing along(Point from, Point to) { return {0, 0, {from, to}, 2}; }
};

struct Nearness {
    // mm. Never above the true gap and below it by no more than kNearnessMm, or, where the true gap is larger than
    // what was asked for, some value between that and the true gap. 0: they touch or overlap.
    double gap = std::numeric_limits<double>::infinity();
    // Lathe frame; where they are nearest, of a sweep somewhere on it. Not set where the gap is no less than was asked
    // for.
    SpacePoint onFirst, onSecond;
};
inline constexpr double kNearnessMm = 1e-4;

// A body made ready for measuring: its pieces, and a tree of bounds over them. Immutable; cheap to copy.
class BodyShape {
public:
    BodyShape() = default;  // nothing: infinitely far from everything
    // `isMesh`: the pieces are the triangles of a closed surface, and what is inside is solid as well.
    explicit BodyShape(std::vector<ConvexPiece> pieces, bool isMesh = false);

    bool empty() const { return data_ == nullptr; }
    SpaceBox box() const;  // as placed at the origin without turn
    // Greatest distance of any of it from the axis at (axisR, y = 0).
    double reach(double axisR) const;

    struct Data;
    const Data& data() const { return *data_; }

private:
    std::shared_ptr<const Data> data_;
};

// `beyond`: gaps above it need not be known. A hint from an earlier call for the same pair speeds up the next; results
// do not depend on it by more than kNearnessMm, so whoever must not depend on the order of calls starts afresh.
struct NearnessHint {
    std::array<std::uint32_t, 4> at{};
};
Nearness nearness(const BodyShape& first, const Placing& firstAt, const BodyShape& second, const Placing& secondAt,
                  double beyond = std::numeric_limits<double>::infinity(), NearnessHint* hint = nullptr);

// While the first swings from `firstAt.turn` to `turnTo` about its axis (either way round, any amount). The gap is
// never above the true one and below it by no more than swingBelow(); 0 only where they touch or come within
// kNearnessMm.
// `fraction` of the swing at which the nearest, or the first contact, is; that of a contact is certain to 0.01 mm of
// travel and never late.
// 0.01 mm, and where nothing is near, where the figure matters to nobody, a quarter of what lies beyond 50 mm.
inline double swingBelow(double trueGap) {
    return 0.01 + 0.25 * std::max(0.0, trueGap - 50);
}
struct SwingNearness {
    Nearness nearest;
    double fraction = 0;
};
SwingNearness nearnessOfSwing(const BodyShape& first, const Placing& firstAt, double turnTo, const BodyShape& second,
                              const Placing& secondAt, double beyond = std::numeric_limits<double>::infinity());

// The outside of a billet at one instant: all its metal, with what is bored out of it taken as solid. A tree of
// greatest radii over its columns; where a flat or a thread stands, the circle round it.
//
// It holds the metal on the safe side: neighbouring columns are taken together as cylinders of their greatest radius,
// no longer than kGroupMm (or a single column), and reach half a pitch further to both sides, since a column is known
// to that only. No point of these cylinders lies further outside the metal than errorMm(). The gaps told below are
// those of these cylinders, within kNearnessMm.
class BilletHull {
public:
    static constexpr double kGroupMm = 0.016;

    explicit BilletHull(const Billet& billet);
    double errorMm() const;
    // After metal has come off between these places, or pieces have fallen. Anything outside must be unchanged.
    void update(const Billet& billet, double zFrom, double zTo);
    Nearness nearness(const BodyShape& body, const Placing& at,
                      double beyond = std::numeric_limits<double>::infinity()) const;
    SwingNearness nearnessOfSwing(const BodyShape& body, const Placing& at, double turnTo,
                                  double beyond = std::numeric_limits<double>::infinity()) const;

private:
    friend class HullTree;
    void measure(const Billet& billet, int firstGroup, int lastGroup);

    // Greatest radii, rounded up, and least ones, rounded down: from single groups of columns to the whole, kFan of one
    // level under one of the next.
    std::vector<std::vector<float>> greatest_, least_;
    double z0_ = 0, z1_ = 0, groupMm_ = 0, halfPitch_ = 0;
    int groupColumns_ = 1;
};

// How near a convex outline comes to the metal of a billet in the turning half-plane, on both sides of the axis, bores
// and grooves open as they are. Placed by shifts as above (no turn). `onSecond` lies on the metal. Columns count half a
// pitch wider to both sides, on the safe side, since they are known to that only: nothing that counts as metal lies
// further than a pitch from it (2 um up to a bar of 300 mm). The gap to what counts is told within kNearnessMm.
Nearness nearnessInPlane(const Billet& billet, const Outline& outline, const Placing& at,
                         double beyond = std::numeric_limits<double>::infinity());

}  // namespace firstoff
