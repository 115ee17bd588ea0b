#include "gui/scene/machine_bodies.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/machine_shape.h"
#include "gui/scene/scene_pick.h"

namespace firstoff::gui {

namespace {

float mm(double value) {
    return static_cast<float>(value);
}

// Out of the way of turret and chuck.
float bedDepthOf(const Setup& setup) {
    const double turret = setup.machine.turretRadius > 0 ? setup.machine.turretRadius + kBlockHeight : 0;
    return mm(std::max(turret, setup.chuck.bodyRadius) + 45);
}

TriangleMesh bedOf(const Setup& setup, float depth) {
    const float reach = std::max(mm(setup.stock.frontZ), 100.0f) + 900;
    const float back = mm(-setup.chuck.bodyLength) - 900;
    return bedShape(back, reach, -depth, 0.85f * mm(setup.chuck.bodyRadius) + 40);
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

float falling(float x, float from, float to) {
    const float t = std::clamp((to - x) / (to - from), 0.0f, 1.0f);
    return t * t * (3 - 2 * t);
}

}  // namespace

void Body::set(TriangleMesh mesh) {
    triangles = std::move(mesh);
    buffer.upload(triangles);
}

void MachineBodies::build(const Setup& setup) {
    bedDepth = bedDepthOf(setup);
    bed.upload(bedOf(setup, bedDepth));
    ChuckShape chuckShape = shapeOf(setup.chuck, setup.stock);
    chuck.set(std::move(chuckShape.body));
    jaws.set(std::move(chuckShape.jaws));
    headstock.set(headstockShape(setup.chuck));
    centre.set(setup.tailstock ? shapeOf(*setup.tailstock) : TriangleMesh{});
    tailstock.set(setup.tailstock ? tailstockBody(*setup.tailstock, bedDepth) : TriangleMesh{});
    turret = turretShape(setup, bedDepth);
    disc.set(std::move(turret.disc));
    head.set(std::move(turret.head));
    stations.clear();
    for (StationShape& shape : turret.stations) {
        StationBody& station = stations.emplace_back();
        station.station = shape.station;
        station.edge.set(std::move(shape.edge));
        station.holder.set(std::move(shape.holder));
    }
}

glm::mat4 MachineBodies::spindleTurned(const SceneInstant& instant) const {
    return glm::rotate(glm::mat4(1), mm(instant.spindleAngle), {1, 0, 0});
}

glm::mat4 MachineBodies::turretSlid(const SceneInstant& instant) const {
    return glm::translate(glm::mat4(1), inScene(instant.turretReference) + glm::vec3(0, turret.axisAboveReference, 0));
}

glm::mat4 MachineBodies::turretTurned(const SceneInstant& instant) const {
    return glm::rotate(turretSlid(instant), indexAngle(turret, instant), {1, 0, 0});
}

glm::mat4 MachineBodies::stationTurned(const SceneInstant& instant, int station) const {
    const float angle = indexAngle(turret, instant) - turret.angleOf(static_cast<float>(station));
    return glm::rotate(turretSlid(instant), angle, {1, 0, 0});
}

bool MachineBodies::hides(const SceneInstant& instant, const SceneOptions& options, const Camera& camera,
                          const Ray& ray, float distance) const {
    const auto before = [&](const Body& body, const glm::mat4& model) {
        const std::optional<float> hit = hitMesh(body.triangles, model, ray);
        return hit && *hit < distance;
    };
    constexpr float kSeenThrough = 0.5f;
    const glm::mat4 still(1);
    const bool farEnd = farEndOpacity(camera.direction()) > kSeenThrough;
    if (options.showChuck) {
        if (before(chuck, still) || before(jaws, spindleTurned(instant))) return true;
        if (headstockOpacity(camera.direction()) > kSeenThrough && before(headstock, still)) return true;
    }
    if (options.showTailstock && farEnd && (before(centre, still) || before(tailstock, still))) return true;
    if (!options.showTurret) return false;
    if (before(disc, turretTurned(instant)) || (farEnd && before(head, turretSlid(instant)))) return true;
    return std::any_of(stations.begin(), stations.end(), [&](const StationBody& station) {
        const glm::mat4 model = stationTurned(instant, station.station);
        return before(station.edge, model) || before(station.holder, model);
    });
}

float headstockOpacity(glm::vec3 towardsEye) {
    return 1 - falling(towardsEye.x, -0.42f, -0.20f);
}

float farEndOpacity(glm::vec3 towardsEye) {
    return falling(towardsEye.x, 0.82f, 0.94f);
}

}  // namespace firstoff::gui
