// Trials of the demo jobs under assets/jobs, each made once.
#pragma once

#include <string>

#include "sim/trial/trial.h"

namespace firstoff::shop {

// "hose-adapter". Throws std::runtime_error where there is no such job.
const Trial& demoTrial(const std::string& name);

}  // namespace firstoff::shop
