// Threads as cycles, G92 and G76, and tapping, G84. What the words mean is common practice, no source, from memory; see
// rows TC062, TC067 and TC074 of tests/reference/turning_code_facts.csv.
#include <algorithm>
#include <cmath>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/control/control.h"
#include "sim/control/drill_cycle.h"
#include "sim/control/figures.h"
#include "sim/control/single_pass.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kAxes = BlockWords::bits({'X', 'Z', 'U', 'W'});

// No thread is this shallow, nor a first pass: a figure below it was meant in mm.
constexpr double kLeastDepthMm = 0.02;
// Angles of threads that the cycle knows.
constexpr int kAngles[] = {0, 29, 30, 55, 60, 80};
// A sharp V of 60° is this deep over its pitch; no thread of a usual form is deeper.
constexpr double kSharpDepth = 0.8660;

}  // namespace

// As beginCycle(), but F is a lead.
void Control::beginThreading() {
    noCornerInCycle();
    noCompensationInCycle();
    settle();
    reportAxisTwice();
    if (!lackOfPointSaid_) lookForPoints();
    if (!now_.datumChecked) checkDatum();
}

void Control::threadingPassBlock() {
    constexpr std::uint32_t kWords = kAxes | BlockWords::bits({'R', 'I'});
    const bool stated = orders_[CodeGroup::Motion] != nullptr;
    use(kWords | BlockWords::bits({'Q', 'E'}));
    if (!words_.hasAny(kWords)) {
        if (stated) reportCycleWithoutAxes();
        return;
    }
    beginThreading();
    warnOfCycleLeftOn();
    const SinglePass figures = readSinglePass(stated);
    const auto lead = threadLead(cycleName().c_str());
    if (!lead) return;
    ThreadingPass pass;
    pass.start = figures.start;
    pass.end = figures.end;
    pass.taper = figures.taper;
    pass.lead = *lead;
    pass.pullOut = setup_.control.threadChamferLeads * *lead;
    if (std::abs(pass.end.z - pass.start.z) <= tolerance::kSamePlaceMm) return reportNoCut(figures);
    if (!checkThreadStart(pass, 0)) return;
    checkThreadSpeed(*lead);
    checkThreadTool(*lead);
    cycleStartAngle_ = startAngle(false);
    emitCycle(planThreadingPass(pass), block(), now_.modal.motion);
}

// Whether the way back to the start is clear of the thread. `crest`: by how much the metal stands above its root.
bool Control::checkThreadStart(const ThreadingPass& pass, double crest) {
    ThreadingPass top = pass;
    top.end.r += pass.start.r >= pass.end.r ? crest : -crest;
    const bool sameSide = (pass.start.r >= pass.end.r) == (top.start.r >= top.end.r);
    if (startsClear(pass) && startsClear(top) && sameSide) return true;
    remarks_.at(block(), {Severity::Stop,
                          "thread-start-inside",
                          say("The cycle starts at X{}, which is not clear of the thread at X{}: the way back would go "
                              "through it. It was not carried out.",
                              figure(2 * pass.start.r), figure(2 * top.end.r)),
                          tr("Start above the outside diameter, or inside the bore, of the thread."),
                          {{"start_x_mm", 2 * pass.start.r}, {"thread_x_mm", 2 * top.end.r}}});
    return false;
}

void Control::threadingCycleBlock() {
    if (!words_.hasAny(kAxes)) return readThreadingFigures();
    if (words_.axesUnknown()) return use(words_.letters());
    use(kAxes | BlockWords::bits({'P', 'Q', 'R', 'K', 'D', 'I', 'A', 'E'}));
    cycleStated_ = {block(), orders_[CodeGroup::OneShot]->word};
    beginThreading();
    const auto thread = readThread();
    if (!thread) return;
    checkThread(*thread);
    const ThreadPlan plan = planThreadingCycle(*thread);
    if (plan.tooManyPasses) {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Stop,
                     "too-many-passes",
                     say("With a first depth of {:g} mm a thread {:g} mm deep needs more than {} passes; it was "
                         "not cut.",
                         thread->firstDepth, thread->depth, kMostThreadPasses),
                     tr("Check the first depth and the least depth: both count in least increments."),
                     {{"first_depth_mm", thread->firstDepth}, {"depth_mm", thread->depth}}});
        return;
    }
    cycleStartAngle_ = 0;
    emitCycle(plan.moves, block(), 76);
}

