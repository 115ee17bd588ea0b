// The parts of a sheet on pages. Inside sim/output/sheets only.
#pragma once

#include <vector>

#include "sim/output/sheets/paper_pages.h"
#include "sim/output/sheets/sheet.h"

namespace firstoff {

// Draws from the place where the pages stand, over as many pages as it takes, and leaves them behind it. `after`: the
// height of what follows and must not be parted from it; counts for tables.
void drawPart(PaperPages& pages, const SheetPart& part, double after = 0);

// The least height with which a part can begin on a page.
double leastHeight(const TypeCase& type, const SheetPart& part);

// Labels above their values, in columns; both return the height.
double drawFacts(const TypeCase& type, const std::vector<SheetFact>& facts, double x, double y, double width);
double heightOfFacts(const TypeCase& type, const std::vector<SheetFact>& facts, double width);

// paper_program.cpp
void drawProgramLine(PaperPages& pages, const SheetProgramLine& line);
double programLineHeight(const TypeCase& type, const SheetProgramLine& line);

// paper_table.cpp
void drawTable(PaperPages& pages, const SheetTable& table, double after);
double leastTableHeight(const TypeCase& type, const SheetTable& table);

}  // namespace firstoff
