// Movement: G00 to G03, G28, G53, corners.
#include <cmath>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/control/arc.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kAxes = BlockWords::bits({'X', 'Z', 'U', 'W'});
constexpr std::uint32_t kCentre = BlockWords::bits({'I', 'K'});
constexpr std::uint32_t kArcWords = BlockWords::bits({'I', 'K', 'R'});
constexpr std::uint32_t kCorners = BlockWords::kCommaC | BlockWords::kCommaR;
constexpr std::uint32_t kDrawing = BlockWords::kCommas | BlockWords::bits({'A', 'C', 'R', 'I', 'K'});

bool isArcCode(int motion) {
    return motion == 2 || motion == 3;
}

}  // namespace

void Control::applyAxes() {
    if (const Code* level = orders_[CodeGroup::ReturnLevel])
        now_.backToRetractPoint = level->order == Order::ReturnToRetract;
    if (orders_[CodeGroup::CycleEnd] != nullptr) endDrilling();
    if (orders_[CodeGroup::SpindleAxis] != nullptr) applySpindleAxisMode();
    if (orders_[CodeGroup::Motion] != nullptr) stateMotion(*orders_[CodeGroup::Motion]);
    if (const Code* code = orders_[CodeGroup::OneShot]) {
        const bool passes = code->order == Order::Dwell || code->order == Order::CoordinateSetting;
        if (openLine_ && !passes) dropLine(tr("no such line follows"));
        switch (code->order) {
            case Order::Dwell:
                return dwell();
            case Order::Reference:
            case Order::OtherReference:
                return referenceReturn();
            case Order::ReferenceCheck:
                return referenceCheck();
            case Order::CoordinateSetting:
                return coordinateSetting();
            case Order::LocalShift:
                return localShift();
            case Order::DataEntry:
                return dataEntry();
            case Order::FinishingCycle:
                return finishingBlock();
            case Order::RoughingAlong:
                return roughingBlock(false);
            case Order::RoughingAcross:
                return roughingBlock(true);
            case Order::PatternRepeat:
                return patternBlock();
            case Order::FacePeck:
                return pecksBlock(false);
            case Order::GroovePeck:
                return pecksBlock(true);
            case Order::FeedUntilSkip:
                return feedUntilSkip();
            case Order::ThreadingCycle:
                return threadingCycleBlock();
            default:
                break;
        }
        if (words_.hasAny(kAxes)) return;
    }
    const bool turns = movesSpindleAxis() && !orders_.unknownG && !now_.suspended;
    if (openLine_ && (turns || isModalCycle(now_.modal.motion))) dropLine(tr("no such line follows"));
    if (isModalCycle(now_.modal.motion)) {
        moved_ = words_.hasAny(kAxes);
        return modalCycle();
    }
    if (turns) return spindleAxisMove();
    const bool wholeTurn =
        isArcCode(now_.modal.motion) && orders_[CodeGroup::Motion] != nullptr && words_.hasAny(kCentre);
    if (!words_.hasAny(kAxes) && !wholeTurn) {
        const bool line = words_.angle() != nullptr && now_.modal.motion == 1 && orders_[CodeGroup::Machine] == nullptr;
        if (line && !orders_.unknownG && !now_.suspended && !words_.axesUnknown()) return openLine();
        const Word* corner = words_.cornerChamfer() != nullptr ? words_.cornerChamfer() : words_.cornerRadius();
        if (corner != nullptr && !orders_.unknown) {
            use(kCorners);
            remarks_.at(block(), *corner,
                        {Severity::Stop, "corner-does-not-fit", tr("A corner stands in a block without a move."),
                         tr("Write it behind the end point of the move that leads to the corner.")});
        }
        return;
    }
    // Axis words beside a code that is not understood are that code's, and stay so until a motion code is given.
    if (orders_.unknownG && orders_[CodeGroup::Motion] == nullptr) now_.suspended = true;
    if (now_.suspended || words_.axesUnknown()) return use(kAxes | kArcWords | kDrawing);
    moved_ = true;
    move();
}

void Control::stateMotion(const Code& code) {
    const int motion = code.tenths / 10;
    if (motion != now_.modal.motion) now_.singlePass = {};
    if (!isDrilling(motion)) now_.drilling = {};
    if (isModalCycle(motion)) cycleStated_ = {block(), code.word};
    now_.modal.motion = motion;
    now_.motionGiven = true;
    now_.suspended = false;
    now_.cycleLeftOn = false;
    modalDirty_ = true;
}

