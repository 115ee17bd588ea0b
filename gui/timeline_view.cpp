#include "gui/timeline_view.h"

#include <algorithm>
#include <cmath>

#include "gui/block_words.h"
#include "gui/figures.h"
#include "gui/timeline_canvas.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr float kLabels = 66;  // width of the lane labels, at least
constexpr const char* kLaneNames[] = {later("Tool"), later("Motion"),  later("Spindle"),   later("Load"),
                                      later("Grip"), later("Bending"), later("Clearance"), later("Findings")};
constexpr float kRuler = 20;
constexpr float kBar = 8;  // overview and scroll bar under the lanes
constexpr float kFoldedShare = 0.07f;
constexpr double kZoomPerNotch = 1.25;

ImVec2 clampPoint(float x, float y) {
    return {std::round(x), std::round(y)};
}

// In every language.
float labelWidth(const PaneContext& context) {
    const ImFont& font = *context.fonts.small;
    float widest = context.px(kLabels);
    for (const char* name : kLaneNames) {
        const float width = font.CalcTextSizeA(font.FontSize, 1e9f, 0, tr(name)).x;
        widest = std::max(widest, width + context.px(16));
    }
    return std::round(widest);
}

void drawNothing(const PaneContext& context, const char* why) {
    ImGui::SetCursorPos({context.px(12), context.px(10)});
    ImGui::PushStyleColor(ImGuiCol_Text, tint(context.palette.quiet));
    ImGui::TextUnformatted(why);
    ImGui::PopStyleColor();
}

void clippedText(ImDrawList& list, ImFont* font, const Rect& box, Colour colour, const std::string& text) {
    const ImVec4 clip{box.x, box.y, box.right(), box.bottom()};
    const float y = box.y + 0.5f * (box.h - font->FontSize);
    list.AddText(font, font->FontSize, clampPoint(box.x, y), ink(colour), text.c_str(), nullptr, 0, &clip);
}

void tellFindings(const PaneContext& context, const Trial& trial, const std::vector<FindingMark>& marks,
                  const FindingRecord& record) {
    constexpr std::uint32_t kMost = 4;
    ImGui::BeginTooltip();
    const std::uint32_t shown = std::min(record.last, record.first + kMost);
    for (std::uint32_t i = record.first; i < shown; ++i) {
        const Finding& finding = trial.findings[marks[i].finding];
        const std::string text = lineTitle(marks[i].line) + finding.message;
        ImGui::TextUnformatted(wrapped(*context.fonts.text, context.px(380), text).c_str());
    }
    if (record.last > shown) ImGui::TextDisabled("%s", say("and {} more here", record.last - shown).c_str());
    ImGui::EndTooltip();
}

Colour motionColour(const Palette& palette, MotionClass kind) {
    switch (kind) {
        case MotionClass::Cutting:
            return palette.cutting;
        case MotionClass::Rapid:
            return palette.rapid;
        case MotionClass::Waiting:
            return palette.waiting;
    }
    return palette.quiet;
}

// Cutting fills the lane, rapids run as a band in its middle, waiting lies at the bottom: told apart without colour
// too.
Rect motionBand(const Rect& lane, MotionClass kind) {
    switch (kind) {
        case MotionClass::Cutting:
            return {lane.x, lane.y + 0.08f * lane.h, lane.w, 0.84f * lane.h};
        case MotionClass::Rapid:
            return {lane.x, lane.y + 0.38f * lane.h, lane.w, 0.24f * lane.h};
        case MotionClass::Waiting:
            return {lane.x, lane.y + 0.80f * lane.h, lane.w, 0.14f * lane.h};
    }
    return lane;
}

}  // namespace

