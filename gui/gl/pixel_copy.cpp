#include "gui/gl/pixel_copy.h"

namespace firstoff::gui {

void PixelCopy::draw(GLuint texture, int left, int bottom) const {
    glActiveTexture(GL_TEXTURE0);
    glBindTexture(GL_TEXTURE_2D, texture);
    shader_.use();
    shader_.set("uDrawn", 0);
    shader_.set("uCorner", glm::vec2(left, bottom));
    empty_.bind();
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    glBindTexture(GL_TEXTURE_2D, 0);
    glUseProgram(0);
}

}  // namespace firstoff::gui