// The first of two blocks: P, Q and R without axis words.
void Control::readThreadingFigures() {
    use(BlockWords::bits({'P', 'Q', 'R'}));
    if (words_.has('P')) readPassesAndAngle();
    if (words_.has('Q')) {
        const bool none = words_.number('Q') == 0;
        threading_.leastDepth = none ? 0 : threadDepth('Q', tr("The least depth of a pass")).value_or(0);
        threading_.leastGiven = true;
    }
    if (words_.has('R')) {
        const bool none = words_.number('R') == 0;
        threading_.allowance =
            none ? 0 : unitOf(*words_.word('R')) * positive('R', tr("The finish allowance")).value_or(0);
        threading_.allowanceGiven = true;
    }
}

// P of the first block: two figures each for finish passes, pull-out in tenths of the lead, and angle.
void Control::readPassesAndAngle() {
    const Word& word = *words_.word('P');
    const double value = words_.number('P');
    threading_.passesGiven = true;
    if (word.hasPoint || value < 0 || value > 999999 || value != std::floor(value)) {
        remarks_.at(block(), word,
                    {Severity::Stop, "bad-threading-figures",
                     say("{} should be six figures: finish passes, pull-out in tenths of the lead, and angle.",
                         program_.textOf(word)),
                     tr("Write for example P020060: two finish passes, no pull-out, 60 degrees.")});
        return;
    }
    const int figures = static_cast<int>(value);
    threading_.finishPasses = figures / 10000;
    threading_.pullOutLeads = (figures / 100 % 100) / 10.0;
    threading_.angleDeg = figures % 100;
    if (std::find(std::begin(kAngles), std::end(kAngles), figures % 100) != std::end(kAngles)) return;
    remarks_.at(block(), word,
                {Severity::Stop, "thread-angle-unknown",
                 say("{} ends in the angle {}, which the cycle does not know: the control would stop with an "
                     "alarm.",
                     program_.textOf(word), figures % 100),
                 tr("Write 80, 60, 55, 30, 29 or 00 as the last two figures.")});
}

// The figures of the block with the end of the thread.
std::optional<ThreadingCycle> Control::readThread() {
    const char* missing = !words_.hasAny(BlockWords::bits({'X', 'U'}))   ? "X"
                          : !words_.hasAny(BlockWords::bits({'Z', 'W'})) ? "Z"
                                                                         : nullptr;
    if (missing != nullptr) {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Stop, "thread-end-missing",
                     say("{} has no {}: where the thread ends is not known. It was not cut.", cycleName(), missing),
                     tr("Write X of the root and Z of the end of the thread.")});
        return std::nullopt;
    }
    const auto lead = threadLead(cycleName().c_str());
    ThreadingCycle cycle;
    if (!lead || !readDepths(cycle)) return std::nullopt;
    ThreadingPass& last = cycle.last;
    last.start = workPosition();
    last.end = target() + call().reckoned - datum();
    last.taper = words_.has('I') ? lengthOf('I') : words_.has('R') ? lengthOf('R') : 0;
    last.lead = *lead;
    last.pullOut = threading_.pullOutLeads.value_or(setup_.control.threadChamferLeads) * *lead;
    if (std::abs(last.end.z - last.start.z) <= tolerance::kSamePlaceMm) {
        reportNoCut({last.start, last.end, last.taper, false});
        return std::nullopt;
    }
    if (!checkThreadStart(last, cycle.depth)) return std::nullopt;
    return cycle;
}

