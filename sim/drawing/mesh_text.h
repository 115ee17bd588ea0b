// What stands in a mesh file, looked through before a library reads it.
//
// Readers of meshes trust counts and keywords, and a damaged file leads them beyond the end of its bytes. So every byte
// is held against the format first, and only a file that keeps to it all through is handed on.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "sim/drawing/mesh.h"

namespace firstoff {

enum class MeshFormat { Stl, Obj };

// By the ending of the file's name; nothing for others.
std::optional<MeshFormat> meshFormat(std::string_view fileName);

struct MeshText {
    std::optional<DrawingFault> fault;  // then it must not be read
    std::uint64_t triangles = 0;        // that it holds
    // What to read in place of the bytes: of an OBJ only its corners and faces, as all else in it leads to other files
    // or says nothing about the shape. Empty: the bytes as they are.
    std::string rewritten;
};

// Any bytes end.
MeshText lookThroughStl(std::string_view bytes, std::string_view fileName);
MeshText lookThroughObj(std::string_view bytes, std::string_view fileName);

}  // namespace firstoff
