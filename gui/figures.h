// Numbers as the window writes them.
#pragma once

#include <cstdint>
#include <string>

namespace firstoff::gui {

// "0:07.25", "1:02:07.25": h:mm:ss with hundredths.
std::string clockTime(double seconds);
// "1:02", or with as many decimals as ticks `stepS` apart need.
std::string tickTime(double seconds, double stepS);
// Never a nought with a sign: "0.000".
std::string withDecimals(double value, int decimals);

// Grouped by thin spaces from 10,000 up; no decimals: "12 500".
std::string wholeNumber(double value);

// The 1-2-5 step that is at least `least`.
double niceStep(double least);

}  // namespace firstoff::gui
