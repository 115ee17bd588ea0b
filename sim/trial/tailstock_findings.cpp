// The centre of the tailstock where it should not be: in the way of a tool that is fed to the axis, and brought up
// against a bar that has no hole for it. That the tool then meets the centre is found by measuring as well; here the
// cause is named.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "sim/base/say.h"
#include "sim/cutting/jaw_hold.h"
#include "sim/motion/carrier_travels.h"
#include "sim/motion/machine_pose.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

// How far a centre may stand from where its hole takes it: a quill is driven up by force and stops where the metal
// stops it, the figure in the set-up is nominal (common practice, no source).
constexpr double kSeatMm = 0.5;
constexpr int kLooksAlongAnArc = 32;

constexpr int kMostLooks = 50;  // at the bar while the centre comes up: a program may make many parts

// How far behind its point the cone of the centre has this radius.
double behindPoint(const Tailstock& t, double radius) {
    const double slope = std::tan(t.centreAngle / 2);
    return slope > 0 ? radius / slope : 0;
}

// Radius of the centre and what follows it, `behind` mm behind its point.
double radiusBehindPoint(const Tailstock& t, double behind) {
    if (behind < 0) return 0;
    if (behind <= behindPoint(t, t.centreRadius)) return behind * std::tan(t.centreAngle / 2);
    return behind <= t.centreLength ? t.centreRadius : t.quillRadius;
}

class Centre {
public:
    explicit Centre(const Machining& m) : m_(m), t_(*m.setup.tailstock), advanced_(t_.advanced) {}

    std::vector<Finding> find() {
        point_ = t_.tipZ;
        std::size_t event = 0;
        const auto& events = m_.toolpath.machineEvents;
        for (std::size_t i = 0; i < m_.timeline.moves.size(); ++i) {
            for (; event < events.size() && events[event].duringMove <= m_.timeline.moves[i].move; ++event) {
                if (events[event].action == MachineAction::TailstockRetract) advanced_ = false;
                if (events[event].action != MachineAction::TailstockAdvance) continue;
                point_ = poseAt(m_.timeline, m_.toolpath, m_.setup, i, 1).tailstockZ.value_or(t_.tipZ);
                advanced_ = advancedPlace(t_).has_value();
                if (advanced_) comeUp(i);
            }
            if (advanced_) lookForTools(i);
        }
        return std::move(findings_);
    }

private:
    // What the centre finds when it has come up during timed move `i`.
    void comeUp(std::size_t i) {
        if (++looks_ > kMostLooks) return;
        if (!cursor_) cursor_.emplace(m_.stock);
        cursor_->seek(static_cast<std::uint32_t>(i), 0);
        const Billet& billet = cursor_->billet();
        const double point = point_, front = frontOf(billet);
        if (point > front) return doesNotReach(i, point - front);
        // How far the centre would have to come back before it touches nothing.
        const Grid& grid = billet.grid();
        std::vector<Interval> solids;
        double tooDeep = -1e9;
        bool solid = false;
        for (int c = std::max(0, grid.columnNear(point)); c <= std::min(grid.columnNear(front), grid.columns - 1);
             ++c) {
            billet.intervals(c, solids);
            if (solids.empty() || grid.z(c) < point) continue;
            solid = solid || solids.front().inner <= 0;
            tooDeep = std::max(tooDeep, grid.z(c) - point - behindPoint(t_, solids.front().inner));
        }
        if (solid) {
            noHole(i, front - point);
        } else if (tooDeep < -kSeatMm) {
            doesNotReach(i, -tooDeep);
        } else if (tooDeep > kSeatMm) {
            holeTooSmall(i, tooDeep);
        }
    }

    void doesNotReach(std::size_t i, double shortBy) {
        if (isSaid(i, "centre-does-not-reach")) return;
        Finding& finding = at(i, Severity::Warning, "centre-does-not-reach");
        finding.message =
            say("The tailstock is advanced, but its centre stops {:.3f} mm short of the bar: it supports nothing.",
                shortBy);
        finding.remedy = tr("Correct where [tailstock] says the centre stands when it is advanced, or the stick-out.");
        finding.values = {{"short_mm", shortBy}};
    }

    void noHole(std::size_t i, double depth) {
        if (isSaid(i, "centre-without-hole")) return;
        Finding& finding = at(i, Severity::Stop, "centre-without-hole");
        finding.unproven = true;
        finding.message = say(
            "The tailstock is advanced {:.3f} mm into the end of the bar, where no centre hole is: nothing was drilled "
            "there, and the set-up gives the blank none.",
            depth);
        finding.remedy =
            tr("Drill it first; if the blank comes with its centre hole, draw it (shape = \"half-section\").");
        finding.values = {{"depth_mm", depth}};
    }

