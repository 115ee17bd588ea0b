#include "gui/section/area_strips.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace firstoff::gui {

namespace {

// An edge that is not upright, from left to right.
struct Slope {
    Point a, b;
    double at(double z) const { return a.r + (b.r - a.r) * (z - a.z) / (b.z - a.z); }
};

std::vector<Slope> slopesOf(const std::vector<PlaneLoop>& loops) {
    std::vector<Slope> slopes;
    for (const PlaneLoop& loop : loops) {
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const Point a = loop[i], b = loop[i + 1 < loop.size() ? i + 1 : 0];
            if (a.z < b.z) slopes.push_back({a, b});
            if (b.z < a.z) slopes.push_back({b, a});
        }
    }
    std::sort(slopes.begin(), slopes.end(), [](const Slope& s, const Slope& t) {
        if (s.a.z != t.a.z) return s.a.z < t.a.z;
        return s.a.r != t.a.r ? s.a.r < t.a.r : s.b.r < t.b.r;
    });
    return slopes;
}

}  // namespace

std::vector<AreaStrip> stripsOf(const std::vector<PlaneLoop>& loops) {
    std::vector<AreaStrip> strips;
    const std::vector<Slope> slopes = slopesOf(loops);
    std::vector<double> cuts;
    for (const Slope& slope : slopes) {
        cuts.push_back(slope.a.z);
        cuts.push_back(slope.b.z);
    }
    std::sort(cuts.begin(), cuts.end());
    cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
    std::vector<Slope> across;  // that cross the strip
    std::size_t next = 0;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        const double z0 = cuts[i], z1 = cuts[i + 1], middle = 0.5 * (z0 + z1);
        std::erase_if(across, [&](const Slope& s) { return s.b.z <= z0; });
        for (; next < slopes.size() && slopes[next].a.z <= z0; ++next) across.push_back(slopes[next]);
        std::sort(across.begin(), across.end(),
                  [&](const Slope& s, const Slope& t) { return s.at(middle) < t.at(middle); });
        for (std::size_t k = 0; k + 1 < across.size(); k += 2) {
            strips.push_back({z0, z1, across[k].at(z0), across[k].at(z1), across[k + 1].at(z0), across[k + 1].at(z1)});
        }
    }
    return strips;
}

std::vector<std::pair<Point, Point>> hatching(const std::vector<PlaneLoop>& loops, double apart) {
    // In coordinates turned by 45 degrees the lines are level: s = (z - r) / sqrt 2 across them, t along.
    struct Edge {
        double s0, t0, s1, t1;
    };
    std::vector<Edge> edges;
    double least = 0, most = 0;
    bool any = false;
    const auto turned = [](Point p) {
        return Point{(p.z - p.r) / std::numbers::sqrt2, (p.z + p.r) / std::numbers::sqrt2};
    };
    for (const PlaneLoop& loop : loops) {
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const Point a = turned(loop[i]), b = turned(loop[i + 1 < loop.size() ? i + 1 : 0]);
            least = any ? std::min(least, a.z) : a.z;
            most = any ? std::max(most, a.z) : a.z;
            any = true;
            if (a.z != b.z) edges.push_back({a.z, a.r, b.z, b.r});
        }
    }
    constexpr double kMostLines = 4000;  // finer is a grey that says nothing
    std::vector<std::pair<Point, Point>> lines;
    if (!any || !(apart > 0) || (most - least) / apart > kMostLines) return lines;
    const double first = std::ceil(least / apart);
    std::vector<std::vector<double>> crossings(static_cast<std::size_t>(std::max(0.0, most / apart - first + 1)) + 1);
    for (const Edge& e : edges) {
        const double low = std::min(e.s0, e.s1), high = std::max(e.s0, e.s1);
        // Half open, so that a line through a corner crosses there once or not at all.
        for (double k = std::ceil(low / apart); k * apart < high; ++k) {
            const double share = (k * apart - e.s0) / (e.s1 - e.s0);
            const auto row = static_cast<std::size_t>(k - first);
            if (row < crossings.size()) crossings[row].push_back(e.t0 + share * (e.t1 - e.t0));
        }
    }
    for (std::size_t row = 0; row < crossings.size(); ++row) {
        std::vector<double>& t = crossings[row];
        std::sort(t.begin(), t.end());
        const double s = (first + static_cast<double>(row)) * apart;
        const auto back = [&](double along) {
            return Point{(along + s) / std::numbers::sqrt2, (along - s) / std::numbers::sqrt2};
        };
        for (std::size_t i = 0; i + 1 < t.size(); i += 2) lines.emplace_back(back(t[i]), back(t[i + 1]));
    }
    return lines;
}

}  // namespace firstoff::gui
