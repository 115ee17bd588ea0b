// The program: an editor whose lines know when they run.
#pragma once

#include <string>
#include <vector>

#include "gui/pane.h"
#include "gui/program_editor.h"

namespace firstoff::gui {

// The only pane that changes the document; everything else goes by commands. Draws no line that is not on screen.
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

private:
    struct Canvas;
    void drawHeader(const PaneContext& context, const Rect& rect);
    void handleMouse(const Canvas& canvas);
    void handleKeys(const Canvas& canvas);
    void handleKey(const Canvas& canvas, const InputEvent& event);
    bool handleMotion(const Canvas& canvas, const InputEvent& event);
    bool handleClipboard(const Canvas& canvas, const InputEvent& event);
    void changed(const Canvas& canvas, bool textChanged);
    void followTime(const Canvas& canvas);
    void followCaret(const Canvas& canvas);
    void reveal(const Canvas& canvas, double line, double margin);
    void clampScroll(const Canvas& canvas);
    void drawLine(const Canvas& canvas, std::size_t line) const;
    void drawMargin(const Canvas& canvas, std::size_t line, float y) const;
    void drawGround(const Canvas& canvas, std::size_t line, float y) const;
    void drawText(const Canvas& canvas, std::size_t line, float y) const;
    void drawCaret(const Canvas& canvas) const;
    void drawScrollbar(const Canvas& canvas);
    void hoverFinding(const Canvas& canvas) const;
    void hoverWord(const Canvas& canvas);
    std::size_t offsetAt(const Canvas& canvas, ImVec2 mouse) const;

    TextDocument* document_;
    ProgramEditor editor_;
    double topLine_ = 0;  // first line on screen; fractions scroll smoothly
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
    std::size_t wantedLine_ = static_cast<std::size_t>(-1);  // to be brought into sight
};

}  // namespace firstoff::gui
