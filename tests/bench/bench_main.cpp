// Without arguments: the table of comparison. With arguments: Google Benchmark's own, e.g.
// --benchmark_filter=wholePath.
#include <benchmark/benchmark.h>

#include <cstdlib>
#include <cstring>

#include "tests/bench/comparison_table.h"

int main(int argc, char** argv) {
    constexpr unsigned kLargest = 10'000'000;
    if (argc == 1) {
        firstoff::bench::printComparison(kLargest);
        return 0;
    }
    if (argc == 3 && std::strcmp(argv[1], "--largest") == 0) {
        firstoff::bench::printComparison(static_cast<unsigned>(std::strtoul(argv[2], nullptr, 10)));
        return 0;
    }
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
    benchmark::RunSpecifiedBenchmarks();
    benchmark::Shutdown();
    return 0;
}
