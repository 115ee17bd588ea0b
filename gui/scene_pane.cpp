#include "gui/scene_pane.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

#include "gui/block_words.h"
#include "gui/clearance_words.h"
#include "gui/imgui_context.h"
#include "gui/scene/named_views.h"
#include "gui/scene_marks.h"
#include "gui/size_marks.h"
#include "gui/wrapped_text.h"
#include "sim/base/say.h"
#include "sim/base/told_apart.h"

namespace firstoff::gui {

namespace {

constexpr double kTurnS = 0.3;  // for a change of view
constexpr double kRestS = 0.3;  // the mouse has to rest before a surface is named
constexpr float kZoomPerNotch = 1.15f;

constexpr double kMotionS = 0.12;  // changes closer than this are motion
constexpr double kFrameS = 1.0 / 60, kSoftwareFrameS = 1.0 / 30;

Camera centredOn(Camera camera, glm::vec3 place) {
    camera.target = place;
    return camera;
}

const char* title(ViewName view) {
    switch (view) {
        case ViewName::Machine:
            return tr("Machine");
        case ViewName::Part:
            return tr("Part");
        case ViewName::Tool:
            return afterBar(tr("view|Close"));
        case ViewName::EndOn:
            return tr("End on");
    }
    return "";
}

}  // namespace

namespace {

// The one the user went to, else what happens at this moment.
std::optional<Encounter> encounterInForce(const Session& session, const SceneInstant& instant) {
    if (!session.index() || !instant.trial) return std::nullopt;
    const ClearanceIndex& index = session.index()->clearance();
    if (session.encounter && *session.encounter < index.encounters().size())
        return index.encounters()[*session.encounter];
    return index.inForce(instant.timedMove, instant.timeS);
}

}  // namespace

SceneOptions sceneOptions(const ViewSettings& view, BlockId highlight) {
    SceneOptions options;
    options.cutaway = static_cast<Cutaway>(view.cutaway);
    options.colouring = view.colouring;
    options.hidden = view.hiddenBodies;
    options.dark = view.darkLook();
    options.neighbours = view.neighbours;
    options.chips = view.chips;
    if (view.projector) options.lineScale = kProjectorLines;
    options.highlight = highlight;
    return options;
}

void ScenePane::takeTrial(const Session& session) {
    std::shared_ptr<const Trial> trial = session.outcome ? session.outcome->trial : nullptr;
    if (trial == trial_) return;
    // A named view belongs to its set-up: with another bar or chuck it is taken anew, however late the trial comes.
    const auto viewOf = [this](const Trial& of) { return namedView(*shown_, of.setup, {}, 0, aspect_); };
    if (shown_ && !wanted_ && trial_ && trial && viewOf(*trial) != viewOf(*trial_)) wanted_ = shown_;
    trial_ = std::move(trial);
    scene_.setTrial(trial_);
    cursor_.reset();
    bodies_.reset();
    measured_.reset();
    measuredBodies_ = {kNoBody, kNoBody};
    if (trial_ && trial_->clearance.bodies) bodies_.emplace(trial_);
    if (trial_ && trial_->stock) cursor_.emplace(trial_->stock);
    timeS_ = -1;
}

void ScenePane::takeTime(double timeS) {
    if (timeS == timeS_) return;
    timeS_ = timeS;
    instant_ = scene_.at(timeS, cursor_ ? &*cursor_ : nullptr);
    drawn_ = false;
    resting_.reset();
    measuredBodies_ = {kNoBody, kNoBody};  // to be measured anew
}

void ScenePane::takeMeasure(const Session& session) {
    if (session.measure == measuredBodies_) return;
    measuredBodies_ = session.measure;
    measured_.reset();
    const bool chosen = session.measure[0] != kNoBody && session.measure[1] != kNoBody;
    if (bodies_ && chosen) measured_ = bodies_->between(session.measure[0], session.measure[1], instant_);
}

double ScenePane::timeOfNearest(std::size_t timedMove, int body, int other) {
    constexpr int kInstants = 24;
    const TimedMove& timed = trial_->timeline.moves[timedMove];
    if (!bodies_ || timed.t1 <= timed.t0) return timed.t1;
    double best = timed.t1, least = std::numeric_limits<double>::infinity();
    for (int i = 0; i <= kInstants; ++i) {
        // Not its very ends, where the time belongs to its neighbours as well.
        const double share = std::clamp(static_cast<double>(i) / kInstants, 1e-6, 1 - 1e-6);
        const double timeS = timed.t0 + share * (timed.t1 - timed.t0);
        const SceneInstant instant = scene_.at(timeS, cursor_ ? &*cursor_ : nullptr);
        const double gap = bodies_->between(body, other, instant).gap;
        if (gap < least) {
            least = gap;
            best = timeS;
        }
    }
    timeS_ = -1;  // the cursor stands elsewhere now
    return best;
}

void ScenePane::turnCamera(const PaneContext& context, float aspect) {
    if (!trial_) return;
    if (wantedPlace_) {
        place_ = std::exchange(wantedPlace_, std::nullopt);
        centre_.reset();
        shown_.reset();
        wanted_.reset();
        turnFrom_ = camera_;
        turnStart_ = context.now;
        turning_ = framed_ && !lessMotion(context);
        framed_ = true;
        if (!turning_) camera_ = placeView(*place_, trial_->setup, aspect);
    }
    if (wanted_) {
        place_.reset();
        centre_.reset();
        shown_ = std::exchange(wanted_, std::nullopt);
        if (!cursor_ && shown_ == ViewName::Part) shown_ = ViewName::Machine;  // there is no part to look at
        turnFrom_ = camera_;
        turnStart_ = context.now;
        turning_ = framed_ && !lessMotion(context);
        framed_ = true;
        if (!turning_) camera_ = scene_.view(*shown_, instant_, aspect);
    }
    if (turning_) {
        const auto t = static_cast<float>((context.now - turnStart_) / kTurnS);
        const Camera goal = centre_  ? centredOn(turnFrom_, *centre_)
                            : place_ ? placeView(*place_, trial_->setup, aspect)
                                     : scene_.view(*shown_, instant_, aspect);
        turning_ = t < 1;
        camera_ = turning_ ? between(turnFrom_, goal, t) : goal;
    } else if (shown_ == ViewName::Tool || (shown_ && aspect != aspect_)) {
        camera_ = scene_.view(*shown_, instant_, aspect);  // goes along with the tool, or fits a new shape of the pane
    }
    aspect_ = aspect;
}

// The spot that was clicked comes to the middle; how near the camera is stays as it was.
void ScenePane::centreOn(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel) {
    const std::optional<glm::vec3> place = placeUnder(options, pixel);
    if (!place) return;
    shown_.reset();
    place_.reset();
    turning_ = !lessMotion(context);
    if (!turning_) {
        camera_ = centredOn(camera_, *place);
        return;
    }
    centre_ = place;
    turnFrom_ = camera_;
    turnStart_ = context.now;
}

// Of the billet or another body, scene frame; nothing over the background.
std::optional<glm::vec3> ScenePane::placeUnder(const SceneOptions& options, glm::vec2 pixel) const {
    if (!trial_ || drawnWidth_ == 0) return std::nullopt;
    return scene_.placeUnder(instant_, camera_, options, pixel, drawnWidth_, drawnHeight_);
}

// While it plays and cuts, the camera drifts along with the tip; rapids and what comes after the cut move it nowhere.
void ScenePane::followTool(const PaneContext& context) {
    const double since = context.now - followedS_;
    followedS_ = context.now;
    const Session& session = context.session;
    const bool follows = session.view.followTool && session.playing && trial_ && instant_.toolIndex >= 0 && !turning_ &&
                         !place_ && shown_ != ViewName::Tool && !ImGui::IsMouseDown(ImGuiMouseButton_Left);
    if (!follows || trial_->timeline.moves.empty()) return;
    if (trial_->timeline.moves[instant_.timedMove].kind == MoveKind::Rapid) return;
    constexpr double kDriftS = 0.25;
    shown_.reset();
    const auto share = static_cast<float>(1 - std::exp(-std::clamp(since, 0.0, 0.1) / kDriftS));
    const glm::vec3 tip(static_cast<float>(instant_.tip.z), static_cast<float>(instant_.tip.r), 0);
    camera_.target = glm::mix(camera_.target, tip, lessMotion(context) ? 1.0f : share);
}

bool ScenePane::lessMotion(const PaneContext& context) const {
    return still_ || systemLessMotion_ || context.session.view.lessMotion;
}

// From now on it is the user's.
void ScenePane::takeCamera() {
    shown_.reset();
    place_.reset();
    centre_.reset();
    turning_ = false;
}

void ScenePane::move(const MoveView& by) {
    if (!trial_ || drawnHeight_ == 0) return;
    constexpr float kTurnPx = 24;         // as if the mouse had been dragged so far
    constexpr float kShiftShare = 0.05f;  // of the picture's height
    takeCamera();
    const glm::vec2 way(static_cast<float>(by.right), -static_cast<float>(by.up));
    const glm::vec2 middle(0.5f * static_cast<float>(drawnWidth_), 0.5f * static_cast<float>(drawnHeight_));
    switch (by.how) {
        case MoveView::How::Turn:
            return camera_.orbit(-kTurnPx * way);
        case MoveView::How::Shift:
            return camera_.pan(-kShiftShare * static_cast<float>(drawnHeight_) * way, drawnHeight_);
        case MoveView::How::Nearer:
            return camera_.zoom(std::pow(kZoomPerNotch, static_cast<float>(by.up)), middle, drawnWidth_, drawnHeight_);
    }
}

void ScenePane::handleMouse(const PaneContext& context, const SceneOptions& options, const Rect& rect, bool hovered,
                            bool active) {
    const ImGuiIO& io = ImGui::GetIO();
    const glm::vec2 moved{io.MouseDelta.x, io.MouseDelta.y};
    const auto height = static_cast<int>(rect.h);
    if (active && (moved.x != 0 || moved.y != 0)) {
        const bool pan =
            io.KeyShift || ImGui::IsMouseDown(ImGuiMouseButton_Right) || ImGui::IsMouseDown(ImGuiMouseButton_Middle);
        // A hand's tremble in a double click is no wish to turn.
        if (pan) {
            takeCamera();
            camera_.pan(moved, height);
        } else if (ImGui::IsMouseDragging(ImGuiMouseButton_Left, context.px(3))) {
            takeCamera();
            camera_.orbit(moved);
        }
    }
    if (hovered && io.MouseWheel != 0) {
        takeCamera();
        const glm::vec2 pixel{io.MousePos.x - rect.x, io.MousePos.y - rect.y};
        const float factor = std::pow(kZoomPerNotch, io.MouseWheel);
        if (const auto place = placeUnder(options, pixel)) {
            camera_.zoomTo(factor, *place);
        } else {
            camera_.zoom(factor, pixel, static_cast<int>(rect.w), height);
        }
    }
}

// In moving pictures the level that frames come often enough with; finest as soon as nothing moves.
Quality ScenePane::qualityFor(QualityChoice choice, bool changed, double now) {
    refineDue_ = false;
    if (still_ || choice != QualityChoice::Automatic) return fixedQuality(choice);
    if (changed) {
        interval_ = now - lastChange_;
        lastChange_ = now;
        refineDue_ = pace_.level() != Quality::Finest;
        return pace_.level();
    }
    const bool resting = now - lastChange_ > kMotionS;
    refineDue_ = !resting && drawnOptions_.quality != Quality::Finest;
    return resting ? Quality::Finest : drawnOptions_.quality;
}

void ScenePane::takePace(double now) {
    const std::optional<double> took = timer_.latest();
    if (!took || drawnOptions_.quality != pace_.level()) return;
    // Frames that take long come no closer than they can.
    if (interval_ < kMotionS + 1.5 * *took) pace_.frame(now, *took, interval_);
}

void ScenePane::render(const PaneContext& context, SceneOptions options, int width, int height) {
    if (!softwareKnown_) {
        softwareKnown_ = true;
        software_ = isSoftwareOpenGl();
        // The processor begins with what it surely can.
        pace_ = software_ ? QualityPace(kSoftwareFrameS, Quality::Plain) : QualityPace(kFrameS);
    }
    options.quality = drawnOptions_.quality;
    const bool unchanged =
        drawn_ && width == drawnWidth_ && height == drawnHeight_ && camera_ == drawnCamera_ && options == drawnOptions_;
    options.quality = qualityFor(context.session.view.quality, !unchanged, context.now);
    if (unchanged && options.quality == drawnOptions_.quality) return;
    timer_.begin();
    picture_.begin(width, height, meansOf(options.quality).samples > 1 ? Edges::Fine : Edges::Quick);
    scene_.draw(instant_, camera_, options, width, height);
    texture_ = picture_.finish();
    drawPixelForPixel(texture_);
    fresh_ = true;
    timer_.end();
    drawn_ = true;
    drawnCamera_ = camera_;
    drawnOptions_ = options;
    drawnWidth_ = width;
    drawnHeight_ = height;
    if (!unchanged) takePace(context.now);
    tellTrouble(context);
}

// Once each.
void ScenePane::tellTrouble(const PaneContext& context) {
    if (scene_.trouble() == troubleTold_) return;
    troubleTold_ = scene_.trouble();
    context.commands.add(Tell{troubleTold_});
}

// While a body is to be picked, the one under the mouse.
void ScenePane::nameBody(const SceneOptions& options, glm::vec2 pixel) {
    ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    const int body = scene_.pickBody(instant_, camera_, options, pixel, drawnWidth_, drawnHeight_);
    if (body != kNoBody) ImGui::SetTooltip("%s", bodyTitle(*trial_, body).c_str());
}

void ScenePane::pickBody(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel) {
    const int body = scene_.pickBody(instant_, camera_, options, pixel, drawnWidth_, drawnHeight_);
    if (body == kNoBody) return;  // nothing there, or nothing that is measured: still picking
    context.commands.add(MeasureBody{context.session.picking, body});
}

// What touches or comes near at this moment, and what is measured.
void ScenePane::drawMarks(const PaneContext& context, const Rect& rect, bool hovered) {
    markFindings(context, rect, hovered);
    const Session& session = context.session;
    const SceneView view{rect, camera_, drawnWidth_, drawnHeight_};
    if (const auto encounter = encounterInForce(session, instant_)) {
        drawEncounter(context, view, *trial_, *encounter, instant_.datum);
    }
    if (measured_) drawMeasure(context, view, *measured_);
    if (session.view.colouring != Colouring::Size) return;
    const glm::vec3 off = LatheScene::shiftOf(trial_->gauged.piece, instant_, LoosePieces::Aside);
    drawSizeMarks(context, view, *trial_, {off.x, off.y, off.z}, hovered);
}

void ScenePane::pickLine(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel) {
    const auto pick = scene_.pick(instant_, camera_, options, pixel, drawnWidth_, drawnHeight_);
    if (!pick || pick->sectionFace) return;
    if (!isCutHere(pick->cut)) {
        context.commands.add(PickSurface{pick->place, kUncut});
        return;
    }
    const PickSurface picked{pick->place, pick->cut};
    context.commands.add(Seek{trial_->timeline.moves[pick->cut].t0});
    context.commands.add(ShowLine{trial_->shownBlock(trial_->timeline.moves[pick->cut].move)});
    context.commands.add(picked);
}

// Names the surface under a resting mouse: its size, where it is, what cut it.
void ScenePane::hover(const PaneContext& context, const SceneOptions& options, glm::vec2 pixel, bool hovered) {
    hoverDue_ = false;
    if (!hovered || context.session.playing) return;
    if (pixel != restingAt_) {
        restingAt_ = pixel;
        restingSince_ = context.now;
        resting_.reset();
    }
    const double rested = context.now - restingSince_;
    hoverDue_ = rested < kRestS;
    if (hoverDue_) return;
    if (!resting_)
        resting_ = scene_.pick(instant_, camera_, options, pixel, drawnWidth_, drawnHeight_).value_or(ScenePick{});
    const bool nothing = resting_->place == Point{} && resting_->cut == kUncut;
    if (nothing) return;
    const Point place = resting_->place - instant_.datum;
    std::string text = context.measures().position(2 * place.r, place.z);
    if (resting_->cut == kCutBefore) {
        text += '\n';
        text += tr("cut by the program before");
    } else if (resting_->cut != kUncut) {
        const Move& move = trial_->toolpath.moves[trial_->timeline.moves[resting_->cut].move];
        text += '\n';
        text += say("cut by {}\n{}", blockTitle(*trial_, move.block), toolTitle(*trial_, move.call));
    } else if (!resting_->sectionFace) {
        text += '\n';
        text += tr("not cut yet");
    }
    ImGui::SetTooltip("%s", text.c_str());
}

// The findings of the block that runs and of the line the user went to, where they happen.
void ScenePane::markFindings(const PaneContext& context, const Rect& rect, bool hovered) {
    const Session& session = context.session;
    if (!context.instant || session.outcome->trial != trial_) return;
    const Instant& now = *context.instant;
    std::set<BlockId> blocks{now.block, now.geometry, session.chosen};
    blocks.erase(kNoBlock);
    std::vector<const Finding*> placed;
    for (const BlockId block : blocks) {
        constexpr std::size_t kMost = 20;  // more would hide what they mark
        const auto marks = session.index()->findingsOfLine(block + 1);
        for (const FindingMark& mark : marks.first(std::min(marks.size(), kMost))) {
            if (trial_->findings[mark.finding].place) placed.push_back(&trial_->findings[mark.finding]);
        }
    }
    // The worst on top.
    std::stable_sort(placed.begin(), placed.end(),
                     [](const auto* a, const auto* b) { return a->severity < b->severity; });
    for (const Finding* finding : placed) markFinding(context, rect, *finding, hovered);
}

void ScenePane::markFinding(const PaneContext& context, const Rect& rect, const Finding& finding, bool hovered) {
    const glm::vec2 at = LatheScene::project(inSpace(*finding.place), camera_, drawnWidth_, drawnHeight_);
    const ImVec2 centre{rect.x + at.x, rect.y + at.y};
    const float size = context.px(16);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddCircle(centre, size * 0.85f, ink(context.palette.panel), 24, context.px(3));
    drawSeverity(list, centre, size, context.palette, finding.severity, finding.unproven);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    if (hovered && std::hypot(mouse.x - centre.x, mouse.y - centre.y) < size) {
        ImGui::SetTooltip("%s", wrapped(*context.fonts.text, context.px(380), finding.message).c_str());
        restingSince_ = context.now;  // no second tool tip about the surface beneath
    }
}

void ScenePane::drawButtons(const PaneContext& context, const Rect& rect) {
    if (bare_ || rect.w < context.px(330) || rect.h < context.px(120)) return;
    const float gap = context.px(4);
    ImGui::PushFont(context.fonts.small);
    ImGui::SetCursorScreenPos({rect.x + context.px(10), rect.y + context.px(8)});
    for (const ViewName view : {ViewName::Part, ViewName::Tool, ViewName::Machine, ViewName::EndOn}) {
        const bool lit = shown_ == view;
        if (lit) ImGui::PushStyleColor(ImGuiCol_Button, tint(context.palette.current));
        if (ImGui::Button(title(view))) context.commands.add(ShowView{view});
        if (lit) ImGui::PopStyleColor();
        ImGui::SameLine(0, gap);
    }
    ViewSettings view = context.session.view;
    const auto toggle = [&](const char* text, bool lit, const char* tip) {
        if (lit) ImGui::PushStyleColor(ImGuiCol_Button, tint(context.palette.current));
        const bool clicked = ImGui::Button(text);
        if (lit) ImGui::PopStyleColor();
        if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", tip);
        ImGui::SameLine(0, gap);
        return clicked;
    };
    ImGui::SameLine(0, context.px(14));
    static constexpr const char* kCutaways[] = {later("Whole"), later("Quarter out"), later("Half out")};
    if (toggle(tr(kCutaways[view.cutaway]), view.cutaway != 0,
               tr("Leave out a quarter or a half of the billet to see inside"))) {
        view.cutaway = (view.cutaway + 1) % 3;
        context.commands.add(ChangeView{view});
    }
    const auto colouring = [&](const char* text, Colouring which, const char* tip) {
        if (!toggle(text, view.colouring == which, tip)) return;
        view.colouring = view.colouring == which ? Colouring::Metal : which;
        context.commands.add(ChangeView{view});
    };
    colouring(tr("By tool"), Colouring::Tool, tr("Colour each cut surface by the tool that left it"));
    if (rect.w >= context.px(400)) {
        colouring(tr("By size"), Colouring::Size,
                  tr("Colour each surface that a size is taken on by what the size comes to, and number the sizes"));
    }
    if (rect.w >= context.px(480) &&
        toggle(tr("Half-section"), view.section.shown != SectionSettings::Shown::PictureOnly,
               tr("The part as a drawing, true to scale, beneath the picture"))) {
        const bool shown = view.section.shown != SectionSettings::Shown::PictureOnly;
        view.section.shown = shown ? SectionSettings::Shown::PictureOnly : SectionSettings::Shown::Both;
        context.commands.add(ChangeView{view});
    }
    ImGui::PopFont();
}

// The billet is cut up to this moment only where somebody looks at it.
void ScenePane::follow(const Session& session) {
    takeTrial(session);
    if (session.measure[0] != kNoBody && session.measure[1] != kNoBody) takeTime(session.timeS);
    takeMeasure(session);
}

void ScenePane::draw(const PaneContext& context, const Rect& rect) {
    const PaneFrame frame("picture", rect, context, ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoBackground,
                          false);
    fresh_ = false;
    if (rect.w < 8 || rect.h < 8) return;
    const Session& session = context.session;
    takeTime(session.timeS);
    ImGui::SetCursorScreenPos({rect.x, rect.y});
    ImGui::InvisibleButton(
        "scene", {rect.w, rect.h},
        ImGuiButtonFlags_MouseButtonLeft | ImGuiButtonFlags_MouseButtonRight | ImGuiButtonFlags_MouseButtonMiddle);
    const bool hovered = ImGui::IsItemHovered();
    const bool active = ImGui::IsItemActive();
    ImGui::SetItemAllowOverlap();

    turnCamera(context, rect.w / rect.h);
    followTool(context);
    SceneOptions options = sceneOptions(session.view, session.chosen);
    handleMouse(context, options, rect, hovered, active);
    if (trial_ && session.outcome->trial == trial_) {
        if (const auto encounter = encounterInForce(session, instant_)) {
            options.outlined = {encounter->body, encounter->other};
            options.outlineWarns = encounter->gapMm > 0;
        }
    }
    render(context, options, static_cast<int>(rect.w), static_cast<int>(rect.h));
    const auto texture = reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(texture_));
    ImGui::GetWindowDrawList()->AddImage(texture, {rect.x, rect.y}, {rect.right(), rect.bottom()}, {0, 1}, {1, 0});
    ImGui::PushClipRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, true);
    if (trial_ && !bare_) drawMarks(context, rect, hovered);
    ImGui::PopClipRect();
    drawButtons(context, rect);
    if (!trial_) return;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const glm::vec2 pixel{mouse.x - rect.x, mouse.y - rect.y};
    if (session.picking >= 0) {
        if (hovered) nameBody(options, pixel);
        if (hovered && ImGui::IsMouseReleased(ImGuiMouseButton_Left) &&
            ImGui::GetMouseDragDelta(ImGuiMouseButton_Left, context.px(3)).x == 0) {
            pickBody(context, options, pixel);
        }
        return;
    }
    if (hovered && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) {
        pickLine(context, options, pixel);
        centreOn(context, options, pixel);
    }
    hover(context, options, pixel, hovered && !active);
}

}  // namespace firstoff::gui
