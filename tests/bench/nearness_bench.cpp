// How long it takes to know how near bodies are, and the same certainty by brute force: the bodies stepped along so
// finely that nothing moves further than 0.01 mm between two steps, measured at each by the same exact distances. The
// ratio is between the two in one run.
//
// And what a field of distances on a grid costs that is as certain as 0.05 mm. Between the corners of a voxel of side h
// a distance interpolated from them may be wrong by sqrt(3) / 2 h (distances of points differ by no more than the
// points are apart), so h is 0.0577 mm.
#include <benchmark/benchmark.h>
#include <openvdb/openvdb.h>
#include <openvdb/tools/MeshToVolume.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <vector>

#include "sim/base/units.h"
#include "sim/clearance/nearness.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/outline_chains.h"
#include "tests/support/exact_distance.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
constexpr double kStepMm = 0.01;

double seconds(std::chrono::steady_clock::time_point since) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - since).count();
}

// A shaft of 80 mm turned in steps, a cone and some waves, 160 mm long.
const Billet& shaft() {
    static const Billet made = [] {
        Stock stock;
        stock.outerRadius = 40;
        stock.frontZ = 160;
        Billet billet(stock);
        const ToolShape blade = toolShape(roundedPolygon({{0, 0}, {3, 0}, {3, 60}, {0, 60}}, {0.4, 0.4, 0, 0}));
        const auto cut = [&](Point from, Point to) {
            Sweep sweep;
            sweep.from = from;
            sweep.to = to;
            billet.cut(sweep, blade, 1);
        };
        cut({162, 30}, {80, 30});
        cut({162, 20}, {120, 20});
        cut({162, 10}, {140, 20});
        cut({60, 41}, {60, 25});
        const auto wave = [](int i) { return Point{150 - i * 0.1, 19 - 3 * std::abs(std::sin(i * 0.05))}; };
        for (int i = 0; i < 200; ++i) cut(wave(i), wave(i + 1));
        return billet;
    }();
    return made;
}

// A holder in its block with a collet chuck beside it: ten pieces.
const BodyShape& holder() {
    static const BodyShape made = [] {
        std::vector<ConvexPiece> pieces;
        for (int i = 0; i < 9; ++i) {
            pieces.push_back(boxPiece({i * 5.0 - 20, i * 8.0, -10}, {i * 5.0 + 5, i * 8.0 + 20, 10.0 + i}));
        }
        pieces.push_back(cylinderPiece(-10, 40, 30, 100, 0));
        return BodyShape(pieces);
    }();
    return made;
}

// A disc of 220 mm with twelve blocks, shanks and bars.
const BodyShape& turret() {
    static const BodyShape made = [] {
        std::vector<ConvexPiece> pieces{cylinderPiece(0, 60, 110, 150, 0)};
        for (int k = 0; k < 12; ++k) {
            const double turn = k * kPi / 6;
            pieces.push_back(turnedAbout(150, turn, boxPiece({-20, -10, -10}, {0, 100, 10})));
            pieces.push_back(turnedAbout(150, turn, boxPiece({-10, 40, -30}, {60, 110, 30})));
            pieces.push_back(turnedAbout(150, turn, cylinderPiece(-80, 0, 10, 30, 0)));
        }
        return BodyShape(pieces);
    }();
    return made;
}

const BodyShape& chuck() {
    static const BodyShape made({cylinderPiece(-80, 0, 82), cylinderPiece(0, 30, 60)});
    return made;
}

// Straight moves that start some mm above the bar.
std::vector<Placing> moves(double above) {
    shop::Dice dice(3);
    std::vector<Placing> all;
    for (int i = 0; i < 1000; ++i) {
        const Point from{dice.between(-20, 180), 40 + above + dice.between(0, 5)};
        all.push_back(Placing::along(from, from + Point{dice.between(-20, 20), dice.between(0, 20)}));
    }
    return all;
}

