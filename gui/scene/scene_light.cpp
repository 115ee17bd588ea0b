#include "gui/scene/scene_light.h"

#include <algorithm>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/billet_picture.h"
#include "gui/scene/cut_faces.h"
#include "gui/scene/machine_picture.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

std::string cutting(std::string defined) {
    if (!defined.empty()) defined += ' ';
    return defined += "CUTS";
}

const char* definedFor(Quality quality) {
    switch (quality) {
        case Quality::Plain:
            return "";
        case Quality::Fine:
            return "SHADOWS";
        case Quality::Finest:
            return "SHADOWS OCCLUSION";
    }
    return "";
}

Quality lower(Quality quality) {
    return static_cast<Quality>(static_cast<int>(quality) - 1);
}

// The two shaders of depths: of whole bodies, and of those that are cut.
struct DepthShaders {
    const Shader &whole, &cut;
};

void putDepth(const MeshBuffer& mesh, const glm::mat4& model, const Shader& shader) {
    if (mesh.empty()) return;
    shader.use();
    shader.set("uModel", model);
    mesh.draw();
}

void putCutDepth(const MeshBuffer& mesh, const glm::mat4& model, Cutaway cutaway, const Shader& shader) {
    if (mesh.empty()) return;
    shader.use();
    shader.set("uCutaway", cutawayForShaders(cutaway));
    putDepth(mesh, model, shader);
}

void putBilletDepths(const LitBodies& bodies, const DepthShaders& depth) {
    const BilletPicture& billet = bodies.billet;
    const SceneOptions& options = bodies.options;
    const glm::mat4 still(1);
    if (!billet.turns()) {
        putDepth(billet.skin(), still, depth.whole);
    } else if (options.cutaway == Cutaway::None) {
        putDepth(billet.skin(), bodies.machine.spindle(bodies.instant), depth.whole);
    } else {
        putCutDepth(billet.skin(), bodies.machine.spindle(bodies.instant), options.cutaway, depth.cut);
    }
    putDepth(billet.faces(), still, depth.whole);
    if (options.loosePieces != LoosePieces::Aside) return;
    const glm::mat4 aside = glm::translate(still, BilletPicture::looseShift(bodies.instant, options.loosePieces));
    putDepth(billet.looseSkin(), aside, depth.whole);
    putDepth(billet.looseFaces(), aside, depth.whole);
}

// Bodies that stand in the light and before others: all that is not faded.
void putDepths(const LitBodies& bodies, const DepthShaders& depth) {
    const SceneOptions& options = bodies.options;
    for (std::size_t i = 0; i < bodies.machine.bodies.size(); ++i) {
        const PicturedBody& body = bodies.machine.bodies[i];
        if (!options.shows(body.kind) || bodies.opacities[i] < 1) continue;
        const glm::mat4 model = bodies.machine.placed(bodies.instant, body);
        if (MachinePicture::isCut(body, options)) {
            putCutDepth(body.shape.buffer, model, options.cutaway, depth.cut);
        } else {
            putDepth(body.shape.buffer, model, depth.whole);
        }
    }
    if (options.shows(BodyKind::Billet)) putBilletDepths(bodies, depth);
}

}  // namespace

LitShaders::LitShaders(const std::string& defined)
    : metal("metal", defined),
      metalCut("metal", cutting(defined)),
      solid("solid", defined),
      solidCut("solid", cutting(defined)),
      section("section", defined),
      bed("bed", defined) {}

void SceneLight::refuse(Quality quality, const char* why) {
    refused_[static_cast<std::size_t>(quality)] = true;
    const std::string less = tr(name(lower(quality)));
    trouble_ = say("The graphics driver cannot draw the picture in the quality {}; {} is drawn instead. It said: {}",
                   tr(name(quality)), less, why);
}

// The level wanted, or the next lower one that the driver takes. That nothing can be drawn at all is an exception.
Quality SceneLight::shadersFor(Quality wanted) {
    for (Quality quality = wanted;; quality = lower(quality)) {
        const auto at = static_cast<std::size_t>(quality);
        if (quality != Quality::Plain && refused_[at]) continue;
        try {
            if (!shaders_[at]) shaders_[at] = std::make_unique<LitShaders>(definedFor(quality));
            inUse_ = shaders_[at].get();
            return quality;
        } catch (const GraphicsError& error) {
            if (quality == Quality::Plain) throw;
            refuse(quality, error.what());
        }
    }
}

bool SceneLight::castShadows(const LitBodies& bodies, const Camera& camera, Quality quality, Studio& studio) {
    const int sizePx = meansOf(quality).shadowPx;
    const SceneInstant& instant = bodies.instant;
    const SceneOptions& options = bodies.options;
    ShadowOf wanted{instant.trial,
                    instant.timeS,
                    instant.spindleAngle,
                    {},
                    options.hidden,
                    options.cutaway,
                    options.loosePieces,
                    sizePx,
                    {}};
    wanted.frame = shadowFrame(camera, studio.picture.z / std::max(1.0f, studio.picture.w), towardsKey(), sizePx);
    for (const float opacity : bodies.opacities) wanted.seen.push_back(opacity >= 1);
    if (!shadow_) shadow_ = std::make_unique<ShadowMap>();
    if (bodies.billetIsNew || !(wanted == shadowOf_)) {
        if (!shadow_->begin(wanted.frame, sizePx)) return false;
        glDisable(GL_CULL_FACE);
        putDepths(bodies, {shadow_->shader(), shadow_->cutting()});
        shadow_->finish();
        shadowOf_ = wanted;
    }
    const glm::mat4 toUnit = glm::translate(glm::mat4(1), glm::vec3(0.5f)) * glm::scale(glm::mat4(1), glm::vec3(0.5f));
    studio.toShadow = toUnit * wanted.frame.toLight;
    const float reach = quality == Quality::Finest ? 7.0f : 1.6f;  // texels: how soft
    studio.shadowPen = {2.2f * wanted.frame.texelMm, reach / static_cast<float>(sizePx)};
    studio.shadows = shadow_->texture();
    return true;
}

bool SceneLight::shutOff(const LitBodies& bodies, const Camera& camera, Studio& studio) {
    if (!occlusion_) occlusion_ = std::make_unique<Occlusion>();
    const auto width = static_cast<int>(studio.picture.z), height = static_cast<int>(studio.picture.w);
    if (!occlusion_->begin(studio.viewProjection, width, height)) return false;
    glDisable(GL_CULL_FACE);
    putDepths(bodies, {occlusion_->shader(), occlusion_->cutting()});
    occlusion_->finish(camera);
    studio.open = occlusion_->texture();
    return true;
}

Quality SceneLight::prepare(const LitBodies& bodies, const Camera& camera, Studio& studio) {
    Quality quality = shadersFor(bodies.options.quality);
    while (quality != Quality::Plain) {
        const char* refusal = nullptr;
        try {
            if (!castShadows(bodies, camera, quality, studio)) refusal = tr("no shadow map of that size");
            if (!refusal && meansOf(quality).occlusion && !shutOff(bodies, camera, studio))
                refusal = tr("no depths that can be read");
            if (!refusal) return quality;
            refuse(quality, refusal);
        } catch (const GraphicsError& error) {
            refuse(quality, error.what());
        }
        studio.shadows = studio.open = 0;
        quality = shadersFor(lower(quality));
    }
    return quality;
}

}  // namespace firstoff::gui
