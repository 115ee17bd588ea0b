#include "sim/output/section_svg.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "sim/base/tolerances.h"
#include "sim/output/table_figures.h"
#include "sim/output/xml_text.h"

namespace firstoff {

namespace {

constexpr double kWideMm = 0.5, kNarrowMm = 0.25;

struct Frame {
    double z0 = 1e300, z1 = -1e300, r1 = 0;
};

Frame frameOf(std::span<const Loop> loops) {
    Frame f;
    for (const Loop& loop : loops) {
        for (Point p : loop.points) {
            f.z0 = std::min(f.z0, p.z);
            f.z1 = std::max(f.z1, p.z);
            f.r1 = std::max(f.r1, p.r);
        }
    }
    return f;
}

// SVG counts downwards.
void appendPlace(std::string& text, Point p) {
    appendTableFigure(text, p.z);
    text += ' ';
    appendTableFigure(text, -p.r);
}

bool alongAxis(Point a, Point b) {
    return a.r < tolerance::kSamePlaceMm && b.r < tolerance::kSamePlaceMm;
}

// The outline, but not along the axis, where the metal goes on below.
void appendOutline(std::string& text, const Loop& loop) {
    const std::size_t n = loop.points.size();
    bool drawing = false;
    text += "<path d=\"";
    for (std::size_t i = 0; i <= n; ++i) {
        const Point here = loop.points[i % n];
        const bool skipped = i > 0 && alongAxis(loop.points[i - 1], here);
        text += i == 0 || skipped || !drawing ? "M" : "L";
        appendPlace(text, here);
        drawing = true;
    }
    text += "\"/>\n";
}

// Stretches of metal along the line z - slope * r = offset, as heights r.
std::vector<double> crossings(std::span<const Loop> loops, int piece, double slope, double offset) {
    std::vector<double> heights;
    for (const Loop& loop : loops) {
        if (loop.piece != piece) continue;
        const std::size_t n = loop.points.size();
        for (std::size_t i = 0; i < n; ++i) {
            const Point a = loop.points[i];
            const Point b = loop.points[(i + 1) % n];
            const double da = a.z - slope * a.r - offset;
            const double db = b.z - slope * b.r - offset;
            // Half open, so that a corner on the line counts once.
            if ((da < 0) != (db < 0)) heights.push_back(a.r + (b.r - a.r) * da / (da - db));
        }
    }
    std::sort(heights.begin(), heights.end());
    return heights;
}

void appendHatching(std::string& text, std::span<const Loop> loops, int piece, const Frame& frame) {
    const double spacing = std::clamp(std::max(frame.z1 - frame.z0, frame.r1) / 40, 1.0, 4.0) * std::sqrt(2.0);
    const double slope = piece % 2 == 0 ? 1 : -1;
    const double from = slope > 0 ? frame.z0 - frame.r1 : frame.z0;
    const double to = slope > 0 ? frame.z1 : frame.z1 + frame.r1;
    text += "<path d=\"";
    for (double k = std::ceil(from / spacing); k * spacing < to; ++k) {
        const double offset = k * spacing;
        const std::vector<double> r = crossings(loops, piece, slope, offset);
        for (std::size_t i = 0; i + 1 < r.size(); i += 2) {
            text += 'M';
            appendPlace(text, {offset + slope * r[i], r[i]});
            text += 'L';
            appendPlace(text, {offset + slope * r[i + 1], r[i + 1]});
        }
    }
    text += "\"/>\n";
}

void appendGroup(std::string& text, const char* id, double widthMm, const char* more) {
    text += fmt::format(R"(<g id="{}" fill="none" stroke="black" stroke-width="{}"{}>)", id, widthMm, more);
    text += '\n';
}

}  // namespace

std::string sectionSvg(std::span<const Loop> loops, std::string_view title) {
    constexpr double kMargin = 5, kCentreLineBeyond = 3;
    const Frame f = frameOf(loops);
    const double width = f.z1 - f.z0 + 2 * kMargin;
    const double height = f.r1 + 2 * kMargin;
    std::string text = fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" height=\"{1}mm\" "
        "viewBox=\"{2} {3} {0} {1}\">\n<title>{4}</title>\n",
        tableFigure(width), tableFigure(height), tableFigure(f.z0 - kMargin), tableFigure(-f.r1 - kMargin),
        xmlText(title));
    std::vector<int> pieces;
    for (const Loop& loop : loops) pieces.push_back(loop.piece);
    std::sort(pieces.begin(), pieces.end());
    pieces.erase(std::unique(pieces.begin(), pieces.end()), pieces.end());
    appendGroup(text, "hatching", kNarrowMm, "");
    for (int piece : pieces) appendHatching(text, loops, piece, f);
    text += "</g>\n";
    appendGroup(text, "outline", kWideMm, " stroke-linejoin=\"round\" stroke-linecap=\"round\"");
    for (const Loop& loop : loops) appendOutline(text, loop);
    text += "</g>\n";
    // Long dash and dot: 24, 3, ½ and 3 line widths.
    appendGroup(text, "centre-line", kNarrowMm, " stroke-dasharray=\"6 0.75 0.125 0.75\"");
    text += "<path d=\"M";
    appendPlace(text, {f.z0 - kCentreLineBeyond, 0});
    text += 'L';
    appendPlace(text, {f.z1 + kCentreLineBeyond, 0});
    text += "\"/>\n</g>\n</svg>\n";
    return text;
}

}  // namespace firstoff
