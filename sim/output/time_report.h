// Where the time of the cycle goes, as text and as tables.
#pragma once

#include <optional>
#include <string>

#include "sim/trial/trial.h"

namespace firstoff {

// One line for the terminal report: the cycle by kinds. Empty for a trial without moves.
std::string timeSummary(const Trial& trial);

// For people: the cycle, parts per hour, a table by tool and one by operation, what could be saved, what was taken.
std::string timeReport(const Trial& trial);

// For spreadsheets: `part,name,line,cutting_s,air_s,rapid_s,index_s,spindle_s,dwell_s,other_s,total_s,share_percent`, a
// row for the whole cycle, for each tool and for each operation in order of time.
std::string timeTable(const Trial& trial);

// With what the set-up gives for the change of parts; nothing where it does not say, or nothing runs.
std::optional<double> partsPerHour(const Trial& trial);

}  // namespace firstoff
