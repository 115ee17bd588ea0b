#include "tests/gui/mesh_checks.h"

#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace firstoff::gui {

namespace {

using Key = std::array<long, 3>;

Key keyOf(glm::vec3 p) {
    // 1e-4 mm: above single precision at these sizes, far below the distance of any two vertices.
    return {std::lround(p.x * 1e4f), std::lround(p.y * 1e4f), std::lround(p.z * 1e4f)};
}

glm::dvec3 corner(const TriangleMesh& mesh, std::size_t index) {
    return mesh.vertices[mesh.indices[index]].place;
}

}  // namespace

bool watertight(const TriangleMesh& mesh) {
    std::map<std::pair<Key, Key>, int> uses;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        for (std::size_t k = 0; k < 3; ++k) {
            const Key a = keyOf(corner(mesh, i + k));
            const Key b = keyOf(corner(mesh, i + (k + 1) % 3));
            if (a == b) return false;
            ++uses[{a, b}];
        }
    }
    for (const auto& [edge, count] : uses) {
        const auto other = uses.find({edge.second, edge.first});
        if (count != 1 || other == uses.end() || other->second != 1) return false;
    }
    return !uses.empty();
}

double volume(const TriangleMesh& mesh) {
    double sum = 0;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        sum += glm::dot(corner(mesh, i), glm::cross(corner(mesh, i + 1), corner(mesh, i + 2))) / 6;
    }
    return sum;
}

double area(const TriangleMesh& mesh) {
    double sum = 0;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        const glm::dvec3 a = corner(mesh, i);
        sum += 0.5 * glm::length(glm::cross(corner(mesh, i + 1) - a, corner(mesh, i + 2) - a));
    }
    return sum;
}

}  // namespace firstoff::gui
