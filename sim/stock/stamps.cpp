#include "sim/stock/stamps.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace firstoff {

namespace {

double leastUpperSide(const std::vector<Branch>& mirrored, double zMin, double zMax) {
    // Mirrored it is convex, so its greatest value lies at one of the ends.
    const Branch* begin = mirrored.data();
    const Branch* end = begin + mirrored.size();
    const double a = sideAt(begin, end, zMin);
    const double b = sideAt(begin, end, zMax);
    const double greatest = std::max(a, b);
    return std::isfinite(greatest) ? -greatest : -std::numeric_limits<double>::infinity();
}

void addPlaces(const Sweep& sweep, const SpindleTurns& turns, double share, std::vector<Point>& out) {
    // The first n >= 0 at which the sector stands at the tool.
    const double behind = turns.direction * share - turns.from;
    double n = behind - std::floor(behind);
    for (; n < turns.turns; n += 1) out.push_back(sweep.from + turns.shareAfter(n) * (sweep.to - sweep.from));
}

}  // namespace

double SpindleTurns::shareAfter(double n) const {
    if (way > 0) return std::min(1.0, lead.wayAfter(n) / way);
    return turns > 0 ? n / turns : 0;
}

double SpindleTurns::turnsTo(double share) const {
    return way > 0 ? lead.revolutions(share * way) : share * turns;
}

void appendStamps(const Sweep& sweep, const SpindleTurns& turns, const ToolShape& shape, const Grid& grid, int sectors,
                  CutId cut, std::vector<SweepProfile>& profiles, std::vector<Branch>& branches,
                  std::vector<StampRun>& runs) {
    assert(sweep.path == Sweep::Path::Line && turns.turns <= kMostStampedTurns);
    const std::size_t before = profiles.size();
    appendProfiles(sweep, shape, grid, cut, profiles, branches);
    if (profiles.size() == before) return;
    profiles.back().stamps = static_cast<std::int32_t>(runs.size());
    StampRun& run = runs.emplace_back();
    appendOutline(shape.lower, run.lower);
    appendOutline(shape.mirroredUpper, run.upper);
    run.zMin = shape.lower.zMin;
    run.zMax = shape.lower.zMax;
    run.bottom = shape.lower.supports[0].offset;
    run.leastTop = leastUpperSide(run.upper, run.zMin, run.zMax);
    run.rising = sweep.to.z >= sweep.from.z;
    run.begin.reserve(static_cast<std::size_t>(sectors) + 1);
    for (int sector = 0; sector < sectors; ++sector) {
        run.begin.push_back(static_cast<std::uint32_t>(run.places.size()));
        addPlaces(sweep, turns, static_cast<double>(sector) / sectors, run.places);
    }
    run.begin.push_back(static_cast<std::uint32_t>(run.places.size()));
}

}  // namespace firstoff
