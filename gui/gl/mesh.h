// Triangles on the graphics side.
#pragma once

#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "gui/gl/loader.h"

namespace firstoff::gui {

// One corner of a triangle. Normals need not be of unit length.
struct Vertex {
    glm::vec3 place;  // mm
    glm::vec3 normal;
    std::uint32_t colour = 0xffffffffu;  // R, G, B, A from the lowest byte, sRGB; what A means is said by the shader
    float along = 0;                     // mm along the profile of a turned body; 0 elsewhere
};

struct TriangleMesh {
    std::vector<Vertex> vertices;
    std::vector<std::uint32_t> indices;

    void append(const TriangleMesh& other);
    void transform(const glm::mat4& by);  // rigid
};

constexpr std::uint32_t packColour(std::uint32_t rgb, std::uint8_t alpha) {
    return ((rgb >> 16) & 0xff) | (rgb & 0xff00) | ((rgb & 0xff) << 16) | (std::uint32_t{alpha} << 24);
}

// Owns the buffers of one mesh. Attributes: 0 place, 1 normal, 2 colour (normalised), 3 along.
class MeshBuffer {
public:
    MeshBuffer() = default;
    explicit MeshBuffer(const TriangleMesh& mesh) { upload(mesh); }
    ~MeshBuffer();
    MeshBuffer(MeshBuffer&& other) noexcept;
    MeshBuffer& operator=(MeshBuffer&& other) noexcept;

    void upload(const TriangleMesh& mesh);
    void draw() const;
    bool empty() const { return count_ == 0; }
    int triangles() const { return count_ / 3; }

private:
    GLuint array_ = 0, vertices_ = 0, indices_ = 0;
    GLsizei count_ = 0;
};

}  // namespace firstoff::gui