void TimelineView::draw(const PaneContext& context, const Rect& rect, bool lanesFolded) {
    const PaneFrame frame("timeline", rect, context, 0, false);
    const Trial* trial = context.session.trial();
    if (!trial || trial->timeline.cycleTimeS <= 0) {
        drawNothing(context, trial ? tr("Nothing in this program takes time.") : tr("No trial yet."));
        return;
    }
    const float labels = labelWidth(context);
    const float bar = context.px(kBar);
    const Rect area{rect.x + labels, rect.y, rect.w - labels - context.px(10), rect.h - bar - context.px(6)};
    if (area.w < context.px(40) || area.h < context.px(24)) return;
    ImGui::SetCursorScreenPos({area.x, area.y});
    ImGui::InvisibleButton(
        "lanes", {area.w, area.h},
        ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight | ImGuiButtonFlags_MouseButtonMiddle);
    const Canvas canvas{context,
                        *trial,
                        *context.session.index(),
                        *ImGui::GetWindowDrawList(),
                        rect,
                        area,
                        {area.x, area.y, area.w, context.px(kRuler)},
                        ImGui::IsItemHovered(),
                        ImGui::IsItemActive()};
    shownS_ = context.session.timeS;
    fit(canvas);
    follow(canvas);
    handleMouse(canvas);
    takeRecords(canvas);
    drawRuler(canvas);
    drawLoop(canvas);
    drawBookmarks(canvas);
    drawLanes(canvas, lanesFolded);
    drawScrollbar(canvas, {area.x, area.bottom() + context.px(2), area.w, bar});
    if (canvas.hovered && !scrubbing_ && !panning_) hover(canvas);
}

// After a new trial or a window dragged wider: the whole stays in view if the whole was in view.
void TimelineView::fit(const Canvas& canvas) {
    const double cycle = canvas.trial.timeline.cycleTimeS;
    const bool whole = cycleS_ <= 0 || window_.width / window_.pxPerSecond >= cycleS_ * (1 - 1e-9);
    window_.width = canvas.area.w;
    cycleS_ = cycle;
    if (whole) window_.pxPerSecond = canvas.area.w / cycle;
    window_ = bounded(window_, cycle);
}

void TimelineView::takeRecords(const Canvas& canvas) {
    const std::shared_ptr<const TrialOutcome>& outcome = canvas.context.session.outcome;
    if (outcome == recordsOf_ && window_ == recordsIn_) return;
    recordsOf_ = outcome;
    recordsIn_ = window_;
    records_ = laneRecords(canvas.trial, canvas.index, window_);
}

// The lanes from the top: name, share of the height beside the others, share when folded (0: left out), what draws it,
// where it stands while it is drawn. Grip and bending have one where they are known.
void TimelineView::drawLanes(const Canvas& canvas, bool folded) {
    struct Lane {
        const char* name;
        float share, foldedShare;
        void (TimelineView::*draw)(const Canvas&, const Rect&);
        Rect TimelineView::*place = nullptr;
    };
    static constexpr Lane kLanes[] = {
        {kLaneNames[0], 0.16f, 0, &TimelineView::drawTools},
        {kLaneNames[1], 0.13f, 0.5f, &TimelineView::drawMotion},
        {kLaneNames[2], 0.17f, 0, &TimelineView::drawSpindle},
        {kLaneNames[3], 0.18f, 0, &TimelineView::drawLoad, &TimelineView::loadLane_},
        {kLaneNames[4], 0.15f, 0, &TimelineView::drawGrip, &TimelineView::gripLane_},
        {kLaneNames[5], 0.15f, 0, &TimelineView::drawBending, &TimelineView::bendingLane_},
        {kLaneNames[6], 0.20f, 0, &TimelineView::drawClearance, &TimelineView::clearanceLane_},
        {kLaneNames[7], 0.16f, 0.5f, &TimelineView::drawFindings},
    };
    const LoadIndex& load = canvas.index.load();
    const auto shareOf = [&](const Lane& lane) {
        if (lane.draw == &TimelineView::drawGrip && !load.grip().known()) return 0.0f;
        if (lane.draw == &TimelineView::drawBending && !load.bending().known()) return 0.0f;
        if (folded) return lane.foldedShare;
        return foldedByHand(canvas, lane.name) ? kFoldedShare : lane.share;
    };
    float shares = 0;
    for (const Lane& lane : kLanes) shares += shareOf(lane);
    const PaneContext& context = canvas.context;
    ImFont* font = context.fonts.small;
    float y = canvas.ruler.bottom();
    const float room = canvas.area.bottom() - y;
    hoveredFinding_ = nullptr;
    clearanceLane_ = loadLane_ = gripLane_ = bendingLane_ = {};
    hoversEncounter_ = false;
    for (const Lane& lane : kLanes) {
        const float height = room * shareOf(lane) / shares;
        if (height <= 0) continue;
        canvas.list.AddLine({canvas.pane.x, y}, {canvas.pane.right(), y}, ink(context.palette.line, 0.6f));
        const bool narrow = !folded && foldedByHand(canvas, lane.name);
        if (!folded) clickLabel(canvas, lane.name, y, height);
        if (height > 0.8f * font->FontSize)
            canvas.list.AddText(font, font->FontSize,
                                clampPoint(canvas.pane.x + context.px(10), y + 0.5f * (height - font->FontSize)),
                                ink(context.palette.quiet), tr(lane.name));
        if (lane.draw == &TimelineView::drawFindings) drawScrubber(canvas);  // over the others, but under these
        if (lane.place) this->*lane.place = {canvas.area.x, y, canvas.area.w, height};
        canvas.list.PushClipRect({canvas.area.x, canvas.area.y}, {canvas.area.right(), canvas.area.bottom()}, true);
        if (!narrow || lane.draw == &TimelineView::drawMotion || lane.draw == &TimelineView::drawTools)
            (this->*lane.draw)(canvas, {canvas.area.x, y + context.px(2), canvas.area.w, height - context.px(3)});
        canvas.list.PopClipRect();
        y += height;
    }
}

