// Which pairs have to be looked at. Let the directions of travel from one element to another span less than half a
// turn. Then there is a line on which the profile never runs back, and its centre path, in which every element keeps
// its direction (compensate() reports those that do not), never does either. A centre path that came too near to the
// profile would have to cross itself to get there and back, which a path that never runs back cannot. So only pairs
// whose directions span half a turn or more remain, such as the two walls of a groove, and elements that were reported.
//
// Both bounds of the pairs of an element, that one and the one in the header, only move forwards with it.
#include "sim/control/nose_gouge.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <deque>
#include <limits>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/control/offset_curve.h"

namespace firstoff {

namespace {

using namespace nose;

// A profile that runs back by less still runs one way: the rounding of a program's decimals.
constexpr double kRunsBackMm = 0.01;
// Directions that span so much less than half a turn do not count as half a turn, rad. Far above rounding.
constexpr double kHalfTurn = kPi - 1e-3;

// Values in a row, and the farthest back that one may go so that all from there on stay within `span` of the last in
// one direction.
class RisingWindow {
public:
    explicit RisingWindow(double span) : span_(span) {}
    // Adds a value of an element; the elements come in order.
    void add(double value, std::size_t element) {
        while (!low_.empty() && value - low_.front().value > span_) {
            start_ = low_.front().element + 1;
            low_.pop_front();
        }
        while (!low_.empty() && low_.back().value >= value) low_.pop_back();
        low_.push_back({value, element});
    }
    std::size_t start() const { return start_; }

private:
    struct Entry {
        double value;
        std::size_t element;
    };
    const double span_;
    std::deque<Entry> low_;  // rising
    std::size_t start_ = 0;
};

struct Box {
    Point low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
    Point high{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};

    void take(Point p) {
        low = {std::min(low.z, p.z), std::min(low.r, p.r)};
        high = {std::max(high.z, p.z), std::max(high.r, p.r)};
    }
    void take(const Box& b) { take(b.low), take(b.high); }
    bool within(const Box& b, double reach) const {
        return low.z - b.high.z < reach && b.low.z - high.z < reach && low.r - b.high.r < reach &&
               b.low.r - high.r < reach;
    }
};

// Ends of an element and, of an arc, where it runs along an axis, in order.
struct Corners {
    Point at[6];
    int count = 0;
    void add(Point p) { at[count++] = p; }
    const Point* begin() const { return at; }
    const Point* end() const { return at + count; }
};

Corners cornersOf(const PathElement& e) {
    Corners points;
    points.add(e.from);
    if (isArc(e.kind)) {
        const double radius = distance(e.from, e.centre);
        const double k = e.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
        const double start = std::atan2(e.from.r - e.centre.r, e.from.z - e.centre.z);
        const double turn = turnOf(e);
        const double quarter = kPi / 2;
        for (int i = 1; i <= 4; ++i) {
            const double next = k * (std::floor(k * start / quarter) + i) * quarter;
            if (std::abs(next - start) >= turn) break;
            points.add(e.centre + radius * Point{std::cos(next), std::sin(next)});
        }
    }
    points.add(e.to);
    return points;
}

Box boxOf(const PathElement& e) {
    Box box;
    for (Point p : cornersOf(e)) box.take(p);
    return box;
}

// Boxes about elements in a row, in a tree of ever longer rows.
class BoxTree {
public:
    explicit BoxTree(const std::vector<Box>& boxes) {
        while (leaves_ < boxes.size()) leaves_ *= 2;
        nodes_.resize(2 * leaves_);
        std::copy(boxes.begin(), boxes.end(), nodes_.begin() + static_cast<std::ptrdiff_t>(leaves_));
        for (std::size_t i = leaves_ - 1; i > 0; --i) {
            nodes_[i] = nodes_[2 * i];
            nodes_[i].take(nodes_[2 * i + 1]);
        }
    }
    // Calls `visit` for the elements from `first` up to but not `last` whose boxes come nearer to `box` than `reach`.
    template <typename Visit>
    void near(const Box& box, double reach, std::size_t first, std::size_t last, const Visit& visit) const {
        descend(1, 0, leaves_, box, reach, first, last, visit);
    }

private:
    template <typename Visit>
    void descend(std::size_t node, std::size_t from, std::size_t to, const Box& box, double reach, std::size_t first,
                 std::size_t last, const Visit& visit) const {
        if (to <= first || last <= from || !nodes_[node].within(box, reach)) return;
        if (to - from == 1) return visit(from);
        const std::size_t half = (from + to) / 2;
        descend(2 * node, from, half, box, reach, first, last, visit);
        descend(2 * node + 1, half, to, box, reach, first, last, visit);
    }

