#include "gui/lessons/lesson_pane.h"

#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "gui/lessons/lesson_text_view.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

const char* taskOf(LessonStep::Kind kind) {
    switch (kind) {
        case LessonStep::Kind::Show:
            return tr("Look");
        case LessonStep::Kind::Choose:
            return tr("What happens?");
        case LessonStep::Kind::Number:
            return tr("How much?");
        case LessonStep::Kind::Mend:
            return tr("Find and mend");
        case LessonStep::Kind::Write:
            return tr("Write");
        case LessonStep::Kind::Predict:
            return tr("Where?");
    }
    return "";
}

// A tick, a cross or a question mark, so that colour is not alone.
void drawMark(const PaneContext& context, ImVec2 at, float size, Mark mark) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Palette& p = context.palette;
    const float half = 0.5f * size, thick = std::max(2.0f, 0.15f * size);
    const ImVec2 centre{at.x + half, at.y + half};
    if (mark == Mark::Right) {
        const ImVec2 tick[] = {{centre.x - 0.8f * half, centre.y},
                               {centre.x - 0.2f * half, centre.y + 0.65f * half},
                               {centre.x + 0.85f * half, centre.y - 0.7f * half}};
        list.AddPolyline(tick, 3, ink(p.safe), 0, thick);
    } else if (mark == Mark::Wrong) {
        for (const float way : {-1.0f, 1.0f})
            list.AddLine({centre.x - 0.6f * half, centre.y - way * 0.6f * half},
                         {centre.x + 0.6f * half, centre.y + way * 0.6f * half}, ink(p.text), thick);
    } else {
        drawSeverity(list, centre, size, p, Severity::Warning, true);
    }
}

const char* markInWords(Mark mark) {
    switch (mark) {
        case Mark::Right:
            return tr("Right.");
        case Mark::Wrong:
            return tr("Not yet.");
        case Mark::NotProven:
            return tr("Not proven.");
        case Mark::Unusable:
            return tr("This cannot be marked.");
    }
    return "";
}

void paragraph(const Page& page, const std::string& text, Colour colour) {
    const PaneContext& context = page.context();
    const ImFont& font = *context.fonts.text;
    const std::string lines = wrapped(font, page.width(), text);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::GetWindowDrawList()->AddText(&font, font.FontSize, {at.x + page.pad(), at.y}, ink(colour), lines.c_str());
    ImGui::Dummy({page.width(), heightOf(font, lines) + context.px(5)});
}

}  // namespace

void LessonPane::draw(const PaneContext& context, const Rect& rect, LessonRoom& room) {
    Page page(context, "lesson", rect);
    if (room.lesson()) {
        drawStep(page, room);
    } else {
        drawList(page, room);
    }
}

void LessonPane::drawList(Page& page, const LessonRoom& room) {
    const PaneContext& context = page.context();
    if (room.rows().empty()) {
        paragraph(page, tr("No lessons were found. Open a folder that holds one with File > Open lesson."),
                  context.palette.text);
        return;
    }
    for (std::size_t i = 0; i < room.rows().size(); ++i) {
        const LessonRow& row = room.rows()[i];
        const ImFont& font = *context.fonts.text;
        const ImFont& small = *context.fonts.small;
        const std::string about = wrapped(small, page.width() - context.px(30), row.about);
        const float height = font.FontSize + heightOf(small, about) + context.px(14);
        ImGui::PushID(static_cast<int>(i));
        ImGui::SetCursorPosX(page.pad() - context.px(4));
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const bool clicked = ImGui::InvisibleButton("lesson", {page.width() + context.px(8), height});
        const bool hovered = ImGui::IsItemHovered();
        ImGui::PopID();
        ImDrawList& list = *ImGui::GetWindowDrawList();
        if (hovered)
            list.AddRectFilled(at, {at.x + page.width() + context.px(8), at.y + height},
                               ink(context.palette.hovered, 0.6f), context.px(3));
        const float left = at.x + context.px(26);
        const bool done = row.steps > 0 && row.right >= row.steps;
        if (done) drawMark(context, {at.x + context.px(4), at.y + context.px(5)}, context.px(14), Mark::Right);
        list.AddText(&font, font.FontSize, {left, at.y + context.px(4)}, ink(context.palette.text), row.title.c_str());
        list.AddText(&small, small.FontSize, {left, at.y + context.px(7) + font.FontSize}, ink(context.palette.quiet),
                     about.c_str());
        const std::string figures = row.steps > 0 ? say("{} of {}", row.right, row.steps) : std::string();
        const float width = small.CalcTextSizeA(small.FontSize, 1e9f, 0, figures.c_str()).x;
        list.AddText(&small, small.FontSize, {at.x + page.width() - width, at.y + context.px(6)},
                     ink(context.palette.quiet), figures.c_str());
        if (hovered && row.minutes > 0) ImGui::SetTooltip("%s", say("about {} minutes", row.minutes).c_str());
        if (clicked) context.commands.add(OpenLesson{row.folder});
    }
}

