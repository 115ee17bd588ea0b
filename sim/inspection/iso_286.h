// Limits of sizes by their class after ISO 286-1, reckoned from the formulas of the standard.
//
// Formulas from memory (ISO 286-1:1988, annex A), held to a published table from 3 to 120 mm
// (tests/reference/tolerances.csv). Notation, in µm with sizes in mm; D: geometric mean of the ends of the step that
// the size falls into.
//     i = 0.45 D^(1/3) + 0.001 D                          tolerance unit
//     IT5 7 i, IT6 10 i, 16, 25, 40, 64, IT11 100 i       standard tolerances; from IT12 on ten times those five below
//     es: d -16 D^0.44, e -11 D^0.41, f -5.5 D^0.41, g -2.5 D^0.34, h 0
//     ei: k +0.6 D^(1/3) (IT7 and below, else 0), m IT7 - IT6, n +5 D^0.34, p IT7 + 0 to 5
//     js: half the tolerance to either side
//     holes mirror the shaft of their letter; K, M, N to IT8 and P to ZC to IT7 stand D = ITn - IT(n-1) higher
// The other letters (a to c, cd, ef, fg, j, r to zc) have tables: iso_286_deviations.h, which says what holds them.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace firstoff {

// Of a size, mm.
struct Deviations {
    double lower = 0, upper = 0;
    // No published table and no formula holds them: j, c up to 40 mm, the small sizes of some letters, holes of grade 5
    // that need IT4.
    bool fromMemory = false;
};

// Width of the standard tolerance of a grade, 5 to 18, mm. Nothing outside 0 < size <= 500 mm.
std::optional<double> standardTolerance(double sizeMm, int grade);

// Of a class as "h7", "js6" or "ZA8": small letters for shafts, capitals for holes. Nothing, with `why` saying why in
// plain words, for what is no class, or none that is reckoned here.
std::optional<Deviations> classDeviations(double sizeMm, std::string_view fit, std::string& why);

}  // namespace firstoff
