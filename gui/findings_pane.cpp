#include "gui/findings_pane.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "gui/figures.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr float kMark = 28;  // room for the mark at the left

int rank(const Finding& finding) {
    return 2 * static_cast<int>(finding.severity) + (finding.unproven ? 1 : 0);
}

std::string placeOf(const Finding& finding, const Program& program) {
    std::string text = tr(name(finding.severity));
    if (finding.unproven) text = say("{}, not proven", text);
    const bool setup = finding.span.file == SourceSpan::File::Setup;
    if (finding.span.part > 0) text += " · " + program.parts[finding.span.part].name;
    if (finding.span.line > 0) {
        text += " · ";
        text += setup ? say("set-up line {}", finding.span.line) : say("line {}", finding.span.line);
    }
    if (finding.timeS) text += " · " + clockTime(*finding.timeS);
    return text;
}

}  // namespace

void FindingsPane::arrange(const PaneContext& context, float width) {
    const std::shared_ptr<const Trial>& trial = context.session.outcome->trial;
    if (trial == arranged_ && width == arrangedWidth_ && context.fonts.scale == arrangedScale_) return;
    if (trial != arranged_) chosen_ = static_cast<std::size_t>(-1);
    arranged_ = trial;
    arrangedWidth_ = width;
    arrangedScale_ = context.fonts.scale;
    order_.resize(trial->findings.size());
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::stable_sort(order_.begin(), order_.end(),
                     [&](std::size_t a, std::size_t b) { return rank(trial->findings[a]) > rank(trial->findings[b]); });
    const auto height = [&](ImFont* font, const std::string& text) {
        return heightOf(*font, wrapped(*font, width, text));
    };
    tops_.assign(1, 0);
    for (const std::size_t i : order_) {
        const Finding& finding = trial->findings[i];
        const float text = context.fonts.small->FontSize + height(context.fonts.text, finding.message) +
                           height(context.fonts.small, finding.remedy);
        tops_.push_back(tops_.back() + std::ceil(text + context.px(18)));
    }
}

void FindingsPane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("findings", rect, context, 0, false);
    const Session& session = context.session;
    const std::size_t count = session.trial() ? session.trial()->findings.size() : 0;
    const float top = context.px(6);
    ImGui::SetCursorPos({0, top});
    beginScrolled(context, "list", {rect.w, rect.h - top});
    if (session.trial() && count > 0) {
        const float width = ImGui::GetContentRegionAvail().x - context.px(kMark + 18);
        arrange(context, std::max(width, context.px(60)));
        const float scroll = ImGui::GetScrollY();
        const auto below = std::upper_bound(tops_.begin(), tops_.end(), scroll);
        std::size_t row = static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, below - tops_.begin() - 1));
        for (; row < order_.size() && tops_[row] < scroll + rect.h; ++row) drawRow(context, row, tops_[row], rect);
        drawNotChecked(context, tops_.back());
    } else {
        ImGui::SetCursorPos({context.px(10), context.px(4)});
        ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
        ImGui::TextUnformatted(session.trial() ? tr("Nothing found.") : tr("No trial yet."));
        ImGui::PopStyleColor();
        if (session.trial()) drawNotChecked(context, ImGui::GetCursorPosY() + context.px(8));
    }
    ImGui::EndChild();
}

// What the verdict does not speak of stands under what was found, or was not.
void FindingsPane::drawNotChecked(const PaneContext& context, float y) {
    const std::vector<std::string>& entries = context.session.trial()->notChecked;
    if (entries.empty()) return;
    ImGui::SetCursorPos({context.px(10), y});
    heading(tr("Not checked"), context);
    const float width = std::max(ImGui::GetContentRegionAvail().x - context.px(20), context.px(60));
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    for (const std::string& entry : entries) {
        ImGui::SetCursorPosX(context.px(10));
        ImGui::TextUnformatted(wrapped(*context.fonts.small, width, entry).c_str());
        ImGui::Dummy({1, context.px(2)});
    }
    ImGui::PopStyleColor();
    ImGui::PopFont();
}

void FindingsPane::drawRow(const PaneContext& context, std::size_t row, float y, const Rect& rect) {
    const std::size_t which = order_[row];
    const Finding& finding = arranged_->findings[which];
    const float height = tops_[row + 1] - tops_[row];
    ImGui::SetCursorPos({0, y});
    ImGui::PushID(static_cast<int>(row));
    const bool clicked = ImGui::Selectable("##row", chosen_ == which, 0, {rect.w, height - context.px(3)});
    ImGui::PopID();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const ImVec2 at = ImGui::GetItemRectMin();
    const float x = at.x + context.px(kMark);
    float down = at.y + context.px(4);
    drawSeverity(list, {at.x + context.px(15), down + context.px(8)}, context.px(15), context.palette, finding.severity,
                 finding.unproven);
    const auto write = [&](ImFont* font, Colour colour, const std::string& text) {
        if (text.empty()) return;
        const std::string lines = wrapped(*font, arrangedWidth_, text);
        list.AddText(font, font->FontSize, {x, down}, ink(colour), lines.c_str());
        down += heightOf(*font, lines) + context.px(2);
    };
    write(context.fonts.small, context.palette.quiet, placeOf(finding, arranged_->program));
    write(context.fonts.text, context.palette.text, finding.message);
    write(context.fonts.small, context.palette.quiet, finding.remedy);
    if (!clicked) return;
    chosen_ = which;
    const bool inProgram =
        finding.span.file == SourceSpan::File::Program && finding.span.part == 0 && finding.span.line > 0;
    if (inProgram) context.commands.add(SelectLine{finding.span.line - 1, true});
    if (finding.timeS) context.commands.add(Seek{*finding.timeS});
}

}  // namespace firstoff::gui
