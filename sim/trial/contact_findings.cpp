#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

enum class Fault { None, Rapid, TornWedge, Holder, SpindleStopped, WrongDirection };

// An edge that leans over a shoulder (entering angle above 90°) leaves a thin wedge standing under it. A straight
// pull-out at rapid tears that wedge off: ugly, worth a note, but no crash. Mean thickness, along z, up to which it
// counts as such: what a 95° edge leaves at a depth of cut of 5.7 mm.
constexpr double kWedgeMm = 0.25;

bool removesByIntent(MoveKind kind) {
    return kind == MoveKind::Feed || kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise ||
           kind == MoveKind::Thread;
}

const char* codeOf(Fault fault) {
    switch (fault) {
        case Fault::Rapid:
            return "rapid-into-material";
        case Fault::TornWedge:
            return "wedge-torn-at-rapid";
        case Fault::Holder:
            return "holder-into-material";
        case Fault::SpindleStopped:
            return "cut-with-spindle-stopped";
        case Fault::WrongDirection:
            return "cut-with-spindle-reversed";
        case Fault::None:
            break;
    }
    return "";
}

const char* directionWord(SpindleDirection direction) {
    return direction == SpindleDirection::Reverse ? "M04" : "M03";
}

// A rapid straight away from the axis, from where the same tool has just ended a cut, through no more than the wedge.
bool tearsWedge(const Machining& m, std::size_t i) {
    if (i == 0) return false;
    const TimedMove& before = m.timeline.moves[i - 1];
    const TimedMove& timed = m.timeline.moves[i];
    const Move& move = m.toolpath.moves[timed.move];
    const bool leavesACut = removesByIntent(before.kind) && m.toolpath.moves[before.move].call == move.call;
    const bool outwards = timed.to.r > timed.from.r && std::abs(timed.to.z - timed.from.z) <= tolerance::kTouchMm;
    if (!leavesACut || !outwards) return false;
    const Cut& cut = m.stock->cuts()[i];
    const double inner = std::max(0.0, (timed.from + m.toolpath.tipShift(move)).r);
    const double outer = inner + cut.deepestMm;
    return cut.removedMm3 <= kWedgeMm * kPi * (outer * outer - inner * inner);
}

Fault faultOf(const Machining& m, std::size_t timedIndex) {
    const std::vector<float>& holder = m.stock->holderTouches();
    if (!holder.empty() && holder[timedIndex] > tolerance::kTouchMm) return Fault::Holder;
    if (m.stock->cuts()[timedIndex].deepestMm <= tolerance::kTouchMm) return Fault::None;
    const TimedMove& timed = m.timeline.moves[timedIndex];
    if (!removesByIntent(timed.kind)) return tearsWedge(m, timedIndex) ? Fault::TornWedge : Fault::Rapid;
    const Move& move = m.toolpath.moves[timed.move];
    const SpindleDirection turning = m.toolpath.modals[move.modal].spindle;
    if (turning == SpindleDirection::Stopped) return Fault::SpindleStopped;
    const int tool = m.toolpath.calls[move.call].toolIndex;
    if (tool >= 0 && m.setup.tools[tool].needs != turning) return Fault::WrongDirection;
    return Fault::None;
}

// Spoken position of a lathe-frame point in the work frame of a move: "X48 Z-12.5".
std::string spoken(const Machining& m, const Move& move, Point lathe) {
    const Point work = lathe - m.setup.workOffsets[m.toolpath.modals[move.modal].workOffset];
    return fmt::format("X{:.3f} Z{:.3f}", 2 * work.r, work.z);
}

// Where the imaginary tip stands along a timed move when it passes the place of deepest contact; near enough to find
// it.
Point tipNear(const Machining& m, const TimedMove& timed, double z) {
    const Move& move = m.toolpath.moves[timed.move];
    const Point from = timed.from + m.toolpath.tipShift(move);
    const Point to = timed.to + m.toolpath.tipShift(move);
    const double travel = to.z - from.z;
    const double share = travel != 0 ? std::clamp((z - from.z) / travel, 0.0, 1.0) : 1.0;
    return from + share * (to - from);
}

