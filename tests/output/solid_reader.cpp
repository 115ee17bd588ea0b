#include "tests/output/solid_reader.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>
#include <assimp/Importer.hpp>

#include <cmath>
#include <cstring>
#include <stdexcept>

namespace firstoff::shop {

double ReadBody::volume() const {
    double sum = 0;
    for (const auto& t : triangles) {
        const auto& a = points[t[0]];
        const auto& b = points[t[1]];
        const auto& c = points[t[2]];
        sum += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) +
               a[2] * (b[0] * c[1] - b[1] * c[0]);
    }
    return sum / 6;
}

std::vector<ReadBody> readSolids(const std::string& path) {
    Assimp::Importer importer;
    const aiScene* scene = importer.ReadFile(path, 0);
    if (scene == nullptr) throw std::runtime_error(importer.GetErrorString());
    std::vector<ReadBody> bodies;
    for (unsigned m = 0; m < scene->mNumMeshes; ++m) {
        const aiMesh& mesh = *scene->mMeshes[m];
        ReadBody body;
        body.name = mesh.mName.C_Str();
        for (unsigned i = 0; i < mesh.mNumVertices; ++i) {
            const aiVector3D& p = mesh.mVertices[i];
            body.points.push_back({p.x, p.y, p.z});
            if (mesh.HasVertexColors(0)) ++body.coloured;
            if (mesh.HasNormals() && std::abs(mesh.mNormals[i].Length() - 1) < 1e-3f) ++body.lit;
        }
        for (unsigned i = 0; i < mesh.mNumFaces; ++i) {
            const aiFace& face = mesh.mFaces[i];
            if (face.mNumIndices != 3) throw std::runtime_error("a face that is no triangle");
            body.triangles.push_back({face.mIndices[0], face.mIndices[1], face.mIndices[2]});
        }
        bodies.push_back(std::move(body));
    }
    return bodies;
}

ReadBody readStlByHand(const std::string& bytes) {
    constexpr std::size_t kHeader = 80, kRecord = 50;
    std::uint32_t count = 0;
    if (bytes.size() < kHeader + 4) throw std::runtime_error("no header");
    std::memcpy(&count, bytes.data() + kHeader, 4);
    if (bytes.size() != kHeader + 4 + kRecord * count) throw std::runtime_error("the count does not fit the length");
    ReadBody body;
    for (std::uint32_t t = 0; t < count; ++t) {
        std::array<float, 12> figures{};  // normal and three corners
        std::memcpy(figures.data(), bytes.data() + kHeader + 4 + kRecord * t, sizeof figures);
        for (std::size_t i = 3; i < 12; i += 3) body.points.push_back({figures[i], figures[i + 1], figures[i + 2]});
        body.triangles.push_back({3 * t, 3 * t + 1, 3 * t + 2});
        if (std::abs(std::hypot(figures[0], figures[1], figures[2]) - 1) < 1e-3f) body.lit += 3;
    }
    return body;
}

}  // namespace firstoff::shop
