// The program: an editor whose lines know when they run.
#pragma once

#include <string>
#include <vector>

#include "gui/find_bar.h"
#include "gui/match_list.h"
#include "gui/pane.h"
#include "gui/program_editor.h"
#include "gui/program_notes.h"

namespace firstoff::gui {

// The only pane that changes the document; everything else goes by commands. Draws no row that is not on screen. Rows
// are lines of the text and what stands beneath some of them: a finding in words, what mends it, passes of a cycle.
class ProgramPane {
public:
    explicit ProgramPane(TextDocument& document) : document_(&document), editor_(document) {}

    void draw(const PaneContext& context, const Rect& rect);

    bool hasFocus() const { return focused_; }
    // The mouse rests on the text: a word is told soon.
    bool hoverDue() const { return hoverDue_; }
    // The keys go elsewhere: it is not on screen.
    void leave() { focused_ = false; }
    std::size_t caretLine() const { return editor_.caretLine(); }
    // Puts the caret on a line (0-based) and brings it into sight.
    void showLine(std::size_t line, bool moveCaret);
    // After another text was opened.
    void reset();

    // Each returns whether the text changed.
    bool carryOut(EditProgram::What what);
    bool replace(const TextChanges& changes);

    // Something goes on that wants frames: matches are still being counted.
    bool restless() const { return find_.isSearching() && !matches_.complete(); }

    // For tests: what the strip at its head knows, and where a row stands on screen as drawn last (its middle; y < 0:
    // not in sight).
    const FindBar& findBar() const { return find_; }
    // A character that came behind the key that opened the strip.
    void typeIntoStrip(char32_t character) { find_.type(utf8Of(character)); }
    const MatchList& matches() const { return matches_; }
    const ProgramNotes& notes() const { return notes_; }
    ImVec2 placeOf(std::size_t line, std::size_t below = 0) const;

private:
    struct Canvas;
    void drawHeader(const PaneContext& context, const Rect& rect);
    void handleMouse(const Canvas& canvas);
    bool pressRow(const Canvas& canvas, ProgramRows::Place place, float x);
    void handleKeys(const Canvas& canvas);
    void handleKey(const Canvas& canvas, const InputEvent& event);
    bool handleMotion(const Canvas& canvas, const InputEvent& event);
    bool handleClipboard(const Canvas& canvas, const InputEvent& event);
    void changed(const Canvas& canvas, bool textChanged);
    void followNotes(const Canvas& canvas);
    void followTime(const Canvas& canvas);
    void followCaret(const Canvas& canvas);
    void reveal(const Canvas& canvas, double row, double margin);
    void clampScroll(const Canvas& canvas);
    std::size_t runningRow(const Canvas& canvas) const;
    std::size_t runningPass(const PaneContext& context, std::size_t line) const;

    // program_pane_find.cpp
    void drawFindBar(const PaneContext& context, const Rect& rect);
    void carryOut(const PaneContext& context, FindBar::Wish wish);
    FindBar::Count countMatches() const;
    bool findNext(std::size_t from);
    bool findPrevious();
    bool select(const std::optional<TextMatch>& match);
    bool replaceOne();
    bool replaceEvery();
    void goTo();

    // program_pane_drawing.cpp
    void drawRow(const Canvas& canvas, std::size_t row) const;
    void drawMargin(const Canvas& canvas, std::size_t line, float y) const;
    void drawTriangle(const Canvas& canvas, std::size_t line, float y) const;
    void drawGround(const Canvas& canvas, std::size_t line, float y) const;
    void drawMatches(const Canvas& canvas, std::size_t line, float y) const;
    void drawSelection(const Canvas& canvas, std::size_t line, float y) const;
    void drawCells(const Canvas& canvas, double from, double to, float y, ImU32 colour, bool outlined) const;
    void drawText(const Canvas& canvas, std::size_t line, float y) const;
    void drawBelow(const Canvas& canvas, ProgramRows::Place place, float y) const;
    void drawNote(const Canvas& canvas, const LineNote& note, bool mends, float y) const;
    void drawPass(const Canvas& canvas, std::size_t line, const ProgramNotes::Row& row, float y) const;
    void drawCaret(const Canvas& canvas) const;
    void drawScrollbar(const Canvas& canvas);
    void drawBarMarks(const Canvas& canvas, const Rect& bar) const;
    void hoverFinding(const Canvas& canvas) const;
    void hoverWord(const Canvas& canvas);
    float yOf(const Canvas& canvas, double row) const;
    ProgramRows::Place rowAt(const Canvas& canvas, float y) const;
    std::size_t offsetAt(const Canvas& canvas, ImVec2 mouse) const;

    TextDocument* document_;
    ProgramEditor editor_;
    ProgramNotes notes_;
    FindBar find_;
    MatchList matches_;
    double topRow_ = 0;  // first row on screen; fractions scroll smoothly
    double leftCell_ = 0;
    bool focused_ = false;
    bool selecting_ = false;
    bool dragged_ = false;
    bool caretMoved_ = false;
    double pressedAt_ = 0;  // when the caret last moved; it stands lit from then on
    double wheeledAt_ = -10;
    ImVec2 restingAt_{-1, -1};
    double restingSince_ = 0;
    bool hoverDue_ = false;
    std::size_t followedLine_ = static_cast<std::size_t>(-1);
    std::size_t followedRow_ = static_cast<std::size_t>(-1);
    std::size_t wantedLine_ = static_cast<std::size_t>(-1);  // to be brought into sight
    std::size_t linesKnown_ = 0;                             // when rows were arranged last
    Rect drawn_;                                             // text and margin, as drawn last
    float lineHeight_ = 1;
};

}  // namespace firstoff::gui
