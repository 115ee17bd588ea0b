#include "sim/inspection/suited_correction.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace firstoff {

namespace {

using State = GaugedDimension::State;

// What can be keyed in: the least step of the offset page in mm.
constexpr double kStepMm = 0.001;
// Rounding of sizes; as gauging lets pass.
constexpr double kRoundingMm = 1e-6;
// Entries settle in as many turns as lengths are chained; more only where they chase each other.
constexpr int kMostTurns = 100;
constexpr double kSettledMm = 1e-9;
// Sizes in the middle half of their tolerance are left alone (common practice, no source).
constexpr double kWellWithin = 0.5;

using Entry = std::pair<int, bool>;  // offset, in X

struct Range {
    double least = -std::numeric_limits<double>::infinity();
    double most = std::numeric_limits<double>::infinity();

    bool empty() const { return least > most; }
    bool holds(double x) const { return x >= least && x <= most; }
};

class Suiting {
public:
    explicit Suiting(const std::vector<GaugedDimension>& dimensions) : all_(dimensions) {
        for (std::size_t i = 0; i < all_.size(); ++i) {
            if (all_[i].state == State::NotFound || all_[i].moves.empty()) continue;
            const OffsetMove& first = all_[i].moves.front();
            hang_[{first.offset, first.inX}].push_back(i);
        }
    }

    std::vector<OffsetCorrection> run() {
        for (const auto& [entry, dimensions] : hang_) amounts_[entry] = 0;
        settle(false);
        settle(true);
        std::vector<OffsetCorrection> told;
        for (const auto& [entry, dimensions] : hang_) {
            OffsetCorrection correction = correctionOf(entry, dimensions);
            if (correction.possible && correction.amountMm == 0) continue;
            if (correction.possible && worst(entry, dimensions, 0) <= kWellWithin) continue;
            told.push_back(std::move(correction));
        }
        return told;
    }

private:
    void settle(bool rounded) {
        double changed = 1;
        for (int turn = 0; turn < kMostTurns && changed > kSettledMm; ++turn) {
            changed = 0;
            for (const auto& [entry, dimensions] : hang_) {
                double x = rangeOf(entry, dimensions).empty() ? 0 : nearestToMiddle(entry, dimensions);
                if (rounded) x = keyed(entry, dimensions, x);
                changed = std::max(changed, std::abs(x - amounts_[entry]));
                amounts_[entry] = x;
            }
        }
    }

    static double perMm(const GaugedDimension& d, const Entry& entry) {
        for (const OffsetMove& move : d.moves) {
            if (Entry{move.offset, move.inX} == entry) return move.perMm;
        }
        return 0;
    }

    // What the other entries add to a size.
    double byOthers(const GaugedDimension& d, const Entry& entry) const {
        double sum = 0;
        for (const OffsetMove& move : d.moves) {
            const auto amount = amounts_.find({move.offset, move.inX});
            if (amount != amounts_.end() && amount->first != entry) sum += move.perMm * amount->second;
        }
        return sum;
    }

    Range rangeOf(std::size_t i, const Entry& entry) const {
        const GaugedDimension& d = all_[i];
        const double c = perMm(d, entry), others = byOthers(d, entry);
        const double a = (d.least - kRoundingMm - d.smallest.size - others) / c;
        const double b = (d.most + kRoundingMm - d.largest.size - others) / c;
        return c > 0 ? Range{a, b} : Range{b, a};
    }

    Range rangeOf(const Entry& entry, const std::vector<std::size_t>& dimensions) const {
        Range range;
        for (const std::size_t i : dimensions) {
            const Range one = rangeOf(i, entry);
            range.least = std::max(range.least, one.least);
            range.most = std::min(range.most, one.most);
        }
        return range;
    }

    // How far the worst of the dimensions is from its middle, in halves of its tolerance.
    double worst(const Entry& entry, const std::vector<std::size_t>& dimensions, double x) const {
        double worst = 0;
        for (const std::size_t i : dimensions) {
            const GaugedDimension& d = all_[i];
            const double moved = perMm(d, entry) * x + byOthers(d, entry) - d.middle();
            const double off = std::max(std::abs(d.smallest.size + moved), std::abs(d.largest.size + moved));
            worst = std::max(worst, off / std::max((d.most - d.least) / 2, kRoundingMm));
        }
        return worst;
    }

    double middleOf(const GaugedDimension& d, const Entry& entry) const {
        return (d.middle() - (d.smallest.size + d.largest.size) / 2 - byOthers(d, entry)) / perMm(d, entry);
    }

    // `worst` is convex and least between the amounts that the dimensions want by themselves.
    double nearestToMiddle(const Entry& entry, const std::vector<std::size_t>& dimensions) const {
        Range range{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
        for (const std::size_t i : dimensions) {
            const double x = middleOf(all_[i], entry);
            range.least = std::min(range.least, x);
            range.most = std::max(range.most, x);
        }
        constexpr int kThirds = 80;  // of a metre a picometre is left
        for (int k = 0; k < kThirds && range.most > range.least; ++k) {
            const double third = (range.most - range.least) / 3, a = range.least + third, b = range.most - third;
            (worst(entry, dimensions, a) <= worst(entry, dimensions, b) ? range.most : range.least) =
                worst(entry, dimensions, a) <= worst(entry, dimensions, b) ? b : a;
        }
        return (range.least + range.most) / 2;
    }

    // The step of the offset page beside x that suits all, the better one of two; 0 where neither does.
    double keyed(const Entry& entry, const std::vector<std::size_t>& dimensions, double x) const {
        const Range range = rangeOf(entry, dimensions);
        const double below = std::floor(x / kStepMm) * kStepMm, above = std::ceil(x / kStepMm) * kStepMm;
        if (range.holds(below) && range.holds(above)) {
            return worst(entry, dimensions, below) <= worst(entry, dimensions, above) ? below : above;
        }
        return range.holds(below) ? below : range.holds(above) ? above : 0;
    }

    OffsetCorrection correctionOf(const Entry& entry, const std::vector<std::size_t>& dimensions) const {
        OffsetCorrection c;
        c.offset = entry.first;
        c.inX = entry.second;
        c.amountMm = amounts_.at(entry);
        const Range range = rangeOf(entry, dimensions);
        c.leastMm = range.least;
        c.mostMm = range.most;
        c.possible = range.holds(c.amountMm);
        for (const std::size_t i : dimensions) {
            const Range one = rangeOf(i, entry);
            c.suits.push_back({i, one.least, one.most});
        }
        for (std::size_t i = 0; i < all_.size(); ++i) {
            if (all_[i].state == State::NotFound) continue;
            const bool here = std::find(dimensions.begin(), dimensions.end(), i) != dimensions.end();
            if (!here && perMm(all_[i], entry) != 0) c.alsoMoves.push_back(i);
        }
        if (!c.possible) c.amountMm = 0;
        return c;
    }

    const std::vector<GaugedDimension>& all_;
    std::map<Entry, std::vector<std::size_t>> hang_;
    std::map<Entry, double> amounts_;
};

}  // namespace

std::vector<OffsetCorrection> correctionsThatSuit(const std::vector<GaugedDimension>& dimensions) {
    return Suiting(dimensions).run();
}

}  // namespace firstoff
