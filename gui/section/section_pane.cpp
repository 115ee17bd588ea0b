#include "gui/section/section_pane.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "gui/section/section_canvas.h"
#include "gui/section/section_dimensions.h"
#include "gui/section/section_words.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr float kZoomPerNotch = 1.2f;
constexpr float kMargin = 46;
constexpr double kRescale = 1.6;  // chords are made anew when the scale has changed by so much
constexpr float kCornerPx = 8, kFeaturePx = 12;
constexpr std::size_t kMostPath = 6000;  // timed moves

}  // namespace

// ---- what is shown ----

void SectionPane::takeTrial(const Session& session) {
    std::shared_ptr<const Trial> trial = session.outcome ? session.outcome->trial : nullptr;
    if (trial == trial_) return;
    const bool otherPart = !trial_ || !trial || trial_->program.name != trial->program.name;
    trial_ = std::move(trial);
    cursor_.reset();
    blank_.clear();
    deviations_.reset();
    picked_.clear();
    shownS_ = -1;
    shape_ = {};
    fitWanted_ = fitWanted_ || otherPart;
    if (!trial_ || !trial_->stock) return;
    cursor_.emplace(trial_->stock);
    cursor_->seek(0, 0);
    blank_ = cursor_->contours();
}

void SectionPane::takeInstant(const Canvas& canvas) {
    const Instant* now = canvas.context.instant;
    datum_ = trial_->toolpath.datums[now ? now->modal->datum : 0];
    if (!now || !cursor_) return;
    const double scale = view_.scale();
    const bool scaled = scale > kRescale * shapedAt_ || scale < shapedAt_ / kRescale;
    if (now->timeS != shownS_) cursor_->seek(static_cast<std::uint32_t>(now->timed), now->fraction);
    if (now->timeS == shownS_ && !scaled) return;
    if (now->timeS != shownS_) picked_.clear();  // of a shape that is no more
    shapedAt_ = scale;
    shape_ = sectionShape(cursor_->contours(), kChordPx / scale, true);
    if (now->timeS != shownS_ || pathsOf_ != now->block) {
        paths_ = sectionPaths(*trial_, *now, kMostPath);
        pathsOf_ = now->block;
    }
    shownS_ = now->timeS;
}

// Where the finished part stands off the drawn outline; once per trial, when it is asked for.
void SectionPane::takeDeviations() {
    if (deviations_ || !trial_ || !trial_->stock || trial_->gauged.outline.empty()) return;
    StockCursor end(trial_->stock);
    end.seek(static_cast<std::uint32_t>(trial_->timeline.moves.size()), 0);
    PartOutline part, drawn;
    for (const SectionContour& contour : end.contours()) {
        if (contour.piece == trial_->gauged.piece) part.add(contour.outline, contour.cuts);
    }
    for (const Contour& contour : trial_->gauged.outline) drawn.add(contour, {}, !trial_->gauged.outlineOpen);
    deviations_ = besideOutline(part, drawn);
}

Box SectionPane::boxOfAll() const {
    PartOutline all;
    for (const SectionContour& contour : blank_) all.add(contour.outline);
    Box box = all.box();
    // Both halves, and of what is gripped only the beginning.
    const double r = std::max(box.rMax, 1.0), jaws = trial_->setup.chuck.jawLength;
    const double from = jaws < box.zMax ? std::max(box.zMin, jaws - 0.12 * (box.zMax - jaws)) : box.zMin;
    return {from, std::max(box.zMax, from + 1), -r, r};
}

void SectionPane::fitIfWanted(const Rect& rect, float margin, float sizesBelow) {
    const bool reshaped = rect.w != fittedTo_.w || rect.h != fittedTo_.h;
    if (blank_.empty() || (!fitWanted_ && !(reshaped && !touched_))) {
        view_.moveTo(rect);
        return;
    }
    Box box = boxOfAll();
    view_.fit(box, rect, margin);
    if (sizesBelow > 0) {
        box.rMin -= sizesBelow / view_.scale();
        view_.fit(box, rect, margin);
    }
    fittedTo_ = rect;
    touched_ = touched_ && !fitWanted_;
    fitWanted_ = false;
}

