// The drilling family G80 to G85: movement codes that drill anew in every block with an axis word.
#include <cmath>

#include "sim/base/say.h"
#include "sim/control/control.h"
#include "sim/control/drill_cycle.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kTurns = BlockWords::bits({'C', 'H'});

// A hole this near to the axis is on it: what turrets are aligned to, generously (common practice, no source).
constexpr double kBesideAxisMm = 0.05;

constexpr double kMostRepeats = 9999;

}  // namespace

bool Control::isDrilling(int motion) {
    return motion > 80 && motion < 90;
}

// G80. What movement code then stands is not known on every control, so the next movement must say its own.
void Control::endDrilling() {
    now_.drilling = {};
    if (!isDrilling(now_.modal.motion)) return;
    now_.modal.motion = 0;
    now_.motionGiven = false;
    now_.suspended = false;
    now_.cycleLeftOn = false;
    modalDirty_ = true;
}

void Control::drillingBlock() {
    const bool stated = orders_[CodeGroup::Motion] != nullptr;
    if (!readDrilling()) return;
    if (!words_.hasAny(axes() | kTurns)) {
        if (stated) reportCycleWithoutAxes();
        return;
    }
    beginCycle();
    warnOfCycleLeftOn();
    const int repeats = readRepeats();
    const auto order = drillCycle();
    if (!order || repeats == 0) return;
    DrillCycle cycle = *order;
    cycle.repeats = repeats;
    const DrillPlan plan = planDrillCycle(cycle);
    if (plan.tooMany) return reportTooManyPecks(cycle.peck);
    reportBesideAxis(cycle);
    if (words_.hasAny(kTurns)) turnForHole();
    emitCycle(plan.moves, block(), now_.modal.motion);
}

// Takes the figures of the block, which stay until the cycle ends. False if one of them cannot be used.
bool Control::readDrilling() {
    DrillFigures& kept = now_.drilling;
    const int motion = now_.modal.motion;
    use(axes() | kTurns | BlockWords::bit('R'));
    if (words_.has('W')) kept.depth = DrillFigures::Level{lengthOf('W'), false};
    if (words_.has('Z')) kept.depth = DrillFigures::Level{lengthOf('Z'), !now_.incremental};
    const bool absolute = setup_.control.codeSystem != CodeSystem::A && !now_.incremental;
    if (words_.has('R')) kept.retract = DrillFigures::Level{lengthOf('R'), absolute};
    if (motion == 83 && words_.has('Q')) {
        const auto peck = incrementsOf('Q', tr("The peck"));
        if (!peck) return false;
        kept.peck = *peck;
    }
    if (motion != 81 && words_.has('P')) {
        use(BlockWords::bit('P'));
        doubtDwellPoint(*words_.word('P'));
        const bool none = words_.number('P') == 0;
        if (none) kept.dwellS = 0;
        if (!none) kept.dwellS = positive('P', tr("The dwell")).value_or(0) / 1000;
    }
    return true;
}

// A hole at an angle: the spindle turns there first.
void Control::turnForHole() {
    reportSpindleAxis(*words_.word(words_.has('C') ? 'C' : 'H'));
    MoveExtra extra;
    extra.spindleIsAxis = true;
    extra.cFrom = now_.spindleAxis.angle;
    turnSpindleAxis(workPosition().r);
    extra.cTo = now_.spindleAxis.angle;
    standAndTurn(extra, false);
}

// K, or L: how often the hole is drilled. 0 only keeps the figures.
int Control::readRepeats() {
    const char letter = words_.has('K') ? 'K' : 'L';
    if (!words_.has(letter)) return 1;
    use(BlockWords::bit(letter));
    const double value = words_.number(letter);
    if (value >= 0 && value <= kMostRepeats && value == std::floor(value)) return static_cast<int>(value);
    remarks_.at(block(), *words_.word(letter),
                {Severity::Stop, "repeats-not-whole",
                 say("{} repeats must be a whole number from 0 to {:.0f}, not {}; the hole was drilled once.", letter,
                     kMostRepeats, figure(value)),
                 tr("Correct the figure.")});
    return 1;
}

