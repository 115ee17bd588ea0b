// What the window is about: the text, the set-up, the newest trial, the moment shown. Panes read it; App changes it.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <limits>
#include <memory>
#include <optional>
#include <string>

#include "gui/change_history.h"
#include "gui/finish_worker.h"
#include "gui/playing.h"
#include "gui/scene/lathe_scene.h"
#include "gui/text_document.h"
#include "gui/trial_worker.h"
#include "gui/view_settings.h"
#include "sim/base/say.h"
#include "sim/clearance/nearness.h"

namespace firstoff::gui {

inline constexpr std::size_t kNoStep = std::numeric_limits<std::size_t>::max();

// A surface of the billet that the user picked.
struct PickedSurface {
    Point place;               // lathe frame
    BlockId block = kNoBlock;  // whose line left it; kNoBlock: no tool has been there
    double timeS = 0;          // when it stood so
};

struct Session : Choices {
    TextDocument document;
    std::filesystem::path programPath;  // empty: never saved
    std::uint64_t savedRevision = document.revision();
    std::filesystem::path setupPath;  // empty: none
    std::string setupText;

    // The newest trial that ended; null before the first. Stays while a new one is computed.
    std::shared_ptr<const TrialOutcome> outcome;
    // The newest one of program and set-up as they are, without changes at the machine.
    std::shared_ptr<const TrialOutcome> asWritten;
    TrialWorker::Progress progress;

    double timeS = 0;
    std::size_t step = kNoStep;  // which of the steps starting at timeS; kNoStep: the last
    bool playing = false;
    double share = 0;                                 // of the block, while it is played by block
    bool held = false, holding = false;               // the feed; it will be at the end of the thread pass
    std::uint64_t bookmarksAt = document.revision();  // the text that the bookmarks are of
    BlockId chosen = kNoBlock;            // a line the user went to: what it cut is tinted until time moves on
    std::optional<PickedSurface> picked;  // until time moves on

    // A contact or near miss the user went to, index into ClearanceResult::encounters; until time moves on.
    std::optional<std::size_t> encounter;

    // The one of the two bodies to measure between that the next click in the picture chooses, 0 or 1; -1: clicks
    // choose none.
    int picking = -1;
    // What was measured at the moment shown; nothing before both are chosen.
    std::optional<Nearness> measured;

    // What the finish pane is about, nothing while it is not in sight; and the newest answer, perhaps to another
    // question.
    std::optional<FinishQuestion> finishWanted;
    std::shared_ptr<const FinishAnswer> finish;

    // A lesson is open: its program is what the editor holds, `lessonProgram` the file it came from. The next click in
    // the half-section is an answer where `asksPlace`; what was clicked is marked there.
    bool inLesson = false;
    std::filesystem::path lessonProgram;
    bool asksPlace = false;
    std::optional<Point> clickedPlace;  // lathe frame
    std::optional<Point> rightPlace;    // likewise, once it was told

    ChangeHistory changes;  // what can be taken back besides text
    std::string message;    // about the outside world, shown until dismissed

    const Trial* trial() const { return outcome ? outcome->trial.get() : nullptr; }
    const TimelineIndex* index() const { return outcome ? outcome->index.get() : nullptr; }
    const Choices& choices() const { return *this; }
    // What is shown is not the job as it is written.
    bool showsChanges() const { return outcome && outcome->comparison; }
    bool modified() const { return document.revision() != savedRevision; }
    // The trial shown was made from another text than the one shown.
    bool stale() const { return !outcome || outcome->revision != document.revision(); }
    std::string programName() const {
        if (inLesson && programPath.empty()) return lessonProgram.filename().string();
        return programPath.empty() ? tr("untitled") : programPath.filename().string();
    }
};

}  // namespace firstoff::gui
