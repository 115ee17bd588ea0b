// Cells of a mesh in rows.
//
// Notation. A node is a place in the grid of rows and meridians; its ports are the sides of metal there, from the axis
// outwards: inner, outer, inner, outer and so on. A wall stands between two neighbouring nodes, of one row or of one
// meridian; in it the sides of one node run over to those of the other where the stretches of metal between them
// overlap. A side that has no partner is tied to the one it meets, half way. A cell has four nodes and four walls:
//
//        D --- DC --- C        row above (further from the chuck)
//        |            |
//        AD           BC
//        |            |
//        A --- AB --- B        row below
//     meridian j   meridian j + 1
//
// Round a cell the ways along its walls make closed loops, and each loop is filled with triangles. Since both cells of
// a wall use the same ways, the surface has no gap, whatever stands in the columns. No triangle of a cell has two
// corners of one wall that are not neighbours on its way, for the cell behind the wall might have the same edge.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/mesh_strips.h"

namespace firstoff {

struct MeshPort {
    double r = 0;
    std::uint32_t at = 0;  // point of the mesh
    CutId cut = kUncut;
};
using MeshNode = std::vector<MeshPort>;

// Where a way along a wall leads from a port.
struct MeshWay {
    bool across = false;  // to the other node
    std::uint32_t port = 0;
    std::array<std::uint32_t, 2> ties{};  // points on the way where it turns back; none if both are kNoTie
};
inline constexpr std::uint32_t kNoTie = 0xffffffffu;

struct MeshWall {
    std::vector<MeshWay> fromFirst, fromSecond;  // by port
};

// The points of the ties of a port and the next one outwards. kNoTie: the port's own point.
using MeshTie = std::array<std::uint32_t, 2>;
// By index of the port, for ports of the first and of the second node.
struct MeshTies {
    std::function<MeshTie(std::size_t)> first, second;
};

// `through`: the nodes have the same sides, and each runs over to its like.
MeshWall meshWall(const MeshNode& first, const MeshNode& second, bool through, const MeshTies& ties);

struct MeshCell {
    const MeshNode *a, *b, *c, *d;
    const MeshWall *ab, *bc, *dc, *ad;
};
void fillCell(const MeshCell& cell, MeshStrips& strips);

}  // namespace firstoff