    std::size_t leaves_ = 1;
    std::vector<Box> nodes_;  // 1 is the root, 2i and 2i + 1 are the halves of i
};

// Places on a path at which it may be nearest to an element: its ends, where it is nearest to the ends and the centre
// of the element, and where it crosses it. Some may lie past its ends; they are left out by the caller.
struct Places {
    Point at[12];
    int count = 0;
    void add(Point p) { at[count++] = p; }
};

void addFoot(Places& places, const PathElement& path, Point p) {
    if (!isArc(path.kind)) {
        const Point way = path.to - path.from;
        return places.add(path.from + (dot(p - path.from, way) / dot(way, way)) * way);
    }
    const Point u = p - path.centre;
    const double far = length(u);
    if (far <= tolerance::kSamePlaceMm) return;
    const double radius = distance(path.from, path.centre);
    places.add(path.centre + (radius / far) * u);
    places.add(path.centre - (radius / far) * u);
}

// Where a line crosses a circle.
void addCrossings(Places& places, Point from, Point to, Point centre, double radius) {
    const Point u = (1 / distance(from, to)) * (to - from);
    const Point foot = from + dot(centre - from, u) * u;
    const double half = (radius - distance(centre, foot)) * (radius + distance(centre, foot));
    if (half < 0) return;
    places.add(foot + std::sqrt(half) * u);
    places.add(foot - std::sqrt(half) * u);
}

void addNearest(Places& places, const PathElement& path, const PathElement& e) {
    const bool pathTurns = isArc(path.kind), elementTurns = isArc(e.kind);
    if (!pathTurns && !elementTurns) {
        const Point u = path.to - path.from, v = e.to - e.from;
        const double sine = cross(u, v);
        if (sine != 0) places.add(path.from + (cross(e.from - path.from, v) / sine) * u);
        return;
    }
    if (!pathTurns) {
        addFoot(places, path, e.centre);
        return addCrossings(places, path.from, path.to, e.centre, distance(e.from, e.centre));
    }
    const double radius = distance(path.from, path.centre);
    if (!elementTurns) {
        const Point v = e.to - e.from;
        const Point n = (radius / length(v)) * leftOf(v);
        places.add(path.centre + n);
        places.add(path.centre - n);
        return addCrossings(places, e.from, e.to, path.centre, radius);
    }
    addFoot(places, path, e.centre);
    const double apart = distance(path.centre, e.centre), other = distance(e.from, e.centre);
    if (apart <= tolerance::kSamePlaceMm) return;
    // Where two circles cross: on the line at right angles to that of their centres.
    const double along = (apart * apart + (radius - other) * (radius + other)) / (2 * apart);
    const Point u = (1 / apart) * (e.centre - path.centre);
    const Point foot = path.centre + along * u;
    addCrossings(places, foot, foot + leftOf(u), path.centre, radius);
}

// How far the nose reaches over an element from one place of its centre. `side` as in offset_curve.h.
double reachOver(const PathElement& e, Point centre, double rho, double side) {
    const double far = distanceTo(e, centre);
    if (far >= rho) return 0;
    const Point t =
        isArc(e.kind) ? (e.kind == MoveKind::ArcAnticlockwise ? 1.0 : -1.0) * leftOf(centre - e.centre) : e.to - e.from;
    const Point off = isArc(e.kind) ? (distance(centre, e.centre) - distance(e.from, e.centre)) * (centre - e.centre)
                                    : centre - e.from;
    const bool beside = far < std::min(distance(centre, e.from), distance(centre, e.to));
    const bool beyond = beside && side * cross(t, off) < 0;
    return beyond ? rho + far : rho - far;
}

double reachOver(const PathElement& e, const PathElement& path, double rho, double side) {
    double deepest = std::max(reachOver(e, path.from, rho, side), reachOver(e, path.to, rho, side));
    if (hasNoLength(path)) return deepest;
    Places places;
    addFoot(places, path, e.from);
    addFoot(places, path, e.to);
    addNearest(places, path, e);
    for (int i = 0; i < places.count; ++i) {
        if (distanceTo(path, places.at[i]) > tolerance::kSamePlaceMm) continue;
        deepest = std::max(deepest, reachOver(e, places.at[i], rho, side));
    }
    return deepest;
}

class GougeSearch {
public:
    GougeSearch(const std::vector<PathElement>& elements, const CompensationSetting& setting, bool cancelled)
        : elements_(elements),
          cancelled_(cancelled),
          rho_(setting.noseRadius),
          side_(setting.side == Compensation::Left ? 1 : -1),
          tip_(setting.noseRadius * tipFromNoseCentre(setting.tipNumber)) {
        while (startUp_ < elements.size() && hasNoLength(elements[startUp_])) ++startUp_;
    }

