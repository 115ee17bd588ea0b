#include "gui/section/section_shape.h"

#include <algorithm>
#include <cmath>

namespace firstoff::gui {

namespace {

// Surfaces that run into each other more smoothly than this have no edge to be seen, rad.
constexpr double kSmooth = 0.09;
constexpr std::size_t kMostEdges = 600;  // threads and rough blanks: lines upon lines

SectionPiece& pieceOf(SectionShape& shape, int number) {
    for (SectionPiece& piece : shape.pieces) {
        if (piece.number == number) return piece;
    }
    shape.pieces.push_back({number, {}, {}});
    return shape.pieces.back();
}

// Only metal farther out than this corner would hide it.
bool seen(const PartOutline& outline, Point corner) {
    const double outside = outline.box().rMax + 1;
    for (const double beside : {-1e-6, 1e-6}) {
        const auto hits = outline.hits({corner.z + beside, outside}, {0, -1}, 0, outside);
        if (!hits.empty() && hits.front().at.r > corner.r + 1e-3) return false;
    }
    return true;
}

void addEdges(const PartOutline& outline, std::vector<std::pair<Point, Point>>& edges) {
    const std::vector<OutlineEdge>& all = outline.edges();
    if (all.size() > kMostEdges) return;
    for (const OutlineEdge& edge : all) {
        if (edge.before >= all.size() || edge.from.r <= 0) continue;
        const Point in = directionAt(all[edge.before], edge.from), out = directionAt(edge, edge.from);
        if (std::abs(std::atan2(cross(in, out), dot(in, out))) < kSmooth) continue;
        if (seen(outline, edge.from)) edges.emplace_back(edge.from, Point{edge.from.z, 0});
    }
}

// Strips follow each other along z; of those over one stretch of it the last reaches farthest out.
std::vector<std::vector<Point>> silhouettesOf(const std::vector<AreaStrip>& strips) {
    std::vector<std::vector<Point>> lines;
    for (std::size_t i = 0; i < strips.size(); ++i) {
        const AreaStrip& s = strips[i];
        if (i + 1 < strips.size() && strips[i + 1].z0 == s.z0) continue;
        const bool goesOn = !lines.empty() && lines.back().back().z == s.z0;
        if (!goesOn) {
            if (!lines.empty()) lines.back().push_back({lines.back().back().z, 0});
            lines.push_back({{s.z0, 0}});
        }
        lines.back().push_back({s.z0, s.high0});
        lines.back().push_back({s.z1, s.high1});
    }
    if (!lines.empty()) lines.back().push_back({lines.back().back().z, 0});
    return lines;
}

}  // namespace

SectionShape sectionShape(const std::vector<SectionContour>& contours, double chordErrorMm, bool withLoose) {
    SectionShape shape;
    std::vector<PlaneLoop> loops;
    for (const SectionContour& contour : contours) {
        if (contour.piece != 0 && !withLoose) continue;
        SectionPiece& piece = pieceOf(shape, contour.piece);
        piece.loops.push_back(polyline(contour.outline, chordErrorMm));
        piece.outline.add(contour.outline, contour.cuts);
        loops.push_back(piece.loops.back());
    }
    shape.strips = stripsOf(loops);
    shape.silhouettes = silhouettesOf(shape.strips);
    for (const SectionPiece& piece : shape.pieces) addEdges(piece.outline, shape.edges);
    return shape;
}

}  // namespace firstoff::gui
