// Triangles on the graphics side.
#pragma once

#include "gui/gl/loader.h"
#include "gui/gl/triangle_mesh.h"

namespace firstoff::gui {

// Owns the buffers of one mesh. Attributes: 0 place, 1 normal, 2 colour (normalised), 3 along, 4 lay.
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
