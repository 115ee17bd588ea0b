#include "sim/clearance/move_gauge.h"

#include <algorithm>
#include <cmath>

#include "sim/clearance/approach.h"
#include "sim/clearance/cut_front.h"
#include "sim/motion/travel_time.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
// Steps in which one move is followed through the metal it takes off.
constexpr int kMostSteps = 4096;

bool onTurret(Carrier carrier) {
    return carrier == Carrier::Turret || carrier == Carrier::TurretSlide;
}

Point alongWay(const TipWay& way, double length, double fraction) {
    if (fraction <= 0 || length <= 0) return way.points.front();
    double left = fraction * length;
    for (std::size_t i = 1; i < way.points.size(); ++i) {
        const double leg = distance(way.points[i - 1], way.points[i]);
        if (left <= leg && leg > 0) return way.points[i - 1] + (left / leg) * (way.points[i] - way.points[i - 1]);
        left -= leg;
    }
    return way.points.back();
}

// The straight legs of a part of a way.
std::vector<Point> partOf(const TipWay& way, double length, double from, double to) {
    std::vector<Point> points{alongWay(way, length, from)};
    double at = 0;
    for (std::size_t i = 1; i + 1 < way.points.size(); ++i) {
        at += distance(way.points[i - 1], way.points[i]);
        if (at > from * length && at < to * length) points.push_back(way.points[i]);
    }
    points.push_back(alongWay(way, length, to));
    return points;
}

// A half-section on both sides of the axis: one polygon where it reaches the axis, else two.
void addBothSides(std::vector<std::vector<Point>>& all, const std::vector<Point>& half) {
    std::vector<Point> other;
    for (auto p = half.rbegin(); p != half.rend(); ++p) other.push_back({p->z, -p->r});
    const auto onAxis = std::count_if(half.begin(), half.end(), [](Point p) { return p.r <= 1e-12; });
    if (onAxis == 0) {
        all.push_back(half);
        all.push_back(std::move(other));
        return;
    }
    // Convex, and anticlockwise: the upper half starts at its right-hand end on the axis.
    std::vector<Point> whole;
    std::size_t start = 0;
    for (std::size_t i = 0; i < half.size(); ++i) {
        if (half[i].r <= 1e-12 && half[(i + 1) % half.size()].r > 1e-12) start = i;
    }
    for (std::size_t i = 0; i < half.size(); ++i) {
        const Point p = half[(start + i) % half.size()];
        if (p.r > 1e-12) whole.push_back(p);
    }
    std::vector<Point> ends;
    for (Point p : half) {
        if (p.r <= 1e-12) ends.push_back(p);
    }
    const auto [left, right] =
        std::minmax_element(ends.begin(), ends.end(), [](Point a, Point b) { return a.z < b.z; });
    std::vector<Point> upper = whole;
    whole.clear();
    const auto corner = [&](Point on, Point upperNear) {
        // The end on the axis is a corner of the whole only where the outline does not go straight through it.
        return std::abs(on.z - upperNear.z) > 1e-12;
    };
    if (corner(*right, upper.front())) whole.push_back({right->z, 0});
    for (Point p : upper) whole.push_back(p);
    if (corner(*left, upper.back())) whole.push_back({left->z, 0});
    for (auto p = upper.rbegin(); p != upper.rend(); ++p) whole.push_back({p->z, -p->r});
    all.push_back(std::move(whole));
}

// A shank that is no thicker than the hole that its own tool makes.
bool followsInItsHole(const Tool& tool) {
    if (!worksOnTheAxis(tool.kind) || tool.cutting.empty()) return false;
    double hole = boundingBox(tool.cutting).rMax;
    for (const Outline& step : tool.steps) hole = std::max(hole, boundingBox(step).rMax);
    return boundingBox(tool.holder).rMax <= hole + 1e-9;
}

}  // namespace

