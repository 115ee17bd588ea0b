// Indexable inserts by the letters and figures of ISO 1832: which angle a shape letter stands for, how long its edge
// is, what a designation such as CNMG120408 says.
#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace firstoff {

struct InsertShape {
    char letter = 0;
    double angleDeg = 0;  // included angle at the cutting corner; 0 for round
};

// Every shape letter of ISO 1832, in order of letter.
std::span<const InsertShape> insertShapes();

// The shape behind a letter, nothing for a letter that names none.
std::optional<InsertShape> insertShape(char letter);

// Length of one edge from the diameter of the inscribed circle, mm: rhombic IC / sin(angle), triangle IC * sqrt 3,
// trigon from its corners of 80° and 160°, regular polygons IC / tan(angle / 2), square, rectangular and round IC.
double edgeLengthMm(const InsertShape& shape, double inscribedCircleMm);

// Largest nose radius for which the roundings of neighbouring corners still fit the edge, mm.
double largestNoseRadiusMm(const InsertShape& shape, double edgeLengthMm);

// A, B, K and L: parallelograms and the rectangle, whose code tells the longer edge and nothing of the other.
bool hasTwoEdges(const InsertShape& shape);

// What the cutting part needs from a designation.
struct InsertDesignation {
    InsertShape shape;
    double edgeLengthMm = 0;  // round: the diameter
    double noseRadiusMm = 0;
    std::optional<double> clearanceDeg;  // of the flank, by the second letter; nothing for O and letters that say none
    double thicknessMm = 0;              // 0: its code is in no table
};

// Reads a metric designation, e.g. "CNMG120408", "ccmt 09 T3 04", "RCMT1204M0"; what follows the corner code (chip
// breaker, edge condition) is not looked at. Nothing if it is not one, or its size is in no table.
std::optional<InsertDesignation> readInsertDesignation(std::string_view text);

}  // namespace firstoff
