#include "sim/stock/mesh_check.h"

#include <algorithm>
#include <cstdint>
#include <utility>
#include <vector>

namespace firstoff {

namespace {

using Edge = std::pair<std::uint32_t, std::uint32_t>;  // from corner, to corner

std::vector<Edge> directedEdges(const PartMesh& mesh) {
    std::vector<Edge> edges;
    edges.reserve(mesh.triangles.size() * 3);
    for (const MeshTriangle& t : mesh.triangles) {
        for (std::size_t i = 0; i < 3; ++i) edges.emplace_back(t.corners[i], t.corners[(i + 1) % 3]);
    }
    std::sort(edges.begin(), edges.end());
    return edges;
}

std::size_t openEdges(const std::vector<Edge>& edges) {
    std::size_t open = 0;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        const bool twice = i > 0 && edges[i] == edges[i - 1];
        if (twice || !std::binary_search(edges.begin(), edges.end(), Edge{edges[i].second, edges[i].first})) ++open;
    }
    return open;
}

// Walks round every point from triangle to triangle; in a closed mesh the walk comes back after all of them.
std::size_t pinchedPoints(const PartMesh& mesh) {
    std::vector<std::vector<Edge>> opposite(mesh.points.size());  // sides of a point's triangles that do not meet it
    for (const MeshTriangle& t : mesh.triangles) {
        for (std::size_t i = 0; i < 3; ++i) {
            opposite[t.corners[i]].emplace_back(t.corners[(i + 1) % 3], t.corners[(i + 2) % 3]);
        }
    }
    std::size_t pinched = 0;
    for (std::vector<Edge>& sides : opposite) {
        std::sort(sides.begin(), sides.end());
        std::size_t walked = 0;
        std::uint32_t at = sides.empty() ? 0 : sides.front().first;
        while (walked < sides.size()) {
            const auto next = std::lower_bound(sides.begin(), sides.end(), Edge{at, 0});
            if (next == sides.end() || next->first != at) break;
            at = next->second;
            ++walked;
            if (at == sides.front().first) break;
        }
        if (sides.empty() || walked != sides.size()) ++pinched;
    }
    return pinched;
}

bool isFlat(const PartMesh& mesh, const MeshTriangle& t) {
    const MeshPoint& a = mesh.points[t.corners[0]];
    const MeshPoint& b = mesh.points[t.corners[1]];
    const MeshPoint& c = mesh.points[t.corners[2]];
    return a == b || b == c || c == a;
}

}  // namespace

MeshFaults meshFaults(const PartMesh& mesh) {
    MeshFaults faults;
    faults.openEdges = openEdges(directedEdges(mesh));
    faults.pinchedPoints = pinchedPoints(mesh);
    for (const MeshTriangle& t : mesh.triangles) faults.flatTriangles += isFlat(mesh, t) ? 1 : 0;
    faults.insideOut = !(mesh.volumeMm3() > 0);
    return faults;
}

}  // namespace firstoff
