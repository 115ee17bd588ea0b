// Meshes of turned parts: closed, without crossings, and of the volume of the columns.
#include "sim/stock/part_mesh.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "sim/base/units.h"
#include "sim/stock/mesh_check.h"
#include "sim/stock/sweep_profile.h"
#include "tests/stock/mesh_library.h"
#include "tests/support/shop.h"
#include "tests/support/tip_path.h"

namespace firstoff {
namespace {

Stock bar(double diameter, double length, double bore = 0) {
    Stock stock;
    stock.outerRadius = diameter / 2;
    stock.boreRadius = bore / 2;
    stock.frontZ = length;
    return stock;
}

ToolShape tool(Tool& (*add)(firstoff::Setup&)) {
    auto setup = firstoff::Setup{};
    return toolShape(add(setup).cutting);
}

ToolShape turning() {
    return tool([](firstoff::Setup& s) -> Tool& { return shop::addTurningTool(s, 1, 'D', 0.4, 93); });
}
ToolShape blade() {
    return tool([](firstoff::Setup& s) -> Tool& { return shop::addGroovingTool(s, 1, 3, 0.2); });
}
ToolShape drill() {
    return tool([](firstoff::Setup& s) -> Tool& { return shop::addDrill(s, 1, 12); });
}
ToolShape boringBar() {
    return tool([](firstoff::Setup& s) -> Tool& { return shop::addBoringBar(s, 1, 'C', 0.4); });
}
// A blade for face grooves, 2.5 wide, open to the front.
ToolShape faceBlade() {
    return toolShape(roundedPolygon({{0, 0}, {25, 0}, {25, 2.5}, {0, 2.5}}, {0, 0, 0, 0}));
}

void cut(Billet& billet, const ToolShape& shape, double fromX, double fromZ, double toX, double toZ, CutId id = 1) {
    billet.cut({{fromZ, fromX / 2}, {toZ, toX / 2}, {}, Sweep::Path::Line}, shape, id);
}

// The volume of a mesh differs from that of the columns by the corners of the polygon, and by what the section may be
// off: its tolerance over the whole of the outer and inner surface, doubled for the borders of columns at faces.
void expectGoodMesh(const Billet& billet, const MeshOptions& options = {}) {
    const PartMesh mesh = partMesh(billet, options);
    const MeshFaults faults = meshFaults(mesh);
    EXPECT_EQ(faults.openEdges, 0U);
    EXPECT_EQ(faults.pinchedPoints, 0U);
    EXPECT_EQ(faults.flatTriangles, 0U);
    EXPECT_FALSE(faults.insideOut);
    double greatest = 0;
    double surface = 0;
    std::vector<Interval> solids;
    for (int i = 0; i < billet.grid().columns; ++i) {
        billet.intervals(i, solids);
        for (const Interval& s : solids) {
            greatest = std::max(greatest, s.outer);
            surface += 2 * kPi * (s.inner + s.outer) * billet.grid().pitch;
        }
    }
    const double wanted = billet.volumeMm3() * polygonShare(meridiansFor(greatest, options.sagittaMm));
    EXPECT_NEAR(mesh.volumeMm3(), wanted, 2 * options.sectionMm * surface);

    const shop::LibraryVerdict library = shop::askLibrary(mesh);
    EXPECT_TRUE(library.isMesh);
    EXPECT_TRUE(library.closed);
    EXPECT_FALSE(library.selfIntersects);
    EXPECT_TRUE(library.boundsVolume);
    EXPECT_NEAR(library.volumeMm3, mesh.volumeMm3(), 1e-9 * mesh.volumeMm3());  // rounding of the same sum
}

struct Part {
    std::string name;
    Billet billet;
};

std::vector<Part> parts() {
    std::vector<Part> all;
    const auto add = [&](const std::string& name, Billet billet, const std::function<void(Billet&)>& work) {
        work(billet);
        all.push_back({name, std::move(billet)});
    };
    const auto nothing = [](Billet&) {};
    add("bar", Billet(bar(50, 80)), nothing);
    add("tube", Billet(bar(50, 80, 20)), nothing);
    add("shaft with a shoulder", Billet(bar(50, 80)), [](Billet& b) { cut(b, turning(), 40, 90, 40, 50); });
    add("faced to the axis", Billet(bar(50, 80)), [](Billet& b) { cut(b, turning(), 60, 78, 0, 78); });
    add("pip left standing", Billet(bar(50, 80)), [](Billet& b) { cut(b, turning(), 60, 78, 3, 78); });
    add("taper", Billet(bar(50, 80)), [](Billet& b) { cut(b, turning(), 20, 80, 50, 40); });
    add("cone to a point", Billet(bar(20, 30)), [](Billet& b) { cut(b, turning(), -2, 31, 22, 10); });
    add("groove", Billet(bar(50, 80)), [](Billet& b) { cut(b, blade(), 60, 40, 30, 40); });
    add("drilled", Billet(bar(50, 80)), [](Billet& b) { cut(b, drill(), 0, 100, 0, 40); });
    add("drilled and bored", Billet(bar(50, 80)), [](Billet& b) {
        cut(b, drill(), 0, 100, 0, 40);
        cut(b, boringBar(), 24, 90, 24, 55);
    });
    add("face groove", Billet(bar(50, 80)), [](Billet& b) { cut(b, faceBlade(), 30, 90, 30, 74); });
    add("undercut behind a face groove", Billet(bar(60, 80)), [](Billet& b) {
        cut(b, faceBlade(), 30, 90, 30, 70);
        cut(b, faceBlade(), 30, 70, 40, 70);
    });
    add("trepanned ring", Billet(bar(60, 80)), [](Billet& b) {
        cut(b, faceBlade(), 30, 90, 30, 70);
        cut(b, blade(), 80, 69, 30, 69);
    });
    add("almost parted", Billet(bar(30, 60)), [](Billet& b) { cut(b, blade(), 40, 30, 1, 30); });
    add("in two", Billet(bar(30, 60)), [](Billet& b) { cut(b, blade(), 40, 30, -1, 30); });
    add("arc", Billet(bar(50, 80)), [](Billet& b) {
        const Point centre{60, 30};
        b.cut({{80, 20}, {60, 10}, centre, Sweep::Path::ArcClockwise}, turning(), 1);
    });
    return all;
}

TEST(PartMesh, OfTurnedPartsIsClosedAndOfTheirVolume) {
    for (const Part& part : parts()) {
        SCOPED_TRACE(part.name);
        expectGoodMesh(part.billet);
    }
}

TEST(PartMesh, IsClosedHoweverCoarse) {
    for (const Part& part : parts()) {
        SCOPED_TRACE(part.name);
        const MeshFaults faults = meshFaults(partMesh(part.billet, {0.2, 0.5, 1}));
        EXPECT_TRUE(faults.none());
    }
}

TEST(PartMesh, OfACylinderIsSmall) {
    const PartMesh mesh = partMesh(Billet(bar(50, 80)));
    // Two fans and two triangles per meridian between; 160 meridians keep 5 µm on 25 mm.
    EXPECT_EQ(mesh.triangles.size(), 4U * 160);
}

// A drilled hole begins at its point, and the metal behind it is solid to the axis.
TEST(PartMesh, StaysOnTheAxisBehindADrilledHole) {
    Billet billet(bar(50, 80));
    cut(billet, drill(), 0, 100, 0, 40);
    for (const MeshPoint& p : partMesh(billet).points) {
        if (p.z > 0.01 && p.z < 39.99) {
            EXPECT_GT(std::hypot(p.x, p.y), 24.9);
        }
    }
}

TEST(PartMesh, OfNothingIsEmpty) {
    EXPECT_TRUE(partMesh(Billet::emptyLike(Billet(bar(50, 80)))).triangles.empty());
}

TEST(PartMesh, TrianglesKnowTheirCut) {
    Billet billet(bar(50, 80));
    cut(billet, turning(), 40, 90, 40, 50, 7);
    const PartMesh mesh = partMesh(billet);
    int turned = 0;
    for (const MeshTriangle& t : mesh.triangles) {
        double foremost = 0;
        for (std::uint32_t c : t.corners) foremost = std::max(foremost, mesh.points[c].z);
        if (foremost < 45) {  // behind all of the tool
            EXPECT_EQ(t.cut, kUncut);
        }
        if (t.cut == 7) ++turned;
    }
    EXPECT_GT(turned, 100);
}

TEST(PartMesh, MeridiansKeepTheSagitta) {
    for (double radius : {0.001, 0.5, 10.0, 150.0}) {
        for (double sagitta : {0.001, 0.005, 0.1}) {
            const int n = meridiansFor(radius, sagitta);
            EXPECT_EQ(n % 4, 0);
            EXPECT_LE(radius * (1 - std::cos(kPi / n)), sagitta * (1 + 1e-12));
        }
    }
    EXPECT_NEAR(polygonShare(4), 2 / kPi, 1e-15);  // square in its circle
}

// Whatever tools leave: several of them cutting here and there, outside, inside and from the front.
TEST(PartMesh, OfRandomPartsIsClosedAndOfTheirVolume) {
    const std::vector<ToolShape> tools{turning(), blade(), faceBlade(), boringBar(), drill()};
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        SCOPED_TRACE(seed);
        shop::Dice dice(seed);
        Billet billet(bar(30, 40, seed % 2 == 0 ? 12 : 0), 0.004);
        for (CutId i = 0; i < 12; ++i) {
            const ToolShape& shape = tools[dice.below(5)];
            const double x = &shape == &tools[4] ? 0 : 2 * dice.between(2, 16);
            const double z = dice.between(5, 42);
            const bool along = dice.below(2) == 0 || x == 0;
            cut(billet, shape, along ? x : 34, along ? 42 : z, x, z, i);
        }
        expectGoodMesh(billet);
    }
}

}  // namespace
}  // namespace firstoff
