#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/thread_zone.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

enum class Fault {
    None,
    Rapid,
    TornWedge,
    Index,
    Holder,
    SpindleStopped,
    WrongDirection,
    BesideAxis,
    AboveFeedLimit,
};

// An edge that leans over a shoulder (entering angle above 90°) leaves a thin wedge standing under it. A straight
// pull-out at rapid tears that wedge off: ugly, worth a note, but no crash. Mean thickness, along z, up to which it
// counts as such: what a 95° edge leaves at a depth of cut of 5.7 mm.
constexpr double kWedgeMm = 0.25;

// How far the point of a drill may stand off the axis: what turrets are aligned to, generously (common practice, no
// source).
constexpr double kDrillBesideAxisMm = 0.05;

const char* codeOf(Fault fault) {
    switch (fault) {
        case Fault::Rapid:
            return "rapid-into-material";
        case Fault::TornWedge:
            return "wedge-torn-at-rapid";
        case Fault::Index:
            return "index-into-material";
        case Fault::Holder:
            return "holder-into-material";
        case Fault::SpindleStopped:
            return "cut-with-spindle-stopped";
        case Fault::WrongDirection:
            return "cut-with-spindle-reversed";
        case Fault::BesideAxis:
            return "drill-beside-axis";
        case Fault::AboveFeedLimit:
            return "cut-above-feed-limit";
        case Fault::None:
            break;
    }
    return "";
}

const char* directionWord(SpindleDirection direction) {
    return direction == SpindleDirection::Reverse ? "M04" : "M03";
}

// The cross-section of the blank between two radii, mm²: of a bar that is not round, only its metal.
double ringOfBlank(const Machining& m, double z, double inner, double outer) {
    const auto ring = [](double a, double b) { return b > a ? kPi * (b * b - a * a) : 0; };
    if (m.setup.stock.isRound()) return ring(inner, outer);
    const StockCursor start(m.stock);
    const Billet& billet = start.billet();
    const int column = std::clamp(billet.grid().columnNear(z), 0, billet.grid().columns - 1);
    double sum = 0;
    std::vector<Interval> solids;
    for (int sector = 0; sector < billet.sectors(); ++sector) {
        billet.intervals(column, solids, sector);
        for (const Interval& solid : solids) sum += ring(std::max(inner, solid.inner), std::min(outer, solid.outer));
    }
    return sum / billet.sectors();
}

// A move straight away from the axis, from where the same tool has just ended a cut, through no more than the wedge.
bool tearsWedge(const Machining& m, std::size_t i) {
    if (i == 0) return false;
    const TimedMove& before = m.timeline.moves[i - 1];
    const TimedMove& timed = m.timeline.moves[i];
    const Move& move = m.toolpath.moves[timed.move];
    const bool leavesACut = isAtFeed(before.kind) && m.toolpath.moves[before.move].call == move.call;
    const bool outwards = timed.to.r > timed.from.r && std::abs(timed.to.z - timed.from.z) <= tolerance::kTouchMm;
    if (!leavesACut || !outwards) return false;
    const Cut& cut = m.stock->cuts()[i];
    const double inner = std::max(0.0, (timed.from + m.toolpath.tipShift(move)).r);
    const double outer = inner + cut.deepestMm;
    return cut.removedMm3 <= kWedgeMm * ringOfBlank(m, cut.atZ, inner, outer);
}

bool drillsBesideAxis(const Tool& tool, const TimedMove& timed, Point tipShift) {
    if (!worksOnTheAxis(tool.kind) || tool.kind == ToolKind::Tap) return false;
    return std::max(std::abs((timed.from + tipShift).r), std::abs((timed.to + tipShift).r)) > kDrillBesideAxisMm;
}

// The feed that F asks for at the slower end of the move, mm/min: there it is certain to be asked for.
double askedFeed(const TimedMove& timed, const Move& move, const ModalState& modal) {
    return modal.feedPerRev ? move.feed * std::min(timed.rpmStart, timed.rpmEnd) : move.feed;
}

bool stands(const TimedMove& timed) {
    return timed.rpmStart <= 0 && timed.rpmEnd <= 0;
}