void LessonPane::drawHeader(Page& page, LessonRoom& room) {
    const PaneContext& context = page.context();
    const Lesson& lesson = *room.lesson();
    ImGui::SetCursorPosX(page.pad());
    if (ImGui::Button(tr("All lessons"))) context.commands.add(CloseLesson{});
    ImGui::SameLine();
    ImGui::TextUnformatted(fitted(*context.fonts.small, page.width() - context.px(100), lesson.title).c_str());
    // The steps as a row of dots: those that are right filled, the present one ringed.
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float apart =
        std::min(context.px(18), page.width() / static_cast<float>(std::max<std::size_t>(1, lesson.steps.size())));
    for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
        const int step = static_cast<int>(i) + 1;
        const ImVec2 centre{at.x + page.pad() + apart * (static_cast<float>(i) + 0.5f), at.y + context.px(9)};
        const float radius = context.px(4);
        list.AddCircle(centre, radius, ink(context.palette.quiet), 16, context.px(1.2f));
        if (room.rightAt(step)) list.AddCircleFilled(centre, radius, ink(context.palette.safe), 16);
        if (step == room.step())
            list.AddCircle(centre, context.px(7.5f), ink(context.palette.accent), 20, context.px(1.6f));
        ImGui::SetCursorScreenPos({centre.x - 0.5f * apart, at.y});
        ImGui::PushID(step);
        if (ImGui::InvisibleButton("step", {apart, context.px(18)})) context.commands.add(LessonStepTo{step});
        if (ImGui::IsItemHovered() && !lesson.steps[i].title.empty())
            ImGui::SetTooltip("%s", lesson.steps[i].title.c_str());
        ImGui::PopID();
    }
    ImGui::SetCursorScreenPos({at.x, at.y + context.px(22)});
}

void LessonPane::drawStep(Page& page, LessonRoom& room) {
    const PaneContext& context = page.context();
    drawHeader(page, room);
    for (const LessonFault& fault : room.lesson()->faults) {
        if (fault.step == 0 || fault.step == room.step())
            page.words(inWords(fault), warningInk(context, Severity::Warning));
    }
    const LessonFigure* figure = nullptr;
    if (room.step() == 1) figure = drawLessonText(page, room.lesson()->opening);
    const LessonStep* step = room.current();
    if (!step) return;
    paragraph(page, step->title, context.palette.accent);
    if (const LessonFigure* other = drawLessonText(page, step->text)) figure = other;
    if (figure) context.commands.add(ShowFigure{*figure});
    drawQuestion(page, room);
    drawReply(page, room.work());
    drawButtons(page, room);
}

void LessonPane::drawQuestion(Page& page, LessonRoom& room) {
    const PaneContext& context = page.context();
    const LessonStep& step = *room.current();
    StepWork& work = room.work();
    if (step.kind == LessonStep::Kind::Show) return;
    page.title(taskOf(step.kind));
    if (!step.usable) {
        page.words(tr("This step has a fault and cannot be answered."), warningInk(context, Severity::Warning));
        return;
    }
    paragraph(page, step.question, context.palette.text);
    if (step.kind == LessonStep::Kind::Choose) {
        for (std::size_t i = 0; i < step.choices.size(); ++i) {
            ImGui::PushID(static_cast<int>(i));
            ImGui::SetCursorPosX(page.pad());
            bool chosen = work.chosen[i];
            ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {2, 2});
            if (ImGui::Checkbox("##choice", &chosen)) {
                work.chosen[i] = chosen;
                work.marking.reset();
            }
            ImGui::PopStyleVar();
            ImGui::SameLine(0, context.px(7));
            const ImVec2 at = ImGui::GetCursorScreenPos();
            const ImFont& font = *context.fonts.text;
            const float room_ = page.width() - context.px(30);
            const std::string lines = wrapped(font, room_, step.choices[i].text);
            ImGui::GetWindowDrawList()->AddText(&font, font.FontSize, {at.x, at.y + 1}, ink(context.palette.text),
                                                lines.c_str());
            if (ImGui::InvisibleButton("words", {room_, heightOf(font, lines) + context.px(5)})) {
                work.chosen[i] = !chosen;
                work.marking.reset();
            }
            ImGui::PopID();
        }
    } else if (step.kind == LessonStep::Kind::Number) {
        ImGui::SetCursorPosX(page.pad());
        ImGui::SetNextItemWidth(context.px(110));
        if (ImGui::InputText("##number", &work.number, ImGuiInputTextFlags_EnterReturnsTrue))
            context.commands.add(MarkStep{});
        ImGui::SameLine();
        ImGui::TextUnformatted(step.unit.c_str());
    } else if (step.kind == LessonStep::Kind::Predict) {
        page.plain(tr("Click the place in the half-section, or type it:"));
        PlaceAnswer place = work.place.value_or(PlaceAnswer{});
        bool typed = false;
        const std::pair<const char*, double*> axes[] = {{"X", &place.xMm}, {"Z", &place.zMm}};
        for (const auto& [axis, value] : axes) {
            if (value == &place.xMm) {
                ImGui::SetCursorPosX(page.pad());
            } else {
                ImGui::SameLine(0, context.px(16));
            }
            ImGui::AlignTextToFramePadding();
            ImGui::TextUnformatted(axis);
            ImGui::SameLine(0, context.px(6));
            ImGui::PushID(axis);
            ImGui::SetNextItemWidth(context.px(90));
            typed = ImGui::InputDouble("##typed", value, 0, 0, "%.3f") || typed;
            ImGui::PopID();
        }
        if (typed) context.commands.add(PlaceTyped{place.xMm, place.zMm});
    } else {
        page.plain(tr("Change the program above, then have it marked. Whatever makes the right part safely is right."));
    }
}

