// What a ray from the eye meets first.
#pragma once

#include <optional>
#include <span>

#include "gui/gl/triangle_mesh.h"
#include "gui/scene/billet_picture.h"
#include "gui/scene/camera.h"

namespace firstoff::gui {

struct RayHit {
    float distance = 0;  // from the ray's origin, mm
    ScenePick pick;
};

// First surface of the turned loops of piece 0 (`fromPiece` 0) or of all others (1), exact (cones, not facets), with
// the cutaway respected.
std::optional<RayHit> hitTurned(std::span<const Loop> loops, int fromPiece, Cutaway cutaway, const Ray& ray);

// Where along the ray the space lies that a cutaway has emptied, mm from its origin; empty where it does not pass
// there.
struct Stretch {
    float from = 0, to = 0;
};
Stretch throughCutaway(Cutaway cutaway, const Ray& ray);

// Distance to the first triangle; nothing if none is met.
std::optional<float> hitMesh(const TriangleMesh& mesh, const glm::mat4& model, const Ray& ray);

}  // namespace firstoff::gui
