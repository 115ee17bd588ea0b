// The trials that a lesson is marked by: each job once, and each model solution.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "sim/training/lesson.h"
#include "sim/trial/trial.h"

namespace firstoff {

// A program on a set-up, tried; the trial is null where it could not be, and `trouble` says why in plain words.
struct TriedProgram {
    std::shared_ptr<const Trial> trial;
    std::string trouble;
};

// Tries a program text as if it stood in `programFile`; files it calls are looked for beside that. `options.stop` may
// end it: then there is neither trial nor trouble.
TriedProgram tryProgram(const std::string& text, const std::filesystem::path& programFile,
                        const std::filesystem::path& setupFile, TrialOptions options = {});

struct StepTrials {
    TriedProgram job;    // what is shown and asked about; of Mend and Write the program as it is given
    TriedProgram model;  // Mend, Write
};

// Per step of the lesson. Jobs that several steps share are tried once. Immutable once made, so that a window may hold
// it while a worker marks.
struct LessonTrials {
    std::vector<StepTrials> steps;
};

// Of all steps, or of one of them (from 1) alone; the others stay empty.
LessonTrials tryLesson(const Lesson& lesson, const TrialOptions& options = {}, int onlyStep = 0);

}  // namespace firstoff
