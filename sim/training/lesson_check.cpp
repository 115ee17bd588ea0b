#include "sim/training/lesson_check.h"

#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/output/table_figures.h"

namespace firstoff {

namespace {

using Kind = LessonStep::Kind;

class StepChecking {
public:
    StepChecking(const Lesson& lesson, const LessonTrials& trials, int number, const TrialOptions& options)
        : lesson_(lesson),
          trials_(trials),
          number_(number),
          options_(options),
          step_(lesson.steps[static_cast<std::size_t>(number) - 1]),
          tried_(trials.steps[static_cast<std::size_t>(number) - 1]) {}

    StepCheck run() {
        if (!step_.usable) trouble(tr("The step has a fault in its file (see above)."));
        if (step_.usable && jobRuns()) {
            span();
            pictures();
            if (step_.kind != Kind::Show) answer();
        }
        check_.good = check_.troubles.empty();
        return std::move(check_);
    }

private:
    void trouble(std::string text) { check_.troubles.push_back(std::move(text)); }

    bool jobRuns() {
        if (tried_.job.trial) return true;
        trouble(say("The job could not be tried: {}", tried_.job.trouble));
        return false;
    }

    double cycleTime() const { return tried_.job.trial->timeline.cycleTimeS; }

    void span() {
        if (step_.toTimeS && *step_.toTimeS > cycleTime())
            trouble(say("times_s goes to {:g} s, the cycle ends at {:.1f} s.", *step_.toTimeS, cycleTime()));
        if (step_.kind != Kind::Show) return;
        check_.told = step_.fromLine    ? say("shows {} to {}", inWords(*step_.fromLine), inWords(*step_.toLine))
                      : step_.fromTimeS ? say("shows {:g} s to {:g} s", *step_.fromTimeS, *step_.toTimeS)
                                        : std::string(tr("shows the whole cycle"));
    }

    void pictures() {
        for (const TextBlock& block : step_.text) {
            const bool late = block.kind == TextBlock::Kind::Picture && block.figure.atTimeS.value_or(0) > cycleTime();
            if (late)
                trouble(say("A picture is wanted at {:g} s, the cycle ends at {:.1f} s.", *block.figure.atTimeS,
                            cycleTime()));
        }
    }

    void answer() {
        const bool ofProgram = step_.kind == Kind::Mend || step_.kind == Kind::Write;
        const std::optional<Answer> model = modelAnswer(lesson_, trials_, number_);
        if (!model) return noAnswer();
        check_.told = say("right: {}", inWords(lesson_, number_, *model));
        const Marking marking = ofProgram ? markTried(lesson_, trials_, number_, tried_.model)
                                          : markAnswer(lesson_, trials_, number_, *model, options_);
        if (marking.mark != Mark::Right) {
            trouble(say("Its own answer is marked {}: {}", tr(name(marking.mark)), marking.reply));
            for (const std::string& remark : marking.remarks) trouble(remark);
        }
        if (ofProgram) given();
        if (step_.kind == Kind::Number) tolerance(std::get<NumberAnswer>(*model).number);
    }

    void noAnswer() {
        if (step_.quantity) {
            trouble(gauge(*tried_.job.trial, *step_.quantity).trouble);
        } else if (!step_.solution.empty()) {
            trouble(say("The model solution could not be tried: {}", tried_.model.trouble));
        } else {
            trouble(tr("There is no right answer to it."));
        }
    }

    // The program as the learner gets it.
    void given() {
        const Marking marking = markTried(lesson_, trials_, number_, tried_.job);
        check_.told += "; ";
        check_.told += say("the program as it is given: {}", tr(name(marking.mark)));
        if (marking.mark == Mark::Right)
            trouble(tr("The program as it is given is marked right: there is nothing to do."));
        if (step_.kind != Kind::Mend) return;
        for (const std::string& code : step_.needs.gone) {
            const std::vector<Finding>& all = tried_.job.trial->findings;
            if (std::none_of(all.begin(), all.end(), [&](const Finding& f) { return f.code == code; }))
                trouble(say("The finding {} should go, but the program as it is given does not have it.", code));
        }
    }

    void tolerance(double right) {
        const double tolerance = std::max(step_.tolerance, std::abs(right) * step_.tolerancePercent / 100);
        check_.told += ", ";
        check_.told += say("within {}", tableFigure(tolerance));
        constexpr double kWhole = 1e-6;
        if (tolerance == 0 && std::abs(right - std::round(right)) > kWhole)
            trouble(tr("The figure is no whole number and there is no tolerance: nobody would hit it."));
        if (right != 0 && tolerance >= std::abs(right)) trouble(tr("The tolerance is so wide that 0 would be right."));
    }

    const Lesson& lesson_;
    const LessonTrials& trials_;
    int number_;
    const TrialOptions& options_;
    const LessonStep& step_;
    const StepTrials& tried_;
    StepCheck check_;
};

}  // namespace

bool LessonCheck::good() const {
    return faults.empty() && std::all_of(steps.begin(), steps.end(), [](const StepCheck& s) { return s.good; });
}

LessonCheck checkLesson(const Lesson& lesson, const LessonTrials& trials, const TrialOptions& options) {
    LessonCheck check;
    check.faults = lesson.faults;
    for (int step = 1; step <= static_cast<int>(lesson.steps.size()); ++step)
        check.steps.push_back(StepChecking(lesson, trials, step, options).run());
    return check;
}

std::string lessonReport(const Lesson& lesson, const LessonCheck& check) {
    std::string text = fmt::format("{}: {}\n", lesson.name, lesson.title);
    text += check.faults.empty() ? std::string(tr("Text and files: good."))
                                 : say("Text and files: {} faults.", check.faults.size());
    text += '\n';
    for (const LessonFault& fault : check.faults) text += fmt::format("  {}\n", inWords(fault));
    std::size_t width = 8;
    for (const LessonStep& step : lesson.steps) width = std::max(width, widthOf(tr(name(step.kind))));
    for (std::size_t i = 0; i < check.steps.size(); ++i) {
        const LessonStep& step = lesson.steps[i];
        const StepCheck& at = check.steps[i];
        text += fmt::format("{:>3} {} {}: {}\n", i + 1, padded(tr(name(step.kind)), width), step.title,
                            at.good ? tr("good") : tr("NOT GOOD"));
        if (!at.told.empty()) text += fmt::format("      {}\n", at.told);
        for (const std::string& trouble : at.troubles) text += fmt::format("      - {}\n", trouble);
    }
    text += check.good() ? tr("The lesson can be given.") : tr("The lesson cannot be given as it stands.");
    text += '\n';
    return text;
}

}  // namespace firstoff
