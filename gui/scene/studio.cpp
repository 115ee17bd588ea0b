#include "gui/scene/studio.h"

namespace firstoff::gui {

namespace {

// In the frame of the shop floor: right, plumb up, towards the operator.
glm::vec3 fromFloor(float right, float up, float front) {
    return glm::normalize(glm::vec3(right, 0, 0) + up * kPlumbUp + front * kFront);
}

struct Backdrop {
    unsigned top, bottom, middle;
};
constexpr Backdrop kDark{0x20252c, 0x15181d, 0x39424e};
constexpr Backdrop kLight{0xe3e8ee, 0xc9d0d8, 0xf8fafc};

}  // namespace

glm::vec3 towardsKey() {
    return fromFloor(-0.45f, 0.80f, 0.50f);
}

glm::vec3 rgb(unsigned colour) {
    return glm::vec3((colour >> 16) & 0xff, (colour >> 8) & 0xff, colour & 0xff) / 255.0f;
}

void Studio::light(const Shader& shader) const {
    const Backdrop& backdrop = dark ? kDark : kLight;
    shader.use();
    shader.set("uViewProjection", viewProjection);
    shader.set("uEye", eye);
    shader.set("uPlumbUp", kPlumbUp);
    shader.set("uKey", towardsKey());
    shader.set("uFill", fromFloor(0.85f, 0.10f, 0.50f));
    shader.set("uRim", fromFloor(0.30f, 0.55f, -0.80f));
    shader.set("uAmbient", dark ? 0.80f : 1.15f);
    shader.set("uTop", rgb(backdrop.top));
    shader.set("uBottom", rgb(backdrop.bottom));
    shader.set("uMiddle", rgb(backdrop.middle));
    shader.set("uPicture", picture);
    // Units that nothing else uses; what the shader does not have is passed over.
    constexpr int kShadowUnit = 2, kOpenUnit = 3;
    const auto give = [&](const char* sampler, int unit, GLuint texture) {
        if (texture == 0) return;
        glActiveTexture(GL_TEXTURE0 + static_cast<GLenum>(unit));
        glBindTexture(GL_TEXTURE_2D, texture);
        glActiveTexture(GL_TEXTURE0);
        shader.set(sampler, unit);
    };
    give("uShadowMap", kShadowUnit, shadows);
    give("uOpen", kOpenUnit, open);
    shader.set("uToLight", toShadow);
    shader.set("uShadowPen", shadowPen);
}

glm::vec3 Studio::bedColour() const {
    return rgb(dark ? 0x39404a : 0xd3d9e0);
}
float Studio::shadowDepth() const {
    return dark ? 0.55f : 0.38f;
}
glm::vec4 Studio::lineColour() const {
    return {rgb(dark ? 0xc9d4e2 : 0x35414f), 0.85f};
}
glm::vec4 Studio::markDark() const {
    return {rgb(0x1b1f25), 1};
}
glm::vec4 Studio::markLight() const {
    return {rgb(0xf6f8fa), 1};
}

}  // namespace firstoff::gui
