// Figures that a lesson may ask for and that are gauged from the trial, so that no lesson holds an answer that could go
// stale. Each has a name, as in lesson.toml, and says what it needs to know.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "sim/training/line_place.h"
#include "sim/trial/trial.h"

namespace firstoff {

enum class QuantityKind : std::uint8_t {
    RevPerMin,      // speed of the spindle at the end of a line
    ClampDiameter,  // X at which the speed clamp takes hold while the line is carried out
    SurfaceSpeed,   // true m/min at the tip at the end of a line
    FeedPerMin,     // mm/min along the path at the end of a line
    EndX,           // X of the programmed position once a line has been carried out, as diameter
    EndZ,           // Z likewise
    Passes,         // of the cycle that a line calls; that along the profile counts
    PassDepth,      // of one pass of that cycle, radially; of the last along the axis or of a thread where none is said
    PassDiameter,   // X at which a pass of that cycle cuts
    CutDepth,       // of a line, radially, along most of its deepest cut
    LineTime,       // that a line takes, all its passes
    CycleTime,      // of the whole program
    FinishedDiameter,  // of the part at a Z, outside or in the bore
    FinishedLength,    // of the part, from its front end to its back
    TheoreticalRz,     // of feed and nose radius of a line
    FindingLine,       // number of the first line with a finding of a code
    FindingCount,      // how many findings there are of a code
};

struct QuantityName {
    QuantityKind kind;
    std::string_view name;    // as in lesson.toml
    std::string_view unit;    // as it is told
    std::string_view needs;   // keys that must stand beside it, separated by spaces
    std::string_view allows;  // keys that may
    const char* meaning;      // English, to be told by tr()
};
std::span<const QuantityName> quantities();
const QuantityName* quantityNamed(std::string_view name);
const QuantityName& nameOf(QuantityKind kind);

struct Quantity {
    QuantityKind kind = QuantityKind::CycleTime;
    std::optional<LinePlace> line;
    int pass = 0;         // 0: the last
    double zMm = 0;       // work coordinates
    bool inside = false;  // of the bore
    std::string finding;  // code
};

struct QuantityValue {
    std::optional<double> value;  // in the unit of the quantity
    std::string trouble;          // why there is none, for whoever wrote the lesson
};

QuantityValue gauge(const Trial& trial, const Quantity& quantity);

// The tip at the end of a line as the position display tells it: work coordinates, `r` half of X.
std::optional<Point> programmedEnd(const Trial& trial, BlockId block);

}  // namespace firstoff
