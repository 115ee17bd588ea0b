// How metal looks: by what it is, and by how it was made.
//
// Symbols: f feed per revolution, r nose radius, mm; a width of the distribution of facets after GGX (B. Walter, S.
// Marschner, H. Li, K. Torrance, "Microfacet Models for Refraction through Rough Surfaces", EGSR 2007), across the lay.
// Grooves of the nose are arcs of pitch f: their slope runs evenly from -f/2r to f/2r, so its mean square is f²/12r²,
// and the width that has this slope is sqrt(2) times its root, as for Beckmann's: a = f / (r sqrt 6).
#pragma once

#include <cstdint>

#include "sim/setup/setup.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

enum class Metal : std::uint8_t { Steel, Stainless, CastIron, Aluminium, Brass, Copper, Titanium };

// From the group of ISO 513 and the words of the table of materials; Steel where nothing is known.
Metal metalOf(const Material& material);

// sRGB as 0xRRGGBB.
std::uint32_t cutColour(Metal metal);  // what a fresh cut mirrors at normal incidence
std::uint32_t barColour(Metal metal);  // as bought: scale on steel and iron, drawn or pressed bar of the others

// The alpha of a vertex colour of turned metal; metal.frag reads them.
inline constexpr std::uint8_t kScale = 45;         // rolled skin, matt
inline constexpr std::uint8_t kDrawnBar = 75;      // metal whose lay runs along the bar
inline constexpr std::uint8_t kColouredCut = 130;  // 150 hatched, 170 hatched both ways
inline constexpr double kFinestFacets = 0.06, kCoarsestFacets = 0.5;
// 180 to 255 for widths from kCoarsestFacets to kFinestFacets, in even ratios.
std::uint8_t finenessOf(double facets);
std::uint8_t barFineness(Metal metal);

struct CutLook {
    double facets = 0.2;  // a
    double layMm = 0;     // f; 0: no feed marks to be seen
};
// What the feed of a timed move left with the nose of its tool. Where one of them is not known, or an edge other than a
// nose made the surface: a usual finish, without marks. The surface of any cut is a little rough beside its marks.
CutLook lookOfCut(const Trial& trial, std::uint32_t timedMove);
CutLook lookOf(double feedMm, double noseRadiusMm);

}  // namespace firstoff::gui
