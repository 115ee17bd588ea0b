#include "gui/transport_bar.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/block_words.h"
#include "gui/figures.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

enum class Sign { Start, Back, Play, Pause, Forward, End };

void drawSign(ImDrawList& list, Sign sign, ImVec2 centre, float half, ImU32 colour) {
    const auto triangle = [&](float x, float direction) {
        list.AddTriangleFilled({x - direction * half * 0.8f, centre.y - half}, {x + direction * half * 0.8f, centre.y},
                               {x - direction * half * 0.8f, centre.y + half}, colour);
    };
    const auto bar = [&](float x, float width) {
        list.AddRectFilled({x - 0.5f * width, centre.y - half}, {x + 0.5f * width, centre.y + half}, colour);
    };
    switch (sign) {
        case Sign::Start:
            bar(centre.x - half * 0.9f, half * 0.4f);
            triangle(centre.x + half * 0.2f, -1);
            break;
        case Sign::End:
            bar(centre.x + half * 0.9f, half * 0.4f);
            triangle(centre.x - half * 0.2f, 1);
            break;
        case Sign::Back:
            triangle(centre.x - half * 0.3f, -1);
            list.AddCircleFilled({centre.x + half, centre.y}, half * 0.35f, colour);
            break;
        case Sign::Forward:
            triangle(centre.x + half * 0.3f, 1);
            list.AddCircleFilled({centre.x - half, centre.y}, half * 0.35f, colour);
            break;
        case Sign::Play:
            triangle(centre.x, 1);
            break;
        case Sign::Pause:
            bar(centre.x - half * 0.5f, half * 0.55f);
            bar(centre.x + half * 0.5f, half * 0.55f);
            break;
    }
}

bool signButton(const char* id, Sign sign, const char* tip, const PaneContext& context, float width, bool able = true) {
    const float height = context.px(26);
    ImGui::BeginDisabled(!able);
    const bool clicked = ImGui::Button(id, {width, height});
    ImGui::EndDisabled();
    const ImVec2 low = ImGui::GetItemRectMin();
    const ImVec2 high = ImGui::GetItemRectMax();
    const Colour colour = able ? context.palette.text : context.palette.line;
    drawSign(*ImGui::GetWindowDrawList(), sign, {0.5f * (low.x + high.x), 0.5f * (low.y + high.y)}, context.px(6),
             ink(colour));
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tip);
    ImGui::SameLine(0, context.px(3));
    return clicked;
}

std::string speedText(double speed) {
    return speed < 1 ? fmt::format("{:g} ×", speed) : fmt::format("{:.0f} ×", speed);
}

void speedChoice(const PaneContext& context) {
    static constexpr double kSpeeds[] = {0.1, 0.25, 0.5, 1, 2, 5, 10, 25, 50, 100};
    ViewSettings view = context.session.view;
    ImGui::SetNextItemWidth(context.px(94));
    const std::string shown = view.playByBlock ? say("block {}", speedText(view.playSpeed)) : speedText(view.playSpeed);
    if (ImGui::BeginCombo("##speed", shown.c_str(), ImGuiComboFlags_HeightLargest)) {
        if (ImGui::Selectable(tr("by block"), view.playByBlock)) {
            view.playByBlock = !view.playByBlock;
            context.commands.add(ChangeView{view});
        }
        ImGui::Separator();
        for (const double speed : kSpeeds) {
            if (!ImGui::Selectable(speedText(speed).c_str(), speed == view.playSpeed)) continue;
            view.playSpeed = speed;
            context.commands.add(ChangeView{view});
        }
        ImGui::EndCombo();
    }
    if (ImGui::IsItemHovered())
        ImGui::SetTooltip(
            "%s", tr("Playing speed: 1 × is the time the machine takes; by block, every block is to be seen as long"));
}

