// Light, background and colours of the picture, dark or light.
#pragma once

#include <glm/glm.hpp>

#include "gui/gl/shader.h"
#include "gui/scene/camera.h"

namespace firstoff::gui {

// What every shader is told about the picture.
struct Studio {
    glm::mat4 viewProjection{1};
    glm::vec3 eye{0};
    glm::vec3 towardsEye{0, 0, 1};  // from the camera's target, unit
    glm::vec4 picture{0};           // left, bottom, width, height in the framebuffer, pixels
    bool dark = true;
    // Scene to the shadow map, 0 to 1, and what lit() of studio.glsl is told besides; texture 0: no shadows.
    glm::mat4 toShadow{1};
    glm::vec2 shadowPen{0};
    GLuint shadows = 0;
    GLuint open = 0;  // texture of what is shut off from the room; 0: nothing

    // Uses `shader` and sets light, camera and background.
    void light(const Shader& shader) const;
    glm::vec3 bedColour() const;
    float shadowDepth() const;
    glm::vec4 lineColour() const;
    glm::vec4 markDark() const;
    glm::vec4 markLight() const;
};

// Where the key light is, unit vector.
glm::vec3 towardsKey();

// 0xRRGGBB to 0…1.
glm::vec3 rgb(unsigned colour);

}  // namespace firstoff::gui
