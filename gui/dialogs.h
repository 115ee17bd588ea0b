// Small windows that ask or tell: unsaved changes, keys, about.
#pragma once

#include "gui/pane.h"

namespace firstoff::gui {

class Dialogs {
public:
    // Asks what to do with unsaved changes before `next` is carried out.
    template <class One>
    void askToSave(One next) {
        next_ = {};
        next_.add(std::move(next));
        saving_ = false;
    }
    void showKeys() { keys_ = true; }
    void showAbout() { about_ = true; }

    void draw(const PaneContext& context);
    // What was waiting for the document to be saved or given up; taken once, else empty.
    Commands takeNext();

private:
    void drawQuestion(const PaneContext& context);
    void drawKeys(const PaneContext& context);
    void drawAbout(const PaneContext& context);

    Commands next_;
    bool released_ = false;  // next_ may go ahead
    bool saving_ = false;    // waits for a save to succeed
    bool keys_ = false;
    bool about_ = false;
};

}  // namespace firstoff::gui
