#include "sim/setup/centre_drill_sizes.h"

#include <array>
#include <cmath>

namespace firstoff {

namespace {

constexpr std::array<CentreDrillSize, 11> kSizes{{{1.0, 1.3, 3.15, 4, 2.12},
                                                  {1.25, 1.6, 3.15, 5, 2.65},
                                                  {1.6, 2.0, 4, 6.3, 3.35},
                                                  {2.0, 2.5, 5, 8, 4.25},
                                                  {2.5, 3.1, 6.3, 10, 5.3},
                                                  {3.15, 3.9, 8, 11.2, 6.7},
                                                  {4.0, 5.0, 10, 14, 8.5},
                                                  {5.0, 6.3, 12.5, 18, 10.6},
                                                  {6.3, 8.0, 16, 20, 13.2},
                                                  {8.0, 10.1, 20, 25, 17},
                                                  {10.0, 12.8, 25, 31.5, 21.2}}};

}  // namespace

std::optional<CentreDrillSize> centreDrillSize(double pilotMm) {
    for (const CentreDrillSize& size : kSizes) {
        if (std::abs(size.pilotMm - pilotMm) < 0.005) return size;
    }
    return std::nullopt;
}

}  // namespace firstoff
