// Tool nose-radius compensation (G41, G42): from the path the program describes to the path the imaginary tip runs.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/base/point.h"
#include "sim/control/toolpath.h"
#include "sim/setup/setup.h"

namespace firstoff {

// One stretch of a path: a straight move or an arc of less than a full turn. Any frame that has z to the right and r
// (as a radius) upwards. `tag` is the caller's: every stretch that comes out carries the tag of the one it was made
// from.
struct PathElement {
    Point from;
    Point to;
    Point centre;                    // arcs
    MoveKind kind = MoveKind::Feed;  // Rapid, Feed, ArcClockwise or ArcAnticlockwise
    std::uint32_t tag = 0;
    bool changesSide = false;  // from this element on the tool stands on the other side of the path
};

struct CompensationSetting {
    Compensation side = Compensation::Off;
    double noseRadius = 0;  // mm, not negative; the set-up checks this first
    int tipNumber = 3;      // 0–9, see tipFromNoseCentre()
    CompensationStart start = CompensationStart::A;
};

struct CompensationIssue {
    enum class Kind : std::uint8_t {
        InsideArcTooSmall,  // the nose does not fit into an arc; amount: by how much its radius is larger
        NoRoom,  // between its neighbours the nose does not reach the element; amount: the length that is lacking, or
                 // by how much the nose misses it if that is more; of short elements in a row, together
        StartOnArc,   // compensation is switched on by an arc; controls refuse it. Amount 0; run as a straight move
        CancelOnArc,  // switched off by an arc, likewise
        SideChange,   // the side changes in front of the element in a way in which controls differ; amount: how far
                      // apart the centre stands before and after it
    };
    Kind kind = Kind::NoRoom;
    std::uint32_t tag = 0;
    double amountMm = 0;
    double uncutMm = 0;  // the first two: how far the nose stays off the middle of the element
};

// The path of the imaginary tip for the whole stretch from the element that switches compensation on (the first one
// that is not of length zero) to the last before it is switched off; with `cancelled` the last element is the one that
// switches it off. Each element must begin where the one before it ends.
//
//  - Uncompensated, the programmed point is the imaginary tip. So the path begins at elements.front().from and, with
//    `cancelled`, ends at elements.back().to.
//  - Start-up A: a straight move to where the nose centre stands perpendicular to the start of the next element.
//    Cancelling A: a straight move away from where the centre stands perpendicular to the end of the element before.
//  - Start-up and cancelling B go round an outside corner as if the switching move were compensated too: with a turn of
//    up to 90° straight to (from) the intersection of its offset with that of its neighbour; with a sharper one
//    straight to where both would be lengthened by the nose radius, and across. At an inside corner B is A. Common
//    practice, no source; controls differ in the pieces B adds, which all lie outside the profile.
//  - A change of side: the element before ends, and the one behind begins, where the centre stands perpendicular to it
//    on its own side; a straight piece joins the two. Where the path comes back on itself they are one point, and
//    straight on there is no other way; elsewhere controls differ, and it is an issue. Common practice, no source.
//  - Inside corners: intersection of the neighbours. Outside corners up to 90°: both neighbours are lengthened along
//  their
//    tangents to the intersection. Sharper: each is lengthened by the nose radius and a straight piece joins them. What
//    lengthens an arc is a straight piece of its own. Common practice, no source. A tangent joint adds nothing.
//  - Every element gives at least one stretch, in order; one that vanished or had no length gives a stretch of no
//  length
//    of kind Feed (or Rapid). An arc from a point to itself counts as having no length: full circles are the caller's
//    to refuse.
//  - What has no room is an issue; its neighbours are then joined without it, or, where they do not meet, by a straight
//    piece. Only what neighbours take from each other is seen: a profile that closes in on itself further on is found
//    by cutting it.
//
// `side` Off gives `elements` back. Time and memory are linear in their number.
std::vector<PathElement> compensate(const std::vector<PathElement>& elements, const CompensationSetting& setting,
                                    bool cancelled, std::vector<CompensationIssue>& issues);

}  // namespace firstoff
