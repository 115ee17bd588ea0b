#include "gui/gl/loader.h"

namespace firstoff::gui {

namespace {

std::string glText(GLenum name) {
    const GLubyte* text = glGetString(name);
    return text ? reinterpret_cast<const char*>(text) : "unknown";
}

}  // namespace

void loadOpenGl(ProcAddress (*getProcAddress)(const char*)) {
    const int version = gladLoadGL(getProcAddress);
    if (version == 0) throw GraphicsError("OpenGL could not be loaded: the graphics driver gave no functions.");
    if (version < GLAD_MAKE_VERSION(4, 1)) {
        throw GraphicsError("OpenGL 4.1 is needed; this driver offers " + glText(GL_VERSION) + " (" +
                            glText(GL_RENDERER) + "). Update the graphics driver or use software OpenGL.");
    }
}

std::string describeOpenGl() {
    return glText(GL_RENDERER) + ", OpenGL " + glText(GL_VERSION);
}

}  // namespace firstoff::gui