// The cycle from the figures in force; nothing, and said so, if they make none.
std::optional<DrillCycle> Control::drillCycle() {
    const DrillFigures& kept = now_.drilling;
    DrillCycle order;
    order.start = workPosition();
    order.holeR =
        words_.hasAny(axes() & BlockWords::bits({'X', 'U'})) ? (target() + call().reckoned - datum()).r : order.start.r;
    order.retractZ = order.start.z;
    if (kept.retract) order.retractZ = kept.retract->mm + (kept.retract->absolute ? 0 : order.start.z);
    if (!kept.depth) {
        remarks_.at(block(), *cycleStated_.word,
                    {Severity::Stop, "drill-without-depth",
                     say("{} has no Z: how deep to drill is not known. It was not carried out.", cycleName()),
                     tr("Write Z of the bottom of the hole.")});
        return std::nullopt;
    }
    order.bottomZ = kept.depth->mm + (kept.depth->absolute ? 0 : order.retractZ);
    if (!checkLevels(order)) return std::nullopt;
    order.peck = kept.peck;
    order.clearance = setup_.control.peckClearanceMm;
    order.fullRetract = setup_.control.peckFullRetract;
    order.dwellS = kept.dwellS;
    order.feedOut = now_.modal.motion == 85;
    order.backToRetractPoint = now_.backToRetractPoint;
    return order;
}

// Initial level, retract point and bottom should follow each other.
bool Control::checkLevels(const DrillCycle& order) {
    const double towards = order.bottomZ < order.start.z ? -1 : 1;
    const double deep = towards * (order.bottomZ - order.retractZ);
    if (deep <= 0) {
        remarks_.at(block(), words_.has('R') ? words_.word('R') : nullptr,
                    {Severity::Stop,
                     "drill-levels",
                     say("The retract point of {} lies at Z{}, which is not in front of the bottom of the hole, "
                         "Z{}. It was not carried out.",
                         cycleName(), figure(order.retractZ), figure(order.bottomZ)),
                     retractMeaning(),
                     {{"retract_z_mm", order.retractZ}, {"bottom_z_mm", order.bottomZ}}});
        return false;
    }
    if (towards * (order.retractZ - order.start.z) < 0) {
        remarks_.at(block(), words_.has('R') ? words_.word('R') : nullptr,
                    {Severity::Warning,
                     "retract-point-behind-start",
                     say("The retract point of {} comes out at Z{}, farther from the work than the start at Z{}.",
                         cycleName(), figure(order.retractZ), figure(order.start.z)),
                     retractMeaning(),
                     {{"retract_z_mm", order.retractZ}, {"start_z_mm", order.start.z}},
                     true});
    }
    return true;
}

std::string Control::retractMeaning() const {
    return setup_.control.codeSystem == CodeSystem::A
               ? tr("In code system A R counts from the start of the cycle, below "
                    "zero towards the chuck; some controls take "
                    "it as a position. See how yours does.")
               : tr("In code systems B and C R is a position along Z, under G91 the distance from the start.");
}

void Control::reportBesideAxis(const DrillCycle& order) {
    const Tool* tool = call().toolIndex >= 0 ? &setup_.tools[static_cast<std::size_t>(call().toolIndex)] : nullptr;
    const bool boring = now_.modal.motion == 85 && tool != nullptr && !worksOnTheAxis(tool->kind);
    if (boring || std::abs(order.holeR) <= kBesideAxisMm) return;
    remarks_.at(block(), words_.word('X'),
                {Severity::Warning,
                 "hole-beside-axis",
                 say("{} works at X{}: a hole beside the axis needs a driven tool and a spindle that stands, which "
                     "is not modelled.",
                     cycleName(), figure(2 * order.holeR)),
                 tr("Bring the drill to X0 for a hole on the axis."),
                 {{"x_mm", 2 * order.holeR}},
                 true});
}

}  // namespace firstoff