Fault faultOf(const Machining& m, ThreadPart thread, std::size_t timedIndex) {
    const std::vector<float>& holder = m.stock->holderTouches();
    if (!holder.empty() && holder[timedIndex] > tolerance::kTouchMm) return Fault::Holder;
    if (m.stock->cuts()[timedIndex].deepestMm <= tolerance::kTouchMm) return Fault::None;
    if (thread == ThreadPart::PullOut) return Fault::None;
    const TimedMove& timed = m.timeline.moves[timedIndex];
    if (timed.kind == MoveKind::Index) return Fault::Index;
    if (!isAtFeed(timed.kind)) return tearsWedge(m, timedIndex) ? Fault::TornWedge : Fault::Rapid;
    const Move& move = m.toolpath.moves[timed.move];
    const ModalState& modal = m.toolpath.modals[move.modal];
    if (stands(timed)) return Fault::SpindleStopped;
    const int toolIndex = m.toolpath.calls[move.call].toolIndex;
    if (toolIndex < 0) return Fault::None;
    const Tool& tool = m.setup.tools[toolIndex];
    // A tap comes out of its thread with the spindle the other way round.
    const bool tapComesOut = thread == ThreadPart::Return;
    if (tool.needs != modal.spindle && !tapComesOut) return Fault::WrongDirection;
    if (drillsBesideAxis(tool, timed, m.toolpath.tipShift(move))) return Fault::BesideAxis;
    if (thread != ThreadPart::None) return Fault::None;  // the motion looks at the pace of threads
    // Leaving a shoulder at such a feed is a habit; the motion notes it.
    const double most = m.setup.machine.maxFeedMmPerMin;
    const bool tooFast = most > 0 && askedFeed(timed, move, modal) > most * (1 + 1e-9);
    return tooFast && !tearsWedge(m, timedIndex) ? Fault::AboveFeedLimit : Fault::None;
}

// Spoken position of a lathe-frame point in the work frame of a move: "X48 Z-12.5".
std::string spoken(const Machining& m, const Move& move, Point lathe) {
    const Point work = lathe - m.toolpath.datumOf(move);
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

void explain(Finding& finding, Fault fault, const Machining& m, const TimedMove& timed, double depth) {
    const Move& move = m.toolpath.moves[timed.move];
    const ToolCall& call = m.toolpath.calls[move.call];
    const std::string tool = toolWord(call);
    const std::string place = spoken(m, move, *finding.place);
    switch (fault) {
        case Fault::Rapid:
            finding.message = say("Rapid move drives tool {} {:.3f} mm deep into metal near {}.", tool, depth, place);
            finding.remedy = tr("Approach clear of the bar and make the last stretch a feed move (G01).");
            break;
        case Fault::TornWedge:
            finding.severity = Severity::Note;
            finding.message = say(
                "Tool {} pulls out at rapid and tears off the thin wedge that its leaning edge left standing at the "
                "shoulder near {}.",
                tool, place);
            finding.remedy = tr("Face the shoulder out at feed (G01 X…), or leave it at 45 degrees.");
            break;
        case Fault::Index:
            finding.message = say(
                "The turret indexes so close to the bar that tool {} comes to stand {:.3f} mm deep in the metal, its "
                "tip at {}.",
                tool, depth, place);
            finding.remedy =
                tr("Retract far enough for the longest tool, or to the reference position, before the T word.");
            break;
        case Fault::Holder:
            finding.message =
                say("The holder of tool {} runs {:.3f} mm deep into the metal near {}.", tool, depth, place);
            finding.remedy =
                tr("Let the tool stand further out, take a slimmer holder, or cut less deep; check the holder's sizes "
                   "in the set-up.");
            break;
        case Fault::SpindleStopped:
            finding.message =
                say("Tool {} cuts {:.3f} mm deep near {} while the spindle stands still.", tool, depth, place);
            finding.remedy = tr("Start the spindle (M03 or M04 with a speed) before the tool reaches the bar.");
            break;
        case Fault::WrongDirection: {
            const char* needs = directionWord(m.setup.tools[call.toolIndex].needs);
            const char* has = directionWord(m.toolpath.modals[move.modal].spindle);
            finding.message =
                say("Tool {} cuts near {} with the spindle turning {}; its edge needs {}.", tool, place, has, needs);
            finding.remedy = say("Program {} for this tool, or correct how the set-up says it is mounted.", needs);
            break;
        }
        case Fault::BesideAxis:
            finding.message = say(
                "The drill {} cuts with its point beside the axis, near {}: it would be bent or break, and bore too "
                "large.",
                tool, place);
            finding.remedy =
                tr("Bring the drill to X0 before it reaches the bar; check its X offset and tip_x_mm in the set-up.");
            break;
        case Fault::AboveFeedLimit: {
            const double most = m.setup.machine.maxFeedMmPerMin;
            const double revolutions = std::max(timed.rpmStart, timed.rpmEnd);
            finding.severity = Severity::Warning;
            finding.message = say(
                "Tool {} is in metal near {} at a feed above the machine's limit: it runs at {:.0f} mm/min, which is "
                "{:.3f} mm per revolution.",
                tool, place, most, most / revolutions);
            finding.remedy = tr("Check F against G98 (mm/min) and G99 (mm per revolution), and lower it.");
            finding.values.emplace_back("feed_mm_per_rev", most / revolutions);
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
    const ThreadZone threads = threadZone(m.timeline, m.toolpath, m.setup);
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
        explain(finding, run.fault, m, timed, depth);
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
        const Fault fault = faultOf(m, threads.part(i), i);
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
