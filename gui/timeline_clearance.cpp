// The lane of clearances: how near anything comes to anything, over time, on a logarithmic scale, since a tenth of a
// millimetre matters when things are close and not when they are far.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/clearance_words.h"
#include "gui/figures.h"
#include "gui/timeline_canvas.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr double kNearestMm = 0.1, kFarMm = 20;  // bottom and top of the lane

// Share of the lane's height.
float shareOf(double gapMm) {
    if (!(gapMm > kNearestMm)) return 0;
    return static_cast<float>(std::log(std::min(gapMm, kFarMm) / kNearestMm) / std::log(kFarMm / kNearestMm));
}

// A cross in a circle for a contact, an open triangle for a near miss.
void drawEncounterMark(ImDrawList& list, ImVec2 centre, float half, const Palette& palette, bool contact) {
    const ImU32 ground = ink(palette.panel);
    if (contact) {
        const ImU32 red = ink(palette.severity[static_cast<std::size_t>(Severity::Stop)]);
        list.AddCircleFilled(centre, half + 1.5f, ground, 20);
        list.AddCircleFilled(centre, half, red, 20);
        const float arm = 0.5f * half;
        list.AddLine({centre.x - arm, centre.y - arm}, {centre.x + arm, centre.y + arm}, IM_COL32_WHITE, 2);
        list.AddLine({centre.x - arm, centre.y + arm}, {centre.x + arm, centre.y - arm}, IM_COL32_WHITE, 2);
        return;
    }
    const ImVec2 a{centre.x - half, centre.y - half}, b{centre.x + half, centre.y - half}, c{centre.x, centre.y + half};
    list.AddTriangleFilled({a.x - 2, a.y - 1.5f}, {b.x + 2, b.y - 1.5f}, {c.x, c.y + 2.5f}, ground);
    list.AddTriangleFilled(a, b, c, ink(palette.severity[static_cast<std::size_t>(Severity::Warning)]));
    list.AddTriangle(a, b, c, ink(palette.text, 0.6f));
}

}  // namespace

std::vector<std::string> TimelineView::clearanceTitle(const Canvas& canvas, std::size_t timedMove) const {
    const std::vector<Clearance>& perMove = canvas.trial.clearance.perMove;
    if (timedMove >= perMove.size()) return {tr("clearances were not measured")};
    const Clearance& clearance = perMove[timedMove];
    if (!std::isfinite(clearance.gapMm)) return {tr("nothing to hit in this move")};
    return {say("nearest in this move: {}", gapTitle(clearance.gapMm, canvas.context.measures())),
            pairTitle(canvas.trial, clearance.body, clearance.other)};
}

void TimelineView::drawClearance(const Canvas& canvas, const Rect& lane) {
    const Palette& palette = canvas.palette();
    const PaneContext& context = canvas.context;
    if (!canvas.index.clearance().known()) {
        ImFont* font = context.fonts.small;
        canvas.list.AddText(font, font->FontSize, {lane.x + context.px(4), lane.y}, ink(palette.quiet),
                            tr("clearances were not measured"));
        return;
    }
    const float foot = lane.bottom() - context.px(1), room = lane.h - context.px(3);
    const auto y = [&](double gap) { return foot - shareOf(gap) * room; };
    const NearMiss& limits = canvas.trial.setup.nearMiss;
    float lastX = -1, lastY = 0;
    for (const ClearanceRecord& record : records_.clearance) {
        const float x0 = canvas.x(record.x0), x1 = std::max(canvas.x(record.x1), x0 + 1), top = y(record.gapMm);
        const bool contact = record.gapMm <= 0;
        const MoveKind kind = canvas.trial.timeline.moves[record.nearest].kind;
        const bool atFeed = classOf(kind) == MotionClass::Cutting;
        const bool near = record.gapMm < (atFeed ? limits.feedMm : limits.rapidMm);
        const Colour hue = contact ? palette.severity[static_cast<std::size_t>(Severity::Stop)]
                           : near  ? palette.severity[static_cast<std::size_t>(Severity::Warning)]
                                   : palette.waiting;
        canvas.list.AddRectFilled({x0, top}, {x1, foot}, ink(hue, contact ? 0.9f : 0.20f));
        canvas.list.AddLine({x0, top}, {x1, top}, ink(hue), context.stroke(contact || near ? 2.0f : 1.3f));
        if (lastX >= 0 && x0 - lastX < 2) canvas.list.AddLine({x0, lastY}, {x0, top}, ink(palette.waiting, 0.7f));
        lastX = x1;
        lastY = top;
    }
    // The distances below which a miss is near, as broken lines.
    const auto limitLine = [&](double mm) {
        const float at = std::round(y(mm)) + 0.5f;
        for (float x = lane.x; x < lane.right(); x += context.px(9))
            canvas.list.AddLine({x, at}, {x + context.px(5), at}, ink(palette.quiet, 0.8f));
    };
    limitLine(limits.rapidMm);
    if (room > context.px(24)) limitLine(limits.feedMm);
    ImFont* font = context.fonts.small;
    const std::string label = say("near below {}", told(context.measures().limit(limits.rapidMm)));
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9f, 0, label.c_str());
    const ImVec2 at{std::round(lane.right() - size.x - context.px(4)), std::round(lane.y)};
    canvas.list.AddRectFilled({at.x - 3, at.y}, {at.x + size.x + 3, at.y + size.y}, ink(palette.panel, 0.8f), 3);
    canvas.list.AddText(font, font->FontSize, at, ink(palette.quiet), label.c_str());
    drawEncounters(canvas, lane);
}

void TimelineView::drawEncounters(const Canvas& canvas, const Rect& lane) {
    const ClearanceIndex& index = canvas.index.clearance();
    const std::vector<Encounter>& encounters = index.encounters();
    const float half = std::min(canvas.context.px(5), 0.3f * lane.h);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const double margin = half / window_.pxPerSecond;
    std::size_t i = index.firstEncounterFrom(window_.from - margin);
    while (i < encounters.size() && encounters[i].timeS <= window_.to() + margin) {
        // Those that would lie over each other share a mark; the worst gives its looks.
        std::size_t worst = i, last = i + 1;
        for (; last < encounters.size() && encounters[last].timeS < encounters[i].timeS + 2 * margin; ++last) {
            if (encounters[last].gapMm < encounters[worst].gapMm) worst = last;
        }
        const Encounter& encounter = encounters[worst];
        const bool contact = encounter.gapMm <= 0;
        const float x =
            std::clamp(canvas.x(window_.x(encounter.timeS)), canvas.area.x + half, canvas.area.right() - half);
        const ImVec2 centre{x, lane.y + 0.5f * lane.h};
        drawEncounterMark(canvas.list, centre, half, canvas.palette(), contact);
        const bool over =
            canvas.hovered && std::abs(mouse.x - x) < half + 3 && mouse.y >= lane.y && mouse.y <= lane.bottom();
        if (over) {
            hoversEncounter_ = true;
            std::string text = fmt::format("{}: {}\n{}", clockTime(encounter.timeS),
                                           gapTitle(encounter.gapMm, canvas.context.measures()),
                                           pairTitle(canvas.trial, encounter.body, encounter.other));
            if (last - i > 1) {
                text += '\n';
                text += say("and {} more here", last - i - 1);
            }
            ImGui::SetTooltip("%s", wrapped(*canvas.context.fonts.text, canvas.context.px(380), text).c_str());
            if (ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
                canvas.context.commands.add(ShowEncounter{worst});
                scrubbing_ = false;
            }
        }
        i = last;
    }
}

}  // namespace firstoff::gui