// Depth, first depth, allowance, angle. False if they make no thread.
bool Control::readDepths(ThreadingCycle& cycle) {
    const bool oneBlock = words_.hasAny(BlockWords::bits({'K', 'D'}));
    const char depth = oneBlock ? 'K' : 'P';
    const char first = oneBlock ? 'D' : 'Q';
    for (const auto& [letter, code] :
         {std::pair{depth, "missing-thread-depth"}, std::pair{first, "missing-thread-infeed"}}) {
        if (words_.has(letter) && words_.number(letter) != 0) continue;
        remarks_.at(
            block(), words_.word(letter),
            {Severity::Stop, code,
             letter == depth ? say("{} has no {}, the depth of the thread; it was not cut.", cycleName(), letter)
                             : say("{} has no {}, the depth of the first pass; it was not cut.", cycleName(), letter),
             oneBlock ? tr("Write K and D, both on radius.")
                      : tr("Write P and Q, both on radius in least increments: P920 for 0.92 mm.")});
        return false;
    }
    std::optional<double> k =
        oneBlock ? positive('K', tr("The depth of the thread")) : threadDepth('P', tr("The depth of the thread"));
    if (oneBlock && k) k = unitOf(*words_.word('K')) * *k;
    const auto d = threadDepth(first, tr("The depth of the first pass"));
    if (!k || !d) return false;
    cycle.depth = *k;
    cycle.firstDepth = *d;
    cycle.leastDepth = threading_.leastDepth;
    cycle.allowance = threading_.allowance;
    cycle.finishPasses = threading_.finishPasses;
    cycle.infeedAngle = radians(words_.has('A') ? words_.number('A') : threading_.angleDeg);
    if (cycle.allowance < cycle.depth) return true;
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Stop,
                 "allowance-above-depth",
                 say("The finish allowance of {} mm is not below the depth of the thread, {} mm; it was not cut.",
                     figure(cycle.allowance), figure(cycle.depth)),
                 tr("Correct R of the first block (mm) or the depth (least increments)."),
                 {{"allowance_mm", cycle.allowance}, {"depth_mm", cycle.depth}}});
    return false;
}

// A depth on radius in least increments, mm.
std::optional<double> Control::threadDepth(char letter, const char* what) {
    const auto value = positive(letter, what);
    if (!value) return std::nullopt;
    const Word& word = *words_.word(letter);
    // A D with a point is a length on the controls that have it.
    if (word.hasPoint) return letter == 'D' ? scale() * *value : countWithPoint(word);
    const double depth = scale() * *value / incrementsPerUnit();
    if (depth < kLeastDepthMm && letter != 'D' && words_.hasAny(kAxes)) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "thread-depth-improbable",
                     say("{} is {:g} mm: it counts in least increments.", program_.textOf(word), depth),
                     say("For {0} {2} write {1}{3:.0f}.", figure(*value), letter,
                         now_.modal.inches ? tr("inches") : "mm", *value * incrementsPerUnit()),
                     {{"depth_mm", depth}}});
    }
    return depth;
}

// What the cycle would do and should not.
void Control::checkThread(const ThreadingCycle& cycle) {
    reportFiguresNotGiven();
    checkThreadSpeed(cycle.last.lead);
    checkThreadTool(cycle.last.lead);
    const Word& word = *orders_[CodeGroup::OneShot]->word;
    const double sharp = kSharpDepth * cycle.last.lead;
    if (cycle.depth > sharp) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "thread-deeper-than-profile",
                     say("The thread is {} mm deep; at a lead of {} mm the flanks of a 60 degree thread meet at "
                         "{:.3f} mm.",
                         figure(cycle.depth), figure(cycle.last.lead), sharp),
                     tr("Check the depth (on radius) and the lead."),
                     {{"depth_mm", cycle.depth}, {"most_mm", sharp}}});
    }
    if (cycle.finishPasses == 0 && cycle.allowance > 0) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "thread-without-finish-pass",
                     say("No finish pass is given, but an allowance of {} mm: the thread stays that much too "
                         "shallow.",
                         figure(cycle.allowance)),
                     tr("Give at least one finish pass with P of the first block: P01…."),
                     {{"allowance_mm", cycle.allowance}}});
    }
    const Tool* tool = call().toolIndex >= 0 ? &setup_.tools[static_cast<std::size_t>(call().toolIndex)] : nullptr;
    const bool tooWide =
        tool != nullptr && tool->kind == ToolKind::Threading && cycle.infeedAngle > tool->threadAngle + radians(0.5);
    if (tooWide) {
        remarks_.at(block(), word,
                    {Severity::Warning,
                     "thread-angle-differs",
                     say("The passes are fed in for a thread of {:g} degrees, the insert has {:g}: the flank "
                         "behind comes out in steps.",
                         degrees(cycle.infeedAngle), degrees(tool->threadAngle)),
                     tr("Give the angle of the insert or less."),
                     {{"cycle_deg", degrees(cycle.infeedAngle)}, {"insert_deg", degrees(tool->threadAngle)}}});
    }
}

