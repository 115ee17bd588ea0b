#include "gui/scene/solid_mesh.h"

#include <cmath>
#include <map>
#include <utility>

#include "sim/base/units.h"
#include "sim/output/mesh_shading.h"

namespace firstoff::gui {

namespace {

glm::vec3 inScene(const MeshPoint& p) {
    return {static_cast<float>(p.z), static_cast<float>(p.x), static_cast<float>(p.y)};
}

std::size_t count(const std::vector<PartMesh>& meshes) {
    std::size_t triangles = 0;
    for (const PartMesh& mesh : meshes) triangles += mesh.triangles.size();
    return triangles;
}

// The finest of the steps that divide the sectors evenly and leave no more than `most` meridians.
int stepFor(int sectors, int most) {
    int step = 1;
    while (sectors / step > most || sectors % step != 0) ++step;
    return step;
}

}  // namespace

TriangleMesh solidMesh(const PartMesh& mesh, const std::function<std::uint32_t(CutId)>& colour,
                       const std::function<float(CutId)>& lay) {
    constexpr double kSharp = 35;  // degrees
    // The mesh is lit with numbers in place of colours, so that marks go with them.
    std::map<std::pair<std::uint32_t, float>, std::uint32_t> numbers;
    const auto numberOf = [&](CutId cut) {
        const std::pair look(colour(cut), lay ? lay(cut) : 0.0f);
        return numbers.emplace(look, static_cast<std::uint32_t>(numbers.size())).first->second;
    };
    const ShadedMesh lit = shaded(mesh, radians(kSharp), numberOf);
    std::vector<std::pair<std::uint32_t, float>> looks(numbers.size());
    for (const auto& [look, number] : numbers) looks[number] = look;
    TriangleMesh result;
    for (const ShadedMesh::Corner& c : lit.corners) {
        const auto along = static_cast<float>(c.place.z - std::hypot(c.place.x, c.place.y));
        result.vertices.push_back(
            {inScene(c.place), inScene(c.normal), looks[c.colour].first, along, looks[c.colour].second});
    }
    for (const auto& t : lit.triangles) result.indices.insert(result.indices.end(), t.begin(), t.end());
    return result;
}

std::vector<PartMesh> solidsFor(const StockHistory& history, const Billet& held, std::uint32_t wholeMoves,
                                double toleranceMm, std::size_t mostTriangles) {
    constexpr int kMeridians = 128, kFewer = 64, kAttempts = 4;
    MeshOptions options;
    options.sectionMm = toleranceMm;
    options.sagittaMm = 4 * toleranceMm;
    options.sectorStep = stepFor(held.sectors(), kMeridians);
    for (int attempt = 0;; ++attempt) {
        std::vector<PartMesh> meshes = partMeshes(history, held, wholeMoves, options);
        if (count(meshes) <= mostTriangles || attempt == kAttempts) return meshes;
        options.sectorStep = stepFor(held.sectors(), kFewer);
        options.sectionMm *= 4;
        options.sagittaMm *= 4;
    }
}

}  // namespace firstoff::gui
