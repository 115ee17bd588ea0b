#include "gui/section/sound_part.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

// When the sound job is at the same share of the same step; where the programs go apart, at the end of the shorter one.
double timeBeside(const Trial& sound, const Trial& shown, double timeS) {
    if (timeS >= shown.timeline.cycleTimeS) return sound.timeline.cycleTimeS;
    const std::size_t step = shown.stepAt(timeS);
    const double from = shown.startOfStep(step), to = shown.startOfStep(step + 1);
    const double share = to > from ? std::clamp((timeS - from) / (to - from), 0.0, 1.0) : 0;
    const double soundFrom = sound.startOfStep(step), soundTo = sound.startOfStep(step + 1);
    return soundFrom + share * (soundTo - soundFrom);
}

}  // namespace

void SoundPart::take(const Session& session, const Trial& shown) {
    const bool wanted = session.showsChanges() && session.asWritten && session.asWritten->trial->stock;
    const std::shared_ptr<const Trial> sound = wanted ? session.asWritten->trial : nullptr;
    if (sound != sound_) {
        sound_ = sound;
        cursor_.reset();
        contours_.clear();
        timeS_ = -1;
        if (sound_) cursor_.emplace(sound_->stock);
    }
    if (!sound_ || sound_->timeline.moves.empty()) return;
    const double timeS = timeBeside(*sound_, shown, session.timeS);
    if (timeS == timeS_) return;
    timeS_ = timeS;
    const std::size_t timed = sound_->timeline.at(timeS);
    const double fraction = fractionAt(sound_->timeline.moves[timed], sound_->toolpath, sound_->setup, timeS);
    cursor_->seek(static_cast<std::uint32_t>(timed), fraction);
    contours_ = cursor_->contours();
}

}  // namespace firstoff::gui
