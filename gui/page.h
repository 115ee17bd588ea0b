// A page of small type that scrolls: titles, words, figures, a share drawn as a bar. For panes that tell rather than
// draw.
#pragma once

#include <string>

#include "gui/pane.h"

namespace firstoff::gui {

class Page {
public:
    // Fills `rect`; `name` is the pane's own.
    Page(const PaneContext& context, const char* name, const Rect& rect);
    ~Page();
    Page(const Page&) = delete;
    Page& operator=(const Page&) = delete;

    const PaneContext& context() const { return context_; }
    float width() const { return width_; }

    void title(const char* text) const;
    void words(const std::string& text, Colour colour) const;
    void plain(const std::string& text) const { words(text, context_.palette.text); }
    void quiet(const std::string& text) const { words(text, context_.palette.quiet); }
    // Label at the left, figure right-aligned in front of its unit.
    void figure(const std::string& label, const std::string& value, const std::string& unit) const;
    // A bar of `share` (0 to 1, more is drawn full with a broken end) beneath its words, `behind` at the right. True if
    // clicked.
    bool bar(const std::string& label, double share, const std::string& behind, Colour colour) const;
    void gap() const;
    // Moves the cursor to where the page's text begins.
    void indent() const;
    float pad() const { return context_.px(10); }

private:
    // One line, cut short where it is wider; then a tip has all of it.
    void name(const std::string& text, float width, Colour colour) const;

    const PaneContext& context_;
    PaneFrame frame_;
    float width_;
};

// A colour of a severity that can be read as text on a pane.
Colour warningInk(const PaneContext& context, Severity severity);

}  // namespace firstoff::gui
