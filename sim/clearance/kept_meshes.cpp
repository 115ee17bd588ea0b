#include "sim/clearance/kept_meshes.h"

#include <algorithm>
#include <bit>
#include <mutex>
#include <numeric>
#include <vector>

namespace firstoff {

namespace {

using Data = BodyShape::Data;

struct Kept {
    std::uint64_t hash = 0;
    std::shared_ptr<const Data> mesh;
};

// Latest used last.
struct Shelf {
    std::mutex mutex;
    std::vector<Kept> kept;
};

Shelf& shelf() {
    static Shelf one;
    return one;
}

std::uint64_t hashOf(const Data& mesh) {
    std::uint64_t hash = mesh.z.size();
    for (const auto* side : {&mesh.z, &mesh.r, &mesh.y}) {
        for (const double x : *side) {
            hash = (hash ^ std::bit_cast<std::uint64_t>(x)) * 0x9e3779b97f4a7c15u;
            hash ^= hash >> 29;
        }
    }
    return hash;
}

std::size_t bytesOf(const Data& mesh) {
    return 3 * mesh.z.size() * sizeof(double) + mesh.pieces.size() * sizeof(Data::Piece) +
           mesh.nodes.size() * sizeof(Data::Node) + mesh.samples.size() * sizeof(SpacePoint);
}

}  // namespace

std::shared_ptr<const Data> keptMesh(const Data& corners) {
    const std::uint64_t hash = hashOf(corners);
    const std::lock_guard lock(shelf().mutex);
    std::vector<Kept>& kept = shelf().kept;
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const Kept& k) {
        return k.hash == hash && k.mesh->z == corners.z && k.mesh->r == corners.r && k.mesh->y == corners.y;
    });
    if (same == kept.end()) return nullptr;
    std::rotate(same, same + 1, kept.end());
    return kept.back().mesh;
}

void keepMesh(const std::shared_ptr<const Data>& mesh) {
    const std::uint64_t hash = hashOf(*mesh);
    const std::lock_guard lock(shelf().mutex);
    std::vector<Kept>& kept = shelf().kept;
    kept.push_back({hash, mesh});
    std::size_t bytes = 0;
    for (const Kept& k : kept) bytes += bytesOf(*k.mesh);
    while (bytes > kMostKeptBytes && !kept.empty()) {
        bytes -= bytesOf(*kept.front().mesh);
        kept.erase(kept.begin());
    }
}

}  // namespace firstoff
