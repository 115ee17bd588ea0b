#include "gui/find_bar.h"

#include <imgui.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

#include "gui/figures.h"
#include "gui/program_editor.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr float kRow = 28;
constexpr float kEdge = 6;

bool pressedEnter(const PaneContext& context) {
    return hit(context.input, Key::Enter);
}

bool withShift(const InputEvents& events, Key key) {
    return std::any_of(events.begin(), events.end(), [&](const InputEvent& e) { return e.key == key && e.shift; });
}

// A small button that stays lit while its switch is on.
bool toggle(const PaneContext& context, const char* text, const char* what, bool& on) {
    ImGui::PushStyleColor(ImGuiCol_Button, tint(on ? context.palette.accent : context.palette.raised, on ? 0.45f : 1));
    ImGui::PushStyleColor(ImGuiCol_Text, tint(on ? context.palette.text : context.palette.quiet));
    const bool clicked = ImGui::Button(text);
    ImGui::PopStyleColor(2);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", what);
    if (clicked) on = !on;
    return clicked;
}

bool hinted(const char* text, const char* what) {
    const bool clicked = ImGui::Button(text);
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", what);
    return clicked;
}

}  // namespace

void FindBar::open(Mode mode, std::string_view selected) {
    mode_ = mode;
    focusWanted_ = waiting_ = hasKeys_ = fresh_ = true;
    told_.clear();
    const bool usable = !selected.empty() && selected.find_first_of("\r\n") == std::string_view::npos;
    if (usable && mode != Mode::GoTo) what_ = selected;
    if (mode == Mode::GoTo) goTo_.clear();
    search_ = TextSearch({what_, matchCase_, wholeWords_});
}

void FindBar::type(std::string_view utf8) {
    std::string& text = mode_ == Mode::GoTo ? goTo_ : what_;
    if (std::exchange(fresh_, false)) text.clear();
    text += utf8;
    typedAhead_ = toEnd_ = true;
    search_ = TextSearch({what_, matchCase_, wholeWords_});
}

float FindBar::height(const PaneContext& context) const {
    const float rows = mode_ == Mode::Closed ? 0.0f : mode_ == Mode::Replace ? 3.0f : mode_ == Mode::Find ? 2.0f : 1.0f;
    return rows == 0 ? 0 : std::round(context.px(rows * kRow + 4));
}

FindBar::Wish FindBar::draw(const PaneContext& context, const Rect& rect, const Count& count) {
    hasKeys_ = false;
    if (mode_ == Mode::Closed) return Wish::None;
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled({rect.x, rect.y}, {rect.right(), rect.bottom()}, ink(context.palette.raised, 0.5f));
    list.AddLine({rect.x, rect.bottom() - 1}, {rect.right(), rect.bottom() - 1}, ink(context.palette.line, 0.6f));
    ImGui::PushFont(context.fonts.small);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {context.px(5), context.px(3)});
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {context.px(4), context.px(4)});
    keyEnter_ = pressedEnter(context);
    if (waiting_) {
        for (const InputEvent& event : context.input) {
            if (event.key == Key::None && event.character >= 0x20) type(utf8Of(event.character));
        }
        ImGui::GetIO().ClearInputCharacters();  // or a field that takes the keyboard in this frame had them twice
    }
    const std::string what = what_, with = with_, goTo = goTo_;
    Wish wish = mode_ == Mode::GoTo ? drawGoTo(context, rect) : drawFind(context, rect, count);
    if (mode_ == Mode::Replace) {
        const Wish replacing = drawReplace(context, rect);
        if (replacing != Wish::None) wish = replacing;
    }
    ImGui::PopStyleVar(2);
    ImGui::PopFont();
    if (std::exchange(typedAhead_, false) && wish == Wish::None && isSearching()) wish = Wish::Typed;
    if (hasKeys_ && hit(context.input, Key::Escape)) {
        what_ = what;  // Escape takes back what was typed into a field; here it only closes the strip
        with_ = with;
        goTo_ = goTo;
        wish = Wish::Closed;
    }
    if (wish == Wish::Closed) close();
    return wish;
}

// Where the field was given text before it took the keyboard, typing goes on behind that text.
int FindBar::place(ImGuiInputTextCallbackData* data) {
    FindBar& bar = *static_cast<FindBar*>(data->UserData);
    if (std::exchange(bar.toEnd_, false))
        data->CursorPos = data->SelectionStart = data->SelectionEnd = data->BufTextLen;
    return 0;
}

// Whether its text changed; `entered_` says whether Enter was pressed in it.
bool FindBar::field(const char* id, const char* hint, std::string& text, float width, bool focus) {
    if (focus) ImGui::SetKeyboardFocusHere();
    ImGui::SetNextItemWidth(width);
    const bool changed = ImGui::InputTextWithHint(
        id, hint, &text, ImGuiInputTextFlags_AutoSelectAll | ImGuiInputTextFlags_CallbackAlways, &FindBar::place, this);
    const bool active = ImGui::IsItemActive() || ImGui::IsItemDeactivated();
    if (ImGui::IsItemActive()) waiting_ = false;
    hasKeys_ |= active || waiting_;
    entered_ = active && keyEnter_;
    return changed;
}

