#include "gui/pane_surface.h"

#include <backends/imgui_impl_opengl3.h>

#include <algorithm>
#include <cfloat>
#include <cmath>
#include <cstdint>
#include <utility>

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

// Takes what shows it out of the lists and draws it at once: as a blended rectangle it would cost about a fifth of the frame.
void PaneSurface::paintPicture(ImDrawData& data, ImTextureID texture) {
    const auto height = static_cast<int>(data.DisplaySize.y);
    if (!copy_) copy_ = std::make_unique<PixelCopy>();
    glDisable(GL_BLEND);
    glDisable(GL_DEPTH_TEST);
    glViewport(0, 0, static_cast<int>(data.DisplaySize.x), height);
    for (int i = 0; i < data.CmdListsCount; ++i) {
        ImDrawList& list = *data.CmdLists[i];
        for (int at = 0; at < list.CmdBuffer.Size;) {
            const ImDrawCmd& command = list.CmdBuffer[at];
            if (command.TextureId != texture || command.UserCallback != nullptr || command.ElemCount < 3) {
                ++at;
                continue;
            }
            ImVec2 low{FLT_MAX, FLT_MAX}, high{0, 0};  // three corners of a rectangle
            for (unsigned corner = 0; corner < 3; ++corner) {
                const auto index = static_cast<int>(list.IdxBuffer[static_cast<int>(command.IdxOffset + corner)]);
                const ImVec2& p = list.VtxBuffer[index + static_cast<int>(command.VtxOffset)].pos;
                low = {std::min(low.x, p.x), std::min(low.y, p.y)};
                high = {std::max(high.x, p.x), std::max(high.y, p.y)};
            }
            const auto pixel = [](float place) { return static_cast<int>(std::lround(place)); };
            const int left = pixel(std::max(low.x, command.ClipRect.x)),
                      right = pixel(std::min(high.x, command.ClipRect.z)),
                      top = pixel(std::max(low.y, command.ClipRect.y)),
                      bottom = pixel(std::min(high.y, command.ClipRect.w));
            if (left < right && top < bottom) {
                glScissor(left, height - bottom, right - left, bottom - top);
                copy_->draw(static_cast<GLuint>(reinterpret_cast<std::uintptr_t>(texture)), pixel(low.x),
                            height - pixel(high.y));
            }
            list.CmdBuffer.erase(list.CmdBuffer.begin() + at);
        }
    }
}

void PaneSurface::paint(Colour ground, const ShownPicture& picture) {
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
    if (std::exchange(ground_, ground) != ground) plan_.forget();
    if (width != kept_.width() || height != kept_.height()) plan_.forget();
    kept_.resize(width, height, 1);
    kept_.bind();
    const ImTextureID fresh = picture.fresh ? picture.texture : nullptr;
    glEnable(GL_SCISSOR_TEST);
    for (const PixelArea& area : plan_.cutDown(data, {&fresh, 1})) {
        glScissor(area.left, height - area.bottom, area.right - area.left, area.bottom - area.top);
        clearTo(ground);
    }
    if (picture.texture != nullptr) paintPicture(data, picture.texture);
    glDisable(GL_SCISSOR_TEST);
    ImGui_ImplOpenGL3_RenderDrawData(&data);
    kept_.copyTo(static_cast<GLuint>(shown));
    glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(shown));
}

}  // namespace firstoff::gui
