#include "sim/output/sheets/balloons.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

#include "sim/output/sheets/sketch_marks.h"

namespace firstoff {

namespace {

// Least squares with a least distance between neighbours: stretches that push one another stand about the mean of what
// they would like (pool adjacent violators).
std::vector<double> spread(const std::vector<double>& wishes) {
    struct Pool {
        double sum = 0;
        std::size_t count = 0;
        double mean() const { return sum / static_cast<double>(count); }
    };
    std::vector<Pool> pools;
    for (std::size_t i = 0; i < wishes.size(); ++i) {
        Pool pool{wishes[i] - kBalloonPitchMm * static_cast<double>(i), 1};
        while (!pools.empty() && pools.back().mean() > pool.mean()) {
            pool.sum += pools.back().sum;
            pool.count += pools.back().count;
            pools.pop_back();
        }
        pools.push_back(pool);
    }
    std::vector<double> places;
    for (const Pool& pool : pools) {
        for (std::size_t i = 0; i < pool.count; ++i) {
            places.push_back(pool.mean() + kBalloonPitchMm * static_cast<double>(places.size()));
        }
    }
    return places;
}

void keepWithin(std::vector<double>& places, double x0, double x1) {
    double least = x0;
    for (double& x : places) {
        x = std::max(x, least);
        least = x + kBalloonPitchMm;
    }
    double most = x1;
    for (auto x = places.rbegin(); x != places.rend(); ++x) {
        *x = std::min(*x, most);
        most = *x - kBalloonPitchMm;
    }
}

double side(PaperPoint a, PaperPoint b, PaperPoint p) {
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

double lengthOf(PaperPoint a, PaperPoint b) {
    return std::hypot(b.x - a.x, b.y - a.y);
}

bool doCross(const Balloon& a, const Balloon& b) {
    const bool apart = side(a.knee, a.place, b.knee) * side(a.knee, a.place, b.place) >= 0 ||
                       side(b.knee, b.place, a.knee) * side(b.knee, b.place, a.place) >= 0;
    if (apart) return false;
    // Only where it helps, so that rounding cannot make two of them change places for ever.
    constexpr double kHelpsMm = 1e-9;
    return lengthOf(a.knee, a.place) + lengthOf(b.knee, b.place) >
           lengthOf(a.knee, b.place) + lengthOf(b.knee, a.place) + kHelpsMm;
}

void uncross(std::vector<Balloon>& balloons) {
    for (bool again = true; again;) {
        again = false;
        for (std::size_t i = 0; i < balloons.size(); ++i) {
            for (std::size_t j = i + 1; j < balloons.size(); ++j) {
                if (!doCross(balloons[i], balloons[j])) continue;
                std::swap(balloons[i].knee, balloons[j].knee);
                std::swap(balloons[i].centre, balloons[j].centre);
                again = true;
            }
        }
    }
}

}  // namespace

std::size_t balloonsInRow(double x0, double x1) {
    return x1 < x0 ? 0 : static_cast<std::size_t>((x1 - x0) / kBalloonPitchMm) + 1;
}

void placeBalloons(std::vector<Balloon>& balloons, double y, double x0, double x1) {
    if (balloons.empty()) return;
    assert(balloons.size() <= balloonsInRow(x0, x1));
    std::stable_sort(balloons.begin(), balloons.end(), [](const Balloon& a, const Balloon& b) {
        return std::pair(a.place.x, a.place.y) < std::pair(b.place.x, b.place.y);
    });
    const double down = balloons.front().place.y > y ? 1 : -1;
    std::vector<double> wishes;
    for (const Balloon& b : balloons) wishes.push_back(b.place.x);
    std::vector<double> places = spread(wishes);
    keepWithin(places, x0, x1);
    for (std::size_t i = 0; i < balloons.size(); ++i) {
        Balloon& b = balloons[i];
        b.centre = {places[i], y};
        b.knee = {places[i], y + down * (kBalloonRadiusMm + kBalloonStubMm)};
        assert((b.place.y - b.knee.y) * down > 0);
    }
    uncross(balloons);
}

void addBalloonWithLeader(Sketch& sketch, const Balloon& balloon) {
    sketch.marks.push_back(Stroke{LineKind::Narrow, Shade::None, false, {balloon.centre, balloon.knee, balloon.place}});
    addArrowHead(sketch, balloon.knee, balloon.place);
    addBalloon(sketch, balloon.centre, balloon.number);
}

}  // namespace firstoff
