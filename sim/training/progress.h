// What somebody has learned so far, in a plain file (TOML) of their own. No clock: the date is whatever text the caller
// passes in.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "sim/training/lesson.h"

namespace firstoff {

struct StepProgress {
    bool answered = false;
    bool right = false;  // once right, always right
    int tries = 0;
    std::string date;  // of the last try; may be empty
    friend bool operator==(const StepProgress&, const StepProgress&) = default;
};

struct Progress {
    // Name of the lesson, then name of the step.
    std::map<std::string, std::map<std::string, StepProgress>> lessons;

    // All nothing where there is none yet.
    StepProgress of(const Lesson& lesson, int step) const;
    int rightSteps(const Lesson& lesson) const;
    friend bool operator==(const Progress&, const Progress&) = default;
};

// With one more try. Anything but right or wrong is no try and changes nothing.
Progress withTry(Progress progress, const Lesson& lesson, int step, bool right, std::string date);

struct ReadProgress {
    Progress progress;
    // What was wrong with the file and where its old contents were kept, in plain words; empty where all is well. A
    // file that is not there yet is well.
    std::string told;
};

// A file that cannot be read as a record is copied beside itself (".spoilt", ".spoilt-2", …) before anything else may
// replace it; what of it can be read is taken. Throws std::runtime_error if it is there but cannot be read at all, or
// if no copy can be made: it must not be written over then.
ReadProgress readProgress(const std::filesystem::path& file);

// By a temporary beside it that is renamed; folders are made. Throws std::runtime_error.
void saveProgress(const std::filesystem::path& file, const Progress& progress);

}  // namespace firstoff
