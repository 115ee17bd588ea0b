// Both ways against a DXF library of another make: what it writes is read edge for edge, and what is written here it
// audits without a complaint and reads edge for edge.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include "sim/base/contour_geometry.h"
#include "sim/drawing/dxf_reader.h"
#include "sim/drawing/dxf_writer.h"
#include "sim/output/part_file.h"
#include "sim/output/setup_files.h"
#include "sim/output/tables.h"
#include "tests/drawing/drawn_edges.h"
#include "tests/support/shop.h"
#include "tests/support/work_folder.h"

namespace firstoff {
namespace {

// Coordinates of up to 1000 mm through angles in degrees and units of 1000 mm: some hundred roundings of 1e-13.
constexpr double kExact = 1e-9;

std::vector<shop::DrawnEdge> libraryEdges(const std::string& arguments) {
    const std::string command =
        std::string(FIRSTOFF_PYTHON " '" FIRSTOFF_SOURCE_DIR "/tests/drawing/dxf_library.py' ") + arguments;
    FILE* pipe = popen(command.c_str(), "r");
    EXPECT_NE(pipe, nullptr);
    std::string text;
    std::array<char, 4096> buffer{};
    while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), pipe)) text.append(buffer.data(), got);
    const int status = pclose(pipe);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << command << "\nIs python3-ezdxf installed?";
    std::vector<shop::DrawnEdge> edges;
    std::istringstream lines(text);
    shop::DrawnEdge e;
    while (lines >> e[0].z >> e[0].r >> e[1].z >> e[1].r >> e[2].z >> e[2].r) edges.push_back(e);
    return edges;
}

std::string contents(const std::string& path) {
    std::ostringstream text;
    text << std::ifstream(path, std::ios::binary).rdbuf();
    return text.str();
}

struct Release {
    const char* version;
    int unit;
    DrawingUnit read;
};

void PrintTo(const Release& release, std::ostream* out) {
    *out << release.version << " unit " << release.unit;
}

class EveryRelease : public testing::TestWithParam<Release> {};

TEST_P(EveryRelease, IsReadEdgeForEdge) {
    const shop::WorkFolder folder;
    const std::string file = (folder / "written.dxf").string();
    const auto expected = libraryEdges("write " + std::to_string(GetParam().unit) + " " + GetParam().version + " " +
                                       std::to_string(GetParam().unit) + " " + file);
    ASSERT_GT(expected.size(), 300u);
    DxfOptions options;
    if (std::string(GetParam().version) == "R12") options.unit = GetParam().read;  // R12 as written there says no unit
    const Drawing drawing = readDxf(contents(file), options);
    for (const DrawingFault& fault : drawing.faults)
        EXPECT_FALSE(fault.unproven) << fault.line << ": " << fault.message;
    EXPECT_EQ(drawing.unit, GetParam().read);
    EXPECT_EQ(shop::differenceOf(expected, shop::edgesOf(drawing.paths), kExact), "");
}

INSTANTIATE_TEST_SUITE_P(
    Releases, EveryRelease,
    testing::Values(Release{"R12", 4, DrawingUnit::Millimetre}, Release{"R2000", 1, DrawingUnit::Inch},
                    Release{"R2004", 5, DrawingUnit::Centimetre}, Release{"R2007", 4, DrawingUnit::Millimetre},
                    Release{"R2010", 6, DrawingUnit::Metre}, Release{"R2013", 0, DrawingUnit::NotSaid},
                    Release{"R2018", 1, DrawingUnit::Inch}),
    [](const auto& row) { return std::string(row.param.version); });

