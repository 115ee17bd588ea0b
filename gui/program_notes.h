// What stands beneath lines of the program: a finding in words, what mends it, the passes of a cycle that is unfolded.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <vector>

#include "gui/line_shift.h"
#include "gui/program_rows.h"
#include "gui/text_document.h"
#include "gui/trial_worker.h"
#include "sim/editing/quick_fix.h"

namespace firstoff::gui {

// Of one line of the text that was tried.
struct LineNote {
    std::size_t line = 0;               // 0-based
    std::optional<std::size_t> worst;   // finding to be told, index into Trial::findings
    std::optional<std::size_t> mended;  // finding that `fix` mends
    QuickFix fix;
    std::size_t rows() const { return (worst ? 1u : 0u) + (mended ? 1u : 0u); }
};

// Lines whose worst finding is a plain note get none: the mark in the margin is enough. What mends a finding is offered
// for any.
std::vector<LineNote> lineNotes(const Trial& trial, const TimelineIndex& index);

class ProgramNotes {
public:
    // Follows the newest trial and the text. Lines asked for below are those of the text as it stands.
    void follow(const std::shared_ptr<const TrialOutcome>& outcome, const TextDocument& document, bool findingsShown);

    bool isCycle(std::size_t line) const;
    bool isUnfolded(std::size_t line) const;
    void toggle(std::size_t line);
    void foldAll();

    const ProgramRows& rows() const { return rows_; }
    const LineShift& shift() const { return shift_; }
    // The block of a line in the trial shown, kNoBlock for a line that is new.
    BlockId blockOf(std::size_t line) const;

    struct Row {
        const LineNote* note = nullptr;  // its finding, or what mends it where `mends`
        bool mends = false;
        const CyclePass* pass = nullptr;
        std::size_t number = 0;  // of the pass, from 1
    };
    // What stands in the nth row (from 1) beneath a line; neither note nor pass for a row that is none.
    Row row(std::size_t line, std::size_t below) const;

private:
    const LineNote* noteOf(std::size_t line) const;
    void arrange();

    std::shared_ptr<const TrialOutcome> outcome_;
    std::uint64_t revision_ = 0;
    std::size_t lines_ = 1;
    bool findingsShown_ = true;
    bool dirty_ = true;
    std::vector<LineNote> notes_;     // of the trial's text, in order
    std::set<std::size_t> unfolded_;  // lines of the trial's text
    LineShift shift_;
    ProgramRows rows_;
};

}  // namespace firstoff::gui