GaugeShapes::GaugeShapes(const MachineBodies& all, const Setup& of)
    : bodies(all),
      setup(of),
      shapes(all.bodies.size()),
      reach(all.bodies.size()),
      boxes(all.bodies.size()),
      outlines(all.bodies.size()),
      metalOutlines(all.bodies.size()),
      sections(all.bodies.size()) {
    for (std::size_t i = 0; i < all.bodies.size(); ++i) {
        const MachineBody& body = all.bodies[i];
        if (!body.pieces.empty()) {
            shapes[i] = BodyShape(body.pieces, body.isMesh);
            reach[i] = shapes[i].reach(all.turretAxisR);
            boxes[i] = shapes[i].box();
        }
        if (body.kind == BodyKind::Billet) {
            const double radius = of.stock.outerRadius + std::abs(of.stock.eccentricity);
            boxes[i] = {{of.stock.backZ, -radius, -radius}, {of.stock.frontZ, radius, radius}};
        }
        for (const std::vector<Point>& half : body.sections) addBothSides(sections[i], half);
        if (body.toolIndex < 0) continue;
        const Tool& tool = setup.tools[static_cast<std::size_t>(body.toolIndex)];
        if (body.kind == BodyKind::Edge) {
            if (!tool.cutting.empty()) outlines[i].push_back(tool.cutting);
            outlines[i].insert(outlines[i].end(), tool.steps.begin(), tool.steps.end());
            metalOutlines[i] = outlines[i];
        } else if (body.kind == BodyKind::Holder) {
            if (!tool.holder.empty()) outlines[i].push_back(tool.holder);
            if (!tool.holder.empty() && !followsInItsHole(tool)) metalOutlines[i].push_back(tool.holder);
            for (std::vector<Outline>* list : {&outlines[i], &metalOutlines[i]}) {
                list->insert(list->end(), tool.holderSteps.begin(), tool.holderSteps.end());
            }
        }
    }
}

MoveGauge::MoveGauge(const GaugeShapes& shapes, const MachineWays& ways, std::shared_ptr<const StockHistory> stock,
                     const std::vector<CutReach>& reaches)
    : s_(shapes), ways_(ways), stock_(std::move(stock)), reaches_(reaches), zones_(shapes.bodies.bodies.size()) {
    if (stock_) billet_.emplace(stock_, reaches_);
}

void MoveGauge::start(std::size_t timedMove) {
    index_ = timedMove;
    ways_.at(timedMove, way_);
}

bool MoveGauge::isPlanar(const BodyPair& pair) const {
    const MachineBody& body = s_.bodies.bodies[pair.body];
    return isInUse(body, way_) && !s_.outlines[pair.body].empty() &&
           (pair.other == 0 || !s_.sections[pair.other].empty());
}

double MoveGauge::errorOf(const BodyPair& pair) const {
    if (isPlanar(pair)) return 0;
    return s_.bodies.bodies[pair.body].errorMm + s_.bodies.bodies[pair.other].errorMm;
}

Placing MoveGauge::placingOf(const MachineBody& body, Point from, Point to, double fractionFrom,
                             double fractionTo) const {
    const auto between = [](Range r, double f) { return r.min + f * (r.max - r.min); };
    switch (body.carrier) {
        case Carrier::Turret: {
            Placing at = Placing::along(from, to);
            at.axisR = s_.bodies.turretAxisR;
            at.turn = way_.turn;
            return at;
        }
        case Carrier::TurretSlide:
            return Placing::along(from, to);
        case Carrier::Tailstock:
            return Placing::along({between(way_.tailstock, fractionFrom), 0}, {between(way_.tailstock, fractionTo), 0});
        case Carrier::SecondSpindle:
            return Placing::along({between(way_.second, fractionFrom), 0}, {between(way_.second, fractionTo), 0});
        case Carrier::Bed:
        case Carrier::Spindle:
            break;
    }
    return Placing::at({0, 0});
}

Nearness MoveGauge::inPlaneOf(const Billet& billet, const std::vector<Outline>& outlines, const Placing& at,
                              double beyond) const {
    Nearness nearest;
    for (const Outline& outline : outlines) {
        const Nearness n = nearnessInPlane(billet, outline, at, std::min(beyond, nearest.gap));
        if (n.gap < nearest.gap) nearest = n;
    }
    return nearest;
}

