// The part as the drawing wants it, as the set-up gives it: where the outline comes from and a list of dimensions with
// their limits. What a class or a grade makes of a size is reckoned in sim/inspection.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/finding.h"
#include "sim/base/point.h"

namespace firstoff {

struct WantedDimension {
    enum class Kind : std::uint8_t {
        Diameter,     // at `at`
        Length,       // between the faces at `at` and at `to`
        Taper,        // full angle of the cone between `at` and `to`
        Radius,       // of the rounding at `at`
        Chamfer,      // its length along Z at `at`
        GrooveWidth,  // of the groove whose middle is `at`, at the radius given there
        Thread,       // pitch diameter of the thread between `at` and `to`
        RunOut,       // full reading of the surface at `at`, against the axis it was gripped by before
    };
    Kind kind = Kind::Diameter;
    std::string name;     // what the drawing calls it; empty: made from kind and size
    bool inside = false;  // of a bore; lengths: depth of one
    double size = 0;      // mm (diameters as such); Taper: rad
    // Where on the part, work frame of the first work offset, mm, r as radius. r 0: the outermost (inside: innermost)
    // surface there.
    Point at, to;
    // One of these at most; none: the general grade of the part.
    std::string fit;                     // class of ISO 286, "h7"
    std::optional<double> above, below;  // deviations of the size, mm; Taper: rad
    std::string threadClass;             // Thread: "6g"; pitch
    double pitch = 0;
    // Why it cannot be gauged as it stands, in plain words, without a full stop; empty: it can. Such a row keeps its
    // place, so that the numbers behind it stay what the drawing calls them.
    std::string trouble;
    SourceSpan span;
};

struct WantedPart {
    std::string file, layer, unit;  // half-section as DXF, as written; empty: none
    double originZ = 0;             // where its x 0 stands, Z of the work frame
    bool fileRead = false;          // or tried: what is wrong with it stands in the findings of the set-up
    // Of the file, work frame of the first work offset, metal to the left; read later, with the files beside, see
    // wanted_drawing.h.
    std::vector<Contour> outline;
    // A line of the program, from 1, with a finishing cycle, whose profile is the outline; not together with a file.
    std::optional<std::uint32_t> line;
    char grade = 0;                           // ISO 2768-1, 'f' 'm' 'c' 'v'; 0: not said
    std::vector<WantedDimension> dimensions;  // in order of the file; their numbers on the papers count from 1
    SourceSpan span;

    bool given() const { return !file.empty() || line || !dimensions.empty(); }
};

}  // namespace firstoff
