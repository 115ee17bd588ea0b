// What the readers of the kinds of tool share. Inside sim/setup only.
#pragma once

#include <optional>

#include "sim/setup/setup.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

using ToolTable = TableReading;

// Each fills in what its kinds of tool need and mends what contradicts itself.
void readInsertTool(const ToolTable& from, Tool& tool);  // turning, boring
void readAxialTool(const ToolTable& from, Tool& tool);   // drills, reamers, taps

// Of a tool with an insert that has been read: the head of its holder, and the shank where the designation says it. The
// entering angle by that designation, degrees, nothing where there is none or it is not understood.
std::optional<double> readHolder(const ToolTable& from, Tool& tool);

}  // namespace firstoff
