// Numbers as the window writes them.
#pragma once

#include <cstdint>
#include <string>

namespace firstoff::gui {

// "0:07.25", "1:02:07.25": h:mm:ss with hundredths.
std::string clockTime(double seconds);
// "1:02", or with as many decimals as ticks `stepS` apart need.
std::string tickTime(double seconds, double stepS);
// Three decimals, and never "-0.000".
std::string millimetres(double mm);

// What the window tells lengths in. Inside, everything is mm.
enum class Units : std::uint8_t { Millimetres, Inches };

// Exactly: international yard and pound agreement of 1959, ISO 31-1. A foot has twelve inches.
inline constexpr double kMmPerInch = 25.4;
inline constexpr double kMmPerFoot = 12 * kMmPerInch;

// How many of the unit this length is; a feed per revolution or minute likewise.
constexpr double inUnits(double mm, Units units) {
    return units == Units::Inches ? mm / kMmPerInch : mm;
}
const char* unitOf(Units units);  // "mm", "in"

// A figure and its unit, for panes that write them apart; `told` joins them.
struct Figure {
    std::string value;
    const char* unit;
};
std::string told(const Figure& figure);

// Three decimals in mm, four in inches, so that both tell about a hundredth of a hair; never "-0.000".
Figure length(double mm, Units units);
// One decimal more, with its sign: what gives way.
Figure smallLength(double mm, Units units);
// Whole mm, tenths of an inch.
Figure roughLength(double mm, Units units);
// A limit that a set-up gives: "0.5", "0.0196"; in inches rounded down, so that no gap is said to be beyond it that is
// not.
Figure roundLength(double mm, Units units);
// "X 54.200  Z -20.000 mm": a diameter and a length.
std::string position(double diameterMm, double zMm, Units units);

Figure feedPerRev(double mmPerRev, Units units);       // mm/rev; in/rev with four decimals
Figure feedPerMinute(double mmPerMin, Units units);    // whole mm/min; in/min with two decimals
Figure surfaceSpeed(double mPerMin, Units units);      // whole m/min; whole ft/min
Figure chipArea(double mm2, Units units);              // mm² with four decimals; in² with six
Figure removalRate(double mm3PerSecond, Units units);  // cm³/min; in³/min; both with two decimals
// Grouped by thin spaces from 10,000 up; no decimals: "12 500".
std::string wholeNumber(double value);

// The 1-2-5 step that is at least `least`.
double niceStep(double least);

}  // namespace firstoff::gui
