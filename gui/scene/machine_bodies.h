// The machine of one set-up, ready to be drawn and picked: its bodies, and where each stands at an instant.
#pragma once

#include <vector>

#include "gui/gl/mesh.h"
#include "gui/scene/camera.h"
#include "gui/scene/lathe_scene.h"
#include "gui/scene/turret_shape.h"

namespace firstoff::gui {

// A mesh on both sides: drawn from the buffer, picked from the triangles.
struct Body {
    TriangleMesh triangles;
    MeshBuffer buffer;

    void set(TriangleMesh mesh);
};

struct StationBody {
    int station = 0;
    Body edge, holder;
};

struct MachineBodies {
    Body chuck, centre;  // turned on the spindle axis
    Body jaws, headstock, tailstock, disc, head;
    std::vector<StationBody> stations;
    MeshBuffer bed;
    float bedDepth = 200;  // mm behind the turning half-plane
    TurretShape turret;    // without its meshes, which stand above

    void build(const Setup& setup);

    // From the frame each body is modelled in to the scene.
    glm::mat4 spindleTurned(const SceneInstant& instant) const;  // jaws
    glm::mat4 turretSlid(const SceneInstant& instant) const;     // head
    glm::mat4 turretTurned(const SceneInstant& instant) const;   // disc
    glm::mat4 stationTurned(const SceneInstant& instant, int station) const;

    // Is anything before `distance` along the ray?
    bool hides(const SceneInstant& instant, const SceneOptions& options, const Camera& camera, const Ray& ray,
               float distance) const;
};

// Castings fade where they would stand between the eye and the work, 0 (gone) to 1; `towardsEye` from the camera's
// target.
float headstockOpacity(glm::vec3 towardsEye);  // seen from behind the chuck
float farEndOpacity(glm::vec3 towardsEye);     // tailstock and turret head, seen along the spindle

// Lathe frame to scene frame, in the turning half-plane.
inline glm::vec3 inScene(Point p) {
    return {static_cast<float>(p.z), static_cast<float>(p.r), 0};
}

}  // namespace firstoff::gui
