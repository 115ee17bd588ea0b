// A line round two bodies that touch or come too near, showing through whatever stands before them.
//
// The silhouette of each is drawn into a mask of its own channel; the line then runs where the mask ends nearby.
#pragma once

#include "gui/gl/framebuffer.h"
#include "gui/gl/mesh.h"
#include "gui/gl/shader.h"
#include "gui/gl/small_objects.h"
#include "gui/scene/studio.h"

namespace firstoff::gui {

class BodyOutline {
public:
    // Between begin() and finish() the mask is bound; finish() draws the line into what was bound before.
    void begin(const Studio& studio);
    // `which`: 0 or 1.
    void add(const MeshBuffer& mesh, const glm::mat4& model, int which);
    // `warns`: the bodies are near but do not touch; drawn dashed, in the colour of a caution.
    void finish(const Studio& studio, bool warns);

private:
    Shader mask_{"body_mask"}, line_{"body_outline"};
    Framebuffer target_;
    VertexArray empty_;
    GLint before_ = 0;
};

}  // namespace firstoff::gui