// What the program does not say stands in the control, where it is not seen from here.
void Control::reportFiguresNotGiven() {
    const bool oneBlock = words_.hasAny(BlockWords::bits({'K', 'D'}));
    if (oneBlock && words_.has('P') && words_.number('P') != 1) {
        remarks_.at(block(), *words_.word('P'),
                    {Severity::Warning,
                     "infeed-pattern-not-modelled",
                     say("{} asks for another pattern of infeed than one flank in passes of equal area, which "
                         "was cut here.",
                         program_.textOf(*words_.word('P'))),
                     tr("Prove this thread on the machine."),
                     {},
                     true});
    }
    if (threading_.passesGiven && threading_.leastGiven && threading_.allowanceGiven) return;
    const std::string pullOut = figure(threading_.pullOutLeads.value_or(setup_.control.threadChamferLeads));
    remarks_.at(
        block(), *orders_[CodeGroup::OneShot]->word,
        {Severity::Warning,
         "threading-figures-not-given",
         threading_.finishPasses == 1
             ? say("What the program does not say is taken from the control's own settings: finish passes, "
                   "pull-out, least depth, allowance. Here 1 finish pass, a pull-out of {} leads, a least "
                   "depth of {} mm and an allowance of {} mm were taken.",
                   pullOut, figure(threading_.leastDepth), figure(threading_.allowance))
             : say("What the program does not say is taken from the control's own settings: finish passes, "
                   "pull-out, least depth, allowance. Here {} finish passes, a pull-out of {} leads, a least "
                   "depth of {} mm and an allowance of {} mm were taken.",
                   threading_.finishPasses, pullOut, figure(threading_.leastDepth), figure(threading_.allowance)),
         tr("Write them with P, Q and R in a block before the cycle."),
         {},
         true});
}

// G84: as drilling, but in and out at the lead, with the spindle reversed at the bottom.
void Control::tappingBlock() {
    const bool stated = orders_[CodeGroup::Motion] != nullptr;
    if (!readDrilling()) return;
    if (!words_.hasAny(kAxes)) {
        if (stated) reportCycleWithoutAxes();
        return;
    }
    beginCycle();
    warnOfCycleLeftOn();
    const int repeats = readRepeats();
    auto order = drillCycle();
    if (!order || repeats == 0 || now_.modal.feed <= 0) return;
    const bool perRev = now_.modal.feedPerRev;
    if (!perRev && now_.modal.speed <= 0) {
        remarks_.at(block(),
                    {Severity::Stop, "tap-without-speed",
                     tr("Tapping with feed per minute, but no spindle speed: there is no lead. It was not carried "
                        "out."),
                     tr("Give G97 S, and F as S times the pitch.")});
        return;
    }
    const double lead = perRev ? now_.modal.feed : now_.modal.feed / now_.modal.speed;
    checkThreadSpeed(lead);
    checkThreadTool(lead);
    reportBesideAxis(*order);
    order->repeats = repeats;
    cycleStartAngle_ = 0;
    emitCycle(planTapping(*order, lead), block(), 84);
}

}  // namespace firstoff
