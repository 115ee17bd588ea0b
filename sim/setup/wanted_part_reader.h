// Reads [drawing] and [[dimension]] of a set-up. Inside sim/setup only.
#pragma once

#include "sim/setup/table_reading.h"
#include "sim/setup/wanted_part.h"

namespace firstoff {

// Everything but the dimensions; contradictions go to the findings of `from`.
WantedPart readWantedPart(const TableReading& from);

// With `trouble` where something is wrong or missing, which is said then. `general`: [drawing] names a grade.
WantedDimension readDimension(const TableReading& from, bool general);

}  // namespace firstoff
