#include "gui/clearance_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "gui/clearance_words.h"
#include "gui/figures.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/base/told_apart.h"
#include "sim/output/clearance_report.h"

namespace firstoff::gui {

namespace {

constexpr float kPad = 10;
constexpr std::size_t kMostRows = 60;  // more is no list that anybody reads; a button shows the next ones

void words(const PaneContext& context, float width, Colour colour, const std::string& text) {
    ImGui::PushStyleColor(ImGuiCol_Text, tint(colour));
    ImGui::SetCursorPosX(context.px(kPad));
    ImGui::TextUnformatted(wrapped(*context.fonts.small, width, text).c_str());
    ImGui::PopStyleColor();
}

void title(const PaneContext& context, const char* text) {
    ImGui::Dummy({1, context.px(3)});
    ImGui::SetCursorPosX(context.px(kPad));
    heading(text, context);
}

// Contacts before near misses, the deepest and the nearest first; at last in order of time.
bool isWorse(const Encounter& a, const Encounter& b) {
    if (a.gapMm != b.gapMm) return a.gapMm < b.gapMm;
    return a.timeS < b.timeS;
}

// A figure of the table of margins; a click goes to where the first contact would be.
void marginCell(const PaneContext& context, const Trial& trial, const Margin& margin, double factor, int id) {
    ImGui::TableNextColumn();
    const std::string text = marginTitle(margin, factor, context.measures());
    const bool limited = margin.mm < kMarginLimit;
    const float room = ImGui::GetContentRegionAvail().x;
    const float width = ImGui::CalcTextSize(text.c_str()).x;
    const float x = ImGui::GetCursorPosX() + std::max(0.0f, room - width);
    if (!limited) {
        ImGui::SetCursorPosX(x);
        ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
        ImGui::TextUnformatted(text.c_str());
        ImGui::PopStyleColor();
        return;
    }
    ImGui::PushID(id);
    const ImVec2 at = ImGui::GetCursorPos();
    if (ImGui::Selectable("##margin", false, 0, {room, 0}))
        context.commands.add(ShowNearest{margin.timedMove, margin.body, margin.other});
    if (ImGui::IsItemHovered()) {
        const std::string tip = say("First contact: {}.\nClick to go there.", marginInWords(trial, margin));
        ImGui::SetTooltip("%s", wrapped(*context.fonts.text, context.px(360), tip).c_str());
    }
    ImGui::SetCursorPos({x, at.y});
    // Less than a millimetre is little for a first run, and nothing at all is a contact already.
    const bool little = margin.mm * factor < 1;
    const Severity severity = margin.mm <= 0 ? Severity::Stop : Severity::Warning;
    if (little)
        ImGui::PushStyleColor(ImGuiCol_Text, tint(legible(context.palette.severity[static_cast<std::size_t>(severity)],
                                                          context.palette.panel, 4.5)));
    ImGui::TextUnformatted(text.c_str());
    if (little) ImGui::PopStyleColor();
    ImGui::PopID();
}

void headCell(const char* text, const char* tip) {
    ImGui::TableNextColumn();
    const float width = ImGui::CalcTextSize(text).x;
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(0.0f, ImGui::GetContentRegionAvail().x - width));
    ImGui::TextUnformatted(text);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tip);
}

}  // namespace

void ClearancePane::arrange(const std::shared_ptr<const Trial>& trial, bool byTime) {
    if (trial == arranged_ && byTime == arrangedByTime_) return;
    if (trial != arranged_) shown_ = kMostRows;
    arranged_ = trial;
    arrangedByTime_ = byTime;
    const std::vector<Encounter>& encounters = trial->clearance.encounters;
    order_.resize(encounters.size());
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    if (byTime) return;
    std::stable_sort(order_.begin(), order_.end(),
                     [&](std::size_t a, std::size_t b) { return isWorse(encounters[a], encounters[b]); });
}

void ClearancePane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("clearances", rect, context, 0, false);
    ImGui::SetCursorPos({0, context.px(5)});
    beginScrolled(context, "page", {rect.w, rect.h - context.px(5)});
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {context.px(6), context.px(3)});
    ImGui::PushFont(context.fonts.small);
    const float width = std::max(rect.w - context.px(2 * kPad + 12), context.px(60));
    const Trial* trial = context.session.trial();
    if (!trial) {
        words(context, width, context.palette.quiet, tr("No trial yet."));
    } else if (trial->clearance.perMove.empty() || !trial->clearance.bodies) {
        words(context, width, context.palette.text,
              tr("Nothing moves in this program, or clearances were not measured."));
    } else {
        arrange(context.session.outcome->trial, context.session.view.clearancesByTime);
        drawSummary(context, *trial, width);
        drawEncounters(context, *trial, width);
        drawMargins(context, *trial, width);
        drawNotModelled(context, *trial, width);
    }
    ImGui::PopFont();
    ImGui::PopStyleVar();
    ImGui::EndChild();
}