// ---- mouse ----

std::optional<SectionFeature> SectionPane::featureUnder(const Canvas& canvas, ImVec2 mouse) const {
    const Point place = view_.placeOf(mouse);
    // Below the axis the part is seen from outside: its mirror image is picked.
    const Point above{place.z, std::abs(place.r)};
    std::optional<SectionFeature> best;
    for (const SectionPiece& piece : shape_.pieces) {
        const auto found = featureNear(piece.outline, above, canvas.px(kCornerPx) / view_.scale(),
                                       canvas.px(kFeaturePx) / view_.scale());
        if (found && (!best || found->kind == SectionFeature::Kind::Corner)) best = found;
    }
    return best;
}

void SectionPane::handleMouse(const Canvas& canvas) {
    const ImGuiIO& io = ImGui::GetIO();
    if (canvas.hovered && io.MouseWheel != 0) {
        view_.zoom(std::pow(kZoomPerNotch, io.MouseWheel), io.MousePos);
        touched_ = true;
    }
    if (ImGui::IsItemActive() && (io.MouseDelta.x != 0 || io.MouseDelta.y != 0) &&
        (ImGui::IsMouseDragging(ImGuiMouseButton_Left, canvas.px(4)) ||
         ImGui::IsMouseDragging(ImGuiMouseButton_Right, 0) || ImGui::IsMouseDragging(ImGuiMouseButton_Middle, 0))) {
        view_.shift(io.MouseDelta);
        touched_ = true;
    }
    if (ImGui::IsItemClicked()) pressedAt_ = io.MousePos;
    if (canvas.hovered && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Right)) fitWanted_ = true;
    const bool moved = std::hypot(io.MousePos.x - pressedAt_.x, io.MousePos.y - pressedAt_.y) > canvas.px(3);
    if (!canvas.hovered || !ImGui::IsMouseReleased(ImGuiMouseButton_Left) || moved) return;
    if (canvas.context.session.asksPlace) {
        canvas.context.commands.add(PlaceClicked{view_.placeOf(io.MousePos)});
        return;
    }
    const auto found = featureUnder(canvas, io.MousePos);
    if (!found || picked_.size() >= 2) picked_.clear();
    if (found) picked_.push_back(*found);
}

// ---- keys ----

void SectionPane::move(const MoveView& by) {
    constexpr float kShiftShare = 0.05f;  // of the pane's height
    const Rect& area = view_.area();
    const auto right = static_cast<float>(by.right), up = static_cast<float>(by.up);
    touched_ = true;
    if (by.how == MoveView::How::Nearer) {
        view_.zoom(std::pow(kZoomPerNotch, up), {area.x + 0.5f * area.w, area.y + 0.5f * area.h});
    } else {
        view_.shift({-kShiftShare * area.h * right, kShiftShare * area.h * up});
    }
}

// What can be told apart at this scale, piece by piece: from the foremost place up the face, along the outside towards
// the chuck, and back through the bore, as outlines run.
std::vector<SectionFeature> SectionPane::surfaces() const {
    constexpr double kLeastPx = 3;
    std::vector<SectionFeature> all;
    for (const SectionPiece& piece : shape_.pieces) {
        std::vector<SectionFeature> own;
        for (const OutlineEdge& edge : piece.outline.edges()) {
            if (distance(edge.from, edge.to) * view_.scale() >= kLeastPx) own.push_back(surfaceOf(edge));
        }
        const auto behind = [](const SectionFeature& a, const SectionFeature& b) {
            const double za = std::max(a.from.z, a.to.z), zb = std::max(b.from.z, b.to.z);
            return za != zb ? za < zb : std::min(a.from.r, a.to.r) > std::min(b.from.r, b.to.r);
        };
        std::rotate(own.begin(), std::max_element(own.begin(), own.end(), behind), own.end());
        all.insert(all.end(), own.begin(), own.end());
    }
    return all;
}

