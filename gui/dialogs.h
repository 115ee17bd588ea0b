// Small windows that ask or tell: unsaved changes, keys, about.
#pragma once

#include <optional>

#include "gui/pane.h"

namespace firstoff::gui {

class Dialogs {
public:
    // Asks what to do with unsaved changes before `next` is carried out.
    void askToSave(Command next) {
        next_ = std::move(next);
        saving_ = false;
    }
    void showKeys() { keys_ = true; }
    void showAbout() { about_ = true; }

    void draw(const PaneContext& context);
    // What was waiting for the document to be saved or given up; taken once.
    std::optional<Command> takeNext();

private:
    void drawQuestion(const PaneContext& context);
    void drawKeys(const PaneContext& context);
    void drawAbout(const PaneContext& context);

    std::optional<Command> next_;
    bool released_ = false;  // next_ may go ahead
    bool saving_ = false;    // waits for a save to succeed
    bool keys_ = false;
    bool about_ = false;
};

}  // namespace firstoff::gui
