#include "gui/page.h"

#include <algorithm>
#include <cmath>

#include "gui/wrapped_text.h"

namespace firstoff::gui {

Page::Page(const PaneContext& context, const char* name, const Rect& rect)
    : context_(context),
      frame_(name, rect, context, 0, false),
      width_(std::max(rect.w - context.px(2 * 10 + 12), context.px(60))) {
    ImGui::SetCursorPos({0, context.px(5)});
    beginScrolled(context, "page", {rect.w, rect.h - context.px(5)});
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {context.px(6), context.px(3)});
    ImGui::PushFont(context.fonts.small);
}

Page::~Page() {
    ImGui::PopFont();
    ImGui::PopStyleVar();
    ImGui::EndChild();
}

void Page::indent() const {
    ImGui::SetCursorPosX(pad());
}

void Page::gap() const {
    ImGui::Dummy({1, context_.px(3)});
}

void Page::title(const char* text) const {
    gap();
    indent();
    heading(text, context_);
}

void Page::words(const std::string& text, Colour colour) const {
    ImGui::PushStyleColor(ImGuiCol_Text, tint(colour));
    indent();
    ImGui::TextUnformatted(wrapped(*context_.fonts.small, width_, text).c_str());
    ImGui::PopStyleColor();
}

void Page::name(const std::string& text, float width, Colour colour) const {
    const std::string shown = fitted(*context_.fonts.small, width, text);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(colour));
    ImGui::TextUnformatted(shown.c_str());
    ImGui::PopStyleColor();
    if (shown != text && ImGui::IsItemHovered()) ImGui::SetTooltip("%s", text.c_str());
}

void Page::figure(const std::string& label, const std::string& value, const std::string& unit) const {
    const float units = context_.px(64), valueWidth = ImGui::CalcTextSize(value.c_str()).x;
    indent();
    name(label, width_ - units - valueWidth - context_.px(6), context_.palette.quiet);
    ImGui::SameLine(pad() + width_ - units - valueWidth);
    ImGui::TextUnformatted(value.c_str());
    ImGui::SameLine(pad() + width_ - units + context_.px(6));
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context_.palette.quiet));
    ImGui::TextUnformatted(unit.c_str());
    ImGui::PopStyleColor();
}

// The words on a line of their own, so that names are read whole, and the bar beneath them.
bool Page::bar(const std::string& label, double share, const std::string& behind, Colour colour) const {
    indent();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImFont* font = context_.fonts.small;
    const float thick = context_.px(4), height = font->FontSize + thick + context_.px(5);
    ImGui::PushID(label.c_str());
    const bool clicked = ImGui::InvisibleButton("bar", {width_, height});
    const bool hovered = ImGui::IsItemHovered();
    ImGui::PopID();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (hovered)
        list.AddRectFilled({at.x - context_.px(3), at.y - 1}, {at.x + width_ + context_.px(3), at.y + height},
                           ink(context_.palette.hovered, 0.5f), context_.px(2));
    const float behindWidth = font->CalcTextSizeA(font->FontSize, 1e9f, 0, behind.c_str()).x;
    const std::string shown = fitted(*font, width_ - behindWidth - context_.px(8), label);
    list.AddText(font, font->FontSize, at, ink(context_.palette.text), shown.c_str());
    list.AddText(font, font->FontSize, {at.x + width_ - behindWidth, at.y}, ink(context_.palette.text), behind.c_str());
    if (hovered && shown != label) ImGui::SetTooltip("%s", label.c_str());
    const float y = at.y + font->FontSize + context_.px(2);
    list.AddRectFilled({at.x, y}, {at.x + width_, y + thick}, ink(context_.palette.line, 0.35f), context_.px(2));
    const float filled = width_ * static_cast<float>(std::clamp(share, 0.0, 1.0));
    if (filled > 0)
        list.AddRectFilled({at.x, y}, {at.x + std::max(filled, 1.0f), y + thick}, ink(colour), context_.px(2));
    if (share > 1) {
        // Past the end: two notches, so that colour alone does not say it.
        for (const float back : {context_.px(4), context_.px(8)})
            list.AddLine({at.x + width_ - back, y - 1}, {at.x + width_ - back + context_.px(3), y + thick + 1},
                         ink(context_.palette.panel), 2);
    }
    return clicked;
}

Colour warningInk(const PaneContext& context, Severity severity) {
    return legible(context.palette.severity[static_cast<std::size_t>(severity)], context.palette.panel, 4.5);
}

}  // namespace firstoff::gui
