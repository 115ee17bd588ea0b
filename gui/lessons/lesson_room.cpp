#include "gui/lessons/lesson_room.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "gui/file_io.h"
#include "sim/base/say.h"
#include "sim/training/lesson_shelf.h"

namespace firstoff::gui {

namespace fs = std::filesystem;

LessonRoom::LessonRoom(fs::path shelf, fs::path record, std::function<void()> wake)
    : shelf_(std::move(shelf)), record_(std::move(record)), worker_(std::move(wake)) {
    if (!record_.empty()) {
        try {
            ReadProgress read = readProgress(record_);
            progress_ = std::move(read.progress);
            message_ = std::move(read.told);
        } catch (const std::runtime_error& error) {
            mayWrite_ = false;
            message_ = error.what();
        }
    }
    refresh();
}

void LessonRoom::refresh() {
    rows_.clear();
    for (const fs::path& folder : lessonFolders(shelf_)) {
        const Lesson lesson = readLesson(folder, languageInUse());
        LessonRow row;
        row.folder = folder;
        row.title = lesson.title;
        row.about = lesson.about;
        row.minutes = lesson.minutes;
        row.steps = static_cast<int>(lesson.steps.size());
        row.right = progress_.rightSteps(lesson);
        row.faulty = !lesson.faults.empty();
        rows_.push_back(std::move(row));
    }
}

void LessonRoom::tellAgain() {
    refresh();
    if (!lesson_) return;
    lesson_ = std::make_shared<const Lesson>(readLesson(lesson_->folder, languageInUse()));
    for (auto& [step, work] : work_) {
        work.marking.reset();
        work.model.clear();
        work.modelAnswer.reset();
        work.trouble.clear();
    }
}

void LessonRoom::open(const fs::path& folder) {
    lesson_ = std::make_shared<const Lesson>(readLesson(folder, languageInUse()));
    work_.clear();
    taken_ = worker_.latest();
    step_ = 1;
    const int steps = static_cast<int>(lesson_->steps.size());
    for (int step = 1; step <= steps; ++step) {
        if (progress_.of(*lesson_, step).right) continue;
        step_ = step;
        break;
    }
    wantScene();
}

void LessonRoom::close() {
    lesson_.reset();
    work_.clear();
    scene_.reset();
    refresh();
}

const LessonStep* LessonRoom::current() const {
    if (!lesson_ || step_ < 1 || static_cast<std::size_t>(step_) > lesson_->steps.size()) return nullptr;
    return &lesson_->steps[static_cast<std::size_t>(step_ - 1)];
}

void LessonRoom::go(int step) {
    if (!lesson_) return;
    const int steps = static_cast<int>(lesson_->steps.size());
    step = std::clamp(step, 1, std::max(1, steps));
    if (step == step_) return;
    step_ = step;
    wantScene();
}

StepWork& LessonRoom::work() {
    StepWork& work = work_[step_];
    if (const LessonStep* step = current()) work.chosen.resize(step->choices.size());
    return work;
}

const StepWork* LessonRoom::workAt(int step) const {
    const auto found = work_.find(step);
    return found == work_.end() ? nullptr : &found->second;
}

bool LessonRoom::rightAt(int step) const {
    return lesson_ && progress_.of(*lesson_, step).right;
}

// What a file of the lesson holds goes into the editor; what the learner has made of it comes first.
void LessonRoom::wantScene() {
    scene_.reset();
    const LessonStep* step = current();
    if (!step || step->program.empty()) return;
    LessonScene scene;
    scene.program = fileOf(*lesson_, step->program);
    scene.setup = fileOf(*lesson_, step->setup);
    scene.name = step->program;
    scene.view = step->view;
    scene.line = step->fromLine;
    scene.toLine = step->toLine;
    scene.timeS = step->fromTimeS;
    const StepWork* work = workAt(step_);
    if (work && work->text) {
        scene.text = *work->text;
    } else {
        try {
            scene.text = readWholeFile(scene.program);
        } catch (const FileError& error) {
            message_ = error.what();
            return;
        }
    }
    scene_ = std::move(scene);
}

std::optional<LessonScene> LessonRoom::takeScene() {
    return std::exchange(scene_, std::nullopt);
}

void LessonRoom::keepText(std::string text) {
    if (wantsText()) work().text = std::move(text);
}

bool LessonRoom::wantsText() const {
    const LessonStep* step = current();
    return step && (step->kind == LessonStep::Kind::Mend || step->kind == LessonStep::Kind::Write);
}

bool LessonRoom::wantsPlace() const {
    const LessonStep* step = current();
    return step && step->kind == LessonStep::Kind::Predict && step->usable;
}

void LessonRoom::place(PlaceAnswer place) {
    if (!wantsPlace()) return;
    work().place = place;
    work().marking.reset();
    work().trouble.clear();
}

std::optional<Answer> LessonRoom::answerNow() {
    const LessonStep& step = *current();
    StepWork& done = work();
    done.trouble.clear();
    switch (step.kind) {
        case LessonStep::Kind::Show:
            return SeenAnswer{};
        case LessonStep::Kind::Choose: {
            ChosenAnswer chosen;
            for (std::size_t i = 0; i < done.chosen.size(); ++i) {
                if (done.chosen[i]) chosen.choices.push_back(static_cast<int>(i));
            }
            if (!chosen.choices.empty()) return chosen;
            done.trouble = tr("Choose first: one or several.");
            return std::nullopt;
        }
        case LessonStep::Kind::Number:
            return answerOf(*lesson_, step_, done.number, done.trouble);
        case LessonStep::Kind::Predict:
            if (done.place) return *done.place;
            done.trouble = tr("Click the place in the half-section first.");
            return std::nullopt;
        case LessonStep::Kind::Mend:
        case LessonStep::Kind::Write:
            if (done.text) return ProgramAnswer{*done.text};
            done.trouble = tr("The program stands in the editor; it is not changed yet.");
            return std::nullopt;
    }
    return std::nullopt;
}

void LessonRoom::mark(const std::string& date) {
    if (!current()) return;
    auto answer = answerNow();
    if (!answer) return;
    work().marking.reset();
    date_ = date;
    worker_.ask({lesson_, step_, std::move(answer), ++ticket_});
}

void LessonRoom::askForModel() {
    if (current()) worker_.ask({lesson_, step_, std::nullopt, ++ticket_});
}

bool LessonRoom::takeReply() {
    const auto reply = worker_.latest();
    if (!reply || reply == taken_) return false;
    taken_ = reply;
    const LessonQuestion& question = reply->question;
    if (question.lesson != lesson_ || question.ticket != ticket_) return true;
    StepWork& done = work_[question.step];
    done.trouble = reply->failure;
    if (!question.answer) {
        done.model = reply->model;
        done.modelAnswer = reply->modelAnswer;
        return true;
    }
    if (!reply->failure.empty()) return true;
    done.marking = reply->marking;
    const bool right = reply->marking.mark == Mark::Right;
    if (!right && reply->marking.mark != Mark::Wrong) return true;
    progress_ = withTry(std::move(progress_), *lesson_, question.step, right, date_);
    if (record_.empty() || !mayWrite_) return true;
    try {
        saveProgress(record_, progress_);
    } catch (const std::runtime_error& error) {
        message_ = error.what();
    }
    return true;
}

std::string LessonRoom::takeMessage() {
    return std::exchange(message_, {});
}

}  // namespace firstoff::gui
