#include "gui/scene/lathe_scene.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/gl/small_objects.h"
#include "gui/scene/billet_picture.h"
#include "gui/scene/body_outline.h"
#include "gui/scene/chip_shape.h"
#include "gui/scene/cut_faces.h"
#include "gui/scene/machine_drawing.h"
#include "gui/scene/machine_picture.h"
#include "gui/scene/named_views.h"
#include "gui/scene/overlay.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/scene_instant.h"
#include "gui/scene/scene_light.h"
#include "gui/scene/scene_pick.h"
#include "gui/scene/studio.h"

namespace firstoff::gui {

namespace {

// 1 up to `from`, 0 from `to` on, smooth between.
float falling(float x, float from, float to) {
    const float t = std::clamp((to - x) / (to - from), 0.0f, 1.0f);
    return t * t * (3 - 2 * t);
}

// States of OpenGL that drawing changes, put back at the end.
class KeepSwitches {
public:
    KeepSwitches()
        : depth_(glIsEnabled(GL_DEPTH_TEST)), cull_(glIsEnabled(GL_CULL_FACE)), blend_(glIsEnabled(GL_BLEND)) {}
    ~KeepSwitches() {
        put(GL_DEPTH_TEST, depth_);
        put(GL_CULL_FACE, cull_);
        put(GL_BLEND, blend_);
        glDepthMask(GL_TRUE);
        glDepthFunc(GL_LESS);
    }
    KeepSwitches(const KeepSwitches&) = delete;
    KeepSwitches& operator=(const KeepSwitches&) = delete;

private:
    static void put(GLenum what, GLboolean on) { on ? glEnable(what) : glDisable(what); }
    GLboolean depth_, cull_, blend_;
};

}  // namespace

// What one picture is drawn from.
struct SceneFrame {
    const SceneInstant& instant;
    const SceneOptions& options;
    const Studio& studio;
    float mmPerPixel;
};

struct LatheScene::State {
    SceneLight light;
    Shader background{"background"};
    Overlay overlay;
    VertexArray empty;
    BilletPicture billet;
    MachinePicture machine;
    MeshBuffer chips;
    BodyOutline outline;
    std::shared_ptr<const Trial> trial;
    std::optional<SpindleTurn> spindle;
    FrameFigures figures;
    std::vector<float> opacities;  // of the machine's bodies, in this frame

