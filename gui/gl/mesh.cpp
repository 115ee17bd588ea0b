#include "gui/gl/mesh.h"

#include <cstddef>
#include <utility>
#include <vector>

namespace firstoff::gui {

namespace {

// GL takes offsets into a bound buffer as pointers.
const void* offset(std::size_t bytes) {
    return reinterpret_cast<const void*>(bytes);
}

void describeVertices() {
    constexpr GLsizei stride = sizeof(Vertex);
    for (GLuint i = 0; i < 5; ++i) glEnableVertexAttribArray(i);
    glVertexAttribPointer(0, 3, GL_FLOAT, GL_FALSE, stride, offset(offsetof(Vertex, place)));
    glVertexAttribPointer(1, 3, GL_FLOAT, GL_FALSE, stride, offset(offsetof(Vertex, normal)));
    glVertexAttribPointer(2, 4, GL_UNSIGNED_BYTE, GL_TRUE, stride, offset(offsetof(Vertex, colour)));
    glVertexAttribPointer(3, 1, GL_FLOAT, GL_FALSE, stride, offset(offsetof(Vertex, along)));
    glVertexAttribPointer(4, 1, GL_FLOAT, GL_FALSE, stride, offset(offsetof(Vertex, lay)));
}

template <typename T>
void fill(GLenum target, const std::vector<T>& data) {
    glBufferData(target, static_cast<GLsizeiptr>(data.size() * sizeof(T)), data.data(), GL_DYNAMIC_DRAW);
}

}  // namespace

MeshBuffer::~MeshBuffer() {
    if (array_ == 0) return;
    glDeleteVertexArrays(1, &array_);
    glDeleteBuffers(1, &vertices_);
    glDeleteBuffers(1, &indices_);
}

MeshBuffer::MeshBuffer(MeshBuffer&& other) noexcept {
    *this = std::move(other);
}

MeshBuffer& MeshBuffer::operator=(MeshBuffer&& other) noexcept {
    std::swap(array_, other.array_);
    std::swap(vertices_, other.vertices_);
    std::swap(indices_, other.indices_);
    std::swap(count_, other.count_);
    return *this;
}

void MeshBuffer::upload(const TriangleMesh& mesh) {
    const bool fresh = array_ == 0;
    if (fresh) {
        glGenVertexArrays(1, &array_);
        glGenBuffers(1, &vertices_);
        glGenBuffers(1, &indices_);
    }
    glBindVertexArray(array_);
    glBindBuffer(GL_ARRAY_BUFFER, vertices_);
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_);
    if (fresh) describeVertices();
    fill(GL_ARRAY_BUFFER, mesh.vertices);
    fill(GL_ELEMENT_ARRAY_BUFFER, mesh.indices);
    glBindVertexArray(0);
    count_ = static_cast<GLsizei>(mesh.indices.size());
}

void MeshBuffer::draw() const {
    if (count_ == 0) return;
    glBindVertexArray(array_);
    glDrawElements(GL_TRIANGLES, count_, GL_UNSIGNED_INT, nullptr);
    glBindVertexArray(0);
}

}  // namespace firstoff::gui
