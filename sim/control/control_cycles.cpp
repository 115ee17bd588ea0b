// The profile between the P and Q blocks of a cycle, the finishing cycle G70, and how the moves of a cycle are made.
#include <fmt/format.h>

#include <cmath>
#include <utility>

#include "sim/base/say.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kCycleWords = BlockWords::bits({'P', 'Q'});
constexpr std::uint32_t kAxes = BlockWords::bits({'X', 'Z', 'U', 'W'});

}  // namespace

std::optional<Control::Profile> Control::findProfile() {
    use(kCycleWords);
    const BlockId call = block();
    for (char letter : {'P', 'Q'}) {
        if (words_.has(letter)) continue;
        reportMissing(letter, MissingBlock::NotGiven);
        return std::nullopt;
    }
    const auto first = search_.find(sequenceNumber('P'), call + 1);
    if (!first) {
        reportMissing('P', MissingBlock::NotInProgram);
        return std::nullopt;
    }
    const auto last = search_.findForwards(sequenceNumber('Q'), *first);
    if (!last) {
        const bool before = search_.find(sequenceNumber('Q'), 0).has_value();
        reportMissing('Q', before ? MissingBlock::BeforeP : MissingBlock::NotInProgram);
        return std::nullopt;
    }
    if (*first <= call && call <= *last) {
        reportMissing('Q', MissingBlock::AroundCycle);
        return std::nullopt;
    }
    reportTwice('P', *first);
    reportTwice('Q', *last);
    return Profile{*first, *last};
}

// -1, which no block has, for what cannot be the number of a block.
std::int32_t Control::sequenceNumber(char letter) const {
    const double number = words_.number(letter);
    const bool usable = number >= 0 && number < 1e9 && number == std::floor(number);
    return usable ? static_cast<std::int32_t>(number) : -1;
}

void Control::reportMissing(char letter, MissingBlock why) {
    const Word* word = words_.word(letter);
    const std::string number = word != nullptr ? fmt::format(" N{}", figure(word->value)) : "";
    const auto message = [&] {
        switch (why) {
            case MissingBlock::NotGiven:
                return say("The {} block{} of {} is not given; the cycle was not carried out.", letter, number,
                           cycleName());
            case MissingBlock::BeforeP:
                return say("The {} block{} of {} stands before the P block; the cycle was not carried out.", letter,
                           number, cycleName());
            case MissingBlock::AroundCycle:
                return say(
                    "The {} block{} of {} makes a profile that holds the cycle itself; the cycle was not "
                    "carried out.",
                    letter, number, cycleName());
            case MissingBlock::NotInProgram:
                break;
        }
        return say("The {} block{} of {} is not in the program; the cycle was not carried out.", letter, number,
                   cycleName());
    };
    remarks_.at(block(), word,
                {Severity::Stop, "missing-profile-block", message(),
                 tr("Give P the N number of the first block of the profile and Q that of its last one, below it.")});
}

void Control::reportTwice(char letter, BlockId taken) {
    const auto count = search_.count(sequenceNumber(letter));
    if (count < 2) return;
    remarks_.at(block(), *words_.word(letter),
                {Severity::Warning,
                 "sequence-number-twice",
                 say("N{} stands {} times in the program; controls differ in which one {} takes. Here it was "
                     "the one in line {}.",
                     sequenceNumber(letter), count, cycleName(), program_.span(taken).line),
                 tr("Give every N number that a cycle names to one block only."),
                 {{"times", static_cast<double>(count)}},
                 true});
}

// What all cycles along a profile begin with: the path so far is closed, then the profile is read. Nothing, and said
// so, if there is no shape.
std::optional<Control::Shape> Control::shapeOf(const Profile& profile, bool alongX) {
    const BlockId callBlock = block();
    // Passes are cut without compensation; what the control does with it in front of the cycle differs.
    if (now_.modal.compensation != Compensation::Off) {
        remarks_.at(callBlock, *orders_[CodeGroup::OneShot]->word,
                    {Severity::Warning,
                     "compensation-in-roughing",
                     say("Nose-radius compensation is on when {} is called; controls differ. It was switched off here.",
                         cycleName()),
                     tr("Cancel it with G40 before the cycle and give G41 or G42 inside the profile."),
                     {},
                     true});
        now_.modal.compensation = Compensation::Off;
        modalDirty_ = true;
    }
    const Point start = now_.position;
    settle();
    if (!now_.datumChecked) checkDatum();
    Shape shape = readShape(profile, start + call().reckoned - datum(), alongX);
    if (!now_.feedChecked) checkFeed();
    if (!shape.elements.empty()) return shape;
    remarks_.at(callBlock, words_.word('P'),
                {Severity::Stop, "missing-profile-block",
                 say("There is no shape between the P and Q blocks of {}: at least an approach and one feed "
                     "move are needed.",
                     cycleName()),
                 tr("Write the profile as moves with G00, G01, G02 and G03.")});
    return std::nullopt;
}

// Runs the profile's blocks for their shape only: into a path of its own, with everything put back afterwards.
Control::Shape Control::readShape(const Profile& profile, Point start, bool alongX) {
    const Standing before = now_;
    const Variables variables = variables_;
    const BlockWords words = words_;
    const Orders orders = orders_;
    const std::uint32_t used = used_;
    const Reading reading = std::exchange(reading_, Reading::ProfileShape);
    Shape shape;
    shape.start = start;
    now_.position = turretAt(start);
    Toolpath path;
    PathRecorder recorder(path, remarks_, now_.position);
    recorder_ = &recorder;
    BlockId approach = kNoBlock;
    for (BlockId block = profile.first; block <= profile.last && !ended_; ++block) {
        carryOut(block);
        const bool moves = words_.block() == block && words_.hasAny(kAxes) && orders_[CodeGroup::OneShot] == nullptr;
        if (approach != kNoBlock || !moves) continue;
        approach = block;
        // A line by its angle runs along both axes.
        shape.approachAxes = words_.angle() != nullptr ? kAxes : words_.letters() & kAxes;
        shape.infeed = now_.modal.motion == 0 ? MoveKind::Rapid : MoveKind::Feed;
        shape.leadsInOnArc = now_.modal.motion == 2 || now_.modal.motion == 3;
    }
    if (openLine_) dropLine(tr("the profile ends"));
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
    shape.approach = approach;
    shape.elements = elementsOf(path.moves, approach, toWork, alongX);
    return shape;
}

