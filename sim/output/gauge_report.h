// The part gauged against its drawing, for people and for spreadsheets.
#pragma once

#include <string>

#include "sim/trial/trial.h"

namespace firstoff {

// A line per dimension with its number, name, limits, the size by the path of the tool, what part and bar give way, the
// size to be expected, what it is, the line and tool that made it and what it would want alone; then what to key in,
// one line for each offset and axis, where the outline is not met, and what was assumed. Says so where the set-up gives
// no drawing.
std::string gaugeTable(const Trial& trial);

// The dimensions as rows
// number,name,kind,least,most,simulated,bending,expected,unit,state,line,tool,alone_offset,alone_axis,alone_mm,why
// unit mm or deg; state within, too-small, too-large, not-found; cells that say nothing are empty, of bending where it
// is not known.
std::string gaugeRows(const Trial& trial);

// A line for the text report: how many of how many are within; empty without a drawing.
std::string gaugeSummary(const Trial& trial);

// "within", "too-small", "too-large", "not-found"; "diameter", "groove-width", … – the words of tables and reports.
const char* name(GaugedDimension::State state);
const char* name(WantedDimension::Kind kind);
// "within", "too small", "too large", "not found": for sentences.
const char* stateInWords(GaugedDimension::State state);
// A size of this dimension: "24.000", of a taper "36.870°"; "-" for no number.
std::string sizeInWords(const GaugedDimension& dimension, double size);
// What it gives way: "+0.012", "0", "not known".
std::string bendingInWords(const GaugedDimension& dimension);
// "from 24.004 at Z-2.000 to 24.012 at Z-20.000 along it"; empty where it is alike.
std::string endsInWords(const Trial& trial, const GaugedDimension& dimension);

}  // namespace firstoff
