#include "gui/file_notices.h"

#include <algorithm>

#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

const char* wordsOf(FileAnswer::What what) {
    switch (what) {
        case FileAnswer::What::ReadAgain:
            return tr("Read it again");
        case FileAnswer::What::KeepMine:
            return tr("Keep mine");
        case FileAnswer::What::CompareDisk:
        case FileAnswer::What::CompareUnsaved:
            return tr("Compare");
        case FileAnswer::What::TakeUnsaved:
            return tr("Take it up");
        case FileAnswer::What::DropUnsaved:
            return tr("Throw it away");
    }
    return "";
}

}  // namespace

void FileNotices::draw(const PaneContext& context, const Rect& place) {
    using What = FileAnswer::What;
    const std::string name = context.session.programName();
    if (found_) {
        ask(context, place,
            say("Changes to {} that were not saved were kept when the window ended unexpectedly. Take them up?", name),
            {What::TakeUnsaved, What::CompareUnsaved, What::DropUnsaved});
    } else if (changed_) {
        std::string text = say("{} was changed on disk by another program.", name);
        if (context.session.modified()) {
            text += ' ';
            text += tr("Your own changes are lost when it is read again.");
        }
        ask(context, place, text, {What::ReadAgain, What::CompareDisk, What::KeepMine});
    }
}

void FileNotices::ask(const PaneContext& context, const Rect& place, const std::string& text,
                      const FileAnswer::What (&answers)[3]) {
    const float width = std::clamp(place.w - context.px(20), context.px(200), context.px(560));
    ImGui::SetNextWindowPos({place.x + 0.5f * place.w, place.bottom() - context.px(64)}, 0, {0.5f, 1});
    ImGui::SetNextWindowSize({width, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, context.px(4));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1.0f);
    ImGui::PushStyleColor(ImGuiCol_Border, tint(context.palette.accent));
    ImGui::Begin("file notice", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoFocusOnAppearing | ImGuiWindowFlags_NoNav);
    ImGui::TextUnformatted(wrapped(*context.fonts.text, width - context.px(24), text).c_str());
    ImGui::Dummy({1, context.px(2)});
    for (const FileAnswer::What answer : answers) {
        if (ImGui::Button(wordsOf(answer))) context.commands.add(FileAnswer{answer});
        ImGui::SameLine();
    }
    ImGui::NewLine();
    ImGui::End();
    ImGui::PopStyleColor();
    ImGui::PopStyleVar(2);
}

}  // namespace firstoff::gui
