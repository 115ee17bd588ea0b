#include "sim/motion/carrier_travels.h"

#include <cassert>
#include <cmath>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"

namespace firstoff {

namespace {

bool movesTailstock(MachineAction action) {
    return action == MachineAction::TailstockAdvance || action == MachineAction::TailstockRetract;
}

bool isOfSecondSpindle(MachineAction action) {
    switch (action) {
        case MachineAction::SecondSpindleApproach:
        case MachineAction::SecondSpindleRetract:
        case MachineAction::SecondSpindleGrip:
        case MachineAction::SecondSpindleRelease:
        case MachineAction::SecondSpindleTurnsAlike:
        case MachineAction::SecondSpindleStop:
            return true;
        default:
            return false;
    }
}

}  // namespace

std::optional<double> advancedPlace(const Tailstock& tailstock) {
    return tailstock.advancedZ || !tailstock.advanced ? tailstock.advancedZ : tailstock.tipZ;
}

std::optional<double> parkedPlace(const Tailstock& tailstock) {
    return tailstock.parkedZ || tailstock.advanced ? tailstock.parkedZ : tailstock.tipZ;
}

const char* spoken(MachineAction action) {
    switch (action) {
        case MachineAction::None:
            break;
        case MachineAction::TailstockAdvance:
            return tr("advance the tailstock");
        case MachineAction::TailstockRetract:
            return tr("retract the tailstock");
        case MachineAction::ChuckOpen:
            return tr("open the chuck");
        case MachineAction::ChuckClose:
            return tr("close the chuck");
        case MachineAction::SecondSpindleApproach:
            return tr("bring up the second spindle");
        case MachineAction::SecondSpindleRetract:
            return tr("take back the second spindle");
        case MachineAction::SecondSpindleGrip:
            return tr("grip with the second spindle");
        case MachineAction::SecondSpindleRelease:
            return tr("release the second spindle");
        case MachineAction::SecondSpindleTurnsAlike:
            return tr("turn the second spindle in step with the first");
        case MachineAction::SecondSpindleStop:
            return tr("stop the second spindle");
    }
    return tr("do nothing");
}

CarrierTravels::CarrierTravels(const Toolpath& toolpath, const Setup& setup, Timeline& timeline)
    : toolpath_(toolpath), setup_(setup), timeline_(timeline) {
    if (setup.tailstock) tailstockZ_ = setup.tailstock->tipZ;
    if (setup.secondSpindle) secondSpindleZ_ = setup.secondSpindle->startZ;
}

void CarrierTravels::follow(std::uint32_t index) {
    while (next_ < toolpath_.machineEvents.size() && toolpath_.machineEvents[next_].duringMove <= index) {
        act(toolpath_.machineEvents[next_++]);
    }
}

void CarrierTravels::act(const MachineEvent& event) {
    if (movesTailstock(event.action)) {
        if (setup_.tailstock) return sendTailstock(event);
        Finding* finding = add(event, Severity::Warning, "tailstock-not-in-setup");
        if (!finding) return;
        finding->unproven = true;
        finding->message =
            say("This M code is to {}, but the set-up describes no tailstock: what it may meet is not known.",
                spoken(event.action));
        finding->remedy = tr("Describe it in [tailstock], or take the action off the M code in the set-up.");
    } else if (isOfSecondSpindle(event.action)) {
        if (setup_.secondSpindle) return sendSecondSpindle(event);
        Finding* finding = add(event, Severity::Warning, "second-spindle-not-in-setup");
        if (!finding) return;
        finding->unproven = true;
        finding->message =
            say("This M code is to {}, but the set-up describes no second spindle: what it may meet is not known.",
                spoken(event.action));
        finding->remedy = tr("Describe it in [second_spindle], or take the action off the M code in the set-up.");
    }
}

void CarrierTravels::sendTailstock(const MachineEvent& event) {
    const bool advances = event.action == MachineAction::TailstockAdvance;
    const std::optional<double> to = advances ? advancedPlace(*setup_.tailstock) : parkedPlace(*setup_.tailstock);
    if (to) return send(CarrierTravel::Carrier::Tailstock, tailstockZ_, *to, event);
    Finding* finding = add(event, Severity::Warning, "tailstock-place-not-given");
    if (!finding) return;
    finding->unproven = true;
    finding->message =
        say("This M code is to {}, but the set-up does not say where its centre then stands: it was left at Z{:.3f} of "
            "the chuck face.",
            spoken(event.action), tailstockZ_);
    finding->remedy = advances ? tr("Say in [tailstock] where the point of the centre stands when it is advanced.")
                               : tr("Say in [tailstock] where the point of the centre stands when it is parked.");
}

void CarrierTravels::sendSecondSpindle(const MachineEvent& event) {
    const SecondSpindle& second = *setup_.secondSpindle;
    if (event.action == MachineAction::SecondSpindleApproach) {
        send(CarrierTravel::Carrier::SecondSpindle, secondSpindleZ_, second.approachZ, event);
    } else if (event.action == MachineAction::SecondSpindleRetract) {
        send(CarrierTravel::Carrier::SecondSpindle, secondSpindleZ_, second.parkedZ, event);
    }
}

void CarrierTravels::send(CarrierTravel::Carrier carrier, double& at, double to, const MachineEvent& event) {
    assert(!timeline_.moves.empty());
    const double from = std::exchange(at, to);
    if (std::abs(to - from) <= tolerance::kSamePlaceMm) return;
    const TimedMove& timed = timeline_.moves.back();
    timeline_.travels.push_back(
        {carrier, from, to, static_cast<std::uint32_t>(timeline_.moves.size() - 1), event.block});
    if (timed.t1 > timed.t0) return;
    Finding* finding = add(event, Severity::Note, "travel-without-time");
    if (!finding) return;
    finding->message =
        say("This M code is to {} by {:.3f} mm, and the set-up gives it no time: the cycle time "
            "is too short by that.",
            spoken(event.action), std::abs(to - from));
    finding->remedy = tr("Give time_s in its table of [m_codes].");
    finding->values = {{"travel_mm", std::abs(to - from)}};
}

// Each action is spoken of once: a program that makes many parts sends it many times.
Finding* CarrierTravels::add(const MachineEvent& event, Severity severity, const char* code) {
    const std::uint32_t bit = 1u << static_cast<unsigned>(event.action);
    if ((said_ & bit) != 0) return nullptr;
    said_ |= bit;
    Finding& finding = timeline_.findings.emplace_back();
    finding.severity = severity;
    finding.code = code;
    if (event.block != kNoBlock) finding.span = {SourceSpan::File::Program, event.block + 1, 0, 0};
    if (!timeline_.moves.empty()) finding.timeS = timeline_.moves.back().t0;
    return &finding;
}

}  // namespace firstoff
