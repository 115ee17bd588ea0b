#include "gui/dialogs.h"

#include <algorithm>

#include "gui/verdict_strip.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

// `id` stays the same whatever the title says.
bool beginDialog(const char* title, const char* id, const PaneContext& context, float width) {
    if (!ImGui::IsPopupOpen(id)) ImGui::OpenPopup(id);
    const std::string label = std::string(title) + id;
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    ImGui::SetNextWindowPos({0.5f * display.x, 0.5f * display.y}, 0, {0.5f, 0.5f});
    ImGui::SetNextWindowSize({std::min(context.px(width), display.x - context.px(20)), 0});
    ImGui::SetNextWindowSizeConstraints({0, 0}, {display.x, display.y - context.px(20)});
    return ImGui::BeginPopupModal(
        label.c_str(), nullptr, ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings);
}

bool closeButton(const PaneContext& context) {
    ImGui::Dummy({1, context.px(4)});
    return ImGui::Button(tr("Close"), {context.px(96), 0}) || hit(context.input, Key::Escape);
}

void paragraph(const char* text) {
    ImGui::TextWrapped("%s", text);
    ImGui::Spacing();
}

}  // namespace

Commands Dialogs::takeNext() {
    if (!released_) return {};
    released_ = false;
    return next_.take();
}

void Dialogs::draw(const PaneContext& context) {
    if (saving_ && !context.session.modified()) {
        saving_ = false;
        released_ = true;
    }
    if (!next_.empty() && !released_ && !saving_) drawQuestion(context);
    if (keys_) drawKeys(context);
    if (about_) drawAbout(context);
}

void Dialogs::drawQuestion(const PaneContext& context) {
    if (!beginDialog(tr("Unsaved changes"), "###unsaved", context, 420)) return;
    ImGui::TextWrapped("%s", say("{} has changes that are not saved.", context.session.programName()).c_str());
    ImGui::Dummy({1, context.px(6)});
    const ImVec2 size{context.px(96), 0};
    bool close = false;
    if (ImGui::Button(tr("Save"), size)) {
        context.commands.add(Save{});
        saving_ = true;
        close = true;
    }
    ImGui::SameLine();
    if (ImGui::Button(tr("Discard"), size)) {
        released_ = true;
        close = true;
    }
    ImGui::SameLine();
    if (ImGui::Button(tr("Cancel"), size) || hit(context.input, Key::Escape)) {
        next_ = {};
        saving_ = false;
        close = true;
    }
    if (close) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

void Dialogs::drawKeys(const PaneContext& context) {
    if (!beginDialog(tr("Keys and mouse"), "###keys", context, 560)) return;
    static constexpr const char* kRows[][2] = {
        {later("Space"), later("play or pause (outside the program; Ctrl+Space everywhere)")},
        {later("Alt+Left, Alt+Right"), later("one block back, forward")},
        {later("Alt+Home, Alt+End"), later("to the start, to the end")},
        {"5", later("half-section beneath the picture, alone, away")},
        {"1 2 3 4", later("view: part, tool, machine, end on (outside the program)")},
        {"B, H", later("single block, feed hold (outside the program)")},
        {later("Ctrl+B; Alt+Up, Alt+Down"),
         later("bookmark at the caret's line, no longer; to the one before, the next")},
        {later("Shift and drag in the timeline"), later("loop that stretch; L: no longer")},
        {later("Double-click in the timeline"), later("zoom to the block there")},
        {later("Click a line"), later("go to the moment it runs")},
        {later("Double-click the part"),
         later("go to the cut that left the surface, its line and its finish; brings the spot to the middle")},
        {later("Drag in the picture"),
         later("turn; right button or Shift: shift; wheel: nearer to, farther from what the mouse points at")},
        {later("Shift and arrows"),
         later("turn the picture; Ctrl and arrows: shift; PageUp, PageDown: nearer, farther (outside the program)")},
        {"G, M", later("gauge the next surface of the half-section; keep it and gauge to the next; with Shift: the one "
                       "before (outside the program)")},
        {later("Drag in the timeline"), later("scrub; wheel: zoom; right button: shift; right double-click: all")},
        {later("Ctrl+O, Ctrl+Shift+O"), later("open a program, a set-up; or drop files on the window")},
        {later("Ctrl+S, Ctrl+Shift+S"), later("save, save as")},
        {later("Ctrl+Z, Ctrl+Y"),
         later("undo, redo: the text while the caret is in the program, else what was changed in the window")},
        {later("Ctrl+F, Ctrl+H"), later("find, replace; F3, Shift+F3: the next one, the one before")},
        {later("Ctrl+G"), later("go to a line (45) or a block (N120)")},
        {"F10", later("the menus: arrows and Enter, Escape")},
        {"F6", later("the page beneath the program by keys: arrows and Enter, Space; F6 or Escape: no longer")},
        {later("Ctrl+PageUp, Ctrl+PageDown"), later("the page before, the next, beneath the program")},
        {later("Enter"), later("in a lesson: mark the answer, or go on to the next step")},
        {later("Ctrl+Enter"), later("unfold or fold the passes of the cycle in this line")},
        {"F5", later("read program and set-up again")},
    };
    if (ImGui::BeginTable("keys", 2, ImGuiTableFlags_RowBg)) {
        ImGui::TableSetupColumn("key", ImGuiTableColumnFlags_WidthFixed, context.px(180));
        for (const auto& row : kRows) {
            ImGui::TableNextColumn();
            ImGui::TextUnformatted(tr(row[0]));
            ImGui::TableNextColumn();
            ImGui::TextWrapped("%s", tr(row[1]));
        }
        ImGui::EndTable();
    }
    if (closeButton(context)) {
        keys_ = false;
        ImGui::CloseCurrentPopup();
    }
    ImGui::EndPopup();
}

void Dialogs::drawAbout(const PaneContext& context) {
    if (!beginDialog(tr("About and cautions"), "###about", context, 520)) return;
    paragraph(tr("firstoff cuts a turning program in a virtual lathe before any metal is at risk. MIT licence."));
    paragraph(tr(kCaution));
    paragraph(
        tr("\"Clear\" says only that every block was understood and carried out and that nothing was found with the "
           "set-up as it "
           "is written down. What the set-up file does not say, or says wrongly, was not tried."));
    paragraph(tr(
        "Estimated only, and only where the set-up gives the figures: how part and bar give way, whether the grip "
        "holds, how long edges last; sizes count what gives way where that is known. Not modelled: chatter, heat, chip "
        "jams, the control's own look-ahead and corner rounding."));
    if (closeButton(context)) {
        about_ = false;
        ImGui::CloseCurrentPopup();
    }
    ImGui::EndPopup();
}

}  // namespace firstoff::gui
