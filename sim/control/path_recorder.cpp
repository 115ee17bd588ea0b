#include "sim/control/path_recorder.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

// Steps without movement that are kept; programs that people write have a few hundred.
constexpr std::size_t kMostIdleSteps = 200'000;
// Common practice, no source: most controls read ahead over one or two blocks that move nothing.
constexpr std::size_t kMostBlocksWithoutMove = 2;

bool hasLength(const Move& move) {
    return distance(move.from, move.to) > tolerance::kSamePlaceMm;
}

Stretch stretchOf(const Move& move) {
    return {move.from, move.to, move.centre, move.kind};
}

}  // namespace

bool isMovement(MoveKind kind) {
    return kind != MoveKind::Dwell && kind != MoveKind::Index;
}

void PathRecorder::beginStep(BlockId block) {
    const BlockId shown = shown_ == kNoBlock ? block : shown_;
    if (!waiting()) {
        if (isIdle()) out_.steps.pop_back();
        out_.steps.push_back({block, static_cast<std::uint32_t>(out_.moves.size()), shown});
        return;
    }
    Item item;
    item.kind = Item::Kind::Step;
    item.move.block = block;
    item.move.cycleBlock = shown;
    if (isIdle()) queue_.pop_back();
    queue_.push_back(item);
}

// Whether the last step made no movement and may be forgotten: a loop that only calculates has millions of them.
bool PathRecorder::isIdle() {
    const bool idle = waiting() ? !queue_.empty() && queue_.back().kind == Item::Kind::Step
                                : !out_.steps.empty() && out_.steps.back().firstMove == out_.moves.size();
    return idle && ++idleSteps_ > kMostIdleSteps;
}

void PathRecorder::stop(ProgramStop::Kind kind, BlockId block) {
    if (!waiting()) {
        out_.stops.push_back({kind, block, static_cast<std::uint32_t>(out_.moves.size())});
        return;
    }
    Item item;
    item.kind = Item::Kind::Stop;
    item.stop = kind;
    item.move.block = block;
    queue_.push_back(item);
}

void PathRecorder::add(const Move& move) {
    if (!isMovement(move.kind)) return put(move);
    if (order_ && move.kind == MoveKind::Thread) refuseThread(move);
    Move next = move;
    if (!begin(next)) return;
    if (corner_) resolveCorner(next);
    if (hasLength(next)) put(next);
}

void PathRecorder::addWithAction(const Move& dwell, MachineAction action) {
    assert(!isMovement(dwell.kind));
    put(dwell, action);
}

// Ties the move to the end of the one before, so that many moves too short to be made do not add up to a gap.
bool PathRecorder::begin(Move& move) {
    move.from = programmed_;
    if (!hasLength(move)) return false;
    programmed_ = move.to;
    return true;
}

void PathRecorder::addWithCorner(const Move& move, const CornerWish& wish, const Word* word) {
    Move first = move;
    const bool begun = begin(first);
    if (begun && corner_) resolveCorner(first);
    if (!hasLength(first) || cancelling_) {
        remarks_.at(
            move.block, word,
            {Severity::Stop, "corner-does-not-fit",
             cancelling_ ? tr("A corner cannot stand at the end of the move that cancels nose-radius compensation.")
                         : tr("The move that should end in this corner has no length left."),
             tr("Take the corner out, or end the move farther on.")});
        if (hasLength(first)) put(first);
        return;
    }
    Item item;
    item.move = first;
    item.changesSide = std::exchange(sideChanges_, false);
    queue_.push_back(item);
    corner_ = OpenCorner{queue_.size() - 1, wish, word};
}

void PathRecorder::openLine(const Move& move, const std::optional<CornerWish>& wish, const Word* word) {
    assert(!line_);
    Item item;
    item.move = move;
    queue_.push_back(item);
    line_ = OpenLine{queue_.size() - 1, wish, word};
}

void PathRecorder::closeLine(Point end) {
    assert(line_);
    const OpenLine line = *line_;
    std::vector<Item> items = takeFromLine();
    Move move = items.front().move;
    move.to = end;
    if (line.wish) {
        addWithCorner(move, *line.wish, line.word);
    } else {
        add(move);
    }
    items.erase(items.begin());
    putBack(items);
}

void PathRecorder::dropLine() {
    if (!line_) return;
    std::vector<Item> items = takeFromLine();
    items.erase(items.begin());
    putBack(items);
}

// The line and the steps, stops and dwells behind it, out of the queue.
std::vector<PathRecorder::Item> PathRecorder::takeFromLine() {
    const auto first = queue_.begin() + static_cast<std::ptrdiff_t>(line_->item);
    std::vector<Item> items(first, queue_.end());
    queue_.erase(first, queue_.end());
    line_.reset();
    if (!waiting()) writeQueue();
    return items;
}

void PathRecorder::putBack(const std::vector<Item>& items) {
    queue_.insert(queue_.end(), items.begin(), items.end());
    if (!waiting()) writeQueue();
}

