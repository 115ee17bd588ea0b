#include "gui/gl/picture_timer.h"

#include <algorithm>
#include <utility>

namespace firstoff::gui {

PictureTimer::~PictureTimer() {
    if (queries_[0] != 0) glDeleteQueries(static_cast<GLsizei>(kInFlight), queries_.data());
}

void PictureTimer::begin() {
    start_ = std::chrono::steady_clock::now();
    running_ = false;
    if (queries_[0] == 0) glGenQueries(static_cast<GLsizei>(kInFlight), queries_.data());
    if (asked_[next_]) return;  // its answer is still to come: this picture goes unmeasured
    starts_[next_] = start_;
    glBeginQuery(GL_TIME_ELAPSED, queries_[next_]);
    running_ = true;
}

void PictureTimer::end() {
    glFlush();
    processorS_ = std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    if (!running_) return;
    glEndQuery(GL_TIME_ELAPSED);
    asked_[next_] = true;
    next_ = (next_ + 1) % kInFlight;
}

std::optional<double> PictureTimer::latest() {
    for (std::size_t i = 0; i < kInFlight; ++i) {
        const std::size_t at = (next_ + i) % kInFlight;  // oldest first
        if (!asked_[at]) continue;
        GLuint ready = 0;
        glGetQueryObjectuiv(queries_[at], GL_QUERY_RESULT_AVAILABLE, &ready);
        if (!ready) break;
        GLuint64 nanoseconds = 0;
        glGetQueryObjectui64v(queries_[at], GL_QUERY_RESULT, &nanoseconds);
        asked_[at] = false;
        const double told = 1e-9 * static_cast<double>(nanoseconds);
        // Mesa's llvmpipe answers the first one with the time since the computer was started.
        const std::chrono::duration<double> since = std::chrono::steady_clock::now() - starts_[at];
        if (told <= since.count()) known_ = std::max(told, processorS_);
    }
    return std::exchange(known_, std::nullopt);
}

}  // namespace firstoff::gui
