// Shadows of the key light: what the light sees, as depths, asked for again when surfaces are lit.
//
// The map covers a ball round what the camera looks at, so that it is as fine as the picture; things outside it that
// shut off its light count as well, since depths are clamped. Its place goes in whole texels and its size in steps, so
// that shadows stand still while the camera moves.
#pragma once

#include <glm/glm.hpp>

#include "gui/gl/depth_map.h"
#include "gui/gl/shader.h"
#include "gui/scene/camera.h"

namespace firstoff::gui {

// Where the map stands for a camera; scene frame to clip space of the light.
struct ShadowFrame {
    glm::mat4 toLight{1};
    float texelMm = 1;
    int sizePx = 0;

    // Half the width of what the map covers.
    float halfMm() const { return 0.5f * texelMm * static_cast<float>(sizePx); }

    friend bool operator==(const ShadowFrame&, const ShadowFrame&) = default;
};
// `towardsKey`: unit vector to the light.
ShadowFrame shadowFrame(const Camera& camera, float aspect, glm::vec3 towardsKey, int sizePx);

class ShadowMap {
public:
    // Binds the map for drawing with the shader of depths; false where the driver has no such map. finish() puts back
    // what was bound before.
    bool begin(const ShadowFrame& frame, int sizePx);
    const Shader& shader() const { return depth_; }
    // The same for bodies that are cut: of which `uCutaway` is told. In use after begin() is the other.
    const Shader& cutting() const { return cut_; }
    void finish();
    GLuint texture() const { return map_.texture(); }

private:
    Shader depth_{"depth"}, cut_{"depth", "CUTS"};
    DepthMap map_{DepthMap::Read::Compared};
    GLint before_ = 0, viewport_[4] = {};
};

}  // namespace firstoff::gui