// Keeps the scrubber in sight while time runs by itself or is sent elsewhere.
void TimelineView::follow(const Canvas& canvas) {
    const double timeS = canvas.context.session.timeS;
    const bool moved = timeS != lastTimeS_;
    lastTimeS_ = timeS;
    if (!moved || scrubbing_ || panning_) return;
    const double at = window_.x(timeS);
    if (at >= 0 && at <= window_.width) return;
    window_.from = timeS - 0.1 * window_.width / window_.pxPerSecond;
    window_ = bounded(window_, cycleS_);
}

void TimelineView::handleMouse(const Canvas& canvas) {
    const ImGuiIO& io = ImGui::GetIO();
    const double mouse = io.MousePos.x - canvas.area.x;
    if (canvas.hovered && io.MouseWheel != 0 && !io.KeyShift) {
        const double under = window_.time(mouse);
        window_.pxPerSecond *= std::pow(kZoomPerNotch, io.MouseWheel);
        window_ = bounded(window_, cycleS_);
        window_.from = under - mouse / window_.pxPerSecond;
    }
    const float sideways = io.MouseWheelH + (io.KeyShift ? io.MouseWheel : 0);
    if (canvas.hovered && sideways != 0) window_.from -= sideways * 60 / window_.pxPerSecond;
    if (canvas.active && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
        looping_ = io.KeyShift;
        scrubbing_ = !looping_;
        loopFromS_ = std::clamp(window_.time(mouse), 0.0, cycleS_);
    }
    if (canvas.hovered && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) zoomToBlock(canvas, window_.time(mouse));
    if (looping_) {
        const double here = std::clamp(window_.time(mouse), 0.0, cycleS_);
        canvas.context.commands.add(LoopSpan{std::min(loopFromS_, here), std::max(loopFromS_, here)});
        looping_ = ImGui::IsMouseDown(ImGuiMouseButton_Left);
    }
    const bool panButton = ImGui::IsMouseDown(ImGuiMouseButton_Right) || ImGui::IsMouseDown(ImGuiMouseButton_Middle);
    panning_ = canvas.active && panButton;
    if (panning_) window_.from -= io.MouseDelta.x / window_.pxPerSecond;
    if (!ImGui::IsMouseDown(ImGuiMouseButton_Left)) scrubbing_ = false;
    if (scrubbing_ && !panning_) {
        // Held beyond an edge, the lanes run on under the mouse.
        if (mouse < 0) window_.from += 0.2 * mouse / window_.pxPerSecond;
        if (mouse > window_.width) window_.from += 0.2 * (mouse - window_.width) / window_.pxPerSecond;
        window_ = bounded(window_, cycleS_);
        shownS_ = std::clamp(window_.time(mouse), 0.0, cycleS_);
        canvas.context.commands.add(Seek{shownS_});
    }
    if (canvas.hovered && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Right)) window_.pxPerSecond = 0;
    window_ = bounded(window_, cycleS_);
}

