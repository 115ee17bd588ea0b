#include "sim/trial/metal_time.h"

#include "sim/trial/tool_moves.h"

namespace firstoff {

std::vector<Range> stretchesInMetal(const Machining& m, const LoadResult& loads, std::uint32_t timed) {
    if (!m.stock || !isAtFeed(m.timeline.moves[timed].kind) || !takesMetal(m, timed)) return {};
    const LoadRun* run = loads.runOf(timed);
    if (run == nullptr) return {{0, 1}};
    std::vector<Range> stretches;
    for (std::uint32_t i = run->first; i + 1 < run->first + run->count; ++i) {
        const LoadSample &from = loads.samples[i], &to = loads.samples[i + 1];
        // Between two samples every figure runs evenly: there is none only where both have none.
        if (!(from.chipAreaMm2 > 0) && !(to.chipAreaMm2 > 0)) continue;
        const double start = double{from.fraction}, end = double{to.fraction};
        if (stretches.empty() || stretches.back().max < start) stretches.push_back({start, start});
        stretches.back().max = end;
    }
    return stretches;
}

double secondsInMetal(const Machining& m, const LoadResult& loads, std::uint32_t timed) {
    const TimedMove& move = m.timeline.moves[timed];
    const auto at = [&](double fraction) {
        if (fraction <= 0) return move.t0;
        return fraction >= 1 ? move.t1 : timeAt(move, m.toolpath, m.setup, fraction);
    };
    double seconds = 0;
    for (const Range& stretch : stretchesInMetal(m, loads, timed)) seconds += at(stretch.max) - at(stretch.min);
    return seconds;
}

}  // namespace firstoff
