// How far places are shut off from the room by what stands near them, in screen space.
#pragma once

#include "gui/gl/depth_map.h"
#include "gui/gl/framebuffer.h"
#include "gui/gl/shader.h"
#include "gui/gl/small_objects.h"
#include "gui/scene/camera.h"

namespace firstoff::gui {

class Occlusion {
public:
    // Binds half the picture's size for drawing depths with the shader of depths, seen through `viewProjection`; false
    // where the driver has no such target. finish() makes the map and puts back what was bound before.
    bool begin(const glm::mat4& viewProjection, int widthPx, int heightPx);
    const Shader& shader() const { return depth_; }
    // The same for bodies that are cut: of which `uCutaway` is told. In use after begin() is the other.
    const Shader& cutting() const { return cut_; }
    void finish(const Camera& camera);
    // 1: open, 0: shut off.
    GLuint texture() const { return soft_.texture(); }

private:
    void pass(const Shader& shader, const Framebuffer& into, GLuint first, const glm::vec4& lens);

    Shader depth_{"depth"}, cut_{"depth", "CUTS"}, raw_{"occlusion"}, even_{"occlusion_soft"};
    DepthMap depths_{DepthMap::Read::Plain};
    Framebuffer rough_, soft_;
    VertexArray empty_;
    GLint before_ = 0, viewport_[4] = {};
};

}  // namespace firstoff::gui
