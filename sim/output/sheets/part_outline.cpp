#include "sim/output/sheets/part_outline.h"

#include <algorithm>

namespace firstoff {

std::vector<Loop> blankLoops(const Trial& trial, double toleranceMm) {
    if (!trial.stock) return {};
    StockCursor cursor(trial.stock);
    cursor.seek(0, 0);
    return cursor.section(toleranceMm);
}

std::vector<Loop> finishedLoops(const Trial& trial, double toleranceMm, StockCursor::Detail detail) {
    if (!trial.stock) return {};
    StockCursor cursor(trial.stock, detail);
    cursor.seek(static_cast<std::uint32_t>(trial.timeline.moves.size()), 0);
    return cursor.section(toleranceMm);
}

std::vector<Loop> loopsOf(std::vector<Loop> loops, int piece) {
    std::erase_if(loops, [&](const Loop& loop) { return loop.piece != piece; });
    return loops;
}

Box boundingBox(const std::vector<Loop>& loops) {
    Box box;
    bool first = true;
    for (const Loop& loop : loops) {
        for (Point p : loop.points) {
            if (first) box = {p.z, p.z, p.r, p.r};
            first = false;
            box.zMin = std::min(box.zMin, p.z);
            box.zMax = std::max(box.zMax, p.z);
            box.rMin = std::min(box.rMin, p.r);
            box.rMax = std::max(box.rMax, p.r);
        }
    }
    return box;
}

}  // namespace firstoff
