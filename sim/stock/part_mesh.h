// The billet as a closed surface of triangles, for other programs and for the picture.
//
// Frame: z along the spindle axis, away from the chuck, z = 0 at the chuck face; x towards the turret where the spindle
// marker stands at the turret; y makes it a right-handed frame in the order x, y, z. The part stands still in it: a
// point (z, r) of the meridian at the angle t stands at x = r cos t, y = -r sin t, so that meridians pass the tool in
// the order of their angles under M03.
//
// Promises. Every mesh is closed: every edge belongs to two triangles that run along it in opposite directions, and the
// triangles round a point make one fan. Normals point out of the metal. No triangle has two corners in one place, and
// no corner lies on the edge of another triangle. In the planes of the meridians the surface is nowhere further than
// MeshOptions::sectionMm from the columns in r; between two meridians it runs straight.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/history.h"

namespace firstoff {

struct MeshPoint {
    double x = 0, y = 0, z = 0;  // mm
    friend constexpr bool operator==(const MeshPoint&, const MeshPoint&) = default;
};

struct MeshTriangle {
    std::array<std::uint32_t, 3> corners{};  // anticlockwise, seen from outside the metal
    CutId cut = kUncut;                      // that left this spot of the surface
};

struct PartMesh {
    int piece = 0;  // 0: what is held; 1…: pieces cut off, in order of falling
    std::vector<MeshPoint> points;
    std::vector<MeshTriangle> triangles;

    double volumeMm3() const;
};

struct MeshOptions {
    double sectionMm = 0.001;  // greatest deviation from the columns, radially, in the planes of the meridians
    // Greatest distance of the straight run between two meridians from the circle, where all of the billet is round.
    double sagittaMm = 0.005;
    // Where some of it is not, the meridians are those of the billet's sectors: every so many of them.
    int sectorStep = 1;
};

// Meridians round the axis that keep the sagitta at `radiusMm`; a multiple of four.
int meridiansFor(double radiusMm, double sagittaMm);
// A polygon of n corners on a circle has this share of the circle's area; a mesh of turned surfaces has this share of
// the turned volume.
double polygonShare(int corners);

// Mesh of everything in the billet; no triangles where there is no metal. `toolOfCut` says which tool made a cut: no
// triangle joins surfaces of two tools (empty: it may).
PartMesh partMesh(const Billet& billet, const MeshOptions& options = {}, int piece = 0,
                  std::span<const std::uint16_t> toolOfCut = {});

// Is every stretch of the bar round?
bool allRound(const Billet& billet);

// What is held (first) and every piece that has fallen once `wholeMoves` timed moves of the history have been cut;
// `held` is the billet there, as its cursor has it. Meshes without triangles are left out.
std::vector<PartMesh> partMeshes(const StockHistory& history, const Billet& held, std::uint32_t wholeMoves,
                                 const MeshOptions& options = {});
// Is any of these not round all along?
bool anyNotRound(const StockHistory& history, const Billet& held, std::uint32_t wholeMoves);

}  // namespace firstoff
