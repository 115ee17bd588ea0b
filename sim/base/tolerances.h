// Every tolerance of the simulation, and what breaks when it is changed.
#pragma once

namespace firstoff::tolerance {

// Two positions nearer than this are the same position. Far above the rounding of doubles at lathe sizes (1e-12 mm),
// far below a control's least increment (0.001 mm). Larger: short moves vanish. Smaller: rounding makes moves.
inline constexpr double kSamePlaceMm = 1e-7;

// A tool that takes off less than this, radially, only touches. Below the least increment, above the rounding left after
// a cut along the same line. Larger: a rapid through thin stock is missed. Smaller: a rapid that slides along its own
// finished surface is reported as a crash.
inline constexpr double kTouchMm = 1e-3;

// Largest difference between start and end radius of an arc before it is an error, as NISTIR 6556 sec. 3.5.3.2 sets it
// for mm programs. A set-up may widen it, as real controls do.
inline constexpr double kArcClosureMm = 0.002;

// Greatest deviation of a section polyline from the columns it is drawn from. Larger: gauged sizes drift. Smaller: long
// section files.
inline constexpr double kSectionMm = 0.0005;

}  // namespace firstoff::tolerance
