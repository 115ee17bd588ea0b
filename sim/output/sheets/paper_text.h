// Text set with Pango, drawn with Cairo; points of 1/72 inch, y down. Inside sim/output/sheets only.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include <cairo.h>
#include <pango/pangocairo.h>

#include "sim/base/units.h"

namespace firstoff {

struct Release {
    void operator()(gpointer object) const { g_object_unref(object); }
};

struct TypeStyle {
    double size = 9;  // pt
    bool bold = false;
    bool mono = false;
    double grey = 0;  // 0 black
};

// Where text is measured and drawn. Throws std::runtime_error if there are no fonts.
class TypeCase {
public:
    explicit TypeCase(cairo_t* cr);
    cairo_t* cairo() const { return cr_; }

    // A text broken into lines of `width` at most, between words or else within them; width 0: one line.
    using Layout = std::unique_ptr<PangoLayout, Release>;
    Layout set(std::string_view text, const TypeStyle& style, double width = 0) const;

    double width(std::string_view text, const TypeStyle& style) const;
    // Of the longest piece of text that is not broken between words.
    double widestWord(std::string_view text, const TypeStyle& style) const;
    double height(std::string_view text, const TypeStyle& style, double width) const;
    // Draws with the upper left corner at (x, y) and returns the height.
    double draw(std::string_view text, const TypeStyle& style, double x, double y, double width = 0) const;

private:
    cairo_t* cr_;
    std::unique_ptr<PangoContext, Release> context_;
};

double widthOf(PangoLayout* layout);
double heightOf(PangoLayout* layout);

struct Sketch;
// With its upper left corner at (x, y).
void drawSketch(const TypeCase& type, const Sketch& sketch, double x, double y);

inline constexpr double kPointsPerMm = 72 / kMmPerInch;

}  // namespace firstoff
