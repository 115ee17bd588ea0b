// `firstoff lesson` and `firstoff lessons`.
#include <fmt/format.h>

#include <cstdio>
#include <stdexcept>
#include <system_error>

#include "sim/base/say.h"
#include "sim/cli/commands.h"
#include "sim/output/shipped_assets.h"
#include "sim/output/table_figures.h"
#include "sim/output/text_report.h"
#include "sim/output/whole_file.h"
#include "sim/training/lesson_check.h"
#include "sim/training/lesson_shelf.h"

namespace firstoff::cli {

namespace {

namespace fs = std::filesystem;

void print(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
    if (std::fflush(stdout) != 0) throw std::runtime_error(tr("standard output cannot be written"));
}

std::string_view orChosen(const std::string& language) {
    return language.empty() ? languageInUse() : std::string_view(language);
}

fs::path folderOf(const std::string& said) {
    std::error_code error;
    if (fs::is_directory(said, error)) return said;
    const fs::path shelf = shippedAsset("lessons");
    if (!shelf.empty() && !said.empty() && fs::is_directory(shelf / said, error)) return shelf / said;
    throw std::runtime_error(say("{}: there is no such folder, and no lesson of that name is shipped", said));
}

Lesson lessonOf(const LessonRequest& request) {
    Lesson lesson = readLesson(folderOf(request.folder), orChosen(request.language));
    if (lesson.usable()) return lesson;
    std::string text = say("{} holds no lesson that can be used", request.folder);
    for (const LessonFault& fault : lesson.faults) {
        text += "\n  ";
        text += inWords(fault);
    }
    throw std::runtime_error(text);
}

ExitCode exitCodeOf(Mark mark) {
    switch (mark) {
        case Mark::Right:
            return ExitCode::Clear;
        case Mark::Wrong:
            return ExitCode::Problems;
        case Mark::NotProven:
            return ExitCode::NotProven;
        case Mark::Unusable:
            return ExitCode::Unusable;
    }
    return ExitCode::Unusable;
}

bool ofProgram(const LessonStep& step) {
    return step.kind == LessonStep::Kind::Mend || step.kind == LessonStep::Kind::Write;
}

// Of a program: the file of that name, or the blocks themselves.
std::string answerText(const LessonStep& step, const std::string& answer) {
    std::error_code error;
    if (!ofProgram(step)) return answer;
    if (fs::is_regular_file(answer, error)) return readWholeFile(answer);
    const bool blocks = answer.find_first_of(" \n") != std::string::npos;
    if (!blocks) throw std::runtime_error(say("{}: there is no such file", answer));
    return answer;
}

ExitCode markOne(const Lesson& lesson, const LessonRequest& request) {
    const LessonStep& step = lesson.steps[static_cast<std::size_t>(request.step) - 1];
    std::string trouble;
    const std::optional<Answer> answer = answerOf(lesson, request.step, answerText(step, *request.answer), trouble);
    if (!answer) throw std::runtime_error(trouble);
    const Marking marking = markAnswer(lesson, tryLesson(lesson, {}, request.step), request.step, *answer);
    std::string text = fmt::format("{}\n", marking.reply);
    for (const std::string& remark : marking.remarks) text += fmt::format("- {}\n", remark);
    if (marking.trial) text += fmt::format("\n{}\n", standingCaution());
    print(text);
    return exitCodeOf(marking.mark);
}

std::string spanInWords(const LessonStep& step) {
    if (step.fromLine && *step.fromLine == *step.toLine) return inWords(*step.fromLine);
    if (step.fromLine) return say("{} to {}", inWords(*step.fromLine), inWords(*step.toLine));
    if (step.fromTimeS) return say("{:g} s to {:g} s", *step.fromTimeS, *step.toTimeS);
    return tr("the whole program");
}

ExitCode showStep(const Lesson& lesson, int number) {
    const LessonStep& step = lesson.steps[static_cast<std::size_t>(number) - 1];
    std::string text = fmt::format("{}. {}\n\n{}", number, step.title, plainLines(step.text));
    text += fmt::format("\n[{}: {}]\n", step.program, spanInWords(step));
    if (!step.question.empty()) text += fmt::format("\n{}\n", step.question);
    for (std::size_t i = 0; i < step.choices.size(); ++i)
        text += fmt::format("  {}  {}\n", static_cast<char>('a' + i), step.choices[i].text);
    if (!step.unit.empty()) text += fmt::format("  [{}]\n", step.unit);
    print(text);
    return step.usable ? ExitCode::Clear : ExitCode::Unusable;
}

}  // namespace

ExitCode lesson(const LessonRequest& request) {
    const Lesson lesson = lessonOf(request);
    if (request.step == 0) {
        const LessonCheck check = checkLesson(lesson, tryLesson(lesson));
        print(lessonReport(lesson, check));
        return check.good() ? ExitCode::Clear : ExitCode::Problems;
    }
    if (static_cast<std::size_t>(request.step) > lesson.steps.size())
        throw std::runtime_error(say("--step {}: the lesson has the steps 1 to {}", request.step, lesson.steps.size()));
    return request.answer ? markOne(lesson, request) : showStep(lesson, request.step);
}

ExitCode lessons(const LessonsRequest& request) {
    const fs::path shelf = request.folder.empty() ? shippedAsset("lessons") : fs::path(request.folder);
    std::error_code error;
    if (shelf.empty() || !fs::is_directory(shelf, error))
        throw std::runtime_error(request.folder.empty() ? std::string(tr("no lessons are shipped here"))
                                                        : say("{}: there is no such folder", request.folder));
    std::string text;
    for (const fs::path& folder : lessonFolders(shelf)) {
        const Lesson lesson = readLesson(folder, orChosen(request.language));
        text += fmt::format("{}  {} ({})", padded(lesson.name, 28), lesson.title, say("{} steps", lesson.steps.size()));
        if (lesson.minutes > 0) text += say(", about {} minutes", lesson.minutes);
        if (!lesson.faults.empty()) text += say(", {} faults", lesson.faults.size());
        text += '\n';
        if (!lesson.about.empty()) text += fmt::format("{}  {}\n", padded("", 28), lesson.about);
    }
    if (text.empty()) throw std::runtime_error(say("{}: there is no lesson in this folder", shelf.string()));
    print(text);
    return ExitCode::Clear;
}

}  // namespace firstoff::cli
