#include "sim/cutting/roughness.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>

#include "sim/base/units.h"

namespace firstoff {

namespace {

const double kAlpha = std::sqrt(std::log(2.0) / kPi);

// A spacing is measured to this part of itself, so that marks 0.4 mm apart do not fall now in this class, now in that.
constexpr double kSpacingError = 0.002;

// Below this a profile has no marks, only rounding, mm.
constexpr double kFlat = 1e-10;

// Peaks and valleys lower than this part of Rz do not count for RSm (the usual discrimination, from memory).
constexpr double kCounts = 0.1;

// The height between two places.
double heightAt(const std::vector<double>& heights, double place) {
    const double last = static_cast<double>(heights.size() - 1);
    const double at = std::clamp(place, 0.0, last);
    const auto i = std::min(static_cast<std::size_t>(at), heights.size() - 2);
    return heights[i] + (at - static_cast<double>(i)) * (heights[i + 1] - heights[i]);
}

std::vector<double> meanHeight(const std::vector<double>& heights) {
    double sum = 0;
    for (double height : heights) sum += height;
    return std::vector<double>(heights.size(), sum / static_cast<double>(heights.size()));
}

std::vector<double> gaussianWeights(double cutOff, double step) {
    const auto reach = static_cast<std::size_t>(cutOff / step);
    std::vector<double> weights(reach + 1);
    for (std::size_t k = 0; k <= reach; ++k) {
        const double x = static_cast<double>(k) * step / (kAlpha * cutOff);
        weights[k] = std::exp(-kPi * x * x);
    }
    return weights;
}

// Of the places from `first` to `last`; the others are 0.
std::vector<double> meanLine(const SurfaceProfile& profile, double cutOff, std::size_t first, std::size_t last) {
    const std::vector<double> weights = gaussianWeights(cutOff, profile.step);
    const std::vector<double>& h = profile.heights;
    std::vector<double> line(h.size());
    for (std::size_t i = first; i <= last; ++i) {
        double sum = weights[0] * h[i];
        double weight = weights[0];
        const std::size_t left = std::min(weights.size() - 1, i);
        const std::size_t right = std::min(weights.size() - 1, h.size() - 1 - i);
        for (std::size_t k = 1; k <= left; ++k) sum += weights[k] * h[i - k], weight += weights[k];
        for (std::size_t k = 1; k <= right; ++k) sum += weights[k] * h[i + k], weight += weights[k];
        line[i] = sum / weight;
    }
    return line;
}

struct Extent {
    double peak = -std::numeric_limits<double>::infinity();
    double valley = std::numeric_limits<double>::infinity();
    void take(double z) {
        peak = std::max(peak, z);
        valley = std::min(valley, z);
    }
};

// Mean distance between places where the profile rises through the mean line, having fallen and then rising `beyond`
// it.
std::optional<double> meanSpacing(const std::vector<double>& z, std::size_t first, std::size_t last, double beyond,
                                  double step) {
    enum class Where { Unknown, Low, High };
    Where where = Where::Unknown;
    double crossing = 0, firstCrossing = 0, lastCrossing = 0;
    int count = 0;
    for (std::size_t i = first; i <= last; ++i) {
        if (i > first && z[i - 1] < 0 && z[i] >= 0) {
            crossing = static_cast<double>(i - 1) + z[i - 1] / (z[i - 1] - z[i]);
        }
        if (z[i] <= -beyond) where = Where::Low;
        if (z[i] < beyond || where != Where::Low) continue;
        where = Where::High;
        if (count++ == 0) firstCrossing = crossing;
        lastCrossing = crossing;
    }
    if (count < 2 || beyond <= kFlat) return std::nullopt;
    return step * (lastCrossing - firstCrossing) / (count - 1);
}

// The figures of the places from `first` on, in so many sections of equal length.
void evaluate(const SurfaceProfile& profile, const std::vector<double>& line, std::size_t first, std::size_t last,
              Roughness& result) {
    std::vector<double> z(profile.heights.size());
    const double places = static_cast<double>(last - first);
    const auto sectionOf = [&](double place) {
        const double part = (place - static_cast<double>(first)) / places;
        return std::clamp(static_cast<int>(part * result.sections), 0, result.sections - 1);
    };
    std::vector<Extent> sections(static_cast<std::size_t>(result.sections));
    Extent all;
    double sum = 0, squares = 0;
    for (std::size_t i = first; i <= last; ++i) {
        z[i] = profile.heights[i] - line[i];
        const double weight = i == first || i == last ? 0.5 : 1;  // trapezoids
        sum += weight * std::abs(z[i]);
        squares += weight * z[i] * z[i];
        sections[static_cast<std::size_t>(sectionOf(static_cast<double>(i)))].take(z[i]);
        all.take(z[i]);
    }
    for (const SurfaceProfile::Peak& peak : profile.peaks) {
        const double place = peak.at / profile.step;
        if (place < static_cast<double>(first) || place > static_cast<double>(last)) continue;
        const double height = peak.height - heightAt(line, place);
        sections[static_cast<std::size_t>(sectionOf(place))].take(height);
        all.take(height);
    }
    result.ra = sum / places;
    result.rq = std::sqrt(squares / places);
    result.rt = all.peak - all.valley;
    for (const Extent& section : sections) {
        result.rp += section.peak / result.sections;
        result.rv -= section.valley / result.sections;
    }
    result.rz = result.rp + result.rv;
    result.rsm = meanSpacing(z, first, last, kCounts * result.rz, profile.step);
    result.from = static_cast<double>(first) * profile.step;
    result.to = static_cast<double>(last) * profile.step;
}

}  // namespace

double cutOffFor(double spacing) {
    const double measured = spacing / (1 + kSpacingError);
    if (measured <= 0.04) return 0.08;
    if (measured <= 0.13) return 0.25;
    if (measured <= 0.4) return 0.8;
    if (measured <= 1.3) return 2.5;
    return 8;
}

std::optional<double> spacingOf(const SurfaceProfile& profile) {
    assert(profile.heights.size() >= 3);
    Roughness all;
    all.sections = 1;
    evaluate(profile, meanHeight(profile.heights), 0, profile.heights.size() - 1, all);
    return all.rsm;
}

Roughness roughnessOf(const SurfaceProfile& profile, double cutOff) {
    assert(profile.heights.size() >= 3 && cutOff > 0);
    Roughness result;
    const std::size_t end = profile.heights.size() - 1;
    const double room = profile.length() / cutOff - 1;
    result.sections = std::min(kSections, static_cast<int>(std::floor(room + 1e-9)));
    if (result.sections < 1 || cutOff / profile.step < 3) {
        result.sections = 1;
        evaluate(profile, meanHeight(profile.heights), 0, end, result);
        return result;
    }
    result.cutOff = cutOff;
    const auto places = static_cast<std::size_t>(std::lround(result.sections * cutOff / profile.step));
    const std::size_t first = (end - std::min(end, places)) / 2;
    const std::size_t last = std::min(end, first + places);
    evaluate(profile, meanLine(profile, cutOff, first, last), first, last, result);
    return result;
}

std::vector<double> meanLineOf(const SurfaceProfile& profile, const Roughness& roughness) {
    const auto place = [&](double along) { return static_cast<std::size_t>(std::lround(along / profile.step)); };
    const std::size_t first = place(roughness.from), last = place(roughness.to);
    assert(first <= last && last < profile.heights.size());
    const std::vector<double> line =
        roughness.filtered() ? meanLine(profile, roughness.cutOff, first, last) : meanHeight(profile.heights);
    const auto begin = line.begin() + static_cast<std::ptrdiff_t>(first);
    return {begin, begin + static_cast<std::ptrdiff_t>(last - first + 1)};
}

double passedIntoMeanLine(double waveLength, double cutOff) {
    const double x = kAlpha * cutOff / waveLength;
    return std::exp(-kPi * x * x);
}

}  // namespace firstoff
