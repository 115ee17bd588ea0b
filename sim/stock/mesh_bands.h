// Stretches of the bar that are meshed each in its own way, and the borders between them.
//
// At a border every meridian has the same sides of metal, counted from the axis outwards: inner, outer, inner, outer
// and so on. Both bands use the same points there, so that the surface has no gap.
#pragma once

#include <cstdint>
#include <vector>

#include "sim/stock/billet_columns.h"
#include "sim/stock/mesh_strips.h"

namespace firstoff {

struct MeshBand {
    enum class Kind : std::uint8_t {
        Round,  // loops of the half-section, swept round the axis
        Plain,  // every meridian has the same sides, all running through: joined from meridian to meridian
        Knotty  // sides begin or end: rows of points at the same z in all meridians
    };
    Kind kind = Kind::Round;
    int firstChunk = 0, endChunk = 0;
};

// From left to right, without gaps; neighbours are of different kinds, except that two plain ones are never neighbours
// for another reason than a difference in their sides. Plain and knotty bands never stand at the very end of the bar
// where the border has no sides, but for knotty ones.
std::vector<MeshBand> meshBands(const Billet& billet);

struct MeshBorderSide {
    std::vector<double> r;  // by meridian, mm
    MeshRing ring;
    CutId cut = kUncut;
};

struct MeshBorder {
    double z = 0;
    std::vector<MeshBorderSide> sides;
};

}  // namespace firstoff
