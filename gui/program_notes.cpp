#include "gui/program_notes.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

bool isPlainNote(const FindingMark& mark) {
    return mark.severity == Severity::Note && !mark.unproven;
}

LineNote noteOf(const Trial& trial, std::span<const FindingMark> marks) {
    LineNote note;
    note.line = marks.front().line - 1;
    const auto worst =
        std::max_element(marks.begin(), marks.end(), [](const auto& a, const auto& b) { return rank(a) < rank(b); });
    if (!isPlainNote(*worst)) note.worst = worst->finding;
    for (const FindingMark& mark : marks) {
        if (auto fix = quickFix(trial, trial.findings[mark.finding])) {
            note.mended = mark.finding;
            note.fix = std::move(*fix);
            break;
        }
    }
    return note;
}

}  // namespace

std::vector<LineNote> lineNotes(const Trial& trial, const TimelineIndex& index) {
    std::vector<LineNote> notes;
    const std::vector<FindingMark>& marks = index.findingsByLine();
    for (std::size_t i = 0; i < marks.size();) {
        std::size_t end = i;
        while (end < marks.size() && marks[end].line == marks[i].line) ++end;
        LineNote note = noteOf(trial, std::span(marks).subspan(i, end - i));
        if (note.rows() > 0) notes.push_back(std::move(note));
        i = end;
    }
    return notes;
}

void ProgramNotes::follow(const std::shared_ptr<const TrialOutcome>& outcome, const TextDocument& document,
                          bool findingsShown) {
    if (outcome != outcome_) {
        // What was unfolded stays so where its line went.
        const std::set<std::size_t> before = std::exchange(unfolded_, {});
        const LineShift over =
            outcome_ && outcome ? document.shiftBetween(outcome_->revision, outcome->revision) : LineShift();
        for (const std::size_t line : before) {
            const std::size_t now = over.now(line);
            if (now != LineShift::kGone && outcome) unfolded_.insert(now);
        }
        outcome_ = outcome;
        notes_ = outcome ? lineNotes(*outcome->trial, *outcome->index) : std::vector<LineNote>{};
        dirty_ = true;
    }
    dirty_ |= revision_ != document.revision() || findingsShown_ != findingsShown;
    if (!std::exchange(dirty_, false)) return;
    revision_ = document.revision();
    lines_ = document.lineCount();
    findingsShown_ = findingsShown;
    shift_ = outcome_ ? document.shiftSince(outcome_->revision) : LineShift();
    arrange();
}

void ProgramNotes::arrange() {
    std::vector<ProgramRows::Extra> extras;
    auto note = notes_.begin();
    auto unfolded = unfolded_.begin();
    while (note != notes_.end() || unfolded != unfolded_.end()) {
        const bool noteFirst = unfolded == unfolded_.end() || (note != notes_.end() && note->line <= *unfolded);
        const std::size_t line = noteFirst ? note->line : *unfolded;
        std::size_t rows = 0;
        if (note != notes_.end() && note->line == line) rows += findingsShown_ ? (note++)->rows() : (++note, 0);
        if (unfolded != unfolded_.end() && *unfolded == line) {
            rows += outcome_->index->passes().of(static_cast<BlockId>(*unfolded++)).size();
        }
        const std::size_t now = shift_.now(line);
        if (now != LineShift::kGone) extras.push_back({now, rows});
    }
    rows_.set(lines_, extras);
}

BlockId ProgramNotes::blockOf(std::size_t line) const {
    const std::size_t then = shift_.then(line);
    return outcome_ && then != LineShift::kGone ? static_cast<BlockId>(then) : kNoBlock;
}

bool ProgramNotes::isCycle(std::size_t line) const {
    const BlockId block = blockOf(line);
    return block != kNoBlock && !outcome_->index->passes().of(block).empty();
}

bool ProgramNotes::isUnfolded(std::size_t line) const {
    const BlockId block = blockOf(line);
    return block != kNoBlock && unfolded_.contains(block);
}

void ProgramNotes::toggle(std::size_t line) {
    const BlockId block = blockOf(line);
    if (block == kNoBlock || !isCycle(line)) return;
    if (unfolded_.erase(block) == 0) unfolded_.insert(block);
    dirty_ = true;
}

void ProgramNotes::foldAll() {
    unfolded_.clear();
    dirty_ = true;
}

const LineNote* ProgramNotes::noteOf(std::size_t line) const {
    if (!findingsShown_) return nullptr;
    const BlockId block = blockOf(line);
    const auto note = std::lower_bound(notes_.begin(), notes_.end(), std::size_t{block},
                                       [](const LineNote& n, std::size_t l) { return n.line < l; });
    return block != kNoBlock && note != notes_.end() && note->line == block ? &*note : nullptr;
}

ProgramNotes::Row ProgramNotes::row(std::size_t line, std::size_t below) const {
    Row row;
    const LineNote* note = noteOf(line);
    const std::size_t noted = note != nullptr ? note->rows() : 0;
    if (below <= noted) {
        row.note = note;
        row.mends = note != nullptr && note->mended && below == noted;
        return row;
    }
    const BlockId block = blockOf(line);
    if (block == kNoBlock) return row;
    const std::span<const CyclePass> passes = outcome_->index->passes().of(block);
    row.number = below - noted;
    if (row.number > passes.size()) return row;
    row.pass = &passes[row.number - 1];
    return row;
}

}  // namespace firstoff::gui
