// Runs a program typed in a test, and gauges what came of it.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/trial/trial.h"
#include "tests/support/shop.h"

namespace firstoff::shop {

std::shared_ptr<const Trial> run(const std::string& program, firstoff::Setup setup);

// A bar of 40, 60 out of the jaws, turned to 36 over 20 mm by an insert of nose 0.8 in line 5; nothing is near.
inline constexpr const char* kStep =
    "T0101\nG97 S800 M03\nG00 X45. Z2.\nX36.\nG01 Z-20. F.2\nX45.\nG00 X100. Z100.\nM30\n";
firstoff::Setup stepSetup();

// Codes of findings, in order.
std::vector<std::string> codes(const std::vector<Finding>& findings);
// Findings with this code, in order.
std::vector<Finding> findings(const Trial& trial, const std::string& code);
// "code@line code@line …" of everything found, for messages and for whole-list expectations.
std::string found(const Trial& trial);
// The same without the notes on how the sections of the program are begun and left, and on what time it takes.
std::string foundInTheCut(const Trial& trial);

// Outside diameter of what is held at the end, at a work Z of the first datum, between columns by straight line.
double diameterAt(const Trial& trial, double workZ);
// The same on a piece that has fallen: its outer surface at a work Z, 0 where there is none.
double pieceDiameterAt(const Trial& trial, int piece, double workZ);
double pieceBoreAt(const Trial& trial, int piece, double workZ);
// Work Z at which the outline of a fallen piece crosses a diameter: its faces there, from the chuck outwards.
std::vector<double> pieceFacesAt(const Trial& trial, int piece, double diameter);

}  // namespace firstoff::shop
