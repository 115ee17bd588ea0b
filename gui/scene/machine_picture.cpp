#include "gui/scene/machine_picture.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <limits>

#include "gui/scene/body_shapes.h"
#include "gui/scene/machine_shape.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/scene_pick.h"
#include "gui/scene/sight_lines.h"
#include "gui/scene/turret_shape.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

// Out of the way of turret and chuck.
float bedDepthOf(const firstoff::Setup& setup) {
    double turret = 0;
    if (setup.turret && setup.turret->kind == Turret::Kind::Disc) turret = setup.machine.turretRadius + kUsualBlockMm;
    if (setup.turret && setup.turret->kind == Turret::Kind::Gang) turret = -setup.turret->plateY.min;
    return mm(std::max({turret, setup.chuck.bodyRadius, setup.tailstock ? setup.tailstock->castingRadius : 0.0}) + 45);
}

TriangleMesh bedOf(const firstoff::Setup& setup, float depth) {
    const float reach = std::max(mm(setup.stock.frontZ), 100.0f) + 900;
    const float back = mm(-setup.chuck.bodyLength) - 900;
    return bedShape(back, reach, -depth, 0.85f * mm(setup.chuck.bodyRadius) + 40);
}

PicturedBody::Look lookOf(const MachineBody& body) {
    switch (body.kind) {
        case BodyKind::ChuckBody:
        case BodyKind::SecondChuckBody:
        case BodyKind::Centre:
        case BodyKind::Quill:
            return PicturedBody::Look::Turned;
        case BodyKind::TailstockCasting:
        case BodyKind::TurretHead:
            return PicturedBody::Look::Casting;
        case BodyKind::Guard:
        case BodyKind::Door:
            return PicturedBody::Look::Glass;
        default:
            return PicturedBody::Look::Solid;
    }
}

// The body of the trial that a pictured one stands for. They differ where the picture has stood a turret up.
int bodyOfTrial(const MachineBody& pictured, const firstoff::MachineBodies& own) {
    for (std::size_t i = 1; i < own.bodies.size(); ++i) {
        const MachineBody& body = own.bodies[i];
        if (body.kind == pictured.kind && body.station == pictured.station && body.name == pictured.name)
            return static_cast<int>(i);
    }
    return kNoBody;
}

float falling(float x, float from, float to) {
    const float t = std::clamp((to - x) / (to - from), 0.0f, 1.0f);
    return t * t * (3 - 2 * t);
}

void addCasting(std::vector<PicturedBody>& bodies, BodyKind kind, Carrier carrier, TriangleMesh mesh) {
    if (mesh.indices.empty()) return;
    PicturedBody& casting = bodies.emplace_back();
    casting.kind = kind;
    casting.carrier = carrier;
    casting.look = PicturedBody::Look::Casting;
    casting.shape.set(std::move(mesh));
}

}  // namespace

void Shape::set(TriangleMesh mesh) {
    triangles = std::move(mesh);
    low = high = triangles.vertices.empty() ? glm::vec3(0) : triangles.vertices.front().place;
    for (const Vertex& v : triangles.vertices) {
        low = glm::min(low, v.place);
        high = glm::max(high, v.place);
    }
    buffer.upload(triangles);
}

void MachinePicture::build(const Trial& trial) {
    setup = withTurret(trial.setup);
    machine = machineBodies(setup);
    turretAxisR = mm(machine.turretAxisR);
    bedDepth = bedDepthOf(setup);
    bed.upload(bedOf(setup, bedDepth));
    const firstoff::MachineBodies own =
        trial.clearance.bodies ? *trial.clearance.bodies : firstoff::machineBodies(trial.setup);
    bodies.clear();
    for (std::size_t i = 1; i < machine.bodies.size(); ++i) {
        const MachineBody& body = machine.bodies[i];
        TriangleMesh mesh = shapeOf(body, setup, machine);
        if (mesh.indices.empty()) continue;
        PicturedBody& pictured = bodies.emplace_back();
        pictured.body = bodyOfTrial(body, own);
        pictured.kind = body.kind;
        pictured.carrier = body.carrier;
        pictured.station = body.station;
        pictured.look = lookOf(body);
        pictured.turns = body.kind == BodyKind::Jaws;
        pictured.shape.set(std::move(mesh));
    }
    addCasting(bodies, BodyKind::ChuckBody, Carrier::Bed, headstockShape(setup.chuck));
    if (setup.tailstock) {
        addCasting(bodies, BodyKind::TailstockCasting, Carrier::Tailstock, tailstockFoot(*setup.tailstock, bedDepth));
    }
    if (setup.secondSpindle) {
        addCasting(bodies, BodyKind::SecondChuckBody, Carrier::SecondSpindle,
                   facedAbout(headstockShape(setup.secondSpindle->chuck)));
    }
}

