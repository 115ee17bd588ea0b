#include "gui/line_shift.h"

#include <algorithm>

namespace firstoff::gui {

LineShift::LineShift(std::vector<LineEdit> edits) : edits_(std::move(edits)) {
    std::erase_if(edits_, [](const LineEdit& edit) { return edit.removed == 0 && edit.inserted == 0; });
}

// The line of the edit keeps its text in front of it, unless there is none: then the text behind it is what is left of
// the last line touched.
std::size_t LineShift::now(std::size_t line) const {
    for (const LineEdit& edit : edits_) {
        const std::size_t last = edit.line + edit.removed;
        const std::size_t stays = edit.atStart ? last : last + 1;
        if (line >= stays) {
            line = line - edit.removed + edit.inserted;
        } else if (line > edit.line || (line == edit.line && edit.atStart)) {
            return kGone;
        }
    }
    return line;
}

std::vector<std::size_t> LineShift::now(const std::vector<std::size_t>& lines) const {
    std::vector<std::size_t> there;
    for (const std::size_t line : lines) {
        const std::size_t at = now(line);
        if (at != kGone && (there.empty() || there.back() != at)) there.push_back(at);
    }
    return there;
}

std::size_t LineShift::then(std::size_t line) const {
    for (auto edit = edits_.rbegin(); edit != edits_.rend(); ++edit) {
        const std::size_t last = edit->line + edit->inserted;
        const std::size_t stays = edit->atStart ? last : last + 1;
        if (line >= stays) {
            line = line - edit->inserted + edit->removed;
        } else if (line > edit->line || (line == edit->line && edit->atStart)) {
            return kGone;
        }
    }
    return line;
}

}  // namespace firstoff::gui
