// The cycles G71 (roughing along Z) and G70 (finishing) and the profile between their P and Q blocks.
#include <fmt/format.h>

#include <utility>

#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kCycleWords = BlockWords::bits({'P', 'Q'});

// Older controls count a D without decimal point in least increments (0.001 mm, 0.0001 inch), newer ones in mm or inch.
// Nobody takes 100 mm per pass, nor less than a tenth of one, so the size of the figure tells which was meant.
constexpr double kIncrementsFrom = 100;
constexpr double kIncrementsPerMm = 1000;
constexpr double kIncrementsPerInch = 10000;

}  // namespace

void Control::roughingBlock() {
    use(BlockWords::bits({'U', 'R'}));
    const bool isCall = words_.hasAny(kCycleWords);
    if (!isCall) {
        // The first of two blocks: depth of cut on radius and retract, for the calls that follow.
        if (words_.has('U')) roughingDepth_ = scale() * positive('U', "The depth of cut").value_or(0);
        readRetract();
        return;
    }
    use(BlockWords::bits({'W', 'D'}));
    const auto profile = findProfile("G71");
    if (!profile) return;
    RoughingOrder order;
    if (const Word* allowance = words_.secondU() != nullptr ? words_.secondU() : words_.word('U')) {
        order.allowance.r = scale() * allowance->value / 2;
    }
    if (words_.has('W')) order.allowance.z = lengthOf('W');
    readRetract();
    order.retract = roughingRetract_;
    const auto depth = depthOfCut();
    if (!depth) return jumpOver(*profile, block());
    order.depth = *depth;
    rough(*profile, order);
}

// R, which stays for later cycles.
void Control::readRetract() {
    if (!words_.has('R')) return;
    const bool none = words_.number('R') == 0;
    if (const auto retract = none ? std::optional(0.0) : positive('R', "The retract"))
        roughingRetract_ = scale() * *retract;
}

// From this block (D, or the first of two U words), or from the first of two blocks.
std::optional<double> Control::depthOfCut() {
    double depth = roughingDepth_;
    if (words_.secondU() != nullptr) depth = scale() * positive('U', "The depth of cut").value_or(0);
    if (words_.has('D')) depth = depthOfD();
    if (depth > 0) return depth;
    remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                {Severity::Stop, "missing-depth-of-cut", "G71 has no depth of cut; the cycle was not carried out.",
                 "Write G71 U… R… with the depth on radius in the block before, or D… in this one."});
    return std::nullopt;
}

double Control::depthOfD() {
    const Word& word = *words_.word('D');
    const double value = positive('D', "The depth of cut").value_or(0);
    if (word.hasPoint || value < kIncrementsFrom) return scale() * value;
    const double depth = scale() * value / (now_.modal.inches ? kIncrementsPerInch : kIncrementsPerMm);
    remarks_.at(block(), word,
                {Severity::Note,
                 "depth-without-point",
                 fmt::format("{} has no decimal point; it was taken as {} mm.", program_.textOf(word), figure(depth)),
                 "Write the decimal point, if the control takes one here.",
                 {{"depth_mm", depth}}});
    return depth;
}

std::optional<Control::Profile> Control::findProfile(const char* cycle) {
    use(kCycleWords);
    const BlockId call = block();
    for (char letter : {'P', 'Q'}) {
        if (words_.has(letter)) continue;
        reportMissing(letter, cycle, "is not given");
        return std::nullopt;
    }
    const auto first = search_.find(static_cast<std::int32_t>(words_.number('P')), call + 1);
    if (!first) {
        reportMissing('P', cycle, "is not in the program");
        return std::nullopt;
    }
    const auto last = search_.findForwards(static_cast<std::int32_t>(words_.number('Q')), *first);
    if (!last) {
        const bool before = search_.find(static_cast<std::int32_t>(words_.number('Q')), 0).has_value();
        reportMissing('Q', cycle, before ? "stands before the P block" : "is not in the program");
        return std::nullopt;
    }
    if (*first <= call && call <= *last) {
        reportMissing('Q', cycle, "makes a profile that holds the cycle itself");
        return std::nullopt;
    }
    return Profile{*first, *last};
}

void Control::reportMissing(char letter, const char* cycle, const char* why) {
    const Word* word = words_.word(letter);
    const std::string number = word != nullptr ? fmt::format(" N{}", figure(word->value)) : "";
    remarks_.at(block(), word,
                {Severity::Stop, "missing-profile-block",
                 fmt::format("The {} block{} of {} {}; the cycle was not carried out.", letter, number, cycle, why),
                 "Give P the N number of the first block of the profile and Q that of its last one, below it."});
}

