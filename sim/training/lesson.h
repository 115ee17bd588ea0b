// A lesson: a text, a job and steps, read from a folder. writing-lessons.md beside the lessons describes the files for
// those who write them.
//
// Step n is read together with what stands below the n-th heading of the second level ("## …") of lesson.md.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "sim/training/lesson_text.h"
#include "sim/training/line_place.h"
#include "sim/training/quantity.h"

namespace firstoff {

// What is wrong with a lesson, for whoever wrote it. The rest of the lesson still works.
struct LessonFault {
    std::string file;        // within the folder of the lesson, e.g. "lesson.toml"
    std::uint32_t line = 0;  // from 1; 0: the file as a whole
    std::string cause;
    std::string remedy;
    int step = 0;  // from 1, where it belongs to one; 0: to none
};

// "lesson.toml, line 12: cause Remedy."
std::string inWords(const LessonFault& fault);

struct LessonChoice {
    std::string text;
    bool right = false;
    std::string reply;  // to whoever chooses it; may be empty
};

// What is asked of a program beyond the right part without a problem.
struct ProgramNeeds {
    double toleranceMm = 0.02;            // by which the outline may depart from that of the model, over or under
    std::optional<double> mostLongerS;    // than the model
    std::optional<double> mostRevPerMin;  // anywhere in the cycle
    std::optional<double> deepestCutMm;   // radially, of cuts along the axis
    bool compensation = false;            // of nose radius, where the model leaves a surface with it
    bool surfaceSpeed = false;            // constant surface speed, likewise
    bool speedClamp = false;              // in force wherever the surface speed is held
    std::vector<int> cycles;              // G numbers, to be carried out in this order
    std::vector<std::string> gone;        // codes of findings, notes too, that must not be there
};

struct LessonStep {
    enum class Kind : std::uint8_t {
        Show,     // a span of the job is shown
        Choose,   // what happens next? One or several of the choices are right
        Number,   // how much?
        Mend,     // the program has a fault: find it and mend it
        Write,    // the program has a gap: write what is missing
        Predict,  // where does the tip stand?
    };
    Kind kind = Kind::Show;
    std::string name;        // for the record of progress; "step-3" if the lesson gives none
    std::string title;       // the heading of its text
    LessonText text;         // below that heading
    std::uint32_t line = 0;  // in lesson.toml

    // The job it is about; the lesson's where the step names none. As named in the file.
    std::string program, setup;
    // What is shown: lines from … to, or a stretch of the cycle, s; neither: the whole cycle.
    std::optional<LinePlace> fromLine, toLine;
    std::optional<double> fromTimeS, toTimeS;
    LessonView view = LessonView::Part;

    std::string question;
    std::string whenRight;  // told with the answer; may be empty
    std::string hint;       // told with a wrong answer; may be empty

    std::vector<LessonChoice> choices;  // Choose

    // Number: gauged from the trial, or given.
    std::optional<Quantity> quantity;
    std::optional<double> answer;
    std::string unit;
    // Number: in that unit, or as a share of the right figure; Predict: mm from the place, on radius.
    double tolerance = 0;
    double tolerancePercent = 0;

    std::optional<LinePlace> atLine;  // Predict: the place is that of the tip when this line has been carried out

    std::string solution;  // Mend, Write: file of the model solution
    std::string gap;       // Write: the line of the program, a comment, in whose place the missing blocks belong
    ProgramNeeds needs;    // Mend, Write

    // False: the file has a fault that leaves nothing to answer. It can still be read.
    bool usable = true;
};
// "show", "choose", "number", "mend", "write", "predict": as in lesson.toml.
const char* name(LessonStep::Kind kind);
inline constexpr std::string_view kStepKinds = "show|choose|number|mend|write|predict";

struct Lesson {
    std::filesystem::path folder;
    std::string name;  // of the folder, e.g. "03-surface-speed"
    std::string title;
    std::string about;   // one sentence for the list of lessons; may be empty
    int minutes = 0;     // that it takes about; 0: not said
    LessonText opening;  // above the first heading of the second level
    std::vector<LessonStep> steps;
    std::vector<LessonFault> faults;

    // False: there is nothing to learn, not even a text.
    bool usable() const { return !steps.empty() || !opening.empty(); }
};

// Reads a lesson in `language` (ISO 639-1); what is not there in it is taken in English. Never throws for what the
// folder holds: what is wrong is among the faults. Programs and set-ups are looked at only as far as files go.
Lesson readLesson(const std::filesystem::path& folder, std::string_view language = "en");

// A file that a lesson names, as a path; within the folder of the lesson or beside it.
std::filesystem::path fileOf(const Lesson& lesson, const std::string& name);

}  // namespace firstoff
