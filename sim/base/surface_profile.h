// The profile of a surface: its height along a line square to the feed marks.
#pragma once

#include <vector>

namespace firstoff {

// Lengths in mm. Heights count out of the metal, from any line that follows the surface's form: a cylinder, cone, face
// or arc as it was meant has the same height everywhere.
struct SurfaceProfile {
    // A peak that stands between two places where the height was taken.
    struct Peak {
        double at = 0;  // along the profile, from its first height
        double height = 0;
    };
    double step = 0;              // between two heights, along the surface
    std::vector<double> heights;  // at 0, step, 2 step …
    std::vector<Peak> peaks;      // in order

    double length() const { return heights.size() < 2 ? 0 : step * static_cast<double>(heights.size() - 1); }
};

}  // namespace firstoff