    void makeChips(const SceneInstant& instant, const SceneOptions& options);
    void drawChips(const Studio& studio);
    void drawBody(const Shader& shader, const MeshBuffer& buffer, const glm::mat4& model);
    void outlineBodies(const SceneFrame& frame);
    void drawTurned(const SceneFrame& frame);
    void drawLoose(const SceneFrame& frame);
    void useHatching(const SceneFrame& frame);
    const Shader& skinShader(const SceneOptions& options) const;
    void drawSkin(const MeshBuffer& skin, const glm::mat4& model, const SceneOptions& options);
    void useSection(const SceneFrame& frame, float slope, float opacity);
    void drawBed(const SceneFrame& frame);
    void drawBackground(const Studio& studio);
    void drawMarks(const SceneFrame& frame);
    void drawAll(const SceneFrame& frame);
};

// Anew for every frame that shows any: they have moved on.
void LatheScene::State::makeChips(const SceneInstant& instant, const SceneOptions& options) {
    TriangleMesh mesh;
    // One or two ms of software OpenGL a picture: not where it has to be quick.
    if (options.chips && options.quality != Quality::Plain && options.shows(BodyKind::Billet)) {
        for (const ChipCut& cut : chipCutsAt(instant)) mesh.append(chipShape(cut, instant.stock));
    }
    if (!mesh.vertices.empty() || !chips.empty()) chips.upload(mesh);
}

void LatheScene::State::drawChips(const Studio& studio) {
    if (chips.empty()) return;
    const Shader& solid = light.shaders().solid;
    studio.light(solid);
    solid.set("uTint", glm::vec4(0));
    solid.set("uOpacity", 1.0f);
    drawBody(solid, chips, glm::mat4(1));
}

void LatheScene::State::drawBody(const Shader& shader, const MeshBuffer& buffer, const glm::mat4& model) {
    if (buffer.empty()) return;
    shader.set("uModel", model);
    buffer.draw();
    figures.triangles += buffer.triangles();
}

void LatheScene::State::outlineBodies(const SceneFrame& frame) {
    if (frame.options.outlined[0] == kNoBody && frame.options.outlined[1] == kNoBody) return;
    outline.begin(frame.studio);
    for (int which = 0; which < 2; ++which) {
        const int wanted = frame.options.outlined[static_cast<std::size_t>(which)];
        if (wanted == kNoBody) continue;
        if (wanted == 0) {
            outline.add(billet.skin(), billet.turns() ? machine.spindle(frame.instant) : glm::mat4(1), which);
            continue;
        }
        for (const PicturedBody& body : machine.bodies) {
            if (body.body == wanted) outline.add(body.shape.buffer, machine.placed(frame.instant, body), which);
        }
    }
    outline.finish(frame.studio, frame.options.outlineWarns);
}

// The skin of what is not round stands whole: it is cut in drawing.
const Shader& LatheScene::State::skinShader(const SceneOptions& options) const {
    return billet.turns() && options.cutaway != Cutaway::None ? light.shaders().metalCut : light.shaders().metal;
}

void LatheScene::State::drawSkin(const MeshBuffer& skin, const glm::mat4& model, const SceneOptions& options) {
    const Shader& shader = skinShader(options);
    shader.set("uCutaway", cutawayForShaders(options.cutaway));
    shader.set("uFaceHatch", glm::vec3(0));
    drawBody(shader, skin, model);
}

void LatheScene::State::useSection(const SceneFrame& frame, float slope, float opacity) {
    const Shader& section = light.shaders().section;
    frame.studio.light(section);
    section.set("uSpacing", kHatchPx * frame.options.lineScale * frame.mmPerPixel);
    section.set("uLine", 0.15f);
    section.set("uSlope", slope);
    section.set("uOpacity", opacity);
}

// Of surfaces whose sizes are told: about eleven pixels apart, in steps of two; `x` the distance, mm, `y` how many
// lines run round the bar, so that they meet behind it and lean by 45 degrees on it. 0: none.
void LatheScene::State::useHatching(const SceneFrame& frame) {
    const Shader& metal = skinShader(frame.options);
    if (frame.options.colouring != Colouring::Size) return metal.set("uHatch", glm::vec2(0));
    const float spacing = std::exp2(std::round(std::log2(11 * frame.mmPerPixel)));
    const auto turn = 6.2831853f * mm(trial->setup.stock.outerRadius);
    metal.set("uHatch", glm::vec2(spacing, std::max(1.0f, std::round(turn / spacing))));
}

void LatheScene::State::drawTurned(const SceneFrame& frame) {
    const Setup& setup = trial->setup;
    const Shader& metal = skinShader(frame.options);
    frame.studio.light(metal);
    metal.set("uAxis", glm::vec2(0));
    metal.set("uShade", glm::vec4(0, 1, 0, 1));
    if (!frame.options.shows(BodyKind::Billet)) return;
    if (frame.options.shows(BodyKind::Jaws)) {
        // The jaws shut the light off from the bar next to them.
        metal.set("uShade", glm::vec4(setup.chuck.jawLength, 1 / (0.45f * mm(setup.chuck.bodyRadius)), 0.40f, 1));
    }
    useHatching(frame);
    drawSkin(billet.skin(), billet.turns() ? machine.spindle(frame.instant) : glm::mat4(1), frame.options);
    metal.set("uHatch", glm::vec2(0));
    if (billet.faces().empty()) return;
    useSection(frame, 1, 1);
    drawBody(light.shaders().section, billet.faces(), glm::mat4(1));
}

void LatheScene::State::drawLoose(const SceneFrame& frame) {
    if (billet.looseSkin().empty() || frame.options.loosePieces == LoosePieces::Hidden ||
        !frame.options.shows(BodyKind::Billet))
        return;
    const bool fallen = frame.options.loosePieces == LoosePieces::Fallen;
    const glm::vec3 shift = BilletPicture::looseShift(frame.instant, frame.options.loosePieces);
    const glm::mat4 model = glm::translate(glm::mat4(1), shift);
    const float opacity = fallen ? 0.45f : 1.0f;
    if (fallen) glEnable(GL_BLEND);
    const Shader& metal = skinShader(frame.options);
    frame.studio.light(metal);
    metal.set("uShade", glm::vec4(0, 1, 0, opacity));
    metal.set("uAxis", glm::vec2(shift.y, shift.z));
    useHatching(frame);
    drawSkin(billet.looseSkin(), model, frame.options);
    metal.set("uHatch", glm::vec2(0));
    if (!billet.looseFaces().empty()) {
        useSection(frame, -1, opacity);
        drawBody(light.shaders().section, billet.looseFaces(), model);
    }
    glDisable(GL_BLEND);
}

void LatheScene::State::drawBed(const SceneFrame& frame) {
    const Setup& setup = trial->setup;
    const float front = mm(setup.stock.frontZ), R = mm(setup.chuck.bodyRadius);
    const Point turretAt = frame.instant.turretReference;
    const Shader& bed = light.shaders().bed;
    frame.studio.light(bed);
    bed.set("uExtent", glm::vec4(0.5f * front, 60, 720, 620));
    bed.set("uColour", frame.studio.bedColour());
    // Cast shadows take the place of half of those that are guessed.
    bed.set("uDarkness", (frame.studio.shadows != 0 ? 0.6f : 1.0f) * frame.studio.shadowDepth());
    // In a view of the work the map ends before the bed, which lies far behind.
    const float covered = 1 - falling(light.shadowHalfMm(), 180, 420);
    bed.set("uCast", 0.8f * covered * frame.studio.shadowDepth());
    bed.set("uSpindleShadow", glm::vec4(-setup.chuck.bodyLength - 260, setup.chuck.jawLength,
                                        frame.options.shows(BodyKind::ChuckBody) ? R : 0, machine.bedDepth));
    bed.set("uBilletShadow", glm::vec4(setup.chuck.jawLength, front, setup.stock.outerRadius, machine.bedDepth));
    const float size = frame.options.shows(BodyKind::TurretDisc) ? mm(setup.machine.turretRadius) : 1;
    bed.set("uTurretShadow", glm::vec4(turretAt.z - 30, turretAt.z + setup.machine.turretThickness + 2 * size,
                                       turretAt.r + machine.turretAxisR, size));
    machine.bed.draw();
    figures.triangles += machine.bed.triangles();
}

void LatheScene::State::drawBackground(const Studio& studio) {
    studio.light(background);
    glDepthFunc(GL_LEQUAL);
    empty.bind();
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    glDepthFunc(GL_LESS);
}

void LatheScene::State::drawMarks(const SceneFrame& frame) {
    const Setup& setup = trial->setup;
    const float from = -mm(setup.chuck.bodyLength) - 20,
                to = mm(setup.stock.frontZ) + 0.35f * mm(setup.stock.frontZ) + 40;
    const std::vector<Segment> axis{{{from, 0, 0}, {to, 0, 0}}};
    glEnable(GL_BLEND);
    glDepthMask(GL_FALSE);
    LineStyle style{1.4f * frame.options.lineScale, frame.studio.lineColour(), kAxisPattern};
    overlay.lines(axis, style, frame.studio);
    glDisable(GL_DEPTH_TEST);
    style.colour.a *= 0.35f;  // seen through the metal
    overlay.lines(axis, style, frame.studio);
    if (setup.workOffsetGiven[static_cast<std::size_t>(frame.instant.workOffset)])
        overlay.datum(inScene(frame.instant.datum),
                      frame.options.lineScale * std::clamp(frame.studio.picture.w / 95, 5.0f, 11.0f), frame.studio);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDisable(GL_BLEND);
}

void LatheScene::State::drawAll(const SceneFrame& frame) {
    // Near things first, the background last: what is hidden costs nothing.
    glEnable(GL_CULL_FACE);
    const MachineDrawing bodies{machine, opacities, light.shaders(), frame.instant, frame.options, frame.studio};
    figures.triangles += bodies.drawWhole() + bodies.drawCutOpen(frame.mmPerPixel);
    drawChips(frame.studio);
    drawTurned(frame);
    if (frame.options.loosePieces == LoosePieces::Aside) drawLoose(frame);
    figures.billetTriangles = billet.skin().triangles() + billet.faces().triangles();
    glDisable(GL_CULL_FACE);
    if (frame.options.showBed) drawBed(frame);
    drawBackground(frame.studio);
    if (frame.options.loosePieces == LoosePieces::Fallen) drawLoose(frame);
    if (frame.options.showMarks) drawMarks(frame);
    glEnable(GL_CULL_FACE);
    figures.triangles += bodies.drawSeenThrough();
    glDisable(GL_CULL_FACE);
    outlineBodies(frame);
}

LatheScene::LatheScene() : state_(std::make_unique<State>()) {}
LatheScene::~LatheScene() = default;

void LatheScene::setTrial(std::shared_ptr<const Trial> trial) {
    state_->billet.forget();
    state_->spindle.reset();
    state_->light.forget();
    state_->trial = std::move(trial);
    if (!state_->trial) return;
    state_->spindle.emplace(state_->trial->timeline, state_->trial->toolpath);
    state_->machine.build(*state_->trial);
}

SceneInstant LatheScene::at(double timeS, StockCursor* cursor) const {
    if (!state_->trial) return {};
    return instantAt(*state_->trial, cursor, *state_->spindle, timeS);
}

void LatheScene::draw(const SceneInstant& instant, const Camera& camera, const SceneOptions& options, int widthPx,
                      int heightPx) {
    State& s = *state_;
    s.figures = {};
    const KeepSwitches keep;
    GLint viewport[4];
    glGetIntegerv(GL_VIEWPORT, viewport);
    Studio studio;
    studio.viewProjection =
        camera.projection(static_cast<float>(widthPx) / static_cast<float>(std::max(1, heightPx))) * camera.view();
    studio.eye = camera.eye();
    studio.towardsEye = camera.direction();
    studio.picture = glm::vec4(viewport[0], viewport[1], widthPx, heightPx);
    studio.dark = options.dark;

    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDisable(GL_BLEND);
    // The picture itself stays opaque, whatever is blended into it: a window may lay it over something else.
    glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ZERO, GL_ONE);
    glClear(GL_DEPTH_BUFFER_BIT);
    if (s.trial && instant.trial == s.trial.get()) {
        const float scale = camera.mmPerPixel(heightPx);
        s.figures.rebuilt = s.billet.update(instant, options, scale);
        s.makeChips(instant, options);
        s.opacities = s.machine.opacities(instant, options, camera);
        s.light.prepare({instant, options, s.machine, s.opacities, s.billet, s.figures.rebuilt}, camera, studio);
        s.drawAll({instant, options, studio, scale});
    } else {
        s.drawBackground(studio);
    }
}

