// The check as a whole held against a second method: random machines with random tools and moves, every body placed at
// steps of the way and of the swing by plain arithmetic, distances between their convex hulls by CGAL.
//
// What the comparison itself cannot tell: between two steps nothing moves further than kStepMm, so that the true gap
// may be less than that at the steps by half of it; and what is turned is cut into flats, whose depth is known.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/base/units.h"
#include "sim/clearance/clearance.h"
#include "sim/motion/machine_pose.h"
#include "tests/support/exact_distance.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr int kMachines = 40;
constexpr int kFacets = 96;
constexpr double kStepMm = 1;
constexpr double kStatedMm = 0.05;  // what gaps may be told too small by

firstoff::Setup randomMachine(shop::Dice& dice) {
    auto setup = shop::lathe();
    const int stations[] = {8, 10, 12, 16};
    setup.machine.stations = stations[dice.below(4)];
    setup.machine.turretRadius = dice.between(110, 160);
    setup.turret->axisR = setup.machine.turretRadius + dice.between(30, 60);
    setup.turret->indexWay = dice.below(2) ? Turret::IndexWay::Rising : Turret::IndexWay::NotSaid;
    setup.chuck.jawOuterRadius = dice.between(50, 110);
    setup.chuck.jawLength = dice.between(20, 60);
    if (dice.below(2)) {
        Tailstock tailstock;
        tailstock.quillRadius = dice.between(20, 40);
        tailstock.quillLength = 100;
        tailstock.centreAngle = radians(60);
        tailstock.centreRadius = dice.between(8, 16);
        tailstock.centreLength = dice.between(30, 80);
        tailstock.tipZ = dice.between(120, 260);
        setup.tailstock = tailstock;
    }
    for (int i = 0; i < 3; ++i) {
        const int station = 1 + 2 * i;
        switch (dice.below(3)) {
            case 0:
                shop::addTurningTool(setup, station, 'C', 0.8).tip.z -= dice.between(0, 20);
                break;
            case 1:
                shop::addBoringBar(setup, station, 'C', 0.4).tip.z -= dice.between(0, 30);
                break;
            default:
                shop::addDrill(setup, station, dice.between(6, 24)).tip.z -= dice.between(0, 30);
        }
        giveShape(setup.tools.back());
    }
    return setup;
}

struct MachineJob {
    Toolpath toolpath;
    Timeline timeline;
    Point at;

    explicit MachineJob(Point start) : at(start) {
        toolpath.modals.resize(1);
        toolpath.calls.resize(1);
    }
    void call(const firstoff::Setup& setup, int toolIndex) {
        ToolCall next;
        next.toolIndex = toolIndex;
        next.station = setup.tools[static_cast<std::size_t>(toolIndex)].station;
        next.tip = setup.tools[static_cast<std::size_t>(toolIndex)].tip;
        toolpath.calls.push_back(next);
        to(at, MoveKind::Index);
    }
    void to(Point p, MoveKind kind) {
        const auto index = static_cast<std::uint32_t>(toolpath.moves.size());
        Move move;
        move.from = at;
        move.to = p;
        move.kind = kind;
        move.call = static_cast<std::uint16_t>(toolpath.calls.size() - 1);
        toolpath.moves.push_back(move);
        timeline.moves.push_back({at, p, {}, double(index), index + 1.0, 0, 0, index, kind});
        at = p;
    }
};

// Corners of every piece of a body where it stands in a pose.
std::vector<std::vector<SpacePoint>> standing(const MachineBodies& all, const MachineBody& body,
                                              const MachinePose& pose) {
    std::vector<std::vector<SpacePoint>> pieces;
    for (const ConvexPiece& piece : body.pieces) {
        std::vector<SpacePoint> points = shop::cornersOf(piece, kFacets);
        for (SpacePoint& p : points) {
            switch (body.carrier) {
                case Carrier::Turret:
                    p = turnedAbout(all.turretAxisR, -2 * kPi * (pose.station - 1) / all.stations, p);
                    p = p + inSpace(pose.turret);
                    break;
                case Carrier::TurretSlide:
                    p = p + inSpace(pose.turret);
                    break;
                case Carrier::Tailstock:
                    p.z += *pose.tailstockZ;
                    break;
                default:
                    break;
            }
        }
        pieces.push_back(std::move(points));
    }
    return pieces;
}

SpaceBox boxOf(const std::vector<SpacePoint>& points) {
    ConvexPiece piece;
    piece.corners = points;
    return boundingBox(piece);
}

double boxGap(const SpaceBox& a, const SpaceBox& b) {
    const SpacePoint p = a.min - b.max, q = b.min - a.max;
    return length({std::max({0.0, p.z, q.z}), std::max({0.0, p.r, q.r}), std::max({0.0, p.y, q.y})});
}

