// What is drawn into the half-section.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "gui/block_words.h"
#include "gui/figures.h"
#include "gui/section/section_canvas.h"
#include "gui/section/section_words.h"
#include "sim/base/say.h"
#include "sim/base/told_apart.h"

namespace firstoff::gui {

namespace {

constexpr float kRuler = 18, kButtonsHigh = 40;
constexpr float kWide = 1.7f;
constexpr float kHatch = 7;      // px between hatch lines
constexpr float kNearPx = 0.4f;  // corners of a way nearer to each other than this are one

float apart(ImVec2 a, ImVec2 b) {
    return std::hypot(b.x - a.x, b.y - a.y);
}

// So sharply that one line with a mitred corner there would run out into a needle.
bool turnsBack(const std::vector<ImVec2>& points, ImVec2 next) {
    if (points.size() < 2) return false;
    const ImVec2 a = points[points.size() - 2], b = points.back();
    return (b.x - a.x) * (next.x - b.x) + (b.y - a.y) * (next.y - b.y) < -0.2f * apart(a, b) * apart(b, next);
}

}  // namespace

// A grid at round figures of the program's X and Z; `named`: their figures at the edges instead of the lines.
void SectionPane::drawGrid(const Canvas& canvas, bool named) const {
    const Palette& p = canvas.palette();
    const Rect& a = canvas.area;
    const Measures measures = canvas.context.measures();
    const double unitMm = measures.unitMm();
    const double step = unitMm * niceStep(canvas.px(64) / view_.scale() / unitMm);
    const Point low = view_.placeOf({a.x, a.bottom()}), high = view_.placeOf({a.right(), a.y});
    const ImFont* font = canvas.context.fonts.small;
    const auto name = [&](ImVec2 at, double value) {
        value = std::round(value / step) * step;
        const double shown = std::round(measures.of(value) * 1e6) / 1e6;
        std::string text = fmt::format("{:g}", shown == 0 ? 0.0 : shown);
        if (measures.inches() && shown == 0) text = measures.unit();  // said once, where nothing else need be read
        const float width = font->CalcTextSizeA(font->FontSize, 1e9f, 0, text.c_str()).x;
        canvas.list.AddRectFilled({at.x - 2, at.y}, {at.x + width + 2, at.y + font->FontSize}, ink(p.ground, 0.75f));
        canvas.list.AddText(font, font->FontSize, at, ink(p.quiet), text.c_str());
    };
    for (double z = std::ceil((low.z - datum_.z) / step) * step; z <= high.z - datum_.z; z += step) {
        const float x = std::round(view_.at({z + datum_.z, 0}).x);
        if (named) {
            name({x + canvas.px(3), a.bottom() - font->FontSize - canvas.px(2)}, z);
        } else {
            canvas.list.AddLine({x, a.y}, {x, a.bottom()}, ink(p.line, 0.35f));
        }
    }
    // The figures count across the axis, as the program does.
    for (double x = std::ceil(2 * (low.r - datum_.r) / step) * step; x <= 2 * (high.r - datum_.r); x += step) {
        const float y = std::round(view_.at({0, 0.5 * x + datum_.r}).y);
        if (named && y > a.y + canvas.px(kButtonsHigh)) {
            name({a.x + canvas.px(4), y + 1}, x);
        } else if (!named) {
            canvas.list.AddLine({a.x, y}, {a.right(), y}, ink(p.line, 0.35f));
        }
    }
}

// Body and jaws as far as their measures say; what grips inside is not drawn.
void SectionPane::drawChuck(const Canvas& canvas) const {
    const Chuck& chuck = trial_->setup.chuck;
    const Palette& p = canvas.palette();
    const double grip = cursor_ ? cursor_->outermostAt(0.5 * std::max(chuck.jawLength, 1.0)).outer : 0;
    const auto block = [&](double z0, double z1, double r0, double r1) {
        for (const double side : {1.0, -1.0}) {
            const ImVec2 a = view_.at({z0, side * r0}), b = view_.at({z1, side * r1});
            const ImVec2 from{std::min(a.x, b.x), std::min(a.y, b.y)}, to{std::max(a.x, b.x), std::max(a.y, b.y)};
            canvas.list.AddRectFilled(from, to, ink(mixed(p.panel, p.quiet, 0.30)));
            canvas.list.AddRect(from, to, ink(p.quiet, 0.8f), 0, 0, canvas.px(kNarrow));
        }
    };
    if (chuck.bodyRadius > 0 && chuck.bodyLength > 0)
        block(-chuck.bodyLength, 0, chuck.throughBoreRadius.value_or(grip), chuck.bodyRadius);
    if (chuck.grip == Chuck::Grip::Inside) return;
    if (chuck.steps.empty()) {
        if (chuck.jawLength > 0 && chuck.jawOuterRadius > grip) block(0, chuck.jawLength, grip, chuck.jawOuterRadius);
        return;
    }
    double from = grip;
    for (const Chuck::Step& step : chuck.steps) {
        if (step.radius > from) block(0, step.length, from, step.radius);
        from = std::max(from, step.radius);
    }
}

void SectionPane::drawStrips(const Canvas& canvas, const SectionView& view) const {
    const Palette& p = canvas.palette();
    const ImU32 cut = ink(mixed(p.panel, p.text, p.dark ? 0.16 : 0.07)),
                outside = ink(mixed(p.panel, p.text, p.dark ? 0.30 : 0.16));
    // Soft edges would leave seams between the strips.
    const ImDrawListFlags before = canvas.list.Flags;
    canvas.list.Flags &= ~ImDrawListFlags_AntiAliasedFill;
    for (const AreaStrip& s : shape_.strips) {
        canvas.list.AddQuadFilled(view.at({s.z0, s.low0}), view.at({s.z0, s.high0}), view.at({s.z1, s.high1}),
                                  view.at({s.z1, s.low1}), cut);
        // From outside: filled to the axis, since a bore is not seen.
        canvas.list.AddQuadFilled(view.at({s.z0, 0}), view.at({s.z0, -s.high0}), view.at({s.z1, -s.high1}),
                                  view.at({s.z1, 0}), outside);
    }
    canvas.list.Flags = before;
}

void SectionPane::drawBillet(const Canvas& canvas) const {
    const Palette& p = canvas.palette();
    drawStrips(canvas, view_);
    // Hatching stands still on screen while the view is shifted with it; its spacing is that of the screen.
    for (const SectionPiece& piece : shape_.pieces) {
        for (const auto& [a, b] : hatching(piece.loops, canvas.px(kHatch) / view_.scale()))
            canvas.list.AddLine(view_.at(a), view_.at(b), ink(p.quiet, 0.55f), canvas.px(kNarrow));
        for (const PlaneLoop& loop : piece.loops) {
            std::vector<ImVec2> points, below;
            for (const Point& at : loop) points.push_back(view_.at(at));
            gui::drawLine(canvas.list, points, canvas.pen(p.text, kWide), canvas.px(1), true);
        }
    }
    for (const auto& [surface, axis] : shape_.edges)
        canvas.list.AddLine(view_.at({surface.z, -surface.r}), view_.at(axis), ink(p.text, 0.7f), canvas.px(1.2f));
    for (const std::vector<Point>& line : shape_.silhouettes) {
        std::vector<ImVec2> points;
        for (const Point& at : line) points.push_back(view_.at({at.z, -at.r}));
        gui::drawLine(canvas.list, points, canvas.pen(p.text, kWide), canvas.px(1));
    }
}

void SectionPane::drawBlank(const Canvas& canvas) const {
    for (const SectionContour& contour : blank_) {
        std::vector<ImVec2> points;
        for (const Point& at : polyline(contour.outline, kChordPx / view_.scale())) points.push_back(view_.at(at));
        gui::drawLine(canvas.list, points, canvas.pen(canvas.palette().quiet, kNarrow, LineKind::DoubleChain),
                      canvas.px(1), true);
    }
}

void SectionPane::drawSound(const Canvas& canvas) const {
    for (const SectionContour& contour : sound_.contours()) {
        std::vector<ImVec2> points;
        for (const Point& at : polyline(contour.outline, kChordPx / view_.scale())) points.push_back(view_.at(at));
        gui::drawLine(canvas.list, points, canvas.pen(canvas.palette().accent, 1.8f, LineKind::Dashed), canvas.px(1),
                      true);
    }
}

void SectionPane::drawPaths(const Canvas& canvas) const {
    const Palette& p = canvas.palette();
    const Instant& now = *canvas.context.instant;
    const auto penOf = [&](const PathLine& line) {
        const bool rapid = line.motion == MotionClass::Rapid, lit = line.lit;
        if (line.of == PathLine::Of::NoseCentre) return canvas.pen(p.spindle, 1.2f, LineKind::Chain, lit ? 1.0f : 0.4f);
        if (line.of == PathLine::Of::Programmed)
            return canvas.pen(p.waiting, 1.6f, LineKind::Continuous, lit ? 1.0f : 0.5f);
        const float width = line.timed == now.timed ? 2.6f : lit ? 1.6f : 1.0f;
        return canvas.pen(rapid ? p.rapid : p.cutting, width, rapid ? LineKind::Dashed : LineKind::Continuous,
                          lit ? 1.0f : 0.35f);
    };
    // Lines that go on from each other are drawn as one, without corners that no eye tells apart: thousands of short
    // moves would be as many shapes.
    std::vector<ImVec2> points;
    const PathLine* last = nullptr;  // drawn into `points`
    const auto finish = [&] {
        if (last != nullptr) {
            const ImVec2 end = view_.at(last->to);
            if (points.size() > 1 && apart(points.back(), end) < kNearPx) points.pop_back();
            points.push_back(end);
            gui::drawLine(canvas.list, points, penOf(*last), canvas.px(1));
        }
        points.clear();
        last = nullptr;
    };
    for (const bool lit : {false, true}) {
        for (const PathLine& line : paths_.lines) {
            if (line.lit != lit) continue;
            const bool goesOn = last != nullptr && penOf(line) == penOf(*last) &&
                                penOf(line).kind == LineKind::Continuous && distance(last->to, line.from) < 1e-6;
            if (!goesOn) finish();
            for (const Point& at : alongLine(line, kChordPx / view_.scale())) {
                const ImVec2 place = view_.at(at);
                if (!points.empty() && apart(points.back(), place) < kNearPx) continue;
                if (last != nullptr && turnsBack(points, place)) {
                    const ImVec2 corner = points.back();
                    gui::drawLine(canvas.list, points, penOf(*last), canvas.px(1));
                    points = {corner};
                }
                points.push_back(place);
            }
            last = &line;
        }
        finish();
    }
}

void SectionPane::drawTool(const Canvas& canvas) const {
    const Instant& now = *canvas.context.instant;
    if (!now.hasMoves || now.nextStation != 0 || now.call->toolIndex < 0) return;
    const Palette& p = canvas.palette();
    const Tool& tool = trial_->setup.tools[static_cast<std::size_t>(now.call->toolIndex)];
    const Point tip = now.turretReference + now.call->tip;
    const auto outline = [&](const Outline& shape, Colour fill, float alpha, Colour edge, float width) {
        if (shape.empty()) return;
        std::vector<ImVec2> points;
        for (const Point& at : polyline(shape, kChordPx / view_.scale())) points.push_back(view_.at(at + tip));
        // Anticlockwise with r upwards is clockwise on screen, as the drawing library wants it for soft edges.
        canvas.list.AddConvexPolyFilled(points.data(), static_cast<int>(points.size()), ink(fill, alpha));
        gui::drawLine(canvas.list, points, canvas.pen(edge, width), canvas.px(1), true);
    };
    outline(tool.holder, p.raised, 0.75f, p.quiet, kNarrow);
    for (const Outline& step : tool.holderSteps) outline(step, p.raised, 0.75f, p.quiet, kNarrow);
    const Colour hue = toolHue(p, tool.station);
    outline(tool.cutting, hue, 0.85f, p.text, 1.3f);
    for (const Outline& step : tool.steps) outline(step, hue, 0.85f, p.text, 1.3f);
    // The imaginary tip: what the program moves.
    const ImVec2 at = view_.at(tip);
    const float arm = canvas.px(6);
    canvas.list.AddLine({at.x - arm, at.y}, {at.x + arm, at.y}, ink(p.text), canvas.px(1.2f));
    canvas.list.AddLine({at.x, at.y - arm}, {at.x, at.y + arm}, ink(p.text), canvas.px(1.2f));
}

// The drawn outline, and beside it the part's surface with its deviations magnified.
void SectionPane::drawDeviations(const Canvas& canvas) const {
    if (!deviations_ || deviations_->size() < 2) return;
    const Palette& p = canvas.palette();
    const double magnified = canvas.context.session.view.section.magnified;
    std::vector<ImVec2> outline, surface;
    const auto flush = [&] {
        gui::drawLine(canvas.list, outline, canvas.pen(p.accent, 1.4f), canvas.px(1));
        gui::drawLine(canvas.list, surface, canvas.pen(p.rapid, 1.6f, LineKind::Dashed), canvas.px(1));
        outline.clear();
        surface.clear();
    };
    const std::vector<OutlinePlace>& places = *deviations_;
    for (std::size_t i = 0; i < places.size(); ++i) {
        const Point before = places[i > 0 ? i - 1 : i].at, after = places[i + 1 < places.size() ? i + 1 : i].at;
        const Point d = after - before;
        // Contours follow each other in one list: a leap between them is no line.
        if (i > 0 && distance(before, places[i].at) > 5) flush();
        outline.push_back(view_.at(places[i].at));
        if (!places[i].off || length(d) == 0) continue;
        const Point outwards = (-1 / length(d)) * leftOf(d);
        const ImVec2 at = view_.at(places[i].at + (*places[i].off * magnified) * outwards);
        surface.push_back(at);
        canvas.list.AddLine(outline.back(), at, ink(p.rapid, 0.35f), 1);
    }
    flush();
}

void SectionPane::drawFeature(const Canvas& canvas, const SectionFeature& f, Colour colour, float width) const {
    if (f.kind == SectionFeature::Kind::Corner) {
        canvas.list.AddCircle(view_.at(f.from), canvas.px(5), ink(colour), 24, canvas.px(width));
        return;
    }
    PathLine line{f.from, f.to, f.centre, f.radius, false, PathLine::Of::Tip, MotionClass::Cutting, 0, false};
    if (f.kind == SectionFeature::Kind::Arc) {
        // The shorter way round: roundings turn through less than half.
        const Point a = f.from - f.centre, b = f.to - f.centre;
        line.clockwise = cross(a, b) < 0;
    }
    std::vector<ImVec2> points;
    for (const Point& at : alongLine(line, kChordPx / view_.scale())) points.push_back(view_.at(at));
    gui::drawLine(canvas.list, points, canvas.pen(colour, width), canvas.px(1));
}

void SectionPane::drawPicked(const Canvas& canvas) const {
    for (const SectionFeature& feature : picked_) drawFeature(canvas, feature, canvas.palette().accent, 3.5f);
    drawReadings(canvas);
}

// The main figure beside what was picked, with its line of dimension; the rest beneath it.
void SectionPane::drawReadings(const Canvas& canvas) const {
    const Palette& p = canvas.palette();
    const std::vector<FeatureReading> all = readings();
    if (all.empty()) return;
    const FeatureReading& main = all.front();
    ImVec2 a = view_.at(main.a), b = view_.at(main.b);
    if (main.kind == FeatureReading::Kind::Diameter) b = view_.at({main.a.z, -main.a.r});
    if (main.kind == FeatureReading::Kind::LengthAlong) b.y = a.y;
    if (main.kind == FeatureReading::Kind::WallApart || main.kind == FeatureReading::Kind::DiameterApart) b.x = a.x;
    const float way = std::hypot(b.x - a.x, b.y - a.y);
    if (way > 1) {
        const ImVec2 unit{(b.x - a.x) / way, (b.y - a.y) / way};
        canvas.list.AddLine(a, b, ink(p.accent), canvas.px(1.4f));
        drawArrow(canvas.list, b, unit, canvas.px(9), ink(p.accent));
        drawArrow(canvas.list, a, {-unit.x, -unit.y}, canvas.px(9), ink(p.accent));
    }
    const Fonts& fonts = canvas.context.fonts;
    std::vector<std::string> lines;
    for (const FeatureReading& reading : all) lines.push_back(readingInWords(reading, canvas.context.measures()));
    if (picked_.size() == 1 && isCutHere(picked_[0].cut)) {
        const TimedMove& timed = trial_->timeline.moves[picked_[0].cut];
        lines.push_back(say("cut by {}", blockTitle(*trial_, trial_->shownBlock(timed.move))));
    }
    if (picked_.size() == 1) lines.emplace_back(tr("pick another place to gauge between the two"));
    float width = 0, height = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        ImFont* font = i == 0 ? fonts.mono : fonts.small;
        width = std::max(width, font->CalcTextSizeA(font->FontSize, 1e9f, 0, lines[i].c_str()).x);
        height += font->FontSize + canvas.px(3);
    }
    const float pad = canvas.px(7);
    ImVec2 corner{0.5f * (a.x + b.x) + canvas.px(16), 0.5f * (a.y + b.y) - height - canvas.px(10)};
    corner.x =
        std::clamp(corner.x, canvas.area.x + pad, std::max(canvas.area.x + pad, canvas.area.right() - width - 3 * pad));
    corner.y = std::clamp(corner.y, canvas.area.y + canvas.px(kButtonsHigh),
                          std::max(canvas.area.y + canvas.px(kButtonsHigh), canvas.area.bottom() - height - 3 * pad));
    canvas.list.AddRectFilled(corner, {corner.x + width + 2 * pad, corner.y + height + 1.4f * pad}, ink(p.panel, 0.95f),
                              canvas.px(4));
    canvas.list.AddRect(corner, {corner.x + width + 2 * pad, corner.y + height + 1.4f * pad}, ink(p.accent),
                        canvas.px(4), 0, canvas.px(1.4f));
    float y = corner.y + 0.7f * pad;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        ImFont* font = i == 0 ? fonts.mono : fonts.small;
        canvas.list.AddText(font, font->FontSize, {std::round(corner.x + pad), std::round(y)},
                            ink(i == 0 ? p.text : p.quiet), lines[i].c_str());
        y += font->FontSize + canvas.px(3);
    }
}