// The first block that names an axis is the approach from the start point, which may have no length; what follows it is
// the shape.
std::vector<ProfileElement> Control::elementsOf(const std::vector<Move>& moves, BlockId approach, Point toWork,
                                                bool alongX) {
    std::vector<ProfileElement> shape;
    bool begun = false;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        const Move& move = moves[i];
        if (!isMovement(move.kind)) continue;
        if (!std::exchange(begun, true) && move.block == approach) continue;
        // A rapid inside the profile is cut like the rest of it.
        const MoveKind kind = move.kind == MoveKind::Rapid ? MoveKind::Feed : move.kind;
        shape.push_back({move.from + toWork, move.to + toWork, move.centre + toWork, kind, move.block});
        // The move that cancels compensation runs back by the nose radius; only its way across the passes is shape.
        const bool cancels =
            i > 0 && move.compensation == Compensation::Off && moves[i - 1].compensation != Compensation::Off;
        if (!cancels || i + 1 != moves.size()) continue;
        if (alongX) {
            shape.back().to.r = shape.back().from.r;
        } else {
            shape.back().to.z = shape.back().from.z;
        }
    }
    return shape;
}

void Control::finishingBlock() {
    const auto profile = findProfile();
    if (!profile) return;
    if (profile->first == profile->last) reportOneBlock();
    const BlockId callBlock = block();
    const BlockWords words = words_;
    const Orders orders = orders_;
    const std::uint32_t used = used_;
    keepWantedProfile(*profile);
    const Point start = now_.position;
    const int motion = now_.modal.motion;
    const Reading reading = std::exchange(reading_, Reading::FinishCut);
    cycleBlock_ = callBlock;
    pass_ = 1;
    for (BlockId at = profile->first; at <= profile->last && !ended_; ++at) carryOut(at);
    if (openLine_) dropLine(tr("the profile ends"));
    words_ = words;
    orders_ = orders;
    used_ = used;
    recorder_->beginStep(callBlock);
    returnFromFinishing(start);
    reading_ = reading;
    cycleBlock_ = kNoBlock;
    pass_ = 0;
    now_.modal.motion = motion;
    modalDirty_ = true;
    jumpOver(*profile, callBlock);
}

// Where the set-up takes the outline of the part from this cycle.
void Control::keepWantedProfile(const Profile& profile) {
    const auto& line = setup_.wanted.line;
    if (!line || !program_.isOwn(block()) || program_.lineOf(block()) != *line) return;
    const Compensation compensation = std::exchange(now_.modal.compensation, Compensation::Off);
    asProgrammed_ = true;
    cancelsInProfile_ = kNoBlock;
    Shape shape = readShape(profile, now_.position + call().reckoned - datum(), false);
    // The move that cancels compensation leads away from the part.
    while (!shape.elements.empty() && shape.elements.back().block == cancelsInProfile_) shape.elements.pop_back();
    asProgrammed_ = false;
    now_.modal.compensation = compensation;
    Contour& kept = out_.wantedProfile;
    kept.clear();
    for (const ProfileElement& e : shape.elements) {
        const double sense = e.kind == MoveKind::ArcClockwise ? -1 : 1;
        kept.push_back({e.from + datum(), isArc(e.kind) ? std::tan(sense * progress(e, e.to) / 4) : 0});
    }
    if (!shape.elements.empty()) kept.push_back({shape.elements.back().to + datum(), 0});
}

// At rapid, as the last thing G70 does. Straight there whatever stands: a nose that is led along the way back on the
// side on which it cut would rub over the finished part.
void Control::returnFromFinishing(Point start) {
    Move move = newMove(MoveKind::Rapid, start);
    now_.position = start;
    const bool compensated = recorder_->compensating() && !recorder_->cancelling();
    if (!compensated) return add(move);
    move.compensation = Compensation::Off;
    recorder_->addBetweenPaths(move);
    remarks_.at(
        block(), *orders_[CodeGroup::OneShot]->word,
        {Severity::Warning,
         "compensation-on-the-way-back",
         tr("Nose-radius compensation is still on when G70 goes back to its start point; controls differ in how "
            "they lead the nose there. Here it left the profile as with G40, and compensation came on again with "
            "the next move."),
         tr("Give G41 or G42 in the first block of the profile and G40 in its last."),
         {},
         true});
}

void Control::reportOneBlock() {
    remarks_.at(block(), words_.word('Q'),
                {Severity::Warning,
                 "profile-of-one-block",
                 say("P and Q of {} name the same block: only its move is cut. Some controls refuse it.", cycleName()),
                 tr("Give Q the N number of the last block of the profile."),
                 {},
                 true});
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
                     tr("Blocks stand between the cycle and its profile; controls differ whether they are carried out. "
                        "Here they were left out."),
                     tr("Put the profile right behind the cycle."),
                     {},
                     true});
    }
    // What is left out here was told of.
    for (BlockId at = callBlock + 1; at <= profile.last; ++at) reached_[at] = true;
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