// Lines, arcs either way of little and of much turn, circles, polylines open and closed; fixed seed.
std::vector<DrawnPath> randomPaths() {
    std::mt19937 rng(7);
    std::uniform_real_distribution<double> at(-150, 150);
    std::uniform_real_distribution<double> bulge(-3, 3);
    const auto point = [&] { return Point{at(rng), at(rng)}; };
    std::vector<DrawnPath> paths;
    for (int i = 0; i < 60; ++i) {
        paths.push_back({{{point(), 0}, {point(), 0}}, false, "part", 0});
        paths.push_back({{{point(), bulge(rng)}, {point(), 0}},
                         false,
                         "Werkst\xc3\xbc"
                         "ck",
                         0});
        const Point a = point();
        const Point b = point();
        paths.push_back({{{a, 1}, {b, 1}}, true, "", 0});
        Contour corners;
        for (int k = 0; k < 3 + i % 7; ++k) corners.push_back({point(), k % 2 == 0 ? 0 : bulge(rng)});
        paths.push_back({corners, i % 2 == 0, "part", 0});
    }
    return paths;
}

// A circle comes back as two halves that begin at its right, which the library prints too.
std::vector<DrawnPath> circlesFromTheRight(std::vector<DrawnPath> paths) {
    for (DrawnPath& path : paths) {
        Contour& c = path.corners;
        if (!path.closed || c.size() != 2) continue;
        const Point centre = 0.5 * (c[0].at + c[1].at);
        const double radius = distance(c[0].at, c[1].at) / 2;
        c = {{centre + Point{radius, 0}, 1}, {centre - Point{radius, 0}, 1}};
    }
    return paths;
}

// Arcs of more than half a turn are printed in two edges.
std::vector<DrawnPath> inHalves(std::vector<DrawnPath> paths) {
    for (DrawnPath& path : paths) {
        Contour& c = path.corners;
        if (path.closed || c.size() != 2 || std::abs(c[0].bulge) <= 1) continue;
        const Point middle = 0.5 * (c[0].at + c[1].at) - (c[0].bulge / 2) * leftOf(c[1].at - c[0].at);
        const double half = std::tan(std::atan(c[0].bulge) / 2);
        c = {{c[0].at, half}, {middle, half}, c[1]};
    }
    return paths;
}

TEST(DxfWriter, IsReadByTheLibraryWithoutComplaint) {
    const shop::WorkFolder folder;
    const auto paths = randomPaths();
    for (DrawingUnit unit : {DrawingUnit::NotSaid, DrawingUnit::Millimetre, DrawingUnit::Centimetre, DrawingUnit::Metre,
                             DrawingUnit::Inch}) {
        const std::string file = (folder / "ours.dxf").string();
        std::ofstream(file, std::ios::binary) << dxfText(paths, unit);
        const auto read = libraryEdges("read " + file);
        EXPECT_EQ(shop::differenceOf(shop::edgesOf(inHalves(circlesFromTheRight(paths))), read, kExact), "");
    }
}

// The sections of parts as `firstoff export` writes them: threads in chords, roundings as arcs, the axis.
TEST(DxfWriter, SectionsOfTheDemoJobsAreReadByTheLibraryEdgeForEdge) {
    for (const char* job : {"coupling-spigot", "bored-bush", "union-sleeve"}) {
        SCOPED_TRACE(job);
        const std::string base = std::string("assets/jobs/") + job;
        const auto trial =
            runTrial(readProgram(shop::readFile(base + ".nc"), job),
                     readSetup(shop::readFile(base + ".toml"), job,
                               setupFilesBeside(std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml")));
        const shop::WorkFolder folder;
        const std::string file = (folder / "section.dxf").string();
        writePartFile(*trial, trial->timeline.cycleTimeS, file, PartFileKind::Dxf, {});
        StockCursor cursor(trial->stock);
        cursor.seek(static_cast<std::uint32_t>(trial->timeline.moves.size()), 0);
        std::vector<Contour> outlines;
        for (const SectionContour& contour : cursor.contours()) outlines.push_back(contour.outline);
        shiftInZ(outlines, -sectionDatum(*trial).z);
        std::vector<DrawnPath> paths;
        for (const Contour& outline : outlines) paths.push_back({outline, true, "", 0});
        const Box box = boundingBox(outlines);
        paths.push_back({{{{box.zMin, 0}, 0}, {{box.zMax, 0}, 0}}, false, "", 0});
        EXPECT_EQ(shop::differenceOf(shop::edgesOf(paths), libraryEdges("read " + file), kExact), "");
    }
}

}  // namespace
}  // namespace firstoff
