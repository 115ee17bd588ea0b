#include "sim/clearance/body_tree.h"

#include <cassert>
#include <numeric>

#include "sim/clearance/kept_meshes.h"
#include "sim/clearance/mesh_inside.h"

namespace firstoff {

namespace {

using Data = BodyShape::Data;

float roundedDown(double x) {
    const auto f = static_cast<float>(x);
    return static_cast<double>(f) <= x ? f : std::nextafter(f, -std::numeric_limits<float>::infinity());
}
float roundedUp(double x) {
    return -roundedDown(-x);
}

void append(Data& data, const ConvexPiece& piece) {
    Data::Piece laid;
    laid.begin = static_cast<std::uint32_t>(data.z.size());
    laid.turned = piece.isTurned();
    laid.axisR = piece.axisR;
    laid.axisY = piece.axisY;
    for (const SpacePoint& p : piece.corners) {
        data.z.push_back(p.z);
        data.r.push_back(p.r);
        data.y.push_back(p.y);
    }
    if (laid.turned) {
        for (const Point& p : piece.halfSection) {
            data.z.push_back(p.z);
            data.r.push_back(p.r);
            data.y.push_back(0);
        }
    }
    laid.end = static_cast<std::uint32_t>(data.z.size());
    data.pieces.push_back(laid);
}

// Halves the pieces at the median of the longest side of their middles, down to single ones. Ties go by number, so that
// the tree depends on the pieces alone.
class TreeBuilder {
public:
    TreeBuilder(Data& data, const std::vector<SpaceBox>& boxes) : data_(data), boxes_(boxes), order_(boxes.size()) {
        std::iota(order_.begin(), order_.end(), 0u);
        data_.nodes.reserve(2 * boxes.size());
        data_.nodes.emplace_back();
        build(0, 0, order_.size());
    }

private:
    using Index = std::vector<std::uint32_t>::difference_type;

    static std::array<double, 3> middle(const SpaceBox& box) {
        const SpacePoint m = box.min + box.max;
        return {m.z, m.r, m.y};
    }

    std::size_t longestSide(std::size_t begin, std::size_t end) const {
        std::array<double, 3> least, most;
        least = most = middle(boxes_[order_[begin]]);
        for (std::size_t i = begin; i < end; ++i) {
            const std::array<double, 3> m = middle(boxes_[order_[i]]);
            for (std::size_t k = 0; k < 3; ++k) {
                least[k] = std::min(least[k], m[k]);
                most[k] = std::max(most[k], m[k]);
            }
        }
        std::size_t longest = 0;
        for (std::size_t k = 1; k < 3; ++k) {
            if (most[k] - least[k] > most[longest] - least[longest]) longest = k;
        }
        return longest;
    }

    void bound(std::size_t node, std::size_t begin, std::size_t end) {
        SpaceBox all = boxes_[order_[begin]];
        for (std::size_t i = begin + 1; i < end; ++i) {
            const SpaceBox& box = boxes_[order_[i]];
            all.min = {std::min(all.min.z, box.min.z), std::min(all.min.r, box.min.r), std::min(all.min.y, box.min.y)};
            all.max = {std::max(all.max.z, box.max.z), std::max(all.max.r, box.max.r), std::max(all.max.y, box.max.y)};
        }
        Data::Node& n = data_.nodes[node];
        n.min = {roundedDown(all.min.z), roundedDown(all.min.r), roundedDown(all.min.y)};
        n.max = {roundedUp(all.max.z), roundedUp(all.max.r), roundedUp(all.max.y)};
        if (node == 0) data_.box = all;
    }

    void build(std::size_t node, std::size_t begin, std::size_t end) {
        bound(node, begin, end);
        if (end - begin == 1) {
            data_.nodes[node].piece = order_[begin];
            return;
        }
        const std::size_t side = longestSide(begin, end), half = (begin + end) / 2;
        std::nth_element(order_.begin() + static_cast<Index>(begin), order_.begin() + static_cast<Index>(half),
                         order_.begin() + static_cast<Index>(end), [&](std::uint32_t a, std::uint32_t b) {
                             const double ma = middle(boxes_[a])[side], mb = middle(boxes_[b])[side];
                             return ma != mb ? ma < mb : a < b;
                         });
        const std::size_t child = data_.nodes.size();
        data_.nodes[node].child = static_cast<std::uint32_t>(child);
        data_.nodes.resize(child + 2);
        build(child, begin, half);
        build(child + 1, half, end);
    }

