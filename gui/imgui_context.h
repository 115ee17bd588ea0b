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

}  // namespace firstoff::gui
