#include "gui/gl/loader.h"

#include "sim/base/say.h"

#include <cstdlib>

namespace firstoff::gui {

namespace {

std::string glText(GLenum name) {
    const GLubyte* text = glGetString(name);
    return text ? reinterpret_cast<const char*>(text) : "unknown";
}

}  // namespace

void loadOpenGl(ProcAddress (*getProcAddress)(const char*)) {
    const int version = gladLoadGL(getProcAddress);
    if (version == 0) throw GraphicsError(tr("OpenGL could not be loaded: the graphics driver gave no functions."));
    if (version < GLAD_MAKE_VERSION(4, 1)) {
        throw GraphicsError(
            say("OpenGL 4.1 is needed; this driver offers {} ({}). Update the graphics driver or use software OpenGL.",
                glText(GL_VERSION), glText(GL_RENDERER)));
    }
}

bool refusedForTest(std::string_view what) {
    const char* all = std::getenv("FIRSTOFF_GL_REFUSE");
    return all && std::string_view(all).find(what) != std::string_view::npos;
}

std::string describeOpenGl() {
    return glText(GL_RENDERER) + ", OpenGL " + glText(GL_VERSION);
}

}  // namespace firstoff::gui
