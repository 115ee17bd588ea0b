#include "sim/output/sheets/sketch_marks.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "sim/base/units.h"

namespace firstoff {

namespace {

constexpr double kBeyond = 1.5;     // extension lines past the dimension line
constexpr double kGap = 0.8;        // between part and extension line, text and dimension line
constexpr double kOutsideMm = 5.5;  // of a dimension line past arrows that point inwards from outside

PaperPoint towards(PaperPoint from, PaperPoint to, double by) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length == 0) return from;
    return {from.x + (to.x - from.x) * by / length, from.y + (to.y - from.y) * by / length};
}

bool fitsBetween(double room, double textWidth) {
    return room >= textWidth + 2 * kArrowMm + 1;
}

// An extension line from the part past the dimension line, nothing where it would have no length.
void addExtension(Sketch& sketch, PaperPoint part, PaperPoint end) {
    const double length = std::hypot(end.x - part.x, end.y - part.y);
    if (length < kGap) return;
    addLine(sketch, towards(part, end, kGap), towards(part, end, length + kBeyond));
}

// White paper behind a text that stands on the dimension line at y.
void addPatch(Sketch& sketch, double x, double y, double width) {
    if (width <= 0) return;
    constexpr double kRound = 0.4;
    addPolygon(sketch,
               {{x - kRound, y - kGap - kLetterMm - kRound},
                {x + width + kRound, y - kGap - kLetterMm - kRound},
                {x + width + kRound, y},
                {x - kRound, y}},
               LineKind::None, Shade::Paper);
}

}  // namespace

void addLine(Sketch& sketch, PaperPoint a, PaperPoint b, LineKind kind) {
    sketch.marks.push_back(Stroke{kind, Shade::None, false, {a, b}});
}

void addPolygon(Sketch& sketch, std::vector<PaperPoint> points, LineKind kind, Shade shade) {
    if (points.size() < 2) return;
    sketch.marks.push_back(Stroke{kind, shade, true, std::move(points)});
}

void addText(Sketch& sketch, PaperPoint at, std::string text, Lettering::Anchor anchor, double heightMm) {
    Lettering lettering;
    lettering.at = at;
    lettering.text = std::move(text);
    lettering.anchor = anchor;
    lettering.heightMm = heightMm;
    sketch.marks.push_back(std::move(lettering));
}

void addArrowHead(Sketch& sketch, PaperPoint from, PaperPoint tip) {
    const PaperPoint back = towards(tip, from, kArrowMm);
    const double nx = (tip.y - back.y) / 6, ny = (back.x - tip.x) / 6;
    addPolygon(sketch, {tip, {back.x + nx, back.y + ny}, {back.x - nx, back.y - ny}}, LineKind::None, Shade::Ink);
}

void addLevelDimension(Sketch& sketch, double x0, double y0, double x1, double y1, double y, const std::string& text) {
    if (x0 > x1) {
        std::swap(x0, x1);
        std::swap(y0, y1);
    }
    addExtension(sketch, {x0, y0}, {x0, y});
    addExtension(sketch, {x1, y1}, {x1, y});
    const double width = letteringWidth(text, kLetterMm);
    if (fitsBetween(x1 - x0, width)) {
        addPatch(sketch, (x0 + x1 - width) / 2, y, width);
        addLine(sketch, {x0, y}, {x1, y});
        addArrowHead(sketch, {x1, y}, {x0, y});
        addArrowHead(sketch, {x0, y}, {x1, y});
        return addText(sketch, {(x0 + x1) / 2, y - kGap}, text, Lettering::Anchor::Middle);
    }
    // The text interrupts what runs behind it: extension lines of dimensions further out.
    addPatch(sketch, x1 + kOutsideMm, y, width);
    addLine(sketch, {x0 - kOutsideMm, y}, {x1 + kOutsideMm + kGap + width, y});
    addArrowHead(sketch, {x0 - kOutsideMm, y}, {x0, y});
    addArrowHead(sketch, {x1 + kOutsideMm, y}, {x1, y});
    addText(sketch, {x1 + kOutsideMm, y - kGap}, text);
}

void addUprightDimension(Sketch& sketch, double x0, double y0, double x1, double y1, double x,
                         const std::string& text) {
    if (y0 > y1) {
        std::swap(x0, x1);
        std::swap(y0, y1);
    }
    addExtension(sketch, {x0, y0}, {x, y0});
    addExtension(sketch, {x1, y1}, {x, y1});
    const double width = letteringWidth(text, kLetterMm);
    Lettering lettering;
    lettering.text = text;
    lettering.upwards = true;
    if (fitsBetween(y1 - y0, width)) {
        addLine(sketch, {x, y0}, {x, y1});
        addArrowHead(sketch, {x, y1}, {x, y0});
        addArrowHead(sketch, {x, y0}, {x, y1});
        lettering.at = {x - kGap, (y0 + y1) / 2};
        lettering.anchor = Lettering::Anchor::Middle;
    } else {
        addLine(sketch, {x, y0 - kOutsideMm - kGap - width}, {x, y1 + kOutsideMm});
        addArrowHead(sketch, {x, y0 - kOutsideMm}, {x, y0});
        addArrowHead(sketch, {x, y1 + kOutsideMm}, {x, y1});
        lettering.at = {x - kGap, y0 - kOutsideMm};
    }
    sketch.marks.push_back(std::move(lettering));
}

