// The cycles that rough along a profile: G71 along Z, G72 along X, G73 by repeating the pattern.
#include <fmt/format.h>

#include <cmath>

#include "sim/base/say.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kCycleWords = BlockWords::bits({'P', 'Q'});

// Older controls count a D without decimal point in least increments (0.001 mm, 0.0001 inch), newer ones in mm or inch.
// Nobody takes 100 mm per pass, nor less than a tenth of one, so the size of the figure tells which was meant.
constexpr double kIncrementsFrom = 100;

// An allowance that cuts deeper than this into the part is reported: a tenth of the least increment.
constexpr double kDips = 1e-4;

const char* surface(const CycleFrame& frame) {
    return frame.outside() ? tr("an outside diameter") : tr("a bore");
}

const char* direction(const CycleFrame& frame) {
    return frame.towardsChuck() ? tr("towards the chuck") : tr("away from the chuck");
}

// What mends an allowance that leads into the part: its signs, or, where they are right, none along Z.
std::string signsWanted(const CycleFrame& frame, char inX, char inZ, Point given) {
    const char* x = frame.outside() ? tr("above zero") : tr("below zero");
    const char* z = frame.towardsChuck() ? tr("above zero") : tr("below zero");
    const bool wrong = given.r * (frame.outside() ? 1 : -1) < 0 || given.z * (frame.towardsChuck() ? 1 : -1) < 0;
    if (wrong) return say("{} must be {} and {} {} here.", inX, x, inZ, z);
    const char along = frame.exchanged ? inX : inZ;
    return say(
        "Take {}0 where the profile has walls that face back: what it leaves on the others it cuts off "
        "those.",
        along);
}

}  // namespace

void Control::roughingBlock(bool alongX) {
    const char depthLetter = alongX ? 'W' : 'U';
    double& modalDepth = alongX ? facingDepth_ : roughingDepth_;
    use(BlockWords::bits({depthLetter, 'R'}));
    if (!words_.hasAny(kCycleWords)) {
        // The first of two blocks: depth of cut on radius and retract, for the calls that follow.
        if (words_.has(depthLetter))
            modalDepth = unitOf(*words_.word(depthLetter)) * positive(depthLetter, tr("The depth of cut")).value_or(0);
        readRetract();
        return;
    }
    use(BlockWords::bits({'U', 'W', 'D', 'I', 'K'}));
    const auto profile = findProfile();
    if (!profile) return;
    RoughingOrder order;
    order.alongX = alongX;
    order.allowance = finishAllowance();
    if (words_.has('I')) order.leave.r = lengthOf('I');
    if (words_.has('K')) order.leave.z = lengthOf('K');
    readRetract();
    order.retract = roughingRetract_;
    const auto depth = depthOfCut(alongX);
    if (!depth) return jumpOver(*profile, block());
    order.depth = *depth;
    rough(*profile, order);
}

// U on diameter and W, as signed.
Point Control::finishAllowance() {
    Point allowance;
    if (const Word* u = words_.secondU() != nullptr ? words_.secondU() : words_.word('U')) {
        allowance.r = onRadius(*u);
    }
    if (words_.has('W')) allowance.z = lengthOf('W');
    return allowance;
}

// R, which stays for later cycles.
void Control::readRetract() {
    if (!words_.has('R')) return;
    const bool none = words_.number('R') == 0;
    if (const auto retract = none ? std::optional(0.0) : positive('R', tr("The retract")))
        roughingRetract_ = unitOf(*words_.word('R')) * *retract;
}

// From this block (D, or the first of two U words), or from the first of two blocks.
std::optional<double> Control::depthOfCut(bool alongX) {
    double depth = alongX ? facingDepth_ : roughingDepth_;
    if (words_.secondU() != nullptr)
        depth = unitOf(*words_.word('U')) * positive('U', tr("The depth of cut")).value_or(0);
    if (words_.has('D')) depth = depthOfD();
    if (depth > 0) return depth;
    const double other = alongX ? roughingDepth_ : facingDepth_;
    if (other > 0 && !words_.has('D')) return depthOfOtherCycle(other, alongX);
    remarks_.at(
        block(), *orders_[CodeGroup::OneShot]->word,
        {Severity::Stop, "missing-depth-of-cut",
         say("{} has no depth of cut; the cycle was not carried out.", cycleName()),
         alongX ? say("Write {} W… R… with the depth in the block before, or D… in this one.", cycleName())
                : say("Write {} U… R… with the depth on radius in the block before, or D… in this one.", cycleName())});
    return std::nullopt;
}

double Control::depthOfOtherCycle(double depth, bool alongX) {
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Warning,
                 "depth-of-other-cycle",
                 say("{} has no depth of cut of its own. Some controls keep one depth for roughing along Z and "
                     "along X, so the {} mm given for the other cycle were taken.",
                     cycleName(), figure(depth)),
                 say("Write {} {}… R… in the block before.", cycleName(), alongX ? 'W' : 'U'),
                 {{"depth_mm", depth}},
                 true});
    return depth;
}

