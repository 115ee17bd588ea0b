// What each command does to the session, but for text and files (app_files.cpp).
#include <algorithm>
#include <cmath>

#include "gui/app.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr double kSliderRestS = 0.35;  // before the whole trial follows the quick look

bool hasWords(const Trial& trial, const Step& step) {
    const Block& block = trial.program.blocks[step.block];
    return block.kind != Block::Kind::Words || block.wordCount > 0;
}

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
    for (const Command& command : commands_.take()) carryOutOne(command);
    if (auto next = dialogs_.takeNext()) {
        discard_ = true;
        carryOutOne(*next);
        discard_ = false;
    }
}

void App::carryOutOne(const Command& command) {
    const auto carryOut = [&] { std::visit([this](const auto& one) { apply(one); }, command); };
    if (!canBeTakenBack(command)) return carryOut();
    const Choices before = session_.choices();
    carryOut();
    session_.changes.note(before, session_.choices(), gesture_);
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

// ---- time ----

void App::apply(const SingleBlock& command) {
    session_.singleBlock = command.on;
}

// At once where the axes can stop; a thread pass goes on to its end.
void App::apply(const HoldFeed& command) {
    session_.held = session_.holding = false;
    if (!command.hold || !session_.trial()) return;
    if (session_.playing && !holdsAtOnce(*session_.trial(), session_.timeS)) {
        session_.holding = true;
        return;
    }
    session_.playing = false;
    session_.held = true;
}

void App::apply(const LoopSpan& command) {
    session_.loop.reset();
    const double from = std::clamp(command.fromS, 0.0, cycleTimeS()), to = std::clamp(command.toS, 0.0, cycleTimeS());
    if (to > from) session_.loop = TimeSpan{from, to};
}

// They go with their lines.
void App::followBookmarks() {
    const std::uint64_t at = session_.document.revision();
    const LineShift shift = session_.document.shiftBetween(std::exchange(session_.bookmarksAt, at), at);
    session_.bookmarks = shift.now(session_.bookmarks);
    session_.changes.followLines(shift);
}

void App::apply(const Bookmark& command) {
    followBookmarks();
    std::vector<std::size_t>& marks = session_.bookmarks;
    const auto at = std::lower_bound(marks.begin(), marks.end(), command.line);
    if (at != marks.end() && *at == command.line) {
        marks.erase(at);
    } else {
        marks.insert(at, command.line);
    }
}

// The line that runs next after, or last before, the moment shown.
void App::apply(const ToBookmark& command) {
    const Trial* trial = session_.trial();
    if (!trial) return;
    constexpr double kHere = 1e-6;
    std::optional<std::size_t> best;
    double bestS = 0;
    // The trial knows the text as it was when it began.
    const LineShift since = session_.document.shiftSince(session_.outcome->revision);
    for (const std::size_t line : session_.bookmarks) {
        const std::size_t then = since.then(line);
        if (then == LineShift::kGone) continue;
        const double timeS = trial->startOfBlock(static_cast<BlockId>(then));
        const double ahead = command.direction > 0 ? timeS - session_.timeS : session_.timeS - timeS;
        if (ahead < kHere || (best && ahead >= bestS)) continue;
        best = line;
        bestS = ahead;
    }
    if (best) apply(SelectLine{*best, true});
}

void App::apply(const Seek& command) {
    session_.timeS = std::clamp(command.timeS, 0.0, cycleTimeS());
    session_.step = kNoStep;
    session_.share = 0;
    session_.chosen = kNoBlock;
    session_.picked.reset();
    session_.encounter.reset();
}

void App::apply(const SeekStep& command) {
    const Trial* trial = session_.trial();
    if (!trial || command.step >= trial->toolpath.steps.size()) return;
    session_.timeS = trial->startOfStep(command.step);
    session_.step = command.step;
    session_.share = 0;
    session_.chosen = kNoBlock;
    session_.picked.reset();
    session_.encounter.reset();
}

void App::apply(const SelectLine& command) {
    program_.showLine(command.line, command.moveCaret);
    const Trial* trial = session_.trial();
    if (!trial) return;
    // The trial knows the text as it was when it began.
    const std::size_t then = session_.document.shiftSince(session_.outcome->revision).then(command.line);
    if (then == LineShift::kGone) return;
    const auto block = static_cast<BlockId>(then);
    if (std::isnan(session_.index()->doneAt(block))) return;  // never carried out: no moment to go to
    session_.playing = false;
    const std::vector<Step>& steps = trial->toolpath.steps;
    const auto step = std::find_if(steps.begin(), steps.end(), [&](const Step& s) { return s.block == block; });
    const double timeS = trial->startOfBlock(block);
    const bool own = step != steps.end() && trial->startOfStep(static_cast<std::size_t>(step - steps.begin())) <= timeS;
    if (own) {
        apply(SeekStep{static_cast<std::size_t>(step - steps.begin())});
    } else {
        apply(Seek{timeS});
    }
    session_.chosen = block;
}

void App::apply(const ShowLine& command) {
    program_.showLine(command.line, true);
}

void App::apply(const PickSurface& command) {
    const Trial* trial = session_.trial();
    if (!trial) return;
    PickedSurface picked{command.place, kNoBlock, shownAtS_};
    if (command.cut < trial->timeline.moves.size()) {
        const TimedMove& timed = trial->timeline.moves[command.cut];
        picked.block = trial->shownBlock(timed.move);
        // What the running move has left so far is taken as that move will leave it.
        picked.timeS = std::max(shownAtS_, timed.t1);
    }
    session_.picked = picked;
    if (!findingsFolded_) {
        below_ = Tab::Finish;
    } else if (inPlace_ != Tab::Program) {
        inPlace_ = Tab::Finish;  // else the line that left it stands there, which was asked for as well
    }
}

void App::apply(const ShowEncounter& command) {
    const Trial* trial = session_.trial();
    if (!trial || command.encounter >= trial->clearance.encounters.size()) return;
    const Encounter& encounter = trial->clearance.encounters[command.encounter];
    apply(Seek{encounter.timeS});
    session_.encounter = command.encounter;
    showLineOf(encounter.timedMove);
    scene_.lookAt(encounter.place);
}

void App::apply(const ShowNearest& command) {
    const Trial* trial = session_.trial();
    if (!trial || command.timedMove >= trial->timeline.moves.size()) return;
    apply(Seek{scene_.timeOfNearest(command.timedMove, command.body, command.other)});
    session_.measure = {command.body, command.other};
    showLineOf(command.timedMove);
    if (command.timedMove < trial->clearance.perMove.size()) {
        const Clearance& there = trial->clearance.perMove[command.timedMove];
        if (there.body == command.body && there.other == command.other) scene_.lookAt(there.place);
    }
}

void App::showLineOf(std::size_t timedMove) {
    const Trial& trial = *session_.trial();
    const BlockId block = trial.shownBlock(trial.timeline.moves[timedMove].move);
    if (block != kNoBlock) program_.showLine(block, true);
}

void App::apply(const MeasureBody& command) {
    session_.measure[command.slot == 0 ? 0 : 1] = command.body;
    if (session_.picking == command.slot) session_.picking = -1;
    // From one to the next: the second is picked right after the first.
    if (command.slot == 0 && command.body != kNoBody && session_.measure[1] == kNoBody) session_.picking = 1;
}

void App::apply(const PickForMeasure& command) {
    session_.picking = command.slot;
}

void App::apply(const TogglePlay&) {
    if (!session_.trial()) return;
    session_.playing = !session_.playing;
    session_.held = session_.holding = false;
    if (session_.playing && session_.timeS >= cycleTimeS()) apply(Seek{0});
}

// Blocks without words are passed over. From inside a block, back goes to its start first.
void App::apply(const StepBlocks& command) {
    const Trial* trial = session_.trial();
    if (!trial || trial->toolpath.steps.empty()) return;
    session_.playing = false;
    const auto last = static_cast<std::ptrdiff_t>(trial->toolpath.steps.size()) - 1;
    const Instant now = instantAt(*trial, *session_.index(), session_.timeS, session_.step);
    auto step = static_cast<std::ptrdiff_t>(now.step);
    const bool inside = session_.timeS > trial->startOfStep(now.step);
    const std::ptrdiff_t direction = command.by < 0 ? -1 : 1;
    if (!(inside && direction < 0)) step += direction;
    while (step > 0 && step < last && !hasWords(*trial, trial->toolpath.steps[static_cast<std::size_t>(step)]))
        step += direction;
    if (step > last) {
        apply(ToEnd{});
    } else {
        apply(SeekStep{static_cast<std::size_t>(std::max<std::ptrdiff_t>(step, 0))});
    }
}

void App::apply(const ToStart&) {
    apply(Seek{0});
    session_.step = 0;
}

void App::apply(const ToEnd&) {
    session_.playing = false;
    apply(Seek{cycleTimeS()});
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
