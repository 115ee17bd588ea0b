// What a step asks of a program beyond the right part: looked for in its trial. Inside sim/training only.
#pragma once

#include <string>
#include <vector>

#include "sim/training/lesson.h"
#include "sim/trial/trial.h"

namespace firstoff {

// Each need that is not met, in a sentence with its line and figures.
std::vector<std::string> unmetNeeds(const Trial& made, const Trial& model, const ProgramNeeds& needs);

// The cycles that were carried out, as G numbers of code system A, in order; one that runs several times in a row from
// the same line counts once.
std::vector<int> cyclesCarriedOut(const Trial& trial);

}  // namespace firstoff
