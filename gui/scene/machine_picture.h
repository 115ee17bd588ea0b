// The machine of one set-up, ready to be drawn and picked: a mesh for each of its bodies, and where each stands at an
// instant.
//
// Bodies are those that clearances are measured from (sim/clearance/machine_bodies.h), so what is seen is what is
// checked. A few things the set-up says nothing of are drawn as well, because a lathe without them looks like none:
// headstock, the foot of the tailstock, the bed. Nothing is measured from those.
#pragma once

#include <memory>
#include <vector>

#include "gui/gl/mesh.h"
#include "gui/scene/camera.h"
#include "gui/scene/lathe_scene.h"
#include "sim/clearance/machine_bodies.h"

namespace firstoff::gui {

// A mesh on both sides: drawn from the buffer, picked from the triangles.
struct Shape {
    TriangleMesh triangles;
    MeshBuffer buffer;
    glm::vec3 low{0}, high{0};  // box round it, in its own frame

    void set(TriangleMesh mesh);
};

struct PicturedBody {
    int body = kNoBody;  // into MachineBodies::bodies of the trial; kNoBody: for the picture only
    BodyKind kind = BodyKind::Other;
    Carrier carrier = Carrier::Bed;
    int station = 0;
    enum class Look : std::uint8_t {
        Solid,   // painted, ground or black-oxide
        Turned,  // on the spindle axis: shaded as turned metal
        Glass,   // seen through
        Casting  // solid, fades where it stands between the eye and the work
    } look = Look::Solid;
    bool turns = false;  // is seen to turn with the spindle
    Shape shape;
};

struct MachinePicture {
    std::vector<PicturedBody> bodies;
    MeshBuffer bed;
    float bedDepth = 200;   // mm behind the turning half-plane
    float turretAxisR = 0;  // mm, from the turret reference
    firstoff::Setup setup;  // as pictured: with a turret, see withTurret()
    firstoff::MachineBodies machine;

    void build(const Trial& trial);

    // From the frame of a carrier to the scene.
    glm::mat4 placed(const SceneInstant& instant, Carrier carrier, bool turns) const;
    glm::mat4 placed(const SceneInstant& instant, const PicturedBody& body) const {
        return placed(instant, body.carrier, body.turns);
    }
    glm::mat4 spindle(const SceneInstant& instant) const { return placed(instant, Carrier::Spindle, true); }
    // How much of each body is to be seen, 0 to 1: castings and guards by the side they are seen from, others by how
    // much of the cut they would hide, see sight_lines.h.
    std::vector<float> opacities(const SceneInstant& instant, const SceneOptions& options, const Camera& camera) const;

    // Is it cut open together with the billet?
    static bool isCut(const PicturedBody& body, const SceneOptions& options);

    // Is anything before `distance` along the ray?
    bool hides(const SceneInstant& instant, const SceneOptions& options, const Camera& camera, const Ray& ray,
               float distance) const;
    // The first body along the ray, and how far off; kNoBody where there is none or it is for the picture only.
    struct Hit {
        int body = kNoBody;
        float distance = 0;
    };
    Hit firstAlong(const SceneInstant& instant, const SceneOptions& options, const Camera& camera,
                   const Ray& ray) const;

    // Corners of the boxes round the bodies as they stand, guards and doors left out.
    void addCorners(const SceneInstant& instant, std::vector<glm::vec3>& corners) const;
};

// Castings fade where they would stand between the eye and the work, 0 (gone) to 1; `towardsEye` from the camera's
// target.
float headstockOpacity(glm::vec3 towardsEye);  // seen from behind the chuck
float farEndOpacity(glm::vec3 towardsEye);     // tailstock and turret head, seen along the spindle

}  // namespace firstoff::gui