std::optional<ScenePick> LatheScene::pick(const SceneInstant& instant, const Camera& camera,
                                          const SceneOptions& options, glm::vec2 pixel, int widthPx,
                                          int heightPx) const {
    const State& s = *state_;
    if (!s.trial || instant.trial != s.trial.get() || !options.shows(BodyKind::Billet)) return std::nullopt;
    const Ray ray = rayThrough(camera, pixel, widthPx, heightPx);
    std::optional<RayHit> hit = hitTurned(s.billet.loops(), 0, options.cutaway, ray);
    if (options.loosePieces != LoosePieces::Hidden) {
        const glm::vec3 shift = BilletPicture::looseShift(instant, options.loosePieces);
        const Ray shifted{ray.origin - shift, ray.direction};
        const std::optional<RayHit> loose = hitTurned(s.billet.loops(), 1, options.cutaway, shifted);
        if (loose && (!hit || loose->distance < hit->distance)) hit = loose;
    }
    if (!hit || s.machine.hides(instant, options, camera, ray, hit->distance)) return std::nullopt;
    return hit->pick;
}

int LatheScene::pickBody(const SceneInstant& instant, const Camera& camera, const SceneOptions& options,
                         glm::vec2 pixel, int widthPx, int heightPx) const {
    const State& s = *state_;
    if (!s.trial || instant.trial != s.trial.get()) return kNoBody;
    const Ray ray = rayThrough(camera, pixel, widthPx, heightPx);
    const MachinePicture::Hit machine = s.machine.firstAlong(instant, options, camera, ray);
    if (options.shows(BodyKind::Billet)) {
        const std::optional<RayHit> billet = hitTurned(s.billet.loops(), 0, options.cutaway, ray);
        if (billet && billet->distance < machine.distance) return 0;
    }
    return machine.body;
}

