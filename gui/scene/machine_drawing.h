// The bodies of the machine as one frame shows them: whole, cut open with the billet, or faded. See machine_picture.h
// for what they are.
#pragma once

#include <vector>

#include "gui/scene/lathe_scene.h"
#include "gui/scene/machine_picture.h"
#include "gui/scene/scene_light.h"
#include "gui/scene/studio.h"

namespace firstoff::gui {

// Refers to what the caller owns, for the time of one frame; the light must have been prepared. Each member returns how
// many triangles it drew.
struct MachineDrawing {
    const MachinePicture& machine;
    const std::vector<float>& opacities;  // of the machine's bodies
    const LitShaders& shaders;
    const SceneInstant& instant;
    const SceneOptions& options;
    const Studio& studio;

    // Bodies that hide what stands behind them.
    int drawWhole() const;
    // Chuck and jaws with the billet's cutaway: hatched the other way and wider than the bar, each its own. Culls no
    // faces, since their insides are the section.
    int drawCutOpen(float mmPerPixel) const;
    // What stands between the eye and the work, and guards: over everything else.
    int drawSeenThrough() const;

private:
    bool isWhole(std::size_t body) const;
    int drawSolids() const;
    int drawTurned() const;
    int drawFaded(const PicturedBody& body, float opacity) const;
    int put(const Shader& shader, const PicturedBody& body) const;
};

}  // namespace firstoff::gui
