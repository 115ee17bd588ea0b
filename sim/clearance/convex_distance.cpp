#include "sim/clearance/convex_distance.h"

namespace firstoff {

namespace {

// A volume, over the product of its edges, below which a tetrahedron counts as flat. Far above the rounding of the
// products (1e-15), far below what matters: an origin beside such a tetrahedron is beside one of its faces.
constexpr double kFlat = 1e-9;

// Point of the hull of some corners nearest to the origin, as shares of them; the newest corner is the first.
struct Nearest {
    double square = std::numeric_limits<double>::infinity();
    SpacePoint point;
    std::array<int, 4> of{};
    std::array<double, 4> share{};
    int count = 0;

    void offer(SpacePoint p, int n, const std::array<int, 4>& indices, const std::array<double, 4>& shares) {
        const double s = dot(p, p);
        if (!(s < square)) return;
        square = s;
        point = p;
        count = n;
        of = indices;
        share = shares;
    }
};

void offerEdge(Nearest& best, SpacePoint w, SpacePoint a, int wAt, int aAt) {
    const SpacePoint e = a - w;
    const double ee = dot(e, e), t = -dot(w, e);
    if (!(t > 0)) return;
    const double share = ee > t ? t / ee : 1;
    best.offer(w + share * e, 2, {wAt, aAt}, {1 - share, share});
}

void offerFace(Nearest& best, SpacePoint w, SpacePoint a, SpacePoint b, int wAt, int aAt, int bAt) {
    const SpacePoint e = a - w, f = b - w;
    const SpacePoint n = cross(e, f);
    const double nn = dot(n, n);
    if (!(nn > 0)) return;
    const SpacePoint o = -w;
    const double s = dot(cross(o, f), n) / nn, t = dot(cross(e, o), n) / nn;
    if (!(s > 0 && t > 0 && s + t < 1)) return;
    best.offer(w + s * e + t * f, 3, {wAt, aAt, bAt}, {1 - s - t, s, t});
}

}  // namespace

bool Simplex::has(SpacePoint w) const {
    for (int i = 0; i < count_; ++i) {
        if (corners_[static_cast<std::size_t>(i)].w == w) return true;
    }
    return false;
}

bool Simplex::add(const Corner& corner) {
    // Places 0 … count_ - 1 are the old corners, `last` the new one.
    const int last = count_;
    std::array<SpacePoint, 4> w;
    for (int i = 0; i < last; ++i) w[static_cast<std::size_t>(i)] = corners_[static_cast<std::size_t>(i)].w;
    const SpacePoint n = corner.w;
    Nearest best;
    if (last == 3) {
        const SpacePoint e = w[0] - n, f = w[1] - n, g = w[2] - n, o = -n;
        const double volume = dot(e, cross(f, g));
        if (std::abs(volume) > kFlat * length(e) * length(f) * length(g)) {
            const double s = dot(o, cross(f, g)) / volume, t = dot(e, cross(o, g)) / volume,
                         u = dot(e, cross(f, o)) / volume;
            if (s >= 0 && t >= 0 && u >= 0 && s + t + u <= 1) {
                best.offer({0, 0, 0}, 4, {3, 0, 1, 2}, {1 - s - t - u, s, t, u});
            }
        }
    }
    if (best.count == 0) {
        best.offer(n, 1, {last}, {1});
        for (int i = 0; i < last; ++i) offerEdge(best, n, w[static_cast<std::size_t>(i)], last, i);
        for (int i = 0; i < last; ++i) {
            for (int k = i + 1; k < last; ++k) {
                offerFace(best, n, w[static_cast<std::size_t>(i)], w[static_cast<std::size_t>(k)], last, i, k);
            }
        }
    }
    if (count_ > 0 && !(best.square < dot(nearest_, nearest_))) return false;
    std::array<Corner, 4> kept{};
    for (std::size_t i = 0; i < static_cast<std::size_t>(best.count); ++i) {
        kept[i] = best.of[i] == last ? corner : corners_[static_cast<std::size_t>(best.of[i])];
    }
    corners_ = kept;
    share_ = best.share;
    count_ = best.count;
    nearest_ = best.point;
    return true;
}

SpacePoint Simplex::onFirst() const {
    SpacePoint p;
    for (std::size_t i = 0; i < static_cast<std::size_t>(count_); ++i) p = p + share_[i] * corners_[i].a;
    return p;
}

SpacePoint Simplex::onSecond() const {
    SpacePoint p;
    for (std::size_t i = 0; i < static_cast<std::size_t>(count_); ++i) p = p + share_[i] * corners_[i].b;
    return p;
}

}  // namespace firstoff
