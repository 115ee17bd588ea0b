// What all sheets have: title block, cautions, and the sections that more than one of them has. Inside
// sim/output/sheets only.
#pragma once

#include <string>
#include <vector>

#include "sim/output/sheets/job_sheets.h"

namespace firstoff {

// Without sections.
Sheet sheetFrame(const Trial& trial, std::string title, const SheetOptions& options);

// Of a path, made fit to be shown and not too long.
std::string fileName(const std::string& path);

// The remarks with which a program begins, before its first words other than O; without brackets.
std::vector<std::string> headRemarks(const Program& program);

// The verdict as it must stand wherever figures of a trial stand.
SheetSection verdictSection(const Trial& trial);
// What was not looked at. Empty of parts where there is nothing to say.
SheetSection notCheckedSection(const Trial& trial);
// What the figures of a sheet take for granted, each once and in one place. Empty of parts likewise.
SheetSection grantedSection(const std::vector<std::string>& all);
// Whether the loads tell how far something gives way.
bool tellsBending(const Trial& trial);

SheetParagraph plain(std::string text);
SheetParagraph item(std::string text);
SheetParagraph caution(std::string text);
SheetParagraph minor(std::string text);

// Each text once, in order of its first place.
void addOnce(std::vector<std::string>& all, const std::vector<std::string>& some);

// Line of a block as papers name it: "12", "12 of O1234.nc"; "–" for none.
std::string lineWord(const Program& program, BlockId block);

// One sheet a source.
Sheet setupSheet(const Trial& trial, const SheetOptions& options);
Sheet inspectionSheet(const Trial& trial, const SheetOptions& options);
Sheet timeSheet(const Trial& trial, const SheetOptions& options);
Sheet findingsSheet(const Trial& trial, const SheetOptions& options);
Sheet handoutSheet(const Trial& trial, const SheetOptions& options);

// Section of the inspection sheet; empty of parts where no surface has a finish.
SheetSection finishSection(const Trial& trial);

// Sections of the hand-out.
SheetSection programSection(const Trial& trial);
SheetSection codeCardSection(const Trial& trial);

// Sections of the set-up sheet.
SheetSection toolsSection(const Trial& trial);
SheetSection firstMovesSection(const Trial& trial);
SheetSection marginsSection(const Trial& trial);
SheetSection gripSection(const Trial& trial);
SheetSection loadsSection(const Trial& trial);
SheetSection edgesSection(const Trial& trial);
Sketch holdingSketch(const Trial& trial, double widthMm);

}  // namespace firstoff
