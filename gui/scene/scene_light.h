// Light on the picture, made ready before any body is drawn: the shaders of a level of quality, the shadows of the key
// light, and what is shut off from the room by what stands near it.
//
// Use: once a frame prepare(); then light each of shaders() with the studio it has filled in (Studio::light) and draw.
// A level that the graphics driver refuses is never asked for again: the next lower one is taken, and trouble() says
// so. A context of OpenGL must be current, the same one whenever a member is called; nothing is made there before the
// first prepare().
#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "gui/gl/shader.h"
#include "gui/scene/lathe_scene.h"
#include "gui/scene/occlusion.h"
#include "gui/scene/quality.h"
#include "gui/scene/shadow.h"
#include "gui/scene/studio.h"

namespace firstoff::gui {

class BilletPicture;
struct MachinePicture;

// What surfaces are lit with at one level of quality.
struct LitShaders {
    // The ones that cut drop pixels, which keeps software OpenGL from skipping hidden ones: only for bodies that are
    // cut.
    Shader metal, metalCut, solid, solidCut, section, bed;

    // `defined`: names that the texts of the shaders are made with, see quality.h and shaders/studio.glsl.
    explicit LitShaders(const std::string& defined);
};

// All that stands in the light in one frame. Refers to what the caller owns, for as long as one call takes.
struct LitBodies {
    const SceneInstant& instant;
    const SceneOptions& options;
    const MachinePicture& machine;
    const std::vector<float>& opacities;  // of the machine's bodies; those below 1 shut off no light
    const BilletPicture& billet;
    bool billetIsNew = false;  // its mesh was made anew for this frame
};

class SceneLight {
public:
    // Makes shadows and occlusion for `options.quality` and tells `studio` of them; its camera, its eye and the place
    // of the picture must be set. Shadows are made anew only where something that casts them has changed. Returns the
    // level that it comes to. Throws GraphicsError where not even the plain level can be drawn.
    Quality prepare(const LitBodies& bodies, const Camera& camera, Studio& studio);

    // Of the level that the last prepare() came to.
    const LitShaders& shaders() const { return *inUse_; }
    // Half the width of what the shadow map covers, mm; 0 where there has been none.
    float shadowHalfMm() const { return shadowOf_.frame.halfMm(); }
    // What the driver refused; empty while it draws what it is asked for.
    const std::string& trouble() const { return trouble_; }
    // Before another trial: what was kept is of the one before.
    void forget() { shadowOf_ = {}; }

private:
    // What the shadow map stands for: drawn anew only when it would be another.
    struct ShadowOf {
        const Trial* trial = nullptr;
        double timeS = -1, spindleAngle = 0;
        ShadowFrame frame;
        KindSet hidden = 0;
        Cutaway cutaway = Cutaway::None;
        LoosePieces loosePieces = LoosePieces::Aside;
        int sizePx = 0;
        std::vector<bool> seen;

        friend bool operator==(const ShadowOf&, const ShadowOf&) = default;
    };

    void refuse(Quality quality, const char* why);
    Quality shadersFor(Quality wanted);
    bool castShadows(const LitBodies& bodies, const Camera& camera, Quality quality, Studio& studio);
    bool shutOff(const LitBodies& bodies, const Camera& camera, Studio& studio);

    std::array<std::unique_ptr<LitShaders>, kQualities.size()> shaders_;
    std::array<bool, kQualities.size()> refused_{};
    LitShaders* inUse_ = nullptr;
    std::unique_ptr<ShadowMap> shadow_;
    std::unique_ptr<Occlusion> occlusion_;
    ShadowOf shadowOf_;
    std::string trouble_;
};

}  // namespace firstoff::gui