    Data& data_;
    const std::vector<SpaceBox>& boxes_;
    std::vector<std::uint32_t> order_;
};

}  // namespace

namespace {

void finish(Data& data, const std::vector<ConvexPiece>& pieces) {
    std::vector<SpaceBox> boxes;
    boxes.reserve(pieces.size());
    for (const ConvexPiece& piece : pieces) boxes.push_back(boundingBox(piece));
    TreeBuilder(data, boxes);
    data.samples = samplesOf(data);
}

}  // namespace

BodyShape::BodyShape(std::vector<ConvexPiece> pieces, bool isMesh) {
    if (pieces.empty()) return;
    auto data = std::make_shared<Data>();
    data->isMesh = isMesh;
    for (const ConvexPiece& piece : pieces) {
        assert(piece.isTurned() ? !piece.halfSection.empty() : !isMesh || piece.corners.size() == 3);
        append(*data, piece);
    }
    if (!isMesh) {
        finish(*data, pieces);
        data_ = std::move(data);
        return;
    }
    data_ = keptMesh(*data);
    if (data_) return;
    finish(*data, pieces);
    data_ = data;
    keepMesh(data_);
}

SpaceBox BodyShape::box() const {
    return data_ ? data_->box : SpaceBox{};
}

double BodyShape::reach(double axisR) const {
    double most = 0;
    if (!data_) return most;
    for (const Data::Piece& piece : data_->pieces) {
        const double axis = std::hypot(piece.axisR - axisR, piece.axisY);
        for (std::uint32_t i = piece.begin; i < piece.end; ++i) {
            most = std::max(most, piece.turned ? axis + data_->r[i] : std::hypot(data_->r[i] - axisR, data_->y[i]));
        }
    }
    return most;
}

SpacePoint Stand::middle(SpacePoint inBody) const {
    SpacePoint p = turned(inBody);
    for (int i = 0; i < count; ++i) {
        const Point shift = shifts[static_cast<std::size_t>(i)];
        p.z += shift.z / count;
        p.r += shift.r / count;
    }
    return p;
}

SpacePoint Stand::intoBody(SpacePoint p) const {
    const double r = p.r - shifts[0].r - axisR;
    return {p.z - shifts[0].z, axisR + c * r + s * p.y, c * p.y - s * r};
}

SpacePoint PlacedBody::Solid::support(SpacePoint d) const {
    const SpacePoint in = stand_->directionInBody(d);
    const double *z = data_->z.data(), *r = data_->r.data(), *y = data_->y.data();
    std::uint32_t best = piece_->begin;
    if (piece_->turned) {
        const double across = std::sqrt(in.r * in.r + in.y * in.y);
        double most = in.z * z[best] + across * r[best];
        for (std::uint32_t i = best + 1; i < piece_->end; ++i) {
            const double m = in.z * z[i] + across * r[i];
            if (m > most) {
                most = m;
                best = i;
            }
        }
        const double out = across > 0 ? r[best] / across : 0;
        return stand_->placed({z[best], piece_->axisR + out * in.r, piece_->axisY + out * in.y}, d);
    }
    double most = in.z * z[best] + in.r * r[best] + in.y * y[best];
    for (std::uint32_t i = best + 1; i < piece_->end; ++i) {
        const double m = in.z * z[i] + in.r * r[i] + in.y * y[i];
        if (m > most) {
            most = m;
            best = i;
        }
    }
    return stand_->placed({z[best], r[best], y[best]}, d);
}

namespace {

// Least of away · x, x a point that rocks about the axis of a stand.
double leastOfPoint(const Stand& stand, SpacePoint away, SpacePoint inBody, const Rocking& rocking) {
    const SpacePoint p = stand.turned(inBody);
    const double r = p.r - stand.axisR;
    return away.z * p.z + away.r * stand.axisR + rocking.least(away.r * r + away.y * p.y, away.y * r - away.r * p.y);
}

double leastOfShifts(const Stand& stand, SpacePoint away) {
    const Point shift = stand.furthestShift(-away);
    return away.z * shift.z + away.r * shift.r;
}

}  // namespace

double PlacedBody::Cover::least(SpacePoint away, const Rocking& rocking) const {
    const double z = away.z < 0 ? max_.z : min_.z;
    double least = std::numeric_limits<double>::infinity();
    for (int i = 0; i < 4; ++i) {
        const SpacePoint corner{z, i & 1 ? max_.r : min_.r, i & 2 ? max_.y : min_.y};
        least = std::min(least, leastOfPoint(*stand_, away, corner, rocking));
    }
    return least + leastOfShifts(*stand_, away);
}

double PlacedBody::Cover::reach() const {
    const double r = std::max(std::abs(min_.r - stand_->axisR), std::abs(max_.r - stand_->axisR));
    const double y = std::max(std::abs(min_.y), std::abs(max_.y));
    return std::sqrt(r * r + y * y);
}

double PlacedBody::Solid::least(SpacePoint away, const Rocking& rocking) const {
    double least = std::numeric_limits<double>::infinity();
    if (piece_->turned) {
        // Its axis rocks; what it is round that does not change.
        const double axis = leastOfPoint(*stand_, away, {0, piece_->axisR, piece_->axisY}, rocking);
        const double across = std::sqrt(away.r * away.r + away.y * away.y);
        for (std::uint32_t i = piece_->begin; i < piece_->end; ++i) {
            least = std::min(least, axis + away.z * data_->z[i] - across * data_->r[i]);
        }
    } else {
        for (std::uint32_t i = piece_->begin; i < piece_->end; ++i) {
            least = std::min(least, leastOfPoint(*stand_, away, {data_->z[i], data_->r[i], data_->y[i]}, rocking));
        }
    }
    return least + leastOfShifts(*stand_, away);
}

}  // namespace firstoff
