// The flank under an edge, and the wall it must keep clear of.
//
// Notation. Seen along the axis. The edge stands at E on a wall of radius R, at the height h above the axis on the side
// from which the metal comes. The flank falls away from E and draws back by the clearance angle a; its heel is T below.
//
//              .--E .   wall          A point of the flank t below E:  (x - t k, h - t),  k = tan a,  x² + h² = R²
//         axis    |\  `.              Its distance from the axis exceeds R by the square root of
//          +      | \ a  \                R² + t (t (1 + k²) - 2 (x k + h)),
//                 |  \    |           less R: positive once t > 2 (x k + h) / (1 + k²), and growing from there, so the
//                 T   heel'           heel is where it rubs first and most (elementary geometry).
//
// With h = 0 a flank rubs in bores of R < T / sin 2a.
#pragma once

namespace firstoff {

// How far the heel stands in the wall, mm, radially; zero or less where it is clear. `wallRadius` > |edgeHeight|.
double flankIntoWallMm(double wallRadius, double edgeHeight, double clearanceAngle, double flankHeight);

// The smallest radius of a wall that a flank clears with its edge at the height of the axis.
double smallestClearedRadiusMm(double clearanceAngle, double flankHeight);

}  // namespace firstoff
