#include "sim/output/mesh_shading.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace firstoff {

namespace {

MeshPoint minus(const MeshPoint& a, const MeshPoint& b) {
    return {a.x - b.x, a.y - b.y, a.z - b.z};
}
MeshPoint cross(const MeshPoint& a, const MeshPoint& b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
double dot(const MeshPoint& a, const MeshPoint& b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
double length(const MeshPoint& a) {
    return std::sqrt(dot(a, a));
}
MeshPoint unit(const MeshPoint& a) {
    const double size = length(a);
    return size > 0 ? MeshPoint{a.x / size, a.y / size, a.z / size} : MeshPoint{0, 0, 1};
}

class Shader {
public:
    Shader(const PartMesh& mesh, double smoothAngle) : mesh_(mesh), least_(std::cos(smoothAngle)) {
        for (const MeshTriangle& t : mesh.triangles) {
            const MeshPoint across = cross(minus(point(t, 1), point(t, 0)), minus(point(t, 2), point(t, 0)));
            areas_.push_back(length(across));
            normals_.push_back(unit(across));
        }
        listTriangles();
    }

    // A sum of the triangles round the corner, in their order, so that corners lit by the same ones are equal to the
    // bit.
    MeshPoint normal(std::size_t triangle, std::size_t corner) const {
        const std::uint32_t at = mesh_.triangles[triangle].corners[corner];
        MeshPoint sum;
        for (std::uint32_t i = firstAt_[at]; i < firstAt_[at + 1]; ++i) {
            const std::size_t other = around_[i];
            if (other != triangle && dot(normals_[other], normals_[triangle]) < least_) continue;
            const double weight = areas_[other] * angleAt(mesh_.triangles[other], at);
            sum.x += weight * normals_[other].x;
            sum.y += weight * normals_[other].y;
            sum.z += weight * normals_[other].z;
        }
        return length(sum) > 0 ? unit(sum) : normals_[triangle];
    }

private:
    const MeshPoint& point(const MeshTriangle& t, std::size_t corner) const { return mesh_.points[t.corners[corner]]; }

    double angleAt(const MeshTriangle& t, std::uint32_t at) const {
        const std::size_t i = t.corners[0] == at ? 0 : t.corners[1] == at ? 1 : 2;
        const MeshPoint a = unit(minus(point(t, (i + 1) % 3), point(t, i)));
        const MeshPoint b = unit(minus(point(t, (i + 2) % 3), point(t, i)));
        return std::acos(std::clamp(dot(a, b), -1.0, 1.0));
    }

    void listTriangles() {
        firstAt_.assign(mesh_.points.size() + 2, 0);
        for (const MeshTriangle& t : mesh_.triangles) {
            for (std::uint32_t c : t.corners) ++firstAt_[c + 2];
        }
        for (std::size_t i = 2; i < firstAt_.size(); ++i) firstAt_[i] += firstAt_[i - 1];
        around_.resize(3 * mesh_.triangles.size());
        for (std::size_t t = 0; t < mesh_.triangles.size(); ++t) {
            for (std::uint32_t c : mesh_.triangles[t].corners) {
                around_[firstAt_[c + 1]++] = static_cast<std::uint32_t>(t);
            }
        }
    }

    const PartMesh& mesh_;
    double least_;
    std::vector<double> areas_;
    std::vector<MeshPoint> normals_;
    std::vector<std::uint32_t> firstAt_,
        around_;  // the triangles round a point: around_[firstAt_[p] … firstAt_[p + 1]]
};

bool alike(const ShadedMesh::Corner& a, const ShadedMesh::Corner& b) {
    return a.colour == b.colour && dot(a.normal, b.normal) > 1 - 1e-9;
}

}  // namespace

ShadedMesh shaded(const PartMesh& mesh, double smoothAngle, const std::function<std::uint32_t(CutId)>& colour) {
    const Shader shader(mesh, smoothAngle);
    ShadedMesh result;
    std::vector<std::vector<std::uint32_t>> given(mesh.points.size());  // corners made at a point so far
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        const MeshTriangle& triangle = mesh.triangles[t];
        std::array<std::uint32_t, 3> corners{};
        for (std::size_t i = 0; i < 3; ++i) {
            const std::uint32_t at = triangle.corners[i];
            const ShadedMesh::Corner wanted{mesh.points[at], shader.normal(t, i), colour(triangle.cut)};
            const auto found = std::find_if(given[at].begin(), given[at].end(),
                                            [&](std::uint32_t c) { return alike(result.corners[c], wanted); });
            if (found != given[at].end()) {
                corners[i] = *found;
                continue;
            }
            corners[i] = static_cast<std::uint32_t>(result.corners.size());
            given[at].push_back(corners[i]);
            result.corners.push_back(wanted);
        }
        result.triangles.push_back(corners);
    }
    return result;
}

}  // namespace firstoff