void nearnessOfPieces(benchmark::State& state) {
    shop::Dice dice(1);
    std::vector<BodyShape> bodies;
    for (int i = 0; i < 500; ++i) {
        const SpacePoint at{dice.between(0, 100), dice.between(0, 100), dice.between(0, 100)};
        const double size = dice.between(1, 30);
        bodies.emplace_back(std::vector{i % 2 == 0 ? boxPiece(at, at + SpacePoint{size, 20, 10})
                                                   : cylinderPiece(at.z, at.z + 20, size, at.r, at.y)});
    }
    Placing turned = Placing::along({0, 0}, {3, 7});
    turned.turn = 0.4;
    std::size_t i = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(nearness(bodies[i % 500], turned, bodies[(i * 7 + 1) % 500], Placing{}).gap);
        ++i;
    }
}
BENCHMARK(nearnessOfPieces)->Unit(benchmark::kMicrosecond);

// `above`: mm from the bar at the start; `beyond`: gaps above that need not be known, 0 for all.
void nearnessOfHolderToBillet(benchmark::State& state) {
    const BilletHull hull(shaft());
    const std::vector<Placing> all = moves(static_cast<double>(state.range(0)));
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    std::size_t i = 0;
    for (auto _ : state) benchmark::DoNotOptimize(hull.nearness(holder(), all[i++ % all.size()], beyond).gap);
}
BENCHMARK(nearnessOfHolderToBillet)
    ->ArgNames({"above", "beyond"})
    ->Args({5, 2})
    ->Args({5, 0})
    ->Args({-10, 2})
    ->Args({-10, 0})
    ->Unit(benchmark::kMicrosecond);

void nearnessOfOutlineInPlane(benchmark::State& state) {
    const Outline outline = roundedPolygon({{0, 0}, {20, 0}, {20, 100}, {0, 100}}, {2, 2, 0, 0});
    const std::vector<Placing> all = moves(static_cast<double>(state.range(0)));
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    std::size_t i = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(nearnessInPlane(shaft(), outline, all[i++ % all.size()], beyond).gap);
    }
}
BENCHMARK(nearnessOfOutlineInPlane)
    ->ArgNames({"above", "beyond"})
    ->Args({5, 2})
    ->Args({5, 0})
    ->Args({-10, 2})
    ->Args({-10, 0})
    ->Unit(benchmark::kMicrosecond);

void makeHull(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(BilletHull(shaft()));
}
BENCHMARK(makeHull)->Unit(benchmark::kMicrosecond);

void updateHull(benchmark::State& state) {
    BilletHull hull(shaft());
    for (auto _ : state) hull.update(shaft(), 100, 101);
}
BENCHMARK(updateHull)->Unit(benchmark::kMicrosecond);

// A move of 40 mm past the chuck, and the same stepped through.
void sweepAgainstStepping(benchmark::State& state) {
    const Point from{40, 95}, to{25, 60};
    double gap = 0;
    for (auto _ : state) benchmark::DoNotOptimize(gap = nearness(holder(), Placing::along(from, to), chuck(), {}).gap);
    const int steps = static_cast<int>(std::ceil(distance(from, to) / kStepMm));
    const auto start = std::chrono::steady_clock::now();
    constexpr int kTimes = 200;
    for (int i = 0; i < kTimes; ++i) {
        benchmark::DoNotOptimize(nearness(holder(), Placing::along(from, to), chuck(), {}).gap);
    }
    const double direct = seconds(start) / kTimes;
    const auto startStepping = std::chrono::steady_clock::now();
    double least = kInf;
    for (int k = 0; k <= steps; ++k) {
        const Point at = from + (double(k) / steps) * (to - from);
        least = std::min(least, nearness(holder(), Placing::at(at), chuck(), {}, least).gap);
    }
    state.counters["steps"] = steps;
    state.counters["stepping_us"] = 1e6 * seconds(startStepping);
    state.counters["stepping_takes_times"] = seconds(startStepping) / direct;
    state.counters["gap_mm"] = gap;
    state.counters["stepping_gap_mm"] = least;
}
BENCHMARK(sweepAgainstStepping)->Unit(benchmark::kMicrosecond);

