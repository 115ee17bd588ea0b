// Runs a program typed in a test, and gauges what came of it.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/trial/trial.h"
#include "tests/support/shop.h"

namespace firstoff::shop {

std::shared_ptr<const Trial> run(const std::string& program, firstoff::Setup setup);

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
