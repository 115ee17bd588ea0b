// The part gauged against its drawing, for people and for spreadsheets.
#pragma once

#include <string>

#include "sim/trial/trial.h"

namespace firstoff {

// A line per dimension with its number, name, limits, the simulated size, what it is, the line and tool that made it
// and what to key in; then where the outline is not met, and what was assumed. Says so where the set-up gives no
// drawing.
std::string gaugeTable(const Trial& trial);

// The same as rows
// number,name,kind,least,most,simulated,unit,state,line,tool,offset,axis,correction_mm,why
// unit mm or deg; state within, too-small, too-large, not-found; cells that say nothing are empty.
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

}  // namespace firstoff
