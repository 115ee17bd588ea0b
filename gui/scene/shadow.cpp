#include "gui/scene/shadow.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

namespace firstoff::gui {

ShadowFrame shadowFrame(const Camera& camera, float aspect, glm::vec3 towardsKey, int sizePx) {
    constexpr float kMost = 1200, kReach = 2500;  // mm: the machine; from the ball to the light's end
    const float half = camera.distance * std::tan(camera.fieldOfView / 2) * std::sqrt(1 + aspect * aspect);
    const float wanted = std::clamp(1.1f * half, 10.0f, kMost);
    const float radius = std::exp2(std::ceil(std::log2(wanted) * 4) / 4);
    ShadowFrame frame;
    frame.sizePx = sizePx;
    frame.texelMm = 2 * radius / static_cast<float>(sizePx);
    const glm::vec3 up = std::abs(towardsKey.y) > 0.9f ? glm::vec3(1, 0, 0) : glm::vec3(0, 1, 0);
    const glm::mat4 turn = glm::lookAt(glm::vec3(0), -towardsKey, up);
    glm::vec3 middle(turn * glm::vec4(camera.target, 1));
    // Eight texels at a time: then the pattern of its taps stays where it is too.
    const float step = 8 * frame.texelMm;
    middle = glm::round(middle / step) * step;
    const glm::mat4 lens = glm::ortho(middle.x - radius, middle.x + radius, middle.y - radius, middle.y + radius,
                                      -middle.z - kReach, -middle.z + kReach);
    frame.toLight = lens * turn;
    return frame;
}

bool ShadowMap::begin(const ShadowFrame& frame, int sizePx) {
    if (!map_.resize(sizePx, sizePx)) return false;
    glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &before_);
    glGetIntegerv(GL_VIEWPORT, viewport_);
    map_.begin();
    glEnable(GL_DEPTH_CLAMP);
    glEnable(GL_POLYGON_OFFSET_FILL);
    glPolygonOffset(1.5f, 2.0f);
    for (const Shader* shader : {&cut_, &depth_}) {
        shader->use();
        shader->set("uViewProjection", frame.toLight);
    }
    return true;
}

void ShadowMap::finish() {
    glDisable(GL_POLYGON_OFFSET_FILL);
    glDisable(GL_DEPTH_CLAMP);
    glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(before_));
    glViewport(viewport_[0], viewport_[1], viewport_[2], viewport_[3]);
}

}  // namespace firstoff::gui
