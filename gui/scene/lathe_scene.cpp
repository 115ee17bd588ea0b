#include "gui/scene/lathe_scene.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/gl/mesh.h"
#include "gui/scene/billet_picture.h"
#include "gui/scene/machine_shape.h"
#include "gui/scene/overlay.h"
#include "gui/scene/palette.h"
#include "gui/scene/scene_instant.h"
#include "gui/scene/scene_pick.h"
#include "gui/scene/studio.h"
#include "gui/scene/turret_shape.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

float mm(double value) {
    return static_cast<float>(value);
}
glm::vec3 place(Point p) {
    return {mm(p.z), mm(p.r), 0};
}

// A mesh on both sides: drawn from the buffer, picked from the triangles.
struct Body {
    TriangleMesh triangles;
    MeshBuffer buffer;

    void set(TriangleMesh mesh) {
        triangles = std::move(mesh);
        buffer.upload(triangles);
    }
};

struct Station {
    int station = 0;
    Body edge, holder;
};

// How far behind the turning half-plane the bed lies: out of the way of turret and chuck.
float bedDepthOf(const Setup& setup) {
    const double turret = setup.machine.turretRadius > 0 ? setup.machine.turretRadius + kBlockHeight : 0;
    return mm(std::max(turret, setup.chuck.bodyRadius) + 45);
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

// Looking along the spindle from the tailstock's end: castings and centre would stand in the way of the work.
bool seenFromTheEnd(const Studio& studio) {
    return studio.towardsEye.x > 0.92f;
}

float indexAngle(const TurretShape& turret, const SceneInstant& instant) {
    const auto here = static_cast<float>(std::max(instant.station, 1));
    const auto there = static_cast<float>(instant.nextStation > 0 ? instant.nextStation : instant.station);
    const auto count = static_cast<float>(turret.stationCount);
    // The short way round, eased at both ends.
    const float way = std::remainder(std::max(there, 1.0f) - here, count);
    const float t = instant.indexFraction;
    return turret.angleOf(here + way * t * t * (3 - 2 * t));
}

}  // namespace

struct LatheScene::State {
    Shader metal{"metal"}, solid{"solid"}, section{"section"}, bed{"bed"}, background{"background"};
    Overlay overlay;
    BilletPicture billet;
    Body chuck, jaws, headstock, centre, tailstockBody, disc, head;
    MeshBuffer bedPlain;
    GLuint empty = 0;
    TurretShape turret;  // its meshes are moved into the bodies
    std::vector<Station> stations;
    float bedDepth = 200;
    std::shared_ptr<const Trial> trial;
    std::optional<SpindleTurn> spindle;
    FrameFigures figures;

    State() { glGenVertexArrays(1, &empty); }
    ~State() { glDeleteVertexArrays(1, &empty); }

    void build(const Setup& setup);
    void buildBed(const Setup& setup);

    glm::mat4 spindleTurned(const SceneInstant& instant) const {
        return glm::rotate(glm::mat4(1), mm(instant.spindleAngle), {1, 0, 0});
    }
    glm::mat4 turretSlid(const SceneInstant& instant) const {
        const glm::vec3 axis = place(instant.turretReference) + glm::vec3(0, turret.axisAboveReference, 0);
        return glm::translate(glm::mat4(1), axis);
    }
    glm::mat4 turretTurned(const SceneInstant& instant) const {
        return glm::rotate(turretSlid(instant), indexAngle(turret, instant), {1, 0, 0});
    }
    // Of a station's tool, whose mesh stands in working position.
    glm::mat4 stationTurned(const SceneInstant& instant, int station) const {
        const float angle = indexAngle(turret, instant) - turret.angleOf(static_cast<float>(station));
        return glm::rotate(turretSlid(instant), angle, {1, 0, 0});
    }

    void drawBody(const Shader& shader, const MeshBuffer& buffer, const glm::mat4& model);
    void drawSolids(const SceneInstant& instant, const SceneOptions& options, const Studio& studio);
    void drawTurret(const SceneInstant& instant, const SceneOptions& options, bool fromEnd);
    void drawTurned(const SceneOptions& options, const Studio& studio, float mmPerPixel);
    void drawLoose(const SceneInstant& instant, const SceneOptions& options, const Studio& studio, float mmPerPixel);
    void useSection(const Studio& studio, float mmPerPixel, float slope, float opacity);
    void drawBed(const SceneInstant& instant, const SceneOptions& options, const Studio& studio);
    void drawBackground(const Studio& studio);
    void drawMarks(const SceneInstant& instant, const Studio& studio);
    bool hidden(const SceneInstant& instant, const SceneOptions& options, const Ray& ray, float distance) const;
};