    void holeTooSmall(std::size_t i, double tooDeep) {
        if (isSaid(i, "centre-hole-too-small")) return;
        Finding& finding = at(i, Severity::Warning, "centre-hole-too-small");
        finding.message = say(
            "The centre would stand {:.3f} mm deeper than its hole lets it: it stops before its place, or pushes the "
            "bar back into the chuck.",
            tooDeep);
        finding.remedy = tr("Drill the centre hole deeper, or correct where the centre stands when it is advanced.");
        finding.values = {{"too_deep_mm", tooDeep}};
    }

    void lookForTools(std::size_t i) {
        const Move& move = moveAt(m_, i);
        const Tool* tool = toolAt(m_, i);
        if (tool == nullptr || move.call == saidOf_) return;
        if (move.kind == MoveKind::Dwell || move.kind == MoveKind::Index) return;
        const auto met = meets(i, point_);
        if (!met) return;
        saidOf_ = move.call;
        Finding& finding = at(i, Severity::Stop, "tailstock-not-retracted");
        finding.place = *met;
        const Point work = *met - m_.toolpath.datumOf(move);
        finding.message = say(
            "Tool {} goes to X{:.3f} Z{:.3f} while the tailstock stands advanced, its point at Z{:.3f}: the centre is "
            "in the way.",
            toolWord(m_, i), 2 * work.r, work.z, point_ - m_.toolpath.datumOf(move).z);
        finding.remedy = worksOnTheAxis(tool->kind)
                             ? tr("Retract the tailstock before anything is drilled on the axis.")
                             : tr("Retract the tailstock before the face is turned to the axis, or "
                                  "end the cut beside the centre.");
    }

    // A place of the tip on its way within the centre or what is behind it; nothing if there is none.
    std::optional<Point> meets(std::size_t i, double point) const {
        const TimedMove& timed = m_.timeline.moves[i];
        const Point shift = m_.toolpath.tipShift(moveAt(m_, i));
        const auto within = [&](Point tip) {
            return std::abs(tip.r) < radiusBehindPoint(t_, tip.z - point) - tolerance::kTouchMm;
        };
        const bool arc = timed.kind == MoveKind::ArcClockwise || timed.kind == MoveKind::ArcAnticlockwise;
        if (arc) {
            for (int k = 0; k <= kLooksAlongAnArc; ++k) {
                const Point tip = pointAt(timed, static_cast<double>(k) / kLooksAlongAnArc) + shift;
                if (within(tip)) return tip;
            }
            return std::nullopt;
        }
        // Along a line the distance to the centre's surface is least at an end, or where a corner of one or the other
        // lies.
        const Point from = timed.from + shift, way = timed.to - timed.from;
        std::vector<double> looks{0, 1};
        if (way.r != 0) looks.push_back(-from.r / way.r);
        for (double corner : {0.0, behindPoint(t_, t_.centreRadius), t_.centreLength}) {
            if (way.z != 0) looks.push_back((point + corner - from.z) / way.z);
            // Just behind the corner too, where the surface jumps out.
            if (way.z != 0) looks.push_back((point + corner + 2 * tolerance::kTouchMm - from.z) / way.z);
        }
        std::sort(looks.begin(), looks.end());
        for (double share : looks) {
            if (share < 0 || share > 1) continue;
            if (within(from + share * way)) return from + share * way;
        }
        return std::nullopt;
    }

    Finding& at(std::size_t i, Severity severity, const char* code) {
        findings_.push_back(findingAt(m_, i, severity, code));
        return findings_.back();
    }
    bool isSaid(std::size_t i, const char* code) const {
        const SourceSpan span = m_.program.span(moveAt(m_, i).block);
        return std::any_of(findings_.begin(), findings_.end(),
                           [&](const Finding& f) { return f.code == code && f.span == span; });
    }

    const Machining& m_;
    const Tailstock& t_;
    bool advanced_ = false;
    double point_ = 0;  // of the centre, z
    int looks_ = 0;
    int saidOf_ = -1;  // tool call
    std::optional<StockCursor> cursor_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> tailstockFindings(const Machining& machining) {
    if (!machining.setup.tailstock) return {};
    return Centre(machining).find();
}

}  // namespace firstoff