void Control::reportAxisTwice() {
    if (setup_.control.codeSystem != CodeSystem::A) return;  // U and W are no axes there
    for (const auto& [absolute, incremental] : {std::pair{'X', 'U'}, std::pair{'Z', 'W'}}) {
        if (!words_.has(absolute) || !words_.has(incremental)) continue;
        remarks_.at(block(), *words_.word(incremental),
                    {Severity::Stop, "word-twice",
                     say("{} and {} give the same axis in one block; both were carried out, {} first.", absolute,
                         incremental, absolute),
                     tr("Write one of them.")});
    }
}

void Control::move() {
    use(axes());
    if (words_.lacksPoint(kAxes | kArcWords)) lookForPoints();
    reportAxisTwice();
    if (orders_[CodeGroup::Machine] != nullptr) return machineMove();
    if (!now_.datumChecked) checkDatum();
    if (!now_.motionGiven) {
        now_.motionGiven = true;
        remarks_.at(block(), {Severity::Warning,
                              "no-motion-code",
                              tr("Axis words before any G00 to G03; the move was taken as rapid, but controls differ."),
                              tr("Write G00 or G01 with the first move."),
                              {},
                              true});
    }
    Point to = target();
    if (words_.hasAny(kDrawing) || openLine_) to = endOfLine(to);
    switch (now_.modal.motion) {
        case 0:
            return moveAlong(newMove(MoveKind::Rapid, to));
        case 1:
            if (!now_.feedChecked) checkFeed();
            return moveAlong(newMove(MoveKind::Feed, to));
        case 32:
            return threadMove(Order::Thread);
        case 34:
            return threadMove(Order::ThreadOfVariableLead);
        default:
            if (!now_.feedChecked) checkFeed();
            return arcMove(newMove(now_.modal.motion == 2 ? MoveKind::ArcClockwise : MoveKind::ArcAnticlockwise, to));
    }
}

std::uint32_t Control::axes() const {
    return setup_.control.codeSystem == CodeSystem::A ? kAxes : BlockWords::bits({'X', 'Z'});
}

// Lengths without a decimal point: whether they can be meant so, and where the set-up does not say what they count,
// that there are some. Said once: the habit runs through a program.
void Control::lookForPoints() {
    for (char letter : {'X', 'Z', 'U', 'W', 'I', 'K', 'R'}) {
        const Word* word = words_.has(letter) ? words_.word(letter) : nullptr;
        if (word == nullptr || word->hasPoint || word->value == 0) continue;
        checkPoint(*word);
        const bool known = setup_.control.wholeNumbers != ControlOptions::WholeNumbers::NotSaid;
        const bool axis = letter != 'I' && letter != 'K' && letter != 'R';
        if (lackOfPointSaid_ || known || !axis) continue;
        lackOfPointSaid_ = true;
        remarks_.at(block(), *word,
                    {Severity::Note, "length-without-point",
                     say("{} has no decimal point; it was taken as {} {}. A control that counts such words in least "
                         "increments would go elsewhere.",
                         program_.textOf(*word), figure(word->value), now_.modal.inches ? tr("inches") : "mm"),
                     tr("Write the decimal point, or say in the set-up what the control counts (whole_numbers).")});
    }
}

// A missing decimal point gives itself away by its size: in whole units as a length beyond the machine that in
// increments lies within it; in increments as less than a millimetre in a program that otherwise writes its points.
void Control::checkPoint(const Word& word) {
    constexpr double kHardlyMeantMm = 1;
    const double taken = std::abs(lengthOf(word));
    const bool alongZ = word.letter == 'Z' || word.letter == 'W' || word.letter == 'K';
    const Range& travel = alongZ ? setup_.machine.travelZ : setup_.machine.travelR;
    const bool diameter = (word.letter == 'X' || word.letter == 'U') && !setup_.control.radiusProgramming;
    const double reach = (travel.max - travel.min) * (diameter ? 2 : 1);
    const bool increments = countsIncrements(word);
    const double other = increments ? taken / increment() : taken * increment();
    const bool improbable =
        increments ? taken < kHardlyMeantMm && other <= reach && writesPoints() : taken > reach && other <= reach;
    if (!improbable) return;
    remarks_.at(block(), word,
                {Severity::Warning,
                 "decimal-point-missing",
                 increments ? say("{} has no decimal point, so it counts as {} mm, while the program's other "
                                  "lengths have one; with a point it would be {} mm.",
                                  program_.textOf(word), figure(taken), figure(other))
                            : say("{} has no decimal point, so it counts as {} mm, which is more than the {} mm "
                                  "the machine travels there; counted in increments it would be {} mm.",
                                  program_.textOf(word), figure(taken), figure(reach), figure(other)),
                 tr("Write the decimal point."),
                 {{"taken_mm", taken}, {"other_mm", other}}});
}

