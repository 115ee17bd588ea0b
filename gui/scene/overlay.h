// Lines and marks over the picture: axis, datum.
#pragma once

#include <glm/glm.hpp>
#include <vector>

#include "gui/gl/shader.h"
#include "gui/scene/studio.h"

namespace firstoff::gui {

struct Segment {
    glm::vec3 from, to;
};

struct LineStyle {
    float widthPx = 1.5f;
    glm::vec4 colour{1};
    glm::vec4 patternPx{0};  // dash, gap, dot, gap; all 0: a full line
};

// Line type 10 of ISO 128-20 is the long dash and dot that axes are drawn with.
inline const glm::vec4 kAxisPattern{22, 4, 3, 4};

class Overlay {
public:
    Overlay();
    ~Overlay();
    Overlay(const Overlay&) = delete;
    Overlay& operator=(const Overlay&) = delete;

    void lines(const std::vector<Segment>& segments, const LineStyle& style, const Studio& studio);
    // A datum: circle in quarters, `radiusPx` large wherever it stands.
    void datum(glm::vec3 place, float radiusPx, const Studio& studio);

private:
    Shader line_{"line"};
    Shader mark_{"mark"};
    GLuint array_ = 0, buffer_ = 0, empty_ = 0;
};

}  // namespace firstoff::gui