double gapInPose(const ClearanceResult& result, const MachinePose& pose, double best) {
    const MachineBodies& all = *result.bodies;
    std::vector<std::vector<std::vector<SpacePoint>>> bodies;
    for (const MachineBody& body : all.bodies) bodies.push_back(standing(all, body, pose));
    for (const PairChecked& pair : result.pairs) {
        const Carrier mover = all.bodies[pair.body].carrier;
        if (mover != Carrier::Turret && mover != Carrier::TurretSlide) continue;
        for (const auto& a : bodies[pair.body]) {
            for (const auto& b : bodies[pair.other]) {
                if (boxGap(boxOf(a), boxOf(b)) < best) best = std::min(best, shop::hullDistance(a, b));
            }
        }
    }
    return best;
}

double flatsOf(const MachineBodies& all) {
    double depth = 0;
    for (const MachineBody& body : all.bodies) {
        for (const ConvexPiece& piece : body.pieces) depth = std::max(depth, shop::flatDepth(piece, kFacets));
    }
    return 2 * depth;
}

// Gap of one move at steps, and how far apart the steps are.
double bySteps(const ClearanceResult& result, const MachineJob& job, const firstoff::Setup& setup, std::size_t move) {
    const TimedMove& timed = job.timeline.moves[move];
    double best = std::numeric_limits<double>::infinity();
    const auto swing = indexSwing(job.timeline, job.toolpath, setup, move);
    if (!swing) {
        const int steps = static_cast<int>(std::ceil(distance(timed.from, timed.to) / kStepMm));
        for (int i = 0; i <= steps; ++i) {
            const MachinePose pose = poseAt(job.timeline, job.toolpath, setup, move, steps > 0 ? double(i) / steps : 0);
            best = gapInPose(result, pose, best);
        }
        return best;
    }
    MachinePose pose = poseAt(job.timeline, job.toolpath, setup, move, 0);
    double reach = 0;
    for (const MachineBody& body : result.bodies->bodies) {
        if (body.carrier == Carrier::Turret) {
            reach = std::max(reach, BodyShape(body.pieces).reach(result.bodies->turretAxisR));
        }
    }
    for (const std::optional<double>& to : {std::optional(swing->to), swing->otherWayTo}) {
        if (!to) continue;
        const double travel = reach * 2 * kPi * std::abs(*to - swing->from) / setup.machine.stations;
        const int steps = static_cast<int>(std::ceil(travel / kStepMm));
        for (int i = 0; i <= steps; ++i) {
            pose.station = swing->from + (*to - swing->from) * i / steps;
            best = gapInPose(result, pose, best);
        }
    }
    return best;
}

TEST(MachineTruth, RandomMachinesAgreeWithFineSteps) {
    int contacts = 0, near = 0;
    for (std::uint64_t seed = 1; seed <= kMachines; ++seed) {
        SCOPED_TRACE(seed);
        shop::Dice dice(seed);
        const auto setup = randomMachine(dice);
        const auto place = [&] { return Point{dice.between(120, 330), dice.between(10, 150)}; };
        MachineJob job(place());
        job.call(setup, static_cast<int>(dice.below(3)));
        job.to(place(), MoveKind::Rapid);
        job.call(setup, static_cast<int>(dice.below(3)));
        job.to(job.at + Point{dice.between(-30, 30), dice.between(-30, 30)}, MoveKind::Feed);
        const ClearanceResult result = checkClearances(job.timeline, job.toolpath, setup, nullptr);
        ASSERT_EQ(result.perMove.size(), job.timeline.moves.size());
        const double flats = flatsOf(*result.bodies);
        for (std::size_t move = 0; move < job.timeline.moves.size(); ++move) {
            SCOPED_TRACE(move);
            const double stepped = bySteps(result, job, setup, move);
            const bool swings = job.timeline.moves[move].kind == MoveKind::Index;
            const double told = result.perMove[move].gapMm;
            // Never told too large: but for a float's rounding, and for the pieces that CGAL gets, which stand outside
            // the arcs of the tool in use that are measured as arcs.
            EXPECT_LE(told, stepped + 1e-4 + kOutsideMm);
            EXPECT_GE(std::max(told, 0.0),
                      stepped - kStepMm / 2 - flats - kStatedMm - (swings ? swingBelow(stepped) : 0));
            contacts += told <= 0;
            near += told > 0 && told < 30;
        }
    }
    // The dice must throw enough of each to say something.
    EXPECT_GT(contacts, 20);
    EXPECT_GT(near, 20);
}

}  // namespace
}  // namespace firstoff
