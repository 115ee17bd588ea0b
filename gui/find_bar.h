// The strip at the head of the program in which one says what to find, what to put in its place, or where to go.
#pragma once

#include <string>

#include "gui/pane.h"
#include "sim/editing/text_search.h"

namespace firstoff::gui {

// Knows nothing of the text: it says what is wished, and the program pane does it.
class FindBar {
public:
    enum class Mode { Closed, Find, Replace, GoTo };
    enum class Wish { None, Typed, Next, Previous, ReplaceOne, ReplaceAll, GoTo, Closed };
    struct Count {
        std::size_t number = 0, all = 0;  // which of all matches is selected (from 1; 0 none)
        bool complete = true;             // false: still counting
    };

    // `selected`: of the text; a piece of one line is taken as what to find.
    void open(Mode mode, std::string_view selected);
    void close() {
        mode_ = Mode::Closed;
        hasKeys_ = waiting_ = false;
    }
    Mode mode() const { return mode_; }
    bool isSearching() const { return mode_ == Mode::Find || mode_ == Mode::Replace; }
    // One of its fields has the keyboard, as drawn last, or is about to get it.
    bool hasKeys() const { return hasKeys_; }
    // A character that came before its field could take it.
    void type(std::string_view utf8);

    const TextSearch& search() const { return search_; }
    const std::string& with() const { return with_; }
    const std::string& goTo() const { return goTo_; }
    // A few words about what came of a wish, until the next one.
    void tell(std::string words) { told_ = std::move(words); }

    float height(const PaneContext& context) const;
    Wish draw(const PaneContext& context, const Rect& rect, const Count& count);

private:
    Wish drawFind(const PaneContext& context, const Rect& rect, const Count& count);
    Wish drawReplace(const PaneContext& context, const Rect& rect);
    Wish drawGoTo(const PaneContext& context, const Rect& rect);
    static int place(struct ImGuiInputTextCallbackData* data);
    bool field(const char* id, const char* hint, std::string& text, float width, bool focus);
    void drawCount(const PaneContext& context, const Rect& rect, const Count& count) const;

    Mode mode_ = Mode::Closed;
    std::string what_, with_, goTo_, told_;
    bool matchCase_ = false, wholeWords_ = false;
    TextSearch search_{TextQuery{}};
    bool focusWanted_ = false, focusReplace_ = false;
    bool hasKeys_ = false;
    bool typedAhead_ = false, toEnd_ = false;
    bool fresh_ = false;    // what stands in the field was there before, and goes with the first character
    bool waiting_ = false;  // opened, and no field has taken the keyboard yet
    bool entered_ = false;  // in the field drawn last
    bool keyEnter_ = false;
};

}  // namespace firstoff::gui
