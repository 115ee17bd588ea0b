// Case files: turning programs whose expectations stand in comments on the line they concern.
//
//   (expect rapid X20 Z2)             the line's next move: kind, then any of X (diameter) and Z of its end, F its
//   feed, (expect arc-cw X20 Z-5 I0 K-5)    I and K of an arc's centre from its start (radius), S seconds of a dwell,
//   (expect feed X20 Z-5 pass 2)      `pass` in a cycle, `comp left|right|off`
//   (expect thread X20 Z-30 F1.5)     F the lead, Q the start angle in degrees, `change` that of the lead
//   (expect no move)                  the line makes none
//   (expect finding CODE)             a finding on this line; `at 5` behind it gives its column, `unproven` its kind
//   (expect state NAME VALUE …)       what stands modally in the line's last move: feed-per-rev, feed, surface-speed (0
//   or
//                                     1), speed, clamp, spindle (-1 0 1), coolant, work-offset (54 …; 60 … for G54.1 P1
//                                     …), inches
//   (expect stop|optional-stop|end)   the program stops at this line
//   (option NAME)                     a switch of the control: block-skip, no-optional-stop, compensate-in-roughing,
//                                     plain-corners, offset-cancel-wear, offset-cancel-all, whole-units,
//                                     whole-increments, radius-programming, short-pecks,
//                                     compensation-start-b, system-b, system-c,
//                                     max-blocks N
//
// A line with any expected move must make exactly these moves; a move inside a cycle counts for the line that describes
// it. Every finding of the file must be expected. Positions are work coordinates.
// The set-up knows the M codes M07 (coolant), M19 (spindle oriented), M33 (spindle forward), M63 and M64.
#pragma once

#include <string>
#include <vector>

#include "sim/control/toolpath.h"

namespace firstoff::cases {

// What does not hold, in words, one entry each; empty when the case holds. Throws std::runtime_error for a file that
// cannot be read or whose expectations cannot.
std::vector<std::string> check(const std::string& pathInTree);

// The names in tests/cases/list.txt: files of that folder without their .nc.
std::vector<std::string> listed();

// A case's text, perhaps changed, carried out on the lathe of the cases with the options it asks for.
Toolpath carryOut(const std::string& text);

}  // namespace firstoff::cases
