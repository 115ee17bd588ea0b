#include "gui/scene/spindle_turn.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff::gui {

SpindleTurn::SpindleTurn(const Timeline& timeline, const Toolpath& toolpath) {
    double turns = 0;
    for (const TimedMove& timed : timeline.moves) {
        const ModalState& modal = toolpath.modals[toolpath.moves[timed.move].modal];
        const double sign = modal.spindle == SpindleDirection::Reverse ? -1.0 / 60 : 1.0 / 60;
        const Stretch stretch{timed.t0, timed.t1, sign * timed.rpmStart, sign * timed.rpmEnd, turns};
        turns += (stretch.t1 - stretch.t0) * (stretch.revPerS0 + stretch.revPerS1) / 2;
        // Neighbours at one speed make one stretch, so a million short moves cost little.
        if (!stretches_.empty()) {
            Stretch& last = stretches_.back();
            const bool steady = last.revPerS0 == last.revPerS1 && stretch.revPerS0 == stretch.revPerS1 &&
                                last.revPerS1 == stretch.revPerS0;
            if (steady) {
                last.t1 = stretch.t1;
                continue;
            }
        }
        stretches_.push_back(stretch);
    }
}

double SpindleTurn::at(double timeS) const {
    if (stretches_.empty()) return 0;
    auto after = std::upper_bound(stretches_.begin(), stretches_.end(), timeS,
                                  [](double t, const Stretch& s) { return t < s.t0; });
    const Stretch& s = after == stretches_.begin() ? *after : *(after - 1);
    const double elapsed = std::clamp(timeS, s.t0, s.t1) - s.t0;
    const double length = s.t1 - s.t0;
    const double slope = length > 0 ? (s.revPerS1 - s.revPerS0) / length : 0;
    const double turns = s.turnsBefore + elapsed * (s.revPerS0 + slope * elapsed / 2);
    return std::fmod(2 * kPi * kSlower * turns, 2 * kPi);
}

}  // namespace firstoff::gui
