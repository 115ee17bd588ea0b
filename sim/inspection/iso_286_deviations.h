// Fundamental deviations of ISO 286-1 that its formulas do not give to the last micron: a to c, cd, ef, fg, r to zc and
// j.
//
// The tables are from memory (ISO 286-1, tables of fundamental deviations). All but j are held to the formulas of the
// standard (ISO 286-1:1988, annex A), from which its tables depart by their rounding only; where they depart further,
// they have `fromMemory`. See tests/inspection/iso_286_test.cpp.
// Letters that the standard leaves out for a size give nothing: t to 24 mm, v to 14 mm, y to 18 mm, a and b to 1 mm;
// cd, ef and fg above 10 mm are left out here, since editions of the standard differ.
#pragma once

#include <optional>
#include <string_view>

namespace firstoff {

struct TabledDeviation {
    double um = 0;  // of a shaft: es of a to fg, ei of r to zc
    bool fromMemory = false;
};

// `letter`: small. Nothing for letters without a table and for sizes outside it (0 < size <= 500 mm).
std::optional<TabledDeviation> tabledDeviation(std::string_view letter, double sizeMm);

// ei of j5 to j8, ES of J6 to J8, µm; nothing for what the standard does not have. No formula gives them.
std::optional<double> shaftJ(double sizeMm, int grade);
std::optional<double> holeJ(double sizeMm, int grade);

}  // namespace firstoff