    std::vector<NoseGouge> run(const std::vector<PathElement>& path, const std::vector<CompensationIssue>& issues) {
        if (startUp_ >= elements_.size()) return {};
        findSides();
        findBounds();
        markReported(issues);
        look(path);
        return deepestOfEach();
    }

private:
    struct Bounds {
        std::size_t oneWay = 0;  // the profile runs one way from this element to the one it is of
        std::size_t turn = 0;    // from this one on their directions span less than half a turn
        bool reported = false;
    };
    struct Found {
        std::size_t element = 0, into = 0;
        double depth = 0;
    };

    // A change of side makes another contour.
    void findSides() {
        sides_.reserve(elements_.size());
        double side = side_;
        for (const PathElement& e : elements_) {
            if (e.changesSide) side = -side;
            sides_.push_back(side);
        }
    }

    void findBounds() {
        RisingWindow zUp(kRunsBackMm), zDown(kRunsBackMm), rUp(kRunsBackMm), rDown(kRunsBackMm);
        RisingWindow left(kHalfTurn), right(kHalfTurn);
        bounds_.resize(elements_.size());
        double heading = 0;
        Point before;  // direction at the end of the element before
        std::size_t sameSide = startUp_ + 1;
        for (std::size_t i = startUp_ + 1; i < contourEnd(); ++i) {
            const PathElement& e = elements_[i];
            if (e.changesSide) sameSide = i;
            if (!hasNoLength(e)) {
                for (Point p : cornersOf(e)) {
                    zUp.add(p.z, i), zDown.add(-p.z, i), rUp.add(p.r, i), rDown.add(-p.r, i);
                }
                const double k = e.kind == MoveKind::ArcAnticlockwise ? 1 : -1;
                heading +=
                    turnBetween(before, isArc(e.kind) ? k * leftOf(e.from - e.centre) : e.to - e.from, sides_[i]);
                left.add(heading, i), right.add(-heading, i);
                if (isArc(e.kind)) {
                    heading += k * turnOf(e);
                    left.add(heading, i), right.add(-heading, i);
                }
                before = isArc(e.kind) ? k * leftOf(e.to - e.centre) : e.to - e.from;
            }
            const std::size_t oneWay =
                std::min(std::min(zUp.start(), zDown.start()), std::min(rUp.start(), rDown.start()));
            bounds_[i].oneWay = std::max(oneWay, sameSide);
            bounds_[i].turn = std::max(std::max(left.start(), right.start()), bounds_[i].oneWay);
        }
        // The moves that lead on and off belong to the pass that begins, or ends, with them.
        if (cancelled_ && elements_.size() > startUp_ + 2) bounds_.back() = bounds_[elements_.size() - 2];
    }

    std::size_t contourEnd() const { return elements_.size() - (cancelled_ ? 1 : 0); }

    // Half a turn is one away from the tool.
    static double turnBetween(Point t1, Point t2, double side) {
        const double turn = std::atan2(cross(t1, t2), dot(t1, t2));
        return std::abs(turn) > kHalfTurn ? -side * std::abs(turn) : turn;
    }

    void markReported(const std::vector<CompensationIssue>& issues) {
        std::size_t i = 0;
        for (const CompensationIssue& issue : issues) {
            const bool lost = issue.kind == CompensationIssue::Kind::InsideArcTooSmall ||
                              issue.kind == CompensationIssue::Kind::NoRoom;
            if (!lost) continue;
            // Out of order only where a piece was reported after those behind it were.
            if (i >= elements_.size() || elements_[i].tag > issue.tag) i = 0;
            while (i < elements_.size() && elements_[i].tag != issue.tag) ++i;
            for (std::size_t k = i < 2 ? 0 : i - 2; k < std::min(i + 3, elements_.size()); ++k)
                bounds_[k].reported = true;
        }
    }

