#include "gui/verdict_strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace firstoff::gui {

const char* const kCaution =
    "The verdict does not replace a dry run, single block and a hand on the feed hold. Workholding, speed limits, "
    "guards and "
    "local safety rules are decided by the machine's manual and by licensed or authorised people.";

namespace {

constexpr float kPad = 6;

struct Badge {
    std::string text;
    std::string detail;
    Colour ground;
    Severity mark = Severity::Note;
    bool unproven = false;
    bool clear = false;
    bool none = false;
};

std::string counted(std::size_t count, const char* one, const char* many) {
    return count == 0 ? std::string() : fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string countsOf(const Trial& trial) {
    std::size_t counts[3] = {};
    for (const Finding& finding : trial.findings) ++counts[static_cast<std::size_t>(finding.severity)];
    std::string text;
    for (const std::string& part : {counted(counts[2], "stop", "stops"), counted(counts[1], "warning", "warnings"),
                                    counted(counts[0], "note", "notes")}) {
        if (part.empty()) continue;
        if (!text.empty()) text += ", ";
        text += part;
    }
    return text;
}

Badge badgeOf(const PaneContext& context) {
    const Session& session = context.session;
    const Palette& palette = context.palette;
    Badge badge;
    const Trial* trial = session.trial();
    if (!trial) {
        badge.text = session.progress.busy ? "running the trial" : "no trial";
        badge.ground = palette.raised;
        badge.none = true;
        return badge;
    }
    // A verdict on another text than the one shown is no verdict.
    if (session.stale()) {
        badge.text = session.progress.busy ? "running the trial" : "not tried since the last edit";
        badge.ground = palette.raised;
        badge.none = true;
        return badge;
    }
    badge.detail = countsOf(*trial);
    switch (trial->verdict) {
        case Verdict::Clear:
            badge.text = "clear";
            badge.ground = palette.safe;
            badge.clear = true;
            break;
        case Verdict::Problems: {
            const bool stops = std::any_of(trial->findings.begin(), trial->findings.end(), [](const Finding& finding) {
                return finding.severity == Severity::Stop && !finding.unproven;
            });
            badge.text = "problems";
            badge.mark = stops ? Severity::Stop : Severity::Warning;
            badge.ground = palette.severity[static_cast<std::size_t>(badge.mark)];
            break;
        }
        case Verdict::NotProven:
            badge.text = "not proven";
            badge.ground = palette.unproven;
            badge.unproven = true;
            badge.mark = Severity::Warning;
            break;
    }
    return badge;
}

void drawTick(ImDrawList& list, ImVec2 centre, float size, Colour colour) {
    const ImVec2 points[] = {{centre.x - 0.4f * size, centre.y},
                             {centre.x - 0.1f * size, centre.y + 0.32f * size},
                             {centre.x + 0.42f * size, centre.y - 0.36f * size}};
    list.AddPolyline(points, 3, ink(colour), 0, std::max(2.0f, 0.16f * size));
}

float badgeWidth(const PaneContext& context, const Badge& badge) {
    ImFont* font = context.fonts.text;
    return font->CalcTextSizeA(font->FontSize, 1e9f, 0, badge.text.c_str()).x + context.px(44);
}

}  // namespace

float VerdictStrip::height(const PaneContext& context, float width) const {
    const Badge badge = badgeOf(context);
    ImFont* small = context.fonts.small;
    const float used = badgeWidth(context, badge) + context.px(34);
    const float detail = small->CalcTextSizeA(small->FontSize, 1e9f, 0, badge.detail.c_str()).x;
    const bool beside = width - used - detail > context.px(360);
    const float wrap = std::max(context.px(160), width - used - (beside ? detail + context.px(16) : 0));
    const float text = small->CalcTextSizeA(small->FontSize, 1e9f, wrap, kCaution).y;
    return std::ceil(std::max(context.px(24), text) + context.px(2 * kPad));
}

void VerdictStrip::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("verdict", rect, context, 0, false);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Badge badge = badgeOf(context);
    const Palette& palette = context.palette;
    const float height = context.px(24);
    const float y = rect.y + context.px(kPad);
    float x = rect.x + context.px(10);
    const float width = badgeWidth(context, badge);
    const Colour on = inkOn(badge.ground);
    list.AddRectFilled({x, y}, {x + width, y + height}, ink(badge.ground), context.px(4));
    const ImVec2 mark{x + context.px(17), y + 0.5f * height};
    if (badge.clear) {
        drawTick(list, mark, context.px(14), on);
    } else if (!badge.none) {
        list.AddCircleFilled(mark, context.px(10), ink(palette.panel), 24);
        drawSeverity(list, mark, context.px(13), palette, badge.mark, badge.unproven);
    }
    ImFont* font = context.fonts.text;
    list.AddText(font, font->FontSize, {x + context.px(34), y + 0.5f * (height - font->FontSize)}, ink(on),
                 badge.text.c_str());
    x += width + context.px(14);
    ImFont* small = context.fonts.small;
    const float detail = small->CalcTextSizeA(small->FontSize, 1e9f, 0, badge.detail.c_str()).x;
    if (detail > 0 && rect.right() - x - detail > context.px(360)) {
        list.AddText(small, small->FontSize, {x, y + 0.5f * (height - small->FontSize)}, ink(palette.text),
                     badge.detail.c_str());
        x += detail + context.px(16);
    }
    const float wrap = std::max(context.px(160), rect.right() - x - context.px(10));
    const float text = small->CalcTextSizeA(small->FontSize, 1e9f, wrap, kCaution).y;
    list.AddText(small, small->FontSize, {x, rect.y + 0.5f * (rect.h - text)}, ink(palette.quiet), kCaution, nullptr,
                 wrap);
}

}  // namespace firstoff::gui
