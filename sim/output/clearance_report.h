// What the clearance check says beyond its findings: how wrong things may be, which bodies were watched, how near they
// came.
#pragma once

#include <string>

#include "sim/trial/trial.h"

namespace firstoff {

// A few lines for the terminal: the smallest clearance, the table of margins, what was watched. Empty for a trial
// without moves.
std::string clearanceSummary(const Trial& trial);

// "more than 50", "3.20 at line 120: the holder of station 3 / the jaws"; X on radius and on diameter are both told by
// `marginTable`.
std::string marginInWords(const Trial& trial, const Margin& margin);

// Tables for spreadsheets. `subject,way,margin_mm,limited,line,body,other`: a row per tool and way, then stick-out and
// datum; X as diameter; `limited` 0 where nothing is met up to that figure.
std::string marginTable(const Trial& trial);
// `body,other,gap_at_least_mm,exact,line`: a row per pair watched; `exact` 0 where the true gap is larger.
std::string pairTable(const Trial& trial);

// Line of the program that a timed move belongs to; 0 where none does.
std::uint32_t lineOfMove(const Trial& trial, std::size_t timedMove);

}  // namespace firstoff