FindBar::Wish FindBar::drawFind(const PaneContext& context, const Rect& rect, const Count& count) {
    const float left = rect.x + context.px(kEdge), close = context.px(24);
    ImGui::SetCursorScreenPos({left, rect.y + context.px(4)});
    Wish wish = Wish::None;
    const bool typed =
        field("##find", tr("find"), what_, rect.w - 3 * context.px(kEdge) - close, std::exchange(focusWanted_, false));
    if (entered_) {
        wish = withShift(context.input, Key::Enter) ? Wish::Previous : Wish::Next;
        focusWanted_ = true;
    }
    ImGui::SetCursorScreenPos({rect.right() - close - context.px(kEdge), rect.y + context.px(4)});
    if (ImGui::Button("×##close", {close, 0})) return Wish::Closed;

    ImGui::SetCursorScreenPos({left, rect.y + context.px(4 + kRow)});
    bool other = toggle(context, "Aa", tr("capitals count"), matchCase_);
    ImGui::SameLine();
    other |= toggle(context, tr("words"), tr("whole words: X12 is not found in X120"), wholeWords_);
    ImGui::SameLine();
    if (ImGui::ArrowButton("##previous", ImGuiDir_Up)) wish = Wish::Previous;
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s (%s)", tr("the one before"), tr("Shift+F3"));
    ImGui::SameLine();
    if (ImGui::ArrowButton("##next", ImGuiDir_Down)) wish = Wish::Next;
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s (F3)", tr("the next one"));
    ImGui::SameLine();
    drawCount(context, rect, count);
    if (typed || other) {
        told_.clear();
        search_ = TextSearch({what_, matchCase_, wholeWords_});
        if (wish == Wish::None) wish = Wish::Typed;
    }
    return wish;
}

void FindBar::drawCount(const PaneContext& context, const Rect& rect, const Count& count) const {
    std::string text = told_;
    if (text.empty() && !what_.empty()) {
        if (!count.complete) {
            text = say("{} so far", wholeNumber(static_cast<double>(count.all)));
        } else if (count.all == 0) {
            text = tr("not there");
        } else if (count.number > 0) {
            text = say("{} of {}", wholeNumber(static_cast<double>(count.number)),
                       wholeNumber(static_cast<double>(count.all)));
        } else {
            text = wholeNumber(static_cast<double>(count.all));
        }
    }
    const float room = rect.right() - ImGui::GetCursorScreenPos().x - context.px(kEdge);
    const bool none = told_.empty() && count.complete && count.all == 0;
    ImGui::AlignTextToFramePadding();
    ImGui::PushStyleColor(ImGuiCol_Text, tint(none ? context.palette.wordTool : context.palette.quiet));
    const std::string shown = fitted(*context.fonts.small, room, text);
    ImGui::TextUnformatted(shown.c_str());
    ImGui::PopStyleColor();
    if (shown != text && ImGui::IsItemHovered()) ImGui::SetTooltip("%s", text.c_str());
}

FindBar::Wish FindBar::drawReplace(const PaneContext& context, const Rect& rect) {
    const float y = rect.y + context.px(4 + 2 * kRow);
    const float replace = ImGui::CalcTextSize(tr("Replace")).x + context.px(10);
    const float all = ImGui::CalcTextSize(tr("All")).x + context.px(10);
    ImGui::SetCursorScreenPos({rect.x + context.px(kEdge), y});
    const float width = rect.w - 2 * context.px(kEdge) - replace - all - 2 * context.px(4);
    field("##with", tr("put in its place"), with_, width, std::exchange(focusReplace_, false));
    Wish wish = Wish::None;
    if (entered_) {
        wish = Wish::ReplaceOne;
        focusReplace_ = true;
    }
    ImGui::SameLine();
    if (hinted(tr("Replace"), tr("this one, and on to the next (Enter)"))) wish = Wish::ReplaceOne;
    ImGui::SameLine();
    if (hinted(tr("All"), tr("all of them; one undo takes it back"))) wish = Wish::ReplaceAll;
    return wish;
}

FindBar::Wish FindBar::drawGoTo(const PaneContext& context, const Rect& rect) {
    const float left = rect.x + context.px(kEdge), close = context.px(24);
    const float told = told_.empty() ? 0 : ImGui::CalcTextSize(told_.c_str()).x + context.px(8);
    ImGui::SetCursorScreenPos({left, rect.y + context.px(4)});
    const float width = std::max(context.px(70), rect.w - 3 * context.px(kEdge) - close - told);
    if (field("##goto", tr("line 45, or block N120"), goTo_, width, std::exchange(focusWanted_, false))) told_.clear();
    if (entered_) return Wish::GoTo;
    if (!told_.empty()) {
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.wordTool));
        ImGui::TextUnformatted(told_.c_str());
        ImGui::PopStyleColor();
    }
    ImGui::SetCursorScreenPos({rect.right() - close - context.px(kEdge), rect.y + context.px(4)});
    return ImGui::Button("×##close", {close, 0}) ? Wish::Closed : Wish::None;
}

}  // namespace firstoff::gui