Nearness MoveGauge::on(const BodyPair& pair, const Placing& body, const Placing& other, double beyond) {
    if (pair.other != 0) return nearness(s_.shapes[pair.body], body, s_.shapes[pair.other], other, beyond);
    if (!billet_) return {};
    if (!isPlanar(pair)) return billet_->hull().nearness(s_.shapes[pair.body], body, beyond);
    const MachineBody& tool = s_.bodies.bodies[pair.body];
    Placing tip = body;
    tip.turn = 0;
    for (int i = 0; i < tip.count; ++i) {
        tip.shifts[static_cast<std::size_t>(i)] =
            tip.shifts[static_cast<std::size_t>(i)] + s_.setup.tools[static_cast<std::size_t>(tool.toolIndex)].tip;
    }
    return inPlaneOf(billet_->billet(), s_.metalOutlines[pair.body], tip, beyond);
}

double MoveGauge::gapBetween(const BodyPair& pair, double from, double to, double beyond, SpacePoint* place) {
    const MachineBody& body = s_.bodies.bodies[pair.body];
    const MachineBody& other = s_.bodies.bodies[pair.other];
    const std::vector<Point> points =
        onTurret(body.carrier) ? partOf(way_.turret, way_.length, from, to) : std::vector<Point>{{}, {}};
    double gap = kInf;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const Nearness n = on(pair, placingOf(body, points[i - 1], points[i], from, to),
                              placingOf(other, {}, {}, from, to), std::min(beyond, gap));
        if (n.gap >= gap) continue;
        gap = n.gap;
        if (place) *place = n.onSecond;
    }
    return gap - way_.turret.slack - errorOf(pair);
}

double MoveGauge::firstContact(const BodyPair& pair) {
    if (gapBetween(pair, 0, 0, 0) <= 0) return 0;
    double apart = 0, touching = 1;
    // To a millionth of the way, or less than a tenth of a micrometre.
    for (int i = 0; i < 30 && (touching - apart) * std::max(way_.length, 1.0) > 1e-4; ++i) {
        const double middle = (apart + touching) / 2;
        (gapBetween(pair, apart, middle, 0) <= 0 ? touching : apart) = middle;
    }
    return apart;
}

double MoveGauge::gapAtStart(const BodyPair& pair) {
    if (!isPlanar(pair) || pair.other == 0) return gapBetween(pair, 0, 0, kInf);
    MachineWay& way = way_;
    TipWay whole{{way.turret.points.front()}, 0};
    std::swap(way.turret, whole);
    std::optional<TipWay> straight;
    std::swap(way.straightInstead, straight);
    const double gap = measureZones(pair).gap;
    std::swap(way.straightInstead, straight);
    std::swap(way.turret, whole);
    return gap;
}

double MoveGauge::nearestAt(const BodyPair& pair) {
    double a = 0, b = 1;
    // Of convex bodies on a straight way the gap is a convex function of it; else this finds a place as near as any
    // nearby.
    for (int i = 0; i < 24; ++i) {
        const double c = a + (b - a) / 3, d = b - (b - a) / 3;
        if (gapBetween(pair, c, c, kInf) <= gapBetween(pair, d, d, kInf)) {
            b = d;
        } else {
            a = c;
        }
    }
    return (a + b) / 2;
}

PairGap MoveGauge::measureZones(const BodyPair& pair) {
    auto& perOther = zones_[pair.body];
    if (perOther.empty()) perOther.resize(s_.bodies.bodies.size());
    std::vector<ContactZone>& zones = perOther[pair.other];
    if (zones.empty()) {
        for (const std::vector<Point>& section : s_.sections[pair.other]) {
            for (const Outline& outline : s_.outlines[pair.body]) zones.emplace_back(section, outline);
        }
    }
    const Carrier carrier = s_.bodies.bodies[pair.other].carrier;
    const Range z = carrier == Carrier::Tailstock       ? way_.tailstock
                    : carrier == Carrier::SecondSpindle ? way_.second
                                                        : Range{};
    const Point tip = s_.setup.tools[static_cast<std::size_t>(way_.toolIndex)].tip;
    const auto wayFrom = [&](const TipWay& turret) {
        TipWay way = turret;
        for (Point& p : way.points) p = p + tip - Point{z.min, 0};
        if (z.max != z.min) way.points.back().z -= z.max - z.min;  // the turret stands still then
        return way;
    };
    PairGap best;
    SpacePoint contactPlace;
    const auto take = [&](const TipWay& way, bool straight) {
        const Box box = way.box();
        for (const ContactZone& zone : zones) {
            if (leastGap(box, zone.box()) >= best.gap) continue;
            const Approach a = approach(zone, way);
            if (a.gap < best.gap) {
                best.gap = a.gap;
                const Point p = zone.placeOnBody(a.reading, a.tip);
                best.place = {p.z + z.min, p.r, 0};
                best.onStraightWay = straight;
                const double whole = std::max(distance(way.points.front(), way.points.back()), 1e-12);
                if (way.points.size() == 2) best.nearestAt = std::min(1.0, distance(way.points.front(), a.tip) / whole);
            }
            if (a.contactAt >= 0 && (best.contactAt < 0 || a.contactAt < best.contactAt)) {
                best.contactAt = a.contactAt;
                const Point p = zone.placeOnBody(a.contactReading, a.contactTip);
                contactPlace = {p.z + z.min, p.r, 0};
            }
        }
    };
    take(wayFrom(way_.turret), false);
    if (way_.straightInstead) take(wayFrom(*way_.straightInstead), true);
    if (best.contactAt >= 0) best.place = contactPlace;
    return best;
}

