// Trials whose outcome goes into a file. Inside sim/cli only.
#pragma once

#include "sim/cli/job_files.h"

namespace firstoff::cli {

// Runs one job for a table or another file; what is wrong with it is told on standard error so that the table stays
// clean. Throws std::runtime_error if there is nothing to make it from.
TriedJob tryForFile(const Job& job);

}  // namespace firstoff::cli
