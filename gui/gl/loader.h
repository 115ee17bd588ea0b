// OpenGL 4.1 core, as loaded for the context that is current.
#pragma once

#include <glad/gl.h>

#include <stdexcept>
#include <string>
#include <string_view>

namespace firstoff::gui {

// What OpenGL or the window system refused. Caught once, where the application or a tool starts.
struct GraphicsError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

using ProcAddress = void (*)();
// Loads OpenGL for the current context through `getProcAddress` (of GLFW or EGL). Throws GraphicsError when the context
// has no OpenGL 4.1.
void loadOpenGl(ProcAddress (*getProcAddress)(const char*));

// The environment variable FIRSTOFF_GL_REFUSE lists what a driver is to be taken to refuse, so that the way down can be
// tried on one that refuses nothing: MULTISAMPLE, and names that shaders are made with, such as SHADOWS.
bool refusedForTest(std::string_view what);

// "renderer, version" of the current context, for the papers.
std::string describeOpenGl();

}  // namespace firstoff::gui
