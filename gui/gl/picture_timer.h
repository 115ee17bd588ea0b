// How long the graphics side worked on a picture.
#pragma once

#include <array>
#include <chrono>
#include <optional>

#include "gui/gl/loader.h"

namespace firstoff::gui {

// begin() and end() about the drawing, then latest(). The answer comes a few frames later, so that nobody waits for it.
// end() has the drawing begun with, beside what the caller does next. A context must be current.
class PictureTimer {
public:
    PictureTimer() = default;
    ~PictureTimer();
    PictureTimer(const PictureTimer&) = delete;
    PictureTimer& operator=(const PictureTimer&) = delete;

    void begin();
    void end();
    // s, of the newest picture that is known, each told once.
    std::optional<double> latest();

private:
    static constexpr std::size_t kInFlight = 4;
    std::array<GLuint, kInFlight> queries_{};
    std::array<bool, kInFlight> asked_{};
    std::size_t next_ = 0;
    bool running_ = false;
    std::array<std::chrono::steady_clock::time_point, kInFlight> starts_;  // of each query's picture
    std::chrono::steady_clock::time_point start_;
    double processorS_ = 0;
    std::optional<double> known_;
};

}  // namespace firstoff::gui
