#include "gui/scene/camera.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

namespace firstoff::gui {

namespace {

constexpr std::array<const char*, 4> kViewNames = {"machine", "part", "tool", "end-on"};
constexpr float kNearest = 5, kFarthest = 8000;  // mm, from the target
constexpr float kSteepest = 1.55f;               // rad; straight down would lose the sense of "up"

struct Axes {
    glm::vec3 right, up;
};
Axes screenAxes(const Camera& camera) {
    const glm::vec3 right = glm::normalize(glm::cross(kPlumbUp, camera.direction()));
    return {right, glm::cross(camera.direction(), right)};
}

}  // namespace

std::optional<ViewName> viewNamed(std::string_view text) {
    if (text == "close") return ViewName::Tool;
    for (std::size_t i = 0; i < kViewNames.size(); ++i) {
        if (text == kViewNames[i]) return static_cast<ViewName>(i);
    }
    return std::nullopt;
}

const char* name(ViewName view) {
    return kViewNames[static_cast<std::size_t>(view)];
}

glm::vec3 Camera::direction() const {
    const glm::vec3 level = std::sin(azimuth) * glm::vec3(1, 0, 0) + std::cos(azimuth) * kFront;
    return std::cos(elevation) * level + std::sin(elevation) * kPlumbUp;
}

glm::mat4 Camera::view() const {
    return glm::lookAt(eye(), target, kPlumbUp);
}

glm::mat4 Camera::projection(float aspect) const {
    return glm::perspective(fieldOfView, aspect, nearest(), farthest());
}

float Camera::mmPerPixel(int heightPx) const {
    return 2 * distance * std::tan(fieldOfView / 2) / static_cast<float>(std::max(1, heightPx));
}

void Camera::orbit(glm::vec2 pixels) {
    constexpr float kRadPerPixel = 0.006f;
    azimuth = std::remainder(azimuth - kRadPerPixel * pixels.x, 6.2831853f);
    elevation = std::clamp(elevation + kRadPerPixel * pixels.y, -kSteepest, kSteepest);
}

void Camera::pan(glm::vec2 pixels, int heightPx) {
    const Axes axes = screenAxes(*this);
    target += mmPerPixel(heightPx) * (-pixels.x * axes.right + pixels.y * axes.up);
}

void Camera::zoom(float factor, glm::vec2 pixel, int widthPx, int heightPx) {
    const float nearer = std::clamp(distance / factor, kNearest, kFarthest);
    const Axes axes = screenAxes(*this);
    const glm::vec2 fromMiddle = pixel - 0.5f * glm::vec2(widthPx, heightPx);
    const float shift = mmPerPixel(heightPx) * (1 - nearer / distance);
    target += shift * (fromMiddle.x * axes.right - fromMiddle.y * axes.up);
    distance = nearer;
}

void Camera::zoomTo(float factor, glm::vec3 place) {
    const float nearer = std::clamp(distance / factor, kNearest, kFarthest);
    // The whole camera shrinks towards the place, so that every ray to it stays where it is.
    target = place + (nearer / distance) * (target - place);
    distance = nearer;
}

Camera between(const Camera& from, const Camera& to, float t) {
    t = std::clamp(t, 0.0f, 1.0f);
    const float s = t * t * (3 - 2 * t);
    Camera result;
    result.target = glm::mix(from.target, to.target, s);
    // Distances change by their ratio, so that coming near does not rush at the end.
    result.distance = from.distance * std::pow(to.distance / from.distance, s);
    result.azimuth = from.azimuth + s * std::remainder(to.azimuth - from.azimuth, 6.2831853f);
    result.elevation = glm::mix(from.elevation, to.elevation, s);
    result.fieldOfView = glm::mix(from.fieldOfView, to.fieldOfView, s);
    return result;
}

Camera framing(glm::vec3 low, glm::vec3 high, float azimuth, float elevation, float aspect, float fieldOfView) {
    Camera camera;
    camera.target = 0.5f * (low + high);
    camera.azimuth = azimuth;
    camera.elevation = elevation;
    camera.fieldOfView = fieldOfView;
    const Axes axes = screenAxes(camera);
    const float tanY = std::tan(fieldOfView / 2);
    const float tanX = tanY * aspect;
    float distance = 1;
    for (int corner = 0; corner < 8; ++corner) {
        const glm::vec3 place((corner & 1) ? high.x : low.x, (corner & 2) ? high.y : low.y,
                              (corner & 4) ? high.z : low.z);
        const glm::vec3 offset = place - camera.target;
        const float depth = glm::dot(offset, camera.direction());
        distance = std::max(distance, depth + std::abs(glm::dot(offset, axes.right)) / tanX);
        distance = std::max(distance, depth + std::abs(glm::dot(offset, axes.up)) / tanY);
    }
    constexpr float kMargin = 1.08f;
    camera.distance = kMargin * distance;
    return camera;
}

Ray rayThrough(const Camera& camera, glm::vec2 pixel, int widthPx, int heightPx) {
    const Axes axes = screenAxes(camera);
    const float tanY = std::tan(camera.fieldOfView / 2);
    const glm::vec2 size(widthPx, heightPx);
    const glm::vec2 fromMiddle = (2.0f * pixel - size) / size.y;
    const glm::vec3 ahead = -camera.direction() + tanY * (fromMiddle.x * axes.right - fromMiddle.y * axes.up);
    return {camera.eye(), glm::normalize(ahead)};
}

}  // namespace firstoff::gui
