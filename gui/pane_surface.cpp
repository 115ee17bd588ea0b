#include "gui/pane_surface.h"

#include <backends/imgui_impl_opengl3.h>

#include "gui/gl/picture.h"
#include "gui/theme.h"

namespace firstoff::gui {

namespace {

void clearTo(Colour ground) {
    const ImVec4 colour = tint(ground);
    glClearColor(colour.x, colour.y, colour.z, 1);
    glClear(GL_COLOR_BUFFER_BIT);
}

}  // namespace

void PaneSurface::paint(Colour ground, std::span<const ImTextureID> fresh) {
    ImDrawData& data = *ImGui::GetDrawData();
    const auto width = static_cast<int>(data.DisplaySize.x * data.FramebufferScale.x);
    const auto height = static_cast<int>(data.DisplaySize.y * data.FramebufferScale.y);
    if (width <= 0 || height <= 0) return;
    if (!keeps_) keeps_ = isSoftwareOpenGl();
    if (!*keeps_ || data.FramebufferScale.x != 1 || data.FramebufferScale.y != 1) {
        glViewport(0, 0, width, height);
        clearTo(ground);
        ImGui_ImplOpenGL3_RenderDrawData(&data);
        return;
    }
    GLint shown = 0;
    glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &shown);
    if (width != kept_.width() || height != kept_.height()) plan_.forget();
    kept_.resize(width, height, 1);
    kept_.bind();
    glEnable(GL_SCISSOR_TEST);
    for (const PixelArea& area : plan_.cutDown(data, fresh)) {
        glScissor(area.left, height - area.bottom, area.right - area.left, area.bottom - area.top);
        clearTo(ground);
    }
    glDisable(GL_SCISSOR_TEST);
    ImGui_ImplOpenGL3_RenderDrawData(&data);
    kept_.copyTo(static_cast<GLuint>(shown));
    glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(shown));
}

}  // namespace firstoff::gui