void TimelineView::drawRuler(const Canvas& canvas) const {
    const Palette& palette = canvas.palette();
    const PaneContext& context = canvas.context;
    ImFont* font = context.fonts.small;
    const double step = tickStep(window_, context.px(74));
    const float overhang = context.px(6);  // half a mark may stand over the ends
    canvas.list.PushClipRect({canvas.area.x - overhang, canvas.area.y},
                             {canvas.area.right() + overhang, canvas.area.bottom()}, true);
    for (double tick = std::ceil(window_.from / step) * step; tick <= window_.to(); tick += step) {
        const float x = std::round(canvas.x(window_.x(tick)));
        canvas.list.AddLine({x, canvas.ruler.y + context.px(12)}, {x, canvas.ruler.bottom()}, ink(palette.quiet));
        canvas.list.AddLine({x, canvas.ruler.bottom()}, {x, canvas.area.bottom()}, ink(palette.line, 0.35f));
        canvas.list.AddText(font, font->FontSize, {x + context.px(4), canvas.ruler.y + context.px(3)},
                            ink(palette.quiet), tickTime(tick, step).c_str());
    }
    for (const StopMark& stop : canvas.index.stops()) {
        const float x = std::round(canvas.x(window_.x(stop.timeS)));
        if (x < canvas.area.x - 8 || x > canvas.area.right() + 8) continue;
        const float y = canvas.ruler.bottom();
        const float half = context.px(4);
        canvas.list.AddTriangleFilled({x - half, y - 2 * half}, {x + half, y - 2 * half}, {x, y}, ink(palette.text));
        canvas.list.AddLine({x, y}, {x, canvas.area.bottom()}, ink(palette.text, 0.45f));
    }
    canvas.list.PopClipRect();
}

// The block there fills the lanes, with a little of its neighbours.
void TimelineView::zoomToBlock(const Canvas& canvas, double timeS) {
    const Trial& trial = canvas.trial;
    if (trial.toolpath.steps.empty()) return;
    const std::size_t step = trial.stepAt(std::clamp(timeS, 0.0, cycleS_));
    const double from = trial.startOfStep(step), to = trial.startOfStep(nextStepWithWords(trial, step));
    const double length = std::max(to - from, 1e-3);
    window_.pxPerSecond = window_.width / (1.4 * length);
    window_.from = from - 0.2 * length;
    window_ = bounded(window_, cycleS_);
}

// The stretch that is looped, with its ends in the ruler.
void TimelineView::drawLoop(const Canvas& canvas) const {
    const auto& loop = canvas.context.session.loop;
    if (!loop) return;
    const float x0 = std::max(canvas.area.x, canvas.x(window_.x(loop->fromS)));
    const float x1 = std::min(canvas.area.right(), canvas.x(window_.x(loop->toS)));
    if (x1 < x0) return;
    const Colour hue = canvas.palette().accent;
    const float y = canvas.ruler.y, thick = canvas.context.px(3);
    canvas.list.AddRectFilled({x0, y}, {x1, canvas.area.bottom()}, ink(hue, 0.08f));
    canvas.list.AddRectFilled({x0, y}, {x1, y + thick}, ink(hue));
    for (const float x : {x0, x1})
        canvas.list.AddRectFilled({x - 0.5f * thick, y}, {x + 0.5f * thick, canvas.ruler.bottom()}, ink(hue));
}

