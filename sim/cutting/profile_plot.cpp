#include "sim/cutting/profile_plot.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <span>

namespace firstoff {

namespace {

// Heights below this are rounding, mm; a profile as flat as that is drawn as a straight line.
constexpr double kFlatMm = 1e-6;

// Points of one stretch, in order.
class Stretch {
public:
    explicit Stretch(std::vector<PlotPoint>& line) : line_(line) {}

    void take(PlotPoint p) {
        if (!any_) first_ = lowest_ = highest_ = p;
        if (p.height < lowest_.height) lowest_ = p;
        if (p.height > highest_.height) highest_ = p;
        last_ = p;
        any_ = true;
    }

    void finish() {
        if (!any_) return;
        const bool fallsFirst = lowest_.along < highest_.along;
        for (const PlotPoint& p : {first_, fallsFirst ? lowest_ : highest_, fallsFirst ? highest_ : lowest_, last_}) {
            if (line_.empty() || p.along > line_.back().along) line_.push_back(p);
        }
        any_ = false;
    }

private:
    std::vector<PlotPoint>& line_;
    PlotPoint first_, lowest_, highest_, last_;
    bool any_ = false;
};

// Points must come in order.
class Thinned {
public:
    Thinned(double length, int columns) : width_(length / columns), stretch_(line_) {}

    void take(PlotPoint p) {
        const auto column = static_cast<long>(p.along / width_);
        if (column != column_) stretch_.finish();
        column_ = column;
        stretch_.take(p);
    }

    std::vector<PlotPoint> line() {
        stretch_.finish();
        return std::move(line_);
    }

private:
    double width_;
    long column_ = 0;
    std::vector<PlotPoint> line_;
    Stretch stretch_;
};

double largestRound(std::span<const double> steps, double most) {
    const double decade = std::pow(10.0, std::floor(std::log10(most)));
    double best = steps.front() * decade;
    for (double step : steps) {
        if (step * decade <= most * (1 + 1e-9)) best = step * decade;
    }
    return best;
}

}  // namespace

std::vector<PlotPoint> plotLine(const SurfaceProfile& profile, int columns) {
    assert(profile.heights.size() >= 2 && columns >= 1);
    Thinned thinned(profile.length(), columns);
    auto peak = profile.peaks.begin();
    for (std::size_t i = 0; i < profile.heights.size(); ++i) {
        const double along = profile.step * static_cast<double>(i);
        for (; peak != profile.peaks.end() && peak->at < along; ++peak) thinned.take({peak->at, peak->height});
        thinned.take({along, profile.heights[i]});
    }
    return thinned.line();
}

ProfilePlot profilePlot(const SurfaceProfile& profile, const Roughness& roughness, int columns) {
    ProfilePlot plot;
    plot.line = plotLine(profile, columns);
    plot.length = profile.length();
    const auto [low, high] = std::minmax_element(plot.line.begin(), plot.line.end(),
                                                 [](PlotPoint a, PlotPoint b) { return a.height < b.height; });
    plot.lowest = low->height;
    plot.highest = high->height;
    const SurfaceProfile mean{profile.step, meanLineOf(profile, roughness), {}};
    if (mean.heights.size() >= 2) plot.meanLine = plotLine(mean, columns);
    for (PlotPoint& p : plot.meanLine) p.along += roughness.from;
    for (int i = 0; i <= roughness.sections; ++i) {
        const double part = static_cast<double>(i) / roughness.sections;
        plot.sections.push_back(roughness.from + part * (roughness.to - roughness.from));
    }
    return plot;
}

double roundMagnification(double most) {
    static constexpr std::array<double, 8> kSteps{1, 1.5, 2, 3, 4, 5, 6, 8};
    return most > 1 ? largestRound(kSteps, most) : 1;
}

PlotScale plotScale(const ProfilePlot& plot, double width, double height) {
    static constexpr std::array<double, 6> kLength{1, 2, 2.5, 4, 5, 8};
    PlotScale scale;
    const double rise = std::max(plot.highest - plot.lowest, kFlatMm);
    scale.length = largestRound(kLength, std::min(width / plot.length, height / rise));
    scale.magnified = roundMagnification(height / rise / scale.length);
    return scale;
}

double tickStep(double least) {
    assert(least > 0);
    static constexpr std::array<double, 3> kSteps{1, 2, 5};
    const double decade = std::pow(10.0, std::floor(std::log10(least)));
    for (double step : kSteps) {
        if (step * decade >= least * (1 - 1e-9)) return step * decade;
    }
    return 10 * decade;
}

}  // namespace firstoff
