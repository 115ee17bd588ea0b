#include "gui/scene/overlay.h"

#include <cstddef>

namespace firstoff::gui {

Overlay::Overlay() {
    glGenVertexArrays(1, &empty_);
    glGenVertexArrays(1, &array_);
    glGenBuffers(1, &buffer_);
    glBindVertexArray(array_);
    glBindBuffer(GL_ARRAY_BUFFER, buffer_);
    for (GLuint i = 0; i < 2; ++i) {
        glEnableVertexAttribArray(i);
        const std::size_t at = i == 0 ? offsetof(Segment, from) : offsetof(Segment, to);
        glVertexAttribPointer(i, 3, GL_FLOAT, GL_FALSE, sizeof(Segment), reinterpret_cast<const void*>(at));
        glVertexAttribDivisor(i, 1);
    }
    glBindVertexArray(0);
}

Overlay::~Overlay() {
    glDeleteVertexArrays(1, &array_);
    glDeleteVertexArrays(1, &empty_);
    glDeleteBuffers(1, &buffer_);
}

void Overlay::lines(const std::vector<Segment>& segments, const LineStyle& style, const Studio& studio) {
    if (segments.empty()) return;
    studio.light(line_);
    line_.set("uSize", glm::vec2(studio.picture.z, studio.picture.w));
    line_.set("uWidth", style.widthPx);
    line_.set("uColour", style.colour);
    line_.set("uPattern", style.patternPx);
    glBindVertexArray(array_);
    glBindBuffer(GL_ARRAY_BUFFER, buffer_);
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(segments.size() * sizeof(Segment)), segments.data(),
                 GL_STREAM_DRAW);
    glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 4, static_cast<GLsizei>(segments.size()));
    glBindVertexArray(0);
}

void Overlay::datum(glm::vec3 place, float radiusPx, const Studio& studio) {
    studio.light(mark_);
    mark_.set("uSize", glm::vec2(studio.picture.z, studio.picture.w));
    mark_.set("uPlace", place);
    mark_.set("uRadius", radiusPx);
    mark_.set("uDark", studio.markDark());
    mark_.set("uLight", studio.markLight());
    glBindVertexArray(empty_);
    glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
    glBindVertexArray(0);
}

}  // namespace firstoff::gui
