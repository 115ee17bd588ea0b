// Gauging between any two features of a half-section, picked by hand: corners, straight surfaces, roundings.
#pragma once

#include <optional>
#include <vector>

#include "sim/base/point.h"
#include "sim/inspection/part_outline.h"

namespace firstoff {

// Something of an outline that can be picked; lathe frame.
struct SectionFeature {
    enum class Kind : std::uint8_t { Corner, Straight, Arc };
    Kind kind = Kind::Corner;
    Point from, to;      // Corner: both the same; else the ends
    Point centre;        // Arc
    double radius = 0;   // Arc
    CutId cut = kUncut;  // that left it; of a corner, that of the edge behind it
    friend bool operator==(const SectionFeature&, const SectionFeature&) = default;
};

// The straight surface or rounding that an edge is.
SectionFeature surfaceOf(const OutlineEdge& edge);

// The feature nearest to `place`; corners win within `cornerMm`, other features are found within `withinMm`.
std::optional<SectionFeature> featureNear(const PartOutline& outline, Point place, double cornerMm, double withinMm);

// A figure that was gauged, and between which places it can be drawn; lathe frame.
struct FeatureReading {
    enum class Kind : std::uint8_t {
        Diameter,       // over `a` and its mirror below the axis
        Position,       // of `a`: z; r as diameter
        LengthAlong,    // along Z, from a to b
        DiameterApart,  // difference of two diameters
        WallApart,      // half of that: a wall, a depth
        Distance,       // straight, from a to b
        Square,         // square to a surface, from a to b
        ConeAngle,      // full angle of a cone, rad
        EdgeAngle,      // of a surface to the axis, rad
        AngleBetween,   // of two surfaces, rad, 0 … pi/2
        Radius,
    };
    Kind kind = Kind::Diameter;
    double value = 0;   // mm (Position: z in the frame of `datum`) or rad
    double second = 0;  // Position: the diameter
    Point a, b;
};

// What one feature has by itself: a cylinder its diameter and length, a face its Z and diameters, a cone its angles, a
// rounding its radius and centre, a corner its place. The figure that matters most stands first.
std::vector<FeatureReading> gaugeFeature(const SectionFeature& feature, Point datum);

// What lies between two: straight surfaces along Z as a difference of diameters, faces as a length, others by angle and
// distance; roundings count by their centres.
std::vector<FeatureReading> gaugeBetween(const SectionFeature& first, const SectionFeature& second, Point datum);

}  // namespace firstoff
