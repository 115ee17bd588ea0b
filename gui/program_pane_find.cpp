// What the program pane does for the strip at its head: finding, replacing, going to a line.
#include <algorithm>

#include "gui/figures.h"
#include "gui/program_pane.h"
#include "sim/base/say.h"

namespace firstoff::gui {

void ProgramPane::drawFindBar(const PaneContext& context, const Rect& rect) {
    const FindBar::Wish wish = find_.draw(context, rect, countMatches());
    if (wish != FindBar::Wish::None) carryOut(context, wish);
}

FindBar::Count ProgramPane::countMatches() const {
    return {matches_.numberOf(editor_.selectionStart()), matches_.places().size(), matches_.complete()};
}

void ProgramPane::carryOut(const PaneContext& context, FindBar::Wish wish) {
    using Wish = FindBar::Wish;
    bool changed = false;
    switch (wish) {
        case Wish::None:
            return;
        case Wish::Typed:
            matches_.look(document_->text(), document_->revision(), find_.search());
            findNext(editor_.selectionStart());
            return;
        case Wish::Next:
            findNext(editor_.selectionEnd());
            return;
        case Wish::Previous:
            findPrevious();
            return;
        case Wish::ReplaceOne:
            changed = replaceOne();
            break;
        case Wish::ReplaceAll:
            changed = replaceEvery();
            break;
        case Wish::GoTo:
            goTo();
            break;
        case Wish::Closed:
            break;
    }
    if (wish == Wish::Closed || find_.mode() == FindBar::Mode::Closed) {
        focused_ = true;
        pressedAt_ = context.now;
    }
    if (changed) context.commands.add(TextChanged{});
}

bool ProgramPane::select(const std::optional<TextMatch>& match) {
    if (!match) return false;
    editor_.place(match->from);
    editor_.place(match->to, true);
    caretMoved_ = true;
    return true;
}

// On from the beginning where there is none up to the end.
bool ProgramPane::findNext(std::size_t from) {
    if (select(find_.search().next(document_->text(), from))) return true;
    return select(find_.search().next(document_->text(), 0));
}

bool ProgramPane::findPrevious() {
    const std::string& text = document_->text();
    if (select(find_.search().previous(text, editor_.selectionStart()))) return true;
    return select(find_.search().previous(text, text.size()));
}

// The match that is selected; where none is, the next one is selected first, so that nothing is replaced unseen.
bool ProgramPane::replaceOne() {
    const TextMatch place{editor_.selectionStart(), editor_.selectionEnd()};
    if (!find_.search().matches(document_->text(), place)) {
        findNext(editor_.selectionStart());
        return false;
    }
    const bool changed = replace({{place.from, place.to, find_.with()}});
    findNext(place.from + find_.with().size());
    return changed;
}

bool ProgramPane::replaceEvery() {
    const TextChanges changes = replaceAll(document_->text(), find_.search(), find_.with());
    if (changes.empty()) return false;
    const bool changed = replace(changes);
    find_.tell(changes.size() == 1 ? std::string(tr("1 replaced"))
                                   : say("{} replaced", wholeNumber(static_cast<double>(changes.size()))));
    caretMoved_ = true;
    return changed;
}

void ProgramPane::goTo() {
    const auto line = lineAskedFor(document_->text(), find_.goTo(), editor_.caretLine());
    if (!line) {
        find_.tell(tr("not there"));
        return;
    }
    showLine(*line, true);
    find_.close();
}

}  // namespace firstoff::gui