// A quarter turn of the turret beside the chuck (0) or the bar (1), `beyond` as above.
void swingAgainstStepping(benchmark::State& state) {
    const BilletHull hull(shaft());
    const bool bar = state.range(0) == 1;
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    Placing at = Placing::at({100, bar ? 62.0 : 50.0});
    at.axisR = 150;
    const double turnTo = kPi / 2;
    const auto swing = [&] {
        return bar ? hull.nearnessOfSwing(turret(), at, turnTo, beyond)
                   : nearnessOfSwing(turret(), at, turnTo, chuck(), Placing{}, beyond);
    };
    SwingNearness n;
    for (auto _ : state) benchmark::DoNotOptimize(n = swing());
    const int steps = static_cast<int>(std::ceil(turret().reach(150) * turnTo / kStepMm));
    auto start = std::chrono::steady_clock::now();
    constexpr int kTimes = 20;
    for (int i = 0; i < kTimes; ++i) benchmark::DoNotOptimize(swing());
    const double direct = seconds(start) / kTimes;
    start = std::chrono::steady_clock::now();
    double least = beyond;
    for (int k = 0; k <= steps; ++k) {
        at.turn = turnTo * k / steps;
        const double gap =
            bar ? hull.nearness(turret(), at, least).gap : nearness(turret(), at, chuck(), Placing{}, least).gap;
        least = std::min(least, gap);
    }
    const double stepping = seconds(start);
    state.counters["steps"] = steps;
    state.counters["stepping_us"] = 1e6 * stepping;
    state.counters["stepping_takes_times"] = stepping / direct;
    state.counters["gap_mm"] = n.nearest.gap;
    state.counters["stepping_gap_mm"] = least;
}
BENCHMARK(swingAgainstStepping)
    ->ArgNames({"bar", "beyond"})
    ->Args({0, 2})
    ->Args({0, 0})
    ->Args({1, 2})
    ->Args({1, 0})
    ->Unit(benchmark::kMicrosecond);

// --- Meshes, and fields of them --------------------------------------------------------------------------------------

// A turned body in triangles, about `wanted` of them: a chuck with a collar.
std::vector<ConvexPiece> turnedMesh(int wanted, const std::vector<Point>& half, double axisR = 0) {
    const int rows = static_cast<int>(half.size()), round = wanted / (2 * (rows - 1));
    const auto at = [&](int row, int k) {
        const double turn = 2 * kPi * k / round;
        const Point p = half[static_cast<std::size_t>(row)];
        return SpacePoint{p.z, axisR + p.r * std::cos(turn), p.r * std::sin(turn)};
    };
    std::vector<ConvexPiece> triangles;
    for (int row = 0; row + 1 < rows; ++row) {
        for (int k = 0; k < round; ++k) {
            const SpacePoint a = at(row, k), b = at(row, (k + 1) % round), c = at(row + 1, k),
                             d = at(row + 1, (k + 1) % round);
            ConvexPiece triangle;
            if (!(a == b)) {
                triangle.corners = {a, b, d};
                triangles.push_back(triangle);
            }
            if (!(c == d)) {
                triangle.corners = {a, d, c};
                triangles.push_back(triangle);
            }
        }
    }
    return triangles;
}

std::vector<ConvexPiece> chuckMesh(int wanted) {
    std::vector<Point> half{{-80, 0}};
    for (int i = 0; i <= 40; ++i) half.push_back({-80 + 2.0 * i, 82});
    for (int i = 0; i <= 20; ++i) half.push_back({1.5 * i, 60});
    half.push_back({30, 0});
    return turnedMesh(wanted, half);
}

