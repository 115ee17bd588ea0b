// The lanes of what a cut asks for: power at the cut over time, or how much metal comes off where the material is not
// known; how much of the grip it takes; and the error of the diameter that giving way leaves.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/cut_words.h"
#include "gui/timeline_canvas.h"
#include "sim/base/say.h"
#include "sim/cutting/spindle_limits.h"

namespace firstoff::gui {

namespace {

// Figures of a lane and what they are held against.
struct LaneScale {
    double most = 0;   // of the figures
    double top = 0;    // of the lane
    double limit = 0;  // drawn as a broken line, and what is beyond it as too much; 0: none
};

void drawFigures(ImDrawList& list, const PaneContext& context, const Rect& lane, const LaneScale& scale,
                 const std::vector<LoadRecord>& records, float left, Colour hue) {
    const Palette& palette = context.palette;
    const auto y = [&](double value) { return lane.bottom() - static_cast<float>(value / scale.top) * (lane.h - 2); };
    const Colour over = palette.severity[static_cast<std::size_t>(Severity::Warning)];
    for (const LoadRecord& record : records) {
        const float x0 = left + record.x0, x1 = std::max(left + record.x1, x0 + 1);
        const bool beyond = scale.limit > 0 && std::max(record.start, record.end) > scale.limit;
        const Colour colour = beyond ? over : hue;
        list.AddQuadFilled({x0, y(record.start)}, {x1, y(record.end)}, {x1, lane.bottom()}, {x0, lane.bottom()},
                           ink(colour, record.folded ? 0.35f : 0.25f));
        list.AddLine({x0, y(record.start)}, {x1, y(record.end)}, ink(colour), context.stroke(beyond ? 2.2f : 1.4f));
    }
    if (!(scale.limit > 0 && scale.limit < scale.top)) return;
    const float at = std::round(y(scale.limit)) + 0.5f;
    for (float x = lane.x; x < lane.right(); x += context.px(9))
        list.AddLine({x, at}, {x + context.px(5), at}, ink(palette.quiet, 0.8f));
}

// At the right end, over the figures.
void drawLabel(ImDrawList& list, const PaneContext& context, const Rect& lane, const std::string& label) {
    ImFont* font = context.fonts.small;
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9f, 0, label.c_str());
    const ImVec2 at{std::round(lane.right() - size.x - context.px(4)), std::round(lane.y)};
    list.AddRectFilled({at.x - 3, at.y}, {at.x + size.x + 3, at.y + size.y}, ink(context.palette.panel, 0.8f), 3);
    list.AddText(font, font->FontSize, at, ink(context.palette.quiet), label.c_str());
}

}  // namespace

std::vector<std::string> TimelineView::loadTitle(const Canvas& canvas, double timeS) const {
    const Instant instant = instantAt(canvas.trial, canvas.index, timeS, kNoStep);
    const auto load = loadAt(canvas.trial, instant.timed, instant.fraction);
    if (!load) return {tr("no metal comes off here")};
    return loadWords(canvas.trial, *load, canvas.context.measures());
}

std::vector<std::string> TimelineView::gripTitle(const Canvas& canvas, double timeS) const {
    const Instant instant = instantAt(canvas.trial, canvas.index, timeS, kNoStep);
    const auto share = gripShareAt(canvas.trial, instant.timed, instant.fraction);
    if (!share) return {tr("no grip is asked for here, or it is not known")};
    return gripWords(canvas.trial, *share);
}

std::vector<std::string> TimelineView::bendingTitle(const Canvas& canvas, double timeS) const {
    const Instant instant = instantAt(canvas.trial, canvas.index, timeS, kNoStep);
    const auto bend = bendingAt(canvas.trial, instant.timed, instant.fraction);
    if (!bend) return {tr("no metal comes off here")};
    return bendingWords(*bend, canvas.context.measures());
}

void TimelineView::drawLoad(const Canvas& canvas, const Rect& lane) {
    const Palette& palette = canvas.palette();
    const LoadIndex& load = canvas.index.load();
    if (!load.known()) {
        ImFont* font = canvas.context.fonts.small;
        canvas.list.AddText(font, font->FontSize, {lane.x + canvas.context.px(4), lane.y}, ink(palette.quiet),
                            tr("no metal comes off"));
        return;
    }
    const Measures measures = canvas.context.measures();
    LaneScale scale;
    scale.most = load.most();
    scale.limit = load.isPower() ? mostPowerKw(canvas.trial.setup.machine.spindle) : 0;
    // The limit is drawn where that leaves the loads most of the lane.
    scale.top = 1.12 * (scale.limit <= 1.5 * scale.most ? std::max(scale.most, scale.limit) : scale.most);
    drawFigures(canvas.list, canvas.context, lane, scale, records_.load, canvas.area.x, palette.cutting);
    std::string label = load.isPower()
                            ? say("at most {:.2f} kW", load.most())
                            : say("at most {}; forces not known", told(measures.removalRate(load.most() / 0.06)));
    if (scale.limit > 0) label += say(", the spindle gives {:.1f} kW", scale.limit);
    drawLabel(canvas.list, canvas.context, lane, label);
}

// A share of what is permitted: its limit always stands in the lane.
void TimelineView::drawGrip(const Canvas& canvas, const Rect& lane) {
    const SampleIndex& grip = canvas.index.load().grip();
    LaneScale scale;
    scale.most = grip.most();
    scale.limit = 1;
    scale.top = 1.12 * std::clamp(scale.most, 1.0, kMostGripShare);
    std::vector<LoadRecord> records = records_.grip;
    for (LoadRecord& record : records) {
        record.start = std::min(record.start, static_cast<float>(kMostGripShare));
        record.end = std::min(record.end, static_cast<float>(kMostGripShare));
    }
    drawFigures(canvas.list, canvas.context, lane, scale, records, canvas.area.x, canvas.palette().accent);
    drawLabel(canvas.list, canvas.context, lane,
              scale.most > kMostGripShare ? std::string(tr("asks for many times the grip"))
                                          : say("at most {:.0f} % of the grip (estimate)", 100 * scale.most));
}

void TimelineView::drawBending(const Canvas& canvas, const Rect& lane) {
    const SampleIndex& bending = canvas.index.load().bending();
    const Measures measures = canvas.context.measures();
    const double least = measures.finest();
    LaneScale scale;
    scale.most = bending.most();
    scale.top = 1.12 * scale.most;
    drawFigures(canvas.list, canvas.context, lane, scale, records_.bending, canvas.area.x, canvas.palette().waiting);
    drawLabel(canvas.list, canvas.context, lane,
              scale.most < least ? say("less than {} on diameter", told(measures.length(least)))
                                 : say("at most {} on diameter", told(measures.length(scale.most))));
}

}  // namespace firstoff::gui