void Control::rough(const Profile& profile, RoughingOrder order) {
    const BlockId callBlock = block();
    // Passes are cut without compensation; what the control does with it in front of the cycle differs.
    if (now_.modal.compensation != Compensation::Off) {
        remarks_.at(callBlock, *orders_[CodeGroup::OneShot]->word,
                    {Severity::Warning,
                     "compensation-in-roughing",
                     "Nose-radius compensation is on when G71 is called; controls differ. It was switched off here.",
                     "Cancel it with G40 before the cycle and give G41 or G42 inside the profile.",
                     {},
                     true});
        now_.modal.compensation = Compensation::Off;
        modalDirty_ = true;
    }
    const Point start = now_.position;
    settle();
    if (!now_.datumChecked) checkDatum();
    order.start = start + call().reckoned - datum();
    const std::vector<ProfileElement> shape = readShape(profile, order);
    if (!now_.feedChecked) checkFeed();
    if (shape.empty()) {
        remarks_.at(
            callBlock, words_.word('P'),
            {Severity::Stop, "missing-profile-block",
             "There is no shape between the P and Q blocks of G71: at least an approach and one feed move are needed.",
             "Write the profile as moves with G00, G01, G02 and G03."});
    } else {
        const RoughingPlan plan = planRoughing(shape, order);
        reportRoughing(plan, shape, order);
        emitRoughing(plan, callBlock);
    }
    jumpOver(profile, callBlock);
}

// Runs the profile's blocks for their shape only: into a path of its own, with everything put back afterwards. The
// first movement is the approach from the start point; what follows it is the shape.
std::vector<ProfileElement> Control::readShape(const Profile& profile, RoughingOrder& order) {
    const Standing before = now_;
    const Variables variables = variables_;
    const BlockWords words = words_;
    const Orders orders = orders_;
    const std::uint32_t used = used_;
    const Reading reading = std::exchange(reading_, Reading::ProfileShape);
    now_.position = turretAt(order.start);
    Toolpath path;
    PathRecorder recorder(path, remarks_, now_.position);
    recorder_ = &recorder;
    for (BlockId block = profile.first; block <= profile.last && !ended_; ++block) carryOut(block);
    if (openLine_) dropLine("the profile ends");
    recorder.settle();
    recorder_ = &mainRecorder_;
    reading_ = reading;
    const Point toWork = call().reckoned - datum();
    now_ = before;
    variables_ = variables;
    modalDirty_ = true;
    words_ = words;
    orders_ = orders;
    used_ = used;
    std::vector<ProfileElement> shape;
    for (std::size_t i = 0; i < path.moves.size(); ++i) {
        const Move& move = path.moves[i];
        if (!isMovement(move.kind)) continue;
        if (shape.empty() && i == 0) {
            order.infeed = move.kind == MoveKind::Rapid ? MoveKind::Rapid : MoveKind::Feed;
            continue;
        }
        // A rapid inside the profile is cut like the rest of it.
        const MoveKind kind = move.kind == MoveKind::Rapid ? MoveKind::Feed : move.kind;
        shape.push_back({move.from + toWork, move.to + toWork, move.centre + toWork, kind, move.block});
        // The move that cancels compensation runs back by the nose radius; only its way in X is shape.
        const bool cancels =
            i > 0 && move.compensation == Compensation::Off && path.moves[i - 1].compensation != Compensation::Off;
        if (cancels && i + 1 == path.moves.size()) shape.back().to.z = shape.back().from.z;
    }
    return shape;
}

