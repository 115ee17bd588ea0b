// What a set-up names in files beside it, read: bodies, the drawing of the part, and for its blank a drawing, or the
// program that was run on it before, which is tried first.
#pragma once

#include <filesystem>
#include <memory>

#include "sim/setup/setup.h"
#include "sim/trial/trial.h"

namespace firstoff {

struct ReadyBlank {
    Setup setup;
    std::shared_ptr<const StockHistory> previous;  // for TrialOptions; null where there is none
};

// Bodies as body_files.h has it. What fails is a finding of the set-up at the key that names the file, never an
// exception: a file that cannot be had, a set-up that comes before itself, more than eight one before the other. A
// trial before that is not clear is told as not proven. `setupFile` may be empty for a set-up that was never saved:
// then no file can be found. Of `options` the trials before take the threads and the stop.
ReadyBlank readBlank(Setup setup, const std::filesystem::path& setupFile, const TrialOptions& options = {});

}  // namespace firstoff
