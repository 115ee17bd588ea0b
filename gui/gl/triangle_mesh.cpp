#include "gui/gl/triangle_mesh.h"

namespace firstoff::gui {

void TriangleMesh::append(const TriangleMesh& other) {
    const auto base = static_cast<std::uint32_t>(vertices.size());
    vertices.insert(vertices.end(), other.vertices.begin(), other.vertices.end());
    indices.reserve(indices.size() + other.indices.size());
    for (std::uint32_t index : other.indices) indices.push_back(base + index);
}

void TriangleMesh::transform(const glm::mat4& by) {
    const glm::mat3 turn(by);
    for (Vertex& v : vertices) {
        v.place = glm::vec3(by * glm::vec4(v.place, 1));
        v.normal = turn * v.normal;
    }
}

}  // namespace firstoff::gui