// Whether more lengths of the program have a decimal point than not; zeros tell nothing.
bool Control::writesPoints() {
    if (writesPoints_) return *writesPoints_;
    std::size_t with = 0;
    std::size_t without = 0;
    for (const Word& word : program_.words) {
        const bool axis = word.letter == 'X' || word.letter == 'Z' || word.letter == 'U' || word.letter == 'W';
        if (!axis || word.form != Word::Form::Number || word.value == 0) continue;
        ++(word.hasPoint ? with : without);
    }
    writesPoints_ = with > without;
    return *writesPoints_;
}

// The programmed end point as a turret reference position. An axis that is not named stays exactly where it is.
Point Control::target() const {
    const Point shift = datum() - call().reckoned;
    Point to = now_.position;
    if (words_.has('X')) to.r = onRadius('X') + (now_.incremental ? to.r : shift.r);
    if (words_.has('Z')) to.z = lengthOf('Z') + (now_.incremental ? to.z : shift.z);
    if (setup_.control.codeSystem != CodeSystem::A) return to;
    if (words_.has('U')) to.r += onRadius('U');
    if (words_.has('W')) to.z += lengthOf('W');
    return to;
}

Move Control::newMove(MoveKind kind, Point to) {
    Move move;
    move.from = now_.position;
    move.to = to;
    move.feed = now_.modal.feed;
    move.block = block();
    move.cycleBlock = cycleBlock_;
    move.modal = modalIndex();
    move.call = static_cast<std::uint16_t>(now_.call);
    move.pass = pass_;
    move.kind = kind;
    move.compensation = now_.modal.compensation;
    if (now_.spindleAxis.engaged) move.extra = spindleAxisExtra();
    return move;
}

// Adds the move, with the corner at its end if the block asks for one, and stands at its end.
void Control::moveAlong(const Move& move) {
    now_.position = move.to;
    const Word* word = nullptr;
    if (!words_.hasAny(kDrawing)) return add(move);
    const auto wish = cornerWish(word);
    if (!wish) return add(move);
    if (move.kind != MoveKind::Rapid) {
        if (openLine_) dropLine(tr("a move that is no such line follows"));
        return recorder_->addWithCorner(move, *wish, word);
    }
    add(move);
    remarks_.at(block(), word,
                {Severity::Stop, "corner-does-not-fit", tr("A corner stands behind a rapid move; it was left sharp."),
                 tr("Program the move with G01, or take the corner out.")});
}

void Control::arcMove(Move move) {
    use(kArcWords);
    const bool byRadius = words_.has('R');
    if (!byRadius && !words_.hasAny(kCentre)) {
        remarks_.at(block(),
                    {Severity::Stop, "arc-without-centre",
                     say("G{:02} has neither R nor I and K; the end point was approached on a straight line.",
                         now_.modal.motion),
                     tr("Write the radius R, or the centre from the start of the arc as I (on radius) and K.")});
        move.kind = MoveKind::Feed;
        return moveAlong(move);
    }
    if (byRadius && words_.hasAny(kCentre)) {
        remarks_.at(block(), *words_.word('R'),
                    {Severity::Note, "arc-by-radius-and-centre",
                     tr("R stands beside I or K; R was taken, as controls do."), tr("Write either R, or I and K.")});
    }
    const double closure = setup_.control.arcClosureMm;
    ArcCentre arc;
    if (byRadius) {
        arc = arcOfRadius(move.from, move.to, lengthOf('R'), move.kind == MoveKind::ArcClockwise, closure);
    } else {
        Point centre = move.from;
        if (words_.has('I')) centre.r += lengthOf('I');
        if (words_.has('K')) centre.z += lengthOf('K');
        arc = arcAround(move.from, move.to, centre, closure);
    }
    if (arc.fault != ArcCentre::Fault::None) {
        const Word* word = byRadius ? words_.word('R') : words_.has('I') ? words_.word('I') : words_.word('K');
        reportArc(arc, byRadius, word);
        move.kind = MoveKind::Feed;
        return moveAlong(move);
    }
    if (arc.chord < tolerance::kSamePlaceMm) return fullCircle(move, arc);
    move.centre = arc.centre;
    moveAlong(move);
}

// Two half turns, so that no move begins where it ends.
void Control::fullCircle(Move move, const ArcCentre& arc) {
    move.centre = arc.centre;
    Move half = move;
    half.to = move.from + 2.0 * (arc.centre - move.from);
    add(half);
    half.from = half.to;
    half.to = move.to;
    moveAlong(half);
}

