#include "gui/tab_strip.h"

#include <algorithm>
#include <cmath>

namespace firstoff::gui {

namespace {

constexpr float kRow = 26;
constexpr float kLeastRoom = 10;  // beside the words of a button
constexpr std::size_t kMostRows = 3;

float wordsWidth(const PaneContext& context, const std::vector<TabButton>& buttons, std::size_t first,
                 std::size_t end) {
    const ImFont* font = context.fonts.small;
    float width = 0;
    for (std::size_t i = first; i < end; ++i)
        width += font->CalcTextSizeA(font->FontSize, 1e9f, 0, buttons[i].text.c_str()).x;
    return width;
}

// The fewest in which all words have room; in a very narrow pane they overlap rather than fill it.
std::size_t rowsFor(const PaneContext& context, const std::vector<TabButton>& buttons, float width) {
    std::size_t rows = 1;
    for (; rows < kMostRows && 2 * rows < buttons.size(); ++rows) {
        const std::size_t perRow = (buttons.size() + rows - 1) / rows;
        bool fits = true;
        for (std::size_t first = 0; first < buttons.size() && fits; first += perRow) {
            const std::size_t end = std::min(buttons.size(), first + perRow);
            fits =
                wordsWidth(context, buttons, first, end) + context.px(kLeastRoom) * static_cast<float>(end - first) <=
                width;
        }
        if (fits) break;
    }
    return rows;
}

}  // namespace

float tabStripHeight(const PaneContext& context, const std::vector<TabButton>& buttons, float width) {
    return context.px(kRow) * static_cast<float>(rowsFor(context, buttons, width));
}

// Each as wide as its words, with the rest of the row shared out.
int drawTabStrip(const PaneContext& context, std::vector<TabButton>& buttons, int shown, const Rect& place) {
    const PaneFrame frame("tabs", place, context, 0, false);
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleVar(ImGuiStyleVar_FrameRounding, 0.0f);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {0, ImGui::GetStyle().FramePadding.y});
    const std::size_t rows = rowsFor(context, buttons, place.w), perRow = (buttons.size() + rows - 1) / rows;
    const float height = place.h / static_cast<float>(rows);
    for (std::size_t row = 0; row < rows; ++row) {
        const std::size_t first = row * perRow, end = std::min(buttons.size(), first + perRow);
        const float share = (place.w - wordsWidth(context, buttons, first, end)) / static_cast<float>(end - first);
        float x = 0;
        for (std::size_t i = first; i < end; ++i) {
            TabButton& button = buttons[i];
            const float next = x + ImGui::CalcTextSize(button.text.c_str()).x + share;
            ImGui::SetCursorPos({std::round(x), std::round(static_cast<float>(row) * height)});
            const bool chosen = shown == button.id;
            ImGui::PushStyleColor(ImGuiCol_Button, tint(chosen ? context.palette.panel : context.palette.raised));
            ImGui::PushID(button.id);
            // The words change with the counts; the button stays the same one.
            if (ImGui::Button((button.text + "###tab").c_str(), {std::round(next) - std::round(x), height}))
                shown = button.id;
            ImGui::PopID();
            ImGui::PopStyleColor();
            const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
            button.place = {low.x, low.y, high.x - low.x, high.y - low.y};
            if (chosen) {
                ImGui::GetWindowDrawList()->AddRectFilled({low.x, low.y}, {high.x, low.y + context.px(2)},
                                                          ink(context.palette.accent));
            }
            x = next;
        }
    }
    ImGui::PopStyleVar(2);
    ImGui::PopFont();
    return shown;
}

}  // namespace firstoff::gui