// Exact coordinates under the mouse, of the feature there if one is near.
void SectionPane::drawHover(const Canvas& canvas) const {
    if (!canvas.hovered || ImGui::IsMouseDown(ImGuiMouseButton_Left)) return;
    const Palette& p = canvas.palette();
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    Point place = view_.placeOf(mouse);
    if (const auto feature = featureUnder(canvas, mouse)) {
        drawFeature(canvas, *feature, p.accent, 2);
        if (feature->kind == SectionFeature::Kind::Corner) place = feature->from;
    }
    const Point shown = place - datum_;
    const std::string text = canvas.context.measures().position(2 * shown.r, shown.z);
    ImFont* font = canvas.context.fonts.mono;
    const float width = font->CalcTextSizeA(font->FontSize, 1e9f, 0, text.c_str()).x, pad = canvas.px(6);
    const ImVec2 low{canvas.area.right() - width - 2 * pad - canvas.px(8), canvas.area.y + canvas.px(8)};
    canvas.list.AddRectFilled(low, {low.x + width + 2 * pad, low.y + font->FontSize + pad}, ink(p.panel, 0.9f),
                              canvas.px(3));
    canvas.list.AddText(font, font->FontSize, {std::round(low.x + pad), std::round(low.y + 0.5f * pad)}, ink(p.text),
                        text.c_str());
}

