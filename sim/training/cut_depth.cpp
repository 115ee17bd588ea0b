#include "sim/training/cut_depth.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/base/tolerances.h"

namespace firstoff {

std::optional<double> depthAlong(const Trial& trial, std::size_t index) {
    constexpr int kPlaces = 25;  // the middle one is then hardly moved by what stands at one end
    const TimedMove& timed = trial.timeline.moves[index];
    const Point way = timed.to - timed.from;
    if (!trial.stock || std::abs(way.z) <= std::abs(way.r)) return std::nullopt;
    StockCursor before(trial.stock, StockCursor::Detail::Envelope), after(trial.stock, StockCursor::Detail::Envelope);
    before.seek(static_cast<std::uint32_t>(index), 0);
    after.seek(static_cast<std::uint32_t>(index) + 1, 0);
    const double tipZ = trial.toolpath.tipShift(trial.toolpath.moves[timed.move]).z;
    std::vector<double> depths;
    for (int i = 0; i < kPlaces; ++i) {
        const double z = timed.from.z + tipZ + way.z * (i + 0.5) / kPlaces;
        const Interval was = before.outermostAt(z), is = after.outermostAt(z);
        const double depth = std::max(was.outer - is.outer, is.inner - was.inner);
        if (depth > tolerance::kTouchMm) depths.push_back(depth);
    }
    if (depths.empty()) return std::nullopt;
    const auto middle = depths.begin() + static_cast<std::ptrdiff_t>(depths.size() / 2);
    std::nth_element(depths.begin(), middle, depths.end());
    return *middle;
}

}  // namespace firstoff
