// Measures one pair of bodies over one timed move.
#pragma once

#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "sim/clearance/billet_now.h"
#include "sim/clearance/body_pairs.h"
#include "sim/clearance/contact_zone.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/clearance/machine_way.h"
#include "sim/clearance/nearness.h"

namespace firstoff {

// Metal that a move takes off may be told as if it were still there for this much of the way, mm.
inline constexpr double kMetalStepMm = 0.02;

// What does not change from move to move; shared between workers.
struct GaugeShapes {
    GaugeShapes(const MachineBodies& bodies, const Setup& setup);

    const MachineBodies& bodies;
    const Setup& setup;
    std::vector<BodyShape> shapes;  // per body; the billet's is empty
    std::vector<double> reach;      // per body: of its points from the axis of the disc
    std::vector<SpaceBox> boxes;    // per body, in its carrier's frame; of the billet that of the blank
    // Outlines of the edge or the holder of a tool; per body, empty for others.
    std::vector<std::vector<Outline>> outlines;
    // The same, of what the metal is watched against: the shank of a drill that is no thicker than the hole is left
    // out, since it only follows.
    std::vector<std::vector<Outline>> metalOutlines;
    // Sections of what is turned, both sides of the axis, convex; per body, empty for others.
    std::vector<std::vector<std::vector<Point>>> sections;
};

struct PairGap {
    double gap = std::numeric_limits<double>::infinity();  // as Clearance::gapMm; or more than was asked for
    SpacePoint place;
    // Fraction of the length or the swing: of the first contact, -1 for none; of the nearest, where it is known.
    double contactAt = -1;
    std::optional<double> nearestAt;
    bool onStraightWay = false;                                // instead of the dog-leg
    double knownTo = std::numeric_limits<double>::infinity();  // gaps above are only bounds
};

class MoveGauge {
public:
    // `cutEdges`: per timed move, see BilletNow. Stock may be null.
    MoveGauge(const GaugeShapes& shapes, const MachineWays& ways, std::shared_ptr<const StockHistory> stock,
              const std::vector<CutReach>& reaches);

    // Moves are best taken in order.
    void start(std::size_t timedMove);
    const MachineWay& way() const { return way_; }

    // While the turret indexes: never above the gap, from the ring that the body sweeps about the axis of the disc.
    double boundOfSwing(const BodyPair& pair) const;
    // Gaps above `beyond` need not be known. Contacts come with their fraction.
    PairGap measure(const BodyPair& pair, double beyond);
    // The same for a pair with the billet on a move that takes metal off: with the metal as it is at each instant.
    // To be asked after all others of the move.
    PairGap measureWhileCutting(const BodyPair& pair, const PairGap& before);
    // Fraction of the move at which the pair is nearest. For pairs without a swing.
    double nearestAt(const BodyPair& pair);
    double gapAtStart(const BodyPair& pair);
    // Longest step so far of a move that was followed through the metal: what a gap may be below the true one for it.
    double stepErrorMm() const { return stepErrorMm_; }
    bool cuts() const { return stock_ && reaches_[index_].cuts(); }

    // No more than the gap of the pair on the way and when the body that moves is out of place by up to `off` (z, r)
    // all along, with the metal that it leaves; the edge in use against the billet as well. Gaps above `beyond` need
    // not be known. Not for swings.
    double gapWhenOff(const BodyPair& pair, Point off, double beyond);

private:
    Placing placingOf(const MachineBody& body, Point from, Point to, double fractionFrom = 0,
                      double fractionTo = 1) const;
    Nearness inPlaneOf(const Billet& billet, const std::vector<Outline>& outlines, const Placing& at,
                       double beyond) const;
    PairGap measureZones(const BodyPair& pair);
    PairGap measureSwing(const BodyPair& pair, double beyond);
    PairGap measureStraight(const BodyPair& pair, double beyond);
    PairGap followEdge(const BodyPair& pair, const PairGap& before);
    PairGap followInSteps(const BodyPair& pair, const PairGap& before);
    PairGap edgeOnStraightWay(const BodyPair& pair);
    Nearness on(const BodyPair& pair, const Placing& body, const Placing& other, double beyond);
    // How near over a part of the way.
    double gapBetween(const BodyPair& pair, double from, double to, double beyond, SpacePoint* place = nullptr);
    double firstContact(const BodyPair& pair);
    double gapOfParallelogram(const BodyPair& pair, const Placing& at);
    bool isPlanar(const BodyPair& pair) const;
    double errorOf(const BodyPair& pair) const;

    const GaugeShapes& s_;
    const MachineWays& ways_;
    std::shared_ptr<const StockHistory> stock_;
    const std::vector<CutReach>& reaches_;
    std::optional<BilletNow> billet_;
    MachineWay way_;
    std::size_t index_ = 0;
    double stepErrorMm_ = 0;
    // Per body (that moves) and other: zones of the tip, made when first asked for.
    std::vector<std::vector<std::vector<ContactZone>>> zones_;
};

}  // namespace firstoff