double Control::depthOfD() {
    const Word& word = *words_.word('D');
    const double value = positive('D', tr("The depth of cut")).value_or(0);
    if (word.hasPoint || (value < kIncrementsFrom && !countsIncrements(word))) return scale() * value;
    const double depth = scale() * value / incrementsPerUnit();
    remarks_.at(block(), word,
                {Severity::Note,
                 "depth-without-point",
                 say("{} has no decimal point; it was taken as {} mm.", program_.textOf(word), figure(depth)),
                 tr("Write the decimal point, if the control takes one here."),
                 {{"depth_mm", depth}}});
    return depth;
}

void Control::rough(const Profile& profile, RoughingOrder order) {
    const BlockId callBlock = block();
    const auto shape = shapeOf(profile, order.alongX);
    if (shape && startsStraight(*shape) && startsRightWay(*shape, order.alongX)) {
        order.start = shape->start;
        order.infeed = shape->infeed;
        order.pockets = shape->namesX() && shape->namesZ();
        const RoughingPlan plan = planRoughing(shape->elements, order);
        reportRoughing(plan, shape->elements, order);
        emitCycle(plan.moves, callBlock, order.alongX ? 72 : 71);
    }
    jumpOver(profile, callBlock);
}

// How the cycle leads in to each pass is taken from the first profile block.
bool Control::startsStraight(const Shape& shape) {
    if (!shape.leadsInOnArc) return true;
    remarks_.at(shape.approach,
                {Severity::Stop, "profile-starts-on-arc",
                 say("The profile of {} starts with an arc; the cycle was not carried out.", cycleName()),
                 tr("Lead to the first point of the profile with G00 or G01.")});
    return false;
}

// The first profile block has to lead across the passes, down to the profile.
bool Control::startsRightWay(const Shape& shape, bool alongX) {
    if (alongX ? shape.namesZ() : shape.namesX()) return true;
    remarks_.at(shape.approach,
                {Severity::Stop, "profile-starts-wrong-way",
                 say("The profile of {} starts with a move in {} only, where the cycle has to come down to it "
                     "in {}; the cycle was not carried out.",
                     cycleName(), alongX ? 'X' : 'Z', alongX ? 'Z' : 'X'),
                 say("Name {} in the first profile block, and put the move in {} behind it.", alongX ? 'Z' : 'X',
                     alongX ? 'X' : 'Z')});
    return false;
}

void Control::reportRoughing(const RoughingPlan& plan, const std::vector<ProfileElement>& shape,
                             const RoughingOrder& order) {
    if (plan.turnsBack) reportTurn(plan, shape[*plan.turnsBack].block, order);
    if (plan.startInsideProfile) reportStart(plan, order);
    if (plan.intoPart > kDips) reportAllowance(plan.frame, plan.intoPart, order.allowance, order.leave);
    if (!plan.tooManyPasses) {
        reportAllowanceAboveDepth(order);
    } else {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Stop,
                     "too-many-passes",
                     say("With a depth of {:g} mm {} needs more than {} passes; it was not carried out.", order.depth,
                         cycleName(), kMostPasses),
                     tr("Check the depth of cut: a decimal point may be missing."),
                     {{"depth_mm", order.depth}}});
    }
}

void Control::reportTurn(const RoughingPlan& plan, BlockId block, const RoughingOrder& order) {
    const char across = order.alongX ? 'Z' : 'X';
    const char along = order.alongX ? 'X' : 'Z';
    if (!plan.turnsBackAcross) {
        remarks_.at(block, {Severity::Stop, "profile-not-monotonic",
                            say("The profile of {} turns back in {} here, which no pass along {} can follow. "
                                "The passes stop at the first wall.",
                                cycleName(), along, along),
                            say("Let {} run one way only through the whole profile.", along)});
        return;
    }
    remarks_.at(
        block, {Severity::Stop,
                "profile-not-monotonic",
                say("The profile of {} turns back in {} here, and its first block names {} only, so that pockets are "
                    "not cut. Some controls refuse it; here the passes stop at the first wall and what lies behind is "
                    "left to the cut along the profile.",
                    cycleName(), across, across),
                say("Name both X and Z in the first profile block ({}0 for the other one) to have pockets cut level by "
                    "level, or rough the undercut separately.",
                    order.alongX ? 'U' : 'W'),
                {},
                true});
}

void Control::reportStart(const RoughingPlan& plan, const RoughingOrder& order) {
    const char* size = plan.frame.outside() ? tr("at or above its largest X") : tr("at or below its smallest X");
    const char* side =
        plan.frame.towardsChuck() ? tr("in front of its largest Z") : tr("on the chuck side of its smallest Z");
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Stop,
                 "cycle-start-inside-profile",
                 say("{} starts at {}, which is inside its profile; the way back to it would go through the part.",
                     cycleName(), place(order.start)),
                 say("Start outside the profile: {}, and {}.", size, side),
                 {{"start_x_mm", 2 * order.start.r}, {"start_z_mm", order.start.z}}});
}

