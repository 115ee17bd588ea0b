#include "sim/cutting/edge_life.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

namespace {

constexpr double kSecondsPerMin = 60;

// A place on a timed move and what is cut there.
struct Place {
    double fraction = 0;
    double revPerMin = 0;
    double slowness = 0;  // time for a little way there, in any unit
    double mPerMin = 0;   // 0: no metal
};

class Uses {
public:
    Uses(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup, const LoadResult& loads)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), loads_(loads), byTool_(setup.tools.size()) {}

    std::vector<EdgeUse> find() {
        for (const LoadRun& run : loads_.runs) add(run);
        std::vector<EdgeUse> uses;
        for (std::size_t i = 0; i < byTool_.size(); ++i) {
            if (byTool_[i].cuttingS <= 0) continue;
            finish(byTool_[i], setup_.tools[i], static_cast<int>(i));
            uses.push_back(byTool_[i]);
        }
        return uses;
    }

private:
    void add(const LoadRun& run) {
        const TimedMove& timed = timeline_.moves[run.timedMove];
        const Move& move = toolpath_.moves[timed.move];
        const int index = toolpath_.calls[move.call].toolIndex;
        if (index < 0 || run.count < 2 || timed.t1 <= timed.t0) return;
        const Tool& tool = setup_.tools[static_cast<std::size_t>(index)];
        EdgeUse& use = byTool_[static_cast<std::size_t>(index)];
        lay(run, timed, move, tool);
        double whole = 0;
        for (std::size_t i = 1; i < places_.size(); ++i) whole += timeBetween(i);
        if (whole <= 0) return;
        const double scale = (timed.t1 - timed.t0) / whole;
        for (std::size_t i = 1; i < places_.size(); ++i) addStretch(use, tool, i, timeBetween(i) * scale);
    }

    // The samples, and air up to the ends of the move where they do not reach there.
    void lay(const LoadRun& run, const TimedMove& timed, const Move& move, const Tool& tool) {
        places_.clear();
        const bool byTurns = move.kind == MoveKind::Thread || toolpath_.modals[move.modal].feedPerRev;
        const auto put = [&](double fraction, double mPerMin, double revPerMin) {
            places_.push_back({fraction, revPerMin, byTurns && revPerMin > 0 ? 1 / revPerMin : 1, mPerMin});
        };
        const LoadSample* samples = &loads_.samples[run.first];
        // Before the first sample and past the last nothing is cut.
        const auto putAir = [&](double fraction) { put(fraction, 0, revPerMinAt(timed, toolpath_, setup_, fraction)); };
        if (samples[0].fraction > 0) {
            putAir(0);
            putAir(double{samples[0].fraction});
        }
        for (std::uint32_t i = 0; i < run.count; ++i) {
            const LoadSample& s = samples[i];
            const double revPerMin = revPerMinAt(timed, toolpath_, setup_, double{s.fraction});
            const double radius = worksOnTheAxis(tool.kind) ? tool.diameter / 2 : double{s.farthestR};
            put(double{s.fraction}, s.widthMm > 0 ? surfaceSpeedMPerMin(revPerMin, radius) : 0, revPerMin);
        }
        if (const double last = places_.back().fraction; last < 1) {
            putAir(last);
            putAir(1);
        }
    }

    double timeBetween(std::size_t i) const {
        const Place &a = places_[i - 1], &b = places_[i];
        return (b.fraction - a.fraction) * (a.slowness + b.slowness) / 2;
    }

    // Between two samples the speed is the mean of both; where only one of them has metal, half the time counts.
    void addStretch(EdgeUse& use, const Tool& tool, std::size_t i, double seconds) const {
        const double a = places_[i - 1].mPerMin, b = places_[i].mPerMin;
        const int inMetal = (a > 0) + (b > 0);
        if (inMetal == 0) return;
        const double speed = (a + b) / inMetal, time = seconds * inMetal / 2;
        use.cuttingS += time;
        use.lengthM += speed * time / kSecondsPerMin;
        use.greatestMPerMin = std::max({use.greatestMPerMin, a, b});
        if (tool.taylorN <= 0 || tool.taylorC <= 0) return;
        use.share = use.share.value_or(0) + time / kSecondsPerMin / taylorLifeMin(speed, tool.taylorN, tool.taylorC);
    }

    static void finish(EdgeUse& use, const Tool& tool, int index) {
        use.toolIndex = index;
        if (!use.share || *use.share <= 0) return;
        use.partsPerEdge = 1 / *use.share;
        if (tool.edgesPerInsert > 0) use.partsPerInsert = *use.partsPerEdge * tool.edgesPerInsert;
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const LoadResult& loads_;
    std::vector<EdgeUse> byTool_;
    std::vector<Place> places_;
};

}  // namespace

std::vector<EdgeUse> edgeUses(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                              const LoadResult& loads) {
    return Uses(timeline, toolpath, setup, loads).find();
}

double taylorLifeMin(double speedMPerMin, double n, double c) {
    assert(speedMPerMin > 0 && n > 0 && c > 0);
    return std::pow(c / speedMPerMin, 1 / n);
}

double taylorSpeedMPerMin(double lifeMin, double n, double c) {
    assert(lifeMin > 0 && n > 0 && c > 0);
    return c / std::pow(lifeMin, n);
}

double taylorExponent(double firstMPerMin, double firstMin, double secondMPerMin, double secondMin) {
    assert(firstMPerMin > 0 && firstMin > 0 && secondMPerMin > 0 && secondMin > 0 && firstMin != secondMin);
    return std::log(firstMPerMin / secondMPerMin) / std::log(secondMin / firstMin);
}

}  // namespace firstoff
