// Envelopes of what stands around the billet, as convex polygons in the turning half-plane (lathe frame, both sides of
// the axis).
#pragma once

#include <cstdint>
#include <vector>

#include "sim/base/point.h"
#include "sim/setup/setup.h"

namespace firstoff {

enum class Body : std::uint8_t { ChuckBody, Jaws, TailstockQuill, TailstockCentre };

// "chuck", "jaws", … as messages say it.
const char* name(Body body);

enum class ToolPart : std::uint8_t { Edge, Holder };

struct Envelope {
    Body body = Body::ChuckBody;
    std::vector<Point> corners;  // anticlockwise
};

// Only what has a size: nothing for a chuck without dimensions or a lathe without tailstock. Jaws are left out where
// the bar is as large as the circle they sweep.
std::vector<Envelope> envelopesOf(const Setup& setup);

}  // namespace firstoff
