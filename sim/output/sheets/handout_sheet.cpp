// A hand-out that teaches the very program it was made from.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/sheets/cycle_figure.h"
#include "sim/output/sheets/cycle_runs.h"
#include "sim/output/sheets/exercises.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/plain_words/code_reference.h"

namespace firstoff {

namespace {

SheetSection cautionSection(const Trial& trial) {
    SheetSection section;
    section.heading = tr("Before this program runs on a machine");
    section.parts.emplace_back(
        caution(tr("The machine's and the chuck's manuals, the local rules and those who are authorised decide what is "
                   "allowed. This paper is for learning and replaces none of them.")));
    for (const char* text :
         {tr("Dry run first, well above the work or with no bar in the chuck."),
          tr("Single block, the rapid override low, a hand on the feed hold, until every tool has been seen through."),
          tr("Guards shut; nobody reaches in while the spindle or the turret can move."),
          tr("Offsets, datum and stick-out checked at the machine against the set-up sheet.")}) {
        section.parts.emplace_back(item(text));
    }
    const double marked = trial.setup.chuck.maxRevPerMin;
    section.parts.emplace_back(item(
        marked > 0 ? say("No faster than the chuck and its jaws are marked for: the set-up says {} rev/min; read it "
                         "off the chuck.",
                         figure(marked, 0))
                   : std::string(tr("No faster than the chuck and its jaws are marked for: the set-up does not say; "
                                    "read it off the chuck."))));
    return section;
}

// The code as the program's system writes it, as far as the reference has it.
std::string codeOf(const CodeReference& reference, Order order) {
    const auto row = std::find_if(reference.rows.begin(), reference.rows.end(),
                                  [&](const ReferenceRow& r) { return r.order == order; });
    return row == reference.rows.end() ? std::string() : row->code;
}

// "X49 · X44 · X39": where the passes of a cycle run, or end, in the units of the program.
std::string levels(const Trial& trial, const CycleRun& run) {
    std::string text;
    const Move& first = trial.toolpath.moves[run.firstMove()];
    const double unit = trial.toolpath.modals[first.modal].inches ? kMmPerInch : 1;
    const double across = (trial.setup.control.radiusProgramming ? 1 : 2) / unit;
    for (std::size_t i = 0; i < run.passes.size(); ++i) {
        const CyclePass& pass = run.passes[i];
        if (pass.alongProfile) continue;
        std::string one;
        switch (run.order) {
            case Order::RoughingAlong:
            case Order::TurningPass:
                one = fmt::format("X{}", shortFigure(across * pass.level.r, 3));
                break;
            case Order::RoughingAcross:
            case Order::FacingPass:
            case Order::FacePeck:
            case Order::PeckDrill:
                one = fmt::format("Z{}", shortFigure(pass.level.z / unit, 3));
                break;
            case Order::ThreadingCycle:
            case Order::ThreadingPass:
                if (pass.threadDepth > 0) one = shortFigure(pass.threadDepth, 3);
                break;
            default:
                break;
        }
        if (one.empty()) return {};
        if (!text.empty()) text += " · ";
        text += one;
    }
    return text;
}

std::string levelWords(const Trial& trial, const CycleRun& run) {
    const std::string all = levels(trial, run);
    if (all.empty()) return {};
    switch (run.order) {
        case Order::RoughingAlong:
        case Order::TurningPass:
            return say("Its passes run at {}.", all);
        case Order::ThreadingCycle:
        case Order::ThreadingPass:
            return say("Depth of its passes below the crest, mm: {}.", all);
        case Order::FacePeck:
        case Order::PeckDrill:
            return say("Its pecks end at {}.", all);
        default:
            return say("Its passes end at {}.", all);
    }
}

std::string titleOf(const Trial& trial, const CycleRun& run, std::size_t number) {
    const std::string code = codeOf(codeReference(trial.setup.control.codeSystem), run.order);
    const std::string from = blockName(trial.program, run.block);
    if (run.block == run.lastBlock) return say("Figure {}. The cycle {} of {}", number, code, from);
    return say("Figure {}. The cycle {} of {} to {}", number, code, from, blockName(trial.program, run.lastBlock));
}

std::string passesInWords(const CycleRun& run) {
    const auto along = static_cast<std::size_t>(
        std::count_if(run.passes.begin(), run.passes.end(), [](const CyclePass& pass) { return pass.alongProfile; }));
    const std::size_t rough = run.passes.size() - along;
    if (rough == 0) {
        return along == 1 ? std::string(tr("one pass along the profile.")) : say("{} passes along the profile.", along);
    }
    std::string text = rough == 1 ? std::string(tr("one pass")) : say("{} passes", rough);
    if (along == 0) text += '.';
    if (along == 1) text += tr(", then one along the profile.");
    if (along > 1) text += say(", then {} along the profile.", along);
    return text;
}

// The number of the exercise that asks what the passes of a cycle are; 0 where none does.
std::size_t askedIn(const std::vector<Exercise>& exercises, const CycleRun& run) {
    const auto asked = std::find_if(exercises.begin(), exercises.end(), [&](const Exercise& e) {
        const bool ofPasses = e.kind == Exercise::Kind::PassesOfCycle || e.kind == Exercise::Kind::DepthOfPass;
        return ofPasses && e.block == run.block;
    });
    return asked == exercises.end() ? 0 : static_cast<std::size_t>(asked - exercises.begin()) + 1;
}

// What an exercise asks is not given away here.
std::string caption(const Trial& trial, const CycleRun& run, std::size_t number,
                    const std::vector<Exercise>& exercises) {
    std::string text = titleOf(trial, run, number);
    if (const std::size_t exercise = askedIn(exercises, run); exercise > 0) {
        text += say(": see exercise {}.", exercise);
    } else {
        text += ": ";
        text += passesInWords(run);
        const std::string levels = levelWords(trial, run);
        if (!levels.empty()) text += ' ';
        text += levels;
    }
    if (run.times > 1) {
        text += ' ';
        text += say("It is carried out {} times; the first is drawn.", run.times);
    }
    return text;
}

SheetSection cyclesSection(const Trial& trial, const std::vector<Exercise>& exercises, double widthMm) {
    SheetSection section;
    section.heading = tr("The cycles, to scale");
    const std::vector<CycleRun> runs = cycleRuns(trial);
    for (std::size_t i = 0; i < runs.size(); ++i) {
        section.parts.emplace_back(
            SheetFigure{cycleFigure(trial, runs[i], widthMm), caption(trial, runs[i], i + 1, exercises)});
    }
    return section;
}

SheetSection exerciseSection(const std::vector<Exercise>& exercises) {
    SheetSection section;
    section.heading = tr("Exercises");
    section.parts.emplace_back(
        plain(tr("All answers can be found from the program and this paper. π is 3.1416, v the surface speed in m/min, "
                 "n the spindle speed in rev/min, d the diameter in mm.")));
    int number = 0;
    for (const Exercise& exercise : exercises) {
        section.parts.emplace_back(SheetQuestion{std::to_string(++number), exercise.question, 2});
    }
    return section;
}

// Where the passes of the cycle lie that an exercise asks about.
std::string passesBehind(const Trial& trial, const Exercise& exercise) {
    if (exercise.kind != Exercise::Kind::PassesOfCycle) return {};
    for (const CycleRun& run : cycleRuns(trial)) {
        if (run.block == exercise.block) return levelWords(trial, run);
    }
    return {};
}

SheetSection answerSection(const Trial& trial, const std::vector<Exercise>& exercises) {
    SheetSection section;
    section.heading = tr("Answers");
    section.newPage = true;
    int number = 0;
    for (const Exercise& exercise : exercises) {
        SheetEntry entry;
        entry.mark = std::to_string(++number);
        entry.heading = exercise.question;
        std::string answer = exercise.answer;
        const std::string passes = passesBehind(trial, exercise);
        if (!passes.empty()) answer += ' ';
        answer += passes;
        entry.text.push_back(plain(std::move(answer)));
        section.parts.emplace_back(std::move(entry));
    }
    return section;
}

void addIfAny(Sheet& sheet, SheetSection section) {
    if (!section.parts.empty()) sheet.sections.push_back(std::move(section));
}

}  // namespace

Sheet handoutSheet(const Trial& trial, const SheetOptions& options) {
    Sheet sheet = sheetFrame(trial, tr("Hand-out"), options);
    sheet.sections.push_back(verdictSection(trial));
    if (!trial.notChecked.empty()) {
        sheet.sections.back().parts.emplace_back(
            plain(tr("What the trial did not look at stands on the findings report.")));
    }
    sheet.sections.push_back(cautionSection(trial));
    sheet.sections.push_back(programSection(trial));
    const std::vector<Exercise> exercises = exercisesOf(trial);
    addIfAny(sheet, cyclesSection(trial, exercises, options.figureMm));
    sheet.sections.push_back(codeCardSection(trial));
    if (!exercises.empty()) {
        sheet.sections.push_back(exerciseSection(exercises));
        if (options.answers) sheet.sections.push_back(answerSection(trial, exercises));
    }
    return sheet;
}

}  // namespace firstoff
