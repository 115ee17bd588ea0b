// What every pane is given to draw itself.
#pragma once

#include <imgui.h>

#include "gui/command.h"
#include "gui/input_event.h"
#include "gui/instant.h"
#include "gui/layout.h"
#include "gui/measures.h"
#include "gui/session.h"
#include "gui/theme.h"

namespace firstoff::gui {

struct PaneContext {
    const Session& session;
    const Instant* instant = nullptr;  // null until there is a trial
    Commands& commands;
    const Palette& palette;
    const Fonts& fonts;
    const InputEvents& input;  // since the last frame
    double now = 0;            // s, of a clock that only runs forward
    // The page beneath the tabs is walked through by keys; it takes them in this frame.
    bool keysOnPage = false, keysTaken = false;

    Measures measures() const { return Measures(session.view.units); }
    float px(float measure) const { return measure * fonts.scale; }
    // Of a line.
    float stroke(float width) const { return px(width) * fonts.stroke; }
};

// A window of the drawing library without any dress, filling `rect`.
class PaneFrame {
public:
    PaneFrame(const char* name, const Rect& rect, const PaneContext& context, ImGuiWindowFlags more = 0,
              bool padded = true) {
        ImGui::SetNextWindowPos({rect.x, rect.y});
        ImGui::SetNextWindowSize({rect.w, rect.h});
        ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, padded ? ImVec2{context.px(10), context.px(7)} : ImVec2{0, 0});
        if (context.keysTaken) ImGui::SetNextWindowFocus();
        if (!context.keysOnPage) more |= ImGuiWindowFlags_NoNav;
        ImGui::Begin(name, nullptr,
                     ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                         ImGuiWindowFlags_NoBringToFrontOnFocus | more);
        ImGui::PopStyleVar();
    }
    ~PaneFrame() { ImGui::End(); }
    PaneFrame(const PaneFrame&) = delete;
    PaneFrame& operator=(const PaneFrame&) = delete;
};

// What of a pane scrolls, and has the keys when they are taken to the page. Ends with ImGui::EndChild().
inline void beginScrolled(const PaneContext& context, const char* name, ImVec2 size) {
    if (context.keysTaken) ImGui::SetNextWindowFocus();
    ImGui::BeginChild(name, size);
}

// A quiet heading, for the top of a pane.
inline void heading(const char* text, const PaneContext& context) {
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::TextUnformatted(text);
    ImGui::PopStyleColor();
    ImGui::PopFont();
}

}  // namespace firstoff::gui
