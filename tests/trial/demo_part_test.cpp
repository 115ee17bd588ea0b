// The demo jobs' parts, gauged against their drawings and against a general-purpose polygon library.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "sim/stock/history.h"
#include "tests/support/geos_stock.h"
#include "tests/support/trial_shop.h"

namespace firstoff {
namespace {

std::shared_ptr<const Trial> demo(const std::string& stem) {
    auto setup = readSetup(shop::readFile("assets/jobs/" + stem + ".toml"), stem + ".toml");
    return runTrial(readProgram(shop::readFile("assets/jobs/" + stem + ".nc"), stem + ".nc"), std::move(setup));
}

struct Size {
    const char* what;
    double z;  // where a diameter is gauged; for faces, the diameter at which they are looked for
    double wanted;
};

// Accuracy asked of the billet: diameters within 1 µm, faces within 3 µm of the drawing.
constexpr double kDiameterMm = 0.001;
constexpr double kFaceMm = 0.003;

TEST(DemoPart, SpigotHasTheDiametersOfItsDrawing) {
    const auto trial = demo("coupling-spigot");
    ASSERT_EQ(trial->verdict, Verdict::Clear) << shop::found(*trial);
    ASSERT_EQ(trial->stock->severances().size(), 1u);
    const std::vector<Size> sizes = {
        {"chamfer 1 x 45, half way", -0.5, 23.99},
        {"spigot", -8, 24.99},
        {"taper, first quarter", -18.75, 27.4925},
        {"taper, middle", -22.5, 29.995},
        {"taper, end", -30, 35},
        {"boss before the fillet", -36, 35},
        {"fillet R3 at 45 degrees", -40 - 3 * 0.7071067811865476, 41 - 2 * 3 * 0.7071067811865476},
        {"chamfer of the flange, half way", -43.5, 47},
        {"flange", -48, 48},
        {"groove", -52, 41.92},
        {"flange behind the groove", -56, 48}};
    for (const Size& size : sizes) {
        // The taper of 1:3 and the chamfers turn half a column (1 µm) of z into up to 2 µm of diameter; the section is
        // straight between columns, so only its own tolerance of 0.5 µm in radius is left.
        EXPECT_NEAR(shop::pieceDiameterAt(*trial, 1, size.z), size.wanted, kDiameterMm) << size.what;
    }
}

TEST(DemoPart, SpigotHasTheFacesOfItsDrawing) {
    const auto trial = demo("coupling-spigot");
    ASSERT_EQ(trial->stock->severances().size(), 1u);
    const auto front = shop::pieceFacesAt(*trial, 1, 10);
    ASSERT_EQ(front.size(), 2u);
    EXPECT_NEAR(front[1], 0, kFaceMm) << "finished face";
    EXPECT_NEAR(front[0], -60, kFaceMm) << "parted face, 3 mm in front of the tool's left corner";
    const auto flange = shop::pieceFacesAt(*trial, 1, 45);
    ASSERT_EQ(flange.size(), 4u);
    EXPECT_NEAR(flange[3], -43, kFaceMm) << "shoulder";
    EXPECT_NEAR(flange[2], -50, kFaceMm) << "front wall of the groove";
    EXPECT_NEAR(flange[1], -54.05, kFaceMm) << "back wall of the groove";
}

TEST(DemoPart, BushHasTheSizesOfItsDrawing) {
    const auto trial = demo("bored-bush");
    ASSERT_EQ(trial->verdict, Verdict::Clear) << shop::found(*trial);
    ASSERT_EQ(trial->stock->severances().size(), 1u);
    EXPECT_NEAR(shop::pieceDiameterAt(*trial, 1, -20), 52, kDiameterMm);
    EXPECT_NEAR(shop::pieceBoreAt(*trial, 1, -0.5), 39.029, kDiameterMm) << "chamfer of the counterbore, half way";
    EXPECT_NEAR(shop::pieceBoreAt(*trial, 1, -4), 38.029, kDiameterMm);
    EXPECT_NEAR(shop::pieceBoreAt(*trial, 1, -8.5), 31.019, kDiameterMm) << "chamfer of the bore, half way";
    EXPECT_NEAR(shop::pieceBoreAt(*trial, 1, -20), 30.019, kDiameterMm);
    const auto faces = shop::pieceFacesAt(*trial, 1, 45);
    ASSERT_EQ(faces.size(), 2u);
    EXPECT_NEAR(faces[1], 0, kFaceMm);
    EXPECT_NEAR(faces[0], -35, kFaceMm);
    const auto shoulder = shop::pieceFacesAt(*trial, 1, 34);
    ASSERT_EQ(shoulder.size(), 2u);
    EXPECT_NEAR(shoulder[1], -8, kFaceMm) << "shoulder of the counterbore";
}

// Every move of the job, swept and subtracted as polygons with chords within 0.1 µm of every arc.
TEST(DemoPart, SectionsAgreeWithAPolygonLibrary) {
    constexpr double kChordMm = 1e-4;
    for (const char* stem : {"coupling-spigot", "bored-bush"}) {
        const auto trial = demo(stem);
        const Stock& bar = trial->setup.stock;
        shop::GeosStock other(bar.backZ, bar.frontZ, bar.boreRadius, bar.outerRadius);
        for (const TimedMove& timed : trial->timeline.moves) {
            const Move& move = trial->toolpath.moves[timed.move];
            const ToolCall& call = trial->toolpath.calls[move.call];
            if (call.toolIndex < 0 || timed.from == timed.to) continue;
            Sweep sweep{timed.from + call.tip, timed.to + call.tip, timed.centre + call.tip, Sweep::Path::Line};
            if (timed.kind == MoveKind::ArcClockwise) sweep.path = Sweep::Path::ArcClockwise;
            if (timed.kind == MoveKind::ArcAnticlockwise) sweep.path = Sweep::Path::ArcAnticlockwise;
            other.cut(sweep, polyline(trial->setup.tools[call.toolIndex].cutting, kChordMm), kChordMm);
        }
        StockCursor end(trial->stock);
        end.seek(static_cast<std::uint32_t>(trial->timeline.moves.size()), 0);
        // 3 µm: half a pitch for faces, the section's tolerance, the chords, and a corner between two columns. Metal
        // thinner than a column is left out.
        EXPECT_LE(other.farthestFrom(end.section(), 0.02, 0.004), 0.003) << stem;
    }
}

}  // namespace
}  // namespace firstoff
