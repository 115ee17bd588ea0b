#include "sim/output/part_grid.h"

#include <cmath>
#include <cstdint>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <openvdb/openvdb.h>
#include <openvdb/tools/MeshToVolume.h>

#include "sim/base/say.h"

namespace firstoff {

namespace {

constexpr double kBandVoxels = 3;

double areaMm2(const PartMesh& mesh) {
    double area = 0;
    for (const MeshTriangle& t : mesh.triangles) {
        const MeshPoint& a = mesh.points[t.corners[0]];
        const MeshPoint& b = mesh.points[t.corners[1]];
        const MeshPoint& c = mesh.points[t.corners[2]];
        const openvdb::Vec3d u(b.x - a.x, b.y - a.y, b.z - a.z), v(c.x - a.x, c.y - a.y, c.z - a.z);
        area += u.cross(v).length() / 2;
    }
    return area;
}

openvdb::FloatGrid::Ptr levelSet(const PartMesh& mesh, const openvdb::math::Transform& transform) {
    std::vector<openvdb::Vec3s> points;
    points.reserve(mesh.points.size());
    for (const MeshPoint& p : mesh.points) {
        // The library wants places counted in voxels.
        points.emplace_back(transform.worldToIndex(openvdb::Vec3d(p.x, p.y, p.z)));
    }
    std::vector<openvdb::Vec3I> triangles;
    triangles.reserve(mesh.triangles.size());
    for (const MeshTriangle& t : mesh.triangles) triangles.emplace_back(t.corners[0], t.corners[1], t.corners[2]);
    const openvdb::tools::QuadAndTriangleDataAdapter<openvdb::Vec3s, openvdb::Vec3I> surface(points, triangles);
    constexpr auto kBand = static_cast<float>(kBandVoxels);
    return openvdb::tools::meshToVolume<openvdb::FloatGrid>(surface, transform, kBand, kBand);
}

// The library gives every file a random mark; the same part shall give the same file. The mark stands behind the magic
// number (8 bytes), the file's and the library's version (4, 4 and 4) and a byte, as 36 letters.
void fixMark(const std::filesystem::path& path) {
    constexpr std::streamoff kAt = 21;
    constexpr const char kMark[] = "00000000-0000-4000-8000-000000000000";
    std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
    std::string there(sizeof kMark - 1, '\0');
    file.seekg(kAt);
    file.read(there.data(), static_cast<std::streamsize>(there.size()));
    const bool isMark = there[8] == '-' && there[13] == '-' && there[18] == '-' && there[23] == '-';
    if (!file || !isMark) throw std::runtime_error(tr("this version of OpenVDB writes files of an unknown layout"));
    file.seekp(kAt);
    file.write(kMark, sizeof kMark - 1);
    file.close();
    if (!file) throw std::runtime_error(tr("the file cannot be written"));
}

}  // namespace

void checkGridSize(const std::vector<SolidBody>& bodies, double voxelMm) {
    constexpr double kMost = 100e6;  // voxels; of four bytes, and as much again while they are made
    double area = 0;
    for (const SolidBody& body : bodies) area += areaMm2(body.mesh);
    const double voxels = 2 * kBandVoxels * area / (voxelMm * voxelMm);
    if (voxels <= kMost) return;
    const double least = std::sqrt(2 * kBandVoxels * area / kMost);
    throw std::runtime_error(say("voxels of {} mm are too small for this part; take {:.3f} mm or more", voxelMm,
                                 std::ceil(1000 * least) / 1000));
}

void writePartGrid(const std::vector<SolidBody>& bodies, double voxelMm, const std::filesystem::path& path) {
    openvdb::initialize();
    const auto transform = openvdb::math::Transform::createLinearTransform(voxelMm);
    openvdb::GridPtrVec grids;
    for (const SolidBody& body : bodies) {
        const openvdb::FloatGrid::Ptr grid = levelSet(body.mesh, *transform);
        grid->setName(body.name);
        grid->insertMeta("length_unit", openvdb::StringMetadata("mm"));
        grid->insertMeta("voxel_size_mm", openvdb::DoubleMetadata(voxelMm));
        grids.push_back(grid);
    }
    try {
        openvdb::io::File file(path.string());
        file.write(grids);
        file.close();
    } catch (const openvdb::Exception& failure) {
        throw std::runtime_error(failure.what());
    }
    fixMark(path);
}

}  // namespace firstoff
