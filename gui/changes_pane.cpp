#include "gui/changes_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "gui/cut_words.h"
#include "gui/figures.h"
#include "gui/size_words.h"
#include "sim/base/say.h"
#include "sim/output/comparison_report.h"

namespace firstoff::gui {

namespace {

constexpr std::size_t kMostRows = 12;

WhatIf::Wear& wearOf(WhatIf& sliders, int offset) {
    for (WhatIf::Wear& wear : sliders.wears) {
        if (wear.offset == offset) return wear;
    }
    return sliders.wears.emplace_back(WhatIf::Wear{offset, 0, 0});
}

WhatIf::Edge& edgeOf(WhatIf& sliders, int station) {
    for (WhatIf::Edge& edge : sliders.edges) {
        if (edge.station == station) return edge;
    }
    return sliders.edges.emplace_back(WhatIf::Edge{station, -1, 0});
}

struct Span {
    double least, most;
    double nothing;  // as it is
};

// A label, a slider, its figure, and a way back to as it is. Ctrl and click types a figure.
bool slider(Page& page, const char* label, double& value, const Span& span, const char* format) {
    const PaneContext& context = page.context();
    const float labels = context.px(112), figures = context.px(54), back = context.px(20);
    ImGui::PushID(label);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {context.px(4), context.px(1)});
    page.indent();
    ImGui::AlignTextToFramePadding();
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::TextUnformatted(label);
    ImGui::PopStyleColor();
    ImGui::SameLine(page.pad() + labels);
    ImGui::SetNextItemWidth(page.width() - labels - figures - back - context.px(10));
    // The figure stands beside the slider, where its knob does not hide it.
    ImGui::PushStyleColor(ImGuiCol_Text, ImVec4(0, 0, 0, 0));
    bool changed = ImGui::SliderScalar("##slider", ImGuiDataType_Double, &value, &span.least, &span.most, format,
                                       ImGuiSliderFlags_AlwaysClamp);
    ImGui::PopStyleColor();
    char text[32];
    std::snprintf(text, sizeof text, format, value);
    const float width = ImGui::CalcTextSize(text).x;
    ImGui::SameLine(page.pad() + page.width() - back - context.px(6) - width);
    ImGui::TextUnformatted(text);
    if (value != span.nothing) {
        ImGui::SameLine(page.pad() + page.width() - back);
        if (ImGui::Button("x", {back, 0})) {
            value = span.nothing;
            changed = true;
        }
        if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tr("Back to as it is"));
    }
    ImGui::PopStyleVar();
    ImGui::PopID();
    return changed;
}

// A length, told and moved in the unit of the window; `format` is that for mm.
bool lengthSlider(Page& page, const std::string& label, double& mm, const Span& spanMm, const char* format) {
    const Measures measures = page.context().measures();
    const double nothing = measures.of(spanMm.nothing);
    double shown = measures.of(mm);
    if (!slider(page, label.c_str(), shown, {measures.of(spanMm.least), measures.of(spanMm.most), nothing},
                !measures.inches() ? format
                : spanMm.least < 0 ? "%+.4f"
                                   : "%.4f"))
        return false;
    mm = shown == nothing ? spanMm.nothing : shown * measures.unitMm();
    return true;
}

// What the changes come to, in one or two lines, above the sliders.
void drawInShort(const Page& page, const Session& session) {
    if (!session.showsChanges()) return;
    const Comparison& c = *session.outcome->comparison;
    std::size_t gone = 0, out = 0;
    for (const FindingChange& change : c.findings) gone += change.gone;
    for (const SizeChange& size : c.sizes) out += size.stateAfter != GaugedDimension::State::Within;
    std::string text = say("Cycle {}", timeChangeInWords(c.cycleBeforeS, c.cycleAfterS));
    if (!c.sizes.empty()) {
        text +=
            out > 0 ? say("; {} of {} sizes out", out, c.sizes.size()) : say("; all {} sizes within", c.sizes.size());
    }
    if (!c.findings.empty()) text += say("; findings: {} new, {} gone", c.findings.size() - gone, gone);
    page.words(text, out > 0 || c.findings.size() > gone ? warningInk(page.context(), Severity::Warning)
                                                         : page.context().palette.text);
}

