// A drawing on paper: lines, circles and lettering in millimetres of the sheet, x to the right, y down from the upper
// left corner. Drawn alike by the HTML and the PDF writer.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/base/point.h"

namespace firstoff {

struct PaperPoint {
    double x = 0, y = 0;
    friend constexpr bool operator==(PaperPoint, PaperPoint) = default;
};

// Kinds of line as ISO 128-2 has them (from memory); wide ones twice as wide as narrow ones.
enum class LineKind : std::uint8_t {
    None,
    Wide,     // visible outlines
    Narrow,   // dimensions, leaders, hatching
    Hidden,   // narrow, dashed
    Centre,   // narrow, long dash and dot
    Phantom,  // narrow, long dash and two dots: what stands beside, earlier shapes
    Broken,   // wide, dashed: the same outline told apart by more than its place
    Fine,     // where many narrow ones would run into one another
};
inline constexpr double kWideLineMm = 0.5, kNarrowLineMm = 0.25, kFineLineMm = 0.13;
double widthOf(LineKind kind);
// Lengths of dash, gap, dash …, mm; empty for continuous lines.
std::vector<double> dashesOf(LineKind kind);

enum class Shade : std::uint8_t { None, Paper, Light, Middle, Ink };
// 0 black to 1 white; asserts that there is one.
double greyOf(Shade shade);

struct Stroke {
    LineKind line = LineKind::Narrow;
    Shade shade = Shade::None;
    bool closed = false;
    std::vector<PaperPoint> points;
};

struct Ring {
    LineKind line = LineKind::Narrow;
    Shade shade = Shade::None;
    PaperPoint centre;
    double radius = 0;
};

struct Lettering {
    enum class Anchor : std::uint8_t { Start, Middle, End };
    PaperPoint at;  // on the base line
    std::string text;
    double heightMm = 2.5;  // of capital letters, as ISO 3098 counts
    Anchor anchor = Anchor::Start;
    bool upwards = false;  // reads from below, as beside upright dimension lines
    bool bold = false;
};

using SketchMark = std::variant<Stroke, Ring, Lettering>;

struct Sketch {
    std::string title;  // what it shows, for those who cannot see it
    double width = 0, height = 0;
    std::vector<SketchMark> marks;
};

// Height of capitals by size of the type, of the letters that both writers use (DejaVu Sans; from its font file).
inline constexpr double kCapitalsPerSize = 0.729;

// How wide a line of text comes out, mm, for capitals of that height. From the widths of DejaVu Sans; of letters beyond
// Latin-1 an estimate on the wide side.
double letteringWidth(std::string_view text, double heightMm);

// From a half-plane of the lathe to paper: z to the right, r upwards.
struct PaperView {
    double scale = 1;   // mm on paper for a mm of the part
    PaperPoint origin;  // where z = 0, r = 0 stands

    PaperPoint at(Point p) const { return {origin.x + scale * p.z, origin.y - scale * p.r}; }
    std::vector<PaperPoint> at(const std::vector<Point>& points) const;
};

// The largest of the scales of ISO 5455 (from memory), and of 1:2.5 between them, at which `lengthMm` takes no more
// than `roomMm`; the smallest where none does.
double standardScale(double lengthMm, double roomMm);
// "1:2", "5:1".
std::string scaleInWords(double scale);

}  // namespace firstoff
