// Notation. Blocks of one run of feed moves are 0 … n - 1, L their lengths, v_i the pace at the end of block i,
// standing at the end of the last. cap_i is what laws of pace and corner allow there. Backwards
//     v_i = min(cap_i, reach(v_(i+1), L_(i+1)))
// leaves every pace one from which the rest can be come down to, forwards
//     v_i = min(v_i, reach(v_(i-1), L_i))
// one that can be come up to; reach() is paceWithinReach(), rising in both. Paces are rounded down to what a TimedMove
// holds at each step, so that what is stored keeps to both.
//
// A control that sees N blocks ahead must be able to stand at the end of the last one it sees: cap_i is then also what
// comes to a stand within the next N blocks, with the weakest of their accelerations.
#include "sim/motion/path_paces.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/motion/feed_run.h"
#include "sim/motion/spindle_run_up.h"

namespace firstoff {

namespace {

bool flows(MoveKind kind) {
    return kind == MoveKind::Feed || kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

float roundedDown(double pace) {
    const auto result = static_cast<float>(pace);
    return static_cast<double>(result) > pace ? std::nextafter(result, 0.0f) : result;
}

struct Link {
    std::uint32_t move = 0;
    double length = 0;
    PathDynamics dynamics;
    double cap = 0;  // of the pace at its end
    float pace = 0;
};

class Runs {
public:
    Runs(const Toolpath& toolpath, const Setup& setup, const std::vector<HeldFeed>& holds)
        : toolpath_(toolpath),
          setup_(setup),
          holds_(holds),
          waits_(SpindleRunUp(setup).known() && setup.machine.spindle.waitsForSpeed),
          paces_(toolpath.moves.size(), 0) {}

    std::vector<float> run() {
        for (std::uint32_t i = 0; i < toolpath_.moves.size(); ++i) follow(i);
        close();
        return std::move(paces_);
    }

private:
    void follow(std::uint32_t index) {
        const Move& move = toolpath_.moves[index];
        if (standsBefore(index) || !flows(move.kind)) close();
        if (!flows(move.kind)) return;
        const ModalState& modal = toolpath_.modals[move.modal];
        TimedMove timed;
        timed.from = move.from;
        timed.to = move.to;
        timed.centre = move.centre;
        timed.kind = move.kind;
        const Point shift = toolpath_.programmedShift(move);
        const SpindleLaw spindle = spindleLaw(move, modal, setup_);
        PaceLimits why;
        const FeedPath path(timed, shift, paceLaw(move, modal, spindle, setup_, why), setup_.machine.axes);
        const double speed = spindle.revPerMinAt(move.from.r + shift.r);
        const bool otherWay = modal.spindle != direction_;
        if (waits_ && (otherWay || std::abs(speed - speed_) > 1e-9 * speed_)) close();
        if (path.length() <= 0) return passOver(move, modal, spindle, shift);
        if (!links_.empty()) {
            links_.back().cap =
                exact_ ? 0 : std::min({paceAtEnd_, path.paceAt(0), cornerPace(path.directionAtStart())});
        }
        links_.push_back({index, path.length(), path.dynamics(), 0, 0});
        paceAtEnd_ = path.paceAt(1);
        directionAtEnd_ = path.directionAtEnd();
        passOver(move, modal, spindle, shift);
    }

    // What the next move is held against. A move without way changes nothing of the path.
    void passOver(const Move& move, const ModalState& modal, const SpindleLaw& spindle, Point shift) {
        speed_ = spindle.revPerMinAt(move.to.r + shift.r);
        direction_ = modal.spindle;
        exact_ = modal.exactStop || setup_.machine.axes.blockEnd == AxisDynamics::BlockEnd::ExactStop;
    }

    bool standsBefore(std::uint32_t index) {
        bool stands = false;
        for (; stop_ < toolpath_.stops.size() && toolpath_.stops[stop_].beforeMove <= index; ++stop_) stands = true;
        for (; hold_ < holds_.size() && holds_[hold_].beforeMove <= index; ++hold_) stands = true;
        return stands;
    }

    double cornerPace(Point next) const {
        const AxisDynamics& axes = setup_.machine.axes;
        const Point jump = next - directionAtEnd_;
        if (axes.cornerJumpZ <= 0 && axes.cornerJumpR <= 0) {
            return dot(jump, jump) <= kSmoothCorner * kSmoothCorner ? std::numeric_limits<double>::infinity() : 0;
        }
        return std::min(axes.cornerJumpZ / std::max(std::abs(jump.z), 1e-12),
                        axes.cornerJumpR / std::max(std::abs(jump.r), 1e-12));
    }

    // Pace from which the control comes to a stand within the blocks it sees behind `at`, looking no further than
    // needed.
    double paceInSight(std::size_t at) const {
        const auto sees = static_cast<std::size_t>(setup_.machine.axes.lookAhead);
        PathDynamics weakest{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
        double way = 0;
        for (std::size_t i = at + 1; i < links_.size(); ++i) {
            if (i - at > sees) return paceWithinReach(0, way, weakest);
            const PathDynamics& d = links_[i].dynamics;
            way += links_[i].length;
            weakest.acceleration = std::min(weakest.acceleration, d.acceleration);
            weakest.jerk = d.jerk > 0 ? std::min(weakest.jerk, d.jerk) : 0;
            if (wayOfChange(links_[at].cap, 0, weakest) <= way) break;
        }
        return std::numeric_limits<double>::infinity();
    }

    // Stands at the end of what has been gathered.
    void close() {
        if (links_.empty()) return;
        links_.back().cap = 0;
        if (setup_.machine.axes.lookAhead > 0) {
            for (std::size_t i = 0; i + 1 < links_.size(); ++i) links_[i].cap = std::min(links_[i].cap, paceInSight(i));
        }
        for (std::size_t i = links_.size() - 1; i-- > 0;) {
            const Link& next = links_[i + 1];
            const double within = paceWithinReach(next.pace, next.length, next.dynamics);
            links_[i].pace = roundedDown(std::min(links_[i].cap, within));
        }
        float before = 0;
        for (Link& link : links_) {
            link.pace = std::min(link.pace, roundedDown(paceWithinReach(before, link.length, link.dynamics)));
            before = paces_[link.move] = link.pace;
        }
        links_.clear();
    }

    const Toolpath& toolpath_;
    const Setup& setup_;
    const std::vector<HeldFeed>& holds_;
    bool waits_;
    std::vector<float> paces_;
    std::vector<Link> links_;
    std::size_t stop_ = 0, hold_ = 0;
    // At the end of the move before.
    double paceAtEnd_ = 0, speed_ = 0;
    Point directionAtEnd_;
    SpindleDirection direction_ = SpindleDirection::Stopped;
    bool exact_ = false;
};

}  // namespace

std::vector<HeldFeed> heldFeeds(const Toolpath& toolpath, const Setup& setup) {
    std::vector<HeldFeed> found;
    std::vector<Overrides::FeedHold> left = setup.overrides.holds;
    for (std::uint32_t i = 0; i < toolpath.moves.size() && !left.empty(); ++i) {
        const Move& move = toolpath.moves[i];
        for (auto hold = left.begin(); hold != left.end();) {
            const BlockId block = hold->line - 1;
            if (move.block != block && move.cycleBlock != block) {
                ++hold;
                continue;
            }
            found.push_back({i, hold->seconds});
            hold = left.erase(hold);
        }
    }
    return found;
}

std::vector<float> pacesAtEnds(const Toolpath& toolpath, const Setup& setup, const std::vector<HeldFeed>& holds) {
    if (!setup.machine.axes.known()) return {};
    return Runs(toolpath, setup, holds).run();
}

}  // namespace firstoff
