// What stands between the eye and the cut, and how far it is to fade.
//
// Lines of sight go from the eye to places that are to be seen: a ring round the tip of the tool at work, and the face
// of a cutaway. The share of them that a body shuts off says how much it fades, so that it does so smoothly as it moves
// in.
#pragma once

#include <vector>

#include "gui/gl/triangle_mesh.h"
#include "gui/scene/camera.h"
#include "gui/scene/lathe_scene.h"

namespace firstoff::gui {

class SightLines {
public:
    SightLines(const SceneInstant& instant, const SceneOptions& options, const Camera& camera);

    // Of a body with this mesh within the box `low`-`high`, both in its own frame: 1 where it hides nothing.
    float opacity(const TriangleMesh& mesh, glm::vec3 low, glm::vec3 high, const glm::mat4& placed) const;

private:
    struct Goals {
        std::vector<glm::vec3> places;
        float weight = 1;
    };
    float hiddenOf(const Goals& goals, const TriangleMesh& mesh, glm::vec3 low, glm::vec3 high,
                   const glm::mat4& placed) const;

    glm::vec3 eye_{0};
    Neighbours how_ = Neighbours::Solid;
    Goals tip_, face_;
};

}  // namespace firstoff::gui