void drawSizes(const Page& page, const Trial& trial, const Comparison& comparison) {
    if (comparison.sizes.empty()) return;
    const Measures measures = page.context().measures();
    page.title(tr("Sizes"));
    for (const SizeChange& size : comparison.sizes) {
        const GaugedDimension& d = trial.gauged.dimensions[size.dimension];
        const bool within = size.stateAfter == GaugedDimension::State::Within;
        const bool moved = size.before != size.after && !(std::isnan(size.before) && std::isnan(size.after));
        const std::string is = moved ? fmt::format("{}: {} \u2192 {}", size.name, sizeFigure(d, size.before, measures),
                                                   sizeTold(d, size.after, measures))
                                     : fmt::format("{}: {}", size.name, sizeTold(d, size.after, measures));
        const std::string text = within ? is : say("{}, out of its limits", is);
        page.words(text, !within ? warningInk(page.context(), Severity::Warning)
                         : moved ? page.context().palette.text
                                 : page.context().palette.quiet);
    }
}

void drawFindings(const Page& page, const Trial& before, const Trial& after, const Comparison& comparison) {
    page.title(tr("Findings"));
    if (comparison.findings.empty()) return page.quiet(tr("The same."));
    std::size_t told = 0;
    for (const FindingChange& change : comparison.findings) {
        if (told++ == kMostRows) break;
        const Program& program = change.gone ? before.program : after.program;
        std::string where;
        if (change.finding.span.file == SourceSpan::File::Program && change.finding.span.line > 0) {
            const BlockId block = program.blockAt(change.finding.span.part, change.finding.span.line);
            if (block != kNoBlock) where = program.lineName(block) + ": ";
        }
        where += change.finding.message;
        page.words(change.gone ? say("Gone: {}", where) : say("New: {}", where),
                   change.gone ? page.context().palette.quiet : warningInk(page.context(), change.finding.severity));
    }
    if (comparison.findings.size() > kMostRows) page.quiet(say("and {} more", comparison.findings.size() - kMostRows));
}

}  // namespace

// Every pair of tool and offset that the program calls, each once.
void ChangesPane::drawToolChoice(Page& page, const Trial& trial) {
    std::vector<std::uint32_t> calls;
    for (std::uint32_t i = 1; i < trial.toolpath.calls.size(); ++i) {
        const ToolCall& call = trial.toolpath.calls[i];
        if (call.toolIndex < 0 || call.offset == 0) continue;
        const bool there = std::any_of(calls.begin(), calls.end(), [&](std::uint32_t other) {
            const ToolCall& o = trial.toolpath.calls[other];
            return o.station == call.station && o.offset == call.offset;
        });
        if (!there) calls.push_back(i);
    }
    if (calls.empty()) {
        call_ = 0;
        return;
    }
    if (std::find(calls.begin(), calls.end(), call_) == calls.end()) call_ = calls.front();
    page.indent();
    ImGui::SetNextItemWidth(page.width());
    if (!ImGui::BeginCombo("##tool", callTitle(trial, call_).c_str())) return;
    for (const std::uint32_t call : calls) {
        if (ImGui::Selectable(callTitle(trial, call).c_str(), call == call_)) call_ = call;
    }
    ImGui::EndCombo();
}

