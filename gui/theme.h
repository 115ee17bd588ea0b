// Colours, type and measures of the window.
//
// Hues that tell things apart are the palette of Okabe and Ito (M. Okabe, K. Ito, "Color Universal Design", 2008), made
// lighter or darker until they read on the ground they stand on. Red, yellow and green are kept for danger, caution and
// a safe state, as ISO 3864-1 and IEC 60073 use them, and always come with a shape and a letter.
#pragma once

#include <imgui.h>

#include <array>

#include "gui/colour.h"
#include "sim/base/finding.h"

namespace firstoff::gui {

struct Palette {
    bool dark = true;
    bool projector = false;
    // What words and marks keep to at least, as WCAG 2.1 counts contrast: 4.5 and 3 (AA), before a projector, whose
    // black is the lit wall, 7 (AAA) and 4.5.
    double textContrast = 4.5, markContrast = 3.0;
    Colour ground;  // between the panes
    Colour panel;   // of a pane
    Colour raised;  // buttons, fields
    Colour hovered;
    Colour line;  // separators, grid
    Colour text;
    Colour quiet;                    // labels, executed blocks; still WCAG AA on every ground
    Colour accent;                   // scrubber, caret, current block
    Colour current;                  // ground of the current block
    Colour selection;                // ground of selected text
    Colour cutting, rapid, waiting;  // motion lane
    Colour spindle;
    std::array<Colour, 3> severity;  // by Severity
    Colour safe;
    Colour unproven;
    // Words of the program.
    Colour wordMotion, wordAxis, wordFeed, wordTool, wordMisc, wordOther, comment;
};

const Palette& darkPalette();
const Palette& lightPalette();
const Palette& projectorPalette(bool dark);

// What stands on screen for these settings.
const Palette& paletteFor(bool dark, bool projector);

// The hue of a station, as the picture paints what its tool has cut. Made lighter or darker for a pane, hues would run
// together for eyes that lack a kind of cones; so those that do not stand out there get an outline.
Colour toolHue(const Palette& palette, int station);
// Does a mark of this colour need an outline in the colour of text?
bool needsOutline(const Palette& palette, Colour mark);

// Type and measures for one scale. Sizes are in pixels.
struct Fonts {
    ImFont* text = nullptr;
    ImFont* small = nullptr;
    ImFont* strong = nullptr;  // as text, bold
    ImFont* mono = nullptr;
    ImFont* figures = nullptr;  // large digits of the position
    float scale = 1;
    float stroke = 1;       // widths of lines, on top of the scale
    bool fallback = false;  // none of the expected font files was found
};

// Loads type for `scale` into the current context's atlas. The renderer has to build its texture anew afterwards.
// Before a projector type is a third larger and lines nearly twice as wide.
Fonts loadFonts(float scale, bool projector = false);
inline constexpr float kProjectorType = 1.35f, kProjectorLines = 1.8f;

// Colours and roundings of the drawing library's own widgets.
void applyStyle(const Palette& palette, float scale);

// Drawing in colours of ours.
inline ImU32 ink(Colour colour, float alpha = 1.0f) {
    return packed(colour, alpha);
}
inline ImVec4 tint(Colour colour, float alpha = 1.0f) {
    return ImGui::ColorConvertU32ToFloat4(packed(colour, alpha));
}

// The mark of a severity about `centre`: an octagon for a stop, a triangle for a warning, a disc for a note; each with
// its letter. An unproven finding has a question mark in a diamond.
void drawSeverity(ImDrawList& list, ImVec2 centre, float size, const Palette& palette, Severity severity,
                  bool unproven);

}  // namespace firstoff::gui
