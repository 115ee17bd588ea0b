#include "sim/training/marking.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/training/program_needs.h"

namespace firstoff {

namespace {

using Kind = LessonStep::Kind;

constexpr double kRounding = 1e-9;       // of figures, as a share: what floating point may add
constexpr std::size_t kMostRemarks = 8;  // of one sort; more help nobody

const LessonStep* stepOf(const Lesson& lesson, int step) {
    if (step < 1 || static_cast<std::size_t>(step) > lesson.steps.size()) return nullptr;
    return &lesson.steps[static_cast<std::size_t>(step) - 1];
}

const StepTrials* trialsOf(const LessonTrials& trials, int step) {
    if (step < 1 || static_cast<std::size_t>(step) > trials.steps.size()) return nullptr;
    return &trials.steps[static_cast<std::size_t>(step) - 1];
}

Marking unusable(std::string reply) {
    Marking marking;
    marking.reply = std::move(reply);
    return marking;
}

void append(std::string& text, const std::string& more) {
    if (more.empty()) return;
    if (!text.empty()) text += ' ';
    text += more;
}

Marking marked(Mark mark, std::string reply, const LessonStep& step) {
    Marking marking;
    marking.mark = mark;
    marking.reply = std::move(reply);
    if (mark == Mark::Right) append(marking.reply, step.whenRight);
    if (mark == Mark::Wrong && !step.hint.empty()) marking.remarks.push_back(step.hint);
    return marking;
}

// Whether what a figure is gauged from was understood.
const Finding* unprovenBehind(const Trial& trial, const std::optional<LinePlace>& line) {
    const BlockId block = line ? blockOf(trial.program, *line) : kNoBlock;
    for (const Finding& finding : trial.findings) {
        if (!finding.unproven || finding.span.file != SourceSpan::File::Program || finding.span.line == 0) continue;
        const bool here = trial.program.blockAt(finding.span.part, finding.span.line) == block;
        if (!line || here) return &finding;
    }
    return nullptr;
}

std::string findingInWords(const Finding& finding, const Trial& trial) {
    std::string text = whereOf(finding, trial.program, trial.setup.name);
    if (!text.empty()) text += ": ";
    text += finding.message;
    append(text, finding.remedy);
    return text;
}

Marking notCertain(const Finding& finding, const Trial& trial) {
    Marking marking;
    marking.mark = Mark::NotProven;
    marking.reply = tr("This cannot be marked: the simulation did not understand all that the figure hangs on.");
    marking.remarks.push_back(findingInWords(finding, trial));
    return marking;
}

// ---- choices

Marking markChoices(const LessonStep& step, const ChosenAnswer& answer) {
    const std::set<int> chosen(answer.choices.begin(), answer.choices.end());
    for (const int choice : chosen) {
        if (choice < 0 || static_cast<std::size_t>(choice) >= step.choices.size())
            return unusable(say("There are the choices 1 to {}.", step.choices.size()));
    }
    if (chosen.empty()) return unusable(tr("Nothing was chosen."));
    std::vector<std::string> replies;
    std::size_t wrong = 0, missing = 0;
    for (std::size_t i = 0; i < step.choices.size(); ++i) {
        const LessonChoice& choice = step.choices[i];
        const bool taken = chosen.contains(static_cast<int>(i));
        if (taken && !choice.right) ++wrong;
        if (!taken && choice.right) ++missing;
        if (taken && !choice.reply.empty()) replies.push_back(choice.reply);
    }
    const bool right = wrong == 0 && missing == 0;
    std::string reply = right ? tr("Right.") : tr("Not quite.");
    if (wrong == 0 && missing > 0) reply = tr("Right so far, but not all of it: something else is right as well.");
    Marking marking = marked(right ? Mark::Right : Mark::Wrong, reply, step);
    marking.remarks.insert(marking.remarks.begin(), replies.begin(), replies.end());
    return marking;
}

// ---- figures

struct RightFigure {
    std::optional<double> value;
    std::string trouble;
};

RightFigure rightFigure(const LessonStep& step, const StepTrials& trials) {
    if (step.answer) return {step.answer, {}};
    if (!trials.job.trial) return {std::nullopt, trials.job.trouble};
    QuantityValue gauged = gauge(*trials.job.trial, *step.quantity);
    return {gauged.value, std::move(gauged.trouble)};
}

double toleranceOf(const LessonStep& step, double right) {
    return std::max({step.tolerance, std::abs(right) * step.tolerancePercent / 100, std::abs(right) * kRounding});
}

bool isDiameter(const LessonStep& step) {
    if (!step.quantity) return false;
    switch (step.quantity->kind) {
        case QuantityKind::ClampDiameter:
        case QuantityKind::EndX:
        case QuantityKind::PassDiameter:
        case QuantityKind::FinishedDiameter:
            return true;
        default:
            return false;
    }
}

// Slips that every teacher knows; empty if it is none of them.
std::string slipOf(double given, double right, double tolerance, bool diameter) {
    const auto is = [&](double factor) { return std::abs(given - factor * right) <= std::abs(factor) * tolerance; };
    if (right == 0 || given == 0) return {};
    if (diameter && is(0.5)) return tr("That is half of it: X counts as diameter.");
    if (diameter && is(2)) return tr("That is twice of it: X counts as diameter already.");
    if (is(-1)) return tr("The figure is right, the sign is not.");
    if (is(10) || is(0.1) || is(100) || is(0.01) || is(1000) || is(0.001))
        return tr("The figures are right, the decimal point stands elsewhere.");
    return {};
}

std::string withUnit(double value, const std::string& unit) {
    std::string text = fmt::format("{:.4g}", value);
    if (std::abs(value) >= 1000) text = fmt::format("{:.0f}", value);
    if (std::abs(value) < 1000 && std::abs(value) >= 1) {
        text = fmt::format("{:.3f}", value);
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    if (!unit.empty()) {
        text += ' ';
        text += unit;
    }
    return text;
}

Marking markNumber(const LessonStep& step, const StepTrials& trials, const NumberAnswer& answer) {
    if (!std::isfinite(answer.number)) return unusable(tr("That is no number."));
    const RightFigure right = rightFigure(step, trials);
    if (!right.value) return unusable(say("This step cannot be marked: {}", right.trouble));
    if (step.quantity && step.quantity->kind != QuantityKind::FindingLine &&
        step.quantity->kind != QuantityKind::FindingCount) {
        if (const Finding* finding = unprovenBehind(*trials.job.trial, step.quantity->line))
            return notCertain(*finding, *trials.job.trial);
    }
    const double tolerance = toleranceOf(step, *right.value);
    const double off = answer.number - *right.value;
    if (std::abs(off) <= tolerance)
        return marked(Mark::Right, say("Right: {}.", withUnit(*right.value, step.unit)), step);
    std::string reply = off > 0 ? say("{} is too much.", withUnit(answer.number, step.unit))
                                : say("{} is too little.", withUnit(answer.number, step.unit));
    append(reply, slipOf(answer.number, *right.value, tolerance, isDiameter(step)));
    return marked(Mark::Wrong, reply, step);
}

// ---- places

std::optional<Point> rightPlace(const LessonStep& step, const StepTrials& trials) {
    if (!trials.job.trial || !step.atLine) return std::nullopt;
    return programmedEnd(*trials.job.trial, blockOf(trials.job.trial->program, *step.atLine));
}

std::string placeInWords(double xMm, double zMm) {
    return fmt::format("X{:.3f} Z{:.3f}", xMm, zMm);
}

std::string missInWords(const PlaceAnswer& answer, Point right, double tolerance) {
    const double x = answer.xMm - 2 * right.r, z = answer.zMm - right.z;
    std::string text = say("{} is not the place.", placeInWords(answer.xMm, answer.zMm));
    if (std::abs(x) / 2 > tolerance) {
        append(text, x > 0 ? say("X is {:.2f} mm too large in diameter.", x)
                           : say("X is {:.2f} mm too small in diameter.", -x));
        append(text, slipOf(answer.xMm, 2 * right.r, 2 * tolerance, true));
    }
    if (std::abs(z) > tolerance) {
        append(text, z > 0 ? say("Z is {:.2f} mm too far from the chuck.", z)
                           : say("Z is {:.2f} mm too near the chuck.", -z));
    }
    if (std::abs(x) / 2 <= tolerance && std::abs(z) <= tolerance)
        append(text, say("Along both axes together it is {:.2f} mm away.", std::hypot(x / 2, z)));
    return text;
}

Marking markPlace(const LessonStep& step, const StepTrials& trials, const PlaceAnswer& answer) {
    if (!std::isfinite(answer.xMm) || !std::isfinite(answer.zMm)) return unusable(tr("That is no place."));
    if (!trials.job.trial) return unusable(say("This step cannot be marked: {}", trials.job.trouble));
    const std::optional<Point> right = rightPlace(step, trials);
    if (!right) return unusable(say("This step cannot be marked: nothing moves in {}.", inWords(*step.atLine)));
    if (const Finding* finding = unprovenBehind(*trials.job.trial, step.atLine))
        return notCertain(*finding, *trials.job.trial);
    const double away = std::hypot(answer.xMm / 2 - right->r, answer.zMm - right->z);
    if (away <= step.tolerance + kRounding)
        return marked(Mark::Right, say("Right: the tip stands at {}.", placeInWords(2 * right->r, right->z)), step);
    return marked(Mark::Wrong, missInWords(answer, *right, step.tolerance), step);
}

// ---- programs

using Counts = std::map<std::string, int>;

Counts unprovenCounts(const Trial& trial) {
    Counts counts;
    for (const Finding& finding : trial.findings) {
        if (finding.unproven) ++counts[finding.code];
    }
    return counts;
}

class ProgramMarking {
public:
    ProgramMarking(const LessonStep& step, const Trial& made, const Trial& model)
        : step_(step), made_(made), model_(model) {}

    Marking run() {
        marking_.part = differenceOf(made_, model_, step_.needs.toleranceMm);
        problems();
        part();
        needs();
        const bool wrong = !marking_.remarks.empty();
        const bool notProven = unproven() || !marking_.part.compared;
        if (!marking_.part.compared) marking_.remarks.push_back(tr("There is no part to compare."));
        marking_.mark = wrong ? Mark::Wrong : notProven ? Mark::NotProven : Mark::Right;
        marking_.reply = reply();
        if (marking_.mark == Mark::Right) append(marking_.reply, step_.whenRight);
        if (marking_.mark == Mark::Wrong && !step_.hint.empty()) marking_.remarks.push_back(step_.hint);
        return std::move(marking_);
    }

private:
    void problems() {
        std::vector<std::string> told;
        for (const Finding& finding : made_.findings) {
            if (finding.severity != Severity::Note && !finding.unproven) told.push_back(findingInWords(finding, made_));
        }
        problems_ = told.size();
        add(told);
    }

    void part() {
        std::vector<std::string> told;
        for (const OutlineDeparture& departure : marking_.part.outline) told.push_back(inWords(departure));
        add(marking_.part.pieces);
        add(told);
        add(marking_.part.threads);
        departures_ = told.size() + marking_.part.pieces.size() + marking_.part.threads.size();
    }

    void needs() {
        const std::vector<std::string> unmet = unmetNeeds(made_, model_, step_.needs);
        unmet_ = unmet.size();
        add(unmet);
    }

    // More than the model solution leaves open itself.
    bool unproven() {
        Counts allowed = unprovenCounts(model_);
        std::vector<std::string> beyond, likewise;
        for (const Finding& finding : made_.findings) {
            if (!finding.unproven) continue;
            std::string told = say("Not proven: {}", findingInWords(finding, made_));
            (allowed[finding.code]-- > 0 ? likewise : beyond).push_back(std::move(told));
        }
        add(beyond);
        for (std::string& text : likewise) append(text, tr("The model solution leaves this open too."));
        add(likewise);
        return !beyond.empty();
    }

    void add(const std::vector<std::string>& some) {
        const std::size_t told = std::min(some.size(), kMostRemarks);
        marking_.remarks.insert(marking_.remarks.end(), some.begin(), some.begin() + static_cast<std::ptrdiff_t>(told));
        if (some.size() > told) marking_.remarks.push_back(say("… and {} more of this sort.", some.size() - told));
    }

    std::string reply() const {
        switch (marking_.mark) {
            case Mark::Right:
                return say(
                    "Right: nothing was found that would hit or stop, and the part is within {:g} mm of what was asked "
                    "for.",
                    step_.needs.toleranceMm);
            case Mark::NotProven:
                return tr("Nothing wrong was found, but not all of it is proven; so it does not count as right yet.");
            default:
                return whatIsWrong();
        }
    }

    std::string whatIsWrong() const {
        if (problems_ > 0 && departures_ > 0)
            return tr("Not yet: there are problems, and the part is not the right one.");
        if (problems_ > 0) return tr("Not yet: the part would be right, but there are problems on the way to it.");
        if (departures_ > 0) return tr("Not yet: it runs without a problem, but the part is not the right one.");
        return tr("Not yet: part and way are right, but not all was done that is asked for here.");
    }

    const LessonStep& step_;
    const Trial& made_;
    const Trial& model_;
    Marking marking_;
    std::size_t problems_ = 0, departures_ = 0, unmet_ = 0;
};

Marking markProgram(const LessonStep& step, const StepTrials& trials, const TriedProgram& made) {
    if (!trials.model.trial)
        return unusable(
            say("This step cannot be marked: the model solution could not be tried. {}", trials.model.trouble));
    if (!made.trial) return unusable(made.trouble);
    Marking marking = ProgramMarking(step, *made.trial, *trials.model.trial).run();
    marking.trial = made.trial;
    return marking;
}

struct MarkOne {
    const Lesson& lesson;
    const LessonStep& step;
    const StepTrials& trials;
    const TrialOptions& options;

    Marking operator()(const SeenAnswer&) const {
        return step.kind == Kind::Show ? marked(Mark::Right, tr("Read."), step) : otherKind();
    }
    Marking operator()(const ChosenAnswer& answer) const {
        return step.kind == Kind::Choose ? markChoices(step, answer) : otherKind();
    }
    Marking operator()(const NumberAnswer& answer) const {
        return step.kind == Kind::Number ? markNumber(step, trials, answer) : otherKind();
    }
    Marking operator()(const PlaceAnswer& answer) const {
        return step.kind == Kind::Predict ? markPlace(step, trials, answer) : otherKind();
    }
    Marking operator()(const ProgramAnswer& answer) const {
        if (step.kind != Kind::Mend && step.kind != Kind::Write) return otherKind();
        return markProgram(step, trials,
                           tryProgram(answer.text, fileOf(lesson, step.program), fileOf(lesson, step.setup), options));
    }

    static Marking otherKind() { return unusable(tr("This step asks for another kind of answer.")); }
};

}  // namespace

const char* name(Mark mark) {
    switch (mark) {
        case Mark::Right:
            return later("right");
        case Mark::Wrong:
            return later("wrong");
        case Mark::NotProven:
            return later("not-proven");
        case Mark::Unusable:
            return later("unusable");
    }
    return later("unusable");
}

Marking markAnswer(const Lesson& lesson, const LessonTrials& trials, int step, const Answer& answer,
                   const TrialOptions& options) {
    const LessonStep* asked = stepOf(lesson, step);
    const StepTrials* tried = trialsOf(trials, step);
    if (!asked || !tried) return unusable(say("The lesson has the steps 1 to {}.", lesson.steps.size()));
    if (!asked->usable) return unusable(tr("This step has a fault in its file and cannot be marked."));
    return std::visit(MarkOne{lesson, *asked, *tried, options}, answer);
}

Marking markTried(const Lesson& lesson, const LessonTrials& trials, int step, const TriedProgram& made) {
    const LessonStep* asked = stepOf(lesson, step);
    const StepTrials* tried = trialsOf(trials, step);
    if (!asked || !tried) return unusable(say("The lesson has the steps 1 to {}.", lesson.steps.size()));
    if (!asked->usable) return unusable(tr("This step has a fault in its file and cannot be marked."));
    if (asked->kind != Kind::Mend && asked->kind != Kind::Write) return MarkOne::otherKind();
    return markProgram(*asked, *tried, made);
}

std::optional<Answer> modelAnswer(const Lesson& lesson, const LessonTrials& trials, int step) {
    const LessonStep* asked = stepOf(lesson, step);
    const StepTrials* tried = trialsOf(trials, step);
    if (!asked || !tried || !asked->usable) return std::nullopt;
    switch (asked->kind) {
        case Kind::Show:
            return SeenAnswer{};
        case Kind::Choose: {
            ChosenAnswer answer;
            for (std::size_t i = 0; i < asked->choices.size(); ++i) {
                if (asked->choices[i].right) answer.choices.push_back(static_cast<int>(i));
            }
            return answer;
        }
        case Kind::Number: {
            const RightFigure right = rightFigure(*asked, *tried);
            if (!right.value) return std::nullopt;
            return NumberAnswer{*right.value};
        }
        case Kind::Predict: {
            const std::optional<Point> place = rightPlace(*asked, *tried);
            if (!place) return std::nullopt;
            return PlaceAnswer{2 * place->r, place->z};
        }
        case Kind::Mend:
        case Kind::Write:
            if (!tried->model.trial) return std::nullopt;
            return ProgramAnswer{std::string(tried->model.trial->program.textOfPart(0))};
    }
    return std::nullopt;
}

std::string inWords(const Lesson& lesson, int step, const Answer& answer) {
    const LessonStep* asked = stepOf(lesson, step);
    if (!asked) return {};
    if (const auto* chosen = std::get_if<ChosenAnswer>(&answer)) {
        std::string text;
        for (const int choice : chosen->choices) {
            if (choice < 0 || static_cast<std::size_t>(choice) >= asked->choices.size()) continue;
            if (!text.empty()) text += "; ";
            text += fmt::format("{}: {}", static_cast<char>('a' + choice),
                                asked->choices[static_cast<std::size_t>(choice)].text);
        }
        return text;
    }
    if (const auto* number = std::get_if<NumberAnswer>(&answer)) return withUnit(number->number, asked->unit);
    if (const auto* place = std::get_if<PlaceAnswer>(&answer)) return placeInWords(place->xMm, place->zMm);
    if (std::holds_alternative<ProgramAnswer>(answer)) return say("the program {}", asked->solution);
    return tr("read");
}

}  // namespace firstoff