void ChangesPane::drawSliders(Page& page, const Trial& trial) {
    const char* unit = page.context().measures().unit();
    bool changed = false;
    if (call_ > 0) {
        const ToolCall& call = trial.toolpath.calls[call_];
        const Tool& tool = trial.setup.tools[static_cast<std::size_t>(call.toolIndex)];
        WhatIf::Wear& wear = wearOf(sliders_, call.offset);
        changed |= lengthSlider(page, say("Wear X, {}", unit), wear.xMm, {-0.3, 0.3, 0}, "%+.3f");
        changed |= lengthSlider(page, say("Wear Z, {}", unit), wear.zMm, {-0.5, 0.5, 0}, "%+.3f");
        WhatIf::Edge& edge = edgeOf(sliders_, call.station);
        if (hasNose(tool)) {
            double radius = edge.noseRadiusMm < 0 ? tool.noseRadius : edge.noseRadiusMm;
            if (lengthSlider(page, say("Nose radius, {}", unit), radius, {0, 1.6, tool.noseRadius}, "%.1f")) {
                edge.noseRadiusMm = radius == tool.noseRadius ? -1 : radius;
                changed = true;
            }
        }
        changed |= lengthSlider(page, say("Centre height, {}", unit), edge.centreHeightMm, {-0.5, 0.5, 0}, "%+.2f");
    }
    page.gap();
    changed |= lengthSlider(page, say("Datum Z, {}", unit), sliders_.datumZMm, {-1, 1, 0}, "%+.3f");
    double feed = 100 * sliders_.feed, rapid = 100 * sliders_.rapid, spindle = 100 * sliders_.spindle;
    changed |= slider(page, tr("Feed, %"), feed, {10, 150, 100}, "%.0f");
    changed |= slider(page, tr("Rapid, %"), rapid, {5, 100, 100}, "%.0f");
    changed |= slider(page, tr("Spindle, %"), spindle, {50, 120, 100}, "%.0f");
    sliders_.feed = feed / 100;
    sliders_.rapid = rapid / 100;
    sliders_.spindle = spindle / 100;
    if (changed) page.context().commands.add(TryChanges{sliders_});
}

void drawComparisonInShort(const Page& page, const Session& session) {
    drawInShort(page, session);
}

void drawComparison(const Page& page, const Session& session) {
    if (!session.showsChanges()) return;
    const Trial& after = *session.outcome->trial;
    const Trial& before = *session.asWritten->trial;
    const Comparison& c = *session.outcome->comparison;
    if (after.quickLook) page.quiet(tr("A quick look; the whole trial follows."));
    page.title(tr("Time and load"));
    page.plain(say("Cycle {} \u2192 {}: {}", clockTime(c.cycleBeforeS), clockTime(c.cycleAfterS),
                   timeChangeInWords(c.cycleBeforeS, c.cycleAfterS)));
    if (c.peakNBefore > 0 || c.peakNAfter > 0) {
        page.plain(say("Greatest cutting force {:.0f} \u2192 {:.0f} N, power {:.2f} \u2192 {:.2f} kW", c.peakNBefore,
                       c.peakNAfter, c.peakKwBefore, c.peakKwAfter));
    }
    drawSizes(page, after, c);
    drawFindings(page, before, after, c);
    page.title(tr("Surfaces that moved"));
    if (c.surfaces.empty()) page.quiet(tr("None."));
    for (std::size_t i = 0; i < std::min(kMostRows, c.surfaces.size()); ++i)
        page.plain(surfaceChangeInWords(after, c.surfaces[i], page.context().measures().lengthUnit()));
    if (c.surfaces.size() > kMostRows) page.quiet(say("and {} more", c.surfaces.size() - kMostRows));
}

void ChangesPane::draw(const PaneContext& context, const Rect& rect) {
    Page page(context, "changes", rect);
    const Session& session = context.session;
    if (!session.asWritten || !session.asWritten->trial) return page.quiet(tr("No trial yet."));
    sliders_ = session.whatIf;  // an edit, another job or the panel may have changed it
    const Trial& trial = *session.asWritten->trial;
    drawInShort(page, session);
    drawToolChoice(page, trial);
    drawSliders(page, trial);
    if (!session.whatIf.empty()) {
        page.indent();
        if (ImGui::Button(tr("Put all changes away"))) {
            sliders_ = {};
            context.commands.add(TryChanges{});
        }
    }
    if (!session.showsChanges()) {
        page.gap();
        page.quiet(
            tr("Draw a slider: sizes, time, load and findings follow at once. Nothing is written to the files."));
    }
    drawComparison(page, session);
}

}  // namespace firstoff::gui
