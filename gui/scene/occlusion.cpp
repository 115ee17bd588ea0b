#include "gui/scene/occlusion.h"

#include <algorithm>
#include <cmath>

namespace firstoff::gui {

bool Occlusion::begin(const glm::mat4& viewProjection, int widthPx, int heightPx) {
    if (!depths_.resize(std::max(1, widthPx / 2), std::max(1, heightPx / 2))) return false;
    glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &before_);
    glGetIntegerv(GL_VIEWPORT, viewport_);
    depths_.begin();
    for (const Shader* shader : {&cut_, &depth_}) {
        shader->use();
        shader->set("uViewProjection", viewProjection);
    }
    return true;
}

void Occlusion::pass(const Shader& shader, const Framebuffer& into, GLuint first, const glm::vec4& lens) {
    into.bind();
    shader.use();
    shader.set("uTexel", 1.0f / glm::vec2(depths_.width(), depths_.height()));
    shader.set("uLens", lens);
    shader.set("uOcclusionRaw", 0);
    shader.set("uDepth", 1);
    glActiveTexture(GL_TEXTURE1);
    glBindTexture(GL_TEXTURE_2D, depths_.texture());
    glActiveTexture(GL_TEXTURE0);
    glBindTexture(GL_TEXTURE_2D, first);
    empty_.bind();
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    glBindTexture(GL_TEXTURE_2D, 0);
}

void Occlusion::finish(const Camera& camera) {
    rough_.resize(depths_.width(), depths_.height(), 1);
    soft_.resize(depths_.width(), depths_.height(), 1);
    const float up = std::tan(camera.fieldOfView / 2);
    const float aspect = static_cast<float>(depths_.width()) / static_cast<float>(depths_.height());
    const glm::vec4 lens(up * aspect, up, camera.nearest(), camera.farthest());
    const GLboolean cull = glIsEnabled(GL_CULL_FACE);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    // A small part of what is seen: nooks of the part in a view of the part, of the machine in a view of it.
    constexpr float kShare = 0.09f;
    raw_.use();
    raw_.set("uReach", std::clamp(kShare * camera.distance * up * 2, 1.0f, 60.0f));
    raw_.set("uPxPerMm", static_cast<float>(depths_.height()) / (2 * up));
    pass(raw_, rough_, 0, lens);
    pass(even_, soft_, rough_.texture(), lens);
    glEnable(GL_DEPTH_TEST);
    if (cull) glEnable(GL_CULL_FACE);
    glActiveTexture(GL_TEXTURE1);
    glBindTexture(GL_TEXTURE_2D, 0);
    glActiveTexture(GL_TEXTURE0);
    glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(before_));
    glViewport(viewport_[0], viewport_[1], viewport_[2], viewport_[3]);
}

}  // namespace firstoff::gui
