// Figures with their units, in what the user wants them told in. Inside, everything is mm.
#pragma once

#include <cstdint>
#include <string>

#include "sim/base/units.h"

namespace firstoff::gui {

// What the window tells lengths in.
enum class Units : std::uint8_t { Millimetres, Inches };

// A figure and its unit, for panes that write them apart; `told` joins them.
struct Figure {
    std::string value;
    const char* unit;
};
std::string told(const Figure& figure);

class Measures {
public:
    explicit constexpr Measures(Units units) : inches_(units == Units::Inches) {}

    constexpr bool inches() const { return inches_; }
    const char* unit() const;  // of lengths: "mm", "in"
    LengthUnit lengthUnit() const { return {unitMm(), unit(), inches_ ? 4 : 3}; }
    // How many of the unit this length is, and the way back.
    constexpr double of(double mm) const { return mm / unitMm(); }
    constexpr double unitMm() const { return inches_ ? kMmPerInch : 1; }

    // Three decimals in mm, four in inches, so that both tell about a hundredth of a hair; never "-0.000".
    Figure length(double mm) const;
    constexpr double finest() const { return inches_ ? 1e-4 * kMmPerInch : 0.001; }  // that `length` tells, mm
    // One decimal more: what is thin; with its sign: what gives way.
    Figure thickness(double mm) const;
    Figure smallLength(double mm) const;
    // Whole mm, tenths of an inch.
    Figure roughLength(double mm) const;
    // With hundredths of a mm or as fine in inches, and never more than it is: what is left between two bodies.
    Figure gap(double mm) const;
    // A limit that a set-up gives: "0.5", "0.0196"; never more than it is, so that no gap is said to be beyond it that
    // is not.
    Figure limit(double mm) const;
    // How wrong something is at most: never less than it is, and never nothing.
    Figure atMost(double mm) const;
    // "X 54.200  Z -20.000 mm": a diameter and a length.
    std::string position(double diameterMm, double zMm) const;

    Figure feedPerRev(double mmPerRev) const;       // mm/rev; in/rev with four decimals
    Figure feedPerMinute(double mmPerMin) const;    // whole mm/min; in/min with two decimals
    Figure surfaceSpeed(double mPerMin) const;      // whole m/min; whole ft/min
    Figure chipArea(double mm2) const;              // mm² with four decimals; in² with six
    Figure removalRate(double mm3PerSecond) const;  // cm³/min; in³/min; both with two decimals

private:
    bool inches_;
};

// Never more than it is, with so many decimals; a millionth of the last one is allowed for what is a round figure but
// for the way floating point holds it.
double roundedDown(double value, int decimals);

}  // namespace firstoff::gui
