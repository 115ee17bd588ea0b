// Short descriptions of a block, a tool and a moment, for tool tips and labels.
#pragma once

#include <string>
#include <vector>

#include "gui/instant.h"
#include "gui/measures.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

// "line 12: " or nothing for line 0 (1-based).
std::string lineTitle(std::uint32_t line);
// "line 12: G01 X20. F.2", cut to a readable length.
std::string blockTitle(const Trial& trial, BlockId block);
// "T3 rough turning" as the set-up names it; "T3 (not in the set-up)".
std::string toolTitle(const Trial& trial, std::uint16_t call);
// What runs, the position, speed and feed; one line each.
std::vector<std::string> instantTitle(const Trial& trial, const Instant& instant, Measures measures);
// "program stop", "optional stop", "end of program".
const char* stopTitle(ProgramStop::Kind kind);
// "rapid", "feed", "arc, clockwise", … in words for the window.
const char* motionTitle(MoveKind kind);

}  // namespace firstoff::gui
