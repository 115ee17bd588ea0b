#include "gui/scene/body_outline.h"

#include <algorithm>

namespace firstoff::gui {

void BodyOutline::begin(const Studio& studio) {
    glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &before_);
    target_.resize(std::max(1, static_cast<int>(studio.picture.z)), std::max(1, static_cast<int>(studio.picture.w)), 1);
    target_.bind();
    GLfloat ground[4];
    glGetFloatv(GL_COLOR_CLEAR_VALUE, ground);
    glClearColor(0, 0, 0, 0);
    glClear(GL_COLOR_BUFFER_BIT);
    glClearColor(ground[0], ground[1], ground[2], ground[3]);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_BLEND);
    studio.light(mask_);
}

void BodyOutline::add(const MeshBuffer& mesh, const glm::mat4& model, int which) {
    if (mesh.empty()) return;
    glColorMask(which == 0, which == 1, GL_FALSE, GL_FALSE);
    mask_.set("uModel", model);
    mesh.draw();
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
}

void BodyOutline::finish(const Studio& studio, bool warns) {
    target_.resolve();
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, static_cast<GLuint>(before_));
    glViewport(static_cast<GLint>(studio.picture.x), static_cast<GLint>(studio.picture.y),
               static_cast<GLsizei>(studio.picture.z), static_cast<GLsizei>(studio.picture.w));
    studio.light(line_);
    line_.set("uMask", 0);
    line_.set("uTexel", glm::vec2(1 / studio.picture.z, 1 / studio.picture.w));
    line_.set("uCorner", glm::vec2(studio.picture.x, studio.picture.y));
    line_.set("uWidth", std::clamp(studio.picture.w / 260, 2.0f, 5.0f));
    line_.set("uDash", warns ? 9.0f : 0.0f);
    line_.set("uColour", warns ? glm::vec4(rgb(0xf0b400), 0.95f) : glm::vec4(rgb(0xe0202c), 1));
    glEnable(GL_BLEND);
    glActiveTexture(GL_TEXTURE0);
    glBindTexture(GL_TEXTURE_2D, target_.texture());
    empty_.bind();
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    glBindTexture(GL_TEXTURE_2D, 0);
    glDisable(GL_BLEND);
    glEnable(GL_DEPTH_TEST);
}

}  // namespace firstoff::gui
