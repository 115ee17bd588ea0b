#include "sim/stock/part_mesh.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "sim/base/units.h"
#include "sim/stock/mesh_strips.h"
#include "sim/stock/recorded_history.h"
#include "sim/stock/section.h"

namespace firstoff {

namespace {

// A hole that closes to nothing and opens again at one point of the axis would leave two surfaces that touch there;
// this keeps them apart.
constexpr double kPinholeMm = 1e-6;

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

Point toAxis(Point p) {
    return p.r < kMeshPlaceMm ? Point{p.z, 0} : p;
}

// The loop with points on the axis put there, and points that fall together made one.
Loop tidied(const Loop& loop) {
    Loop result;
    result.piece = loop.piece;
    for (std::size_t i = 0; i < loop.points.size(); ++i) {
        const Point p = toAxis(loop.points[i]);
        if (!result.points.empty() && distance(result.points.back(), p) < kMeshPlaceMm) {
            // The edge between the two goes; what is behind the second goes on from the first.
            result.cuts.back() = loop.cuts[i];
            if (p.r == 0) result.points.back() = p;
            continue;
        }
        result.points.push_back(p);
        result.cuts.push_back(loop.cuts[i]);
    }
    while (result.points.size() > 1 && distance(result.points.back(), result.points.front()) < kMeshPlaceMm) {
        if (result.points.back().r == 0) result.points.front() = result.points.back();
        result.points.pop_back();
        result.cuts.pop_back();
    }
    return result;
}

// Points within a run along the axis bear no surface.
void dropAxisPoints(Loop& loop) {
    Loop kept;
    const std::size_t n = loop.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        if (loop.points[(i + n - 1) % n].r + loop.points[i].r + loop.points[(i + 1) % n].r == 0) continue;
        kept.points.push_back(loop.points[i]);
        kept.cuts.push_back(loop.cuts[i]);
    }
    loop.points = std::move(kept.points);
    loop.cuts = std::move(kept.cuts);
}

void openPinholes(Loop& loop) {
    const std::size_t n = loop.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        const bool alone = loop.points[(i + n - 1) % n].r > 0 && loop.points[(i + 1) % n].r > 0;
        if (loop.points[i].r == 0 && alone) loop.points[i].r = kPinholeMm;
    }
}

void sweepLoop(const Loop& drawn, MeshStrips& strips) {
    Loop loop = tidied(drawn);
    dropAxisPoints(loop);
    const std::size_t n = loop.points.size();
    if (n < 3) return;
    openPinholes(loop);
    const MeshRing first = strips.ring(loop.points[0]);
    MeshRing from = first;
    for (std::size_t i = 0; i < n; ++i) {
        MeshRing to = i + 1 < n ? strips.ring(loop.points[i + 1]) : first;
        strips.sweep(from, to, loop.cuts[i]);
        from = std::move(to);
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
    const std::vector<double> angles = evenAngles(meridiansFor(greatestRadius(billet), options.sagittaMm));
    MeshStrips strips(angles, mesh);
    for (const Loop& loop : sectionLoops(billet, options.sectionMm, piece, toolOfCut)) sweepLoop(loop, strips);
    return mesh;
}

std::vector<PartMesh> partMeshes(const std::shared_ptr<const StockHistory>& history, std::uint32_t wholeMoves,
                                 double fraction, const MeshOptions& options) {
    const auto& recorded = dynamic_cast<const RecordedHistory&>(*history);
    const std::vector<std::uint16_t>& tools = recorded.plan().tools();
    StockCursor cursor(history);
    cursor.seek(wholeMoves, fraction);
    std::vector<PartMesh> meshes{partMesh(cursor.billet(), options, 0, tools)};
    for (std::size_t i = 0; i < recorded.severances().size(); ++i) {
        const Severance& fall = recorded.severances()[i];
        if (fall.timedMove < wholeMoves) meshes.push_back(partMesh(recorded.piece(i), options, fall.piece, tools));
    }
    std::erase_if(meshes, [](const PartMesh& mesh) { return mesh.triangles.empty(); });
    return meshes;
}

}  // namespace firstoff