// What a lesson asked for: the place that was clicked, and the right one once it was told.
void SectionPane::drawPlaces(const Canvas& canvas) const {
    const Session& session = canvas.context.session;
    const float arm = canvas.px(9);
    const auto cross = [&](Point place, Colour colour, const char* name) {
        const ImVec2 at = view_.at(place);
        canvas.list.AddCircle(at, arm, ink(colour), 24, canvas.px(2));
        canvas.list.AddLine({at.x - 1.6f * arm, at.y}, {at.x + 1.6f * arm, at.y}, ink(colour), canvas.px(1.4f));
        canvas.list.AddLine({at.x, at.y - 1.6f * arm}, {at.x, at.y + 1.6f * arm}, ink(colour), canvas.px(1.4f));
        ImFont* font = canvas.context.fonts.small;
        canvas.list.AddText(font, font->FontSize, {at.x + arm, at.y - 2 * arm}, ink(colour), name);
    };
    if (session.clickedPlace) cross(*session.clickedPlace, canvas.palette().accent, tr("your answer"));
    if (session.rightPlace) cross(*session.rightPlace, canvas.palette().safe, tr("the tip"));
}

void SectionPane::drawButtons(const Canvas& canvas) {
    ViewSettings view = canvas.context.session.view;
    SectionSettings& s = view.section;
    ImGui::PushFont(canvas.context.fonts.small);
    ImGui::SetCursorScreenPos({canvas.area.x + canvas.px(10), canvas.area.y + canvas.px(8)});
    const auto toggle = [&](const char* text, bool lit, const char* tip) {
        if (lit) ImGui::PushStyleColor(ImGuiCol_Button, tint(canvas.palette().current));
        const bool clicked = ImGui::Button(text);
        if (lit) ImGui::PopStyleColor();
        if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tip);
        ImGui::SameLine(0, canvas.px(4));
        return clicked;
    };
    if (canvas.alone && toggle(tr("Picture"), false, tr("The picture of the lathe in its place (5)")))
        s.shown = SectionSettings::Shown::PictureOnly;
    if (toggle(afterBar(tr("bar|All")), false, tr("Show the whole bar (right double-click)"))) fitWanted_ = true;
    if (toggle(tr("Ways"), s.paths,
               tr("Ways of the tool that is called; the running cycle or block is strong, rapid is dashed; "
                  "under compensation the nose's centre in chain lines beside the contour")))
        s.paths = !s.paths;
    if (toggle(tr("Sizes"), s.sizes, tr("The sizes of the finished part, as gauged"))) s.sizes = !s.sizes;
    if (toggle(tr("Drawing"), s.drawing,
               tr("The drawn outline, and beside it the finished part with its deviations magnified")))
        s.drawing = !s.drawing;
    if (s.drawing) {
        const std::string times = fmt::format("× {}", s.magnified);
        if (toggle((times + "###magnified").c_str(), false, tr("How much deviations are magnified")))
            s.magnified = s.magnified >= 500   ? 1
                          : s.magnified >= 100 ? 500
                          : s.magnified >= 50  ? 100
                          : s.magnified >= 10  ? 50
                                               : 10;
    }
    if (!(view == canvas.context.session.view)) canvas.context.commands.add(ChangeView{view});
    ImGui::PopFont();
}

