#include "gui/readout_pane.h"

#include <fmt/format.h>

#include <cmath>

#include "gui/block_words.h"
#include "gui/figures.h"
#include "gui/modal_words.h"
#include "gui/words_pane.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/base/told_apart.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

struct Reading {
    const char* label;
    std::string value;
    const char* unit;
};

// Label at the left, figure right-aligned before its unit, so that the decimal points stand under each other.
void figure(const Reading& reading, const PaneContext& context, ImFont* font) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height = font->FontSize * 1.28f;
    ImFont* small = context.fonts.small;
    ImFont* text = context.fonts.text;
    const float units = context.px(58);
    const float base = at.y + font->FontSize;
    list.AddText(text, text->FontSize, {at.x, base - text->FontSize}, ink(context.palette.quiet), reading.label);
    const float valueWidth = font->CalcTextSizeA(font->FontSize, 1e9f, 0, reading.value.c_str()).x;
    list.AddText(font, font->FontSize, {at.x + width - units - valueWidth, at.y}, ink(context.palette.text),
                 reading.value.c_str());
    list.AddText(small, small->FontSize, {at.x + width - units + context.px(7), base - small->FontSize * 1.05f},
                 ink(context.palette.quiet), reading.unit);
    ImGui::Dummy({width, height});
}

void rule(const PaneContext& context) {
    ImGui::Dummy({1, context.px(2)});
    ImGui::PushStyleColor(ImGuiCol_Separator, tint(context.palette.line, 0.6f));
    ImGui::Separator();
    ImGui::PopStyleColor();
    ImGui::Dummy({1, context.px(2)});
}

// What is in force, and at the right the line that set it; a click goes there.
void modalRow(const ModalWord& row, const PaneContext& context) {
    const ImFont& font = *context.fonts.small;
    const float labels = context.px(74);
    const float width = ImGui::GetContentRegionAvail().x;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const std::string line =
        row.setBy ? std::to_string(context.session.trial()->program.lineOf(row.setBy->block)) : std::string();
    const float lineWidth = font.CalcTextSizeA(font.FontSize, 1e9f, 0, line.c_str()).x;
    const std::string value =
        wrapped(font, width - labels - std::max(lineWidth, context.px(20)) - context.px(6), row.value);
    const float height = heightOf(font, value) + context.px(3);
    ImGui::PushID(row.label);
    const bool clicked = ImGui::InvisibleButton("row", {width, height});
    const bool hovered = ImGui::IsItemHovered();
    ImGui::PopID();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (hovered && row.setBy)
        list.AddRectFilled({at.x - context.px(4), at.y - 1}, {at.x + width + context.px(4), at.y + height - 1},
                           ink(context.palette.hovered, 0.5f), context.px(2));
    list.AddText(&font, font.FontSize, at, ink(context.palette.quiet), row.label);
    list.AddText(&font, font.FontSize, {at.x + labels, at.y}, ink(context.palette.text), value.c_str());
    list.AddText(&font, font.FontSize, {at.x + width - lineWidth, at.y}, ink(context.palette.quiet), line.c_str());
    if (!row.setBy) return;
    if (hovered) tellOrigin(context, *row.setBy);
    if (clicked && context.session.trial()->program.isOwn(row.setBy->block))
        context.commands.add(ShowLine{row.setBy->block});
}

// "In force" with, above the numbers of lines, what they are.
void inForceHeading(const PaneContext& context) {
    const ImFont& font = *context.fonts.small;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float width = ImGui::GetContentRegionAvail().x;
    heading(tr("In force"), context);
    const char* since = tr("set by line");
    const float sinceWidth = font.CalcTextSizeA(font.FontSize, 1e9f, 0, since).x;
    ImGui::GetWindowDrawList()->AddText(&font, font.FontSize, {at.x + width - sinceWidth, at.y},
                                        ink(context.palette.quiet), since);
}

}  // namespace

void ReadoutPane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("readouts", rect, context);
    const Trial* trial = context.session.trial();
    if (!trial || !context.instant) {
        heading(tr("Position"), context);
        return;
    }
    const Instant& now = *context.instant;
    heading(say("Position in {}", workOffsetName(now.modal->workOffset)).c_str(), context);
    const Measures measures = context.measures();
    const char* diameter = measures.inches() ? tr("in dia.") : tr("mm dia.");
    figure({"X", measures.length(2 * now.programmed.r).value, diameter}, context, context.fonts.figures);
    const Figure z = measures.length(now.programmed.z);
    figure({"Z", z.value, z.unit}, context, context.fonts.figures);
    rule(context);
    ImFont* mono = context.fonts.mono;
    figure({tr("Spindle"), wholeNumber(now.revPerMin), tr("rev/min")}, context, mono);
    const double speed = surfaceSpeedMPerMin(now.revPerMin, std::abs(now.turretReference.r + now.call->tip.r));
    const Figure surface = measures.surfaceSpeed(now.call->station > 0 ? speed : 0.0);
    figure({afterBar(tr("cutting|Speed")), surface.value, surface.unit}, context, mono);
    const bool feeds = now.feedMmPerMin > 0;
    const Figure perRev = measures.feedPerRev(now.feedMmPerRev), perMinute = measures.feedPerMinute(now.feedMmPerMin);
    figure({tr("Feed"), feeds ? perRev.value : "–", perRev.unit}, context, mono);
    figure({"", feeds ? perMinute.value : "–", perMinute.unit}, context, mono);
    rule(context);
    inForceHeading(context);
    for (const ModalWord& row : modalWords(*trial, now, *context.session.outcome->origins, measures))
        modalRow(row, context);
}

void ReadoutPane::drawStrip(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("readouts", rect, context, 0, false);
    if (!context.instant || !context.session.trial()) return;
    const Instant& now = *context.instant;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    ImFont* font = context.fonts.mono;
    float x = rect.x + context.px(10);
    const float y = rect.y + 0.5f * (rect.h - font->FontSize);
    const auto item = [&](const char* label, const std::string& value) {
        list.AddText(font, font->FontSize, {x, y}, ink(context.palette.quiet), label);
        x += font->CalcTextSizeA(font->FontSize, 1e9f, 0, label).x + context.px(5);
        list.AddText(font, font->FontSize, {x, y}, ink(context.palette.text), value.c_str());
        x += font->CalcTextSizeA(font->FontSize, 1e9f, 0, value.c_str()).x + context.px(12);
    };
    list.PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    const Measures measures = context.measures();
    item("X", measures.length(2 * now.programmed.r).value);
    item("Z", told(measures.length(now.programmed.z)));
    item("S", wholeNumber(now.revPerMin));
    item("F", now.feedMmPerMin > 0 ? told(measures.feedPerRev(now.feedMmPerRev)) : "–");
    item("", toolTitle(*context.session.trial(), now.move ? now.move->call : std::uint16_t{0}));
    list.PopClipRect();
}

}  // namespace firstoff::gui
