// Tables for spreadsheets and scripts: comma separated, point as decimal mark, X as diameter, mm, s.
#pragma once

#include <string>

#include "sim/base/point.h"
#include "sim/trial/trial.h"

namespace firstoff {

// A row per move in machining order:
// line,block,pass,tool,kind,x0,z0,x1,z1,xc,zc,feed_mm_per_rev,rpm_start,rpm_end,t0_s,t1_s,comp
// `block` is the N number, `tool` the station, `comp` off, left or right; positions are programmed ones. Cells that say
// nothing about a move (the centre of a line, the feed of a rapid) are empty.
std::string movesTable(const Trial& trial);

// Closed loops of the half-section at a time, `piece,loop,z_mm,r_mm`, first point repeated at the end, r >= 0, Z0 at
// sectionDatum(); corners where they are, arcs in chords within tolerance::kSectionMm. Piece 0 is what is still held,
// 1… what has been cut off. The meridian is the one nearest to `angle` of those that are known.
std::string sectionTable(const Trial& trial, double timeS, double angle = 0);
// The same of contours at hand, in lathe frame.
std::string sectionTable(const std::vector<SectionContour>& contours, double datumZ);

// The angle, rad, at which the section for `angle` stands. Angles count from the spindle's marker, where hexagon and
// square bars have a flat, in the order in which the bar passes a tool under M03.
double sectionAngle(const Trial& trial, double angle);

// Datum of the work offset in force at the first cutting move; without one, of the first move; lathe frame.
Point sectionDatum(const Trial& trial);

}  // namespace firstoff
