// The section of a part written as DXF and read again: within a micrometre of what it was, on every demo job.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "sim/base/contour_geometry.h"
#include "sim/drawing/contour_chain.h"
#include "sim/drawing/dxf_reader.h"
#include "sim/output/blank_files.h"
#include "sim/output/part_file.h"
#include "sim/output/setup_files.h"
#include "sim/output/tables.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

constexpr double kMicrometre = 0.001;

std::shared_ptr<const Trial> tried(const std::string& job) {
    const std::string base = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/" + job;
    ReadyBlank ready = readBlank(
        readSetup(shop::readFile("assets/jobs/" + job + ".toml"), base + ".toml", setupFilesBeside(base + ".toml")),
        base + ".toml");
    TrialOptions options;
    options.previous = ready.previous;
    return runTrial(readProgram(shop::readFile("assets/jobs/" + job + ".nc"), job), std::move(ready.setup), options);
}

std::string contents(const std::filesystem::path& path) {
    std::ostringstream text;
    text << std::ifstream(path, std::ios::binary).rdbuf();
    return text.str();
}

class SectionDxf : public testing::TestWithParam<const char*> {};

TEST_P(SectionDxf, ComesBackWithinAMicrometre) {
    const auto trial = tried(GetParam());
    const auto path = std::filesystem::path(testing::TempDir()) / (std::string(GetParam()) + "-section.dxf");
    writePartFile(*trial, trial->timeline.cycleTimeS, path, PartFileKind::Dxf, {});
    const std::string text = contents(path);
    std::filesystem::remove(path);
    StockCursor cursor(trial->stock);
    cursor.seek(static_cast<std::uint32_t>(trial->timeline.moves.size()), 0);
    const double datumZ = sectionDatum(*trial).z;
    int compared = 0;
    for (int piece = 0; piece < 2; ++piece) {
        std::vector<Contour> was;
        for (const SectionContour& contour : cursor.contours()) {
            if (contour.piece == piece) was.push_back(contour.outline);
        }
        shiftInZ(was, -datumZ);
        if (was.empty()) continue;
        const Drawing drawing = readDxf(text, {piece == 0 ? "HELD" : "PIECE_1", std::nullopt});
        EXPECT_TRUE(std::none_of(drawing.faults.begin(), drawing.faults.end(),
                                 [](const DrawingFault& fault) { return fault.unproven; }));
        const ChainedContours read = chainContours(drawing.paths);
        ASSERT_EQ(read.contours.size(), was.size());
        for (std::size_t i = 0; i < was.size(); ++i) {
            ASSERT_EQ(read.contours[i].size(), was[i].size());
            for (std::size_t k = 0; k < was[i].size(); ++k) {
                EXPECT_LT(distance(read.contours[i][k].at, was[i][k].at), kMicrometre);
                // The arc's height above its chord.
                const double half = distance(was[i][k].at, edgeEnd(was[i], k)) / 2;
                EXPECT_NEAR(half * read.contours[i][k].bulge, half * was[i][k].bulge, kMicrometre);
            }
            EXPECT_NEAR(areaOf(read.contours[i]), areaOf(was[i]), 1e-6 * std::abs(areaOf(was[i])));
            ++compared;
        }
    }
    EXPECT_GE(compared, 1);
}

INSTANTIATE_TEST_SUITE_P(Jobs, SectionDxf,
                         testing::Values("coupling-spigot", "bored-bush", "grooved-pulley", "union-sleeve",
                                         "hose-adapter", "drain-plug"),
                         [](const auto& row) {
                             std::string name = row.param;
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

}  // namespace
}  // namespace firstoff
