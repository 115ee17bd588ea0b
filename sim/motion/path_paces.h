// How fast feed moves pass from one into the next: what the control's look-ahead does.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/control/toolpath.h"
#include "sim/setup/setup.h"

namespace firstoff {

// A stretch during which everything stands by the operator's hand.
struct HeldFeed {
    std::uint32_t beforeMove = 0;  // index into Toolpath::moves
    double seconds = 0;
};

// Overrides::holds, each before the first move of its line in the program's own file; in order of moves. Lines that
// move nothing are left out.
std::vector<HeldFeed> heldFeeds(const Toolpath& toolpath, const Setup& setup);

// Pace along the path at the end of every move of the toolpath, mm/s; the next one begins at it. 0 where the axes
// stand: at rapids, threads, dwells and indexes, program stops and feed holds, where the spindle has to change its
// speed first, and at every end of a block where the set-up or the program (G61, G09) asks for an exact stop. Where two
// feed moves meet it is what lets
//   - neither ask for more than its own pace there,
//   - the speed of no axis jump by more than the set-up lets it at a corner (without a figure: smooth up to one
//   degree),
//   - every later block be come down to, as far ahead as the control sees.
// Empty where the set-up does not say how the axes accelerate.
std::vector<float> pacesAtEnds(const Toolpath& toolpath, const Setup& setup, const std::vector<HeldFeed>& holds);

// Corners less sharp than this are passed without a jump where the set-up gives none, rad.
inline constexpr double kSmoothCorner = 0.017453292519943295;  // 1 degree

}  // namespace firstoff
