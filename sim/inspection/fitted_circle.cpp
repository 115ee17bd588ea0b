#include "sim/inspection/fitted_circle.h"

#include <cmath>

namespace firstoff {

std::optional<double> radiusThrough(const std::vector<Point>& points, double withinMm) {
    Point mean;
    for (Point p : points) mean = mean + (1.0 / static_cast<double>(points.size())) * p;
    double zz = 0, zr = 0, rr = 0, zq = 0, rq = 0, q = 0;
    for (Point p : points) {
        const Point u = p - mean;
        const double s = dot(u, u);
        zz += u.z * u.z;
        zr += u.z * u.r;
        rr += u.r * u.r;
        zq += u.z * s;
        rq += u.r * s;
        q += s;
    }
    const double det = zz * rr - zr * zr;
    if (!(det > 1e-12 * q * q)) return std::nullopt;
    const Point centre{(zq * rr - rq * zr) / (2 * det), (rq * zz - zq * zr) / (2 * det)};
    const double radius = std::sqrt(dot(centre, centre) + q / static_cast<double>(points.size()));
    for (Point p : points) {
        if (std::abs(distance(p - mean, centre) - radius) > withinMm) return std::nullopt;
    }
    return radius;
}

}  // namespace firstoff
