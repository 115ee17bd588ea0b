// What mends a finding for certain: a change of the text after which the finding is gone and no other has come.
//
// Certain means that nothing has to be guessed: either the program stays what it was taken as, and only the fault of
// writing goes (a comment that is not closed), or what stands there has no other meaning (a comma inside a number). A
// forgotten decimal point, a clamp for the spindle or the place of a G40 are choices of the one who answers for the
// part; nothing is offered for them.
#pragma once

#include <optional>
#include <string>

#include "sim/editing/text_change.h"
#include "sim/trial/trial.h"

namespace firstoff {

struct QuickFix {
    std::string words;    // what it does, for people: "Write 0 for the letter O"
    TextChanges changes;  // in the program's own file
};

// Nothing where no change is certain, or where the finding stands in another file.
std::optional<QuickFix> quickFix(const Trial& trial, const Finding& finding);

}  // namespace firstoff