void TimelineView::drawBookmarks(const Canvas& canvas) const {
    const float high = canvas.context.px(11), wide = canvas.context.px(7);
    const Session& session = canvas.context.session;
    const LineShift since = session.document.shiftSince(session.outcome->revision);
    for (const std::size_t line : session.bookmarks) {
        const std::size_t then = since.then(line);
        if (then == LineShift::kGone) continue;
        const auto block = static_cast<BlockId>(then);
        if (std::isnan(canvas.index.doneAt(block))) continue;  // never runs
        const float x = std::round(canvas.x(window_.x(canvas.trial.startOfBlock(block))));
        if (x < canvas.area.x - wide || x > canvas.area.right() + wide) continue;
        const float y = canvas.ruler.y + canvas.context.px(1);
        // A ribbon with a notch at its foot.
        const ImU32 colour = ink(canvas.palette().waiting);
        canvas.list.AddRectFilled({x - wide / 2, y}, {x + wide / 2, y + high}, colour);
        canvas.list.AddTriangleFilled({x - wide / 2, y + high}, {x, y + high - wide / 2}, {x + wide / 2, y + high},
                                      ink(canvas.palette().panel));
        canvas.list.AddLine({x, y + high}, {x, canvas.area.bottom()}, ink(canvas.palette().waiting, 0.5f));
    }
}

bool TimelineView::foldedByHand(const Canvas& canvas, const char* lane) const {
    const std::vector<std::string>& folded = canvas.context.session.view.foldedLanes;
    return std::find(folded.begin(), folded.end(), lane) != folded.end();
}

// A click on the name of a lane folds it to a narrow strip, another unfolds it.
void TimelineView::clickLabel(const Canvas& canvas, const char* lane, float y, float height) const {
    ImGui::SetCursorScreenPos({canvas.pane.x, y});
    ImGui::PushID(lane);
    const bool clicked = ImGui::InvisibleButton("label", {canvas.area.x - canvas.pane.x, std::max(height, 1.0f)});
    const bool hovered = ImGui::IsItemHovered();
    ImGui::PopID();
    const std::string tip =
        foldedByHand(canvas, lane) ? say("{}: a click unfolds it", tr(lane)) : say("{}: a click folds it", tr(lane));
    if (hovered) ImGui::SetTooltip("%s", tip.c_str());
    if (!clicked) return;
    ViewSettings view = canvas.context.session.view;
    if (std::erase(view.foldedLanes, lane) == 0) view.foldedLanes.emplace_back(lane);
    canvas.context.commands.add(ChangeView{view});
}

void TimelineView::drawTools(const Canvas& canvas, const Rect& lane) {
    const std::vector<ToolSpan>& spans = canvas.index.toolSpans();
    auto span =
        std::partition_point(spans.begin(), spans.end(), [&](const ToolSpan& s) { return s.t1 <= window_.from; });
    float drawnTo = -1;
    for (; span != spans.end() && span->t0 < window_.to(); ++span) {
        const float x0 = std::max(0.0f, static_cast<float>(window_.x(span->t0)));
        const float x1 = static_cast<float>(std::min(window_.width, window_.x(span->t1)));
        if (span->station == 0 || x1 < drawnTo + 1) continue;  // less than a pixel past the last one
        drawnTo = x1;
        const Colour hue = toolHue(canvas.palette(), span->station);
        const Colour ground = mixed(canvas.palette().panel, hue, 0.28);
        const ImVec2 low{canvas.x(x0), lane.y};
        const ImVec2 high{std::max(canvas.x(x0) + 1, canvas.x(x1) - 1), lane.bottom()};
        canvas.list.AddRectFilled(low, high, ink(ground), canvas.context.px(2));
        const ImVec2 markHigh{std::min(low.x + canvas.context.stroke(4), high.x), high.y};
        canvas.list.AddRectFilled(low, markHigh, ink(hue));
        if (needsOutline(canvas.palette(), hue)) canvas.list.AddRect(low, markHigh, ink(canvas.palette().text));
        const float inset = canvas.context.px(8);
        if (high.x - low.x < canvas.context.px(20)) continue;
        const Rect box{low.x + inset, lane.y, high.x - low.x - inset, lane.h};
        clippedText(canvas.list, canvas.context.fonts.small, box, legible(canvas.palette().text, ground, 4.5),
                    toolTitle(canvas.trial, span->call));
    }
}

