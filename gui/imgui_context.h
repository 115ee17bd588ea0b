// Owner of a context of the drawing library.
#pragma once

#include <imgui.h>

namespace firstoff::gui {

class ImguiContext {
public:
    ImguiContext() {
        IMGUI_CHECKVERSION();
        context_ = ImGui::CreateContext();
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;  // our settings are kept by view_settings
        io.LogFilename = nullptr;
        io.ConfigInputTextCursorBlink = true;
    }
    ~ImguiContext() { ImGui::DestroyContext(context_); }
    ImguiContext(const ImguiContext&) = delete;
    ImguiContext& operator=(const ImguiContext&) = delete;

private:
    ImGuiContext* context_ = nullptr;
};

// For a texture that is only ever drawn pixel for pixel: takes the nearest texel instead of blending four, which gives
// the same picture and lets software OpenGL fill a good deal faster.
void drawPixelForPixel(unsigned texture);

// The same for the texture of the type, after the renderer has made it: letters stand on whole pixels.
void drawTypePixelForPixel();

}  // namespace firstoff::gui