void ClearancePane::drawSummary(const PaneContext& context, const Trial& trial, float width) {
    const ClearanceResult& c = trial.clearance;
    const Measures measures = context.measures();
    const auto nearest = context.session.index()->clearance().nearest();
    std::string text = say("{} pairs of bodies watched.", c.pairs.size());
    text += ' ';
    if (nearest) {
        const Clearance& least = c.perMove[*nearest];
        const std::uint32_t line = lineOfMove(trial, *nearest);
        const std::string gap = gapTitle(least.gapMm, measures), pair = pairTitle(trial, least.body, least.other);
        text += line > 0 ? say("Nearest: {}, {}, line {}.", gap, pair, line) : say("Nearest: {}, {}.", gap, pair);
    } else {
        text += tr("Nothing comes near anything.");
    }
    words(context, width, context.palette.text, text);
    words(context, width, context.palette.quiet,
          say("Gaps are never told too large, and too small by {} at most.", told(measures.atMost(c.errorMm))));
}

void ClearancePane::drawEncounters(const PaneContext& context, const Trial& trial, float width) {
    const std::vector<Encounter>& encounters = trial.clearance.encounters;
    const Measures measures = context.measures();
    title(context, tr("Contacts and near misses"));
    if (encounters.empty()) {
        words(
            context, width, context.palette.text,
            say("None: nothing that must not touch comes nearer than {} at rapid or {} at feed.",
                told(measures.limit(trial.setup.nearMiss.rapidMm)), told(measures.limit(trial.setup.nearMiss.feedMm))));
        return;
    }
    if (encounters.size() > 1) {
        ImGui::SameLine(context.px(kPad) + width - context.px(92));
        ViewSettings view = context.session.view;
        if (ImGui::SmallButton(view.clearancesByTime ? tr("in order of time") : tr("worst first"))) {
            view.clearancesByTime = !view.clearancesByTime;
            context.commands.add(ChangeView{view});
        }
        if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tr("Click to change the order"));
    }
    const std::size_t count = std::min(shown_, order_.size());
    for (std::size_t row = 0; row < count; ++row) drawRow(context, trial, order_[row], width);
    if (count == order_.size()) return;
    ImGui::SetCursorPosX(context.px(kPad));
    if (ImGui::Button(say("{} more", order_.size() - count).c_str())) shown_ += kMostRows;
}

void ClearancePane::drawRow(const PaneContext& context, const Trial& trial, std::size_t which, float width) {
    const Encounter& encounter = trial.clearance.encounters[which];
    const bool contact = encounter.gapMm <= 0;
    const float button = context.px(76), indent = context.px(26);
    const std::uint32_t line = lineOfMove(trial, encounter.timedMove);
    const std::string head = gapTitle(encounter.gapMm, context.measures());
    const std::string where =
        fmt::format("{}{} · {}", line > 0 ? say("line {}", line) + " · " : "", clockTime(encounter.timeS),
                    pairTitle(trial, encounter.body, encounter.other));
    const std::string pair = wrapped(*context.fonts.small, std::max(width - indent - button, context.px(60)), where);
    const float height = context.fonts.small->FontSize + heightOf(*context.fonts.small, pair) + context.px(8);
    ImGui::PushID(static_cast<int>(which));
    ImGui::SetCursorPosX(0);
    const ImVec2 at = ImGui::GetCursorPos();
    const bool chosen = context.session.encounter == which;
    const bool clicked = ImGui::Selectable("##row", chosen, ImGuiSelectableFlags_AllowItemOverlap, {0, height});
    const ImVec2 screen = ImGui::GetItemRectMin();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    drawSeverity(list, {screen.x + context.px(16), screen.y + context.px(11)}, context.px(14), context.palette,
                 contact ? Severity::Stop : Severity::Warning, false);
    const float x = screen.x + indent + context.px(2);
    ImFont* font = context.fonts.small;
    list.AddText(font, font->FontSize, {x, screen.y + context.px(3)}, ink(context.palette.text), head.c_str());
    list.AddText(font, font->FontSize, {x, screen.y + context.px(5) + font->FontSize}, ink(context.palette.quiet),
                 pair.c_str());
    const ImVec2 after = ImGui::GetCursorPos();
    ImGui::SetCursorPos({at.x + context.px(kPad) + width - button, at.y + context.px(3)});
    const bool jump = ImGui::Button(tr("Jump there"), {button, 0});
    ImGui::SetCursorPos(after);
    ImGui::PopID();
    if (clicked || jump) context.commands.add(ShowEncounter{which});
}

