// Finds one dimension on the outline of a piece, as a gauge would.
//
// Diameters go over two points; where the surface there is a cylinder, along it, and the reading that is farthest from
// the middle of the limits counts. Lengths go between the faces nearest to the places given, at the diameters given.
// Radii are those of the arc that the cut left; where the outline is made of short chords, of the circle through them
// by least squares. Readings are as exact as the outline, see sim/stock/exact_section.h: to rounding along curves, to
// half a column (1 µm) at worst for faces.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/inspection/part_outline.h"
#include "sim/setup/wanted_part.h"

namespace firstoff {

// A straight stretch of surface that was gauged.
struct GaugedStretch {
    Point from, to;  // lathe frame; the same where only a place of it counts
    CutId cut = kUncut;
    double slope = 0;  // dr/dz of the surface there
};

struct GaugeReading {
    std::optional<double> value;  // mm, diameters as such; Taper: rad
    std::string trouble;          // why there is none, in plain words
    std::vector<Point> places;    // lathe frame; of lengths and widths two, at `at` and at `to`
    std::vector<CutId> cuts;      // that left the surfaces there, likewise
    // Diameter: the surface that the size holds for, all of a cylinder; Taper: the places at its two ends.
    std::vector<GaugedStretch> stretches;
};

class DimensionGauge {
public:
    // `opposite`: the outline half a turn round, where the piece is not round; null where it is. `datum`: of the work
    // frame, lathe frame. `leadOf`: of the thread that a cut belongs to, 0 for other cuts.
    DimensionGauge(const PartOutline& part, const PartOutline* opposite, Point datum,
                   std::function<double(CutId)> leadOf)
        : part_(part), opposite_(opposite), datum_(datum), leadOf_(std::move(leadOf)) {}

    // Any kind but Thread and RunOut. `middle`: of its limits.
    GaugeReading read(const WantedDimension& dimension, double middle) const;

private:
    struct Face {
        Point at;
        CutId cut = kUncut;
    };

    GaugeReading diameter(const WantedDimension& d, double middle) const;
    GaugeReading lengthBetween(const WantedDimension& d) const;
    GaugeReading taper(const WantedDimension& d) const;
    std::optional<Point> placeOf(const WantedDimension& d) const;
    GaugeReading radius(const WantedDimension& d) const;
    GaugeReading chamfer(const WantedDimension& d) const;
    GaugeReading grooveWidth(const WantedDimension& d) const;

    std::optional<OutlineHit> surfaceAt(const PartOutline& part, const WantedDimension& d, double z) const;
    OutlineHit crestNear(const OutlineHit& hit, bool inside, double reach) const;
    std::vector<GaugedStretch> cylinderAround(const OutlineHit& hit) const;
    std::optional<Face> shoulderAt(const OutlineHit& hit) const;
    std::optional<Face> faceNear(Point at, double window) const;
    std::optional<std::size_t> nearestEdge(Point at, double within, bool (*wanted)(const OutlineEdge&)) const;
    std::optional<double> fittedRadius(std::size_t edge) const;
    GaugeReading nothingAt(const WantedDimension& d, double z) const;
    std::string spoken(Point lathe) const;

    const PartOutline& part_;
    const PartOutline* opposite_;
    Point datum_;
    std::function<double(CutId)> leadOf_;
};

}  // namespace firstoff
