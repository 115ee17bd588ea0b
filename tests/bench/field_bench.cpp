// What fields of distances on a grid (OpenVDB) would cost, and save, where bodies are measured exactly instead.
//
// Between the corners of a voxel of side h a distance interpolated from them may be wrong by sqrt(3) / 2 h, since
// distances of two points differ by no more than the points are apart: a field that is certain to 0.05 mm has voxels of
// 0.0577 mm.
#include <benchmark/benchmark.h>
#include <openvdb/openvdb.h>
#include <openvdb/tools/MeshToVolume.h>

#include <chrono>
#include <cmath>
#include <vector>

#include "tests/bench/nearness_scenes.h"
#include "tests/support/exact_distance.h"

namespace firstoff {
namespace {

openvdb::FloatGrid::Ptr fieldOf(const std::vector<ConvexPiece>& triangles, double voxelMm, double bandVoxels) {
    openvdb::initialize();
    const auto transform = openvdb::math::Transform::createLinearTransform(voxelMm);
    std::vector<openvdb::Vec3s> points;
    std::vector<openvdb::Vec3I> corners;
    for (const ConvexPiece& t : triangles) {
        const auto first = static_cast<openvdb::Index32>(points.size());
        for (const SpacePoint& p : t.corners) {
            points.emplace_back(transform->worldToIndex(openvdb::Vec3d(p.z, p.r, p.y)));
        }
        corners.emplace_back(first, first + 1, first + 2);
    }
    const openvdb::tools::QuadAndTriangleDataAdapter<openvdb::Vec3s, openvdb::Vec3I> surface(points, corners);
    const auto band = static_cast<float>(bandVoxels);
    return openvdb::tools::meshToVolume<openvdb::FloatGrid>(surface, *transform, band, band);
}

// A shank of 20 x 20 x 100 (0), a disc of 300 x 90 (1; 50 um would take some GB). `error`: um. Three voxels to both
// sides, as is usual; such a field knows nothing further off than that.
void fieldAsCertain(benchmark::State& state) {
    const double errorMm = static_cast<double>(state.range(1)) / 1000, voxel = errorMm * 2 / std::sqrt(3);
    const std::vector<ConvexPiece> triangles = state.range(0) == 0
                                                   ? shop::hullTriangles(boxPiece({0, 0, 0}, {20, 20, 100}).corners)
                                                   : bench::turnedMesh(4000, {{0, 0}, {0, 150}, {90, 150}, {90, 0}});
    openvdb::FloatGrid::Ptr field;
    for (auto _ : state) {
        field.reset();
        field = fieldOf(triangles, voxel, 3);
    }
    state.counters["voxel_mm"] = voxel;
    state.counters["MB"] = static_cast<double>(field->memUsage()) / (1 << 20);
    state.counters["knows_to_mm"] = 3 * voxel;
}
BENCHMARK(fieldAsCertain)
    ->ArgNames({"disc", "error_um"})
    ->Args({0, 50})
    ->Args({1, 200})
    ->Args({1, 100})
    ->Iterations(1)
    ->Unit(benchmark::kSecond);

// What a coarse field could save: voxels of a 128th of the longest side of the mesh of nearnessOfHolderToMesh, known to
// 20 mm outside. Asked for the ball round each of the holder's pieces where a move starts (that of the whole holder
// reaches into the chuck everywhere): only if all are further off than 2 mm need the triangles not be asked.
void coarseFieldBeforeTriangles(benchmark::State& state) {
    const std::vector<ConvexPiece> triangles = bench::chuckMesh(100'000);
    const double voxel = 164.0 / 128;
    const auto start = std::chrono::steady_clock::now();
    const openvdb::FloatGrid::Ptr field = fieldOf(triangles, voxel, 20 / voxel);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    const double error = std::sqrt(3) / 2 * voxel;
    struct Ball {
        SpacePoint middle;
        double radius = 0;
    };
    std::vector<Ball> balls;
    for (const ConvexPiece& piece : bench::holderPieces()) {
        const SpaceBox box = boundingBox(piece);
        balls.push_back({0.5 * (box.min + box.max), length(box.max - box.min) / 2});
    }
    const std::vector<Point> starts = bench::startsBeside(static_cast<double>(state.range(0)));
    openvdb::FloatGrid::ConstAccessor accessor = field->getConstAccessor();
    std::size_t i = 0;
    double answered = 0, asked = 0;
    for (auto _ : state) {
        const SpacePoint from = inSpace(starts[i++ % starts.size()]);
        bool clear = true;
        for (const Ball& ball : balls) {
            const SpacePoint p = ball.middle + from;
            const openvdb::Vec3d q = field->worldToIndex(openvdb::Vec3d(p.z, p.r, p.y));
            const double distance = static_cast<double>(accessor.getValue(openvdb::Coord::round(q)));
            clear = clear && distance - error - ball.radius >= 2;
        }
        answered += clear ? 1 : 0;
        asked += 1;
    }
    state.counters["make_s"] = took.count();
    state.counters["MB"] = static_cast<double>(field->memUsage()) / (1 << 20);
    state.counters["answered_share"] = answered / asked;
}
BENCHMARK(coarseFieldBeforeTriangles)->ArgName("off")->Arg(5)->Arg(-5)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace firstoff
