// How fine a moving picture may be, from how long its frames take: steps down soon, up slowly.
//
// A level that turned out too slow is not tried again before a wait, which doubles each time it disappoints, so that
// the picture does not go back and forth. Takes no clock of its own: everything is told to it.
#pragma once

#include <array>

#include "gui/scene/quality.h"

namespace firstoff::gui {

class QualityPace {
public:
    // `wantedS`: what a frame of the whole window may take.
    explicit QualityPace(double wantedS = 1.0 / 60, Quality first = Quality::Finest)
        : wantedS_(wantedS), level_(first) {}

    Quality level() const { return level_; }
    // A frame of a moving picture at `now`: what the picture of the lathe took of it, and how long after the one before
    // it came, s.
    void frame(double now, double pictureS, double intervalS);

private:
    void step(double now, int by);

    double wantedS_;
    Quality level_;
    int late_ = 0, early_ = 0;              // frames in a row, a good one takes back a bad one
    double steppedUp_ = -1e9;               // when
    std::array<double, 3> waitS_{2, 2, 2};  // before the level is tried again
    std::array<double, 3> notBefore_{-1e9, -1e9, -1e9};
};

}  // namespace firstoff::gui
