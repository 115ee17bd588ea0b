#include "gui/scene/sight_lines.h"

#include <algorithm>
#include <cmath>

#include "gui/scene/machine_picture.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/scene_pick.h"

namespace firstoff::gui {

namespace {

// How near the tip is to the bar: 1 at it, 0 well away from it.
float atWork(const SceneInstant& instant) {
    constexpr float kNear = 12, kAway = 40;  // mm
    const Setup& setup = instant.trial->setup;
    const float outside = mm(instant.tip.r - setup.stock.outerRadius), beyond = mm(instant.tip.z - setup.stock.frontZ);
    const float away = std::max({outside, beyond, 0.0f});
    return std::clamp((kAway - away) / (kAway - kNear), 0.0f, 1.0f);
}

// Does the stretch from `from` to `to` meet the box?
bool meetsBox(glm::vec3 from, glm::vec3 to, glm::vec3 low, glm::vec3 high) {
    float enter = 0, leave = 1;
    for (int axis = 0; axis < 3; ++axis) {
        const float way = to[axis] - from[axis];
        if (std::abs(way) < 1e-6f) {
            if (from[axis] < low[axis] || from[axis] > high[axis]) return false;
            continue;
        }
        const float a = (low[axis] - from[axis]) / way, b = (high[axis] - from[axis]) / way;
        enter = std::max(enter, std::min(a, b));
        leave = std::min(leave, std::max(a, b));
    }
    return enter <= leave;
}

}  // namespace

SightLines::SightLines(const SceneInstant& instant, const SceneOptions& options, const Camera& camera)
    : eye_(camera.eye()), how_(options.neighbours) {
    if (how_ == Neighbours::Solid || !instant.trial) return;
    if (instant.toolIndex >= 0) tip_.weight = atWork(instant);
    if (instant.toolIndex >= 0 && tip_.weight > 0) {
        constexpr int kRing = 8;
        const float radius = std::max(1.0f, 0.012f * camera.distance * camera.fieldOfView);
        for (int i = 0; i < kRing; ++i) {
            const float angle = 6.2831853f * static_cast<float>(i) / kRing;
            tip_.places.push_back(inScene(instant.tip) + radius * glm::vec3(std::cos(angle), std::sin(angle), 0));
        }
    }
    if (options.cutaway == Cutaway::None) return;
    const Setup& setup = instant.trial->setup;
    const float from = 0.2f * mm(setup.chuck.jawLength), to = mm(setup.stock.frontZ);
    for (int i = 0; i < 8; ++i) {
        const float z = from + (to - from) * (static_cast<float>(i) + 0.5f) / 8;
        face_.places.push_back({z, 0.75f * mm(setup.stock.outerRadius), 0});
    }
}

float SightLines::hiddenOf(const Goals& goals, const TriangleMesh& mesh, glm::vec3 low, glm::vec3 high,
                           const glm::mat4& placed) const {
    if (goals.places.empty()) return 0;
    const glm::mat4 back = glm::inverse(placed);
    const glm::vec3 from(back * glm::vec4(eye_, 1));
    int hidden = 0;
    for (const glm::vec3& place : goals.places) {
        if (!meetsBox(from, glm::vec3(back * glm::vec4(place, 1)), low, high)) continue;
        const float away = glm::length(place - eye_);
        const std::optional<float> hit = hitMesh(mesh, placed, {eye_, (place - eye_) / away});
        constexpr float kTouching = 0.05f;  // mm: what the cut is on does not hide it
        if (hit && *hit < away - kTouching) ++hidden;
    }
    return goals.weight * static_cast<float>(hidden) / static_cast<float>(goals.places.size());
}

float SightLines::opacity(const TriangleMesh& mesh, glm::vec3 low, glm::vec3 high, const glm::mat4& placed) const {
    if (how_ == Neighbours::Solid) return 1;
    const float hidden = std::max(hiddenOf(tip_, mesh, low, high, placed), hiddenOf(face_, mesh, low, high, placed));
    // A third of the lines is enough to fade it all the way.
    const float fade = std::clamp(3 * hidden, 0.0f, 1.0f);
    constexpr float kFaded = 0.22f;
    return how_ == Neighbours::LeftOut ? 1 - fade : 1 - (1 - kFaded) * fade;
}

}  // namespace firstoff::gui