glm::mat4 MachinePicture::placed(const SceneInstant& instant, Carrier carrier, bool turns) const {
    const glm::mat4 still(1);
    switch (carrier) {
        case Carrier::Bed:
            return still;
        case Carrier::Spindle:
            return turns ? glm::rotate(still, mm(instant.spindleAngle), {1, 0, 0}) : still;
        case Carrier::TurretSlide:
            return glm::translate(still, inScene(instant.turretReference));
        case Carrier::Turret: {
            const glm::vec3 axis(0, turretAxisR, 0);
            glm::mat4 model = glm::translate(still, inScene(instant.turretReference) + axis);
            if (machine.stations > 0) {
                const double turn = -2 * kPi * (instant.discAt - 1) / machine.stations;
                model = glm::rotate(model, mm(turn), {1, 0, 0});
            }
            return glm::translate(model, -axis);
        }
        case Carrier::Tailstock:
            return glm::translate(still, {mm(instant.tailstockZ.value_or(0)), 0, 0});
        case Carrier::SecondSpindle:
            return glm::translate(still, {mm(instant.secondSpindleZ.value_or(0)), 0, 0});
    }
    return still;
}

namespace {

float opacityFrom(const PicturedBody& body, glm::vec3 towardsEye) {
    constexpr float kGlass = 0.28f;
    if (body.look == PicturedBody::Look::Glass) return kGlass;
    if (body.kind == BodyKind::ChuckBody && body.look == PicturedBody::Look::Casting)
        return headstockOpacity(towardsEye);
    const bool farEnd = body.look == PicturedBody::Look::Casting || body.carrier == Carrier::Tailstock ||
                        body.carrier == Carrier::SecondSpindle;
    return farEnd ? farEndOpacity(towardsEye) : 1.0f;
}

// The tool at work is what the cut is made with.
bool cuts(const PicturedBody& body, const SceneInstant& instant) {
    return body.station == instant.station && (body.kind == BodyKind::Edge || body.kind == BodyKind::Holder);
}

}  // namespace

bool MachinePicture::isCut(const PicturedBody& body, const SceneOptions& options) {
    const bool grips =
        body.carrier == Carrier::Spindle && (body.kind == BodyKind::ChuckBody || body.kind == BodyKind::Jaws);
    return grips && options.cutaway != Cutaway::None && options.neighbours != Neighbours::Solid;
}

std::vector<float> MachinePicture::opacities(const SceneInstant& instant, const SceneOptions& options,
                                             const Camera& camera) const {
    const SightLines sight(instant, options, camera);
    std::vector<float> result;
    for (const PicturedBody& body : bodies) {
        float opacity = opacityFrom(body, camera.direction());
        const bool mayHide = opacity > 0.01f && body.look != PicturedBody::Look::Glass && options.shows(body.kind);
        if (mayHide && !cuts(body, instant) && !isCut(body, options))
            opacity *= sight.opacity(body.shape.triangles, body.shape.low, body.shape.high, placed(instant, body));
        result.push_back(opacity);
    }
    return result;
}

MachinePicture::Hit MachinePicture::firstAlong(const SceneInstant& instant, const SceneOptions& options,
                                               const Camera& camera, const Ray& ray) const {
    constexpr float kSeenThrough = 0.5f;
    Hit nearest{kNoBody, std::numeric_limits<float>::infinity()};
    const std::vector<float> seen = opacities(instant, options, camera);
    for (std::size_t i = 0; i < bodies.size(); ++i) {
        const PicturedBody& body = bodies[i];
        if (!options.shows(body.kind) || seen[i] <= kSeenThrough) continue;
        std::optional<float> hit = hitMesh(body.shape.triangles, placed(instant, body), ray);
        const Stretch empty = isCut(body, options) ? throughCutaway(options.cutaway, ray) : Stretch{};
        if (hit && *hit >= empty.from && *hit < empty.to) {
            // What was cut away hides nothing.
            hit = hitMesh(body.shape.triangles, placed(instant, body),
                          {ray.origin + empty.to * ray.direction, ray.direction});
            if (hit) *hit += empty.to;
        }
        if (hit && *hit < nearest.distance) nearest = {body.body, *hit};
    }
    return nearest;
}

bool MachinePicture::hides(const SceneInstant& instant, const SceneOptions& options, const Camera& camera,
                           const Ray& ray, float distance) const {
    return firstAlong(instant, options, camera, ray).distance < distance;
}

void MachinePicture::addCorners(const SceneInstant& instant, std::vector<glm::vec3>& corners) const {
    for (const MachineBody& body : machine.bodies) {
        if (body.kind == BodyKind::Guard || body.kind == BodyKind::Door) continue;
        const glm::mat4 model = placed(instant, body.carrier, false);
        for (const ConvexPiece& piece : body.pieces) {
            const SpaceBox box = boundingBox(piece);
            for (int corner = 0; corner < 8; ++corner) {
                const SpacePoint p{corner & 1 ? box.max.z : box.min.z, corner & 2 ? box.max.r : box.min.r,
                                   corner & 4 ? box.max.y : box.min.y};
                corners.push_back(glm::vec3(model * glm::vec4(inScene(p), 1)));
            }
        }
    }
}

float headstockOpacity(glm::vec3 towardsEye) {
    return 1 - falling(towardsEye.x, -0.42f, -0.20f);
}

float farEndOpacity(glm::vec3 towardsEye) {
    return falling(towardsEye.x, 0.82f, 0.94f);
}

}  // namespace firstoff::gui
