#include "gui/frame_times.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace firstoff::gui {

double FrameTimes::percentile(double share) const {
    if (seconds_.empty()) return 0;
    std::vector<double> sorted = seconds_;
    const double rank = std::ceil(share * static_cast<double>(sorted.size())) - 1;
    const auto at = static_cast<std::ptrdiff_t>(std::clamp(rank, 0.0, static_cast<double>(sorted.size() - 1)));
    std::nth_element(sorted.begin(), sorted.begin() + at, sorted.end());
    return sorted[static_cast<std::size_t>(at)];
}

double FrameTimes::framesPerSecond() const {
    const double sum = std::accumulate(seconds_.begin(), seconds_.end(), 0.0);
    return sum > 0 ? static_cast<double>(seconds_.size()) / sum : 0;
}

std::string FrameTimes::report() const {
    std::string text = fmt::format("frames {}   frames per second {:.1f}\n", seconds_.size(), framesPerSecond());
    text += fmt::format("frame time ms: median {:.1f}   90 % {:.1f}   99 % {:.1f}   worst {:.1f}\n",
                        1e3 * percentile(0.5), 1e3 * percentile(0.90), 1e3 * percentile(0.99), 1e3 * percentile(1));
    // Upper ends of the classes, ms: from 1,000 frames a second down to 4.
    static constexpr double kEnds[] = {1, 2, 4, 8, 16.7, 25, 33.3, 50, 100, 250};
    double from = 0;
    const auto row = [&](double to, const std::string& label) {
        const auto count =
            std::count_if(seconds_.begin(), seconds_.end(), [&](double s) { return s * 1e3 > from && s * 1e3 <= to; });
        const auto bar = static_cast<std::size_t>(std::lround(
            50.0 * static_cast<double>(count) / static_cast<double>(std::max<std::size_t>(1, seconds_.size()))));
        text += fmt::format("{:>12} ms {:>6} {}\n", label, count, std::string(bar, '#'));
        from = to;
    };
    for (const double end : kEnds) row(end, fmt::format("{:g}–{:g}", from, end));
    row(1e300, fmt::format("over {:g}", from));
    return text;
}

}  // namespace firstoff::gui