void PathRecorder::put(const Move& move, MachineAction action) {
    if (!waiting()) return writeMove(move, action);
    Item item;
    item.move = move;
    item.action = action;
    if (isMovement(move.kind)) item.changesSide = std::exchange(sideChanges_, false);
    queue_.push_back(item);
    if (cancelling_ && isMovement(move.kind)) flush(true);
}

void PathRecorder::resolveCorner(Move& next) {
    const OpenCorner corner = *corner_;
    corner_.reset();
    Move& first = queue_[corner.item].move;
    CornerFit fit;
    if (next.kind == MoveKind::Rapid || next.kind == MoveKind::Home) {
        fit.fault = CornerFit::Fault::NoCorner;
    } else {
        fit = fitCorner(stretchOf(first), stretchOf(next), corner.wish);
    }
    if (fit.fault == CornerFit::Fault::None) {
        Item inserted;
        inserted.move = first;
        inserted.move.kind = fit.kind;
        inserted.move.from = fit.start;
        inserted.move.to = fit.end;
        inserted.move.centre = fit.centre;
        first.to = fit.start;
        next.from = fit.end;
        const bool firstRemains = hasLength(first);
        const auto at = queue_.begin() + static_cast<std::ptrdiff_t>(corner.item);
        if (firstRemains) {
            queue_.insert(at + 1, inserted);
        } else {
            *at = inserted;
        }
    } else {
        reportCorner(fit, first, &next, corner);
    }
    if (!order_) writeQueue();
}

void PathRecorder::reportCorner(const CornerFit& fit, const Move& first, const Move* next, const OpenCorner& corner) {
    const std::string what = corner.wish.fillet ? say("fillet of radius {}", figure(corner.wish.size))
                                                : say("chamfer of {}", figure(corner.wish.size));
    Remark remark{Severity::Stop, "corner-does-not-fit", {}, tr("Make the corner smaller or the moves longer.")};
    switch (fit.fault) {
        case CornerFit::Fault::LegTooShort:
        case CornerFit::Fault::TooLarge: {
            const double largest = largestCorner(stretchOf(first), stretchOf(*next), corner.wish.fillet);
            const bool legShort = fit.fault == CornerFit::Fault::LegTooShort;
            remark.message =
                legShort ? say("A {} takes {} mm of a move that has only {} mm; the largest that fits is {} mm. The "
                               "corner was left sharp.",
                               what, figure(fit.needMm), figure(fit.haveMm), figure(largest))
                         : say("A {} does not reach both moves; the largest that fits is {} mm. The corner was left "
                               "sharp.",
                               what, figure(largest));
            if (legShort) remark.values = {{"need_mm", fit.needMm}, {"have_mm", fit.haveMm}};
            remark.values.emplace_back("largest_mm", largest);
            break;
        }
        case CornerFit::Fault::OtherWay:
            remark.message =
                say("The sign of this {} says that the next move goes to the other side; the "
                    "corner was left sharp.",
                    what);
            remark.remedy = tr("Correct the sign, or the move.");
            break;
        default:
            remark.message =
                say("A {} needs a next feed move that turns away from this one; the corner was left sharp.", what);
            remark.remedy =
                tr("Program the next move as G01, G02 or G03 in another direction, or take the corner out.");
    }
    remarks_.at(first.block, corner.word, std::move(remark));
}

void PathRecorder::startCompensation(const CompensationOrder& order) {
    // A corner between an uncompensated and a compensated move is not modelled: it is reported and left sharp.
    if (corner_) settle();
    order_ = latest_ = order;
    cancelling_ = sideChanges_ = false;
}

void PathRecorder::changeSide(const CompensationOrder& order) {
    assert(order_ && !cancelling_);
    const bool begun = std::any_of(queue_.begin(), queue_.end(), [](const Item& item) {
        return item.kind == Item::Kind::Move && isMovement(item.move.kind);
    });
    latest_ = order;
    if (begun) {
        sideChanges_ = !sideChanges_;
    } else {
        order_ = order;
    }
}

void PathRecorder::cancelCompensation() {
    cancelling_ = order_.has_value();
}

void PathRecorder::addBetweenPaths(const Move& move) {
    cancelCompensation();
    add(move);
    if (!compensating()) startCompensation(*latest_);
}

Point PathRecorder::settle() {
    if (corner_) {
        const OpenCorner corner = *corner_;
        corner_.reset();
        CornerFit fit;
        fit.fault = CornerFit::Fault::NoCorner;
        reportCorner(fit, queue_[corner.item].move, nullptr, corner);
    }
    if (order_) {
        flush(false);
    } else {
        writeQueue();
    }
    programmed_ = rest_;
    return rest_;
}

