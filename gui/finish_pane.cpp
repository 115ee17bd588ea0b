#include "gui/finish_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "gui/figures.h"
#include "gui/profile_drawing.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/output/finish_table.h"

namespace firstoff::gui {

namespace {

constexpr float kPad = 10;
constexpr float kLeastPlot = 84, kMostPlot = 220;

// Text from the top of the pane down, and what stands between.
class Page {
public:
    Page(const PaneContext& context, float width) : context_(context), width_(width) {}

    void words(const std::string& text, Colour colour) {
        ImFont* font = context_.fonts.small;
        ImGui::PushFont(font);
        ImGui::PushStyleColor(ImGuiCol_Text, tint(colour));
        ImGui::SetCursorPosX(context_.px(kPad));
        ImGui::TextUnformatted(wrapped(*font, width_, text).c_str());
        ImGui::PopStyleColor();
        ImGui::PopFont();
    }
    void quiet(const std::string& text) { words(text, context_.palette.quiet); }
    void plain(const std::string& text) { words(text, context_.palette.text); }

    void figures(const Roughness& r) {
        ImGui::SetCursorPosX(context_.px(kPad));
        ImGui::PushFont(context_.fonts.mono);
        ImGui::TextUnformatted(fmt::format("{0}a {1:.3f}  {0}z {2:.3f}  {0}t {3:.3f} µm", r.filtered() ? 'R' : 'P',
                                           1e3 * r.ra, 1e3 * r.rz, 1e3 * r.rt)
                                   .c_str());
        ImGui::PopFont();
    }

    double plot(const FinishAnswer& answer, float height) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float left = ImGui::GetWindowPos().x + context_.px(kPad);
        ImGui::Dummy({width_, height});
        return drawProfile(context_, {left, at.y, width_, height}, answer);
    }

private:
    const PaneContext& context_;
    float width_;
};

// What the pane is about. A line is taken as it is at the end, so that one that still runs has a finish to show.
std::string subjectOf(const FinishQuestion& question) {
    const std::string line = question.block == kNoBlock ? "" : question.trial->program.lineName(question.block);
    if (!question.place) return say("What {} leaves on the finished part, its longest surface", line);
    const std::string time = question.timeS ? clockTime(*question.timeS) : tr("the end");
    return line.empty() ? tr("Picked surface") : say("Picked surface, left by {}, at {}", line, time);
}

void drawFigures(Page& page, const FinishAnswer& answer, const PaneContext& context) {
    const FinishReport& report = *answer.report;
    const Roughness& r = report.roughness;
    page.figures(r);
    const std::string under = !r.filtered()     ? std::string(tr("not filtered"))
                              : r.sections == 1 ? say("cut-off {:.4g} mm, {} sampling length", r.cutOff, r.sections)
                                                : say("cut-off {:.4g} mm, {} sampling lengths", r.cutOff, r.sections);
    const ImVec2 room = ImGui::GetContentRegionAvail();
    const float height = std::clamp(room.y - 2 * context.fonts.small->FontSize - context.px(12), context.px(kLeastPlot),
                                    context.px(kMostPlot));
    // Above the plot, so that the cut-off is in sight with the figures.
    page.quiet(under);
    const double magnified = page.plot(answer, height);
    page.quiet(
        say("Heights magnified {:.0f} times. Cut by {}.", magnified, cutByInWords(*answer.question.trial, report)));
    if (report.theory) {
        page.quiet(say("A nose alone would leave Rt {:.3f} µm by f²/8r, {:.3f} µm by the circle, Ra {:.3f} µm.",
                       1e3 * report.theory->rtParabola, 1e3 * report.theory->rtCircle, 1e3 * report.theory->ra));
    }
    for (const std::string& note : report.notes) page.quiet(note);
    page.quiet(std::string(finishCaution()));
}

void drawAnswer(Page& page, const FinishAnswer& answer, const PaneContext& context) {
    page.quiet(subjectOf(answer.question));
    if (!answer.failure.empty()) return page.plain(answer.failure);
    if (!answer.report) {
        return page.plain(
            answer.question.place
                ? tr("What stands there was left where a cut began or ended or by a tool that was not fed "
                     "along it, so it has no feed marks.")
                : tr("Nothing is left of a surface along which a tool was fed in this line."));
    }
    page.plain(surfaceInWords(*answer.question.trial, *answer.report));
    if (!answer.report->trouble.empty()) return page.plain(say("No figures: {}.", answer.report->trouble));
    drawFigures(page, answer, context);
}

}  // namespace

void FinishPane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("finish", rect, context, 0, false);
    ImGui::SetCursorPos({0, context.px(6)});
    beginScrolled(context, "page", {rect.w, rect.h - context.px(6)});
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {0, context.px(3)});
    const Session& session = context.session;
    Page page(context, std::max(rect.w - context.px(2 * kPad + 12), context.px(60)));
    const bool asked = session.finishWanted.has_value();
    if (!session.trial()) {
        page.plain(tr("No trial yet."));
    } else if (!asked && session.picked) {
        page.quiet(tr("Picked surface"));
        page.plain(tr("No tool has cut this surface yet: it is the bar as it came."));
    } else if (!asked) {
        page.plain(tr("Double-click a turned surface, or go to a line that cuts one."));
    } else if (session.finish && session.finish->question == *session.finishWanted) {
        drawAnswer(page, *session.finish, context);
    } else {
        page.quiet(subjectOf(*session.finishWanted));
        page.plain(tr("Being reckoned…"));
    }
    ImGui::PopStyleVar();
    ImGui::EndChild();
}

}  // namespace firstoff::gui
