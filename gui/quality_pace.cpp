#include "gui/quality_pace.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

constexpr double kPictureShare = 0.75;  // of a frame; the rest is for the panes beside it
constexpr double kRoomForMore = 0.30;   // of a frame: the next level costs up to two and a half times as much
constexpr double kLate = 1.35;          // frames late by more than a display's jitter
constexpr int kLateFrames = 5, kEarlyFrames = 45;
constexpr double kDisappointedS = 4, kLongestWaitS = 120;

}  // namespace

void QualityPace::step(double now, int by) {
    const auto from = static_cast<std::size_t>(level_);
    if (by < 0) {
        if (now - steppedUp_ < kDisappointedS) waitS_[from] = std::min(2 * waitS_[from], kLongestWaitS);
        notBefore_[from] = now + waitS_[from];
    } else {
        steppedUp_ = now;
    }
    level_ = static_cast<Quality>(static_cast<int>(level_) + by);
    late_ = early_ = 0;
}

void QualityPace::frame(double now, double pictureS, double intervalS) {
    const bool late = pictureS > kPictureShare * wantedS_ || intervalS > kLate * wantedS_;
    const bool early = pictureS < kRoomForMore * wantedS_ && !late;
    late_ = late ? late_ + 1 : std::max(0, late_ - 1);
    early_ = early ? early_ + 1 : 0;
    if (late_ >= kLateFrames && level_ != Quality::Plain) return step(now, -1);
    if (early_ < kEarlyFrames || level_ == Quality::Finest) return;
    if (now >= notBefore_[static_cast<std::size_t>(level_) + 1]) step(now, 1);
}

}  // namespace firstoff::gui