void Control::reportAllowance(const CycleFrame& frame, double depth, Point allowance, Point leave) {
    const std::string u = figure(2 * allowance.r), w = figure(allowance.z), deep = figure(depth);
    remarks_.at(
        block(), *orders_[CodeGroup::OneShot]->word,
        {Severity::Warning,
         "allowance-into-part",
         leave == Point{}
             ? say("The finish allowance U{} W{} moves the profile into the finished part, up to {} mm deep: "
                   "{} is turned {}.",
                   u, w, deep, surface(frame), direction(frame))
             : say("The finish allowance U{} W{}, with I{} K{} for roughing, moves the profile into the finished part, "
                   "up to {} mm deep: {} is turned {}.",
                   u, w, figure(leave.r), figure(leave.z), deep, surface(frame), direction(frame)),
         signsWanted(frame, 'U', 'W', allowance + leave),
         {{"u_mm", 2 * allowance.r}, {"w_mm", allowance.z}, {"depth_mm", depth}}});
}

// The finish cut would be the deepest of all, and the first pass may not even reach the allowance.
void Control::reportAllowanceAboveDepth(const RoughingOrder& order) {
    const double left = std::abs(order.alongX ? order.allowance.z : order.allowance.r);
    if (left <= order.depth) return;
    const std::string given = order.alongX ? fmt::format("W{}", figure(order.allowance.z))
                                           : say("U{} on diameter", figure(2 * order.allowance.r));
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Warning,
                 "allowance-above-depth",
                 say("The finish allowance {} leaves {} mm for the finish cut, more than the {} mm of a "
                     "roughing pass.",
                     given, figure(left), figure(order.depth)),
                 order.alongX ? tr("Check W of the call against the depth of cut.")
                              : tr("Check U of the call, which is on diameter, against the depth of cut on radius."),
                 {{"allowance_mm", left}, {"depth_mm", order.depth}}});
}

void Control::patternBlock() {
    use(BlockWords::bits({'U', 'W', 'R'}));
    if (!words_.hasAny(kCycleWords)) {
        // The first of two blocks: what is to come off, and in how many passes.
        if (words_.has('U')) patternStock_.r = lengthOf('U');
        if (words_.has('W')) patternStock_.z = lengthOf('W');
        if (words_.has('R')) patternPasses_ = passCount('R').value_or(0);
        return;
    }
    use(BlockWords::bits({'I', 'K', 'D'}));
    const auto profile = findProfile();
    if (!profile) return;
    PatternOrder order;
    order.allowance = finishAllowance();
    order.stock = patternStock_;
    if (words_.has('I')) order.stock.r = lengthOf('I');
    if (words_.has('K')) order.stock.z = lengthOf('K');
    const char count = words_.has('D') ? 'D' : 'R';
    order.passes = words_.has(count) ? passCount(count).value_or(0) : patternPasses_;
    if (order.passes < 1) {
        reportNoPasses();
        return jumpOver(*profile, block());
    }
    repeatPattern(*profile, order);
}

void Control::reportNoPasses() {
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Stop, "missing-pass-count",
                 say("{} does not know its number of passes; the cycle was not carried out.", cycleName()),
                 say("Write {} U… W… R… in the block before, with the number of passes as R, or D… in this "
                     "one.",
                     cycleName())});
}

std::optional<int> Control::passCount(char letter) {
    const auto count = positive(letter, tr("The number of passes"));
    if (!count) return std::nullopt;
    if (*count == std::floor(*count) && *count <= kMostPasses) return static_cast<int>(*count);
    const bool many = *count > kMostPasses;
    remarks_.at(block(), *words_.word(letter),
                {Severity::Stop, many ? "too-many-passes" : "pass-count-not-whole",
                 many ? say("{} passes are more than {}.", figure(*count), kMostPasses)
                      : say("The number of passes must be whole, not {}.", figure(*count)),
                 say("{} of {} is how many passes there are, not a length.", letter, cycleName())});
    return std::nullopt;
}

void Control::repeatPattern(const Profile& profile, PatternOrder order) {
    const BlockId callBlock = block();
    const auto shape = shapeOf(profile, false);
    if (shape && startsStraight(*shape)) {
        order.start = shape->start;
        order.infeed = shape->infeed;
        const PatternPlan plan = planPattern(shape->elements, order);
        if (plan.intoPart > kDips) {
            reportAllowance(plan.frame, plan.intoPart, order.allowance, {});
        } else if (plan.firstIntoPart > kDips) {
            reportStock(plan.frame, plan.firstIntoPart, order.stock);
        }
        emitCycle(plan.moves, callBlock, 73);
    }
    jumpOver(profile, callBlock);
}

void Control::reportStock(const CycleFrame& frame, double depth, Point stock) {
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Warning,
                 "pattern-into-part",
                 say("With {} mm in X (radius) and {} mm in Z to come off, {} begins inside the finished part, "
                     "up to {} mm deep: {} is turned {}.",
                     figure(stock.r), figure(stock.z), cycleName(), figure(depth), surface(frame), direction(frame)),
                 signsWanted(frame, 'X', 'Z', stock),
                 {{"stock_x_mm", stock.r}, {"stock_z_mm", stock.z}, {"depth_mm", depth}}});
}

}  // namespace firstoff
