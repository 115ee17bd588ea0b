// OpenGL without a window or a display server.
#pragma once

#include <memory>

namespace firstoff::gui {

// A context of its own through EGL, without any surface: draw into a Framebuffer. Current on the thread that made it
// until it is destroyed. Throws GraphicsError when the system has no such OpenGL.
class OffscreenContext {
public:
    OffscreenContext();
    ~OffscreenContext();
    OffscreenContext(const OffscreenContext&) = delete;
    OffscreenContext& operator=(const OffscreenContext&) = delete;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace firstoff::gui
