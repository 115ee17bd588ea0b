// What the reference says beside the tables of the control: names of the groups of codes, letters under codes whose
// words the control's table does not explain, letters that hold under any code, macro statements.
#pragma once

#include <span>

#include "sim/control/codes.h"
#include "sim/control/word_roles.h"

namespace firstoff {

// "movement, and cycles that stay in force"; English, for tr().
const char* groupName(CodeGroup group);

// Letters under codes that say what they mean in one place only, so that the table of word_roles.h has no row for them.
std::span<const WordRole> furtherRoles();

struct ReferenceEntry {
    const char* written = "";  // of a macro statement English, for tr(): "#1 to #33"
    const char* meaning = "";
    const char* meaningBC = nullptr;  // in code systems B and C, where they take it otherwise
};

std::span<const ReferenceEntry> lettersUnderAnyCode();
std::span<const ReferenceEntry> macroStatements();

}  // namespace firstoff