void LessonPane::drawReply(Page& page, const StepWork& work) {
    const PaneContext& context = page.context();
    if (!work.trouble.empty()) page.words(work.trouble, warningInk(context, Severity::Warning));
    if (work.marking) {
        page.gap();
        const ImVec2 at = ImGui::GetCursorScreenPos();
        drawMark(context, {at.x + page.pad(), at.y}, context.px(16), work.marking->mark);
        const ImFont& font = *context.fonts.strong;
        ImGui::GetWindowDrawList()->AddText(&font, font.FontSize, {at.x + page.pad() + context.px(24), at.y},
                                            ink(context.palette.text), markInWords(work.marking->mark));
        ImGui::Dummy({page.width(), context.px(20)});
        if (!work.marking->reply.empty()) paragraph(page, work.marking->reply, context.palette.text);
        for (const std::string& remark : work.marking->remarks) paragraph(page, remark, context.palette.text);
    }
    if (!work.model.empty()) paragraph(page, say("Answer: {}", work.model), context.palette.text);
}

void LessonPane::drawButtons(Page& page, LessonRoom& room) {
    const PaneContext& context = page.context();
    const LessonStep& step = *room.current();
    const StepWork& work = room.work();
    const int steps = static_cast<int>(room.lesson()->steps.size());
    page.gap();
    ImGui::SetCursorPosX(page.pad());
    const bool right = work.marking && work.marking->mark == Mark::Right;
    ImGui::BeginDisabled(room.step() <= 1);
    if (ImGui::Button(tr("Back"))) context.commands.add(LessonStepTo{room.step() - 1});
    ImGui::EndDisabled();
    ImGui::SameLine();
    if (step.kind != LessonStep::Kind::Show && step.usable) {
        ImGui::BeginDisabled(room.marking());
        if (!right) ImGui::PushStyleColor(ImGuiCol_Button, tint(context.palette.current));
        if (ImGui::Button(room.marking() ? tr("Trying it …") : tr("Mark it"))) context.commands.add(MarkStep{});
        if (!right) ImGui::PopStyleColor();
        ImGui::EndDisabled();
        ImGui::SameLine();
        if (!step.hint.empty() && !work.hint && ImGui::Button(tr("Hint"))) room.work().hint = true;
        ImGui::SameLine();
        const bool tried = work.marking && !right;
        if (tried && work.model.empty()) {
            if (ImGui::Button(tr("Tell me"))) context.commands.add(TellAnswer{});
            ImGui::SameLine();
        }
    }
    ImGui::BeginDisabled(room.step() >= steps);
    const bool lit = step.kind == LessonStep::Kind::Show || right;
    if (lit) ImGui::PushStyleColor(ImGuiCol_Button, tint(context.palette.current));
    if (ImGui::Button(tr("Next"))) context.commands.add(LessonStepTo{room.step() + 1});
    if (lit) ImGui::PopStyleColor();
    ImGui::EndDisabled();
    if (work.hint && !step.hint.empty()) {
        page.gap();
        paragraph(page, step.hint, context.palette.quiet);
    }
    if (step.kind == LessonStep::Kind::Mend || step.kind == LessonStep::Kind::Write) {
        page.gap();
        page.quiet(
            tr("Marked by simulation, which proves nothing at a machine: dry run, single block and a hand on the feed "
               "hold come all the same."));
    }
}

}  // namespace firstoff::gui
