// Mistakes put into the job that is open, to see what comes of them beside the sound one. Nothing is written to the
// files.
#pragma once

#include <memory>
#include <vector>

#include "gui/page.h"
#include "sim/trial/mistake.h"

namespace firstoff::gui {

class MistakesPane {
public:
    void draw(const PaneContext& context, const Rect& rect);

private:
    void take(const Session& session);
    void drawShown(const Page& page);
    void drawHere(const Page& page);
    void drawKinds(const Page& page);
    void row(const Page& page, std::size_t index, bool withLine);

    std::shared_ptr<const Trial> sound_;
    std::vector<Mistake> all_;
    int openKind_ = -1;
};

}  // namespace firstoff::gui