void TimelineView::drawMotion(const Canvas& canvas, const Rect& lane) {
    const auto bar = [&](float x0, float x1, MotionClass kind, float share) {
        Rect band = motionBand(lane, kind);
        if (kind == MotionClass::Cutting) {
            band.y += band.h * (1 - share);
            band.h *= share;
        }
        const float right = x1 - x0 > 4 ? x1 - 1 : x1;
        canvas.list.AddRectFilled({canvas.x(x0), band.y}, {canvas.x(right), band.bottom()},
                                  ink(motionColour(canvas.palette(), kind)));
    };
    for (const MotionRecord& record : records_.motion) {
        if (!record.folded) {
            bar(record.x0, record.x1, record.kind, 1);
            continue;
        }
        // Folded: the cutting share as height, the others where they have any.
        if (record.waiting > 0.02f) bar(record.x0, record.x1, MotionClass::Waiting, 1);
        if (record.cutting > 0.02f) bar(record.x0, record.x1, MotionClass::Cutting, record.cutting);
        if (record.rapid > 0.02f) bar(record.x0, record.x1, MotionClass::Rapid, 1);
    }
}

void TimelineView::drawSpindle(const Canvas& canvas, const Rect& lane) {
    const double top = canvas.index.maxRevPerMin() * 1.08;
    if (top <= 0) return;
    const Colour hue = canvas.palette().spindle;
    const auto y = [&](float rpm) { return lane.bottom() - static_cast<float>(rpm / top) * lane.h; };
    for (const SpindleRecord& record : records_.spindle) {
        const float x0 = canvas.x(record.x0);
        const float x1 = canvas.x(record.x1);
        if (record.folded) {
            canvas.list.AddRectFilled({x0, y(record.end)}, {x1, lane.bottom()}, ink(hue, 0.22f));
            canvas.list.AddRectFilled({x0, y(record.end)}, {x1, std::max(y(record.start), y(record.end) + 1)},
                                      ink(hue));
            continue;
        }
        if (record.start <= 0 && record.end <= 0) continue;
        canvas.list.AddQuadFilled({x0, y(record.start)}, {x1, y(record.end)}, {x1, lane.bottom()}, {x0, lane.bottom()},
                                  ink(hue, 0.22f));
        canvas.list.AddLine({x0, y(record.start)}, {x1, y(record.end)}, ink(hue), canvas.context.stroke(1.5f));
    }
    ImFont* font = canvas.context.fonts.small;
    const std::string label = say("{} rev/min", wholeNumber(canvas.index.maxRevPerMin()));
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9f, 0, label.c_str());
    const ImVec2 at{lane.right() - size.x - canvas.context.px(4), lane.y};
    canvas.list.AddRectFilled({at.x - 3, at.y}, {at.x + size.x + 3, at.y + size.y}, ink(canvas.palette().panel, 0.8f),
                              3);
    canvas.list.AddText(font, font->FontSize, clampPoint(at.x, at.y), ink(canvas.palette().quiet), label.c_str());
}

void TimelineView::drawFindings(const Canvas& canvas, const Rect& lane) {
    const float size = std::min(canvas.context.px(14), lane.h - 2);
    const float y = lane.y + 0.5f * lane.h;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const std::vector<FindingMark>& marks = canvas.index.findingsByTime();
    for (const FindingRecord& record : findingRecords(canvas.index, window_, size * 0.9)) {
        const FindingMark& worst = marks[record.worst];
        const ImVec2 centre{
            std::clamp(canvas.x(record.x), canvas.area.x + size * 0.6f, canvas.area.right() - size * 0.6f), y};
        drawSeverity(canvas.list, centre, size, canvas.palette(), worst.severity, worst.unproven);
        const bool over =
            canvas.hovered && std::abs(mouse.x - centre.x) < size && mouse.y >= lane.y && mouse.y <= lane.bottom();
        if (!over) continue;
        hoveredFinding_ = &worst;
        tellFindings(canvas.context, canvas.trial, marks, record);
        if (ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
            if (worst.line > 0) canvas.context.commands.add(SelectLine{worst.line - 1, true});
            canvas.context.commands.add(Seek{worst.timeS});
            scrubbing_ = false;
        }
    }
}

