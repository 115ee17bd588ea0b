#include "tests/support/exact_distance.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Gmpzf.h>
#include <CGAL/Polytope_distance_d.h>
#include <CGAL/Polytope_distance_d_traits_3.h>
#include <CGAL/Simple_cartesian.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/convex_hull_3.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff::shop {

namespace {

using Plain = CGAL::Simple_cartesian<double>;
using Distance = CGAL::Polytope_distance_d<CGAL::Polytope_distance_d_traits_3<Plain, CGAL::Gmpzf, double>>;
using Sure = CGAL::Exact_predicates_inexact_constructions_kernel;

template <typename Kernel>
std::vector<typename Kernel::Point_3> pointsOf(const std::vector<SpacePoint>& points) {
    std::vector<typename Kernel::Point_3> out;
    for (const SpacePoint& p : points) out.emplace_back(p.z, p.r, p.y);
    return out;
}

}  // namespace

double hullDistance(const std::vector<SpacePoint>& first, const std::vector<SpacePoint>& second) {
    const auto p = pointsOf<Plain>(first), q = pointsOf<Plain>(second);
    const Distance distance(p.begin(), p.end(), q.begin(), q.end());
    return std::sqrt(CGAL::to_double(distance.squared_distance_numerator()) /
                     CGAL::to_double(distance.squared_distance_denominator()));
}

std::vector<ConvexPiece> hullTriangles(const std::vector<SpacePoint>& points) {
    const auto p = pointsOf<Sure>(points);
    CGAL::Surface_mesh<Sure::Point_3> hull;
    CGAL::convex_hull_3(p.begin(), p.end(), hull);
    std::vector<ConvexPiece> triangles;
    for (const auto face : hull.faces()) {
        std::vector<SpacePoint> ring;
        for (const auto vertex : CGAL::vertices_around_face(hull.halfedge(face), hull)) {
            const auto& v = hull.point(vertex);
            ring.push_back({v.x(), v.y(), v.z()});
        }
        for (std::size_t i = 2; i < ring.size(); ++i) {
            ConvexPiece triangle;
            triangle.corners = {ring[0], ring[i - 1], ring[i]};
            triangles.push_back(triangle);
        }
    }
    return triangles;
}

std::vector<SpacePoint> cornersOf(const ConvexPiece& piece, int facets) {
    if (!piece.isTurned()) return piece.corners;
    std::vector<SpacePoint> corners;
    for (const Point& p : piece.halfSection) {
        for (int i = 0; i < facets; ++i) {
            const double at = 2 * kPi * i / facets;
            corners.push_back({p.z, piece.axisR + p.r * std::cos(at), piece.axisY + p.r * std::sin(at)});
        }
    }
    return corners;
}

double flatDepth(const ConvexPiece& piece, int facets) {
    double greatest = 0;
    for (const Point& p : piece.halfSection) greatest = std::max(greatest, p.r);
    return greatest * (1 - std::cos(kPi / facets));
}

std::vector<SpacePoint> placed(std::vector<SpacePoint> points, const Placing& at) {
    for (SpacePoint& p : points) p = turnedAbout(at.axisR, at.turn, p) + inSpace(at.shifts[0]);
    return points;
}

}  // namespace firstoff::shop
