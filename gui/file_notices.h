// Asks what to do when the file on disk is another than the one that was read, or when text was kept of a window that
// ended without saving. Nothing waits for the answer: one can go on working.
#pragma once

#include <string>

#include "gui/pane.h"

namespace firstoff::gui {

class FileNotices {
public:
    void changedOnDisk() { changed_ = true; }
    void unsavedFound(std::string text) {
        unsaved_ = std::move(text);
        found_ = true;
    }
    // The question is no longer one.
    void settle() { changed_ = false; }
    void settleUnsaved() {
        found_ = false;
        unsaved_.clear();
    }

    bool asksAboutDisk() const { return changed_; }
    bool asksAboutUnsaved() const { return found_; }
    const std::string& unsaved() const { return unsaved_; }

    // At the foot of `place`.
    void draw(const PaneContext& context, const Rect& place);

private:
    void ask(const PaneContext& context, const Rect& place, const std::string& text,
             const FileAnswer::What (&answers)[3]);

    bool changed_ = false;
    bool found_ = false;
    std::string unsaved_;
};

}  // namespace firstoff::gui
