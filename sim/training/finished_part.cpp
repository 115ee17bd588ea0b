#include "sim/training/finished_part.h"

#include <algorithm>

namespace firstoff {

int pieceOfPart(const Trial& trial) {
    const std::vector<GaugedDimension>& gauged = trial.gauged.dimensions;
    if (!gauged.empty()) return trial.gauged.piece;
    if (!trial.stock || trial.stock->severances().empty()) return 0;
    const std::vector<Severance>& fallen = trial.stock->severances();
    return std::max_element(fallen.begin(), fallen.end(),
                            [](const Severance& a, const Severance& b) { return a.volumeMm3 < b.volumeMm3; })
        ->piece;
}

PartOutline finishedOutline(const Trial& trial, int piece) {
    PartOutline outline;
    if (!trial.stock) return outline;
    StockCursor cursor(trial.stock, StockCursor::Detail::Envelope);
    cursor.seek(static_cast<std::uint32_t>(trial.timeline.moves.size()), 0);
    for (const SectionContour& contour : cursor.contours()) {
        if (contour.piece == piece) outline.add(contour.outline, contour.cuts);
    }
    return outline;
}

std::optional<double> diameterAt(const PartOutline& outline, double z, bool inside) {
    if (outline.empty()) return std::nullopt;
    const double far = outline.box().rMax + 1;
    const std::vector<OutlineHit> hits =
        inside ? outline.hits({z, 0}, {0, 1}, 0, far) : outline.hits({z, far}, {0, -1}, 0, far);
    if (hits.empty() || hits.front().leavesMetal) return std::nullopt;  // from the axis on solid metal comes first
    return 2 * hits.front().at.r;
}

}  // namespace firstoff
