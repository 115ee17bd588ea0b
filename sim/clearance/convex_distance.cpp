#include "sim/clearance/convex_distance.h"

namespace firstoff {

namespace {

// A volume, over the product of its edges, below which a tetrahedron counts as flat. Far above the rounding of the
// products (1e-15), far below what matters: an origin beside such a tetrahedron is beside one of its faces.
constexpr double kFlat = 1e-9;

// Where the hull of some corners, the newest among them, is nearest to the origin: on that corner, on the edge from it
// to corner i, or on the face with i and k.
struct Nearest {
    double square = 0;
    SpacePoint point;
    int i = -1, k = -1;   // -1: not that many corners
    double s = 0, t = 0;  // shares of them

    void offer(SpacePoint p, int atI, int atK, double shareI, double shareK) {
        const double q = dot(p, p);
        if (!(q < square)) return;
        square = q;
        point = p;
        i = atI;
        k = atK;
        s = shareI;
        t = shareK;
    }
};

void offerEdge(Nearest& best, SpacePoint n, SpacePoint e, int i) {
    const double ee = dot(e, e), along = -dot(n, e);
    if (!(along > 0)) return;
    const double share = ee > along ? along / ee : 1;
    best.offer(n + share * e, i, -1, share, 0);
}

void offerFace(Nearest& best, SpacePoint n, SpacePoint e, SpacePoint f, int i, int k) {
    const SpacePoint across = cross(e, f);
    const double square = dot(across, across);
    if (!(square > 0)) return;
    const double s = dot(cross(f, n), across), t = dot(cross(n, e), across);
    if (!(s > 0 && t > 0 && s + t < square)) return;
    const double u = s / square, v = t / square;
    best.offer(n + u * e + v * f, i, k, u, v);
}

}  // namespace

bool Simplex::add(SpacePoint w, SpacePoint a) {
    if (count_ == 0) {
        w_[0] = nearest_ = w;
        a_[0] = a;
        share_[0] = 1;
        count_ = 1;
        return true;
    }
    std::array<SpacePoint, 3> e;  // to the old corners
    for (std::size_t i = 0; i < count_; ++i) e[i] = w_[i] - w;
    if (count_ == 3) {
        const SpacePoint fg = cross(e[1], e[2]);
        const double volume = dot(e[0], fg);
        // Squared, which spares the roots.
        if (volume * volume > kFlat * kFlat * dot(e[0], e[0]) * dot(e[1], e[1]) * dot(e[2], e[2])) {
            const SpacePoint ew = cross(e[0], w);
            const double s = -dot(w, fg) / volume, t = -dot(e[2], ew) / volume, u = dot(e[1], ew) / volume;
            if (s >= 0 && t >= 0 && u >= 0 && s + t + u <= 1) {
                w_[3] = w;
                a_[3] = a;
                share_ = {s, t, u, 1 - s - t - u};
                nearest_ = {0, 0, 0};
                count_ = 4;
                return true;
            }
        }
    }
    Nearest best;
    best.square = dot(w, w);
    best.point = w;
    const int old = static_cast<int>(count_);
    for (int i = 0; i < old; ++i) {
        const SpacePoint& to = e[static_cast<std::size_t>(i)];
        offerEdge(best, w, to, i);
        for (int k = 0; k < i; ++k) offerFace(best, w, to, e[static_cast<std::size_t>(k)], i, k);
    }
    if (!(best.square < dot(nearest_, nearest_))) return false;
    std::size_t kept = 0;
    // Of the two kept, the one that stands first is moved first, so that neither is overwritten.
    if (best.k >= 0) {
        w_[0] = w_[static_cast<std::size_t>(best.k)];
        a_[0] = a_[static_cast<std::size_t>(best.k)];
        share_[kept++] = best.t;
    }
    if (best.i >= 0) {
        w_[kept] = w_[static_cast<std::size_t>(best.i)];
        a_[kept] = a_[static_cast<std::size_t>(best.i)];
        share_[kept++] = best.s;
    }
    w_[kept] = w;
    a_[kept] = a;
    share_[kept++] = 1 - best.s - best.t;
    count_ = kept;
    nearest_ = best.point;
    return true;
}

}  // namespace firstoff