// What is not as it looks.
void SectionPane::drawRemarks(const Canvas& canvas) const {
    const SectionSettings& s = canvas.context.session.view.section;
    std::vector<std::string> lines;
    if (s.paths && paths_.cutShort) lines.emplace_back(tr("Only part of this tool's way is drawn."));
    if (s.sizes && trial_->gauged.dimensions.empty()) lines.emplace_back(tr("The set-up gives no sizes."));
    if (s.sizes && !trial_->gauged.dimensions.empty())
        lines.emplace_back(tr("Sizes as they are at the end of the cycle."));
    if (s.drawing && trial_->gauged.outline.empty()) lines.emplace_back(tr("The set-up gives no drawn outline."));
    if (s.drawing && deviations_) lines.push_back(say("Dashed: the finished part, deviations × {}.", s.magnified));
    if (sound_.there())
        lines.emplace_back(tr("Dashed: the part of the job as it is written, at the same place of the program."));
    if (lines.empty()) return;
    ImFont* font = canvas.context.fonts.small;
    float y = canvas.area.bottom() - canvas.px(kRuler) - static_cast<float>(lines.size()) * (font->FontSize + 3);
    for (const std::string& line : lines) {
        const float width = font->CalcTextSizeA(font->FontSize, 1e9f, 0, line.c_str()).x;
        const float x = canvas.area.right() - width - canvas.px(12);
        canvas.list.AddRectFilled({x - 4, y - 1}, {x + width + 4, y + font->FontSize + 2},
                                  ink(canvas.palette().ground, 0.8f));
        canvas.list.AddText(font, font->FontSize, {std::round(x), std::round(y)}, ink(canvas.palette().quiet),
                            line.c_str());
        y += font->FontSize + 3;
    }
}

}  // namespace firstoff::gui