void LatheScene::State::build(const Setup& setup) {
    bedDepth = bedDepthOf(setup);
    ChuckShape chuckShape = shapeOf(setup.chuck, setup.stock);
    chuck.set(std::move(chuckShape.body));
    jaws.set(std::move(chuckShape.jaws));
    headstock.set(headstockShape(setup.chuck));
    centre.set(setup.tailstock ? shapeOf(*setup.tailstock) : TriangleMesh{});
    tailstockBody.set(setup.tailstock ? gui::tailstockBody(*setup.tailstock, bedDepth) : TriangleMesh{});
    turret = turretShape(setup, bedDepth);
    disc.set(std::move(turret.disc));
    head.set(std::move(turret.head));
    stations.clear();
    for (StationShape& shape : turret.stations) {
        Station& station = stations.emplace_back();
        station.station = shape.station;
        station.edge.set(std::move(shape.edge));
        station.holder.set(std::move(shape.holder));
    }
    buildBed(setup);
}

void LatheScene::State::buildBed(const Setup& setup) {
    const float reach = std::max(mm(setup.stock.frontZ), 100.0f) + 900;
    const float back = mm(-setup.chuck.bodyLength) - 900;
    bedPlain.upload(bedShape(back, reach, -bedDepth, 0.85f * mm(setup.chuck.bodyRadius) + 40));
}

void LatheScene::State::drawBody(const Shader& shader, const MeshBuffer& buffer, const glm::mat4& model) {
    if (buffer.empty()) return;
    shader.set("uModel", model);
    buffer.draw();
    figures.triangles += buffer.triangles();
}

void LatheScene::State::drawTurret(const SceneInstant& instant, const SceneOptions& options, bool fromEnd) {
    drawBody(solid, disc.buffer, turretTurned(instant));
    if (!fromEnd) drawBody(solid, head.buffer, turretSlid(instant));
    for (const Station& station : stations) {
        const glm::mat4 model = stationTurned(instant, station.station);
        drawBody(solid, station.holder.buffer, model);
        if (options.colourByTool) solid.set("uTint", glm::vec4(rgb(stationColour(station.station)), 0.9f));
        drawBody(solid, station.edge.buffer, model);
        solid.set("uTint", glm::vec4(0));
    }
}

void LatheScene::State::drawSolids(const SceneInstant& instant, const SceneOptions& options, const Studio& studio) {
    studio.light(solid);
    solid.set("uTint", glm::vec4(0));
    if (options.showChuck) {
        drawBody(solid, jaws.buffer, spindleTurned(instant));
        drawBody(solid, headstock.buffer, glm::mat4(1));
    }
    const bool fromEnd = seenFromTheEnd(studio);
    if (options.showTailstock && !fromEnd) drawBody(solid, tailstockBody.buffer, glm::mat4(1));
    if (options.showTurret) drawTurret(instant, options, fromEnd);
}

void LatheScene::State::useSection(const Studio& studio, float mmPerPixel, float slope, float opacity) {
    studio.light(section);
    // About nine pixels, in steps of two so that the pattern stands still through a slow zoom.
    section.set("uSpacing", std::exp2(std::round(std::log2(9 * mmPerPixel))));
    section.set("uSlope", slope);
    section.set("uOpacity", opacity);
}

void LatheScene::State::drawTurned(const SceneOptions& options, const Studio& studio, float mmPerPixel) {
    const Setup& setup = trial->setup;
    studio.light(metal);
    metal.set("uAxis", glm::vec2(0));
    metal.set("uShade", glm::vec4(0, 1, 0, 1));
    if (options.showChuck) drawBody(metal, chuck.buffer, glm::mat4(1));
    if (options.showTailstock && !seenFromTheEnd(studio)) drawBody(metal, centre.buffer, glm::mat4(1));
    if (options.showChuck) {
        // The jaws shut the light off from the bar next to them.
        metal.set("uShade", glm::vec4(setup.chuck.jawLength, 1 / (0.45f * mm(setup.chuck.bodyRadius)), 0.40f, 1));
    }
    drawBody(metal, billet.skin(), glm::mat4(1));
    if (billet.faces().empty()) return;
    useSection(studio, mmPerPixel, 1, 1);
    drawBody(section, billet.faces(), glm::mat4(1));
}

