// Metal that meets a side of an insert which is no cutting edge: a cut deeper than the edge is long, or a move that
// goes backwards into the work.
//
// Notation. A convex outline goes along u. Every line along u leaves the outline at one point of its advancing side
// (outward normal n with n.u > 0), and that point meets all new metal on the line. So each element of the advancing
// side sweeps a band of its own, and it rams metal just when there is metal in its band before the move (elementary
// geometry). q = cross(u, p) tells the bands apart:
//
//        q ^   .--------.    not an edge: what stands up here is rammed
//          | u |        |
//          | <-|        |    the edge: what stands up here is cut
//          |   `.______.'
//
// Arcs are taken as chords, each with the billet as it is where the chord begins.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/motion/travel_time.h"
#include "sim/stock/billet_columns.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

// Moves looked at closely; each takes a seek. A program with more of them has been told often enough.
constexpr int kMostLookedAt = 200;
constexpr int kChords = 8;  // of an arc
// Elements that advance less than this slide along.
const double kLeastAdvance = std::sin(radians(0.5));
// Metal in a band counts from here inwards: columns stand a pitch apart, and walls a pitch off.
constexpr double kTrimMm = 0.02;
constexpr double kSliverMm = 0.01;
// What a turret out of square, or a shoulder left a little proud, would account for.
constexpr double kRammedMm = 0.02;
// The billet is asked where the cut may be this share of what the edge reaches.
constexpr double kWorthALook = 0.8;

struct Stretch {
    Point from, to;       // of the tip, lathe frame
    double fraction = 0;  // of the move, where it begins
};

std::vector<Stretch> stretchesOf(const Machining& m, std::size_t i) {
    const TimedMove& timed = m.timeline.moves[i];
    const Point shift = tipFrom(m, i) - timed.from;
    if (timed.kind == MoveKind::Feed) return {{tipFrom(m, i), tipTo(m, i), 0}};
    const Arc arc = arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
    std::vector<Stretch> stretches;
    for (int k = 0; k < kChords; ++k) {
        const double at = static_cast<double>(k) / kChords, next = static_cast<double>(k + 1) / kChords;
        stretches.push_back({arc.at(at) + shift, arc.at(next) + shift, at});
    }
    return stretches;
}

std::optional<Point> directionOf(const Stretch& stretch) {
    const Point way = stretch.to - stretch.from;
    const double along = length(way);
    return along > tolerance::kTouchMm ? std::optional((1 / along) * way) : std::nullopt;
}

// How much the element turns to the front; for arcs, where it does so most.
double advance(const OutlineElement& e, Point u) {
    const auto normalAt = [](Point along) { return -leftOf((1 / length(along)) * along); };
    if (e.radius == 0) return dot(normalAt(e.to - e.from), u);
    return std::max(dot(e.from - e.centre, u), dot(e.to - e.centre, u)) / e.radius;
}

struct Band {
    double low = std::numeric_limits<double>::infinity(), high = -std::numeric_limits<double>::infinity();
    bool empty() const { return high <= low; }
    double width() const { return empty() ? 0 : high - low; }
    double outside(double q) const { return empty() ? 0 : std::max({low - q, q - high, 0.0}); }
    void take(double q) {
        low = std::min(low, q);
        high = std::max(high, q);
    }
};

Band cuttingBand(const Outline& outline, Point u) {
    Band band;
    for (const OutlineElement& e : outline.elements) {
        if (!e.cutting || advance(e, u) <= 0) continue;
        band.take(cross(u, e.from));
        band.take(cross(u, e.to));
    }
    return band;
}

// A thin strip inside the outline, along a share of a straight element.
Outline strip(Point from, Point to) {
    const Point inwards = (kSliverMm / distance(from, to)) * leftOf(to - from);
    return roundedPolygon({from, to, to + inwards, from + inwards}, {0, 0, 0, 0});
}

struct Rammed {
    double overMm = 0;  // how far beyond the edge, square to the way
    double edgeMm = 0;  // how wide a cut the edge makes on this way
};

class Edges {
public:
    explicit Edges(const Machining& m) : m_(m), cursor_(m.stock), shareOfTheRound_(shareOfTheRound(m)) {}

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < m_.timeline.moves.size() && lookedAt_ < kMostLookedAt; ++i) look(i);
        return std::move(findings_);
    }

