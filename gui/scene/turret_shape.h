// The turret disc, its tool blocks and every station's tool.
//
// Turret frame: x from the turret reference point along the spindle, origin on the axis of the disc; the station in
// working position points along -y. Where the reference point lies relative to the disc is not in the set-up; the
// picture puts it on the axis of a tool that stands along the spindle, `kBlockHeight` from the mounting face, at the
// front of the disc.
#pragma once

#include <vector>

#include "gui/gl/triangle_mesh.h"
#include "sim/setup/setup.h"

namespace firstoff::gui {

inline constexpr float kBlockHeight = 42;  // mm

struct StationShape {
    int station = 0;
    int toolIndex = -1;  // into Setup::tools; -1: nothing mounted
    TriangleMesh edge, holder;
};

struct TurretShape {
    TriangleMesh disc;                   // with every tool block, as it stands with station 1 in working position
    TriangleMesh head;                   // what carries the disc; moves with the slide, does not index
    std::vector<StationShape> stations;  // each as in working position
    float axisAboveReference = 0;        // mm, from the turret reference point to the disc's axis
    int stationCount = 12;

    // Angle of the disc, rad, for a station (or a place between two) in working position.
    float angleOf(float station) const { return -6.2831853f * (station - 1) / static_cast<float>(stationCount); }
};

TurretShape turretShape(const Setup& setup, float bedDepth);

}  // namespace firstoff::gui
