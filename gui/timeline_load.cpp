// The lane of loads: power at the cut over time, or how much metal comes off where the material is not known.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/cut_words.h"
#include "gui/timeline_canvas.h"
#include "sim/cutting/spindle_limits.h"

namespace firstoff::gui {

std::vector<std::string> TimelineView::loadTitle(const Canvas& canvas, double timeS) const {
    const Instant instant = instantAt(canvas.trial, canvas.index, timeS, kNoStep);
    const auto load = loadAt(canvas.trial, instant.timed, instant.fraction);
    if (!load) return {"no metal comes off here"};
    return loadWords(canvas.trial, *load);
}

void TimelineView::drawLoad(const Canvas& canvas, const Rect& lane) {
    const Palette& palette = canvas.palette();
    ImFont* font = canvas.context.fonts.small;
    const LoadIndex& load = canvas.index.load();
    if (!load.known()) {
        canvas.list.AddText(font, font->FontSize, {lane.x + canvas.context.px(4), lane.y}, ink(palette.quiet),
                            "no metal comes off");
        return;
    }
    const double limit = load.isPower() ? mostPowerKw(canvas.trial.setup.machine.spindle) : 0;
    // The limit is drawn where that leaves the loads most of the lane.
    const double top = 1.12 * (limit <= 1.5 * load.most() ? std::max(load.most(), limit) : load.most());
    const auto y = [&](double value) { return lane.bottom() - static_cast<float>(value / top) * (lane.h - 2); };
    const Colour hue = palette.cutting, over = palette.severity[static_cast<std::size_t>(Severity::Warning)];
    for (const LoadRecord& record : loadRecords(canvas.trial, canvas.index, window_)) {
        const float x0 = canvas.x(record.x0), x1 = std::max(canvas.x(record.x1), x0 + 1);
        const bool beyond = limit > 0 && std::max(record.start, record.end) > limit;
        const Colour colour = beyond ? over : hue;
        canvas.list.AddQuadFilled({x0, y(record.start)}, {x1, y(record.end)}, {x1, lane.bottom()}, {x0, lane.bottom()},
                                  ink(colour, record.folded ? 0.35f : 0.25f));
        canvas.list.AddLine({x0, y(record.start)}, {x1, y(record.end)}, ink(colour),
                            canvas.context.px(beyond ? 2.2f : 1.4f));
    }
    if (limit > 0 && limit < top) {
        const float at = std::round(y(limit)) + 0.5f;
        for (float x = lane.x; x < lane.right(); x += canvas.context.px(9))
            canvas.list.AddLine({x, at}, {x + canvas.context.px(5), at}, ink(palette.quiet, 0.8f));
    }
    std::string label = load.isPower() ? fmt::format("at most {:.2f} kW", load.most())
                                       : fmt::format("at most {:.1f} cm\u00b3/min; forces not known", load.most());
    if (limit > 0) label += fmt::format(", the spindle gives {:.1f} kW", limit);
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9f, 0, label.c_str());
    const ImVec2 at{std::round(lane.right() - size.x - canvas.context.px(4)), std::round(lane.y)};
    canvas.list.AddRectFilled({at.x - 3, at.y}, {at.x + size.x + 3, at.y + size.y}, ink(palette.panel, 0.8f), 3);
    canvas.list.AddText(font, font->FontSize, at, ink(palette.quiet), label.c_str());
}

}  // namespace firstoff::gui
