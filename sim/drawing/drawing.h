// A flat drawing as far as it is understood: lines, arcs and what is made of them.
//
// Drawings hold x and y; here they stand as a Point's z and r, x as z and y as r, in mm whatever unit the file was
// drawn in. What x and y mean is up to whoever asked for the drawing.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/contour.h"
#include "sim/base/finding.h"
#include "sim/base/units.h"

namespace firstoff {

enum class DrawingUnit { NotSaid, Millimetre, Centimetre, Metre, Inch };

// mm in one unit; 1 where it is not said.
constexpr double millimetresIn(DrawingUnit unit) {
    switch (unit) {
        case DrawingUnit::NotSaid:
        case DrawingUnit::Millimetre:
            return 1;
        case DrawingUnit::Centimetre:
            return 10;
        case DrawingUnit::Metre:
            return 1000;
        case DrawingUnit::Inch:
            return kMmPerInch;
    }
    return 1;
}

// One line, arc, circle or polyline. A circle is two half circles.
struct DrawnPath {
    Contour corners;       // at least two; the last bulge of an open path means nothing
    bool closed = false;   // the last edge runs back to the first corner
    std::string layer;     // as written
    std::size_t line = 0;  // where it begins in the drawing file, from 1
};

// What is wrong with a drawing file, or is left out of it. `line` counts the lines of the file from 1; 0 belongs to no
// line. `place` is in mm of the drawing.
struct DrawingFault {
    Severity severity = Severity::Stop;
    std::string code;
    std::size_t line = 0;
    std::optional<Point> place;
    bool unproven = true;
    std::string message;
    std::string remedy;
};

struct Drawing {
    DrawingUnit unit = DrawingUnit::NotSaid;  // as taken
    std::vector<DrawnPath> paths;             // in order of the file
    std::vector<DrawingFault> faults;
};

// Coordinates beyond this are slips of the keyboard or of the unit.
inline constexpr double kLargestDrawnMm = 1e6;

}  // namespace firstoff
