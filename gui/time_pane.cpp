#include "gui/time_pane.h"

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/table_figures.h"

namespace firstoff::gui {

namespace {

Colour hueOf(const Palette& palette, TimeKind kind) {
    switch (kind) {
        case TimeKind::Cutting:
            return palette.cutting;
        case TimeKind::Air:
        case TimeKind::Rapid:
            return palette.rapid;
        case TimeKind::Spindle:
            return palette.spindle;
        case TimeKind::Index:
        case TimeKind::Dwell:
        case TimeKind::Other:
            return palette.waiting;
    }
    return palette.waiting;
}

std::string secondsWords(double seconds, double whole) {
    const double percent = whole > 0 ? 100 * seconds / whole : 0;
    return fmt::format("{:.1f} s {:3.0f} %", seconds, percent);
}

void drawRows(Page& page, const Trial& trial, const char* title, const std::vector<TimeRow>& rows) {
    if (rows.empty()) return;
    page.title(title);
    const double whole = trial.time.whole.total();
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const TimeRow& row = rows[i];
        ImGui::PushID(static_cast<int>(i));
        const double seconds = row.share.total();
        const bool clicked = page.bar(row.name, whole > 0 ? seconds / whole : 0, secondsWords(seconds, whole),
                                      toolHue(page.context().palette, row.station));
        if (clicked && row.firstTimed < trial.timeline.moves.size())
            page.context().commands.add(Seek{trial.timeline.moves[row.firstTimed].t0});
        ImGui::PopID();
    }
}

}  // namespace

void TimePane::draw(const PaneContext& context, const Rect& rect) {
    Page page(context, "time", rect);
    const Trial* trial = context.session.trial();
    if (!trial) return page.quiet(tr("No trial yet."));
    const TimeAccount& time = trial->time;
    const double whole = time.whole.total();
    if (whole <= 0) return page.plain(tr("Nothing in this program takes time."));
    std::string head = say("Cycle {}", durationInWords(whole));
    const double change = trial->setup.machine.times.changePartS;
    if (change > 0)
        head += say("; {:.1f} parts per hour with {:.0f} s to change the part", 3600 / (whole + change), change);
    page.plain(head);
    for (std::size_t k = 0; k < kTimeKinds; ++k) {
        const auto kind = static_cast<TimeKind>(k);
        if (time.whole.of(kind) <= 0) continue;
        page.bar(tr(name(kind)), time.whole.of(kind) / whole, secondsWords(time.whole.of(kind), whole),
                 hueOf(context.palette, kind));
    }
    drawRows(page, *trial, tr("By tool"), time.tools);
    drawRows(page, *trial, tr("By operation"), time.operations);
    if (!time.wastes.empty()) page.title(tr("Could be saved"));
    for (const TimeWaste& waste : time.wastes) {
        const bool air = waste.kind == TimeWaste::Kind::AirCut;
        const std::string line = trial->program.lineName(waste.block);
        const std::string way = told(context.measures().roughLength(waste.lengthMm));
        page.plain(air ? say("{:.1f} s: feed in air of {}, {}", waste.seconds, way, line)
                       : say("{:.1f} s: retract longer than needed of {}, {}", waste.seconds, way, line));
    }
    if (!time.assumed.empty()) page.title(tr("Taken for granted"));
    for (const std::string& sentence : time.assumed) page.quiet(sentence);
}

}  // namespace firstoff::gui
