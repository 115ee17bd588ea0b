#include "gui/operator_panel.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr double kDryRunMmPerMin = 2000, kDryRunClearMm = 100;

// One row of switches; each leaves the cursor behind itself.
class Row {
public:
    explicit Row(const PaneContext& context) : context_(context), height_(context.px(22)) {}

    // A lamp, filled when lit, and words; true if pressed.
    bool button(const char* text, bool lit, const char* tip, bool able = true) {
        const ImFont& font = *context_.fonts.small;
        const float lamp = context_.px(8), pad = context_.px(8);
        const float width = font.CalcTextSizeA(font.FontSize, 1e9f, 0, text).x + lamp + 3 * pad;
        if (ImGui::GetCursorPosX() + width > ImGui::GetWindowWidth()) return false;  // no room: left out
        ImGui::PushID(text);
        ImGui::BeginDisabled(!able);
        if (lit) ImGui::PushStyleColor(ImGuiCol_Button, tint(context_.palette.current));
        const bool pressed = ImGui::Button("##switch", {width, height_});
        if (lit) ImGui::PopStyleColor();
        ImGui::EndDisabled();
        ImGui::PopID();
        if (ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled)) ImGui::SetTooltip("%s", tip);
        const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
        const Colour colour = able ? context_.palette.text : context_.palette.line;
        ImDrawList& list = *ImGui::GetWindowDrawList();
        const ImVec2 at{low.x + pad, std::round(0.5f * (low.y + high.y - lamp))};
        if (lit) {
            list.AddRectFilled(at, {at.x + lamp, at.y + lamp}, ink(context_.palette.accent));
        }
        list.AddRect(at, {at.x + lamp, at.y + lamp}, ink(colour), 0, 0, context_.px(1));
        list.AddText(&font, font.FontSize,
                     {std::round(at.x + lamp + pad), std::round(0.5f * (low.y + high.y - font.FontSize))}, ink(colour),
                     text);
        ImGui::SameLine(0, context_.px(4));
        return pressed;
    }

    // A share in per cent out of `choices`; true if another one was chosen.
    template <std::size_t N>
    bool share(const char* text, double& value, const std::array<int, N>& choices, const char* tip) {
        const float labels = ImGui::CalcTextSize(text).x, box = context_.px(70);
        if (ImGui::GetCursorPosX() + labels + box + context_.px(16) > ImGui::GetWindowWidth()) return false;
        ImGui::SameLine(0, context_.px(8));
        ImGui::AlignTextToFramePadding();
        ImGui::PushStyleColor(ImGuiCol_Text, tint(context_.palette.quiet));
        ImGui::TextUnformatted(text);
        ImGui::PopStyleColor();
        ImGui::SameLine(0, context_.px(6));
        ImGui::SetNextItemWidth(box);
        bool changed = false;
        ImGui::PushID(text);
        if (ImGui::BeginCombo("##share", percent(value).c_str(), ImGuiComboFlags_HeightLargest)) {
            for (const int choice : choices) {
                const double one = choice / 100.0;
                if (!ImGui::Selectable(percent(one).c_str(), one == value) || one == value) continue;
                value = one;
                changed = true;
            }
            ImGui::EndCombo();
        }
        ImGui::PopID();
        if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tip);
        ImGui::SameLine(0, context_.px(4));
        return changed;
    }

private:
    static std::string percent(double share) { return fmt::format("{:.0f} %", 100 * share); }

    const PaneContext& context_;
    float height_;
};

std::string levelsInWords(std::uint16_t levels) {
    std::string text;
    for (int level = 1; level < 16; ++level) {
        if ((levels >> level & 1) == 0) continue;
        if (!text.empty()) text += ' ';
        text += level == 1 ? std::string("/") : fmt::format("/{}", level);
    }
    return text;
}

}  // namespace

