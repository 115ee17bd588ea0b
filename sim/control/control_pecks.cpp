// The pecking cycles G74 and G75 in one block or two.
#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"
#include "sim/control/groove_pecks.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kSteps = BlockWords::bits({'P', 'Q', 'I', 'K'});

// Nobody pecks by less: a figure below this was meant in other units. mm.
constexpr double kSmallPeckMm = 0.05;

// How far a groove may run past the centre, on radius: what clears the corner radius of a parting edge, generously.
constexpr double kBeyondCentreMm = 1;

// Steps as wide as the edge leave nothing standing but rounding. mm.
constexpr double kSameWidthMm = 0.001;

}  // namespace

void Control::pecksBlock(bool alongX) {
    use(axes() | kSteps | BlockWords::bit('R'));
    if (!words_.hasAny(axes() | kSteps)) return peckRetractBlock();
    if (words_.axesUnknown()) return;
    beginCycle();
    const auto order = readPecks(alongX);
    if (!order) return;
    const GroovePeckPlan plan = planGroovePecks(*order);
    if (plan.tooMany) return reportTooManyPecks(order->peck);
    reportPecks(*order, plan);
    emitCycle(plan.moves, block(), alongX ? 75 : 74);
}

// The first of two blocks: the retract, which stays for later cycles.
void Control::peckRetractBlock() {
    if (!words_.has('R')) {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Warning, "cycle-without-axes",
                     say("{} has neither axis words nor R: nothing was done.", cycleName()),
                     tr("Write the end point and the pecks with it.")});
    } else if (words_.number('R') == 0) {
        peckRetract_ = 0;
    } else if (const auto retract = positive('R', tr("The retract"))) {
        peckRetract_ = unitOf(*words_.word('R')) * *retract;
    }
}

std::optional<GroovePecks> Control::readPecks(bool alongX) {
    GroovePecks order;
    order.alongX = alongX;
    order.start = workPosition();
    order.end = target() + call().reckoned - datum();
    // What is not named stays exactly level.
    if (!words_.hasAny(axes() & BlockWords::bits({'X', 'U'}))) order.end.r = order.start.r;
    if (!words_.hasAny(axes() & BlockWords::bits({'Z', 'W'}))) order.end.z = order.start.z;
    order.retract = peckRetract_;
    const double depth = alongX ? order.end.r - order.start.r : order.end.z - order.start.z;
    const double width = alongX ? order.end.z - order.start.z : order.end.r - order.start.r;
    if (depth == 0) {
        remarks_.at(
            block(), *orders_[CodeGroup::OneShot]->word,
            {Severity::Warning, "cycle-cuts-nothing",
             say("{} has no depth: its end lies level with its start, {}.", cycleName(), place(order.start)),
             alongX ? tr("Write the depth of the plunge as X or U.") : tr("Write the depth of the plunge as Z or W.")});
        return std::nullopt;
    }
    const auto peck = stepOf(alongX ? 'P' : 'Q', alongX ? 'I' : 'K', tr("the peck"));
    if (!peck) return std::nullopt;
    order.peck = *peck;
    if (width != 0) {
        const auto step = stepOf(alongX ? 'Q' : 'P', alongX ? 'K' : 'I', tr("the step from plunge to plunge"));
        if (!step) return std::nullopt;
        order.step = *step;
    }
    order.relief = reliefOf(width != 0);
    return order;
}

// A peck or step from its word in increments (P, Q) or as a length (I, K).
std::optional<double> Control::stepOf(char increments, char length, const char* what) {
    if (words_.has(increments)) return incrementsOf(increments, what);
    if (words_.has(length)) {
        const auto value = positive(length, what);
        if (!value) return std::nullopt;
        return unitOf(*words_.word(length)) * *value;
    }
    remarks_.at(
        block(), *orders_[CodeGroup::OneShot]->word,
        {Severity::Stop, "missing-peck",
         say("{} does not say {}, {}; it was not carried out.", cycleName(), what, increments),
         say("Write {} in thousandths of a millimetre (ten-thousandths of an inch), on radius along X.", increments)});
    return std::nullopt;
}

// A point where least increments are counted; mm.
double Control::countWithPoint(const Word& word) {
    remarks_.at(block(), word,
                {Severity::Warning,
                 "count-with-point",
                 say("{} has a decimal point; {} counts in least increments, and controls differ what they "
                     "make of the point. It was taken as {}.",
                     program_.textOf(word), word.letter, now_.modal.inches ? tr("inches") : "mm"),
                 say("Write {}{:.0f}.", word.letter, word.value * incrementsPerUnit()),
                 {},
                 true});
    return scale() * word.value;
}

