// What drawings are made of: dimension lines, arrows, hatching, balloons.
#pragma once

#include <string>
#include <vector>

#include "sim/base/outline.h"
#include "sim/base/point.h"
#include "sim/output/sheets/sketch.h"

namespace firstoff {

inline constexpr double kLetterMm = 2.5;       // of dimensions and labels, capitals
inline constexpr double kBalloonRadiusMm = 3;  // of balloons, for numbers up to 999
inline constexpr double kArrowMm = 2.2;        // length of an arrow head

void addLine(Sketch& sketch, PaperPoint a, PaperPoint b, LineKind kind = LineKind::Narrow);
void addPolygon(Sketch& sketch, std::vector<PaperPoint> points, LineKind kind, Shade shade = Shade::None);
void addText(Sketch& sketch, PaperPoint at, std::string text, Lettering::Anchor anchor = Lettering::Anchor::Start,
             double heightMm = kLetterMm);
// A filled head with its point at `tip`, come from `from`.
void addArrowHead(Sketch& sketch, PaperPoint from, PaperPoint tip);
// A dimension line from x0 to x1 at height y with its text above the middle, or beside where it is too narrow; and the
// extension lines down or up to it from y0 and y1. Limits in any order.
void addLevelDimension(Sketch& sketch, double x0, double y0, double x1, double y1, double y, const std::string& text);
// Upright, at x, text reading upwards.
void addUprightDimension(Sketch& sketch, double x0, double y0, double x1, double y1, double x, const std::string& text);
void addBalloon(Sketch& sketch, PaperPoint centre, int number);
// The mark of a datum: a ring with two quarters filled.
void addDatumMark(Sketch& sketch, PaperPoint at, double radius = 2);

// Narrow lines at 45°, rising to the right or else to the left, wherever an odd number of the polygons lie.
void addHatching(Sketch& sketch, const std::vector<std::vector<PaperPoint>>& polygons, double spacingMm, bool rising);

// Points of an outline in chords that no eye tells from its arcs at this scale.
std::vector<Point> drawnPoints(const Outline& outline, double scale);

// Dimension lines one above another, so that none runs into another: `level` 0 is nearest to the part.
struct LevelSpan {
    double x0 = 0, x1 = 0;  // mm on paper, room for the text included
    int level = 0;
};
// Short ones stay near the part. Returns how many levels there are.
int spreadLevels(std::vector<LevelSpan>& spans);
// What a level dimension takes along x, its text included.
LevelSpan spanOfDimension(double x0, double x1, const std::string& text);

// The part of a convex polygon within a rectangle; empty where there is none.
std::vector<Point> clipped(std::vector<Point> polygon, const Box& to);

}  // namespace firstoff
