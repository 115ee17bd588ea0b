#include "sim/drawing/mesh_file.h"

#include <assimp/postprocess.h>
#include <assimp/scene.h>
#include <assimp/Importer.hpp>
#include <exception>
#include <new>
#include <utility>

#include "sim/base/say.h"
#include "sim/drawing/mesh_check.h"
#include "sim/drawing/mesh_text.h"

namespace firstoff {

namespace {

void takeMesh(const aiMesh& mesh, const aiMatrix4x4& place, std::vector<MeshFacet>& triangles) {
    for (unsigned i = 0; i < mesh.mNumFaces; ++i) {
        const aiFace& face = mesh.mFaces[i];
        if (face.mNumIndices != 3) continue;
        MeshFacet& triangle = triangles.emplace_back();
        for (unsigned corner = 0; corner < 3; ++corner) {
            const aiVector3D at = place * mesh.mVertices[face.mIndices[corner]];
            triangle[3 * corner] = at.x;
            triangle[3 * corner + 1] = at.y;
            triangle[3 * corner + 2] = at.z;
        }
    }
}

// What stands in the file only has one level of nodes; there is no way down without end.
void takeNode(const aiScene& scene, const aiNode& node, const aiMatrix4x4& above, std::vector<MeshFacet>& triangles) {
    const aiMatrix4x4 place = above * node.mTransformation;
    for (unsigned i = 0; i < node.mNumMeshes; ++i) takeMesh(*scene.mMeshes[node.mMeshes[i]], place, triangles);
    for (unsigned i = 0; i < node.mNumChildren; ++i) takeNode(scene, *node.mChildren[i], place, triangles);
}

// Empty where the library does not read it after all.
std::vector<MeshFacet> trianglesIn(std::string_view text, MeshFormat format) {
    std::vector<MeshFacet> triangles;
    try {
        Assimp::Importer importer;
        const bool isObj = format == MeshFormat::Obj;
        const unsigned afterwards = isObj ? unsigned{aiProcess_Triangulate} : 0u;
        const aiScene* scene = importer.ReadFileFromMemory(text.data(), text.size(), afterwards, isObj ? "obj" : "stl");
        if (scene != nullptr && scene->mRootNode != nullptr) {
            takeNode(*scene, *scene->mRootNode, aiMatrix4x4(), triangles);
        }
    } catch (const std::bad_alloc&) {
        throw;
    } catch (const std::exception&) {
        triangles.clear();
    }
    return triangles;
}

}  // namespace

Mesh readMesh(std::string_view bytes, std::string_view fileName, DrawingUnit unit) {
    Mesh mesh;
    const auto format = meshFormat(fileName);
    if (!format) {
        mesh.faults.push_back(meshFault("mesh-format-not-read", say("{} is neither STL nor OBJ by its name.", fileName),
                                        tr("Save the body as STL, with a name that ends in .stl.")));
        return mesh;
    }
    const MeshText text =
        *format == MeshFormat::Stl ? lookThroughStl(bytes, fileName) : lookThroughObj(bytes, fileName);
    if (text.fault) {
        mesh.faults.push_back(*text.fault);
        return mesh;
    }
    mesh.triangles = trianglesIn(text.rewritten.empty() ? bytes : std::string_view(text.rewritten), *format);
    // Faces of an OBJ may have corners in a row that make no triangle; what is missing then leaves it open.
    if (*format == MeshFormat::Stl ? mesh.triangles.size() != text.triangles : mesh.triangles.empty()) {
        mesh.faults.push_back(meshFault(
            "mesh-not-readable",
            say("{} should have {} triangles, and {} could be read.", fileName, text.triangles, mesh.triangles.size()),
            tr("Save the body anew as STL from the program it was drawn in.")));
    } else {
        mesh.faults = faultsOf(mesh.triangles, fileName, unit);
    }
    if (!mesh.faults.empty()) mesh.triangles.clear();
    return mesh;
}

}  // namespace firstoff
