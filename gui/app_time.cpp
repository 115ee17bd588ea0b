// Commands that go to a moment or a place: time, lines, bookmarks, surfaces, contacts.
#include <algorithm>
#include <cmath>
#include <utility>

#include "gui/app.h"

namespace firstoff::gui {

namespace {

bool hasWords(const Trial& trial, const Step& step) {
    const Block& block = trial.program.blocks[step.block];
    return block.kind != Block::Kind::Words || block.wordCount > 0;
}

}  // namespace

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

}  // namespace firstoff::gui
