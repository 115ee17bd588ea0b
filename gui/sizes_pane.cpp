#include "gui/sizes_pane.h"

#include <fmt/format.h>

#include <cmath>

#include "gui/size_words.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/inspection/correction_words.h"
#include "sim/output/gauge_report.h"
#include "sim/output/tables.h"

namespace firstoff::gui {

namespace {

// Where in its limits a size lies: a scale with the limits at its ends, the middle marked, the size as a wedge.
void drawScale(const PaneContext& context, const GaugedDimension& d, ImVec2 at, float width, Colour hue) {
    ImDrawList& list = *ImGui::GetWindowDrawList();
    const Palette& palette = context.palette;
    const float y = at.y + context.px(7), left = at.x + 0.2f * width, right = at.x + 0.8f * width;
    list.AddLine({left, y}, {right, y}, ink(palette.quiet), context.px(1.5f));
    for (const float x : {left, 0.5f * (left + right), right})
        list.AddLine({x, y - context.px(3)}, {x, y + context.px(3)}, ink(palette.quiet), 1);
    if (d.state == GaugedDimension::State::NotFound || !(d.most > d.least)) return;
    const double share = (d.expected() - d.least) / (d.most - d.least);
    const float x = left + static_cast<float>(std::clamp(share, -0.33, 1.33)) * (right - left);
    const float w = context.px(4);
    list.AddTriangleFilled({x, y - 1}, {x - w, y - context.px(7)}, {x + w, y - context.px(7)}, ink(hue));
}

void drawRow(Page& page, const Trial& trial, const GaugedDimension& d, std::size_t number) {
    const PaneContext& context = page.context();
    const Measures measures = context.measures();
    const bool within = d.state == GaugedDimension::State::Within;
    const bool missing = d.state == GaugedDimension::State::NotFound;
    const Colour hue = within    ? context.palette.safe
                       : missing ? context.palette.unproven
                                 : context.palette.severity[static_cast<std::size_t>(Severity::Warning)];
    std::string below;
    if (missing) {
        below = d.trouble;
    } else {
        below = say("{} to {}, {}", sizeFigure(d, d.least, measures), sizeFigure(d, d.most, measures),
                    stateInWords(d.state));
        if (d.block != kNoBlock) below += ", " + trial.program.lineName(d.block);
        if (std::isnan(d.bending)) {
            if (!d.bendingNote.empty() && trial.gauged.bendingKnown) {
                below += '\n';
                below += say("Bending not counted: {}", d.bendingNote);
            }
        } else if (std::abs(d.expected() - d.measured) >= 0.0005) {
            below += '\n';
            below += say("{} by the path of the tool, bending {}", sizeTold(d, d.measured, measures),
                         bendingTold(d, measures));
        }
        if (const std::string ends = endsTold(trial, d, measures); !ends.empty()) below += "\n" + ends;
        if (!within && !d.noCorrection.empty()) below += "\n" + d.noCorrection;
    }
    const float figures = context.px(88), scale = context.px(84);
    const float room = std::max(page.width() - context.px(22), context.px(60));
    below = wrapped(*context.fonts.small, room, below);
    const float line = context.fonts.small->FontSize;
    const float height = line + heightOf(*context.fonts.small, below) + context.px(8);
    ImGui::PushID(static_cast<int>(number));
    ImGui::SetCursorPosX(0);
    const bool clicked = ImGui::Selectable("##row", false, 0, {0, height});
    const bool hovered = ImGui::IsItemHovered();
    const ImVec2 at = ImGui::GetItemRectMin();
    ImGui::PopID();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    ImFont* font = context.fonts.small;
    const float top = at.y + context.px(3), left = at.x + page.pad();
    const std::string balloon = fmt::format("{}", number + 1);
    const ImVec2 centre{left + context.px(8), top + 0.5f * line};
    list.AddCircle(centre, context.px(9), ink(hue), 24, context.px(1.5f));
    const float half = 0.5f * font->CalcTextSizeA(line, 1e9f, 0, balloon.c_str()).x;
    list.AddText(font, line, {centre.x - half, top}, ink(context.palette.text), balloon.c_str());
    const float x = left + context.px(22), end = at.x + page.pad() + page.width();
    const std::string shownName = fitted(*font, end - figures - scale - context.px(4) - x, d.name);
    list.AddText(font, line, {x, top}, ink(context.palette.text), shownName.c_str());
    if (hovered && shownName != d.name) ImGui::SetTooltip("%s", d.name.c_str());
    drawScale(context, d, {end - figures - scale, top}, scale, hue);
    const std::string measured = missing ? "-" : sizeTold(d, d.expected(), measures);
    list.AddText(font, line, {end - font->CalcTextSizeA(line, 1e9f, 0, measured.c_str()).x, top},
                 ink(context.palette.text), measured.c_str());
    list.AddText(font, line, {x, top + line + context.px(2)},
                 ink(within ? context.palette.quiet : context.palette.text), below.c_str());
    if (clicked && d.block != kNoBlock && trial.program.isOwn(d.block)) context.commands.add(SelectLine{d.block, true});
}

// One line for each entry of the offset page, so that nobody keys in two of one.
void drawCorrections(Page& page, const Trial& trial) {
    const GaugedPart& part = trial.gauged;
    if (part.corrections.empty()) return;
    // As the offset page of the set-up takes it.
    const bool inches = page.context().measures().inches();
    page.title(inches ? tr("Key in, X on diameter, in mm") : tr("Key in, X on diameter"));
    for (const OffsetCorrection& c : part.corrections) {
        const std::string words = correctionInWords(part, c);
        if (c.possible) {
            page.plain(words);
        } else {
            page.words(words, warningInk(page.context(), Severity::Warning));
        }
        const std::string also = alsoMovedInWords(trial.gauged, c, sectionDatum(trial));
        if (!also.empty()) page.quiet(also);
    }
}

void drawDeviations(Page& page, const Trial& trial) {
    const GaugedPart& part = trial.gauged;
    if (part.outline.empty()) return;
    const Measures measures = page.context().measures();
    page.title(tr("Against the drawn outline"));
    if (part.deviations.empty()) {
        page.plain(say("Nowhere further off than {}.", told(measures.length(part.deviationBandMm))));
        return;
    }
    for (const ContourDeviation& d : part.deviations) {
        const std::string much = told(measures.length(std::abs(d.amountMm))), x = measures.length(2 * d.place.r).value;
        std::string text = d.amountMm > 0 ? say("{} left on at X{}", much, x) : say("{} missing at X{}", much, x);
        if (d.block != kNoBlock) text += ", " + trial.program.lineName(d.block);
        page.words(text, warningInk(page.context(), Severity::Warning));
    }
}

}  // namespace

void SizesPane::draw(const PaneContext& context, const Rect& rect) {
    Page page(context, "sizes", rect);
    const Trial* trial = context.session.trial();
    if (!trial) return page.quiet(tr("No trial yet."));
    const GaugedPart& part = trial->gauged;
    if (part.dimensions.empty() && part.outline.empty()) {
        return page.plain(
            tr("The set-up gives no drawing: no sizes to hold the part against. Add [[dimension]] tables, a "
               "DXF half-section or the line of the finishing cycle under [drawing]."));
    }
    for (std::size_t i = 0; i < part.dimensions.size(); ++i) drawRow(page, *trial, part.dimensions[i], i);
    drawCorrections(page, *trial);
    drawDeviations(page, *trial);
    if (!part.assumed.empty()) page.title(tr("Taken for granted"));
    for (const std::string& sentence : part.assumed) page.quiet(sentence);
    page.quiet(part.bendingKnown
                   ? tr("Sizes to be expected of the simulated part, with what part and bar give way. What "
                        "wears, warms up and is gauged wrong is not in them.")
                   : tr("Sizes of the simulated part. What springs, wears, warms up and is gauged wrong is "
                        "not in them."));
}

}  // namespace firstoff::gui
