// The billet's half-section made ready for drawing: once per instant and scale.
#pragma once

#include <utility>
#include <vector>

#include "gui/section/area_strips.h"
#include "sim/inspection/part_outline.h"
#include "sim/stock/billet.h"

namespace firstoff::gui {

// A piece of the billet: what is held, or one that was cut off.
struct SectionPiece {
    int number = 0;                // as in SectionContour::piece
    std::vector<PlaneLoop> loops;  // chords of its arcs within what was asked
    PartOutline outline;           // exact, for picking
};

struct SectionShape {
    std::vector<SectionPiece> pieces;
    std::vector<AreaStrip> strips;  // of all pieces that are shown
    // Seen from outside, half: from the surface straight to the axis, wherever the outline has a corner that can be
    // seen.
    std::vector<std::pair<Point, Point>> edges;
    // What bounds the metal as it is seen from outside, from axis to axis, one line for each body.
    std::vector<std::vector<Point>> silhouettes;
};

// `contours` of one instant; pieces but the one held are left out where `withLoose` is false.
SectionShape sectionShape(const std::vector<SectionContour>& contours, double chordErrorMm, bool withLoose);

}  // namespace firstoff::gui
