#include "gui/scene/machine_drawing.h"

#include "gui/scene/cut_faces.h"
#include "gui/scene/palette.h"

namespace firstoff::gui {

int MachineDrawing::put(const Shader& shader, const PicturedBody& body) const {
    if (body.shape.buffer.empty()) return 0;
    shader.set("uModel", machine.placed(instant, body));
    body.shape.buffer.draw();
    return body.shape.buffer.triangles();
}

bool MachineDrawing::isWhole(std::size_t body) const {
    const PicturedBody& pictured = machine.bodies[body];
    return options.shows(pictured.kind) && opacities[body] >= 1 && !MachinePicture::isCut(pictured, options);
}

int MachineDrawing::drawSolids() const {
    const Shader& solid = shaders.solid;
    studio.light(solid);
    solid.set("uTint", glm::vec4(0));
    solid.set("uOpacity", 1.0f);
    int triangles = 0;
    for (std::size_t i = 0; i < machine.bodies.size(); ++i) {
        const PicturedBody& body = machine.bodies[i];
        if (body.look == PicturedBody::Look::Turned || !isWhole(i)) continue;
        const bool coloured = options.colouring == Colouring::Tool && body.kind == BodyKind::Edge;
        if (coloured) solid.set("uTint", glm::vec4(rgb(stationColour(body.station)), 0.9f));
        triangles += put(solid, body);
        if (coloured) solid.set("uTint", glm::vec4(0));
    }
    return triangles;
}

int MachineDrawing::drawTurned() const {
    const Shader& metal = shaders.metal;
    studio.light(metal);
    metal.set("uAxis", glm::vec2(0));
    metal.set("uShade", glm::vec4(0, 1, 0, 1));
    int triangles = 0;
    for (std::size_t i = 0; i < machine.bodies.size(); ++i) {
        const PicturedBody& body = machine.bodies[i];
        if (body.look == PicturedBody::Look::Turned && isWhole(i)) triangles += put(metal, body);
    }
    return triangles;
}

int MachineDrawing::drawWhole() const {
    const int solids = drawSolids();
    return solids + drawTurned();
}

int MachineDrawing::drawCutOpen(float mmPerPixel) const {
    int triangles = 0;
    glDisable(GL_CULL_FACE);
    for (std::size_t i = 0; i < machine.bodies.size(); ++i) {
        const PicturedBody& body = machine.bodies[i];
        if (!options.shows(body.kind) || opacities[i] < 1 || !MachinePicture::isCut(body, options)) continue;
        const bool turned = body.look == PicturedBody::Look::Turned;
        const Shader& shader = turned ? shaders.metalCut : shaders.solidCut;
        studio.light(shader);
        shader.set("uCutaway", cutawayForShaders(options.cutaway));
        shader.set("uFaceHatch", glm::vec3((turned ? 1.8f : 1.3f) * kHatchPx * options.lineScale * mmPerPixel,
                                           turned ? 1.0f : -1.0f, 0.13f));
        shader.set("uFaceColour", rgb(palette::kJaw));
        shader.set("uAxis", glm::vec2(0));
        shader.set("uShade", glm::vec4(0, 1, 0, 1));
        shader.set("uTint", glm::vec4(0));
        shader.set("uOpacity", 1.0f);
        triangles += put(shader, body);
    }
    glEnable(GL_CULL_FACE);
    return triangles;
}

// Only what of it is nearest to the eye: its own far sides do not show through.
int MachineDrawing::drawFaded(const PicturedBody& body, float opacity) const {
    const bool turned = body.look == PicturedBody::Look::Turned;
    const Shader& shader = turned ? shaders.metal : shaders.solid;
    studio.light(shader);
    if (turned) {
        shader.set("uAxis", glm::vec2(0));
        shader.set("uShade", glm::vec4(0, 1, 0, opacity));
    } else {
        shader.set("uTint", glm::vec4(0));
        shader.set("uOpacity", opacity);
    }
    if (body.look == PicturedBody::Look::Glass) {
        glDepthMask(GL_FALSE);
        const int triangles = put(shader, body);
        glDepthMask(GL_TRUE);
        return triangles;
    }
    glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
    const int depths = put(shader, body);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    glDepthFunc(GL_LEQUAL);
    const int seen = put(shader, body);
    glDepthFunc(GL_LESS);
    return depths + seen;
}

int MachineDrawing::drawSeenThrough() const {
    int triangles = 0;
    glEnable(GL_BLEND);
    for (std::size_t i = 0; i < machine.bodies.size(); ++i) {
        const PicturedBody& body = machine.bodies[i];
        if (!options.shows(body.kind) || opacities[i] <= 0.01f || opacities[i] >= 1) continue;
        triangles += drawFaded(body, opacities[i]);
    }
    glDisable(GL_BLEND);
    return triangles;
}

}  // namespace firstoff::gui
