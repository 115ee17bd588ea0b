// Chips as they are drawn: ribbons that curl off the rake face, and pieces that have broken off and fall.
//
// A plain drawing device, see chip_cut.h: thin chips run as long ribbons, thick ones break into short curls, those of
// cast iron and brass crumble, those of a blade between two walls roll up. The same cut gives the same mesh: there is
// neither a clock nor chance in it.
#pragma once

#include "gui/gl/triangle_mesh.h"
#include "gui/scene/chip_cut.h"

namespace firstoff::gui {

// Metal is thicker as a chip than before it was cut, as much as it is slower: two to three times in steel; common
// practice, no source. Here one figure for all.
inline constexpr float kChipUpset = 2;
// No part of a chip is drawn further than this from ChipCut::place, mm.
inline constexpr float kChipReachMm = 90;
inline constexpr int kMostChipPieces = 40;  // at a time, of one cut

// In the scene frame, closed; a vertex's alpha is the gloss that solid.vert reads. Pieces keep outside of the metal of
// `stock` at the instant, as far as its greatest radius says; null: they fall free. Empty where the chip has no length
// yet.
TriangleMesh chipShape(const ChipCut& cut, const StockCursor* stock);

}  // namespace firstoff::gui
