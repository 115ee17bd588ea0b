// Marks what somebody answered at a step of a lesson.
//
// Programs are marked by simulation: whatever makes the right part safely is right, however it is written. The part is
// right if its outline agrees with that of the model solution within the tolerance of the step, over and under, and if
// its threads do. It is safe if the verdict has no problem and nothing is unproven beyond what the model solution
// leaves unproven. What else the step asks for comes on top.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/training/lesson_trials.h"
#include "sim/training/part_difference.h"

namespace firstoff {

enum class Mark : std::uint8_t {
    Right,
    Wrong,
    NotProven,  // nothing is known to be wrong, but not all of it was understood or modelled
    Unusable,   // no answer to this step, or the step itself has a fault
};
// "right", "wrong", "not-proven", "unusable"
const char* name(Mark mark);

struct ChosenAnswer {
    std::vector<int> choices;  // indices into LessonStep::choices
};
struct NumberAnswer {
    double number = 0;  // in the unit of the step
};
// As the position display tells it: X as diameter, Z in work coordinates, mm.
struct PlaceAnswer {
    double xMm = 0;
    double zMm = 0;
};
struct ProgramAnswer {
    std::string text;  // all of the program
};
struct SeenAnswer {};  // of Show: it was read
using Answer = std::variant<SeenAnswer, ChosenAnswer, NumberAnswer, PlaceAnswer, ProgramAnswer>;

struct Marking {
    Mark mark = Mark::Unusable;
    std::string reply;  // one or two sentences: how it stands
    // What is still wrong, or not proven, each with its figures; when right: what there is to know all the same.
    std::vector<std::string> remarks;
    // Of a program that was tried: for looking at it. Else null.
    std::shared_ptr<const Trial> trial;
    PartDifference part;
};

// `trials` must be those of this lesson, with those of the step (from 1). Neither mark nor reply if the stop of
// `options` ended it: Unusable, and an empty reply.
Marking markAnswer(const Lesson& lesson, const LessonTrials& trials, int step, const Answer& answer,
                   const TrialOptions& options = {});

// The same for a Mend or Write step whose program has been tried already, on the set-up of the step: a window has its
// trial at hand.
Marking markTried(const Lesson& lesson, const LessonTrials& trials, int step, const TriedProgram& made);

// An answer as it is written in a terminal: choices by letters or numbers ("b", "1, 3"), a number, "X30 Z-12.5", a
// program, or for a gap its blocks alone (a whole program begins with %). Nothing where it cannot be read as that;
// `trouble` then says why.
std::optional<Answer> answerOf(const Lesson& lesson, int step, std::string_view text, std::string& trouble);

// The model answer of a step: the right choices, the figure, the place, the model solution. Nothing where the step has
// a fault.
std::optional<Answer> modelAnswer(const Lesson& lesson, const LessonTrials& trials, int step);
// In one line, for those who gave up or who check a lesson.
std::string inWords(const Lesson& lesson, int step, const Answer& answer);

// The program of a Write step with `blocks` in place of its gap.
std::string withGapFilled(std::string_view program, std::string_view gap, std::string_view blocks);

}  // namespace firstoff