// A length that is written in least increments without a point, whatever the rule for lengths (common practice, no
// source); mm.
std::optional<double> Control::incrementsOf(char letter, const char* what) {
    const auto value = positive(letter, what);
    if (!value) return std::nullopt;
    const Word& word = *words_.word(letter);
    if (word.hasPoint) return countWithPoint(word);
    const double size = scale() * *value / incrementsPerUnit();
    // Only a computed value can be as small.
    if (size < tolerance::kSamePlaceMm) {
        remarks_.at(block(), word,
                    {Severity::Stop, "not-above-zero",
                     say("{} comes to {:g} mm, which is no length; {} was not carried out.", program_.textOf(word),
                         size, cycleName()),
                     tr("Correct the figure.")});
        return std::nullopt;
    }
    if (size < kSmallPeckMm) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "peck-very-small",
                     say("{} is {:g} mm: {} counts in least increments.", program_.textOf(word), size, letter),
                     say("For {} {} write {}{:.0f}.", figure(*value), now_.modal.inches ? tr("inches") : "mm", letter,
                         *value * incrementsPerUnit()),
                     {{"size_mm", size}}});
    }
    return size;
}

// R of the block that runs the cycle: the relief at the bottom.
double Control::reliefOf(bool severalPlunges) {
    if (!words_.has('R') || words_.number('R') == 0) return 0;
    const auto relief = positive('R', tr("The relief at the bottom"));
    if (!relief) return 0;
    if (!severalPlunges) {
        remarks_.at(block(), *words_.word('R'),
                    {Severity::Warning,
                     "relief-in-single-plunge",
                     say("{} in the block with the end point is the relief at the bottom: it would push the tool "
                         "sideways into the wall. It was left out.",
                         program_.textOf(*words_.word('R'))),
                     say("Write {} R… alone in the block before, if the retract between pecks is meant.", cycleName()),
                     {},
                     true});
        return 0;
    }
    remarks_.at(block(), *words_.word('R'),
                {Severity::Warning,
                 "relief-at-first-plunge",
                 say("{} relieves the tool at the bottom of each plunge. At the first one it stands between two "
                     "walls; controls differ whether they relieve there too. Here it was left out.",
                     program_.textOf(*words_.word('R'))),
                 tr("Leave the relief out, or prove the first plunge on the machine."),
                 {},
                 true});
    return unitOf(*words_.word('R')) * *relief;
}

void Control::reportTooManyPecks(double peck) {
    remarks_.at(block(), orders_[CodeGroup::OneShot] != nullptr ? orders_[CodeGroup::OneShot]->word : cycleStated_.word,
                {Severity::Stop,
                 "too-many-passes",
                 say("With pecks of {:g} mm {} needs more than {} of them; it was not carried out.", peck, cycleName(),
                     kMostPecks),
                 tr("Check the peck: it is written in least increments."),
                 {{"peck_mm", peck}}});
}

void Control::reportPecks(const GroovePecks& order, const GroovePeckPlan& plan) {
    if (order.alongX && order.start.r > 0 && order.end.r < -kBeyondCentreMm) {
        remarks_.at(block(), words_.word('X'),
                    {Severity::Warning,
                     "groove-beyond-centre",
                     say("{} runs to {}, {} mm past the centre.", cycleName(), place(order.end), figure(-order.end.r)),
                     tr("To part off, X a little below zero is enough: by the corner radius of the edge."),
                     {{"past_centre_mm", -order.end.r}}});
    }
    const Tool* tool = call().toolIndex >= 0 ? &setup_.tools[static_cast<std::size_t>(call().toolIndex)] : nullptr;
    const bool blade = tool != nullptr && isBlade(tool->kind);
    if (!blade || order.alongX == tool->face || plan.plunges < 2) return;
    const Point way = order.end - order.start;
    const double step = std::min(order.step, std::abs(order.alongX ? way.z : way.r));
    if (step <= tool->width + kSameWidthMm) return;
    const char increments = order.alongX ? 'Q' : 'P';
    remarks_.at(block(), words_.has(increments) ? words_.word(increments) : words_.word(order.alongX ? 'K' : 'I'),
                {Severity::Warning,
                 "groove-step-above-width",
                 say("The plunges are {} mm apart, but the edge is {} mm wide: rings of {} mm stay between them.",
                     figure(step), figure(tool->width), figure(step - tool->width)),
                 tr("Make the step a little less than the width of the edge."),
                 {{"step_mm", step}, {"width_mm", tool->width}}});
}

}  // namespace firstoff
