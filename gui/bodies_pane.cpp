#include "gui/bodies_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "gui/clearance_words.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr float kPad = 10;

const char* kindTitle(BodyKind kind) {
    switch (kind) {
        case BodyKind::Billet:
            return tr("Billet");
        case BodyKind::ChuckBody:
            return tr("Chuck");
        case BodyKind::Jaws:
            return tr("Jaws");
        case BodyKind::Centre:
            return tr("Centre");
        case BodyKind::Quill:
            return tr("Quill");
        case BodyKind::TailstockCasting:
            return tr("Tailstock casting");
        case BodyKind::SecondChuckBody:
            return tr("Second chuck");
        case BodyKind::SecondJaws:
            return tr("Second jaws");
        case BodyKind::SteadyRest:
            return tr("Steady rest");
        case BodyKind::TurretHead:
            return tr("Turret head");
        case BodyKind::TurretDisc:
            return tr("Turret");
        case BodyKind::Block:
            return tr("Blocks");
        case BodyKind::Holder:
            return tr("Holders");
        case BodyKind::Edge:
            return tr("Edges");
        case BodyKind::Guard:
            return tr("Guards");
        case BodyKind::Door:
            return tr("Doors");
        case BodyKind::Other:
            return tr("Other bodies");
    }
    return "";
}

void quietly(const PaneContext& context, float width, const std::string& text) {
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::SetCursorPosX(context.px(kPad));
    ImGui::TextUnformatted(wrapped(*context.fonts.small, width, text).c_str());
    ImGui::PopStyleColor();
    ImGui::PopFont();
}

}  // namespace

void BodiesPane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("bodies", rect, context, 0, false);
    ImGui::SetCursorPos({0, context.px(6)});
    beginScrolled(context, "page", {rect.w, rect.h - context.px(6)});
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {context.px(6), context.px(3)});
    ImGui::PushFont(context.fonts.small);
    const float width = std::max(rect.w - context.px(2 * kPad + 12), context.px(60));
    const Trial* trial = context.session.trial();
    if (!trial || !trial->clearance.bodies) {
        quietly(context, width, trial ? tr("The bodies of this trial are not known.") : tr("No trial yet."));
    } else {
        drawMeasure(context, *trial, width);
        ImGui::Dummy({1, context.px(4)});
        drawKinds(context, *trial, width);
    }
    ImGui::PopFont();
    ImGui::PopStyleVar();
    ImGui::EndChild();
}

void BodiesPane::drawKinds(const PaneContext& context, const Trial& trial, float width) {
    std::map<BodyKind, int> counts;
    for (const MachineBody& body : trial.clearance.bodies->bodies) ++counts[body.kind];
    ImGui::SetCursorPosX(context.px(kPad));
    heading(tr("Shown in the picture"), context);
    ViewSettings view = context.session.view;
    const int columns = width > context.px(290) ? 2 : 1;
    int at = 0;
    for (const auto& [kind, count] : counts) {
        const float column = context.px(kPad) + static_cast<float>(at % columns) * width / static_cast<float>(columns);
        if (at % columns == 0) {
            ImGui::SetCursorPosX(column);
        } else {
            ImGui::SameLine(column);
        }
        bool shown = (view.hiddenBodies & kindBit(kind)) == 0;
        const std::string text = count > 1 ? fmt::format("{} ({})", kindTitle(kind), count) : kindTitle(kind);
        if (ImGui::Checkbox(text.c_str(), &shown)) view.hiddenBodies ^= kindBit(kind);
        ++at;
    }
    ImGui::SetCursorPosX(context.px(kPad));
    if (ImGui::Button(tr("Show all")) && view.hiddenBodies != 0) view.hiddenBodies = 0;
    if (!(view == context.session.view)) context.commands.add(ChangeView{view});
}

void BodiesPane::drawSlot(const PaneContext& context, const Trial& trial, int slot, float width) {
    const Session& session = context.session;
    const int chosen = session.measure[static_cast<std::size_t>(slot)];
    ImGui::PushID(slot);
    ImGui::SetCursorPosX(context.px(kPad));
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(slot == 0 ? tr("from") : tr("to"));
    ImGui::SameLine(context.px(kPad + 36));
    const float pick = context.px(56);
    ImGui::SetNextItemWidth(std::max(width - context.px(36 + 6) - pick, context.px(60)));
    const std::string title = chosen == kNoBody ? tr("choose a body") : bodyTitle(trial, chosen);
    if (ImGui::BeginCombo("##body", title.c_str())) {
        const auto count = static_cast<int>(trial.clearance.bodies->bodies.size());
        for (int body = 0; body < count; ++body) {
            if (ImGui::Selectable(bodyTitle(trial, body).c_str(), body == chosen))
                context.commands.add(MeasureBody{slot, body});
        }
        ImGui::EndCombo();
    }
    ImGui::SameLine();
    const bool picking = session.picking == slot;
    if (picking) ImGui::PushStyleColor(ImGuiCol_Button, tint(context.palette.current));
    if (ImGui::Button(picking ? tr("click…") : tr("Pick"), {pick, 0}))
        context.commands.add(PickForMeasure{picking ? -1 : slot});
    if (picking) ImGui::PopStyleColor();
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tr("Then click the body in the picture"));
    ImGui::PopID();
}

void BodiesPane::drawMeasure(const PaneContext& context, const Trial& trial, float width) {
    const Session& session = context.session;
    ImGui::SetCursorPosX(context.px(kPad));
    heading(tr("Measure at the moment shown"), context);
    drawSlot(context, trial, 0, width);
    drawSlot(context, trial, 1, width);
    if (!session.measured) {
        quietly(context, width, tr("The shortest way between two bodies, round ones as what they sweep."));
        return;
    }
    const Nearness& measured = *session.measured;
    const Measures measures = context.measures();
    ImGui::SetCursorPosX(context.px(kPad));
    ImGui::PushFont(context.fonts.figures);
    ImGui::TextUnformatted(std::isfinite(measured.gap) ? gapTitle(measured.gap, measures).c_str() : tr("not there"));
    ImGui::PopFont();
    if (!std::isfinite(measured.gap)) return;
    const SpacePoint way = measured.onSecond - measured.onFirst;
    const Point datum =
        context.instant && context.instant->modal ? trial.toolpath.datums[context.instant->modal->datum] : Point{};
    quietly(context, width,
            say("from {}\nto {}\nway: in X {} on radius, in Z {}, across {}",
                placeTitle(measured.onFirst, datum, measures), placeTitle(measured.onSecond, datum, measures),
                told(measures.length(way.r)), told(measures.length(way.z)), told(measures.length(way.y))));
    ImGui::SetCursorPosX(context.px(kPad));
    if (ImGui::Button(tr("Clear"))) {
        context.commands.add(MeasureBody{0, kNoBody});
        context.commands.add(MeasureBody{1, kNoBody});
    }
}

}  // namespace firstoff::gui
