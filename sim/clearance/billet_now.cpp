#include "sim/clearance/billet_now.h"

#include <algorithm>

#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

// Beyond what the tool itself reaches: columns stand half a pitch to either side, and reaches are kept as float.
constexpr double kBesideMm = 0.05;

Box cuttingBox(const Tool& tool) {
    Box box = boundingBox(tool.cutting);
    for (const Outline& step : tool.steps) {
        const Box more = boundingBox(step);
        box.zMin = std::min(box.zMin, more.zMin);
        box.zMax = std::max(box.zMax, more.zMax);
    }
    return box;
}

bool bulges(MoveKind kind) {
    return kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

}  // namespace

std::vector<CutReach> cutReaches(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                 const StockHistory& stock) {
    std::vector<CutReach> reaches(timeline.moves.size());
    for (std::size_t i = 0; i < timeline.moves.size(); ++i) {
        const TimedMove& timed = timeline.moves[i];
        const Move& move = toolpath.moves[timed.move];
        const int toolIndex = toolpath.calls[move.call].toolIndex;
        if (toolIndex < 0 || stock.cuts()[i].removedMm3 <= 0) continue;
        const Tool& tool = setup.tools[static_cast<std::size_t>(toolIndex)];
        if (tool.cutting.empty()) continue;
        const Box box = cuttingBox(tool);
        double from = std::min(timed.from.z, timed.to.z), to = std::max(timed.from.z, timed.to.z);
        if (bulges(timed.kind)) {
            const double radius = std::max(distance(timed.centre, timed.from), distance(timed.centre, timed.to));
            from = std::min(from, timed.centre.z - radius);
            to = std::max(to, timed.centre.z + radius);
        }
        const double tip = toolpath.tipShift(move).z;
        reaches[i] = {static_cast<float>(from + tip + box.zMin - kBesideMm),
                      static_cast<float>(to + tip + box.zMax + kBesideMm)};
    }
    return reaches;
}

BilletNow::BilletNow(std::shared_ptr<const StockHistory> stock, const std::vector<CutReach>& reaches)
    : cursor_(stock, StockCursor::Detail::Envelope), reaches_(reaches) {
    for (const Severance& fall : stock->severances()) falls_.push_back(fall.timedMove);
}

void BilletNow::noteChanges(std::size_t from, std::size_t to) {
    for (std::size_t i = from; i < to && i < reaches_.size(); ++i) {
        if (!reaches_[i].cuts()) continue;
        const bool none = dirtyTo_ < dirtyFrom_;
        dirtyFrom_ = none ? double{reaches_[i].zFrom} : std::min(dirtyFrom_, double{reaches_[i].zFrom});
        dirtyTo_ = none ? double{reaches_[i].zTo} : std::max(dirtyTo_, double{reaches_[i].zTo});
    }
    const auto fall = std::lower_bound(falls_.begin(), falls_.end(), static_cast<std::uint32_t>(from));
    if (fall != falls_.end() && *fall < to) all_ = true;
}

void BilletNow::seek(std::size_t index, double fraction) {
    if (placed_ && index == index_ && fraction == fraction_) return;
    const std::size_t low = placed_ ? std::min(index, index_) : index;
    // The move that either place stands in changes as well.
    const std::size_t high = (placed_ ? std::max(index, index_) : index) + 1;
    noteChanges(low, high);
    cursor_.seek(static_cast<std::uint32_t>(index), fraction);
    index_ = index;
    fraction_ = fraction;
    placed_ = true;
}

const BilletHull& BilletNow::hull() {
    if (all_ || !hull_) {
        hull_.emplace(cursor_.billet());
    } else if (dirtyTo_ >= dirtyFrom_) {
        hull_->update(cursor_.billet(), dirtyFrom_, dirtyTo_);
    }
    all_ = false;
    dirtyFrom_ = 0;
    dirtyTo_ = -1;
    return *hull_;
}

}  // namespace firstoff
