// What the user changed in the window besides text: kept so that it can be taken back and done again.
//
// Plain values. A step holds the choices as they were and as they are afterwards; taking it back is for whoever owns
// the session, and only the parts in which the two differ are put back. Text has an undo of its own (TextDocument).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "gui/line_shift.h"
#include "gui/playing.h"
#include "gui/scene/lathe_scene.h"
#include "gui/view_settings.h"
#include "sim/trial/mistake.h"
#include "sim/trial/what_if.h"

namespace firstoff::gui {

// The parts of the session that can be taken back.
struct Choices {
    WhatIf whatIf;                   // changes asked for; those that are shown are in the outcome of the trial
    std::optional<Mistake> mistake;  // likewise: put into the job, to see what comes of it
    bool singleBlock = false;
    std::optional<TimeSpan> loop;
    std::vector<std::size_t> bookmarks;  // lines, 0-based and ascending, of the text as Session::bookmarksAt has it
    std::array<int, 2> measure{kNoBody, kNoBody};  // between them, indices into MachineBodies::bodies
    ViewSettings view;
};

// What the menu calls the difference: "wear of offset 2". Empty where nothing differs that can be taken back: sizes of
// panes and of the window, its pages, the language and the list of recent programs are left as they are.
std::string changeInWords(const Choices& before, const Choices& after);

// `now` with whatever can be taken back and differs between the two as it stands in `to`.
ViewSettings withChange(ViewSettings now, const ViewSettings& from, const ViewSettings& to);

// `now` as it is to be kept: what the command line asked for (it made `asked` of `kept`) and the user left so is put
// back.
ViewSettings withoutAsked(ViewSettings now, const ViewSettings& asked, const ViewSettings& kept);

class ChangeHistory {
public:
    // A command has led from `before` to `after`. Changes of the same thing within one gesture (a number that names
    // one drag of a slider, one press of a key) make one step; a gesture that leads back to its start makes none.
    void note(const Choices& before, const Choices& after, std::uint64_t gesture);

    bool canUndo() const { return !done_.empty(); }
    bool canRedo() const { return !undone_.empty(); }
    // What would be taken back, or done again, in words; empty: nothing.
    std::string undoWords() const;
    std::string redoWords() const;

    // The way the session has to go.
    struct Step {
        Choices from, to;
    };
    std::optional<Step> undo();
    std::optional<Step> redo();

    // What can be forgotten by itself, when it no longer fits the job.
    enum class Part : std::uint8_t { OffsetsAndTools, Mistake, Measure, Bookmarks, Loop };
    void forget(std::initializer_list<Part> parts);
    // The text was edited: bookmarks go with their lines.
    void followLines(const LineShift& shift);

private:
    struct Kept {
        Step step;
        std::uint64_t gesture = 0;  // that made it; 0: closed
    };
    template <class Change>
    void changeSteps(const Change& change);

    std::vector<Kept> done_, undone_;  // as they were done, the newest last
    std::vector<Kept> givenUp_;        // what the newest one done has put out of reach
};

}  // namespace firstoff::gui
