// Plain bodies for the machine and the tools: prisms of convex polygons with broken edges, and unions of them.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "gui/gl/triangle_mesh.h"

namespace firstoff::gui {

// Anticlockwise, convex.
using Polygon = std::vector<glm::vec2>;

// Smallest convex polygon around the points.
Polygon convexHull(std::vector<glm::vec2> points);
Polygon rectangle(glm::vec2 low, glm::vec2 high);
// Corners on a circle, the first at `start` rad from the first axis.
Polygon regular(int corners, float radius, float start = 0);
// Moved in by `by` on every edge; edges that vanish are left out. Empty when nothing is left.
Polygon inset(const Polygon& polygon, float by);

// `polygon` in the plane of the first two coordinates, from `low` to `high` in the third, all edges of both ends broken
// by `bevel`. `draft` moves the low end in, as the clearance of an insert does. Edges that meet at less than 25° are
// shaded as one round surface.
struct Prism {
    Polygon polygon;
    float low = 0, high = 1;
    float bevel = 0;
    float draft = 0;
};
TriangleMesh prism(const Prism& shape, std::uint32_t colour);

// Box with all edges broken.
TriangleMesh box(glm::vec3 low, glm::vec3 high, float bevel, std::uint32_t colour);

// Darkens a mesh towards a plane: vertices lose `most` of the light at x = `at` and nothing from `at` + `reach` on.
void shadeTowards(TriangleMesh& mesh, float at, float reach, float most);

}  // namespace firstoff::gui