double MoveGauge::boundOfSwing(const BodyPair& pair) const {
    const Carrier carrier = s_.bodies.bodies[pair.other].carrier;
    const double shift = carrier == Carrier::Tailstock       ? way_.tailstock.min
                         : carrier == Carrier::SecondSpindle ? way_.second.min
                                                             : 0;
    const Point turret = way_.turret.points.front();
    const SpaceBox& body = s_.boxes[pair.body];
    const SpaceBox& other = s_.boxes[pair.other];
    const double dz =
        std::max({0.0, other.min.z + shift - body.max.z - turret.z, body.min.z + turret.z - other.max.z - shift});
    const double axis = turret.r + s_.bodies.turretAxisR;
    const double dr = std::max({0.0, other.min.r - axis, axis - other.max.r});
    const double dy = std::max({0.0, other.min.y, -other.max.y});
    return std::hypot(dz, std::max(0.0, std::hypot(dr, dy) - s_.reach[pair.body])) - errorOf(pair);
}

PairGap MoveGauge::measureSwing(const BodyPair& pair, double beyond) {
    const MachineBody& body = s_.bodies.bodies[pair.body];
    const Placing from = placingOf(body, way_.turret.points.front(), way_.turret.points.front());
    PairGap best;
    for (const std::optional<double>& turnTo : {way_.turnTo, way_.otherTurnTo}) {
        if (!turnTo) continue;
        const double limit = std::min(beyond, best.gap);
        const SwingNearness n =
            pair.other == 0 ? (billet_ ? billet_->hull().nearnessOfSwing(s_.shapes[pair.body], from, *turnTo, limit)
                                       : SwingNearness{})
                            : nearnessOfSwing(s_.shapes[pair.body], from, *turnTo, s_.shapes[pair.other],
                                              placingOf(s_.bodies.bodies[pair.other], {}, {}), limit);
        const double gap = n.nearest.gap - errorOf(pair);
        if (gap >= best.gap) continue;
        best.gap = gap;
        best.place = n.nearest.onSecond;
        best.nearestAt = n.fraction;
        best.contactAt = gap <= 0 ? n.fraction : -1;
    }
    return best;
}

PairGap MoveGauge::measureStraight(const BodyPair& pair, double beyond) {
    PairGap best;
    best.gap = gapBetween(pair, 0, 1, beyond, &best.place);
    if (best.gap <= 0) {
        best.contactAt = firstContact(pair);
        gapBetween(pair, best.contactAt, best.contactAt, kInf, &best.place);
    }
    if (way_.straightInstead && best.gap > 0) {
        MachineWay& way = way_;
        std::swap(way.turret, *way.straightInstead);
        const double length = way.length;
        way.length = distance(way.turret.points.front(), way.turret.points.back());
        PairGap straight;
        straight.gap = gapBetween(pair, 0, 1, std::min(beyond, best.gap), &straight.place);
        if (straight.gap <= 0) {
            straight.contactAt = firstContact(pair);
            gapBetween(pair, straight.contactAt, straight.contactAt, kInf, &straight.place);
        }
        straight.onStraightWay = true;
        std::swap(way.turret, *way.straightInstead);
        way.length = length;
        if (straight.gap < best.gap) best = straight;
    }
    return best;
}

