#include "gui/imgui_context.h"

#include <cstdint>

#include "gui/gl/loader.h"

namespace firstoff::gui {

void drawPixelForPixel(unsigned texture) {
    GLint before = 0;
    glGetIntegerv(GL_TEXTURE_BINDING_2D, &before);
    glBindTexture(GL_TEXTURE_2D, texture);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    glBindTexture(GL_TEXTURE_2D, static_cast<GLuint>(before));
}

void drawTypePixelForPixel() {
    drawPixelForPixel(static_cast<unsigned>(reinterpret_cast<std::uintptr_t>(ImGui::GetIO().Fonts->TexID)));
}

}  // namespace firstoff::gui
