#include "sim/stock/part_mesh.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "sim/base/units.h"
#include "sim/stock/mesh_bands.h"
#include "sim/stock/mesh_strips.h"
#include "sim/stock/recorded_history.h"
#include "sim/stock/row_band.h"
#include "sim/stock/swept_band.h"
#include "sim/stock/zipped_band.h"

namespace firstoff {

namespace {

std::vector<double> evenAngles(int count) {
    std::vector<double> angles;
    for (int j = 0; j < count; ++j) angles.push_back(2 * kPi * j / count);
    return angles;
}

double greatestRadius(const Billet& billet) {
    double radius = 0;
    for (int c = 0; c < billet.grid().chunks(); ++c) radius = std::max(radius, billet.bounds(c).maxOuter);
    return radius;
}

void dropUnusedPoints(PartMesh& mesh) {
    std::vector<std::uint32_t> name(mesh.points.size(), 0);
    for (const MeshTriangle& t : mesh.triangles) {
        for (std::uint32_t c : t.corners) name[c] = 1;
    }
    std::uint32_t count = 0;
    for (std::size_t i = 0; i < name.size(); ++i) {
        if (name[i] == 0) continue;
        mesh.points[count] = mesh.points[i];
        name[i] = count++;
    }
    mesh.points.resize(count);
    for (MeshTriangle& t : mesh.triangles) {
        for (std::uint32_t& c : t.corners) c = name[c];
    }
}

// The bands from left to right; round and plain ones first, for they say where the sides stand at the borders.
void meshAll(const Billet& billet, double sectionMm, std::span<const std::uint16_t> toolOfCut,
             std::span<const int> sectors, MeshStrips& strips) {
    const std::vector<MeshBand> bands = meshBands(billet);
    std::vector<MeshBorder> borders(bands.size() + 1);
    for (std::size_t i = 0; i < bands.size(); ++i) {
        const int column = std::min(bands[i].endChunk * kChunkColumns, billet.grid().columns);
        borders[i + 1].z = billet.grid().border(column);
    }
    borders[0].z = billet.grid().border(0);
    for (const MeshBand::Kind kind : {MeshBand::Kind::Round, MeshBand::Kind::Plain, MeshBand::Kind::Knotty}) {
        for (std::size_t i = 0; i < bands.size(); ++i) {
            if (bands[i].kind != kind) continue;
            MeshBorder& left = borders[i];
            MeshBorder& right = borders[i + 1];
            switch (kind) {
                case MeshBand::Kind::Round:
                    sweepBand(billet, bands[i], sectionMm, toolOfCut, strips, left, right);
                    break;
                case MeshBand::Kind::Plain:
                    zipBand(billet, bands[i], sectionMm, toolOfCut, sectors, strips, left, right);
                    break;
                case MeshBand::Kind::Knotty:
                    meshRows(billet, bands[i], sectionMm, sectors, strips, left, right);
                    break;
            }
        }
    }
}

double sixfoldVolume(const MeshPoint& a, const MeshPoint& b, const MeshPoint& c) {
    return a.x * (b.y * c.z - b.z * c.y) + a.y * (b.z * c.x - b.x * c.z) + a.z * (b.x * c.y - b.y * c.x);
}

}  // namespace

double PartMesh::volumeMm3() const {
    double sum = 0;
    for (const MeshTriangle& t : triangles) {
        sum += sixfoldVolume(points[t.corners[0]], points[t.corners[1]], points[t.corners[2]]);
    }
    return sum / 6;
}

int meridiansFor(double radiusMm, double sagittaMm) {
    constexpr int kFewest = 12, kMost = 4096;
    if (radiusMm <= sagittaMm) return kFewest;
    const double step = 2 * std::acos(1 - sagittaMm / radiusMm);
    return std::clamp(4 * static_cast<int>(std::ceil(2 * kPi / step / 4)), kFewest, kMost);
}

double polygonShare(int corners) {
    return corners / (2 * kPi) * std::sin(2 * kPi / corners);
}

PartMesh partMesh(const Billet& billet, const MeshOptions& options, int piece,
                  std::span<const std::uint16_t> toolOfCut) {
    PartMesh mesh;
    mesh.piece = piece;
    std::vector<double> angles;
    std::vector<int> sectors;
    if (allRound(billet)) {
        angles = evenAngles(meridiansFor(greatestRadius(billet), options.sagittaMm));
    } else {
        for (int j = 0; j < billet.sectors(); j += options.sectorStep) {
            sectors.push_back(j);
            angles.push_back(billet.sectorAngle(j));
        }
    }
    MeshStrips strips(angles, mesh);
    meshAll(billet, options.sectionMm, toolOfCut, sectors, strips);
    dropUnusedPoints(mesh);
    return mesh;
}

bool allRound(const Billet& billet) {
    for (int c = 0; c < billet.grid().chunks(); ++c) {
        if (!billet.isRound(c)) return false;
    }
    return true;
}

std::vector<PartMesh> partMeshes(const StockHistory& history, const Billet& held, std::uint32_t wholeMoves,
                                 const MeshOptions& options) {
    const auto& recorded = dynamic_cast<const RecordedHistory&>(history);
    const std::vector<std::uint16_t>& tools = recorded.plan().tools();
    std::vector<PartMesh> meshes{partMesh(held, options, 0, tools)};
    for (std::size_t i = 0; i < recorded.severances().size(); ++i) {
        const Severance& fall = recorded.severances()[i];
        if (fall.timedMove < wholeMoves) meshes.push_back(partMesh(recorded.piece(i), options, fall.piece, tools));
    }
    std::erase_if(meshes, [](const PartMesh& mesh) { return mesh.triangles.empty(); });
    return meshes;
}

bool anyNotRound(const StockHistory& history, const Billet& held, std::uint32_t wholeMoves) {
    const auto& recorded = dynamic_cast<const RecordedHistory&>(history);
    if (!allRound(held)) return true;
    for (std::size_t i = 0; i < recorded.severances().size(); ++i) {
        if (recorded.severances()[i].timedMove < wholeMoves && !allRound(recorded.piece(i))) return true;
    }
    return false;
}

}  // namespace firstoff