// The edge at rapid on the way that the billet was not cut on.
PairGap MoveGauge::edgeOnStraightWay(const BodyPair& pair) {
    PairGap none;
    if (!way_.straightInstead || !billet_) return none;
    const Tool& tool = s_.setup.tools[static_cast<std::size_t>(way_.toolIndex)];
    const Sweep sweep{
        way_.straightInstead->points.front() + tool.tip, way_.straightInstead->points.back() + tool.tip, {}, {}};
    double deep = 0;
    for (const Outline& outline : s_.outlines[pair.body]) {
        deep = std::max(deep, billet_->billet().deepestTouch(sweep, outline));
    }
    // What a cut leaves under its edge is touched on the way off, see contactFindings().
    constexpr double kTouchMm = 0.25;
    if (deep <= kTouchMm) return none;
    PairGap hit;
    hit.gap = -deep;
    hit.contactAt = 0;
    hit.onStraightWay = true;
    hit.place = inSpace(sweep.to);
    return hit;
}

PairGap MoveGauge::measure(const BodyPair& pair, double beyond) {
    if (pair.other == 0 && billet_) billet_->seek(index_);
    const MachineBody& body = s_.bodies.bodies[pair.body];
    if (pair.other == 0 && isInUse(body, way_) && body.kind == BodyKind::Edge) return edgeOnStraightWay(pair);
    if (isPlanar(pair) && pair.other != 0) return measureZones(pair);
    if (body.carrier == Carrier::Turret && way_.swings()) return measureSwing(pair, beyond);
    return measureStraight(pair, beyond);
}

PairGap MoveGauge::measureWhileCutting(const BodyPair& pair, const PairGap& before) {
    // A pass of a thread takes off little, and follows no front but a helix: the metal before it counts.
    const bool thread = way_.kind == MoveKind::Thread;
    if (pair.other != 0 || !cuts() || thread || way_.swings() || way_.length <= kMetalStepMm) return before;
    PairGap whole = isPlanar(pair) ? followEdge(pair, before) : followInSteps(pair, before);
    whole.gap = std::max(whole.gap, before.gap);
    if (whole.gap > 0) whole.contactAt = -1;
    return whole;
}

// Stretch by stretch: what its edge is about to take off there, and what is left behind it.
PairGap MoveGauge::followEdge(const BodyPair& pair, const PairGap& before) {
    const Tool& tool = s_.setup.tools[static_cast<std::size_t>(way_.toolIndex)];
    const TimedMove& timed = ways_.timed(index_);
    // On an arc the edge turns off the chord's direction by half the angle of the stretch to either side, so what lies
    // in front of it may be nearer by that share of the stretch, and by the height of the arc above the chord.
    double turn = 0, radius = 0;
    if (way_.turret.points.size() > 2) {
        const Arc arc = arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
        turn = std::abs(arc.turn);
        radius = std::max(arc.radiusFrom, arc.radiusTo);
    }
    const double wanted = std::sqrt(way_.length * turn / (2 * kMetalStepMm));
    const int stretches = static_cast<int>(std::clamp(std::ceil(wanted), 1.0, double{kMostSteps}));
    const double half = turn / stretches / 2;
    const double off = turn > 0 ? way_.length / stretches * std::sin(half) + radius * (1 - std::cos(half)) : 0;
    PairGap whole = before;
    whole.gap = kInf;
    const auto take = [&](double gap, double at, SpacePoint place) {
        if (gap >= whole.gap) return;
        whole.gap = gap;
        whole.place = place;
        whole.nearestAt = at;
    };
    for (int i = 0; i < stretches; ++i) {
        const double from = double(i) / stretches, to = double(i + 1) / stretches;
        const Point a = alongWay(way_.turret, way_.length, from) + tool.tip;
        const Point b = alongWay(way_.turret, way_.length, to) + tool.tip;
        double front = kInf;
        for (const Outline& holder : s_.metalOutlines[pair.body]) {
            front = std::min(front, gapToCutFront(billet_->billet(), tool.cutting, holder, a, b) - off);
        }
        take(front, from, inSpace(a));
        if (whole.gap <= before.gap) return before;  // no better
        billet_->seek(i + 1 < stretches ? index_ : index_ + 1, i + 1 < stretches ? to : 0);
        SpacePoint place;
        const double after = gapBetween(pair, from, to, whole.gap, &place);
        take(after, from, place);
    }
    if (stretches == 1) whole.nearestAt.reset();
    return whole;
}