void ClearancePane::drawMargins(const PaneContext& context, const Trial& trial, float width) {
    const Margins& margins = trial.clearance.margins;
    if (margins.tools.empty()) return;
    const bool inches = context.measures().inches();
    title(context, inches ? tr("How wrong may it be before the first contact, inches")
                          : tr("How wrong may it be before the first contact, mm"));
    ImGui::SetCursorPosX(context.px(kPad));
    const ImGuiTableFlags flags =
        ImGuiTableFlags_RowBg | ImGuiTableFlags_BordersInnerV | ImGuiTableFlags_SizingStretchSame;
    ImGui::PushStyleVar(ImGuiStyleVar_CellPadding, {context.px(4), context.px(2)});
    if (ImGui::BeginTable("margins", 7, flags, {width, 0})) {
        ImGui::TableSetupColumn("tool", ImGuiTableColumnFlags_WidthFixed, context.px(30));
        ImGui::TableNextRow(ImGuiTableRowFlags_Headers);
        ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
        headCell(tr("tool"), tr("Station"));
        headCell(tr("X out"), tr("The X offset wrong so that the tool stands further out; on diameter"));
        headCell(tr("X in"), tr("The X offset wrong so that the tool stands nearer to the axis; on diameter"));
        headCell(tr("Z away"), tr("The Z offset wrong so that the tool stands further from the chuck"));
        headCell(tr("Z to"), tr("The Z offset wrong so that the tool stands nearer to the chuck"));
        headCell(tr("out less"), tr("The tool stands less far out of its block, gauged as it is"));
        headCell(tr("more"), tr("The tool stands further out of its block than it was gauged"));
        ImGui::PopStyleColor();
        for (const ToolMargins& tool : margins.tools) {
            ImGui::TableNextRow();
            ImGui::PushID(tool.station);
            ImGui::TableNextColumn();
            ImGui::TextUnformatted(fmt::format("T{}", tool.station).c_str());
            if (ImGui::IsItemHovered() && tool.toolIndex >= 0)
                ImGui::SetTooltip("%s", trial.setup.tools[static_cast<std::size_t>(tool.toolIndex)].name.c_str());
            const bool onAxis =
                tool.toolIndex >= 0 && worksOnTheAxis(trial.setup.tools[static_cast<std::size_t>(tool.toolIndex)].kind);
            for (int column = 0; onAxis && column < 2; ++column) {
                ImGui::TableNextColumn();
                ImGui::TextUnformatted(afterBar(tr("axis|centre")));
                if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tr("A tool on the axis has no X but that one"));
            }
            if (!onAxis) marginCell(context, trial, tool.xLarger, 2, 0);
            if (!onAxis) marginCell(context, trial, tool.xSmaller, 2, 1);
            marginCell(context, trial, tool.zAway, 1, 2);
            marginCell(context, trial, tool.zToward, 1, 3);
            marginCell(context, trial, tool.overhangLess, 1, 4);
            marginCell(context, trial, tool.overhangMore, 1, 5);
            ImGui::PopID();
        }
        ImGui::EndTable();
    }
    ImGui::Dummy({1, context.px(2)});
    ImGui::SetCursorPosX(context.px(kPad));
    if (ImGui::BeginTable("set-up margins", 4, flags, {width, 0})) {
        ImGui::TableNextRow(ImGuiTableRowFlags_Headers);
        ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
        headCell(tr("bar out more"), tr("The bar sticks out further, the datum where it is"));
        headCell(tr("less"), tr("The bar sticks out less far, the datum where it is"));
        headCell(tr("datum away"), tr("Z0 further from the chuck, the bar where it is"));
        headCell(tr("datum to"), tr("Z0 nearer to the chuck, the bar where it is"));
        ImGui::PopStyleColor();
        ImGui::TableNextRow();
        marginCell(context, trial, margins.setup.stickOutMore, 1, 10);
        marginCell(context, trial, margins.setup.stickOutLess, 1, 11);
        marginCell(context, trial, margins.setup.datumAway, 1, 12);
        marginCell(context, trial, margins.setup.datumToward, 1, 13);
        ImGui::EndTable();
    }
    ImGui::PopStyleVar();
    words(context, width, context.palette.quiet,
          tr("X on diameter. Reckoned with the metal as the program leaves it; a click goes to the first contact."));
}

void ClearancePane::drawNotModelled(const PaneContext& context, const Trial& trial, float width) {
    const std::vector<std::string>& entries = trial.clearance.notModelled;
    title(context, tr("Not modelled"));
    if (entries.empty())
        words(context, width, context.palette.quiet, tr("Nothing that the set-up could have said is missing."));
    for (const std::string& entry : entries) {
        words(context, width, context.palette.quiet, entry);
        ImGui::Dummy({1, context.px(1)});
    }
}

}  // namespace firstoff::gui
