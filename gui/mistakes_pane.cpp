#include "gui/mistakes_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "gui/changes_pane.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

void MistakesPane::take(const Session& session) {
    if (sound_ == session.asWritten->trial) return;
    sound_ = session.asWritten->trial;
    all_ = possibleMistakes(*sound_);
    openKind_ = -1;
}

void MistakesPane::draw(const PaneContext& context, const Rect& rect) {
    Page page(context, "mistakes", rect);
    const Session& session = context.session;
    if (!session.asWritten || !session.asWritten->trial) return page.quiet(tr("No trial yet."));
    take(session);
    if (session.mistake) {
        drawShown(page);
        return;
    }
    page.plain(tr("Put a mistake into this job and see what comes of it. Nothing is written to the files."));
    drawHere(page);
    drawKinds(page);
}

// The mistake that is in the job, and what it alters.
void MistakesPane::drawShown(const Page& page) {
    const PaneContext& context = page.context();
    const Session& session = context.session;
    const Mistake& mistake = *session.mistake;
    page.words(tr(name(mistake.kind)), context.palette.quiet);
    page.words(mistake.told, context.palette.text);
    page.indent();
    if (ImGui::Button(tr("Take it out again"))) context.commands.add(TryMistake{});
    if (mistake.block != kNoBlock) {
        ImGui::SameLine();
        if (ImGui::Button(tr("Go to the block"))) context.commands.add(SelectLine{mistake.block, false});
    }
    page.gap();
    const bool here = session.outcome && session.outcome->mistake == session.mistake;
    if (!here) return page.quiet(tr("Trying it …"));
    drawComparisonInShort(page, session);
    drawComparison(page, session);
}

void MistakesPane::row(const Page& page, std::size_t index, bool withLine) {
    const PaneContext& context = page.context();
    const Mistake& mistake = all_[index];
    std::string text = mistake.told;
    if (withLine && mistake.block != kNoBlock) {
        text = sound_->program.lineName(mistake.block);
        text += ": ";
        text += mistake.told;
    }
    const ImFont& font = *context.fonts.small;
    const std::string lines = wrapped(font, page.width() - context.px(18), text);
    const float height = heightOf(font, lines) + context.px(6);
    ImGui::PushID(static_cast<int>(index));
    page.indent();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool clicked = ImGui::InvisibleButton("mistake", {page.width(), height});
    const bool hovered = ImGui::IsItemHovered();
    ImGui::PopID();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (hovered)
        list.AddRectFilled(at, {at.x + page.width(), at.y + height}, ink(context.palette.hovered, 0.6f), context.px(3));
    list.AddText(&font, font.FontSize, {at.x + context.px(12), at.y + context.px(3)}, ink(context.palette.text),
                 lines.c_str());
    if (clicked) context.commands.add(TryMistake{mistake});
}

void MistakesPane::drawHere(const Page& page) {
    const Instant* now = page.context().instant;
    if (!now || now->block == kNoBlock) return;
    const BlockId block = now->geometry != kNoBlock ? now->geometry : now->block;
    bool any = false;
    for (std::size_t i = 0; i < all_.size(); ++i) {
        if (all_[i].block != block) continue;
        if (!any) page.title(say("In {}", sound_->program.lineName(block)).c_str());
        any = true;
        row(page, i, false);
    }
}

// Kinds with how many of each; a click lists them.
void MistakesPane::drawKinds(const Page& page) {
    const PaneContext& context = page.context();
    std::map<Mistake::Kind, int> counts;
    for (const Mistake& mistake : all_) ++counts[mistake.kind];
    page.title(tr("By kind"));
    for (const auto& [kind, count] : counts) {
        const bool open = openKind_ == static_cast<int>(kind);
        ImGui::PushID(static_cast<int>(kind) + 100'000);
        page.indent();
        const std::string text = fmt::format("{} ({})", tr(name(kind)), count);
        if (ImGui::Selectable(fitted(*context.fonts.small, page.width(), text).c_str(), open, 0, {page.width(), 0}))
            openKind_ = open ? -1 : static_cast<int>(kind);
        ImGui::PopID();
        if (openKind_ != static_cast<int>(kind)) continue;
        constexpr int kMostRows = 200;
        int told = 0;
        for (std::size_t i = 0; i < all_.size() && told < kMostRows; ++i) {
            if (all_[i].kind != kind) continue;
            row(page, i, true);
            ++told;
        }
        if (count > told) page.quiet(say("and {} more", count - told));
    }
}

}  // namespace firstoff::gui
