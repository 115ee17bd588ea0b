// How long the graphics side worked on a picture.
#pragma once

#include <array>
#include <chrono>
#include <optional>

#include "gui/gl/loader.h"

namespace firstoff::gui {

// begin() and end() about the drawing, then latest(). On an accelerator the answer comes a few frames later, so that
// nobody waits for it; software OpenGL is waited for, since it is the processor that works. A context must be current.
class PictureTimer {
public:
    PictureTimer() = default;
    ~PictureTimer();
    PictureTimer(const PictureTimer&) = delete;
    PictureTimer& operator=(const PictureTimer&) = delete;

    void begin(bool software);
    void end();
    // s, of the newest picture that is known, each told once.
    std::optional<double> latest();

private:
    static constexpr std::size_t kInFlight = 4;
    std::array<GLuint, kInFlight> queries_{};
    std::array<bool, kInFlight> asked_{};
    std::size_t next_ = 0;
    bool software_ = true, running_ = false;
    std::chrono::steady_clock::time_point start_;
    double processorS_ = 0;
    std::optional<double> known_;
};

}  // namespace firstoff::gui