// What is being done, how far it is, and the way out.
void progressRow(const PaneContext& context, float width) {
    const TrialWorker::Progress& progress = context.session.progress;
    const float button = context.px(70);
    const std::string text = fmt::format("{} {:.0f} %", tr(progress.stage), 100 * progress.fraction);
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(text.c_str());
    ImGui::SameLine(0, context.px(10));
    const float bar = width - ImGui::CalcTextSize(text.c_str()).x - button - context.px(24);
    if (bar > context.px(30)) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float y = at.y + context.px(10);
        const float done = static_cast<float>(progress.fraction) * bar;
        ImDrawList& list = *ImGui::GetWindowDrawList();
        list.AddRectFilled({at.x, y}, {at.x + bar, y + context.px(6)}, ink(context.palette.raised), context.px(3));
        list.AddRectFilled({at.x, y}, {at.x + done, y + context.px(6)}, ink(context.palette.accent), context.px(3));
        ImGui::Dummy({bar, context.px(20)});
        ImGui::SameLine(0, context.px(10));
    }
    if (ImGui::Button(tr("Cancel"), {button, context.px(26)})) context.commands.add(CancelTrial{});
}

// The stop at which time stands, if the program waits there.
const StopMark* stopHere(const Session& session) {
    if (session.playing) return nullptr;
    for (const StopMark& stop : session.index()->stops()) {
        if (stop.timeS == session.timeS && stop.kind != ProgramStop::Kind::End && stop.timeS > 0) return &stop;
    }
    return nullptr;
}

void progressOrBlock(const PaneContext& context, float width) {
    const Session& session = context.session;
    // A trial that is over in a blink is not worth a flicker.
    constexpr double kWorthShowingS = 0.5;
    if (session.progress.busy && session.progress.seconds > kWorthShowingS) {
        progressRow(context, width);
        return;
    }
    if (!context.instant || !session.trial() || width < context.px(80)) return;
    const BlockId block = context.instant->geometry != kNoBlock ? context.instant->geometry : context.instant->block;
    const StopMark* stop = stopHere(session);
    const bool holds = session.held || session.holding;
    const std::string text = session.held      ? tr("Feed hold: the axes stand, the spindle turns. Play goes on.")
                             : session.holding ? tr("Feed hold: at the end of this thread pass")
                             : stop ? say("{}{}: Play goes on", lineTitle(stop->block + 1), stopTitle(stop->kind))
                                    : blockTitle(*session.trial(), block);
    ImGui::AlignTextToFramePadding();
    ImGui::PushFont(context.fonts.mono);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(stop || holds ? context.palette.text : context.palette.quiet));
    ImGui::TextUnformatted(text.c_str());
    ImGui::PopStyleColor();
    ImGui::PopFont();
}

}  // namespace

void TransportBar::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("transport", rect, context, 0, false);
    const Session& session = context.session;
    const bool able = session.trial() && session.trial()->timeline.cycleTimeS > 0;
    const double cycle = able ? session.trial()->timeline.cycleTimeS : 0;
    Commands& commands = context.commands;
    const bool roomy = rect.w > context.px(560);
    const float width = context.px(roomy ? 36 : 30);
    ImGui::SetCursorPos({context.px(10), context.px(4)});
    if (signButton("##start", Sign::Start, tr("To the start (Alt+Home)"), context, width, able))
        commands.add(ToStart{});
    if (signButton("##back", Sign::Back, tr("One block back (Alt+Left)"), context, width, able))
        commands.add(StepBlocks{-1});
    const bool playing = session.playing;
    if (signButton("##play", playing ? Sign::Pause : Sign::Play, playing ? tr("Pause (Space)") : tr("Play (Space)"),
                   context, 1.5f * width, able)) {
        commands.add(TogglePlay{});
    }
    if (signButton("##forward", Sign::Forward, tr("One block forward (Alt+Right)"), context, width, able)) {
        commands.add(StepBlocks{1});
    }
    if (signButton("##end", Sign::End, tr("To the end (Alt+End)"), context, width, able)) commands.add(ToEnd{});
    ImGui::SameLine(0, context.px(10));
    speedChoice(context);
    ImGui::SameLine(0, context.px(14));
    ImGui::AlignTextToFramePadding();
    ImGui::PushFont(context.fonts.mono);
    ImGui::TextUnformatted(clockTime(session.timeS).c_str());
    ImGui::SameLine(0, context.px(6));
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::TextUnformatted(say("of {}", clockTime(cycle)).c_str());
    ImGui::PopStyleColor();
    ImGui::PopFont();
    ImGui::SameLine(0, context.px(18));
    progressOrBlock(context, rect.right() - ImGui::GetCursorScreenPos().x - context.px(10));
}

}  // namespace firstoff::gui
