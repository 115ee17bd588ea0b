// Commands: how they are carried out and taken back, what is tried at the machine, and the window itself. Those about
// time, text and files, lessons and papers stand in files of their own.
#include "gui/any_command.h"
#include "gui/app.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr double kSliderRestS = 0.35;  // before the whole trial follows the quick look

// The same mistake in the words of the language in use; nothing where it is none of those that can be put into the job.
std::optional<Mistake> toldAgain(const Mistake& mistake, const Trial& trial) {
    for (Mistake& one : possibleMistakes(trial)) {
        Mistake same = mistake;
        same.told = one.told;
        if (same == one) return std::move(one);
    }
    return std::nullopt;
}

// What the user can take back; every other command goes somewhere, or changes text and files.
bool canBeTakenBack(const Command& command) {
    return std::holds_alternative<TryChanges>(command) || std::holds_alternative<TryMistake>(command) ||
           std::holds_alternative<MeasureBody>(command) || std::holds_alternative<ShowNearest>(command) ||
           std::holds_alternative<SingleBlock>(command) || std::holds_alternative<Bookmark>(command) ||
           std::holds_alternative<LoopSpan>(command) || std::holds_alternative<ChangeView>(command);
}

}  // namespace

void App::applyAll() {
    carryOutAll(commands_.take());
    discard_ = true;
    carryOutAll(dialogs_.takeNext());
    discard_ = false;
}

void App::carryOutAll(const Commands& commands) {
    for (const Command& command : commands.list().all) {
        const auto carryOut = [&] { std::visit([this](const auto& one) { apply(one); }, command); };
        if (!canBeTakenBack(command)) {
            carryOut();
            continue;
        }
        const Choices before = session_.choices();
        carryOut();
        session_.changes.note(before, session_.choices(), gesture_);
    }
}

void App::apply(const UndoChange&) {
    if (const auto step = session_.changes.undo()) go(*step);
}

void App::apply(const RedoChange&) {
    if (const auto step = session_.changes.redo()) go(*step);
}

// Only what the step is about: all else is as the user has it now.
void App::go(const ChangeHistory::Step& step) {
    const auto& [from, to] = step;
    if (from.whatIf != to.whatIf) apply(TryChanges{to.whatIf});
    if (from.mistake != to.mistake) apply(TryMistake{to.mistake});
    if (from.singleBlock != to.singleBlock) apply(SingleBlock{to.singleBlock});
    if (from.measure != to.measure) {
        session_.measure = to.measure;
        session_.picking = -1;
    }
    if (from.bookmarks != to.bookmarks) session_.bookmarks = to.bookmarks;
    if (from.loop != to.loop) apply(to.loop ? LoopSpan{to.loop->fromS, to.loop->toS} : LoopSpan{});
    session_.view = withChange(session_.view, from.view, to.view);
}

void App::runTrial() {
    trialDue_ = -1;
    TrialWorker::Request request;
    request.program = session_.document.text();
    request.programName = session_.programName();
    request.programPath = session_.inLesson ? session_.lessonProgram : session_.programPath;
    request.setup = session_.setupText;
    request.setupName = session_.setupPath.empty() ? tr("no set-up") : session_.setupPath.filename().string();
    request.setupPath = session_.setupPath;
    request.revision = session_.document.revision();
    worker_.request(std::move(request));
    // Changes at offsets and tools were tried on the job as it was; the switches of the panel stay.
    session_.whatIf = session_.whatIf.panel();
    session_.mistake.reset();
    session_.changes.forget({ChangeHistory::Part::OffsetsAndTools, ChangeHistory::Part::Mistake});
    wholeDue_ = -1;
}

// ---- changes at the machine ----

void App::apply(const TryChanges& command) {
    if (!session_.asWritten || session_.whatIf == command.whatIf) return;
    session_.whatIf = command.whatIf;
    if (command.whatIf.empty() && !session_.mistake) {
        wholeDue_ = -1;
        worker_.cancel();
        show(session_.asWritten);
        return;
    }
    requestChanges(true);
    wholeDue_ = now_ + kSliderRestS;
}

void App::apply(const TryMistake& command) {
    if (!session_.asWritten || session_.mistake == command.mistake) return;
    session_.mistake = command.mistake;
    if (session_.whatIf.empty() && !session_.mistake) {
        worker_.cancel();
        show(session_.asWritten);
        return;
    }
    requestChanges(false);
}

void App::requestChanges(bool quickLook) {
    TrialWorker::Request request;
    request.again = session_.asWritten;
    request.whatIf = session_.whatIf;
    request.mistake = session_.mistake;
    request.quickLook = quickLook;
    request.revision = session_.asWritten->revision;
    worker_.request(std::move(request));
}

// ---- the window itself ----

void App::apply(const ChangeView& command) {
    session_.view = command.view;
}
void App::apply(const ShowView& command) {
    scene_.show(command.name);
}

void App::apply(const MoveView& command) {
    if (session_.view.section.shown == SectionSettings::Shown::SectionOnly) {
        section_.move(command);
    } else {
        scene_.move(command);
    }
}
void App::apply(const GaugeNext& command) {
    using Shown = SectionSettings::Shown;
    if (session_.view.section.shown == Shown::PictureOnly) {
        session_.view.section.shown = Shown::Both;  // its surfaces are known from the next frame on
        return;
    }
    section_.gaugeNext(command);
}

// The workers make texts as well: none of them may run while the language changes. What was told of the job is told
// again by a new trial of the text as it stands, with the same changes at the machine.
void App::apply(const ChooseLanguage& command) {
    session_.view.language = command.code;
    if (languageInUse() == command.code) return;
    const bool tried = session_.outcome || worker_.progress().busy;
    worker_.cancel();
    worker_.finish();
    finishWorker_.finish();
    lessons_->finish();
    if (!useLanguage(command.code)) return;
    lessons_->tellAgain();
    if (!tried) return;
    WhatIf whatIf = session_.whatIf;
    std::optional<Mistake> mistake;
    if (session_.mistake && session_.asWritten) mistake = toldAgain(*session_.mistake, *session_.asWritten->trial);
    ChangeHistory changes = session_.changes;
    runTrial();
    session_.whatIf = std::move(whatIf);
    session_.mistake = std::move(mistake);
    session_.changes = std::move(changes);
    session_.changes.forget({ChangeHistory::Part::Mistake});
}

void App::apply(const Tell& command) {
    tell(command.message);
}

void App::apply(const Quit&) {
    if (session_.modified() && !discard_) {
        dialogs_.askToSave(Quit{});
    } else {
        recovery_.release(session_.programPath);
        closed_ = true;
    }
}

}  // namespace firstoff::gui
