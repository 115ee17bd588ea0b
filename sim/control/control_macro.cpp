// Macro statements: assignments, conditions, jumps and loops.
#include <array>
#include <cmath>

#include "sim/base/say.h"
#include "sim/control/control.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

constexpr double kLargestNumber = 99'999'999;  // of a block

bool isWhole(double value) {
    return std::abs(value - std::round(value)) <= kWholeWithin;
}

}  // namespace

void Control::carryOutStatement(BlockId block) {
    const Statement& statement = program_.statements[program_.blocks[block].statement];
    if (reading_ != Reading::Program && refuseInProfile(block, statement)) return;
    switch (statement.kind) {
        case Statement::Kind::Unreadable:
            return;  // was reported when the program was read
        case Statement::Kind::Assign:
            if (holds(block, statement)) assign(block, statement);
            return;
        case Statement::Kind::Goto:
            if (holds(block, statement)) jump(block, statement);
            return;
        case Statement::Kind::Do:
            return beginLoop(block, statement);
        case Statement::Kind::End:
            return endLoop(block);
    }
}

// Without a condition always; any value but zero and null is true.
bool Control::holds(BlockId block, const Statement& statement) {
    if (!statement.condition.usable()) return true;
    const auto value = values_.value(block, statement.condition);
    return value && !isNull(*value) && *value != 0;
}

// All values first, then all variables, so that a variable set in a block counts from the next block on (NISTIR 6556
// sec. 3.3.3); set twice, the last one stays (sec. 3.3.5).
void Control::assign(BlockId block, const Statement& statement) {
    const Assignment* const first = program_.assignments.data() + statement.firstAssignment;
    if (statement.assignmentCount == 1) {
        const auto value = values_.value(block, first->value);
        const auto index = values_.value(block, first->index);
        if (value && index) setVariable(block, *first, *index, *value);
        return;
    }
    if (statement.readsWhatItSets) {
        remarks_.at(block,
                    {Severity::Warning,
                     "controls-calculate-otherwise",
                     tr("A variable is set and read in the same block. Here the value from before the block is read; "
                        "controls differ."),
                     tr("Write one assignment in a block."),
                     {},
                     true});
    }
    std::vector<std::pair<double, double>> all;
    for (const Assignment* one = first; one != first + statement.assignmentCount; ++one) {
        const auto value = values_.value(block, one->value);
        const auto index = values_.value(block, one->index);
        all.emplace_back(index.value_or(-1), value.value_or(kNull));
    }
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].first != -1) setVariable(block, first[i], all[i].first, all[i].second);
    }
}

void Control::setVariable(BlockId block, const Assignment& assignment, double index, double value) {
    Word at;
    at.offset = program_.instructions[assignment.index.first].offset;
    at.length = 1;
    const double whole = isNull(index) ? -1 : std::round(index);
    if (isNull(index) || std::abs(index - whole) > kWholeWithin || whole < 0 || whole > kLargestIndex) {
        remarks_.at(block, at,
                    {Severity::Stop, "no-such-variable",
                     isNull(index) ? tr("The number of the variable to be set is null; nothing was set.")
                                   : say("#{} is no variable; nothing was set.", figure(index)),
                     tr("Check what stands behind #.")});
        return;
    }
    const auto number = static_cast<std::int32_t>(whole);
    if (Variables::isLocal(number) || Variables::isCommon(number)) return variables_.set(number, value);
    setSystemVariable(block, number, value, at);
}

void Control::beginLoop(BlockId block, const Statement& statement) {
    const Loop* loop = loops().beginningAt(block);
    if (loop != nullptr && !holds(block, statement)) next_ = loop->end + 1;
}

void Control::endLoop(BlockId block) {
    if (const Loop* loop = loops().endingAt(block)) goBack(block, loop->begin);
}

void Control::goBack(BlockId from, BlockId to) {
    lastWayBackFrom_ = from;
    lastWayBackTo_ = to;
    next_ = to;
}

const Loops& Control::loops() {
    const auto known = loops_.find(first_);
    if (known != loops_.end()) return known->second;
    return loops_.try_emplace(first_, program_, first_, end_, remarks_).first->second;
}

void Control::jump(BlockId block, const Statement& statement) {
    const auto value = values_.value(block, statement.target);
    if (value && !isNull(*value) && isWhole(*value) && *value >= 0 && *value <= kLargestNumber) {
        return jumpTo(block, static_cast<std::int32_t>(std::round(*value)));
    }
    const std::string message =
        !value           ? tr("The target of GOTO could not be calculated, which is no number of a block.")
        : isNull(*value) ? tr("The target of GOTO is null, which is no number of a block.")
                         : say("The target of GOTO is {}, which is no number of a block.", figure(*value));
    halt(block, {Severity::Stop, "bad-jump", message, tr("Write the N number of a block behind GOTO.")});
}

// Forwards to the end of the program, then from its beginning (common practice, no source).
void Control::jumpTo(BlockId block, std::int32_t number) {
    const auto target = search_.find(number, block + 1);
    if (!target) {
        return halt(block, {Severity::Stop, "jump-target-missing",
                            say("The jump asks for N{}, which is not in this program.", number),
                            tr("Write this N number on the block where the program should go on.")});
    }
    if (jumpsSeen_.insert(block).second) {
        if (const std::size_t times = search_.count(number); times > 1) {
            remarks_.at(block, {Severity::Warning,
                                "sequence-number-twice",
                                say("N{} stands {} times in the program; controls differ in which one a jump takes. "
                                    "Here it went to line {}.",
                                    number, times, program_.lineOf(*target)),
                                tr("Give each block that is jumped to a number of its own."),
                                {},
                                true});
        }
        if (const Loop* loop = loops().entered(block, *target)) {
            remarks_.at(block, {Severity::Stop, "jump-into-loop",
                                say("The jump goes to line {}, into the loop of lines {} to {}; controls stop "
                                    "with an alarm, or lose the loop.",
                                    program_.lineOf(*target), program_.lineOf(loop->begin), program_.lineOf(loop->end)),
                                tr("Jump to the block with WHILE, or behind END.")});
        }
    }
    if (*target <= block) return goBack(block, *target);
    next_ = *target;
}

// Inside P–Q of a cycle values may be set; where the program goes on is the cycle's affair.
bool Control::refuseInProfile(BlockId block, const Statement& statement) {
    const bool assigns = statement.kind == Statement::Kind::Assign;
    if (statement.kind == Statement::Kind::Unreadable) return true;
    remarks_.at(block,
                {assigns ? Severity::Warning : Severity::Stop,
                 "not-allowed-in-profile",
                 assigns ? tr("A variable is set between the P and Q blocks of a cycle. It is set anew each time the "
                              "profile is read; many controls take no macro statement there.")
                         : tr("Jumps and loops cannot stand between the P and Q blocks of a cycle; it was left out."),
                 tr("Calculate in front of the cycle."),
                 {},
                 true});
    return !assigns;
}

// What a control cannot go on from: the run ends here.
void Control::halt(BlockId block, Remark remark) {
    remark.message += tr(" The trial ends here.");
    remarks_.at(block, std::move(remark));
    ended_ = endless_ = true;
}

}  // namespace firstoff