std::uint16_t skipLevelsIn(const Program& program) {
    std::uint16_t levels = 0;
    for (const Block& block : program.blocks) {
        if (block.skip > 0 && block.skip < 16) levels = static_cast<std::uint16_t>(levels | 1u << block.skip);
    }
    return levels;
}

std::uint16_t OperatorPanel::skipLevelsOf(const std::shared_ptr<const Trial>& written) {
    if (written != looked_) {
        looked_ = written;
        skipLevels_ = skipLevelsIn(written->program);
    }
    return skipLevels_;
}

void OperatorPanel::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("panel", rect, context, 0, false);
    const Session& session = context.session;
    if (!session.asWritten || !session.asWritten->trial) return;
    const Trial& written = *session.asWritten->trial;
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {context.px(5), context.px(3)});
    ImGui::SetCursorPos({context.px(10), context.px(2)});
    Row row(context);
    WhatIf whatIf = session.whatIf;
    if (row.button(
            tr("Feed hold"), session.held || session.holding,
            tr("The axes stand still, the spindle turns on; a thread pass goes on to its end first. Play goes on.")))
        context.commands.add(HoldFeed{!(session.held || session.holding)});
    if (row.button(tr("Single block"), session.singleBlock, tr("Playing halts before every block")))
        context.commands.add(SingleBlock{!session.singleBlock});
    const bool stops = whatIf.optionalStop.value_or(written.setup.control.optionalStop);
    if (row.button(tr("Optional stop"), stops, tr("M01 stops the program")))
        whatIf.optionalStop = stops == written.setup.control.optionalStop ? std::optional(!stops) : std::nullopt;
    const std::uint16_t levels = skipLevelsOf(session.asWritten->trial);
    const std::uint16_t skipped = whatIf.blockSkipLevels.value_or(written.setup.control.blockSkipLevels);
    const std::string skips = levels == 0 ? tr("The program has no blocks with /.")
                                          : say("Blocks with {} are left out", levelsInWords(levels));
    if (row.button(tr("Block skip"), (skipped & levels) != 0, skips.c_str(), levels != 0)) {
        const auto next = static_cast<std::uint16_t>((skipped & levels) != 0 ? 0 : levels);
        whatIf.blockSkipLevels =
            next == written.setup.control.blockSkipLevels ? std::nullopt : std::optional<std::uint16_t>(next);
    }
    const Measures measures = context.measures();
    const bool dry = whatIf.dryRunMmPerMin > 0;
    const std::string dryTip =
        say("All moves at feed but threads and taps go at {}, {} clear of the work. Nothing "
            "about the cut is proven by it; take the bar out or stay clear of it at the machine.",
            told(measures.feedPerMinute(kDryRunMmPerMin)), told(measures.roughLength(kDryRunClearMm)));
    if (row.button(tr("Dry run"), dry, dryTip.c_str())) {
        whatIf.dryRunMmPerMin = dry ? 0 : kDryRunMmPerMin;
        whatIf.dryRunClearMm = dry ? 0 : kDryRunClearMm;
    }
    static constexpr std::array kFeeds{10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150};
    static constexpr std::array kRapids{5, 25, 50, 100};
    row.share(tr("Feed"), whatIf.feed, kFeeds, tr("Feed override, on top of that of the set-up"));
    row.share(tr("Rapid"), whatIf.rapid, kRapids, tr("Rapid override, on top of that of the set-up"));
    if (!(whatIf == session.whatIf)) context.commands.add(TryChanges{whatIf});
    if (!session.whatIf.panel().empty() &&
        row.button(tr("As written"), false, tr("All switches as the set-up has them"))) {
        WhatIf back = session.whatIf;
        const WhatIf none;
        back.feed = back.rapid = back.spindle = 1;
        back.optionalStop = none.optionalStop;
        back.blockSkipLevels = none.blockSkipLevels;
        back.dryRunMmPerMin = back.dryRunClearMm = 0;
        context.commands.add(TryChanges{back});
    }
    ImGui::PopStyleVar();
    ImGui::PopFont();
}

}  // namespace firstoff::gui
