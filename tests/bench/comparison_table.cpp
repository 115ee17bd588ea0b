// What is compared. Each scene is cut by the billet (whole history: volumes, provenance, keyframes, what came loose)
// and by a library (the section, or the field, alone). A library's time per move grows with what it has already, so it
// is taken over the last moves of a scene that is long enough to have settled; processor time, one thread on all sides.
//
// How right each is. Exact is the least, over all moves, of the closed form that a move leaves at a place - evaluated
// at places between the columns too, where the billet goes by straight line.
#include "tests/bench/comparison_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ctime>
#include <fstream>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "sim/stock/batch_cutter.h"
#include "sim/stock/history.h"
#include "tests/bench/polygon_stocks.h"
#include "tests/support/geos_stock.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff::bench {

namespace {

constexpr double kChordMm = 0.0001;  // of the library's arcs
constexpr double kVoxelMm = 0.1;
constexpr int kPlaces = 400;

using Clock = std::chrono::steady_clock;

double processorSeconds() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

double secondsSince(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

struct Work {
    const char* name;
    shop::Scene scene;
    double zFrom = 0, zTo = 0;  // where the outside is compared; equal: it is not
};

shop::Scene contourScene(std::uint32_t moves) {
    Setup setup = shop::wavyContourSetup();
    shop::TipPath path = shop::wavyContour(setup, moves);
    return {std::move(setup), std::move(path)};
}

// Time per move and greatest error, where there is one to tell.
struct Result {
    double secondsPerMove = 0;
    std::optional<double> errorMm;
};

std::vector<double> places(const Work& work) {
    std::vector<double> z;
    shop::Dice dice(7);
    for (int i = 0; i < kPlaces && work.zTo > work.zFrom; ++i) z.push_back(dice.between(work.zFrom, work.zTo));
    return z;
}

// By the closed form of every move at every place.
std::vector<double> exactOutside(const Work& work, const CutPlan& plan) {
    std::vector<double> r(kPlaces, work.scene.setup.stock.outerRadius);
    const std::vector<double> z = places(work);
    const Grid grid = Billet(work.scene.setup.stock).grid();
    for (std::uint32_t move = 0; move < plan.moves(); ++move) {
        if (!plan.mayCut(move)) continue;
        std::vector<SweepProfile> profiles;
        std::vector<Branch> branches;
        for (const ToolShape& shape : plan.shapes(move)) {
            appendProfiles(plan.sweep(move), shape, grid, move, profiles, branches);
        }
        for (const SweepProfile& p : profiles) {
            for (std::size_t i = 0; i < z.size(); ++i) {
                r[i] = std::min(r[i], sideAt(branches.data() + p.lower.begin, branches.data() + p.lower.end, z[i]));
            }
        }
    }
    return r;
}

template <typename OuterAt>
std::optional<double> worstError(const Work& work, const std::vector<double>& exact, const OuterAt& outerAt) {
    const std::vector<double> z = places(work);
    if (z.empty()) return std::nullopt;
    double worst = 0;
    for (std::size_t i = 0; i < z.size(); ++i) worst = std::max(worst, std::abs(outerAt(z[i]) - exact[i]));
    return worst;
}

Result cutWithBillet(const Work& work, const std::vector<double>& exact) {
    HistoryOptions options;
    options.threads = 1;
    const double start = processorSeconds();
    const auto history =
        StockHistory::cut(work.scene.path.timeline(), work.scene.path.toolpath(), work.scene.setup, options);
    Result result;
    result.secondsPerMove = (processorSeconds() - start) / work.scene.path.moves();
    StockCursor cursor(history);
    cursor.seek(work.scene.path.moves(), 0);
    const Grid& grid = cursor.billet().grid();
    std::vector<Interval> a, b;
    result.errorMm = worstError(work, exact, [&](double z) {
        const int left = grid.columnNear(z - grid.pitch / 2);
        cursor.billet().intervals(left, a);
        cursor.billet().intervals(left + 1, b);
        const double share = (z - grid.z(left)) / grid.pitch;
        return a.back().outer + share * (b.back().outer - a.back().outer);
    });
    return result;
}

// The library's part is timed over the last `timed` moves.
template <typename Cut>
double secondsPerMove(const CutPlan& plan, std::uint32_t first, std::uint32_t timed, const Cut& cut) {
    double start = 0;
    for (std::uint32_t move = first; move < plan.moves(); ++move) {
        if (move + timed == plan.moves()) start = processorSeconds();
        if (plan.mayCut(move)) cut(plan.sweep(move));
    }
    return (processorSeconds() - start) / timed;
}

Result cutWithGeos(const Work& work, const CutPlan& plan, const std::vector<Point>& tool) {
    const Stock& stock = work.scene.setup.stock;
    shop::GeosStock metal(stock.backZ, stock.frontZ, stock.boreRadius, stock.outerRadius);
    return {secondsPerMove(plan, 0, 200, [&](const Sweep& sweep) { metal.cut(sweep, tool, kChordMm); }), {}};
}

Result cutWithClipper(const Work& work, const CutPlan& plan, const std::vector<Point>& tool,
                      const std::vector<double>& exact) {
    ClipperStock metal(work.scene.setup.stock);
    Result result;
    result.secondsPerMove =
        secondsPerMove(plan, 0, 200, [&](const Sweep& sweep) { metal.cut(sweptHull(sweep, tool)); });
    result.errorMm = worstError(work, exact, [&](double z) { return metal.outerAt(z); });
    return result;
}

// Only the last move: it takes seconds, most of them for making the field of what it sweeps.
Result cutWithLevelSet(const Work& work, const CutPlan& plan, const std::vector<Point>& tool) {
    constexpr std::uint32_t kMoves = 1;
    LevelSetStock metal(work.scene.setup.stock, kVoxelMm);
    const std::uint32_t first = plan.moves() - kMoves;
    return {secondsPerMove(plan, first, kMoves, [&](const Sweep& s) { metal.cut(sweptHull(s, tool)); }), {}};
}

std::string spoken(double seconds) {
    if (seconds < 1e-3) return fmt::format("{:.3g} us", 1e6 * seconds);
    if (seconds < 1) return fmt::format("{:.3g} ms", 1e3 * seconds);
    return fmt::format("{:.3g} s", seconds);
}

std::string ratio(const Result& other, const Result& ours) {
    return fmt::format("{} ({:.0f}x)", spoken(other.secondsPerMove), other.secondsPerMove / ours.secondsPerMove);
}

std::string micrometres(const std::optional<double>& mm) {
    return mm ? fmt::format("{:.3f}", 1000 * *mm) : "-";
}

void compare(const Work& work) {
    const CutPlan plan(work.scene.path.timeline(), work.scene.path.toolpath(), work.scene.setup);
    const std::vector<Point> tool = polyline(work.scene.setup.tools[0].cutting, kChordMm);
    const std::vector<double> exact = exactOutside(work, plan);
    const Result billet = cutWithBillet(work, exact);
    const Result geos = cutWithGeos(work, plan, tool);
    const Result clipper = cutWithClipper(work, plan, tool, exact);
    const Result field = cutWithLevelSet(work, plan, tool);
    fmt::print("{:<26} {:>7} {:>9} {:>19} {:>19} {:>21} {:>8} {:>8}\n", work.name, plan.moves(),
               spoken(billet.secondsPerMove), ratio(geos, billet), ratio(clipper, billet), ratio(field, billet),
               micrometres(billet.errorMm), micrometres(clipper.errorMm));
}

// The thread of ThreadWork at 256 sectors; the library cuts a few of the sectors, stamp by stamp, and the time is taken
// times what is missing.
void compareThread() {
    constexpr int kSectors = 256, kTried = 4;
    Setup setup = shop::barStock(24, 60);
    shop::addFullProfile(setup, 5, 3);
    shop::TipPath path(setup);
    shop::cutThread(path, 5, setup.stock.frontZ, {});
    HistoryOptions options;
    options.sectors = kSectors;
    const auto both = Clock::now();
    StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
    const double bothCores = secondsSince(both);
    options.threads = 1;
    const double start = processorSeconds();
    StockHistory::cut(path.timeline(), path.toolpath(), setup, options);
    const double ours = processorSeconds() - start;

    const CutPlan plan(path.timeline(), path.toolpath(), setup);
    const std::vector<Point> tool = polyline(setup.tools[0].cutting, kChordMm);
    std::vector<SweepProfile> profiles;
    std::vector<Branch> branches;
    std::vector<StampRun> runs;
    const Grid grid = Billet(setup.stock).grid();
    for (std::uint32_t move = 0; move < plan.moves(); ++move) {
        const SpindleTurns* turns = plan.turns(move);
        if (turns == nullptr) continue;
        appendStamps(plan.sweep(move), *turns, plan.teeth(move).front(), grid, kSectors, move, profiles, branches,
                     runs);
    }
    const double begin = processorSeconds();
    for (int sector = 0; sector < kTried; ++sector) {
        ClipperStock metal(setup.stock);
        for (const StampRun& run : runs) {
            for (std::uint32_t i = run.begin[static_cast<std::size_t>(sector)];
                 i < run.begin[static_cast<std::size_t>(sector) + 1]; ++i) {
                metal.cut(sweptHull({run.places[i], run.places[i], {}}, tool));
            }
        }
    }
    const double clipper = (processorSeconds() - begin) * kSectors / kTried;
    fmt::print(
        "thread M24x3, 40 mm long, 14 passes, {} sectors: {} on one core, {} on all; Clipper {} ({:.0f}x, reckoned "
        "from {} sectors)\n",
        kSectors, spoken(ours), spoken(bothCores), spoken(clipper), clipper / ours, kTried);
}

// Bytes per second that the memory gives when two arrays are read and one is written, by all cores.
double memoryBandwidth() {
    constexpr std::size_t kNumbers = std::size_t{8} << 20;  // far above the caches
    std::vector<double> a(kNumbers, 1), b(kNumbers, 2), c(kNumbers, 3);
    WorkerTeam team(0);
    constexpr int kParts = 64;
    double best = std::numeric_limits<double>::infinity();
    for (int round = 0; round < 5; ++round) {
        const auto start = Clock::now();
        team.share(kParts, [&](int part) {
            const std::size_t n = kNumbers / kParts;
            double* out = a.data() + n * static_cast<std::size_t>(part);
            const double* x = b.data() + n * static_cast<std::size_t>(part);
            const double* y = c.data() + n * static_cast<std::size_t>(part);
            for (std::size_t i = 0; i < n; ++i) out[i] = x[i] + 3 * y[i];
        });
        best = std::min(best, secondsSince(start));
    }
    return 3.0 * sizeof(double) * kNumbers / best;
}

// Chunks that the moves of a scene look at closely, and the bytes of a chunk's outer surface, read and written.
double chunkTraffic(const shop::Scene& scene) {
    const CutPlan plan(scene.path.timeline(), scene.path.toolpath(), scene.setup);
    WorkerTeam team(0);
    BatchCutter cutter(plan, team);
    Billet billet(scene.setup.stock);
    double chunks = 0;
    constexpr std::uint32_t kBatch = 2048;
    for (std::uint32_t move = 0; move < plan.moves(); move += kBatch) {
        cutter.cut(billet, move, std::min(move + kBatch, plan.moves()), {});
        chunks += static_cast<double>(cutter.chunksVisited());
    }
    return chunks * 2 * sizeof(Surface);
}

double peakMegabytes() {
    std::ifstream status("/proc/self/status");
    for (std::string line; std::getline(status, line);) {
        if (line.rfind("VmHWM:", 0) == 0) return std::stod(line.substr(6)) / 1024;
    }
    return 0;
}

void scale(std::uint32_t moves, double bandwidth) {
    const shop::Scene scene = contourScene(moves);
    const auto start = Clock::now();
    const auto history = StockHistory::cut(scene.path.timeline(), scene.path.toolpath(), scene.setup);
    const double seconds = secondsSince(start);
    StockCursor cursor(history);
    shop::Dice dice(1);
    std::vector<double> seeks;
    for (int i = 0; i < 1000; ++i) {
        const std::uint32_t move = dice.below(moves);
        const double fraction = dice.fraction();
        const auto from = Clock::now();
        cursor.seek(move, fraction);
        seeks.push_back(1000 * secondsSince(from));
    }
    std::sort(seeks.begin(), seeks.end());
    const double bound = chunkTraffic(scene) / bandwidth;
    fmt::print("{:>9} {:>9.3f} {:>10.2f} {:>9.0f} {:>9} {:>9.2f} {:>9.2f} {:>12.3f} {:>9.1f} {:>9.0f}\n", moves,
               seconds, 1e-6 * moves / seconds, static_cast<double>(history->bytes()) / (1 << 20),
               history->keyframeCount(), seeks[seeks.size() / 2], seeks[seeks.size() * 99 / 100], bound,
               seconds / bound, peakMegabytes());
    std::fflush(stdout);
}

void printScaling(unsigned largest) {
    const double bandwidth = memoryBandwidth();
    fmt::print(
        "Contour of 0.01 mm moves at 2 um, all cores. Memory gives {:.1f} GB/s here; `bound` is how long it "
        "would take if\nevery chunk looked at came from there and went back.\n",
        1e-9 * bandwidth);
    fmt::print("{:>9} {:>9} {:>10} {:>9} {:>9} {:>9} {:>9} {:>12} {:>9} {:>9}\n", "moves", "cut s", "M moves/s",
               "hist. MB", "keyframes", "seek p50", "p99 ms", "bound s", "x bound", "peak MB");
    for (std::uint32_t moves = 10'000; moves <= largest; moves *= 10) scale(moves, bandwidth);
}

}  // namespace

// What takes much memory comes last, so that the peaks of the first part are the billet's own (with the moves).
void printComparison(unsigned largest) {
    printScaling(largest);
    fmt::print(
        "\nPer move, one core, processor time. GEOS and Clipper: polygons, arcs within {} um; OpenVDB: level set of "
        "{} mm.\n",
        1000 * kChordMm, kVoxelMm);
    fmt::print("{:<26} {:>7} {:>9} {:>19} {:>19} {:>21} {:>8} {:>8}\n", "work", "moves", "billet", "GEOS", "Clipper",
               "OpenVDB", "um off", "Clipper");
    constexpr std::uint32_t kShort = 10'000, kLong = 600;
    const double front = shop::wavyContourSetup().stock.frontZ;
    compare({"contour, 0.01 mm moves", contourScene(kShort), front - 70, front - 5});
    compare({"facing, 0.01 mm moves", shop::facing(kShort)});
    compare({"boring, 0.01 mm moves", shop::boring(kShort)});
    compare({"back turning, 0.01 mm", shop::backTurning(kShort)});
    compare({"roughing passes of 80 mm", shop::longPasses(kLong)});
    compareThread();
}

}  // namespace firstoff::bench
