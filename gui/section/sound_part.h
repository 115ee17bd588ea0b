// The part of the job as it is written, beside a trial with changes: what its section is at the same place of the
// program.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "gui/session.h"
#include "sim/stock/history.h"

namespace firstoff::gui {

class SoundPart {
public:
    // `shown`: the trial that the pane shows. What is shown without changes has nothing beside it.
    void take(const Session& session, const Trial& shown);

    bool there() const { return sound_ != nullptr; }
    const std::vector<SectionContour>& contours() const { return contours_; }

private:
    std::shared_ptr<const Trial> sound_;
    std::optional<StockCursor> cursor_;
    double timeS_ = -1;  // of `contours_`
    std::vector<SectionContour> contours_;
};

}  // namespace firstoff::gui