private:
    // How much of the circle round the blank is metal, for those that are not round; on the safe side, at most 1.
    static double shareOfTheRound(const Machining& m) {
        const Stock& stock = m.setup.stock;
        const double round = kPi * stock.outerRadius * stock.outerRadius * (stock.frontZ - stock.backZ);
        const double share = stock.isRound() || round <= 0 ? 1 : m.stock->startVolumeMm3() / round;
        return share > 0 ? std::min(1.0, share) : 1;
    }

    static bool hasInsert(const Tool* tool) {
        return tool != nullptr && (tool->kind == ToolKind::Turning || tool->kind == ToolKind::Boring) &&
               tool->insertShape != 'R';
    }

    // How wide the cut may be, square to the way: along Z a radial column tells it, along X the mean over the way.
    double widthOfCut(std::size_t i) const {
        const Cut& cut = m_.stock->cuts()[i];
        const Point from = tipFrom(m_, i), to = tipTo(m_, i);
        const Point way = to - from;
        const double along = length(way);
        const double ring = kPi * std::abs(to.r * to.r - from.r * from.r);
        const double deep = along > 0 ? static_cast<double>(cut.deepestMm) * std::abs(way.z) / along : 0;
        const bool straight = m_.timeline.moves[i].kind == MoveKind::Feed;
        if (!straight) return std::max(static_cast<double>(cut.deepestMm), deep);
        const double volume = static_cast<double>(cut.removedMm3) / shareOfTheRound_;
        return std::max(deep, ring > tolerance::kTouchMm ? 2 * volume / ring : 0);
    }

    void look(std::size_t i) {
        const TimedMove& timed = m_.timeline.moves[i];
        if (!isAtFeed(timed.kind) || timed.kind == MoveKind::Thread || !takesMetal(m_, i)) return;
        const Tool* tool = toolAt(m_, i);
        const Move& move = moveAt(m_, i);
        if (!hasInsert(tool) || move.call == toldCall_) return;
        const double width = widthOfCut(i);
        Rammed worst;
        bool counted = false;
        for (const Stretch& stretch : stretchesOf(m_, i)) {
            const std::optional<Point> u = directionOf(stretch);
            if (!u || width < kWorthALook * cuttingBand(tool->cutting, *u).width()) continue;
            if (!counted) ++lookedAt_;
            counted = true;
            cursor_.seek(static_cast<std::uint32_t>(i), stretch.fraction);
            const Rammed rammed = rammedOn(stretch, *u, tool->cutting);
            if (rammed.overMm > worst.overMm) worst = rammed;
        }
        if (worst.overMm <= kRammedMm) return;
        toldCall_ = move.call;  // what follows with this tool is likely the same mistake
        report(i, *tool, worst);
    }

    // `turned`: the outline runs from `to` to `from`.
    bool touches(const Stretch& stretch, Point from, Point to, bool turned) const {
        if (distance(from, to) < kTrimMm) return false;
        if (turned) std::swap(from, to);
        const Sweep sweep{stretch.from, stretch.to, {}, Sweep::Path::Line};
        return cursor_.billet().deepestTouch(sweep, strip(from, to)) > tolerance::kTouchMm;
    }

    Rammed rammedOn(const Stretch& stretch, Point u, const Outline& outline) const {
        const Band band = cuttingBand(outline, u);
        Rammed rammed{0, band.width()};
        for (const OutlineElement& e : outline.elements) {
            const double long_ = distance(e.from, e.to);
            if (e.cutting || e.radius > 0 || advance(e, u) < kLeastAdvance || long_ < 3 * kTrimMm) continue;
            // From the end next to the edge to the other one.
            const Point trim = (kTrimMm / long_) * (e.to - e.from);
            Point near = e.from + trim, far = e.to - trim;
            const bool turned = band.outside(cross(u, far)) < band.outside(cross(u, near));
            if (turned) std::swap(near, far);
            if (!touches(stretch, near, far, turned)) continue;
            rammed.overMm = std::max(rammed.overMm, reach(stretch, u, band, near, far, turned));
        }
        return rammed;
    }

    // How far along an element metal is met, as a distance square to the way from the edge's band.
    double reach(const Stretch& stretch, Point u, const Band& band, Point near, Point far, bool turned) const {
        constexpr int kHalvings = 12;
        double met = 0, free = 1;
        for (int k = 0; k < kHalvings; ++k) {
            const double middle = (met + free) / 2;
            const Point from = near + middle * (far - near);
            const bool more = touches(stretch, from, far, turned);
            (more ? met : free) = middle;
        }
        const Point last = near + met * (far - near);
        return band.empty() ? std::abs(cross(u, last - near)) : band.outside(cross(u, last));
    }

    void report(std::size_t i, const Tool& tool, const Rammed& rammed) {
        // An edge that only slides along does little of such a cut.
        const bool atTheEdge = rammed.edgeMm > std::max(tool.noseRadius + kRammedMm, rammed.overMm);
        if (atTheEdge) {
            Finding finding = findingAt(m_, i, Severity::Warning, "cut-deeper-than-edge");
            finding.message =
                say("The insert of tool {} takes a cut {:.3f} mm wide, {:.3f} mm more than its edge reaches on this "
                    "way: there it rams the metal with a side that is no edge.",
                    toolWord(m_, i), rammed.edgeMm + rammed.overMm, rammed.overMm);
            finding.remedy = tr("Cut less deep, or take an insert with a longer edge.");
            finding.values = {{"over_mm", rammed.overMm}, {"edge_mm", rammed.edgeMm}};
            findings_.push_back(std::move(finding));
            return;
        }
        Finding finding = findingAt(m_, i, Severity::Stop, "insert-back-into-material");
        finding.message = say(
            "Tool {} is fed with the back of its insert into the metal, {:.3f} mm wide: there is no edge on that side.",
            toolWord(m_, i), rammed.overMm);
        finding.remedy = tr("Retract clear of the metal before going this way, or use a tool of the other hand.");
        finding.values = {{"over_mm", rammed.overMm}};
        findings_.push_back(std::move(finding));
    }

    const Machining& m_;
    StockCursor cursor_;
    double shareOfTheRound_ = 1;
    std::vector<Finding> findings_;
    int toldCall_ = -1;
    int lookedAt_ = 0;
};

}  // namespace

std::vector<Finding> edgeFindings(const Machining& machining) {
    return Edges(machining).find();
}

}  // namespace firstoff