void LatheScene::State::drawLoose(const SceneInstant& instant, const SceneOptions& options, const Studio& studio,
                                  float mmPerPixel) {
    if (billet.looseSkin().empty() || options.loosePieces == LoosePieces::Hidden) return;
    const bool fallen = options.loosePieces == LoosePieces::Fallen;
    const glm::vec3 shift = BilletPicture::looseShift(instant, options.loosePieces);
    const glm::mat4 model = glm::translate(glm::mat4(1), shift);
    const float opacity = fallen ? 0.45f : 1.0f;
    if (fallen) glEnable(GL_BLEND);
    studio.light(metal);
    metal.set("uShade", glm::vec4(0, 1, 0, opacity));
    metal.set("uAxis", glm::vec2(shift.y, shift.z));
    drawBody(metal, billet.looseSkin(), model);
    if (!billet.looseFaces().empty()) {
        useSection(studio, mmPerPixel, -1, opacity);
        drawBody(section, billet.looseFaces(), model);
    }
    glDisable(GL_BLEND);
}

void LatheScene::State::drawBed(const SceneInstant& instant, const SceneOptions& options, const Studio& studio) {
    const Setup& setup = trial->setup;
    const float front = mm(setup.stock.frontZ), R = mm(setup.chuck.bodyRadius);
    const Machine& machine = setup.machine;
    const Point turretAt = instant.turretReference;
    studio.light(bed);
    bed.set("uExtent", glm::vec4(0.5f * front, 60, 720, 620));
    bed.set("uColour", studio.bedColour());
    bed.set("uDarkness", studio.shadowDepth());
    bed.set("uSpindleShadow",
            glm::vec4(-setup.chuck.bodyLength - 260, setup.chuck.jawLength, options.showChuck ? R : 0, bedDepth));
    bed.set("uBilletShadow", glm::vec4(setup.chuck.jawLength, front, setup.stock.outerRadius, bedDepth));
    const float size = options.showTurret ? mm(machine.turretRadius) : 1;
    bed.set("uTurretShadow", glm::vec4(turretAt.z - 30, turretAt.z + machine.turretThickness + 2 * size,
                                       turretAt.r + turret.axisAboveReference, size));
    bedPlain.draw();
    figures.triangles += bedPlain.triangles();
}

void LatheScene::State::drawBackground(const Studio& studio) {
    studio.light(background);
    glDepthFunc(GL_LEQUAL);
    glBindVertexArray(empty);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    glDepthFunc(GL_LESS);
}

void LatheScene::State::drawMarks(const SceneInstant& instant, const Studio& studio) {
    const Setup& setup = trial->setup;
    const float from = -mm(setup.chuck.bodyLength) - 20,
                to = mm(setup.stock.frontZ) + 0.35f * mm(setup.stock.frontZ) + 40;
    const std::vector<Segment> axis{{{from, 0, 0}, {to, 0, 0}}};
    glEnable(GL_BLEND);
    glDepthMask(GL_FALSE);
    LineStyle style{1.4f, studio.lineColour(), kAxisPattern};
    overlay.lines(axis, style, studio);
    glDisable(GL_DEPTH_TEST);
    style.colour.a *= 0.35f;  // seen through the metal
    overlay.lines(axis, style, studio);
    const auto offset = static_cast<std::size_t>(std::clamp(instant.workOffset, 0, 5));
    if (setup.workOffsetGiven[offset])
        overlay.datum(place(setup.workOffsets[offset]), std::clamp(studio.picture.w / 95, 5.0f, 11.0f), studio);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDisable(GL_BLEND);
}

bool LatheScene::State::hidden(const SceneInstant& instant, const SceneOptions& options, const Ray& ray,
                               float distance) const {
    const auto before = [&](const Body& body, const glm::mat4& model) {
        const std::optional<float> hit = hitMesh(body.triangles, model, ray);
        return hit && *hit < distance;
    };
    const glm::mat4 still(1);
    if (options.showChuck &&
        (before(chuck, still) || before(jaws, spindleTurned(instant)) || before(headstock, still))) {
        return true;
    }
    if (options.showTailstock && (before(centre, still) || before(tailstockBody, still))) return true;
    if (!options.showTurret) return false;
    if (before(disc, turretTurned(instant)) || before(head, turretSlid(instant))) return true;
    return std::any_of(stations.begin(), stations.end(), [&](const Station& station) {
        const glm::mat4 model = stationTurned(instant, station.station);
        return before(station.edge, model) || before(station.holder, model);
    });
}

LatheScene::LatheScene() : state_(std::make_unique<State>()) {}
LatheScene::~LatheScene() = default;

