// OpenGL 4.1 core, as loaded for the context that is current.
#pragma once

#include <glad/gl.h>

#include <stdexcept>
#include <string>

namespace firstoff::gui {

// What OpenGL or the window system refused. Caught once, where the application or a tool starts.
struct GraphicsError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

using ProcAddress = void (*)();
// Loads OpenGL for the current context through `getProcAddress` (of GLFW or EGL). Throws GraphicsError when the context
// has no OpenGL 4.1.
void loadOpenGl(ProcAddress (*getProcAddress)(const char*));

// "renderer, version" of the current context, for the papers.
std::string describeOpenGl();

}  // namespace firstoff::gui
