#include "gui/scene/measured_surfaces.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace firstoff::gui {

namespace {

using State = GaugedDimension::State;

constexpr double kSectionMm = 0.01;  // chords of the section
// A place of a gauge lies on the surface; chords, and columns that are known to half a pitch, stand off by less.
constexpr double kOnSurfaceMm = 0.05;

double distanceTo(Point a, Point b, Point p) {
    const Point d = b - a;
    const double size = dot(d, d);
    const double share = size > 0 ? std::clamp(dot(p - a, d) / size, 0.0, 1.0) : 0;
    return length(p - (a + share * d));
}

// What left the surface nearest to a place.
CutId cutAt(const std::vector<Loop>& loops, int piece, Point place) {
    place.r = std::abs(place.r);
    double least = kOnSurfaceMm;
    CutId found = kUncut;
    for (const Loop& loop : loops) {
        if (loop.piece != piece) continue;
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const double away = distanceTo(loop.points[i], loop.points[(i + 1) % loop.points.size()], place);
            if (away >= least) continue;
            least = away;
            found = loop.cuts[i];
        }
    }
    return found;
}

// Whether the colour of a cut may tell what a size came to. A face that a cut left only at its end, as the shoulder
// behind a cylinder, has the colour of the cylinder, whose size is another.
bool showsSize(const Trial& trial, WantedDimension::Kind kind, CutId cut) {
    const bool ofFaces = kind == WantedDimension::Kind::Length || kind == WantedDimension::Kind::GrooveWidth;
    if (!ofFaces || !isCutHere(cut) || cut >= trial.timeline.moves.size()) return true;
    const Point way = trial.timeline.moves[cut].to - trial.timeline.moves[cut].from;
    return std::abs(way.r) > std::abs(way.z);
}

}  // namespace

MeasuredSurfaces::MeasuredSurfaces(const Trial& trial) {
    if (!trial.stock) return;
    StockCursor end(trial.stock);
    end.seek(static_cast<std::uint32_t>(trial.timeline.moves.size()), 0);
    const std::vector<Loop> loops = end.section(kSectionMm);
    for (const GaugedDimension& d : trial.gauged.dimensions) {
        if (d.state == State::NotFound) continue;
        // Of a thread the pitch diameter was taken, which no edge of the section has.
        const auto takeIfShown = [&](CutId cut) {
            if (showsSize(trial, d.wanted.kind, cut)) take(cut, d.state);
        };
        takeIfShown(d.cut);
        if (d.wanted.kind == WantedDimension::Kind::Thread) continue;
        for (const Point& place : d.places) takeIfShown(cutAt(loops, d.piece, place));
    }
}

void MeasuredSurfaces::take(CutId cut, State state) {
    if (cut == kUncut) return;
    const auto [at, added] = states_.try_emplace(cut, state);
    if (!added && at->second == State::Within) at->second = state;
}

std::optional<State> MeasuredSurfaces::of(CutId cut) const {
    const auto at = states_.find(cut);
    if (at == states_.end()) return std::nullopt;
    return at->second;
}

}  // namespace firstoff::gui
