// OpenGL without a window or a display server.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace firstoff::gui {

// Which of the computer's devices draws, where there are several.
struct GlDevice {
    enum class Kind : std::uint8_t {
        Any,       // what EGL gives without being asked; where that is software, an accelerator instead if there is one
        Software,  // OpenGL on the processor
        Number,    // this one of EGL_EXT_device_enumeration, counted from 0
    } kind = Kind::Any;
    int number = 0;

    friend bool operator==(const GlDevice&, const GlDevice&) = default;
};

// "any", "software" or a number; throws GraphicsError for other words.
GlDevice glDeviceNamed(std::string_view text);
// As the environment variable FIRSTOFF_GL_DEVICE has it, Any without it. LIBGL_ALWAYS_SOFTWARE, which Mesa reads, makes
// Any into Software.
GlDevice glDeviceFromEnvironment();

// A context of its own through EGL, without any surface: draw into a Framebuffer. Current on the thread that made it
// until it is destroyed. Throws GraphicsError when the system has no such OpenGL.
class OffscreenContext {
public:
    OffscreenContext() : OffscreenContext(glDeviceFromEnvironment()) {}
    explicit OffscreenContext(GlDevice device);
    ~OffscreenContext();
    OffscreenContext(const OffscreenContext&) = delete;
    OffscreenContext& operator=(const OffscreenContext&) = delete;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace firstoff::gui
