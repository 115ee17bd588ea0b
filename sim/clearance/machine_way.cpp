#include "sim/clearance/machine_way.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"
#include "sim/motion/machine_pose.h"
#include "sim/motion/travel_time.h"

namespace firstoff {

namespace {

// How far the chords of an arc may be off it. Taken off the gap, so that it stays on the safe side.
constexpr double kChordMm = 0.0005;
// Chords of one arc; reached only by arcs of metres.
constexpr int kMostChords = 4096;

void follow(const TimedMove& timed, TipWay& way) {
    way.points.clear();
    way.slack = 0;
    way.points.push_back(timed.from);
    if (isArc(timed.kind)) {
        const Arc arc = arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
        const double radius = std::max(arc.radiusFrom, arc.radiusTo);
        const double step = 2 * std::acos(std::max(0.0, 1 - kChordMm / std::max(radius, kChordMm)));
        const double wanted = std::ceil(std::abs(arc.turn) / step);
        const int chords = static_cast<int>(std::clamp(wanted, 1.0, double{kMostChords}));
        for (int i = 1; i < chords; ++i) way.points.push_back(arc.at(double(i) / chords));
        const double turn = std::abs(arc.turn) / chords;
        // Height of the arc above its chord, and what the radius changes on the way.
        way.slack = radius * (1 - std::cos(turn / 2)) + std::abs(arc.radiusTo - arc.radiusFrom) / chords;
    }
    way.points.push_back(timed.to);
}

double lengthOf(const TipWay& way) {
    double total = 0;
    for (std::size_t i = 1; i < way.points.size(); ++i) total += distance(way.points[i - 1], way.points[i]);
    return total;
}

// Where a carrier stands before a timed move.
double placeBefore(const std::vector<std::pair<std::uint32_t, double>>& after, double start, std::size_t timedMove) {
    const auto next = std::lower_bound(after.begin(), after.end(), timedMove,
                                       [](const auto& entry, std::size_t move) { return entry.first < move; });
    return next == after.begin() ? start : std::prev(next)->second;
}

}  // namespace

bool MachineWay::feeds() const {
    return kind == MoveKind::Feed || kind == MoveKind::Thread || isArc(kind);
}

MachineWays::MachineWays(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                         const MachineBodies& bodies)
    : timeline_(timeline), toolpath_(toolpath), setup_(setup), bodies_(bodies) {
    const auto first = std::find_if(toolpath.calls.begin(), toolpath.calls.end(),
                                    [](const ToolCall& call) { return call.station > 0; });
    if (first != toolpath.calls.end()) firstStation_ = first->station;
    if (setup.tailstock) tailstockStart_ = setup.tailstock->tipZ;
    if (setup.secondSpindle) secondStart_ = setup.secondSpindle->startZ;
    for (const CarrierTravel& travel : timeline.travels) {
        auto& after = travel.carrier == CarrierTravel::Carrier::Tailstock ? tailstockAfter_ : secondAfter_;
        after.emplace_back(travel.timedMove, travel.toZ);
    }
}

int MachineWays::stationOn(std::size_t timedMove) const {
    const int station = toolpath_.calls[toolpath_.moves[timeline_.moves[timedMove].move].call].station;
    return station > 0 ? station : firstStation_;
}

void MachineWays::at(std::size_t timedMove, MachineWay& way) const {
    const TimedMove& timed = timeline_.moves[timedMove];
    const Move& move = toolpath_.moves[timed.move];
    way.kind = timed.kind;
    follow(timed, way.turret);
    way.length = lengthOf(way.turret);
    way.straightInstead.reset();
    const bool rapid = timed.kind == MoveKind::Rapid || timed.kind == MoveKind::Home;
    const bool firstOfSeveral = timed.from == move.from && !(timed.to == move.to);
    if (rapid && !setup_.machine.rapidPathSaid && firstOfSeveral) {
        way.straightInstead = TipWay{{move.from, move.to}, 0};
    }
    way.station = stationOn(timedMove);
    way.toolIndex = toolpath_.calls[move.call].toolIndex;
    way.turn = bodies_.turnOf(way.station);
    way.turnTo.reset();
    way.otherTurnTo.reset();
    if (const auto swing = indexSwing(timeline_, toolpath_, setup_, timedMove); swing && bodies_.stations > 0) {
        const auto turnAt = [this](double station) { return -2 * kPi * (station - 1) / bodies_.stations; };
        way.turn = turnAt(swing->from);
        way.turnTo = turnAt(swing->to);
        if (swing->otherWayTo) way.otherTurnTo = turnAt(*swing->otherWayTo);
    }
    way.tailstock.min = placeBefore(tailstockAfter_, tailstockStart_, timedMove);
    way.tailstock.max = placeBefore(tailstockAfter_, tailstockStart_, timedMove + 1);
    way.second.min = placeBefore(secondAfter_, secondStart_, timedMove);
    way.second.max = placeBefore(secondAfter_, secondStart_, timedMove + 1);
    way.tailstockMoves = way.tailstock.min != way.tailstock.max;
    way.secondMoves = way.second.min != way.second.max;
}

double MachineWays::timeAt(std::size_t timedMove, double fraction) const {
    return firstoff::timeAt(timeline_.moves[timedMove], toolpath_, setup_, fraction);
}

}  // namespace firstoff
