#include "gui/scene_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "gui/clearance_words.h"
#include "gui/scene/lathe_scene.h"

namespace firstoff::gui {

namespace {

// Lines of text in a box that stays within the picture, tied to the place it is about.
void drawLabel(const PaneContext& context, const SceneView& view, ImVec2 place, const std::vector<std::string>& lines,
               Colour edge) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    ImFont* first = context.fonts.text;
    ImFont* rest = context.fonts.small;
    float width = 0, height = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        ImFont* font = i == 0 ? first : rest;
        width = std::max(width, font->CalcTextSizeA(font->FontSize, 1e9f, 0, lines[i].c_str()).x);
        height += font->FontSize + context.px(2);
    }
    const float pad = context.px(7), away = context.px(30);
    ImVec2 at{place.x + away, place.y - away - height};
    const Rect& r = view.rect;
    if (at.x + width + 2 * pad > r.right()) at.x = place.x - away - width - 2 * pad;
    const float under = r.y + context.px(42);  // the buttons
    if (at.y < under) at.y = place.y + away;
    at.x = std::round(std::clamp(at.x, r.x + pad, std::max(r.x + pad, r.right() - width - 3 * pad)));
    at.y = std::round(std::clamp(at.y, under, std::max(under, r.bottom() - height - 3 * pad)));
    const ImVec2 high{at.x + width + 2 * pad, at.y + height + 1.6f * pad};
    const ImVec2 nearest{std::clamp(place.x, at.x, high.x), std::clamp(place.y, at.y, high.y)};
    list.AddLine(place, nearest, ink(edge), context.stroke(1.5f));
    list.AddRectFilled(at, high, ink(context.palette.panel, 0.93f), context.px(4));
    list.AddRect(at, high, ink(edge), context.px(4), 0, context.stroke(1.5f));
    float y = at.y + 0.7f * pad;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        ImFont* font = i == 0 ? first : rest;
        list.AddText(font, font->FontSize, {at.x + pad, y}, ink(i == 0 ? context.palette.text : context.palette.quiet),
                     lines[i].c_str());
        y += font->FontSize + context.px(2);
    }
}

}  // namespace

ImVec2 SceneView::onScreen(SpacePoint place) const {
    const glm::vec2 at = LatheScene::project(place, camera, widthPx, heightPx);
    return {rect.x + at.x, rect.y + at.y};
}

void drawEncounter(const PaneContext& context, const SceneView& view, const Trial& trial, const Encounter& encounter,
                   Point datum) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 place = view.onScreen(encounter.place);
    const bool contact = encounter.gapMm <= 0;
    const Colour hue = context.palette.severity[static_cast<std::size_t>(contact ? Severity::Stop : Severity::Warning)];
    const float radius = context.px(11);
    list.AddCircle(place, radius + context.px(1.5f), ink(context.palette.panel, 0.9f), 32, context.px(5));
    list.AddCircle(place, radius, ink(hue), 32, context.stroke(2.5f));
    for (int i = 0; i < 4; ++i) {
        const float c = i == 0 ? 1.0f : i == 2 ? -1.0f : 0.0f, s = i == 1 ? 1.0f : i == 3 ? -1.0f : 0.0f;
        list.AddLine({place.x + c * 0.45f * radius, place.y + s * 0.45f * radius},
                     {place.x + c * 1.7f * radius, place.y + s * 1.7f * radius}, ink(hue), context.stroke(2));
    }
    const Measures measures = context.measures();
    drawLabel(context, view, place,
              {gapTitle(encounter.gapMm, measures), pairTitle(trial, encounter.body, encounter.other),
               placeTitle(encounter.place, datum, measures)},
              hue);
}

void drawMeasure(const PaneContext& context, const SceneView& view, const Nearness& measured) {
    if (!std::isfinite(measured.gap)) return;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 a = view.onScreen(measured.onFirst), b = view.onScreen(measured.onSecond);
    const Colour hue = context.palette.accent;
    list.AddLine(a, b, ink(context.palette.panel, 0.9f), context.px(5));
    list.AddLine(a, b, ink(hue), context.stroke(2));
    for (const ImVec2& end : {a, b}) {
        list.AddCircleFilled(end, context.px(5), ink(context.palette.panel), 20);
        list.AddCircleFilled(end, context.px(3.5f), ink(hue), 20);
    }
    drawLabel(context, view, {0.5f * (a.x + b.x), 0.5f * (a.y + b.y)}, {gapTitle(measured.gap, context.measures())},
              hue);
}

}  // namespace firstoff::gui