void addBalloon(Sketch& sketch, PaperPoint centre, int number) {
    sketch.marks.push_back(Ring{LineKind::Narrow, Shade::Paper, centre, kBalloonRadiusMm});
    const std::string text = std::to_string(number);
    const double height = text.size() > 2 ? 1.9 : kLetterMm;
    addText(sketch, {centre.x, centre.y + height / 2}, text, Lettering::Anchor::Middle, height);
}

void addDatumMark(Sketch& sketch, PaperPoint at, double radius) {
    sketch.marks.push_back(Ring{LineKind::Narrow, Shade::Paper, at, radius});
    for (const double start : {0.0, kPi}) {
        std::vector<PaperPoint> quarter{at};
        constexpr int kChords = 12;
        for (int i = 0; i <= kChords; ++i) {
            const double a = start + kPi / 2 * i / kChords;
            quarter.push_back({at.x + radius * std::cos(a), at.y + radius * std::sin(a)});
        }
        addPolygon(sketch, std::move(quarter), LineKind::None, Shade::Ink);
    }
}

void addHatching(Sketch& sketch, const std::vector<std::vector<PaperPoint>>& polygons, double spacingMm, bool rising) {
    // Lines x + slope * y = k times the spacing along x; y counts down, so slope 1 rises to the right.
    const double slope = rising ? 1 : -1;
    const double step = spacingMm * std::sqrt(2.0);
    double from = 1e300, to = -1e300;
    for (const auto& polygon : polygons) {
        for (PaperPoint p : polygon) {
            from = std::min(from, p.x + slope * p.y);
            to = std::max(to, p.x + slope * p.y);
        }
    }
    for (double k = std::ceil(from / step); k * step < to; ++k) {
        std::vector<double> heights;
        for (const auto& polygon : polygons) {
            for (std::size_t i = 0; i < polygon.size(); ++i) {
                const PaperPoint a = polygon[i], b = polygon[(i + 1) % polygon.size()];
                const double da = a.x + slope * a.y - k * step, db = b.x + slope * b.y - k * step;
                // Half open, so that a corner on the line counts once.
                if ((da < 0) != (db < 0)) heights.push_back(a.y + (b.y - a.y) * da / (da - db));
            }
        }
        std::sort(heights.begin(), heights.end());
        for (std::size_t i = 0; i + 1 < heights.size(); i += 2) {
            const double y0 = heights[i], y1 = heights[i + 1];
            if (y1 - y0 < 1e-6) continue;
            addLine(sketch, {k * step - slope * y0, y0}, {k * step - slope * y1, y1});
        }
    }
}

std::vector<Point> drawnPoints(const Outline& outline, double scale) {
    constexpr double kUnseenMm = 0.01;
    return outline.empty() ? std::vector<Point>{} : polyline(outline, kUnseenMm / scale);
}

int spreadLevels(std::vector<LevelSpan>& spans) {
    std::vector<std::size_t> order(spans.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return spans[a].x1 - spans[a].x0 < spans[b].x1 - spans[b].x0;
    });
    int levels = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        LevelSpan& span = spans[order[i]];
        // Not below what it spans, so that no extension line cuts a dimension line nearer to the part.
        for (std::size_t j = 0; j < i; ++j) {
            const LevelSpan& placed = spans[order[j]];
            if (placed.x0 < span.x1 && span.x0 < placed.x1) span.level = std::max(span.level, placed.level + 1);
        }
        levels = std::max(levels, span.level + 1);
    }
    return levels;
}

LevelSpan spanOfDimension(double x0, double x1, const std::string& text) {
    if (x0 > x1) std::swap(x0, x1);
    const double width = letteringWidth(text, kLetterMm);
    if (fitsBetween(x1 - x0, width)) return {x0, x1, 0};
    return {x0 - kOutsideMm, x1 + kOutsideMm + kGap + width, 0};
}

std::vector<Point> clipped(std::vector<Point> polygon, const Box& to) {
    // Side by side (Sutherland and Hodgman).
    const auto cut = [&](auto inside) {
        std::vector<Point> kept;
        for (std::size_t i = 0; i < polygon.size(); ++i) {
            const Point p = polygon[i], q = polygon[(i + 1) % polygon.size()];
            const double u = inside(p), v = inside(q);
            if (u >= 0) kept.push_back(p);
            if ((u > 0 && v < 0) || (u < 0 && v > 0)) kept.push_back(p + (u / (u - v)) * (q - p));
        }
        polygon = std::move(kept);
    };
    cut([&](Point p) { return p.z - to.zMin; });
    cut([&](Point p) { return to.zMax - p.z; });
    cut([&](Point p) { return p.r - to.rMin; });
    cut([&](Point p) { return to.rMax - p.r; });
    return polygon;
}

}  // namespace firstoff