void explain(Finding& finding, Fault fault, const Machining& m, const Move& move, double depth) {
    const ToolCall& call = m.toolpath.calls[move.call];
    const std::string tool = fmt::format("T{:02d}{:02d}", call.station, call.offset);
    const std::string place = spoken(m, move, *finding.place);
    switch (fault) {
        case Fault::Rapid:
            finding.message =
                fmt::format("Rapid move drives tool {} {:.3f} mm deep into metal near {}.", tool, depth, place);
            finding.remedy = "Approach clear of the bar and make the last stretch a feed move (G01).";
            break;
        case Fault::TornWedge:
            finding.severity = Severity::Note;
            finding.message = fmt::format(
                "Tool {} pulls out at rapid and tears off the thin wedge that its leaning edge left standing at the "
                "shoulder near {}.",
                tool, place);
            finding.remedy = "Face the shoulder out at feed (G01 X…), or leave it at 45 degrees.";
            break;
        case Fault::Holder:
            finding.message =
                fmt::format("The holder of tool {} runs {:.3f} mm deep into the metal near {}.", tool, depth, place);
            finding.remedy =
                "Let the tool stand further out, take a slimmer holder, or cut less deep; check the holder's sizes in "
                "the "
                "set-up.";
            break;
        case Fault::SpindleStopped:
            finding.message =
                fmt::format("Tool {} cuts {:.3f} mm deep near {} while the spindle stands still.", tool, depth, place);
            finding.remedy = "Start the spindle (M03 or M04 with a speed) before the tool reaches the bar.";
            break;
        case Fault::WrongDirection: {
            const char* needs = directionWord(m.setup.tools[call.toolIndex].needs);
            const char* has = directionWord(m.toolpath.modals[move.modal].spindle);
            finding.message = fmt::format("Tool {} cuts near {} with the spindle turning {}; its edge needs {}.", tool,
                                          place, has, needs);
            finding.remedy =
                fmt::format("Program {} for this tool, or correct how the set-up says it is mounted.", needs);
            break;
        }
        case Fault::None:
            break;
    }
}

double depthOf(const Machining& m, Fault fault, std::size_t timed) {
    return fault == Fault::Holder ? m.stock->holderTouches()[timed] : m.stock->cuts()[timed].deepestMm;
}

}  // namespace

std::vector<Finding> contactFindings(const Machining& m) {
    std::vector<Finding> findings;
    struct Run {
        Fault fault = Fault::None;
        std::size_t last = 0;   // timed move
        std::size_t worst = 0;  // timed move with the deepest contact
        std::size_t first = 0;
    } run;
    const auto close = [&] {
        if (run.fault == Fault::None) return;
        const TimedMove& timed = m.timeline.moves[run.first];
        const TimedMove& deepest = m.timeline.moves[run.worst];
        const Move& move = m.toolpath.moves[timed.move];
        const Cut& cut = m.stock->cuts()[run.worst];
        const double depth = depthOf(m, run.fault, run.worst);
        Finding finding;
        finding.severity = Severity::Stop;
        finding.code = codeOf(run.fault);
        finding.span = m.program.span(move.block);
        finding.timeS = timed.t0;
        finding.place = tipNear(m, deepest, cut.atZ);
        double removed = 0;
        for (std::size_t i = run.first; i <= run.last; ++i) removed += m.stock->cuts()[i].removedMm3;
        finding.values = {{"depth_mm", depth}, {"removed_mm3", removed}};
        explain(finding, run.fault, m, move, depth);
        findings.push_back(std::move(finding));
        run.fault = Fault::None;
    };
    const auto continues = [&](Fault fault, std::size_t i) {
        if (run.fault != fault) return false;
        const Move& before = m.toolpath.moves[m.timeline.moves[run.last].move];
        const Move& now = m.toolpath.moves[m.timeline.moves[i].move];
        // At feed the whole stretch with one tool is one mistake; at rapid each block is its own.
        return before.call == now.call &&
               ((fault != Fault::Rapid && fault != Fault::TornWedge) || before.block == now.block);
    };
    for (std::size_t i = 0; i < m.timeline.moves.size(); ++i) {
        const Fault fault = faultOf(m, i);
        if (fault == Fault::None) continue;
        if (!continues(fault, i)) {
            close();
            run = {fault, i, i, i};
        }
        run.last = i;
        if (depthOf(m, fault, i) > depthOf(m, fault, run.worst)) run.worst = i;
    }
    close();
    return findings;
}

}  // namespace firstoff
