// Examples for the reference, of our own: a few lines for a code, and the small program in which they stand.
//
// They are written once for all code systems. `{}` is the code that is explained, `{99}` the code that orders what G99
// orders in system A. Lengths in mm; a bar of 60, its face at Z0.
#pragma once

#include <string>

#include "sim/control/codes.h"

namespace firstoff {

struct ReferenceExample {
    std::string lines;    // without a line feed at the end
    std::string program;  // from its number to M30, with the programs that it calls behind
};

// "G71", "G54.1", "M08"; tenths as in CodeEntry.
std::string writtenCode(char letter, int tenths);

// Empty strings where a code has no example, or the system no such code.
ReferenceExample exampleOf(const CodeEntry& entry, CodeSystem system);

}  // namespace firstoff
