#include "sim/inspection/bent_size.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/say.h"

namespace firstoff {

namespace {

using Kind = WantedDimension::Kind;
constexpr double kNotKnown = std::numeric_limits<double>::quiet_NaN();
// Sizes along a surface that differ by less are alike.
constexpr double kAlikeMm = 1e-6;

struct Candidate {
    Point place;
    double path = 0, bending = 0;
    double size() const { return path + bending; }
};

class BentDiameters {
public:
    BentDiameters(GaugedDimension& gauged, const GaugeReading& reading, const CutBending& bent)
        : g_(gauged), reading_(reading), bent_(bent) {}

    void run() {
        for (const GaugedStretch& stretch : reading_.stretches) along(stretch);
        if (candidates_.empty()) return;
        if (!g_.bendingNote.empty()) {
            for (Candidate& c : candidates_) c.bending = 0;
        }
        const auto smaller = [](const Candidate& a, const Candidate& b) { return a.size() < b.size(); };
        const auto [least, most] = std::minmax_element(candidates_.begin(), candidates_.end(), smaller);
        if (!g_.bendingNote.empty()) g_.bending = kNotKnown;
        if (most->size() - least->size() <= kAlikeMm) {
            if (g_.bendingNote.empty()) g_.bending = least->bending;
            g_.smallest = g_.largest = {reading_.places.front(), g_.expected()};
            return;
        }
        g_.smallest = {least->place, least->size()};
        g_.largest = {most->place, most->size()};
        const bool atLeast = std::abs(least->size() - g_.middle()) > std::abs(most->size() - g_.middle());
        const Candidate& worst = atLeast ? *least : *most;
        g_.measured = worst.path;
        if (g_.bendingNote.empty()) g_.bending = worst.bending;
        g_.places = {worst.place};
    }

private:
    // Where the bending of one stretch is not known, that of none is counted.
    void along(const GaugedStretch& s) {
        BentStretch bent = bent_.along(s.cut, s.from, s.to);
        if (bent.points.empty()) {
            bent.points = {{s.from, 0}, {s.to, 0}};
            if (g_.bendingNote.empty()) g_.bendingNote = bent.why;
        }
        for (const BentPoint& p : bent.points) {
            const double path = *reading_.value + 2 * (p.place.r - reading_.places.front().r);
            candidates_.push_back({p.place, path, p.errorMm});
        }
    }

    GaugedDimension& g_;
    const GaugeReading& reading_;
    const CutBending& bent_;
    std::vector<Candidate> candidates_;
};

// The angle with the diameters at both places as they come out.
void bendTaper(GaugedDimension& g, const GaugeReading& reading, const CutBending& bent) {
    if (reading.stretches.size() != 2) return;
    Point ends[2] = {reading.stretches[0].from, reading.stretches[1].from};
    for (int i = 0; i < 2; ++i) {
        const BentStretch here = bent.along(reading.stretches[static_cast<std::size_t>(i)].cut, ends[i], ends[i]);
        if (here.points.empty()) {
            g.bending = kNotKnown;
            g.bendingNote = here.why;
            return;
        }
        ends[i].r += here.points.front().errorMm / 2;
    }
    g.bending = 2 * std::atan(std::abs((ends[1].r - ends[0].r) / (ends[1].z - ends[0].z))) - *reading.value;
}

}  // namespace

void countBending(GaugedDimension& g, const GaugeReading& reading, const CutBending& bent) {
    g.measured = *reading.value;
    g.places = reading.places;
    const Point place = g.places.empty() ? Point{} : g.places.front();
    switch (g.wanted.kind) {
        case Kind::Diameter:
            g.smallest = g.largest = {place, g.measured};
            return BentDiameters(g, reading, bent).run();
        case Kind::Taper:
            bendTaper(g, reading, bent);
            break;
        case Kind::Thread:
            g.bending = kNotKnown;
            g.bendingNote = tr("how far a thread gives way is not counted on its size");
            break;
        case Kind::RunOut:
            g.bending = kNotKnown;
            g.bendingNote = tr("what the part gives way in one direction is not counted on run-out");
            break;
        case Kind::Length:
        case Kind::Radius:
        case Kind::Chamfer:
        case Kind::GrooveWidth:
            break;
    }
    g.smallest = g.largest = {place, g.expected()};
}

}  // namespace firstoff
