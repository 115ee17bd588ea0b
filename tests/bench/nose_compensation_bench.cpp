// Nose-radius compensation of a million moves, alone and with the search for gouges behind it: what the search costs is
// the ratio of the two rows of one run. Waves that rise and fall by 6 mm, and grooves of 2 mm one beside the other.
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdint>
#include <vector>

#include "sim/control/nose_gouge.h"

namespace firstoff {
namespace {

constexpr std::uint32_t kMoves = 1'000'000;

class Contour {
public:
    void to(Point p) {
        elements_.push_back({at_, p, {}, MoveKind::Feed, static_cast<std::uint32_t>(elements_.size())});
        at_ = p;
    }
    const std::vector<PathElement>& elements() const { return elements_; }

private:
    std::vector<PathElement> elements_;
    Point at_{5, 30};
};

std::vector<PathElement> waves() {
    Contour contour;
    contour.to({2, 20});
    for (std::uint32_t i = 1; i < kMoves; ++i) contour.to({2 - 0.01 * i, 20 + 3 * std::sin(0.002 * i)});
    return contour.elements();
}

std::vector<PathElement> grooves() {
    Contour contour;
    contour.to({2, 20});
    for (std::uint32_t i = 0; i < kMoves / 4; ++i) {
        const double z = 2 - 3.0 * i;
        contour.to({z - 1, 20});
        contour.to({z - 1, 15});
        contour.to({z - 3, 15});
        contour.to({z - 3, 20});
    }
    return contour.elements();
}

void compensation(benchmark::State& state, const std::vector<PathElement>& elements) {
    const CompensationSetting setting{Compensation::Right, 0.8, 3};
    std::size_t gouges = 0;
    for (auto _ : state) {
        std::vector<CompensationIssue> issues;
        const auto path = compensate(elements, setting, false, issues);
        if (state.range(0) != 0) gouges = noseGouges(elements, path, setting, false, issues).size();
        benchmark::DoNotOptimize(path.data());
    }
    state.counters["gouges"] = static_cast<double>(gouges);
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(elements.size()));
}

void compensateWaves(benchmark::State& state) {
    compensation(state, waves());
}
void compensateGrooves(benchmark::State& state) {
    compensation(state, grooves());
}
BENCHMARK(compensateWaves)->ArgName("search")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);
BENCHMARK(compensateGrooves)->ArgName("search")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace firstoff
