// The spindle as an axis: C and H words, polar and cylindrical interpolation. Their moves are carried along X and Z as
// programmed, with C beside them; what they cut is not modelled, so a section with them is never proven.
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kTurns = BlockWords::bits({'C', 'H'});
// Slower than this is a slip, and no time to reckon with. Degrees per minute.
constexpr double kSlowestTurn = 0.01;

constexpr std::uint32_t kArcWords = BlockWords::bits({'I', 'J', 'K', 'R'});

}  // namespace

// G12.1, G13.1 and G07.1 C, where C is the radius of the cylinder and 0 ends it.
void Control::applySpindleAxisMode() {
    const Code& code = *orders_[CodeGroup::SpindleAxis];
    leaveCompensation(tr("the change of interpolation"), code.word);
    settle();
    SpindleAxis& axis = now_.spindleAxis;
    axis.length = 0;
    if (code.order == Order::PolarInterpolation) {
        axis.interpolation = SpindleAxis::Interpolation::Polar;
    } else if (code.order == Order::CylindricalInterpolation) {
        use(BlockWords::bit('C'));
        const bool ends = words_.has('C') && words_.number('C') == 0;
        if (!words_.has('C')) {
            remarks_.at(block(), *code.word,
                        {Severity::Stop, "cylinder-without-radius",
                         say("{} has no C word, the radius of the cylinder.", program_.textOf(*code.word)),
                         tr("Write the radius as C, or C0 to end the interpolation.")});
        }
        axis.interpolation = ends ? SpindleAxis::Interpolation::None : SpindleAxis::Interpolation::Cylindrical;
    } else {
        axis.interpolation = SpindleAxis::Interpolation::None;
    }
    axis.engaged = axis.interpolation != SpindleAxis::Interpolation::None;
    if (axis.engaged) reportSpindleAxis(*code.word);
}

// Whether the block moves the spindle as an axis. While the spindle turns, a C word at feed can be no such move.
bool Control::movesSpindleAxis() const {
    if (now_.modal.motion > 3 || words_.axesUnknown()) return false;
    if (orders_.has(CodeGroup::SpindleAxis, Order::CylindricalInterpolation)) return false;  // C is its radius
    if (now_.spindleAxis.interpolation == SpindleAxis::Interpolation::Polar) return words_.hasAny(kTurns | axes());
    return words_.hasAny(kTurns) && spindleMayBeAxis() && plainCorner() == nullptr;
}

bool Control::spindleMayBeAxis() const {
    return now_.spindleAxis.engaged || now_.modal.motion == 0 || now_.modal.spindle == SpindleDirection::Stopped;
}

void Control::spindleAxisMove() {
    use(kTurns | axes());
    if (now_.modal.motion > 1) use(kArcWords);
    if (words_.hasAny(kTurns)) reportSpindleAxis(*words_.word(words_.has('C') ? 'C' : 'H'));
    if (words_.hasAny(axes())) {
        reportAxisTwice();
        if (!now_.datumChecked) checkDatum();
    }
    const bool feeds = now_.modal.motion != 0;
    if (feeds && !now_.feedChecked) checkFeed();
    const Point to = words_.hasAny(axes()) ? target() : now_.position;
    MoveExtra extra;
    extra.spindleIsAxis = true;
    extra.cFrom = now_.spindleAxis.angle;
    turnSpindleAxis((to + call().reckoned - datum()).r);
    extra.cTo = now_.spindleAxis.angle;
    if (now_.position == to) return standAndTurn(extra, feeds);
    Move move = newMove(feeds ? MoveKind::Feed : MoveKind::Rapid, to);
    move.extra = extraIndex(extra);
    moveAlong(move);
}

// Where the words of the block turn the spindle to. In polar interpolation C is a length across X; `radius` is X there.
void Control::turnSpindleAxis(double radius) {
    SpindleAxis& axis = now_.spindleAxis;
    axis.engaged = true;
    if (axis.interpolation == SpindleAxis::Interpolation::Polar) {
        if (words_.has('C')) axis.length = lengthOf('C');
        if (words_.has('H')) axis.length += lengthOf('H');
        axis.angle = std::atan2(axis.length, radius);
        return;
    }
    if (words_.has('C')) axis.angle = radians(words_.number('C'));
    if (words_.has('H')) axis.angle += radians(words_.number('H'));
}

// A move of C alone takes time where F is in degrees per minute, and goes nowhere.
void Control::standAndTurn(const MoveExtra& extra, bool feeds) {
    if (extra.cFrom == extra.cTo) return;
    Move move = newMove(MoveKind::Dwell, now_.position);
    const double degPerMin = now_.modal.feed / scale();
    if (feeds && !now_.modal.feedPerRev && degPerMin > kSlowestTurn) {
        move.seconds = degrees(std::abs(extra.cTo - extra.cFrom)) / degPerMin * 60;
    }
    move.extra = extraIndex(extra);
    add(move);
}

// What a move has besides its path while the spindle is an axis and stands.
std::uint32_t Control::spindleAxisExtra() {
    MoveExtra extra;
    extra.spindleIsAxis = true;
    extra.cFrom = extra.cTo = now_.spindleAxis.angle;
    return extraIndex(extra);
}

std::uint32_t Control::extraIndex(const MoveExtra& extra) {
    if (out_.extras.empty() || !(out_.extras.back() == extra)) out_.extras.push_back(extra);
    return static_cast<std::uint32_t>(out_.extras.size() - 1);
}

// G28 with C or H: the spindle turns to its reference position.
void Control::referenceSpindleAxis() {
    use(kTurns);
    reportSpindleAxis(*words_.word(words_.has('C') ? 'C' : 'H'));
    settle();
    MoveExtra extra;
    extra.spindleIsAxis = true;
    extra.cFrom = now_.spindleAxis.angle;
    now_.spindleAxis.angle = now_.spindleAxis.length = 0;
    now_.spindleAxis.engaged = true;
    standAndTurn(extra, false);
}

// Once for each tool called.
void Control::reportSpindleAxis(const Word& word) {
    if (spindleAxisSaid_ == now_.call) return;
    spindleAxisSaid_ = now_.call;
    remarks_.at(block(), word,
                {Severity::Warning,
                 "c-axis-not-cut",
                 say("{} uses the spindle as an axis. Its moves are carried, but cutting with them is not "
                     "modelled: until the spindle turns again nothing is taken off.",
                     program_.textOf(word)),
                 tr("Prove this section on the machine."),
                 {},
                 true});
}

}  // namespace firstoff
