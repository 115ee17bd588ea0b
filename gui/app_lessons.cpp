// The training room's part of the application: a lesson's job in the editor, its moments on screen.
#include <algorithm>
#include <cmath>
#include <ctime>

#include "gui/app.h"

namespace firstoff::gui {

namespace {

// "2026-03-14": for the record of progress.
std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    char text[16];
    return std::strftime(text, sizeof text, "%Y-%m-%d", &local) > 0 ? text : "";
}

ViewName viewOf(LessonView view) {
    switch (view) {
        case LessonView::Machine:
            return ViewName::Machine;
        case LessonView::Close:
        case LessonView::Finish:
            return ViewName::Tool;
        case LessonView::EndOn:
            return ViewName::EndOn;
        case LessonView::Part:
        case LessonView::Section:
            break;
    }
    return ViewName::Part;
}

}  // namespace

void App::showPage(Tab tab) {
    below_ = inPlace_ = tab;
}

void App::apply(const ShowLessons&) {
    showPage(Tab::Lesson);
}

void App::apply(const OpenLesson& command) {
    // A lesson's own program is kept by the room; anything else asks first.
    if (session_.modified() && !session_.inLesson && !discard_) {
        dialogs_.askToSave(command);
        return;
    }
    keepLesson();
    lessons_->open(command.folder);
    showPage(Tab::Lesson);
    // Room to read.
    constexpr float kReadingHeight = 400;
    session_.view.findingsHeight = std::max(session_.view.findingsHeight, kReadingHeight);
}

void App::apply(const CloseLesson&) {
    keepLesson();
    lessons_->close();
    session_.inLesson = session_.asksPlace = false;
    session_.clickedPlace.reset();
    session_.rightPlace.reset();
}

void App::apply(const LessonStepTo& command) {
    keepLesson();
    session_.clickedPlace.reset();
    session_.rightPlace.reset();
    lessons_->go(command.step);
}

void App::apply(const MarkStep&) {
    keepLesson();
    lessons_->mark(today());
}

// Enter: marks the answer; goes to the next step where nothing is asked or the answer was right.
void App::goOnInLesson() {
    const LessonStep* step = lessons_->current();
    if ((findingsFolded_ ? inPlace_ : below_) != Tab::Lesson || !step || lessons_->marking()) return;
    const auto& marking = lessons_->work().marking;
    const bool asks = step->kind != LessonStep::Kind::Show && step->usable;
    if (asks && !(marking && marking->mark == Mark::Right)) {
        commands_.add(MarkStep{});
    } else if (lessons_->step() < static_cast<int>(lessons_->lesson()->steps.size())) {
        commands_.add(LessonStepTo{lessons_->step() + 1});
    }
}

void App::apply(const TellAnswer&) {
    lessons_->askForModel();
}

void App::apply(const ShowFigure& command) {
    showMoment(command.figure.view, command.figure.afterLine, command.figure.atTimeS);
}

void App::apply(const PlaceClicked& command) {
    const Trial* trial = session_.trial();
    if (!trial || !session_.asksPlace) return;
    session_.clickedPlace = command.place;
    const Point shown = command.place - trial->toolpath.datums[instant_.modal->datum];
    lessons_->place({2 * shown.r, shown.z});
}

void App::apply(const PlaceTyped& command) {
    const Trial* trial = session_.trial();
    if (!trial || !session_.asksPlace) return;
    session_.clickedPlace = Point{command.zMm, command.xMm / 2} + trial->toolpath.datums[instant_.modal->datum];
    lessons_->place({command.xMm, command.zMm});
}

// What the learner has made of the program, before anything else comes into the editor.
void App::keepLesson() {
    if (session_.inLesson) lessons_->keepText(session_.document.text());
}

// Each frame: what the room wants shown, and what it has found out.
void App::followLesson() {
    if (auto scene = lessons_->takeScene()) takeLessonScene(std::move(*scene));
    lessons_->takeReply();
    if (std::string told = lessons_->takeMessage(); !told.empty()) tell(std::move(told));
    session_.asksPlace = session_.inLesson && lessons_->wantsPlace();
    if (session_.asksPlace && session_.trial()) {
        const StepWork* work = lessons_->workAt(lessons_->step());
        const Point datum = session_.trial()->toolpath.datums.back();
        const auto* model = work && work->modelAnswer ? std::get_if<PlaceAnswer>(&*work->modelAnswer) : nullptr;
        if (model) session_.rightPlace = Point{model->zMm, model->xMm / 2} + datum;
    }
    if (lessonScene_ && session_.trial() && !session_.stale()) showLessonScene();
}

void App::takeLessonScene(LessonScene scene) {
    const bool same = session_.inLesson && session_.lessonProgram == scene.program &&
                      session_.setupPath == scene.setup && session_.document.text() == scene.text;
    if (!same) {
        if (!readSetupFile(scene.setup)) return;
        recovery_.release(session_.programPath);
        notices_ = FileNotices();
        session_.document = TextDocument(scene.text);
        session_.bookmarksAt = session_.document.revision();
        session_.programPath.clear();
        session_.lessonProgram = scene.program;
        session_.savedRevision = session_.document.revision();
        session_.playing = false;
        session_.chosen = kNoBlock;
        session_.timeS = 0;
        session_.step = kNoStep;
        forgetBookmarks();
        forgetLoop();
        program_.reset();
        runTrial();
    }
    session_.inLesson = true;
    lessonScene_ = std::move(scene);
}

void App::showLessonScene() {
    const LessonScene scene = *std::exchange(lessonScene_, std::nullopt);
    const Trial& trial = *session_.trial();
    session_.playing = false;
    showMoment(scene.view, std::nullopt, scene.timeS.value_or(0));
    if (!scene.line) return;
    const BlockId block = blockOf(trial.program, *scene.line);
    if (block != kNoBlock) apply(SelectLine{block, true});
}

// After a line, at a time, or without either at the end.
void App::showMoment(LessonView view, const std::optional<LinePlace>& line, std::optional<double> timeS) {
    const Trial* trial = session_.trial();
    if (!trial) return;
    scene_.show(viewOf(view));
    using Shown = SectionSettings::Shown;
    ViewSettings settings = session_.view;
    if (view == LessonView::Section && settings.section.shown == Shown::PictureOnly)
        settings.section.shown = Shown::Both;
    session_.view = settings;
    if (timeS) {
        apply(Seek{*timeS});
    } else if (line) {
        const BlockId block = blockOf(trial->program, *line);
        if (block == kNoBlock) return;
        const double doneS = session_.index()->doneAt(block);
        if (std::isnan(doneS)) return;
        apply(Seek{doneS});
        program_.showLine(block, true);
    } else {
        apply(ToEnd{});
    }
}

}  // namespace firstoff::gui
