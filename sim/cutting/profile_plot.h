// A roughness profile made ready for drawing: its line thinned to what a picture can show, its mean line, its sections,
// and scales.
#pragma once

#include <vector>

#include "sim/base/surface_profile.h"
#include "sim/cutting/roughness.h"

namespace firstoff {

// mm; `along` from the first height of the profile.
struct PlotPoint {
    double along = 0, height = 0;
};

// The profile from end to end in at most 4 points for each of `columns` equal stretches: the first, the lowest, the
// highest and the last of each, peaks between heights among them. Every point is one of the profile; none is made up.
// Asserts two heights and one column at least.
std::vector<PlotPoint> plotLine(const SurfaceProfile& profile, int columns);

struct ProfilePlot {
    std::vector<PlotPoint> line;      // the profile as it was cut
    std::vector<PlotPoint> meanLine;  // along the evaluation length
    std::vector<double> sections;     // where sampling lengths begin and end, along the profile; one more than sections
    double length = 0;                // of the profile, mm
    double lowest = 0, highest = 0;   // heights, mm
};

// `roughness` must be that of `profile`.
ProfilePlot profilePlot(const SurfaceProfile& profile, const Roughness& roughness, int columns);

// Scales of a drawing: `length` is its mm for a mm along the surface; heights are magnified by `magnified` on top of
// that.
struct PlotScale {
    double length = 1;
    double magnified = 1;

    double height() const { return length * magnified; }  // mm for a mm of height
};

// The largest round magnification of heights up to `most`: 1, 1.5, 2, 3, 4, 5, 6, 8 and their tens; never less than 1.
double roundMagnification(double most);

// The largest of the round scales (1, 2, 2.5, 4, 5, 8 and their tens for the length) that keep the plot within `width`
// and `height`, both in the drawing's units.
PlotScale plotScale(const ProfilePlot& plot, double width, double height);

// A round distance between marks of a scale, 1, 2 or 5 and their tens, not less than `least` > 0.
double tickStep(double least);

}  // namespace firstoff
