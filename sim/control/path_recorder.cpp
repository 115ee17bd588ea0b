#include "sim/control/path_recorder.h"

#include <fmt/format.h>

#include <cassert>

#include "sim/base/tolerances.h"
#include "sim/control/figures.h"

namespace firstoff {

namespace {

bool isArc(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

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
    if (!waiting()) {
        out_.steps.push_back({block, static_cast<std::uint32_t>(out_.moves.size())});
        return;
    }
    Item item;
    item.kind = Item::Kind::Step;
    item.move.block = block;
    queue_.push_back(item);
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
    Move next = move;
    if (!begin(next)) return;
    if (corner_) resolveCorner(next);
    if (hasLength(next)) put(next);
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
        remarks_.at(move.block, word,
                    {Severity::Stop, "corner-does-not-fit",
                     cancelling_ ? "A corner cannot stand at the end of the move that cancels nose-radius compensation."
                                 : "The move that should end in this corner has no length left.",
                     "Take the corner out, or end the move farther on."});
        if (hasLength(first)) put(first);
        return;
    }
    Item item;
    item.move = first;
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

void PathRecorder::put(const Move& move) {
    if (!waiting()) {
        out_.moves.push_back(move);
        rest_ = move.to;
        return;
    }
    Item item;
    item.move = move;
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
    if (!setting_) writeQueue();
}

void PathRecorder::reportCorner(const CornerFit& fit, const Move& first, const Move* next, const OpenCorner& corner) {
    const std::string what =
        fmt::format("{} {}", corner.wish.fillet ? "fillet of radius" : "chamfer of", figure(corner.wish.size));
    Remark remark{Severity::Stop, "corner-does-not-fit", {}, "Make the corner smaller or the moves longer."};
    switch (fit.fault) {
        case CornerFit::Fault::LegTooShort:
        case CornerFit::Fault::TooLarge: {
            const double largest = largestCorner(stretchOf(first), stretchOf(*next), corner.wish.fillet);
            const bool legShort = fit.fault == CornerFit::Fault::LegTooShort;
            remark.message = fmt::format("A {} {}; the largest that fits is {} mm. The corner was left sharp.", what,
                                         legShort ? fmt::format("takes {} mm of a move that has only {} mm",
                                                                figure(fit.needMm), figure(fit.haveMm))
                                                  : "does not reach both moves",
                                         figure(largest));
            if (legShort) remark.values = {{"need_mm", fit.needMm}, {"have_mm", fit.haveMm}};
            remark.values.emplace_back("largest_mm", largest);
            break;
        }
        case CornerFit::Fault::OtherWay:
            remark.message = fmt::format(
                "The sign of this {} says that the next move goes to the other side; the "
                "corner was left sharp.",
                what);
            remark.remedy = "Correct the sign, or the move.";
            break;
        default:
            remark.message = fmt::format(
                "A {} needs a next feed move that turns away from this one; the corner was left sharp.", what);
            remark.remedy = "Program the next move as G01, G02 or G03 in another direction, or take the corner out.";
    }
    remarks_.at(first.block, corner.word, std::move(remark));
}

void PathRecorder::startCompensation(const CompensationSetting& setting, Point reckoned) {
    // A corner between an uncompensated and a compensated move is not modelled: it is reported and left sharp.
    if (corner_) settle();
    setting_ = setting;
    reckoned_ = reckoned;
    cancelling_ = false;
}

void PathRecorder::cancelCompensation() {
    cancelling_ = setting_.has_value();
}

Point PathRecorder::settle() {
    if (corner_) {
        const OpenCorner corner = *corner_;
        corner_.reset();
        CornerFit fit;
        fit.fault = CornerFit::Fault::NoCorner;
        reportCorner(fit, queue_[corner.item].move, nullptr, corner);
    }
    if (setting_) {
        flush(false);
    } else {
        writeQueue();
    }
    programmed_ = rest_;
    return rest_;
}

void PathRecorder::flush(bool cancelled) {
    std::vector<PathElement> elements;
    for (std::size_t i = 0; i < queue_.size(); ++i) {
        const Move& move = queue_[i].move;
        if (queue_[i].kind != Item::Kind::Move || !isMovement(move.kind)) continue;
        elements.push_back({move.from + reckoned_, move.to + reckoned_, move.centre + reckoned_, move.kind,
                            static_cast<std::uint32_t>(i)});
    }
    if (elements.empty()) {
        writeQueue();
    } else {
        std::vector<CompensationIssue> issues;
        const std::vector<PathElement> path = compensate(elements, *setting_, cancelled, issues);
        reportIssues(issues);
        writeCompensated(path);
    }
    setting_.reset();
    cancelling_ = false;
}

void PathRecorder::writeCompensated(const std::vector<PathElement>& path) {
    std::size_t next = 0;
    const auto writeElement = [&] {
        const PathElement& element = path[next++];
        Item item = queue_[element.tag];
        item.move.kind = element.kind;
        item.move.from = rest_;
        item.move.to = element.to - reckoned_;
        item.move.centre = isArc(element.kind) ? element.centre - reckoned_ : Point{};
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

void PathRecorder::write(const Item& item) {
    const auto at = static_cast<std::uint32_t>(out_.moves.size());
    switch (item.kind) {
        case Item::Kind::Move:
            out_.moves.push_back(item.move);
            // What only takes time stands where the tool has got to by now.
            if (!isMovement(item.move.kind)) out_.moves.back().from = out_.moves.back().to = rest_;
            rest_ = out_.moves.back().to;
            break;
        case Item::Kind::Step:
            out_.steps.push_back({item.move.block, at});
            break;
        case Item::Kind::Stop:
            out_.stops.push_back({item.stop, item.move.block, at});
            break;
    }
}

void PathRecorder::reportIssues(const std::vector<CompensationIssue>& issues) {
    for (const CompensationIssue& issue : issues) {
        assert(issue.tag < queue_.size());
        const BlockId block = queue_[issue.tag].move.block;
        const std::string radius = figure(setting_->noseRadius);
        const std::string amount = figure(issue.amountMm);
        switch (issue.kind) {
            case CompensationIssue::Kind::InsideArcTooSmall:
                remarks_.at(block,
                            {Severity::Stop,
                             "compensation-arc-too-small",
                             fmt::format("The nose radius of {} mm does not fit into this arc: it is {} mm too large.",
                                         radius, amount),
                             "Use an insert with a smaller nose radius, or make the arc larger.",
                             {{"nose_radius_mm", setting_->noseRadius}, {"excess_mm", issue.amountMm}}});
                break;
            case CompensationIssue::Kind::NoRoom:
                remarks_.at(block,
                            {Severity::Stop,
                             "compensation-no-room",
                             fmt::format("With a nose radius of {} mm there is no room for this move: it would turn "
                                         "back by {} mm and cut into the part.",
                                         radius, amount),
                             "Make the step, groove or lead-in longer than the nose radius needs, or use a smaller "
                             "nose radius. Check G41/G42 and the tip number.",
                             {{"nose_radius_mm", setting_->noseRadius}, {"excess_mm", issue.amountMm}}});
                break;
            case CompensationIssue::Kind::StartOnArc:
                remarks_.at(block, {Severity::Stop, "compensation-starts-on-arc",
                                    "Nose-radius compensation cannot be switched on in an arc.",
                                    "Give G41 or G42 before a straight approach with G00 or G01."});
                break;
            case CompensationIssue::Kind::CancelOnArc:
                remarks_.at(block, {Severity::Stop, "compensation-ends-on-arc",
                                    "Nose-radius compensation cannot be cancelled in an arc.",
                                    "Give G40 with a straight move away from the part, G00 or G01."});
                break;
        }
    }
}

}  // namespace firstoff