std::optional<glm::vec3> LatheScene::placeUnder(const SceneInstant& instant, const Camera& camera,
                                                const SceneOptions& options, glm::vec2 pixel, int widthPx,
                                                int heightPx) const {
    const State& s = *state_;
    if (!s.trial || instant.trial != s.trial.get()) return std::nullopt;
    const Ray ray = rayThrough(camera, pixel, widthPx, heightPx);
    float nearest = s.machine.firstAlong(instant, options, camera, ray).distance;
    if (options.shows(BodyKind::Billet)) {
        const std::optional<RayHit> billet = hitTurned(s.billet.loops(), 0, options.cutaway, ray);
        if (billet) nearest = std::min(nearest, billet->distance);
    }
    if (!std::isfinite(nearest)) return std::nullopt;
    return ray.origin + nearest * ray.direction;
}

Camera LatheScene::view(ViewName name, const SceneInstant& instant, float aspect) const {
    const State& s = *state_;
    if (!s.trial) return {};
    const bool loose = !s.billet.looseSkin().empty();
    const float aside = loose ? BilletPicture::looseShift(instant, LoosePieces::Aside).x : 0.0f;
    if (name == ViewName::Machine) {
        // Where the turret goes at the end of the day counts as well, so that it does not leave the picture.
        SceneInstant home = instant;
        home.turretReference = s.trial->setup.machine.home;
        std::vector<glm::vec3> corners;
        s.machine.addCorners(instant, corners);
        s.machine.addCorners(home, corners);
        if (!corners.empty()) return wholeMachineView(corners, aspect);
    }
    return namedView(name, s.trial->setup, instant.tip, aside, aspect);
}

glm::vec3 LatheScene::shiftOf(int piece, const SceneInstant& instant, LoosePieces how) {
    const bool apart = how != LoosePieces::Hidden && BilletPicture::hasFallen(piece, instant);
    return apart ? BilletPicture::looseShift(instant, how) : glm::vec3(0);
}

glm::vec2 LatheScene::project(SpacePoint p, const Camera& camera, int widthPx, int heightPx) {
    const float aspect = static_cast<float>(widthPx) / static_cast<float>(std::max(1, heightPx));
    const glm::vec4 c = camera.projection(aspect) * camera.view() * glm::vec4(inScene(p), 1);
    return glm::vec2(0.5f + 0.5f * c.x / c.w, 0.5f - 0.5f * c.y / c.w) * glm::vec2(widthPx, heightPx);
}

const std::string& LatheScene::trouble() const {
    return state_->light.trouble();
}

const FrameFigures& LatheScene::lastFrame() const {
    return state_->figures;
}

}  // namespace firstoff::gui