void LatheScene::setTrial(std::shared_ptr<const Trial> trial) {
    state_->billet.forget();
    state_->spindle.reset();
    state_->trial = std::move(trial);
    if (!state_->trial) return;
    state_->spindle.emplace(state_->trial->timeline, state_->trial->toolpath);
    state_->build(state_->trial->setup);
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
        glEnable(GL_CULL_FACE);
        s.drawSolids(instant, options, studio);
        s.drawTurned(options, studio, scale);
        if (options.loosePieces == LoosePieces::Aside) s.drawLoose(instant, options, studio, scale);
        s.figures.billetTriangles = s.billet.skin().triangles() + s.billet.faces().triangles();
        glDisable(GL_CULL_FACE);
        if (options.showBed) s.drawBed(instant, options, studio);
        s.drawBackground(studio);
        if (options.loosePieces == LoosePieces::Fallen) s.drawLoose(instant, options, studio, scale);
        if (options.showMarks) s.drawMarks(instant, studio);
    } else {
        s.drawBackground(studio);
    }
}

std::optional<ScenePick> LatheScene::pick(const SceneInstant& instant, const Camera& camera,
                                          const SceneOptions& options, glm::vec2 pixel, int widthPx,
                                          int heightPx) const {
    const State& s = *state_;
    if (!s.trial || instant.trial != s.trial.get()) return std::nullopt;
    const Ray ray = rayThrough(camera, pixel, widthPx, heightPx);
    std::optional<RayHit> hit = hitTurned(s.billet.loops(), 0, options.cutaway, ray);
    if (options.loosePieces != LoosePieces::Hidden) {
        const glm::vec3 shift = BilletPicture::looseShift(instant, options.loosePieces);
        const Ray shifted{ray.origin - shift, ray.direction};
        const std::optional<RayHit> loose = hitTurned(s.billet.loops(), 1, options.cutaway, shifted);
        if (loose && (!hit || loose->distance < hit->distance)) hit = loose;
    }
    if (!hit || s.hidden(instant, options, ray, hit->distance)) return std::nullopt;
    return hit->pick;
}

Camera LatheScene::view(ViewName name, const SceneInstant& instant, float aspect) const {
    const State& s = *state_;
    if (!s.trial) return {};
    const Setup& setup = s.trial->setup;
    const float R = mm(std::max(setup.chuck.bodyRadius, setup.stock.outerRadius)), front = mm(setup.stock.frontZ);
    const float bar = mm(setup.stock.outerRadius);
    constexpr float kSquareOn = 0.5235988f;  // 30° above the horizontal: along the third axis
    switch (name) {
        case ViewName::Machine: {
            const float end = std::max(front + 0.75f * R, mm(setup.chuck.jawLength) + R);
            return framing({-0.9f * R, -1.05f * R, -0.6f * R}, {end, 2.15f * R, 0.6f * R}, 0.34f, 0.42f, aspect, 0.36f);
        }
        case ViewName::Part: {
            const float from = 0.35f * mm(setup.chuck.jawLength);
            const float aside =
                BilletPicture::looseShift(instant, LoosePieces::Aside).x * (s.billet.looseSkin().empty() ? 0.0f : 1.0f);
            return framing({from, -1.25f * bar, 0}, {front + aside + 0.30f * bar + 5, 1.55f * bar, 0}, 0, kSquareOn,
                           aspect, 0.20f);
        }
        case ViewName::Tool: {
            const float half = std::max(14.0f, 0.55f * bar);
            const glm::vec3 tip = place(instant.tip);
            return framing(tip - glm::vec3(half, half, half), tip + glm::vec3(half, 0.8f * half, half), 0.28f, 0.50f,
                           aspect, 0.30f);
        }
        case ViewName::EndOn:
            return framing({front, -R, -R}, {front, 1.6f * R, R}, 0.5f * mm(kPi), 0, aspect, 0.25f);
    }
    return {};
}

glm::vec2 LatheScene::project(Point p, const Camera& camera, int widthPx, int heightPx) {
    const float aspect = static_cast<float>(widthPx) / static_cast<float>(std::max(1, heightPx));
    const glm::vec4 c = camera.projection(aspect) * camera.view() * glm::vec4(place(p), 1);
    return glm::vec2(0.5f + 0.5f * c.x / c.w, 0.5f - 0.5f * c.y / c.w) * glm::vec2(widthPx, heightPx);
}

const FrameFigures& LatheScene::lastFrame() const {
    return state_->figures;
}

}  // namespace firstoff::gui
