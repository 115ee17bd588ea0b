// Tool holders by the letters and figures of ISO 5608 (square shanks, outside: PCLNR 2020 K12) and ISO 5609 (boring
// bars: S20S-SCLCR 09). Inside sim/setup only.
//
//   P C L N R  20 20  K  12         S  20  S  -  S C L C R  09
//   | | | | |  |  |   |  insert     |  |   length | | | | | insert size: length of its edge, of round ones the diameter
//   | | | | |  |  |   length        |  diameter   the five letters as on the left
//   | | | | |  |  shank width b     make: S steel, A with coolant bore, C and E with carbide shank …
//   | | | | |  shank height h
//   | | | | hand: R, L, N either
//   | | | clearance of the insert, second letter of ISO 1832
//   | | style: entering angle, see styles()
//   | shape of the insert, first letter of ISO 1832
//   clamping: C D M P S W
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace firstoff {

// A letter for the style of a holder.
struct HolderStyle {
    char letter = 0;
    double angleDeg = 0;      // between the cutting edge and its feed
    bool endCutting = false;  // that feed runs along the shank, of the others across it
};

// Nothing for X (special) and letters that name none.
std::optional<HolderStyle> holderStyle(char letter);

// Overall length by its letter, mm; 0 for X (special), nothing for other letters.
std::optional<double> holderLengthMm(char letter);

// f of ISO 5610 by style and width of the shank, mm: from the tip to the far side of the shank. From memory; nothing
// for styles and widths that are not remembered.
std::optional<double> holderHeadWidthMm(char style, double shankWidthMm);

// f of ISO 5609 by diameter of the bar, mm: from the tip to the middle of the bar. From memory, likewise.
std::optional<double> barHeadWidthMm(double barDiameterMm);

struct HolderDesignation {
    bool bar = false;
    char insertShape = 0;
    HolderStyle style;
    char insertClearance = 0;
    char hand = 0;
    double shankHeightMm = 0;  // of bars the diameter
    double shankWidthMm = 0;
    double lengthMm = 0;  // 0: special
    double insertSizeMm = 0;
};

struct HolderReading {
    std::optional<HolderDesignation> designation;
    std::string fault;  // what is not understood, where there is no designation
};

// Blanks and a hyphen may stand between the groups; behind a hyphen at the end up to three letters or figures of the
// maker's own, which are not looked at.
HolderReading readHolderDesignation(std::string_view text);

}  // namespace firstoff