    bool isSwitching(std::size_t i) const { return i <= startUp_ || (cancelled_ && i + 1 == elements_.size()); }

    bool isContour(std::size_t i) const {
        return !isSwitching(i) && elements_[i].kind != MoveKind::Rapid && !hasNoLength(elements_[i]);
    }

    void look(const std::vector<PathElement>& path) {
        std::vector<Box> boxes(elements_.size());
        for (std::size_t i = 0; i < elements_.size(); ++i) {
            if (isContour(i)) boxes[i] = boxOf(elements_[i]);
        }
        const BoxTree tree(boxes);
        std::size_t i = 0;          // the element that the stretch of path belongs to
        std::size_t oneWayEnd = 0;  // behind the last element to which the profile runs one way from it
        std::size_t turnBegin = 0;  // the first one whose directions span half a turn with it
        for (const PathElement& stretch : path) {
            while (i > 0 && elements_[i].tag > stretch.tag) --i;
            while (elements_[i].tag < stretch.tag) ++i;
            while (oneWayEnd < elements_.size() && bounds_[oneWayEnd].oneWay <= std::max(i, startUp_ + 1)) ++oneWayEnd;
            while (turnBegin < elements_.size() && bounds_[turnBegin].turn <= i) ++turnBegin;
            const Bounds& b = bounds_[i];
            PathElement centre = stretch;
            centre.from = stretch.from - tip_;
            centre.to = stretch.to - tip_;
            centre.centre = stretch.centre - tip_;
            if (isSwitching(i) || b.reported) {
                lookFor(centre, i, b.oneWay, oneWayEnd, tree);
            } else {
                lookFor(centre, i, b.oneWay, b.turn, tree);
                lookFor(centre, i, turnBegin, oneWayEnd, tree);
            }
        }
    }

    void lookFor(const PathElement& centre, std::size_t i, std::size_t first, std::size_t last, const BoxTree& tree) {
        if (first >= last) return;
        tree.near(boxOf(centre), rho_ - tolerance::kTouchMm, first, last, [&](std::size_t into) {
            // The first and the last point of a contour are in the air; the nose may roll round them.
            if (isSwitching(i) && (into == i + 1 || into + 1 == i)) return;
            const double depth = reachOver(elements_[into], centre, rho_, sides_[into]);
            // The last way back, likewise: to pass by its end is no harm, to cross it is.
            if (depth <= (isSwitching(i) ? rho_ : tolerance::kTouchMm)) return;
            if (!found_.empty() && found_.back().element == i) {
                if (depth > found_.back().depth) found_.back() = {i, into, depth};
            } else {
                found_.push_back({i, into, depth});
            }
        });
    }

    std::vector<NoseGouge> deepestOfEach() const {
        std::vector<NoseGouge> gouges;
        std::size_t reachesTo = 0;
        for (const Found& found : found_) {
            const bool sameOne = !gouges.empty() && std::min(found.element, found.into) <= reachesTo;
            const NoseGouge gouge{elements_[found.element].tag, elements_[found.into].tag, found.depth,
                                  isSwitching(found.element)};
            if (!sameOne) {
                gouges.push_back(gouge);
            } else if (gouge.depthMm > gouges.back().depthMm) {
                gouges.back() = gouge;
            }
            reachesTo = std::max({sameOne ? reachesTo : 0, found.element, found.into});
        }
        return gouges;
    }

    const std::vector<PathElement>& elements_;
    const bool cancelled_;
    const double rho_;
    const double side_;
    const Point tip_;
    std::size_t startUp_ = 0;
    std::vector<double> sides_;
    std::vector<Bounds> bounds_;
    std::vector<Found> found_;  // the deepest of each element
};

}  // namespace

std::vector<NoseGouge> noseGouges(const std::vector<PathElement>& elements, const std::vector<PathElement>& path,
                                  const CompensationSetting& setting, bool cancelled,
                                  const std::vector<CompensationIssue>& issues) {
    if (setting.side == Compensation::Off || setting.noseRadius <= tolerance::kTouchMm) return {};
    return GougeSearch(elements, setting, cancelled).run(path, issues);
}

}  // namespace firstoff
