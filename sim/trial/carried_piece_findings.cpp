// The piece that the second spindle carries once it is parted off: whether anything comes near it.
//
// While a piece is one with the bar it is the billet, and told with it. From the move after it came off until it is
// released it goes where the second spindle goes, as a body of its own, and is measured against all others like them.
// What it grew out of is left out: the tool that parted it off, as long as that has not left the groove, and the bar.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/say.h"
#include "sim/clearance/move_gauge.h"
#include "sim/cutting/jaw_hold.h"
#include "sim/motion/machine_pose.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
// Length of the cylinders that the piece is made of where its diameter changes; they hold all of it, and reach no
// further out of a shoulder or a slope of 45 degrees than this.
constexpr double kStepMm = 0.05;
constexpr double kFurtherMm = 4;     // followed up beyond what is too near, so that the bound lasts for some moves
constexpr double kLeavingMm = 0.01;  // a move that only leaves starts where it is nearest

// From `firstMove` to before `endMove` (timed moves).
struct Carried {
    MachineBody body;
    std::size_t firstMove = 0, endMove = 0;
    std::uint16_t partedBy = 0;  // tool call
};

std::vector<ConvexPiece> cylindersOf(const Severance& fall, double faceZ) {
    double from = kInf, to = -kInf;
    for (const Loop& loop : fall.section) {
        for (Point p : loop.points) from = std::min(from, p.z), to = std::max(to, p.z);
    }
    const auto count = static_cast<std::size_t>(std::max(1.0, std::ceil((to - from) / kStepMm)));
    const auto slabOf = [&](double z) {
        return std::min(count - 1, static_cast<std::size_t>(std::max(0.0, (z - from) / kStepMm)));
    };
    std::vector<double> radius(count);
    for (const Loop& loop : fall.section) {
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            Point a = loop.points[i], b = loop.points[(i + 1) % loop.points.size()];
            if (a.z > b.z) std::swap(a, b);
            for (std::size_t k = slabOf(a.z), last = slabOf(b.z); k <= last; ++k) {
                const auto at = [&](double z) {
                    const double share = b.z > a.z ? std::clamp((z - a.z) / (b.z - a.z), 0.0, 1.0) : 1.0;
                    return a.r + share * (b.r - a.r);
                };
                const double left = from + static_cast<double>(k) * kStepMm;
                radius[k] = std::max({radius[k], at(left), at(left + kStepMm)});
                if (b.z <= a.z) radius[k] = std::max({radius[k], a.r, b.r});
            }
        }
    }
    std::vector<ConvexPiece> pieces;
    for (std::size_t first = 0, end = 0; first < count; first = end) {
        for (end = first + 1; end < count && std::abs(radius[end] - radius[first]) <= tolerance::kTouchMm;) ++end;
        const double most = *std::max_element(radius.begin() + static_cast<std::ptrdiff_t>(first),
                                              radius.begin() + static_cast<std::ptrdiff_t>(end));
        const double left = from + static_cast<double>(first) * kStepMm;
        const double right = std::min(to, from + static_cast<double>(end) * kStepMm);
        if (most > 0) pieces.push_back(cylinderPiece(left - faceZ, right - faceZ, most));
    }
    return pieces;
}

// Pieces that came off while the second spindle had them in its jaws.
std::vector<Carried> carriedPieces(const Machining& m) {
    std::vector<Carried> all;
    const auto& events = m.toolpath.machineEvents;
    const std::size_t moves = m.timeline.moves.size();
    for (const Severance& fall : m.stock->severances()) {
        const MachinePose pose = poseAt(m.timeline, m.toolpath, m.setup, fall.timedMove, 1);
        if (!pose.secondSpindleGrips || !pose.secondSpindleZ) continue;
        std::vector<ConvexPiece> pieces = cylindersOf(fall, *pose.secondSpindleZ);
        const Range jaws = gripRangeOfSecond(m.setup.secondSpindle->chuck, 0);
        const bool held = std::any_of(pieces.begin(), pieces.end(), [&](const ConvexPiece& piece) {
            const SpaceBox box = boundingBox(piece);
            return box.max.z > jaws.min && box.min.z < jaws.max;
        });
        if (!held) continue;
        Carried& carried = all.emplace_back();
        carried.body.carrier = Carrier::SecondSpindle;
        carried.body.name = tr("the piece in the second spindle");
        carried.body.pieces = std::move(pieces);
        carried.partedBy = moveAt(m, fall.timedMove).call;
        carried.firstMove = std::size_t{fall.timedMove} + 1;
        carried.endMove = moves;
        for (const MachineEvent& event : events) {
            const std::size_t timed = m.timeline.workOf(event.duringMove);
            if (event.action != MachineAction::SecondSpindleRelease || timed < carried.firstMove) continue;
            carried.endMove = timed;
            break;
        }
    }
    return all;
}

class CarriedPieces {
public:
    CarriedPieces(const Machining& m, std::vector<Carried> carried)
        : m_(m),
          carried_(std::move(carried)),
          bodies_(withPieces(m.setup, carried_)),
          shapes_(bodies_, m.setup),
          ways_(m.timeline, m.toolpath, m.setup, bodies_),
          reaches_(m.timeline.moves.size()),
          gauge_(shapes_, ways_, nullptr, reaches_) {}

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < carried_.size(); ++i) {
            follow(carried_[i], bodies_.bodies.size() - carried_.size() + i);
        }
        return std::move(findings_);
    }

