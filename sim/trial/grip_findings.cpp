// Whether the chuck has enough of the bar for what stands out of it.
//
//      |<- grip ->|<------ stick-out L ------>|        D: diameter where the jaws bear
//   ___|__________|___________________________
//      | jaws     |                           |
//   - -|- - - - - | - - - - - - - - - - - - - | - - > z
//
// Rules of the trade, no more: what grip and what speed really hold a part follows from the clamping force, which is
// for the chuck maker's chart. Common practice, no source, but for the slenderness, which guides on deflection give
// alike: up to 3 D without support, caution between 4 and 5, support above 5; between chuck and centre up to 10 or 12,
// then a steady rest as well.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/base/say.h"
#include "sim/cutting/jaw_hold.h"
#include "sim/motion/machine_pose.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

namespace {

constexpr double kSlenderFree = 3, kSlenderFreeAtMost = 4;  // L / D without support: a note above, a warning above
constexpr double kSlenderSupported = 10;                    // with a centre, a steady rest or a second chuck
constexpr double kGripOfStickOut = 1.0 / 3, kGripOfDiameter = 0.5;
constexpr double kGripOfDiameterSupported = 0.25;  // enough to drive the bar
constexpr double kRoundingMm = 0.01;               // figures of a set-up have two decimals

constexpr const char* kWhoDecides =
    later(" What grip and speed hold a part is for the chuck maker's chart and authorised people to say.");

// Cuts across the axis, which lever at the grip.
struct Cuts {
    std::optional<std::size_t> first;             // timed move
    std::optional<std::size_t> firstUnsupported;  // with neither centre nor second chuck
};

class Grip {
public:
    explicit Grip(const Machining& m) : m_(m), chuck_(m.setup.chuck) {}

    std::vector<Finding> find() {
        if (chuck_.jawLength <= 0) return {};  // the reader of the set-up has said so
        const StockCursor start(m_.stock);
        hold_ = holdOf(start.billet(), gripRange(chuck_), chuck_.grip);
        stickOut_ = frontOf(start.billet()) - chuck_.jawLength;
        lookAtCuts();
        speedNotKnown();
        if (!cuts_.first) return std::move(findings_);
        if (hold_.lengthMm <= 0) {
            nothingHeld();
        } else {
            gripTooShort();
            tooSlender();
        }
        return std::move(findings_);
    }

private:
    void lookAtCuts() {
        const auto& events = m_.toolpath.machineEvents;
        std::size_t event = 0;
        bool supported = isSupported(0);
        for (std::size_t i = 0; i < m_.timeline.moves.size() && !cuts_.firstUnsupported; ++i) {
            const std::size_t before = event;
            while (event < events.size() && events[event].duringMove < m_.timeline.moves[i].move) ++event;
            if (event > before) supported = isSupported(i);
            turns_ |= m_.timeline.moves[i].rpmStart > 0 || m_.timeline.moves[i].rpmEnd > 0;
            const Tool* tool = toolAt(m_, i);
            if (tool == nullptr || worksOnTheAxis(tool->kind)) continue;
            if (!isAtFeed(m_.timeline.moves[i].kind) || !takesMetal(m_, i)) continue;
            if (!cuts_.first) cuts_.first = i;
            if (!supported) cuts_.firstUnsupported = i;
        }
    }

    bool isSupported(std::size_t i) const {
        if (i >= m_.timeline.moves.size()) return false;
        const MachinePose pose = poseAt(m_.timeline, m_.toolpath, m_.setup, i, 0);
        if (pose.secondSpindleGrips) return true;
        return pose.tailstockZ && *pose.tailstockZ < chuck_.jawLength + stickOut_;
    }

    void speedNotKnown() {
        if (!turns_ || chuck_.maxRevPerMin > 0) return;
        Finding& finding = add(Severity::Note, "chuck-speed-not-given");
        finding.message =
            tr("The set-up does not say what speed is marked on the chuck, so no speed was held against it.");
        finding.remedy = tr("Write the figure on the chuck as max_rev_per_min into [chuck].");
    }

    void nothingHeld() {
        Finding& finding = add(Severity::Stop, "nothing-in-the-jaws");
        finding.message =
            say("The jaws grip between Z{:.3f} and Z{:.3f} of the chuck face, and the bar has no metal there: it is "
                "held by nothing.",
                gripRange(chuck_).min, gripRange(chuck_).max);
        finding.remedy = std::string(tr("Let the bar stick out less, or correct its length.")) + tr(kWhoDecides);
    }

    bool supported() const { return !cuts_.firstUnsupported || m_.setup.steadyRest.has_value(); }
    double diameter() const { return 2 * hold_.radius; }

