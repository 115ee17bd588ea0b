// A cycle drawn to scale: the half-section that it meets, its profile, and every pass as the tip goes. Inside
// sim/output/sheets and its tests only.
#pragma once

#include <string>
#include <vector>

#include "sim/output/sheets/cycle_runs.h"
#include "sim/output/sheets/sketch.h"

namespace firstoff {

// Lines of the drawing: phantom the metal before the cycle, wide what the program says the part shall be (or what the
// cycle leaves where it has no profile), one narrow open line for each pass that cuts (fine where there are more than
// eight, and rapids of the first and the last alone), hidden (dashed) the rapids,
// centre (dash and dot) the axis and the way of the nose's centre where compensation parts it from the tip. Light is
// the metal that stays, middle the edge where the last pass ends; the datum has its mark. A legend with a sample of
// each line stands below. What moves do not tell – nothing was held, no tool – is left out.
Sketch cycleFigure(const Trial& trial, const CycleRun& run, double widthMm);

// The profile of a cycle with P and Q as it is programmed, without allowance and without nose-radius compensation,
// lathe frame, arcs in chords; empty for other cycles.
std::vector<Point> programmedProfile(const Trial& trial, const CycleRun& run);

}  // namespace firstoff