private:
    static MachineBodies withPieces(const Setup& setup, const std::vector<Carried>& carried) {
        MachineBodies all = machineBodies(setup);
        for (const Carried& one : carried) all.bodies.push_back(one.body);
        return all;
    }

    void follow(const Carried& carried, std::size_t piece) {
        const std::size_t others = bodies_.bodies.size() - carried_.size();
        std::vector<double> bounds(others, -kInf);
        inGroove_ = true;
        for (std::size_t i = carried.firstMove; i < carried.endMove; ++i) {
            gauge_.start(i);
            // The first is the billet.
            for (std::size_t body = 1; body < others; ++body) look(i, body, piece, carried, bounds[body]);
        }
    }

    bool isPartedBy(const MachineBody& body, const Carried& carried) const {
        const int tool = m_.toolpath.calls[carried.partedBy].toolIndex;
        return tool >= 0 && body.toolIndex == tool;
    }

    void look(std::size_t i, std::size_t body, std::size_t piece, const Carried& carried, double& bound) {
        const MachineBody& other = bodies_.bodies[body];
        if (other.carrier == Carrier::SecondSpindle || other.pieces.empty()) return;
        const MachineWay& way = gauge_.way();
        // Without a table [turret] only the tool in use is where its body says.
        if (!m_.setup.turret && other.station > 0 && other.station != way.station) return;
        const BodyPair pair{static_cast<std::uint16_t>(body), static_cast<std::uint16_t>(piece)};
        const PairMotion motion = motionOf(pair, bodies_, way);
        if (!motion.moves) return;
        bound = motion.swings ? -kInf : bound - motion.travelMm;
        const double limit = way.feeds() ? m_.setup.nearMiss.feedMm : m_.setup.nearMiss.rapidMm;
        if (bound > limit) return;
        const PairGap gap = gauge_.measure(pair, limit + kFurtherMm);
        bound = motion.swings ? -kInf : gap.gap;
        if (gap.gap > limit) return;
        const double atStart = way.swings() ? kInf : gauge_.gapAtStart(pair);
        if (isPartedBy(other, carried) && inGroove_) {
            if (atStart <= limit && leavesTheGroove(i, other, way)) return;
            inGroove_ = atStart <= limit;
        }
        // What only leaves, or is in contact already, has been told where it came there.
        if (atStart <= std::max(0.0, gap.gap) + (gap.gap > 0 ? kLeavingMm : 0)) return;
        report(i, other, gap);
    }

    // Straight away from the axis, or standing while the second spindle takes the piece off its edge.
    bool leavesTheGroove(std::size_t i, const MachineBody& body, const MachineWay& way) const {
        if (way.secondMoves) return body.kind == BodyKind::Edge && way.second.max > way.second.min;
        const TimedMove& timed = m_.timeline.moves[i];
        return std::abs(timed.to.z - timed.from.z) <= tolerance::kTouchMm && timed.to.r >= timed.from.r;
    }

    // Of one station, or one other body, the nearest in each block.
    void report(std::size_t i, const MachineBody& body, const PairGap& gap) {
        const std::pair who(body.station > 0 ? fmt::format("{}", body.station) : body.name, moveAt(m_, i).block);
        const auto [known, isNew] = said_.insert({who, {findings_.size(), gap.gap}});
        if (isNew) {
            findings_.push_back(describe(i, body, gap));
        } else if (gap.gap < known->second.second) {
            known->second.second = gap.gap;
            findings_[known->second.first] = describe(i, body, gap);
        }
    }

    Finding describe(std::size_t i, const MachineBody& body, const PairGap& gap) const {
        const bool contact = gap.gap <= 0;
        Finding finding = contact ? findingAt(m_, i, Severity::Stop, "body-into-carried-piece")
                                  : findingAt(m_, i, Severity::Warning, "near-carried-piece");
        const Point place{gap.place.z, std::hypot(gap.place.r, gap.place.y)};
        const Point work = place - m_.toolpath.datumOf(moveAt(m_, i));
        finding.place = place;
        finding.message =
            contact
                ? say("The piece in the second spindle meets {}, near X{:.3f} Z{:.3f}.", body.name, 2 * work.r, work.z)
                : say("The piece in the second spindle comes within {:.3f} mm of {}, near X{:.3f} Z{:.3f}.", gap.gap,
                      body.name, 2 * work.r, work.z);
        finding.remedy =
            tr("Take the turret away before the second spindle goes back, or take the second spindle further back.");
        finding.values = {{"gap_mm", std::max(0.0, gap.gap)}};
        return finding;
    }

    const Machining& m_;
    std::vector<Carried> carried_;
    MachineBodies bodies_;
    GaugeShapes shapes_;
    MachineWays ways_;
    std::vector<CutReach> reaches_;
    MoveGauge gauge_;
    bool inGroove_ = true;  // the tool that parted it off
    // By station or body, and block: which finding, and its gap.
    std::map<std::pair<std::string, BlockId>, std::pair<std::size_t, double>> said_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> carriedPieceFindings(const Machining& machining) {
    if (!machining.setup.secondSpindle) return {};
    std::vector<Carried> carried = carriedPieces(machining);
    if (carried.empty()) return {};
    return CarriedPieces(machining, std::move(carried)).find();
}

}  // namespace firstoff
