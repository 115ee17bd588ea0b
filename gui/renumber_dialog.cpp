#include "gui/renumber_dialog.h"

#include <algorithm>

#include "sim/base/say.h"

namespace firstoff::gui {

void RenumberDialog::answer(const Renumbered& result) {
    refusals_.clear();
    for (const Renumbered::Remark& refusal : result.refusals) refusals_.push_back(refusal.text);
    open_ = !refusals_.empty();
}

void RenumberDialog::draw(const PaneContext& context) {
    if (!open_) return;
    const std::string label = std::string(tr("Numbers and spacing")) + "###renumber";
    if (!ImGui::IsPopupOpen("###renumber")) ImGui::OpenPopup("###renumber");
    const ImVec2 display = ImGui::GetIO().DisplaySize;
    ImGui::SetNextWindowPos({0.5f * display.x, 0.5f * display.y}, 0, {0.5f, 0.5f});
    ImGui::SetNextWindowSize({std::min(context.px(460), display.x - context.px(20)), 0});
    if (!ImGui::BeginPopupModal(
            label.c_str(), nullptr,
            ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings)) {
        return;
    }
    drawNumbers(context);
    drawRefusals(context);
    ImGui::Separator();
    drawSpacing(context);
    ImGui::Dummy({1, context.px(4)});
    if (ImGui::Button(tr("Close"), {context.px(96), 0}) || hit(context.input, Key::Escape)) open_ = false;
    if (!open_) ImGui::CloseCurrentPopup();
    ImGui::EndPopup();
}

void RenumberDialog::drawNumbers(const PaneContext& context) {
    const float width = context.px(90);
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(tr("First number"));
    ImGui::SameLine(context.px(120));
    ImGui::SetNextItemWidth(width);
    ImGui::InputInt("##first", &first_, 0);
    ImGui::SameLine(0, context.px(24));
    ImGui::TextUnformatted(tr("Step"));
    ImGui::SameLine();
    ImGui::SetNextItemWidth(width);
    ImGui::InputInt("##step", &step_, 0);
    first_ = std::clamp(first_, 0, kLargestSequenceNumber);
    step_ = std::clamp(step_, 1, kLargestSequenceNumber);
    if (ImGui::RadioButton(tr("every block with words"), everyBlock_)) everyBlock_ = true;
    if (ImGui::RadioButton(tr("only blocks that have a number"), !everyBlock_)) everyBlock_ = false;
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::TextWrapped("%s", tr("P and Q of cycles, GOTO and M99 P follow. Numbers in remarks stay as they are."));
    ImGui::PopStyleColor();
    ImGui::PopFont();
    if (ImGui::Button(tr("Number anew"), {context.px(150), 0})) {
        context.commands.add(Renumber{first_, step_, everyBlock_});
    }
}

void RenumberDialog::drawRefusals(const PaneContext& context) {
    if (refusals_.empty()) return;
    constexpr std::size_t kMost = 6;
    ImGui::Spacing();
    ImGui::TextWrapped("%s", tr("Nothing was changed:"));
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.wordTool));
    for (std::size_t i = 0; i < std::min(kMost, refusals_.size()); ++i) ImGui::TextWrapped("%s", refusals_[i].c_str());
    ImGui::PopStyleColor();
    if (refusals_.size() > kMost) ImGui::TextDisabled("%s", say("and {} more", refusals_.size() - kMost).c_str());
}

void RenumberDialog::drawSpacing(const PaneContext& context) {
    ImGui::TextUnformatted(tr("Blanks between words"));
    const ImVec2 size{context.px(150), 0};
    const bool one = ImGui::Button(tr("One blank"), size);
    ImGui::SameLine();
    const bool none = ImGui::Button(tr("No blanks"), size);
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::TextWrapped("%s", tr("Remarks and macro statements stay as they are."));
    ImGui::PopStyleColor();
    ImGui::PopFont();
    if (!one && !none) return;
    context.commands.add(SpaceWords{one});
    open_ = false;
}

}  // namespace firstoff::gui