void PathRecorder::flush(bool cancelled) {
    const Point reckoned = order_->reckoned;
    std::vector<PathElement> elements;
    for (std::size_t i = 0; i < queue_.size(); ++i) {
        const Move& move = queue_[i].move;
        if (queue_[i].kind != Item::Kind::Move || !isMovement(move.kind)) continue;
        elements.push_back({move.from + reckoned, move.to + reckoned, move.centre + reckoned, move.kind,
                            static_cast<std::uint32_t>(i), queue_[i].changesSide});
    }
    if (elements.empty()) {
        writeQueue();
    } else {
        std::vector<CompensationIssue> issues;
        const std::vector<PathElement> path = compensate(elements, order_->setting, cancelled, issues);
        const CompensatedStretch stretch{*order_, elements, cancelled,
                                         [this](std::uint32_t tag) { return queue_[tag].move.block; }};
        reportIssues(stretch, issues, remarks_);
        // On the wrong side nothing else needs saying.
        if (!reportSide(stretch, remarks_)) {
            reportGouges(stretch, noseGouges(elements, path, order_->setting, cancelled, issues), remarks_);
        }
        reportShortLeads(stretch, remarks_);
        reportStandstill(cancelled);
        writeCompensated(path);
    }
    order_.reset();
    cancelling_ = sideChanges_ = false;
}

void PathRecorder::writeCompensated(const std::vector<PathElement>& path) {
    std::size_t next = 0;
    const auto writeElement = [&] {
        const PathElement& element = path[next++];
        Item item = queue_[element.tag];
        item.move.kind = element.kind;
        item.move.from = rest_;
        item.move.to = element.to - order_->reckoned;
        item.move.centre = isArc(element.kind) ? element.centre - order_->reckoned : Point{};
        if (isArc(element.kind) || hasLength(item.move)) write(item);
    };
    for (std::size_t i = 0; i < queue_.size(); ++i) {
        const bool movement = queue_[i].kind == Item::Kind::Move && isMovement(queue_[i].move.kind);
        if (!movement) {
            write(queue_[i]);
            continue;
        }
        while (next < path.size() && path[next].tag <= i) writeElement();
    }
    while (next < path.size()) writeElement();
    queue_.clear();
}

void PathRecorder::writeQueue() {
    for (const Item& item : queue_) write(item);
    queue_.clear();
}

void PathRecorder::writeMove(const Move& move, MachineAction action) {
    if (action != MachineAction::None) {
        out_.machineEvents.push_back({action, move.block, static_cast<std::uint32_t>(out_.moves.size())});
    }
    out_.moves.push_back(move);
    rest_ = move.to;
}

void PathRecorder::write(const Item& item) {
    const auto at = static_cast<std::uint32_t>(out_.moves.size());
    switch (item.kind) {
        case Item::Kind::Move: {
            Move move = item.move;
            // What only takes time stands where the tool has got to by now.
            if (!isMovement(move.kind)) move.from = move.to = rest_;
            writeMove(move, item.action);
            break;
        }
        case Item::Kind::Step:
            out_.steps.push_back({item.move.block, at, item.move.cycleBlock});
            break;
        case Item::Kind::Stop:
            out_.stops.push_back({item.stop, item.move.block, at});
            break;
    }
}

// A control stops at a thread with compensation on; the thread is cut as written.
void PathRecorder::refuseThread(const Move& thread) {
    remarks_.at(thread.block, {Severity::Stop, "compensation-left-on",
                               tr("Nose-radius compensation is still on at this thread; controls stop with an alarm."),
                               tr("Cancel it with G40 and a straight move away from the part first.")});
    settle();
}

// Blocks in a row that move nothing. Macro statements are no blocks to the control's look-ahead, and at the last joint,
// where compensation ends anyway, it does not matter.
void PathRecorder::reportStandstill(bool cancelled) {
    std::size_t movements = 0;
    for (const Item& item : queue_) movements += item.kind == Item::Kind::Move && isMovement(item.move.kind);
    const std::size_t last = movements - (cancelled ? 1 : 0);
    std::size_t seen = 0, still = 0;
    BlockId first = kNoBlock;
    for (const Item& item : queue_) {
        const bool movement = item.kind == Item::Kind::Move && isMovement(item.move.kind);
        const bool block = item.kind == Item::Kind::Step && !remarks_.isStatement(item.move.block);
        if (block && ++still == 1) first = item.move.block;
        if (!movement) continue;
        // The last step is the one of the block that moves.
        if (seen > 0 && seen < last && still > kMostBlocksWithoutMove + 1) {
            remarks_.at(first, {Severity::Warning,
                                "compensation-blocks-without-move",
                                say("{} blocks in a row move nothing while nose-radius compensation is on. Many "
                                    "controls look no farther ahead than {}: they stop square on the last move, and "
                                    "cut into an inside corner.",
                                    still - 1, kMostBlocksWithoutMove),
                                tr("Put M codes, dwells and feeds into the blocks that move."),
                                {{"blocks", static_cast<double>(still - 1)}},
                                true});
        }
        ++seen;
        still = 0;
    }
}

}  // namespace firstoff
