#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>

#include "sim/clearance/body_tree.h"
#include "sim/clearance/nearness.h"
#include "sim/clearance/pair_search.h"
#include "sim/clearance/swing_search.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

namespace {

constexpr int kFanBits = 2, kFan = 1 << kFanBits;
// A node whose radii differ by no more is taken as the one cylinder it nearly is. Added to what the rounding to floats
// takes, it stays within kNearnessMm.
constexpr float kAlikeMm = 2e-5f;

float roundedUp(double x) {
    const auto f = static_cast<float>(x);
    return static_cast<double>(f) >= x ? f : std::nextafter(f, std::numeric_limits<float>::infinity());
}

}  // namespace

// Walked by the searches: a node is a run of groups, and its cover the cylinder of their greatest radius.
class HullTree {
public:
    struct Node {
        std::uint32_t level = 0, index = 0;
    };
    using Children = std::array<Node, kFan>;

    class Cover {
    public:
        Cover(double zFrom, double zTo, double radius) : from_(zFrom), to_(zTo), radius_(radius) {}
        SpacePoint support(SpacePoint d) const {
            const double across = std::sqrt(d.r * d.r + d.y * d.y);
            const double out = across > 0 ? radius_ / across : 0;
            return {d.z < 0 ? from_ : to_, out * d.r, out * d.y};
        }
        SpacePoint middle() const { return {(from_ + to_) / 2, 0, 0}; }
        double size() const { return to_ - from_; }

    private:
        double from_, to_, radius_;
    };

    explicit HullTree(const BilletHull& hull) : hull_(hull) {}

    bool empty() const { return hull_.greatest_.empty() || hull_.greatest_.back()[0] <= 0; }
    Node root() const { return {static_cast<std::uint32_t>(hull_.greatest_.size() - 1), 0}; }
    bool isSingle(Node n) const {
        return n.level == 0 || hull_.greatest_[n.level][n.index] - hull_.least_[n.level][n.index] <= kAlikeMm;
    }
    int children(Node n, Children& out) const {
        const std::vector<float>& below = hull_.greatest_[n.level - 1];
        const auto end = std::min<std::size_t>(std::size_t{n.index + 1} * kFan, below.size());
        int count = 0;
        for (std::size_t i = std::size_t{n.index} * kFan; i < end; ++i) {
            if (below[i] > 0) out[static_cast<std::size_t>(count++)] = {n.level - 1, static_cast<std::uint32_t>(i)};
        }
        return count;
    }
    Cover cover(Node n) const {
        const double width = hull_.groupMm_ * static_cast<double>(std::uint64_t{1} << (kFanBits * n.level));
        const double from = hull_.z0_ + n.index * width;
        return {from - hull_.halfPitch_, std::min(from + width, hull_.z1_) + hull_.halfPitch_,
                double{hull_.greatest_[n.level][n.index]}};
    }
    Cover solid(Node n) const { return cover(n); }
    double size(Node n) const { return cover(n).size(); }

private:
    const BilletHull& hull_;
};

BilletHull::BilletHull(const Billet& billet) {
    const Grid& grid = billet.grid();
    groupColumns_ = std::clamp(static_cast<int>(kGroupMm / grid.pitch + 1e-6), 1, 8);
    // A chunk holds a whole number of groups.
    while (kChunkColumns % groupColumns_ != 0) --groupColumns_;
    groupMm_ = groupColumns_ * grid.pitch;
    halfPitch_ = grid.pitch / 2;
    z0_ = grid.z0;
    z1_ = grid.border(grid.columns);
    std::size_t size = static_cast<std::size_t>((grid.columns + groupColumns_ - 1) / groupColumns_);
    for (;; size = (size + kFan - 1) / kFan) {
        greatest_.emplace_back(size, 0.0f);
        least_.emplace_back(size, 0.0f);
        if (size <= 1) break;
    }
    measure(billet, 0, static_cast<int>(greatest_[0].size()) - 1);
}

double BilletHull::errorMm() const {
    return groupMm_ + halfPitch_;
}

void BilletHull::update(const Billet& billet, double zFrom, double zTo) {
    const int last = static_cast<int>(greatest_[0].size()) - 1;
    const auto group = [&](double z, double by) {
        return static_cast<int>(std::clamp(std::floor((z - z0_) / groupMm_) + by, 0.0, double(last)));
    };
    measure(billet, group(zFrom, -1), group(zTo, 1));
}

void BilletHull::measure(const Billet& billet, int firstGroup, int lastGroup) {
    const int perChunk = kChunkColumns / groupColumns_, columns = billet.grid().columns;
    for (int g = firstGroup; g <= lastGroup; ++g) {
        const Chunk& chunk = billet.chunk(g / perChunk);
        const int first = (g % perChunk) * groupColumns_;
        const int end = std::min(first + groupColumns_, columns - (g / perChunk) * kChunkColumns);
        double most = 0, least = std::numeric_limits<double>::infinity();
        for (int k = first; k < end; ++k) {
            const double r = chunk.outer.r[static_cast<std::size_t>(k)];
            most = std::max(most, r);
            least = std::min(least, r);
        }
        greatest_[0][static_cast<std::size_t>(g)] = roundedUp(most);
        least_[0][static_cast<std::size_t>(g)] = -roundedUp(-least);
    }
    auto first = static_cast<std::size_t>(firstGroup), last = static_cast<std::size_t>(lastGroup);
    for (std::size_t level = 1; level < greatest_.size(); ++level) {
        first /= kFan;
        last /= kFan;
        const std::vector<float>&most = greatest_[level - 1], &least = least_[level - 1];
        for (std::size_t i = first; i <= last; ++i) {
            const auto from = static_cast<std::ptrdiff_t>(i * kFan);
            const auto to = static_cast<std::ptrdiff_t>(std::min((i + 1) * kFan, most.size()));
            greatest_[level][i] = *std::max_element(most.begin() + from, most.begin() + to);
            least_[level][i] = *std::min_element(least.begin() + from, least.begin() + to);
        }
    }
}

Nearness BilletHull::nearness(const BodyShape& body, const Placing& at, double beyond) const {
    const HullTree tree(*this);
    if (body.empty() || tree.empty()) return {};
    const PlacedBody placed(body, at);
    return PairSearch(placed, tree, beyond).run();
}

SwingNearness BilletHull::nearnessOfSwing(const BodyShape& body, const Placing& at, double turnTo,
                                          double beyond) const {
    const HullTree tree(*this);
    if (body.empty() || tree.empty()) return {};
    const PlacedBody placed(body, at);
    return SwingSearch(placed, tree, at.turn, turnTo, beyond).run();
}

}  // namespace firstoff