void makeMesh(benchmark::State& state) {
    std::vector<ConvexPiece> triangles = chuckMesh(static_cast<int>(state.range(0)));
    double shift = 0;
    for (auto _ : state) {
        // Never the same twice, so that none is kept from before.
        if (state.range(1) == 0) triangles[0].corners[0].z = -80 - (shift += 1e-6);
        benchmark::DoNotOptimize(BodyShape(triangles, true));
    }
    state.counters["triangles"] = static_cast<double>(triangles.size());
}
BENCHMARK(makeMesh)
    ->ArgNames({"triangles", "kept"})
    ->Args({100'000, 0})
    ->Args({100'000, 1})
    ->Unit(benchmark::kMillisecond);

// The holder on moves some mm off a mesh of 100,000 triangles. 5 mm from the front of the chuck its box overlaps that
// of the mesh.
void nearnessOfHolderToMesh(benchmark::State& state) {
    const BodyShape mesh(chuckMesh(100'000), true);
    shop::Dice dice(3);
    std::vector<Placing> all;
    for (int i = 0; i < 1000; ++i) {
        const Point from{20 + static_cast<double>(state.range(0)) + dice.between(0, 5), dice.between(62, 100)};
        all.push_back(Placing::along(from, from + Point{dice.between(0, 20), dice.between(0, 20)}));
    }
    const double beyond = state.range(1) > 0 ? static_cast<double>(state.range(1)) : kInf;
    std::size_t i = 0;
    for (auto _ : state) benchmark::DoNotOptimize(nearness(holder(), all[i++ % all.size()], mesh, {}, beyond).gap);
}
BENCHMARK(nearnessOfHolderToMesh)
    ->ArgNames({"off", "beyond"})
    ->Args({5, 2})
    ->Args({5, 0})
    ->Args({-5, 2})
    ->Unit(benchmark::kMicrosecond);

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

// A shank of 20 x 20 x 100 (0), a disc of 300 x 90 (1). `error`: um. Three voxels to both sides, as is usual; such a
// field knows nothing further off than that.
void fieldAsCertain(benchmark::State& state) {
    const double errorMm = static_cast<double>(state.range(1)) / 1000, voxel = errorMm * 2 / std::sqrt(3);
    const std::vector<ConvexPiece> triangles = state.range(0) == 0
                                                   ? shop::hullTriangles(boxPiece({0, 0, 0}, {20, 20, 100}).corners)
                                                   : turnedMesh(4000, {{0, 0}, {0, 150}, {90, 150}, {90, 0}});
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
    ->Args({1, 50})
    ->Iterations(1)
    ->Unit(benchmark::kSecond);

// What a coarse field of the mesh above could save: voxels of a 128th of its longest side, filled inside and known to
// 20 mm outside. It answers for the ball round a body whether that is further off than 2 mm; only then the triangles
// need not be asked. Moves as in nearnessOfHolderToMesh.
void coarseFieldBeforeTriangles(benchmark::State& state) {
    const std::vector<ConvexPiece> triangles = chuckMesh(100'000);
    const double voxel = 164.0 / 128;
    const auto start = std::chrono::steady_clock::now();
    const openvdb::FloatGrid::Ptr field = fieldOf(triangles, voxel, 20 / voxel);
    state.counters["make_s"] = seconds(start);
    state.counters["MB"] = static_cast<double>(field->memUsage()) / (1 << 20);
    const double error = std::sqrt(3) / 2 * voxel;
    const SpaceBox box = holder().box();
    const SpacePoint middle = 0.5 * (box.min + box.max);
    const double radius = length(box.max - middle);
    shop::Dice dice(3);
    std::vector<SpacePoint> all;
    for (int i = 0; i < 1000; ++i) {
        const Point from{20 + static_cast<double>(state.range(0)) + dice.between(0, 5), dice.between(62, 100)};
        all.push_back(middle + SpacePoint{from.z, from.r, 0});
        dice.between(0, 20), dice.between(0, 20);
    }
    openvdb::FloatGrid::ConstAccessor accessor = field->getConstAccessor();
    std::size_t i = 0;
    double answered = 0, asked = 0;
    for (auto _ : state) {
        const SpacePoint p = all[i++ % all.size()];
        const openvdb::Vec3d q = field->worldToIndex(openvdb::Vec3d(p.z, p.r, p.y));
        const double gap = static_cast<double>(accessor.getValue(openvdb::Coord::round(q))) - error - radius;
        answered += gap >= 2 ? 1 : 0;
        asked += 1;
    }
    state.counters["answered_share"] = answered / asked;
}
BENCHMARK(coarseFieldBeforeTriangles)->ArgName("off")->Arg(5)->Arg(-5)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace firstoff
