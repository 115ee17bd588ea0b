#include "gui/cut_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "gui/cut_words.h"
#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/cutting/spindle_limits.h"
#include "sim/output/holding_report.h"

namespace firstoff::gui {

namespace {

void drawNow(Page& page, const Trial& trial, const Instant& instant) {
    page.title(tr("At this moment"));
    const auto load = loadAt(trial, instant.timed, instant.fraction);
    if (!load) return page.plain(tr("No metal comes off."));
    const Measures measures = page.context().measures();
    const auto figure = [&](const char* label, const Figure& one) { page.figure(label, one.value, one.unit); };
    figure(tr("Chip area"), measures.chipArea(load->chipAreaMm2));
    figure(tr("Chip thickness, greatest"), measures.thickness(load->thicknessMm));
    figure(tr("Metal removed"), measures.removalRate(load->removalMm3PerS));
    if (trial.loads.forcesKnown) {
        page.figure(tr("Cutting force"), fmt::format("{:.0f}", load->cuttingN), "N");
        page.figure(tr("Torque"), fmt::format("{:.2f}", load->torqueNm), "N\u00b7m");
        page.figure(tr("Power at the cut"), fmt::format("{:.3f}", load->powerKw), "kW");
    }
    const auto bend = bendingAt(trial, instant.timed, instant.fraction);
    if (!bend) return;
    figure(tr("Part gives way"), measures.smallLength(bend->partMm));
    if (bend->barMm != 0) figure(tr("Bar gives way"), measures.smallLength(bend->barMm));
    figure(tr("Diameter error from it"), measures.smallLength(bend->diameterErrorMm));
}

// Greatest figures per tool; a click goes there.
void drawTools(Page& page, const Trial& trial) {
    page.title(trial.loads.forcesKnown ? tr("Greatest power of each tool") : tr("Greatest removal of each tool"));
    double most = trial.loads.forcesKnown ? mostPowerKw(trial.setup.machine.spindle) : 0;
    const bool limited = most > 0;
    const auto of = [&](const ToolLoad& tool) -> const LoadPeak& {
        return trial.loads.forcesKnown ? tool.powerKw : tool.removalMm3PerS;
    };
    if (!limited) {
        for (const ToolLoad& tool : trial.loads.tools) most = std::max(most, static_cast<double>(of(tool).value));
    }
    for (const ToolLoad& tool : trial.loads.tools) {
        const LoadPeak& peak = of(tool);
        const std::string behind = trial.loads.forcesKnown ? fmt::format("{:.2f} kW", peak.value)
                                                           : told(page.context().measures().removalRate(peak.value));
        ImGui::PushID(static_cast<int>(tool.call));
        const double share = most > 0 ? peak.value / most : 0;
        const Colour hue = limited && share > 1
                               ? page.context().palette.severity[static_cast<std::size_t>(Severity::Warning)]
                               : page.context().palette.cutting;
        if (page.bar(callTitle(trial, tool.call), share, behind, hue) && peak.timedMove < trial.timeline.moves.size()) {
            const double fraction = trial.loads.samples[peak.sample].fraction;
            page.context().commands.add(Seek{timeAt(trial, peak.timedMove, fraction)});
        }
        ImGui::PopID();
    }
    if (limited) page.quiet(tr("Full bars: the most that the spindle gives at its best speed. Click to go there."));
}

void drawHolding(Page& page, const Trial& trial) {
    const HoldingResult& holding = trial.holding;
    page.title(tr("Does the chuck hold it (estimate)"));
    for (const GripFigure& figure : gripFigures(trial)) page.figure(figure.label, figure.value, figure.unit);
    if (holding.grip) page.quiet(gripCutInWords(trial));
    for (const std::string& sentence : holding.missing) page.plain(sentence);
    for (const std::string& sentence : holding.assumed) page.quiet(sentence);
    page.quiet(tr(kGripCaution));
}

void drawEdges(Page& page, const Trial& trial) {
    if (trial.edges.empty()) return;
    page.title(tr("Edges"));
    for (const EdgeUse& use : trial.edges) {
        if (use.toolIndex < 0) continue;
        const Tool& tool = trial.setup.tools[static_cast<std::size_t>(use.toolIndex)];
        std::string text =
            say("T{:02} {}: {:.0f} s in metal, {:.0f} m", tool.station, tool.name, use.cuttingS, use.lengthM);
        if (use.partsPerEdge) text += say(", {:.0f} parts per edge", *use.partsPerEdge);
        page.plain(text);
    }
}

}  // namespace

void CutPane::draw(const PaneContext& context, const Rect& rect) {
    Page page(context, "cut", rect);
    const Trial* trial = context.session.trial();
    if (!trial) return page.quiet(tr("No trial yet."));
    if (trial->loads.runs.empty()) return page.plain(tr("No metal comes off in this program."));
    if (!trial->loads.forcesKnown)
        page.words(tr("The material's cutting force is not known, so no forces are shown. Name a known material under "
                      "[stock], or add [material]."),
                   warningInk(context, Severity::Warning));
    if (context.instant && context.instant->hasMoves) drawNow(page, *trial, *context.instant);
    drawTools(page, *trial);
    drawHolding(page, *trial);
    drawEdges(page, *trial);
    const auto sentences = [&](const char* title, const std::vector<std::string>& list) {
        if (list.empty()) return;
        page.title(title);
        for (const std::string& sentence : list) page.quiet(sentence);
    };
    sentences(tr("Not reckoned"), trial->loads.notReckoned);
    sentences(tr("Taken for granted"), trial->loads.assumed);
    for (const std::string& sentence : trial->bending.assumed) page.quiet(sentence);
}

}  // namespace firstoff::gui