    void gripTooShort() {
        const double byDiameter = (supported() ? kGripOfDiameterSupported : kGripOfDiameter) * diameter();
        const double byStickOut = supported() ? 0 : kGripOfStickOut * stickOut_;
        const double needed = std::max(byDiameter, byStickOut);
        if (hold_.lengthMm >= needed - kRoundingMm) return;
        Finding& finding = add(Severity::Warning, "grip-too-short");
        finding.message = say(
            "The jaws have {:.2f} mm of a diameter of {:.2f} mm, and {:.2f} mm stick out: {} asks for {:.2f} mm. The "
            "part may be levered out when it is cut{}.",
            hold_.lengthMm, diameter(), stickOut_, rule(byStickOut > byDiameter), needed, firstCut());
        finding.remedy = std::string(supported() ? tr("Grip longer.")
                                                 : tr("Grip longer, let less stick out, or bring up a "
                                                      "centre.")) +
                         tr(kWhoDecides);
        finding.values = {{"gripped_mm", hold_.lengthMm}, {"needed_mm", needed}, {"stick_out_mm", stickOut_}};
    }

    const char* rule(bool byStickOut) const {
        if (byStickOut) return tr("common practice, a third of the stick-out,");
        return supported() ? tr("common practice, a quarter of the diameter with the other end supported,")
                           : tr("common practice, half the diameter,");
    }

    // Of the stretches between supports, or from the last one to the end: the most slender by its own limit.
    void tooSlender() {
        const double free = m_.setup.steadyRest ? frontZ() - m_.setup.steadyRest->z : stickOut_;
        const double between = m_.setup.steadyRest ? m_.setup.steadyRest->z - chuck_.jawLength : stickOut_;
        if (cuts_.firstUnsupported && free > kSlenderFree * diameter() + kRoundingMm) {
            const bool muchTooSlender = free > kSlenderFreeAtMost * diameter() + kRoundingMm;
            Finding& finding = add(muchTooSlender ? Severity::Warning : Severity::Note, "needs-support");
            finding.message =
                m_.setup.steadyRest
                    ? say("{:.2f} mm stand free of the steady rest, {:.1f} times the diameter of {:.2f} mm, without a "
                          "centre: common practice is up to {:g} times. It bends away, chatters and may climb over the "
                          "tool{}.",
                          free, free / diameter(), diameter(), kSlenderFree, firstCut())
                    : say("{:.2f} mm stand free of the jaws, {:.1f} times the diameter of {:.2f} mm, without a centre: "
                          "common practice is up to {:g} times. It bends away, chatters and may climb over the tool{}.",
                          free, free / diameter(), diameter(), kSlenderFree, firstCut());
            finding.remedy =
                std::string(tr("Bring up a centre before this cut, or let less stick out.")) + tr(kWhoDecides);
            finding.values = {{"free_mm", free}, {"diameter_mm", diameter()}, {"times_diameter", free / diameter()}};
        } else if (supported() && between > kSlenderSupported * diameter() + kRoundingMm) {
            Finding& finding = add(Severity::Warning, "needs-support");
            finding.message = say(
                "{:.2f} mm stand free between the jaws and the next support, {:.1f} times the diameter of {:.2f} mm: "
                "common practice is up to {:g} times{}.",
                between, between / diameter(), diameter(), kSlenderSupported, firstCut());
            finding.remedy = std::string(tr("Add a steady rest, or set it nearer.")) + tr(kWhoDecides);
            finding.values = {
                {"free_mm", between}, {"diameter_mm", diameter()}, {"times_diameter", between / diameter()}};
        }
    }

    double frontZ() const { return chuck_.jawLength + stickOut_; }
    std::size_t cut() const { return cuts_.firstUnsupported.value_or(*cuts_.first); }

    std::string firstCut() const { return say(" (first in line {})", m_.program.lineOf(moveAt(m_, cut()).block)); }

    Finding& add(Severity severity, const char* code) {
        Finding& finding = findings_.emplace_back();
        finding.severity = severity;
        finding.code = code;
        finding.span = m_.setup.stock.placeSpan;
        finding.span.file = SourceSpan::File::Setup;
        if (cuts_.first) finding.timeS = m_.timeline.moves[cut()].t0;
        return finding;
    }

    const Machining& m_;
    const Chuck& chuck_;
    JawHold hold_;
    double stickOut_ = 0;
    bool turns_ = false;
    Cuts cuts_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> gripFindings(const Machining& machining) {
    return Grip(machining).find();
}

}  // namespace firstoff