void Control::reportArc(const ArcCentre& arc, bool byRadius, const Word* word) {
    const double difference = std::abs(arc.startRadius - arc.endRadius);
    switch (arc.fault) {
        case ArcCentre::Fault::DoesNotClose:
            remarks_.at(
                block(), word,
                {Severity::Stop,
                 "arc-does-not-close",
                 say("The arc does not close: its radius is {} mm at the start and {} mm at the end, a difference "
                     "of {} mm where {} mm is allowed. A straight line was taken instead.",
                     figure(arc.startRadius), figure(arc.endRadius), figure(difference),
                     figure(setup_.control.arcClosureMm)),
                 tr("Check the end point, and I (from the start to the centre, on radius) and K."),
                 {{"start_radius_mm", arc.startRadius},
                  {"end_radius_mm", arc.endRadius},
                  {"difference_mm", difference}}});
            return;
        case ArcCentre::Fault::RadiusTooSmall:
            remarks_.at(block(), word,
                        {Severity::Stop,
                         "arc-radius-too-small",
                         say("R{} is too small: start and end are {} mm apart, so the radius must be at least {} mm. A "
                             "straight line was taken instead.",
                             figure(arc.startRadius), figure(arc.chord), figure(arc.chord / 2)),
                         tr("Check the end point and the radius."),
                         {{"radius_mm", arc.startRadius}, {"needed_mm", arc.chord / 2}}});
            return;
        case ArcCentre::Fault::NoChord:
            remarks_.at(block(), word,
                        {Severity::Stop, "arc-without-chord",
                         tr("The arc ends where it starts: with R its centre could be anywhere. Nothing was moved."),
                         tr("Give the end point, or the centre with I and K.")});
            return;
        case ArcCentre::Fault::NoRadius:
            remarks_.at(block(), word,
                        {Severity::Stop, "arc-without-radius",
                         byRadius ? tr("The radius of the arc is zero; a straight line was taken instead.")
                                  : tr("The radius of the arc is zero: its centre is the start or end point; a "
                                       "straight line was taken instead."),
                         tr("Check R, or I and K.")});
            return;
        case ArcCentre::Fault::None:
            return;
    }
}

// G53: to a machine position, whatever offsets are in force.
void Control::machineMove() {
    leaveCompensation(tr("a move in machine coordinates (G53)"), orders_[CodeGroup::Machine]->word);
    settle();
    Point to = now_.position;
    if (words_.has('X')) to.r = setup_.machine.home.r + onRadius('X');
    if (words_.has('Z')) to.z = setup_.machine.home.z + lengthOf('Z');
    if (words_.has('U')) to.r += onRadius('U');
    if (words_.has('W')) to.z += lengthOf('W');
    if (now_.incremental) {
        remarks_.at(
            block(), *orders_[CodeGroup::Machine]->word,
            {Severity::Warning,
             "codes-conflict",
             tr("G53 gives a position, but G91 is in force; X and Z were taken as positions, some controls refuse it."),
             tr("Write G90 with G53."),
             {},
             true});
    }
    const bool straight = now_.modal.motion <= 1;
    if (!straight) {
        remarks_.at(block(), *orders_[CodeGroup::Machine]->word,
                    {Severity::Stop, "codes-conflict", tr("G53 goes with G00 or G01 only; a straight line was taken."),
                     tr("Write G00 with G53.")});
    }
    const bool feeds = now_.motionGiven && now_.modal.motion != 0;
    if (feeds && !now_.feedChecked) checkFeed();
    const Move move = newMove(feeds ? MoveKind::Feed : MoveKind::Rapid, to);
    now_.position = to;
    add(move);
}

// G31: at feed, and a probe or a stop may end it earlier.
void Control::feedUntilSkip() {
    use(axes());
    const Word& code = *orders_[CodeGroup::OneShot]->word;
    if (!words_.hasAny(axes())) {
        remarks_.at(block(), code,
                    {Severity::Warning, "cycle-without-axes",
                     say("{} has no axis words: nothing was done.", program_.textOf(code)),
                     tr("Write the end point with it.")});
        return;
    }
    if (words_.axesUnknown()) return;
    leaveCompensation(tr("a feed that a skip signal may end"), &code);
    settle();
    reportAxisTwice();
    if (words_.lacksPoint(axes())) lookForPoints();
    if (!now_.datumChecked) checkDatum();
    if (!now_.feedChecked) checkFeed();
    remarks_.at(block(), code,
                {Severity::Note,
                 "skip-not-modelled",
                 say("{} ends where a probe or a stop gives its signal; here it was run to its end at feed, so "
                     "where the tool then stands on the machine is not known.",
                     program_.textOf(code)),
                 tr("Move to an absolute position next, and prove this part on the machine."),
                 {},
                 true});
    moveAlong(newMove(MoveKind::Feed, target()));
}

}  // namespace firstoff