PairGap MoveGauge::followInSteps(const BodyPair& pair, const PairGap& before) {
    // Mostly what a move takes off is not what is nearest, or hidden in a bore: then there is nothing to follow.
    billet_->seek(index_ + 1);
    const double after = gapBetween(pair, 0, 1, before.gap + 2 * kMetalStepMm);
    if (after <= before.gap + kMetalStepMm) return before;
    const int steps = static_cast<int>(std::clamp(std::ceil(way_.length / kMetalStepMm), 1.0, double{kMostSteps}));
    stepErrorMm_ = std::max(stepErrorMm_, way_.length / steps);
    PairGap whole = before;
    whole.gap = kInf;
    for (int i = 0; i < steps; ++i) {
        const double from = double(i) / steps, to = double(i + 1) / steps;
        billet_->seek(index_, from);
        SpacePoint place;
        const double gap = gapBetween(pair, from, to, whole.gap, &place);
        if (gap >= whole.gap) continue;
        whole.gap = gap;
        whole.place = place;
        whole.nearestAt = from;
    }
    return whole;
}

// Of the zones of the tip from the parallelogram of four shifts (two, and the same moved on). Where a zone crosses none
// of its sides it lies inside or outside as a whole.
double MoveGauge::gapOfParallelogram(const BodyPair& pair, const Placing& at) {
    measureZones(pair);  // makes the zones
    const Tool& tool = s_.setup.tools[static_cast<std::size_t>(way_.toolIndex)];
    const Carrier carrier = s_.bodies.bodies[pair.other].carrier;
    const double z = carrier == Carrier::Tailstock       ? way_.tailstock.min
                     : carrier == Carrier::SecondSpindle ? way_.second.min
                                                         : 0;
    const Point shift = tool.tip - Point{z, 0};
    const std::array<Point, 4> corners{at.shifts[0] + shift, at.shifts[1] + shift, at.shifts[3] + shift,
                                       at.shifts[2] + shift};
    const TipWay round{{corners[0], corners[1], corners[2], corners[3], corners[0]}, 0};
    double gap = kInf;
    for (const ContactZone& zone : zones_[pair.body][pair.other]) {
        gap = std::min(gap, approach(zone, round).gap);
        // Without an area it holds nothing.
        if (std::abs(cross(corners[1] - corners[0], corners[3] - corners[0])) < 1e-9) continue;
        const ContactZone::Reading reading = zone.at(corners[0]);
        const Point inZone = corners[0] - reading.gap * reading.away;
        bool left = true, right = true;
        for (std::size_t i = 0; i < 4; ++i) {
            const double side = cross(corners[(i + 1) % 4] - corners[i], inZone - corners[i]);
            left = left && side >= 0;
            right = right && side <= 0;
        }
        if (left || right) gap = 0;
    }
    return gap;
}

double MoveGauge::gapWhenOff(const BodyPair& pair, Point off, double beyond) {
    const MachineBody& body = s_.bodies.bodies[pair.body];
    if (pair.other == 0) {
        if (!billet_) return kInf;
        billet_->seek(index_ + 1);
    }
    const bool zones = isPlanar(pair) && pair.other != 0;
    const Placing other = placingOf(s_.bodies.bodies[pair.other], {}, {});
    double gap = kInf;
    for (std::size_t i = 1; i < way_.turret.points.size(); ++i) {
        Placing at = placingOf(body, way_.turret.points[i - 1], way_.turret.points[i]);
        at.shifts[2] = at.shifts[0] + off;
        at.shifts[3] = at.shifts[1] + off;
        at.count = 4;
        gap = std::min(gap, zones ? gapOfParallelogram(pair, at) : on(pair, at, other, std::min(beyond, gap)).gap);
        if (gap <= 0) break;
    }
    return gap - way_.turret.slack - errorOf(pair);
}

}  // namespace firstoff
