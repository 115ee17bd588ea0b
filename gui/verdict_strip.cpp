#include "gui/verdict_strip.h"

#include <algorithm>
#include <cmath>

#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/output/finding_words.h"

namespace firstoff::gui {

const char* const kCaution = later(
    "The verdict does not replace a dry run, single block and a hand on the feed hold. Workholding, speed limits, "
    "guards and local safety rules are decided by the machine's manual and by licensed or authorised people.");

namespace {

constexpr float kPad = 6;     // above and below
constexpr float kBadge = 24;  // height

struct Badge {
    std::string text;
    std::string detail;
    Colour ground;
    Severity mark = Severity::Note;
    bool unproven = false;
    bool clear = false;
    bool none = false;
};

std::string counted(std::size_t count, Severity severity) {
    if (count == 0) return {};
    switch (severity) {
        case Severity::Stop:
            return count == 1 ? say("{} stop", count) : say("{} stops", count);
        case Severity::Warning:
            return count == 1 ? say("{} warning", count) : say("{} warnings", count);
        case Severity::Note:
            return count == 1 ? say("{} note", count) : say("{} notes", count);
    }
    return {};
}

std::string countsOf(const Trial& trial) {
    std::size_t counts[3] = {};
    for (const Finding& finding : trial.findings) ++counts[static_cast<std::size_t>(finding.severity)];
    std::string text;
    for (const Severity severity : {Severity::Stop, Severity::Warning, Severity::Note}) {
        const std::string part = counted(counts[static_cast<std::size_t>(severity)], severity);
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
        badge.text = session.progress.busy ? tr("running the trial") : tr("no trial");
        badge.ground = palette.raised;
        badge.none = true;
        return badge;
    }
    // A verdict on another text than the one shown is no verdict.
    if (session.stale()) {
        badge.text = session.progress.busy ? tr("running the trial") : tr("not tried since the last edit");
        badge.ground = palette.raised;
        badge.none = true;
        return badge;
    }
    // Nor is a quick look while sliders move.
    if (trial->quickLook) {
        badge.text = tr("quick look");
        badge.ground = palette.raised;
        badge.none = true;
        return badge;
    }
    badge.detail = countsOf(*trial);
    switch (trial->verdict) {
        case Verdict::Clear:
            badge.text = tr("clear");
            badge.ground = palette.safe;
            badge.clear = true;
            break;
        case Verdict::Problems: {
            const bool stops = std::any_of(trial->findings.begin(), trial->findings.end(), [](const Finding& finding) {
                return finding.severity == Severity::Stop && !finding.unproven;
            });
            badge.text = tr("problems");
            badge.mark = stops ? Severity::Stop : Severity::Warning;
            badge.ground = palette.severity[static_cast<std::size_t>(badge.mark)];
            break;
        }
        case Verdict::NotProven:
            badge.text = tr("not proven");
            badge.ground = palette.unproven;
            badge.unproven = true;
            badge.mark = Severity::Warning;
            break;
    }
    // What the verdict says nothing of stands in the same place as it.
    if (const std::string lacking = notReckonedInWords(*trial); !lacking.empty()) {
        badge.text = say("{} (not reckoned: {})", badge.text, lacking);
    }
    if (session.showsChanges()) badge.text = say("{}, with the changes tried", badge.text);
    return badge;
}

void drawTick(ImDrawList& list, ImVec2 centre, float size, Colour colour) {
    const ImVec2 points[] = {{centre.x - 0.4f * size, centre.y},
                             {centre.x - 0.1f * size, centre.y + 0.32f * size},
                             {centre.x + 0.42f * size, centre.y - 0.36f * size}};
    list.AddPolyline(points, 3, ink(colour), 0, std::max(2.0f, 0.16f * size));
}

// The strip laid out for a width.
struct Arrangement {
    Badge badge;
    float badgeWidth = 0;
    float detailWidth = 0;  // 0: left out for want of room
    float cautionAt = 0;    // px from the left edge
    std::string caution;    // broken into lines
};

Arrangement arrange(const PaneContext& context, float width) {
    const auto extent = [](ImFont* font, const std::string& text) {
        return font->CalcTextSizeA(font->FontSize, 1e9f, 0, text.c_str()).x;
    };
    Arrangement out;
    out.badge = badgeOf(context);
    out.badgeWidth = extent(context.fonts.text, out.badge.text) + context.px(out.badge.none ? 24 : 44);
    out.cautionAt = context.px(24) + out.badgeWidth;
    const float detail = extent(context.fonts.small, out.badge.detail);
    if (detail > 0 && width - out.cautionAt - detail > context.px(360)) {
        out.detailWidth = detail;
        out.cautionAt += detail + context.px(16);
    }
    const float room = std::max(context.px(160), width - out.cautionAt - context.px(10));
    out.caution = wrapped(*context.fonts.small, room, tr(kCaution));
    return out;
}

void drawBadge(const PaneContext& context, const Badge& badge, ImVec2 at, float width) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const float height = context.px(kBadge);
    const Colour on = inkOn(badge.ground);
    list.AddRectFilled(at, {at.x + width, at.y + height}, ink(badge.ground), context.px(4));
    const ImVec2 mark{at.x + context.px(17), at.y + 0.5f * height};
    if (badge.clear) {
        drawTick(list, mark, context.px(14), on);
    } else if (!badge.none) {
        list.AddCircleFilled(mark, context.px(10), ink(context.palette.panel), 24);
        drawSeverity(list, mark, context.px(13), context.palette, badge.mark, badge.unproven);
    }
    ImFont* font = context.fonts.text;
    const float x = at.x + context.px(badge.none ? 12 : 34);
    list.AddText(font, font->FontSize, {x, at.y + 0.5f * (height - font->FontSize)}, ink(on), badge.text.c_str());
}

}  // namespace

float VerdictStrip::height(const PaneContext& context, float width) const {
    const float text = heightOf(*context.fonts.small, arrange(context, width).caution);
    return std::ceil(std::max(context.px(kBadge), text) + context.px(2 * kPad));
}

void VerdictStrip::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("verdict", rect, context, 0, false);
    const Arrangement out = arrange(context, rect.w);
    const float left = rect.x + context.px(10);
    drawBadge(context, out.badge, {left, rect.y + context.px(kPad)}, out.badgeWidth);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    ImFont* small = context.fonts.small;
    if (out.detailWidth > 0) {
        const float y = rect.y + context.px(kPad) + 0.5f * (context.px(kBadge) - small->FontSize);
        list.AddText(small, small->FontSize, {left + out.badgeWidth + context.px(14), y}, ink(context.palette.text),
                     out.badge.detail.c_str());
    }
    const float y = rect.y + 0.5f * (rect.h - heightOf(*small, out.caution));
    list.AddText(small, small->FontSize, {rect.x + out.cautionAt, y}, ink(context.palette.quiet), out.caution.c_str());
}

}  // namespace firstoff::gui
