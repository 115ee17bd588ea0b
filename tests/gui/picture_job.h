// A whole job for pictures: a stepped spigot, faced, roughed, finished, grooved and parted off.
#pragma once

#include <memory>
#include <string>

#include "sim/trial/trial.h"

namespace firstoff::gui {

std::shared_ptr<const Trial> pictureJob(bool tailstock = false);

// One of assets/jobs, by its name; what it needs from before is tried too.
std::shared_ptr<const Trial> demoJob(const std::string& name);

// A trial of any program and set-up, without findings and verdict.
std::shared_ptr<const Trial> cutFor(Program program, firstoff::Setup setup);

}  // namespace firstoff::gui
