#include "sim/inspection/thread_gauge.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace firstoff {

namespace {

constexpr double kNoThreadMm = 0.01;  // crest and root this near: nothing was cut
constexpr double kAtCrestMm = 0.001;

// Heights of the columns over a span of whole leads.
class Profile {
public:
    Profile(const Billet& billet, int sector, int first, int count, bool inside) : pitch_(billet.grid().pitch) {
        std::vector<Interval> solids;
        h_.reserve(static_cast<std::size_t>(count));
        for (int column = first; column < first + count; ++column) {
            billet.intervals(column, solids, sector);
            if (solids.empty()) return;
            h_.push_back(inside ? -solids.front().inner : solids.back().outer);
        }
        whole_ = true;
    }

    bool whole() const { return whole_; }
    double crest() const { return *std::max_element(h_.begin(), h_.end()); }
    double root() const { return *std::min_element(h_.begin(), h_.end()); }

    // Share of the span that lies lower than the level.
    double shareBelow(double level) const {
        double below = 0;
        for (std::size_t i = 1; i < h_.size(); ++i) {
            const double a = h_[i - 1] - level;
            const double b = h_[i] - level;
            if (a < 0 && b < 0) {
                below += 1;
            } else if ((a < 0) != (b < 0)) {
                const double cut = a / (a - b);
                below += a < 0 ? cut : 1 - cut;
            }
        }
        return below / static_cast<double>(h_.size() - 1);
    }

    // Places, mm from the first column, at which the height falls below the level with growing z, or rises above it.
    std::vector<double> crossings(double level, bool falling) const {
        std::vector<double> places;
        for (std::size_t i = 1; i < h_.size(); ++i) {
            const double a = h_[i - 1] - level;
            const double b = h_[i] - level;
            const bool crosses = falling ? a >= 0 && b < 0 : a < 0 && b >= 0;
            if (crosses) places.push_back((static_cast<double>(i - 1) + a / (a - b)) * pitch_);
        }
        return places;
    }

private:
    double pitch_;
    std::vector<double> h_;
    bool whole_ = false;
};

double pitchLevel(const Profile& profile, double root, double crest) {
    double low = root;
    double high = crest;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (profile.shareBelow(middle) < 0.5 ? low : high) = middle;
    }
    return (low + high) / 2;
}

// Angle against the plane square to the axis, from two levels, on the average of the grooves.
double flankAngle(const Profile& profile, double low, double high, bool falling) {
    const std::vector<double> a = profile.crossings(low, falling);
    const std::vector<double> b = profile.crossings(high, falling);
    double sum = 0;
    std::size_t n = 0;
    for (const double at : a) {
        // The crossing of the other level on the same flank is the nearest on its side.
        const auto after = std::lower_bound(b.begin(), b.end(), at);
        if (falling && after != b.begin()) sum += at - *(after - 1), ++n;
        if (!falling && after != b.end()) sum += *after - at, ++n;
    }
    return n == 0 ? 0 : std::atan2(sum / static_cast<double>(n), high - low);
}

double leadBetween(const std::vector<double>& places, std::size_t grooves) {
    if (places.size() <= grooves) return 0;
    double sum = 0;
    for (std::size_t i = grooves; i < places.size(); ++i) sum += places[i] - places[i - grooves];
    return sum / static_cast<double>(places.size() - grooves);
}

}  // namespace

std::optional<ThreadFigures> gaugeThread(const Billet& billet, int sector, double zFrom, double zTo, double leadMm,
                                         bool inside) {
    const Grid& grid = billet.grid();
    const int first = std::max(0, grid.columnNear(std::min(zFrom, zTo)) + 1);
    const int last = std::min(grid.columns - 1, grid.columnNear(std::max(zFrom, zTo)) - 1);
    const double leads = std::floor((last - first) * grid.pitch / leadMm);
    if (!(leads >= 1) || leads * leadMm / grid.pitch > grid.columns) return std::nullopt;
    const int count = static_cast<int>(std::lround(leads * leadMm / grid.pitch)) + 1;
    const Profile profile(billet, sector, first, std::min(count, last - first + 1), inside);
    if (!profile.whole()) return std::nullopt;
    const double crest = profile.crest();
    const double root = profile.root();
    if (crest - root < kNoThreadMm) return std::nullopt;
    const double level = pitchLevel(profile, root, crest);
    const double outer = inside ? -root : crest;
    const double inner = inside ? -crest : root;
    ThreadFigures figures;
    figures.majorMm = 2 * outer;
    figures.minorMm = 2 * inner;
    figures.pitchMm = 2 * std::abs(level);
    figures.depthMm = crest - root;
    const std::vector<double> falls = profile.crossings(level, true);
    const std::vector<double> rises = profile.crossings(level, false);
    figures.grooves = static_cast<double>(std::max(falls.size(), rises.size())) / leads;
    const auto perLead = static_cast<std::size_t>(std::max(1L, std::lround(figures.grooves)));
    figures.leadMm = leadBetween(falls.size() >= rises.size() ? falls : rises, perLead);
    if (figures.leadMm == 0) figures.leadMm = leadMm;
    // The middle half of the depth: free of the rounding at root and crest of usual profiles.
    const double low = root + 0.3 * (crest - root);
    const double high = root + 0.7 * (crest - root);
    figures.flankFront = flankAngle(profile, low, high, true);
    figures.flankBack = flankAngle(profile, low, high, false);
    figures.crestFlatMm = (1 - profile.shareBelow(crest - kAtCrestMm)) * leadMm / static_cast<double>(perLead);
    return figures;
}

}  // namespace firstoff