void SectionPane::gaugeNext(const GaugeNext& command) {
    const std::vector<SectionFeature> all = surfaces();
    if (all.empty()) return;
    const auto count = static_cast<int>(all.size());
    int next = command.by > 0 ? 0 : count - 1;
    if (!picked_.empty()) {
        const auto now = std::find(all.begin(), all.end(), picked_.back());
        if (now != all.end()) next = ((static_cast<int>(now - all.begin()) + command.by) % count + count) % count;
    }
    if (command.another) {
        if (picked_.size() == 2) picked_.erase(picked_.begin());
    } else if (!picked_.empty()) {
        picked_.pop_back();
    }
    picked_.push_back(all[static_cast<std::size_t>(next)]);
}

std::vector<FeatureReading> SectionPane::readings() const {
    if (picked_.empty()) return {};
    return picked_.size() == 2 ? gaugeBetween(picked_[0], picked_[1], datum_) : gaugeFeature(picked_[0], datum_);
}

std::string SectionPane::gauged(Measures measures) const {
    const std::vector<FeatureReading> all = readings();
    return all.empty() ? std::string() : readingInWords(all.front(), measures);
}

void SectionPane::draw(const PaneContext& context, const Rect& rect, bool alone) {
    const PaneFrame frame("half-section", rect, context, ImGuiWindowFlags_NoScrollWithMouse, false);
    if (rect.w < 8 || rect.h < 8) return;
    takeTrial(context.session);
    Canvas canvas{context, *ImGui::GetWindowDrawList(), rect, alone};
    canvas.list.AddRectFilled({rect.x, rect.y}, {rect.right(), rect.bottom()}, ink(context.palette.ground));
    if (!trial_ || !cursor_) {
        ImGui::SetCursorScreenPos({rect.x + context.px(12), rect.y + context.px(12)});
        ImGui::TextUnformatted(trial_ ? tr("The set-up gives no bar.") : tr("No trial yet."));
        return;
    }
    const bool sizes = context.session.view.section.sizes;
    if (sizes != sizesShown_ && !touched_) fitWanted_ = true;
    sizesShown_ = sizes;
    fitIfWanted(rect, context.px(kMargin), sizes ? heightOfLengths(context, *trial_) : 0);
    ImGui::SetCursorScreenPos({rect.x, rect.y});
    ImGui::InvisibleButton(
        "drawing", {rect.w, rect.h},
        ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight | ImGuiButtonFlags_MouseButtonMiddle);
    canvas.hovered = ImGui::IsItemHovered();
    ImGui::SetItemAllowOverlap();
    handleMouse(canvas);
    takeInstant(canvas);
    sound_.take(context.session, *trial_);
    const SectionSettings& settings = context.session.view.section;
    if (settings.drawing) takeDeviations();
    canvas.list.PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    drawGrid(canvas, false);
    drawBillet(canvas);
    drawChuck(canvas);
    drawBlank(canvas);
    drawSound(canvas);
    const ImVec2 left = view_.at(view_.placeOf({rect.x, rect.y})), axis = view_.at({0, 0});
    gui::drawLine(canvas.list, {{left.x, axis.y}, {rect.right(), axis.y}},
                  canvas.pen(context.palette.text, kNarrow, LineKind::Chain, 0.8f), context.px(1));
    // Where somebody is to say where the tool goes, its ways would tell.
    const bool tells = context.session.asksPlace && !context.session.rightPlace;
    if (context.instant && settings.paths && !tells) drawPaths(canvas);
    if (settings.drawing) drawDeviations(canvas);
    if (context.instant) drawTool(canvas);
    if (settings.sizes) drawDimensions(context, view_, *trial_, boxOfAll().rMax);
    drawGrid(canvas, true);
    drawPlaces(canvas);
    drawPicked(canvas);
    drawHover(canvas);
    drawRemarks(canvas);
    canvas.list.PopClipRect();
    drawButtons(canvas);
}

}  // namespace firstoff::gui
