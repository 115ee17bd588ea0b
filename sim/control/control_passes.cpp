// Movement codes that are cycles: they stay in force and run anew in every block that names one of their words, until
// another movement code is given. Here what they have in common, and the single passes G90 and G94.
#include <cmath>
#include <utility>

#include "sim/base/say.h"
#include "sim/control/control.h"
#include "sim/control/cycle_orders.h"
#include "sim/control/figures.h"
#include "sim/control/single_pass.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kAxes = BlockWords::bits({'X', 'Z', 'U', 'W'});

}  // namespace

bool Control::isModalCycle(int motion) {
    return motion >= 80;
}

// Called whenever a motion code that is a cycle is in force and no other code of the block has taken its axis words.
void Control::modalCycle() {
    const bool stated = orders_[CodeGroup::Motion] != nullptr;
    if (orders_.unknownG && !stated) now_.suspended = true;
    if (now_.suspended || words_.axesUnknown()) return use(words_.letters());
    if (orders_[CodeGroup::Machine] != nullptr && words_.hasAny(axes())) {
        use(axes());
        return machineMove();
    }
    if (reading_ != Reading::Program) return refuseCycleInProfile();
    switch (now_.modal.motion) {
        case 90:
        case 94:
            return singlePassBlock();
        case 92:
            return threadingPassBlock();
        case 84:
            return tappingBlock();
        case 81:
        case 82:
        case 83:
        case 85:
            return drillingBlock();
        default:
            return;
    }
}

// As it is written, since its number depends on the code system.
std::string Control::cycleName() const {
    const Code* oneShot = orders_[CodeGroup::OneShot];
    const bool stated = oneShot != nullptr && isOneShotCycle(oneShot->order);
    const Word* word = stated ? oneShot->word : cycleStated_.word;
    return word != nullptr ? std::string(program_.textOf(*word)) : tr("The cycle");
}

void Control::refuseCycleInProfile() {
    use(words_.letters());
    remarks_.at(block(),
                {Severity::Stop,
                 "not-allowed-in-profile",
                 say("{} is in force between the P and Q blocks of a cycle; this block was left out.", cycleName()),
                 tr("Begin the profile with G00 or G01."),
                 {},
                 true});
}

// What a cycle begins with: no corner, no compensation, one word for each axis, a feed and a known datum.
void Control::beginCycle() {
    noCornerInCycle();
    noCompensationInCycle();
    settle();
    reportAxisTwice();
    if (words_.lacksPoint(kAxes | BlockWords::bit('R'))) lookForPoints();
    if (!now_.datumChecked) checkDatum();
    if (!now_.feedChecked) checkFeed();
}

void Control::noCornerInCycle() {
    const Word* corner = words_.cornerChamfer() != nullptr ? words_.cornerChamfer() : words_.cornerRadius();
    if (corner == nullptr) return;
    use(BlockWords::kCommaC | BlockWords::kCommaR);
    remarks_.at(block(), *corner,
                {Severity::Stop, "corner-in-cycle", say("{} cannot have a corner; it was left sharp.", cycleName()),
                 tr("Write the corner as a move of its own.")});
}

// Some controls shift these cycles by the nose radius, others run them as they are written.
void Control::noCompensationInCycle() {
    if (now_.modal.compensation == Compensation::Off) return;
    remarks_.at(
        block(), cycleStated_.block == block() ? cycleStated_.word : nullptr,
        {Severity::Warning,
         "compensation-in-cycle",
         say("Nose-radius compensation is on while {} runs; controls differ. It was switched off here.", cycleName()),
         tr("Cancel it with G40 before the cycle."),
         {},
         true});
    now_.modal.compensation = Compensation::Off;
    modalDirty_ = true;
}

// Remembers that a section of the program ended with a cycle still in force.
void Control::noteCycleLeftOn(const char* where, const Word* word) {
    if (!isModalCycle(now_.modal.motion) || reading_ != Reading::Program) return;
    now_.cycleLeftOn = true;
    remarks_.at(block(), word,
                {Severity::Note,
                 "cycle-left-on",
                 say("{} of line {} is still in force at {}.", cycleName(), program_.lineOf(cycleStated_.block), where),
                 tr("End it with G00 or G01 (a drilling cycle with G80) at the end of the section."),
                 {{"stated_in_line", static_cast<double>(program_.lineOf(cycleStated_.block))}}});
}

// And then runs again, though the section that wanted it is over.
void Control::warnOfCycleLeftOn() {
    if (!std::exchange(now_.cycleLeftOn, false)) return;
    remarks_.at(block(), {Severity::Warning, "cycle-runs-on",
                          say("This block runs {} of line {} once more: it was left in force when its section "
                              "ended.",
                              cycleName(), program_.lineOf(cycleStated_.block)),
                          tr("Write the motion code that is meant, G00 or G01, in this block.")});
}

void Control::singlePassBlock() {
    const bool stated = orders_[CodeGroup::Motion] != nullptr;
    use(axes());
    const Word* taper = taperWord();
    if (taper != nullptr) use(BlockWords::bit(taper->letter));
    if (!words_.hasAny(axes()) && taper == nullptr) {
        if (stated) reportCycleWithoutAxes();
        return;
    }
    beginCycle();
    warnOfCycleLeftOn();
    const SinglePass pass = readSinglePass(stated);
    if (taperLeadsAway(pass)) return reportTaper(pass);
    if (cutsNothing(pass)) reportNoCut(pass);
    emitCycle(planSinglePass(pass), block(), now_.modal.motion);
}

