// A lesson tried out before a class meets it: whether its files are whole, its job runs, and its own answers are marked
// as they should be.
#pragma once

#include <string>
#include <vector>

#include "sim/training/lesson_trials.h"
#include "sim/training/marking.h"

namespace firstoff {

struct StepCheck {
    bool good = false;
    std::string told;                   // "right answer: 1592 rev/min, within 5"
    std::vector<std::string> troubles;  // why it cannot be used as it stands
};

struct LessonCheck {
    std::vector<LessonFault> faults;  // of the files
    std::vector<StepCheck> steps;     // one per step
    bool good() const;
};

// The model answer must be marked right by markAnswer, the program given wrong; what a step shows must be there.
LessonCheck checkLesson(const Lesson& lesson, const LessonTrials& trials, const TrialOptions& options = {});

// For a terminal.
std::string lessonReport(const Lesson& lesson, const LessonCheck& check);

}  // namespace firstoff
