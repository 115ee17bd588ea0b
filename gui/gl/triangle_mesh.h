// Triangles before they go to the graphics side; knows nothing of OpenGL.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

namespace firstoff::gui {

// One corner of a triangle. Normals need not be of unit length.
struct Vertex {
    glm::vec3 place;  // mm
    glm::vec3 normal;
    std::uint32_t colour = 0xffffffffu;  // R, G, B, A from the lowest byte, sRGB; what A means is said by the shader
    float along = 0;  // turned bodies: mm along the profile; others: how far the place is shut off from the light, 0…1
    float lay = 0;    // turned bodies: mm from one feed mark to the next; 0 none to be seen
};

struct TriangleMesh {
    std::vector<Vertex> vertices;
    std::vector<std::uint32_t> indices;  // anticlockwise seen from outside

    void append(const TriangleMesh& other);
    void transform(const glm::mat4& by);  // rigid
    int triangles() const { return static_cast<int>(indices.size() / 3); }
};

// `rgb` as 0xRRGGBB.
constexpr std::uint32_t packColour(std::uint32_t rgb, std::uint8_t alpha) {
    return ((rgb >> 16) & 0xff) | (rgb & 0xff00) | ((rgb & 0xff) << 16) | (std::uint32_t{alpha} << 24);
}

}  // namespace firstoff::gui
