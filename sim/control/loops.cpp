#include "sim/control/loops.h"

#include <algorithm>

#include "sim/base/say.h"

namespace firstoff {

namespace {

template <class List>
const Loop* findIn(const List& list, BlockId block, BlockId Loop::*side) {
    const auto found =
        std::lower_bound(list.begin(), list.end(), block, [&](const Loop& l, BlockId b) { return l.*side < b; });
    return found != list.end() && (*found).*side == block ? &*found : nullptr;
}

}  // namespace

Loops::Loops(const Program& program, BlockId first, BlockId end, Remarks& remarks)
    : program_(program), remarks_(remarks) {
    for (BlockId at = first; at < end; ++at) {
        const Block& block = program.blocks[at];
        if (block.kind != Block::Kind::Statement) continue;
        const Statement& statement = program.statements[block.statement];
        if (statement.kind == Statement::Kind::Do) open(at, statement.loop);
        if (statement.kind == Statement::Kind::End) close(at, statement.loop);
    }
    for (const Open& left : open_) {
        remarks_.at(left.block, {Severity::Stop, "loop-without-end", say("DO{0} has no END{0} below it.", left.number),
                                 say("Write END{} where the loop ends.", left.number)});
    }
    open_.clear();
    byEnd_ = byBegin_;
    std::sort(byBegin_.begin(), byBegin_.end(), [](const Loop& a, const Loop& b) { return a.begin < b.begin; });
}

void Loops::open(BlockId block, std::uint8_t number) {
    for (const Open& other : open_) {
        if (other.number != number) continue;
        remarks_.at(block, {Severity::Stop, "loop-number",
                            say("DO{} stands inside loop {} of line {}.", number, number, program_.lineOf(other.block)),
                            tr("Number loops 1 to 3 from the outside inwards.")});
        return;
    }
    open_.push_back({block, number, open_.empty() ? kNoBlock : open_.back().block});
}

void Loops::close(BlockId block, std::uint8_t number) {
    const auto own =
        std::find_if(open_.rbegin(), open_.rend(), [&](const Open& other) { return other.number == number; });
    if (own == open_.rend()) {
        remarks_.at(block, {Severity::Stop, "loop-without-start", say("END{0} has no DO{0} above it.", number),
                            say("Write WHILE […] DO{} where the loop begins.", number)});
        return;
    }
    if (own != open_.rbegin()) {
        remarks_.at(block, {Severity::Stop, "loops-cross",
                            say("END{} closes loop {} while loop {} of line {} is still open.", number, number,
                                open_.back().number, program_.lineOf(open_.back().block)),
                            tr("Close the inner loop first.")});
    }
    byBegin_.push_back({own->block, block, own->outer});
    open_.erase(std::next(own).base());
}

const Loop* Loops::beginningAt(BlockId block) const {
    return findIn(byBegin_, block, &Loop::begin);
}

const Loop* Loops::endingAt(BlockId block) const {
    return findIn(byEnd_, block, &Loop::end);
}

// The loop that began last above `to` holds it, or one of those around that loop does, or none.
const Loop* Loops::entered(BlockId from, BlockId to) const {
    const auto above =
        std::lower_bound(byBegin_.begin(), byBegin_.end(), to, [](const Loop& l, BlockId b) { return l.begin < b; });
    if (above == byBegin_.begin()) return nullptr;
    const Loop* loop = &*std::prev(above);
    while (loop != nullptr && loop->end < to) loop = beginningAt(loop->outer);
    for (; loop != nullptr; loop = beginningAt(loop->outer)) {
        if (from < loop->begin || from > loop->end) return loop;
    }
    return nullptr;
}

}  // namespace firstoff