void TimelineView::drawScrubber(const Canvas& canvas) const {
    const double px = window_.x(shownS_);
    if (px < -1 || px > window_.width + 1) return;
    const float x = std::round(canvas.x(px));
    const float half = canvas.context.px(6);
    const float y = canvas.ruler.y + canvas.context.px(2);
    const ImU32 colour = ink(canvas.palette().accent);
    canvas.list.AddLine({x, y}, {x, canvas.area.bottom()}, colour, canvas.context.stroke(2));
    canvas.list.AddQuadFilled({x - half, y}, {x + half, y}, {x + half * 0.35f, y + 2 * half},
                              {x - half * 0.35f, y + 2 * half}, colour);
}

// The whole cycle in little; its lit part is what the lanes show.
void TimelineView::drawScrollbar(const Canvas& canvas, const Rect& bar) {
    ImGui::SetCursorScreenPos({bar.x, bar.y});
    ImGui::InvisibleButton("overview", {bar.w, bar.h});
    const bool hovered = ImGui::IsItemHovered();
    const double shown = window_.width / window_.pxPerSecond;
    if (ImGui::IsItemActive()) {
        const double mouse = (ImGui::GetIO().MousePos.x - bar.x) / bar.w * cycleS_;
        window_.from = mouse - 0.5 * shown;
        window_ = bounded(window_, cycleS_);
    }
    const float x0 = bar.x + static_cast<float>(window_.from / cycleS_) * bar.w;
    const float x1 = bar.x + static_cast<float>(std::min(1.0, (window_.from + shown) / cycleS_)) * bar.w;
    const float y = bar.y + 0.5f * bar.h;
    const float half = canvas.context.px(hovered ? 3.0f : 2.0f);
    canvas.list.AddRectFilled({bar.x, y - half}, {bar.right(), y + half}, ink(canvas.palette().raised), half);
    canvas.list.AddRectFilled({x0, y - half}, {std::max(x1, x0 + 6), y + half}, ink(canvas.palette().line), half);
    const float at = bar.x + static_cast<float>(shownS_ / cycleS_) * bar.w;
    canvas.list.AddRectFilled({at - 1, y - half}, {at + 1, y + half}, ink(canvas.palette().accent));
}

void TimelineView::hover(const Canvas& canvas) const {
    if (hoveredFinding_ || hoversEncounter_) return;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const double timeS = window_.time(mouse.x - canvas.area.x);
    for (const StopMark& stop : canvas.index.stops()) {
        const bool near = std::abs(canvas.x(window_.x(stop.timeS)) - mouse.x) < canvas.context.px(5);
        if (!near || mouse.y > canvas.ruler.bottom()) continue;
        const std::string tip =
            say("{}{} at {}", lineTitle(stop.block + 1), stopTitle(stop.kind), clockTime(stop.timeS));
        ImGui::SetTooltip("%s", tip.c_str());
        return;
    }
    canvas.list.AddLine({mouse.x, canvas.ruler.bottom()}, {mouse.x, canvas.area.bottom()},
                        ink(canvas.palette().text, 0.3f));
    const Instant instant = instantAt(canvas.trial, canvas.index, timeS, kNoStep);
    ImGui::BeginTooltip();
    const BlockId block = instant.geometry != kNoBlock ? instant.geometry : instant.block;
    ImGui::TextUnformatted(blockTitle(canvas.trial, block).c_str());
    ImGui::PushFont(canvas.context.fonts.small);
    ImGui::PushStyleColor(ImGuiCol_Text, tint(canvas.palette().quiet));
    const auto in = [&](const Rect& lane) { return mouse.y >= lane.y && mouse.y < lane.bottom(); };
    const Measures measures = canvas.context.measures();
    const std::vector<std::string> lines = in(clearanceLane_) ? clearanceTitle(canvas, instant.timed)
                                           : in(loadLane_)    ? loadTitle(canvas, timeS)
                                           : in(gripLane_)    ? gripTitle(canvas, timeS)
                                           : in(bendingLane_) ? bendingTitle(canvas, timeS)
                                                              : instantTitle(canvas.trial, instant, measures);
    for (const std::string& line : lines) ImGui::TextUnformatted(line.c_str());
    ImGui::PopStyleColor();
    ImGui::PopFont();
    ImGui::EndTooltip();
}

}  // namespace firstoff::gui