// R, or as it was written before: I along X, K along Z. Null where the block has none.
const Word* Control::taperWord() const {
    const char older = now_.modal.motion == 94 ? 'K' : 'I';
    return words_.has('R') ? words_.word('R') : words_.word(older);
}

// The figures of the block, and for what it does not say those of the blocks before.
SinglePass Control::readSinglePass(bool stated) {
    SinglePassFigures& kept = now_.singlePass;
    const Point to = target() + call().reckoned - datum();
    if (words_.hasAny(axes() & BlockWords::bits({'X', 'U'}))) kept.endR = to.r;
    if (words_.hasAny(axes() & BlockWords::bits({'Z', 'W'}))) kept.endZ = to.z;
    if (const Word* taper = taperWord()) {
        kept.taper = lengthOf(*taper);
    } else if (stated && kept.taper != 0) {
        reportTaperKept();
    }
    SinglePass pass;
    pass.facing = now_.modal.motion == 94;
    pass.start = workPosition();
    pass.end = {kept.endZ.value_or(pass.start.z), kept.endR.value_or(pass.start.r)};
    pass.taper = kept.taper;
    return pass;
}

void Control::reportCycleWithoutAxes() {
    const bool mayMeanAbsolute = now_.modal.motion == 90 && setup_.control.codeSystem == CodeSystem::A;
    remarks_.at(block(), *cycleStated_.word,
                {Severity::Warning, "cycle-without-axes",
                 say("{} has no axis words: nothing was done, but it stays in force, and the next block with an "
                     "axis word runs it.",
                     cycleName()),
                 mayMeanAbsolute ? tr("In code system A G90 is a turning pass, not absolute programming: X and Z are "
                                      "absolute, U and W incremental. Take it out, or set code_system in the set-up.")
                                 : tr("Write X and Z of the end of the cut with it.")});
}

void Control::reportTaper(const SinglePass& pass) {
    const double depth = std::abs(pass.facing ? pass.end.z - pass.start.z : pass.end.r - pass.start.r);
    remarks_.at(
        block(), words_.word('R'),
        {Severity::Stop,
         "taper-against-depth",
         say("With R{} {} would begin its cut beyond the start point: R leads away from the part by more "
             "than the {} mm of depth at the end of the cut. The pass was left out.",
             figure(pass.taper), cycleName(), figure(depth)),
         pass.facing ? tr("R is the Z at the start of the cut less that at its end; check its sign and size.")
                     : tr("R is the radius at the start of the cut less that at its end; check its sign and size."),
         {{"taper_mm", pass.taper}, {"depth_mm", depth}}});
}

void Control::reportTaperKept() {
    remarks_.at(block(), *cycleStated_.word,
                {Severity::Warning,
                 "taper-not-repeated",
                 say("{} is written anew without R while R{} is in force; controls differ whether it stays. It "
                     "was kept here.",
                     cycleName(), figure(now_.singlePass.taper / scale())),
                 tr("Write R with it again, or R0 for a straight pass."),
                 {{"taper_mm", now_.singlePass.taper}},
                 true});
}

void Control::reportNoCut(const SinglePass& pass) {
    remarks_.at(block(), {Severity::Warning, "cycle-cuts-nothing",
                          say("{} cuts nothing here: its cut would begin and end at {}.", cycleName(), place(pass.end)),
                          tr("Write both X and Z of the end of the cut, the first time the cycle is given.")});
}

// A step for each pass, so that the cycle can be gone through pass by pass. Axes that come back to where the cycle
// began stand exactly there again.
void Control::emitCycle(const std::vector<CycleMove>& moves, BlockId callBlock, int motionOfCycle) {
    // Their moves count like blocks, so that loops with cycles in them end as well.
    executed_ += static_cast<long>(moves.size());
    if (executed_ > setup_.control.maxBlocks) return tooManyBlocks(callBlock);
    const int motion = std::exchange(now_.modal.motion, motionOfCycle);
    const Point start = now_.position;
    const Point startWork = workPosition();
    modalDirty_ = true;
    cycleBlock_ = callBlock;
    int pass = 1;  // its step is the one of the block itself
    for (const CycleMove& planned : moves) {
        if (planned.pass != pass) recorder_->beginStep(callBlock);
        pass = planned.pass;
        pass_ = planned.pass;
        Point to = turretAt(planned.to);
        if (planned.to.r == startWork.r) to.r = start.r;
        if (planned.to.z == startWork.z) to.z = start.z;
        Move move = planned.kind == MoveKind::Thread ? cycleThread(planned, to) : newMove(planned.kind, to);
        if (planned.block != kNoBlock) move.block = planned.block;
        move.centre = turretAt(planned.centre);
        move.seconds = planned.seconds;
        now_.position = move.to;
        add(move);
    }
    cycleBlock_ = kNoBlock;
    pass_ = 0;
    now_.modal.motion = motion;
    modalDirty_ = true;
}

}  // namespace firstoff