void Control::reportRoughing(const RoughingPlan& plan, const std::vector<ProfileElement>& shape,
                             const RoughingOrder& order) {
    if (plan.turnsBack) {
        remarks_.at(
            shape[*plan.turnsBack].block,
            {Severity::Stop,
             "profile-not-monotonic",
             fmt::format(
                 "The profile of G71 turns back in {} here. Some controls refuse it, others cut the pocket; here "
                 "the passes stop at the first wall and what lies behind is left to the cut along the profile.",
                 plan.turnsBackInX ? "X" : "Z"),
             "Rough the undercut separately, and give G71 a profile that only rises (falls, in a bore) towards its "
             "end.",
             {},
             true});
    }
    if (plan.startInsideProfile) {
        remarks_.at(
            block(), *orders_[CodeGroup::OneShot]->word,
            {Severity::Stop,
             "cycle-start-inside-profile",
             fmt::format("G71 starts at {}, which is inside its profile; the way back to it would go through the part.",
                         place(order.start)),
             plan.outside ? "Start at or above the largest X of the profile, in front of its first Z."
                          : "Start at or below the smallest X of the profile, in front of its first Z.",
             {{"start_x_mm", 2 * order.start.r}, {"start_z_mm", order.start.z}}});
    }
    if (plan.allowanceIntoPart) {
        remarks_.at(
            block(), *orders_[CodeGroup::OneShot]->word,
            {Severity::Warning,
             "allowance-into-part",
             fmt::format("The finish allowance U{} W{} moves the profile into the finished part: {} is turned {}.",
                         figure(2 * order.allowance.r), figure(order.allowance.z),
                         plan.outside ? "an outside diameter" : "a bore",
                         plan.towardsChuck ? "towards the chuck" : "away from the chuck"),
             fmt::format("U must be {} and W {} here.", plan.outside ? "above zero" : "below zero",
                         plan.towardsChuck ? "above zero" : "below zero"),
             {{"u_mm", 2 * order.allowance.r}, {"w_mm", order.allowance.z}}});
    }
    if (plan.tooManyPasses) {
        remarks_.at(block(), *orders_[CodeGroup::OneShot]->word,
                    {Severity::Stop,
                     "too-many-passes",
                     fmt::format("With a depth of {:g} mm G71 needs more than {} passes; it was not carried out.",
                                 order.depth, kMostPasses),
                     "Check the depth of cut: a decimal point may be missing.",
                     {{"depth_mm", order.depth}}});
    }
}

// A step for each pass, so that the cycle can be gone through pass by pass.
void Control::emitRoughing(const RoughingPlan& plan, BlockId callBlock) {
    const int motion = std::exchange(now_.modal.motion, 71);
    modalDirty_ = true;
    cycleBlock_ = callBlock;
    int pass = 1;  // its step is the one of the block itself
    for (const RoughingMove& planned : plan.moves) {
        if (planned.pass != pass) recorder_->beginStep(callBlock);
        pass = planned.pass;
        pass_ = planned.pass;
        Move move = newMove(planned.kind, turretAt(planned.to));
        if (planned.block != kNoBlock) move.block = planned.block;
        move.centre = turretAt(planned.centre);
        now_.position = move.to;
        add(move);
    }
    cycleBlock_ = kNoBlock;
    pass_ = 0;
    now_.modal.motion = motion;
    modalDirty_ = true;
}

void Control::finishingBlock() {
    const auto profile = findProfile("G70");
    if (!profile) return;
    const BlockId callBlock = block();
    const BlockWords words = words_;
    const Orders orders = orders_;
    const std::uint32_t used = used_;
    const Point start = now_.position;
    const int motion = now_.modal.motion;
    const Reading reading = std::exchange(reading_, Reading::FinishCut);
    cycleBlock_ = callBlock;
    pass_ = 1;
    for (BlockId at = profile->first; at <= profile->last && !ended_; ++at) carryOut(at);
    if (openLine_) dropLine("the profile ends");
    words_ = words;
    orders_ = orders;
    used_ = used;
    recorder_->beginStep(callBlock);
    add(newMove(MoveKind::Rapid, start));
    now_.position = start;
    reading_ = reading;
    cycleBlock_ = kNoBlock;
    pass_ = 0;
    now_.modal.motion = motion;
    modalDirty_ = true;
    jumpOver(*profile, callBlock);
}

// A profile that follows its cycle was carried out with it, so the program goes on behind it.
void Control::jumpOver(const Profile& profile, BlockId callBlock) {
    if (profile.first < callBlock) return;
    std::optional<BlockId> between;
    for (BlockId at = callBlock + 1; at < profile.first; ++at) {
        const Block& b = program_.blocks[at];
        // A profile behind the end of the program is not on the way.
        if (b.kind == Block::Kind::Percent || endsProgram(at)) return;
        if (!between && (b.wordCount > 0 || b.kind == Block::Kind::Statement)) between = at;
    }
    if (between) {
        remarks_.at(*between,
                    {Severity::Warning,
                     "blocks-before-profile",
                     "Blocks stand between the cycle and its profile; controls differ whether they are carried out. "
                     "Here they were left out.",
                     "Put the profile right behind the cycle.",
                     {},
                     true});
    }
    next_ = profile.last + 1;
}

bool Control::endsProgram(BlockId block) const {
    const Block& b = program_.blocks[block];
    for (const Word *word = program_.begin(b), *end = program_.end(b); word != end; ++word) {
        if (word->letter != 'M' || word->form != Word::Form::Number) continue;
        if (word->value == 2 || word->value == 30 || word->value == 99) return true;
    }
    return false;
}

}  // namespace firstoff
