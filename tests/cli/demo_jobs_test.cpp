// The demo jobs: the good ones come out clear and to size, the trap is found out.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>

#include "sim/base/units.h"
#include "sim/output/blank_files.h"
#include "sim/output/clearance_report.h"
#include "sim/output/json_report.h"
#include "sim/output/setup_files.h"
#include "sim/output/tables.h"
#include "sim/trial/trial.h"
#include "tests/support/shop.h"

namespace firstoff {
namespace {

std::shared_ptr<const Trial> tried(const std::string& job) {
    const std::string base = "assets/jobs/" + job;
    const std::string path = std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml";
    ReadyBlank ready =
        readBlank(readSetup(shop::readFile(base + ".toml"), job + ".toml", setupFilesBeside(path)), path);
    return runTrial(readProgram(shop::readFile(base + ".nc"), job + ".nc"), std::move(ready.setup));
}

// Where the outline of a piece crosses a line of constant z (radii, rising) or constant r (z, rising); work frame.
std::vector<double> crossings(const std::vector<Loop>& loops, double datumZ, bool atZ, double level) {
    std::vector<double> result;
    for (const Loop& loop : loops) {
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const Point a = loop.points[i] - Point{datumZ, 0};
            const Point b = loop.points[(i + 1) % loop.points.size()] - Point{datumZ, 0};
            const double u = atZ ? a.z : a.r;
            const double v = atZ ? b.z : b.r;
            if ((u < level) == (v < level)) continue;
            const double t = (level - u) / (v - u);
            result.push_back(atZ ? a.r + t * (b.r - a.r) : a.z + t * (b.z - a.z));
        }
    }
    std::sort(result.begin(), result.end());
    return result;
}

class GoodJob : public testing::TestWithParam<const char*> {};

TEST_P(GoodJob, ComesOutClear) {
    const auto trial = tried(GetParam());
    for (const Finding& f : trial->findings) {
        EXPECT_EQ(f.severity, Severity::Note) << f.code << " line " << f.span.line << ": " << f.message;
    }
    EXPECT_EQ(trial->verdict, Verdict::Clear);
    ASSERT_NE(trial->stock, nullptr);
    EXPECT_EQ(trial->stock->severances().size(), 1u) << "the part is parted off, nothing else falls";
    EXPECT_EQ(trial->toolpath.stops.back().kind, ProgramStop::Kind::End);
}

INSTANTIATE_TEST_SUITE_P(Jobs, GoodJob,
                         testing::Values("coupling-spigot", "bored-bush", "grooved-pulley", "union-sleeve"),
                         [](const auto& row) {
                             std::string name = row.param;
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

struct Drawn {
    const char* job;
    std::size_t dimensions;
    bool outline;
};

// The drawings of the demo jobs: everything is found, within its limits, and the part lies on its outline.
TEST(DemoJobs, AreWhatTheirDrawingsWant) {
    for (const Drawn& row : {Drawn{"coupling-spigot", 10, true}, Drawn{"bored-bush", 7, true},
                             Drawn{"grooved-pulley", 7, true}, Drawn{"union-sleeve", 9, false}}) {
        SCOPED_TRACE(row.job);
        const auto trial = tried(row.job);
        const GaugedPart& part = trial->gauged;
        EXPECT_EQ(part.piece, 1);
        EXPECT_EQ(part.dimensions.size(), row.dimensions);
        for (const GaugedDimension& d : part.dimensions) {
            EXPECT_EQ(d.state, GaugedDimension::State::Within) << d.name << ' ' << d.trouble;
        }
        EXPECT_EQ(!part.outline.empty(), row.outline);
        // The profile of the spigot does not show its ring groove, which is cut afterwards: a note.
        EXPECT_EQ(part.deviations.size(), std::string(row.job) == "coupling-spigot" ? 1u : 0u);
    }
}

struct Size {
    double z;  // work frame
    std::vector<double> diameters;
    double withinMm;
};

void expectSizes(const std::string& job, const std::vector<Size>& sizes) {
    const auto trial = tried(job);
    const auto& piece = trial->stock->severances().at(0).section;
    for (const Size& size : sizes) {
        std::vector<double> found = crossings(piece, sectionDatum(*trial).z, true, size.z);
        ASSERT_EQ(found.size(), size.diameters.size()) << "at Z" << size.z;
        for (std::size_t i = 0; i < found.size(); ++i) {
            EXPECT_NEAR(2 * found[i], size.diameters[i], size.withinMm) << "at Z" << size.z;
        }
    }
}

struct Face {
    double diameter;
    std::vector<double> z;
};

// 0.003: faces stand on columns of 2 µm and half a column beside them.
void expectFaces(const std::string& job, const std::vector<Face>& faces) {
    const auto trial = tried(job);
    const auto& piece = trial->stock->severances().at(0).section;
    for (const Face& face : faces) {
        std::vector<double> found = crossings(piece, sectionDatum(*trial).z, false, face.diameter / 2);
        ASSERT_EQ(found.size(), face.z.size()) << "at D" << face.diameter;
        for (std::size_t i = 0; i < found.size(); ++i) {
            EXPECT_NEAR(found[i], face.z[i], 0.003) << "at D" << face.diameter;
        }
    }
}

constexpr double kCylinder = 0.001;  // diameters within a micrometre
constexpr double kSlope = 0.004;  // a slope of 45° turns half a column of z into as much radius, twice that in diameter

// Expected figures are those of the drawing the program was written to: lines and arcs, elementary geometry.
TEST(CouplingSpigot, IsToSize) {
    expectSizes("coupling-spigot", {{-8, {0, 24.99}, kCylinder},
                                    {-0.5, {0, 23.99}, kSlope},
                                    {-22.5, {0, 29.995}, kSlope},
                                    {-35, {0, 35}, kCylinder},
                                    {-41.5, {0, 41 - 2 * std::sqrt(9 - 1.5 * 1.5)}, kSlope},
                                    {-43.5, {0, 47}, kSlope},
                                    {-47, {0, 48}, kCylinder},
                                    {-52, {0, 41.92}, kCylinder},
                                    {-58, {0, 48}, kCylinder}});
    expectFaces("coupling-spigot", {{10, {-60, 0}}, {44, {-60, -54.05, -50, -43}}});
}

// With the wear of the finisher's offset, 0.009.
TEST(BoredBush, IsToSize) {
    expectSizes("bored-bush", {{-20, {30.019, 52}, kCylinder},
                               {-5, {38.029, 52}, kCylinder},
                               {-0.5, {39.029, 51}, kSlope},
                               {-8.5, {31.019, 52}, kSlope},
                               {-34, {30.019, 52}, kCylinder}});
    expectFaces("bored-bush", {{44, {-35, 0}}, {34, {-35, -8}}});
}

TEST(GroovedPulley, IsToSize) {
    expectSizes("grooved-pulley", {{-0.5, {12, 27}, kSlope},
                                   {-8, {12, 30}, kCylinder},
                                   {-17, {12, 44}, kCylinder},
                                   {-22, {12, 36}, kCylinder},
                                   {-28, {12, 44}, kCylinder},
                                   {-33.5, {12, 36}, kCylinder},
                                   {-40, {12, 44}, kCylinder}});
    expectFaces("grooved-pulley", {{40, {-42, -37, -30, -26, -19, -15}}});
}

// Realistic jobs: a few minutes at most, and most of the time at feed spent in metal: all but lead-ins and the ways out
// of grooves, of which the pulley has many.
TEST(DemoJobs, TakeTheTimeSuchPartsTake) {
    for (const char* job : {"coupling-spigot", "bored-bush", "grooved-pulley"}) {
        const auto trial = tried(job);
        EXPECT_GT(trial->timeline.cycleTimeS, 60) << job;
        EXPECT_LT(trial->timeline.cycleTimeS, 180) << job;
        EXPECT_GT(trial->cuttingTimeS, 0.7 * trial->timeline.feedTimeS) << job;
        EXPECT_LE(trial->cuttingTimeS, trial->timeline.feedTimeS) << job;
    }
}

TEST(HoseAdapter, IsClear) {
    const auto trial = tried("hose-adapter");
    for (const Finding& f : trial->findings) {
        EXPECT_EQ(f.severity, Severity::Note) << f.code << " line " << f.span.line << ": " << f.message;
    }
    EXPECT_EQ(trial->verdict, Verdict::Clear);
    EXPECT_EQ(trial->stock->severances().size(), 1u);
}

TEST(HoseAdapter, IsToSizeUnderItsThreads) {
    expectSizes("hose-adapter", {{-1, {8.5, 33.8}, kSlope},
                                 {-10, {8.5, 35.8}, kCylinder},
                                 {-24.5, {8.5, 32.5}, kCylinder},
                                 {-30, {8.5, 42}, kCylinder}});
}

// Both sides on hexagon bar: the thread gauges, the piece falls, its head is chamfered.
TEST(DrainPlug, IsClearOnBothSides) {
    const auto first = tried("drain-plug");
    EXPECT_EQ(first->verdict, Verdict::Clear);
    ASSERT_EQ(first->stock->severances().size(), 1u);
    // Thread, relief, collar and 12.4 mm of hexagon 30, the groove of the thread out of it (a tenth of its ring):
    const double hexagon = std::sqrt(3.0) / 2 * 900 * 12.4;
    const double turned = kPi / 4 * (19.8 * 19.8 * 17 + 17.4 * 17.4 * 3 + 28 * 28 * 4);
    EXPECT_NEAR(first->stock->severances()[0].volumeMm3, hexagon + turned, 0.04 * (hexagon + turned));
    const std::string base = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/drain-plug-head";
    ReadyBlank ready =
        readBlank(readSetup(shop::readFile("assets/jobs/drain-plug-head.toml"), base + ".toml"), base + ".toml");
    TrialOptions options;
    options.previous = ready.previous;
    const auto second = runTrial(readProgram(shop::readFile("assets/jobs/drain-plug-head.nc"), "drain-plug-head.nc"),
                                 std::move(ready.setup), options);
    EXPECT_EQ(second->verdict, Verdict::Clear);
    EXPECT_NEAR(second->stockVolumeMm3, first->stock->severances()[0].volumeMm3, 1e-6 * second->stockVolumeMm3);
    // 0.4 off the head and the cone of 30° off its corners.
    EXPECT_GT(second->removedVolumeMm3, std::sqrt(3.0) / 2 * 900 * 0.4);
}

std::shared_ptr<const Trial> triedWithItsFiles(const std::string& job) {
    const std::string base = std::string(FIRSTOFF_SOURCE_DIR) + "/assets/jobs/" + job;
    return runTrial(
        readProgram(shop::readFile("assets/jobs/" + job + ".nc"), job + ".nc"),
        readSetup(shop::readFile("assets/jobs/" + job + ".toml"), base + ".toml", setupFilesBeside(base + ".toml")));
}

// Twelve stations filled, eight of them cut, and the second spindle takes the piece.
TEST(UnionSleeve, IsClearWithTwelveToolsAndASecondSpindle) {
    const auto trial = triedWithItsFiles("union-sleeve");
    for (const Finding& f : trial->findings) {
        EXPECT_EQ(f.severity, Severity::Note) << f.code << " line " << f.span.line << ": " << f.message;
    }
    EXPECT_EQ(trial->verdict, Verdict::Clear);
    EXPECT_EQ(trial->setup.tools.size(), 12u);
    std::set<int> used;
    for (const ToolCall& call : trial->toolpath.calls) used.insert(call.station);
    used.erase(0);
    EXPECT_THAT(used, testing::ElementsAre(1, 2, 3, 4, 5, 6, 7, 9));
    EXPECT_EQ(trial->stock->severances().size(), 1u);
    ASSERT_TRUE(trial->setup.secondSpindle);
    EXPECT_EQ(trial->toolpath.machineEvents.size(), 6u);
}

// Sizes by the drawing that the program was written to, as above, with the wear of the boring bar's offset, 0.013.
TEST(UnionSleeve, IsToSize) {
    const auto trial = triedWithItsFiles("union-sleeve");
    const auto& piece = trial->stock->severances().at(0).section;
    const double datum = sectionDatum(*trial).z;
    const std::vector<Size> sizes = {{-0.5, {19.023, 28.97}, kSlope},
                                     {-10, {18.023, 29.97}, kCylinder},
                                     {-40, {14, 32.5}, kCylinder},
                                     {-47, {14, 46}, kCylinder}};
    for (const Size& size : sizes) {
        const std::vector<double> found = crossings(piece, datum, true, size.z);
        ASSERT_EQ(found.size(), size.diameters.size()) << "at Z" << size.z;
        for (std::size_t i = 0; i < found.size(); ++i) {
            EXPECT_NEAR(2 * found[i], size.diameters[i], size.withinMm) << "at Z" << size.z;
        }
    }
}

// Whatever number of threads: to the last bit, and so the report to the last letter.
TEST(Clearances, DoNotDependOnThreads) {
    for (const char* job : {"union-sleeve", "trap"}) {
        const std::string base = std::string("assets/jobs/") + job;
        std::vector<std::string> reports;
        for (const int threads : {1, 2, 5}) {
            TrialOptions options;
            options.threads = threads;
            const auto trial =
                runTrial(readProgram(shop::readFile(base + ".nc"), job),
                         readSetup(shop::readFile(base + ".toml"), job,
                                   setupFilesBeside(std::string(FIRSTOFF_SOURCE_DIR) + "/" + base + ".toml")),
                         options);
            reports.push_back(jsonReport({trial.get()}) + marginTable(*trial) + pairTable(*trial));
            for (const Clearance& c : trial->clearance.perMove) reports.back() += std::to_string(c.gapMm) + ' ';
        }
        EXPECT_EQ(reports[0], reports[1]) << job;
        EXPECT_EQ(reports[0], reports[2]) << job;
    }
}

// Faults of the kinds that are told in shops (common practice, no source), each at its line.
struct Fault {
    const char* what;
    std::uint32_t line;
    const char* code;
};
constexpr Fault kFaults[] = {
    {"soft jaws that grip too little", 91, "grip-too-short"},
    {"surface speed without a clamp", 11, "no-speed-clamp"},
    {"faster than the chuck is rated", 13, "speed-above-chuck-limit"},
    {"feed of F0.6 meant, F6. written", 20, "feed-above-limit"},
    {"compensation left on at the tool change", 21, "compensation-left-on"},
    {"G00 to below the face", 28, "rapid-into-material"},
    {"missing decimal point", 32, "decimal-point-missing"},
    {"and what comes of it", 33, "holder-into-material"},
    {"dog-leg of a rapid over a shoulder", 37, "rapid-into-material"},
    {"datum of another job", 41, "tool-into-jaws"},
    {"groove with the spindle stopped", 50, "cut-with-spindle-stopped"},
    {"turning the wrong way for the edge", 54, "cut-with-spindle-reversed"},
    {"edge into the jaws", 56, "tool-into-jaws"},
    {"empty station", 62, "tool-not-in-setup"},
    {"centre that does not reach its hole", 73, "centre-does-not-reach"},
    {"tailstock not cleared", 75, "tool-into-tailstock"},
    {"faced with the centre in", 75, "tailstock-not-retracted"},
    {"neighbour bar into the jaws", 85, "neighbour-into-body"},
    {"drill deeper than its flutes", 86, "drill-deeper-than-flutes"},
    {"block against the face of the bar", 86, "turret-into-body"},
    {"boring bar drawn across to the other wall", 95, "holder-into-material"},
    {"long drill beside the boring bar", 98, "neighbour-into-body"},
    {"drill through into the chuck", 107, "tool-into-chuck"},
    {"blade too short for the radius", 115, "holder-into-material"},
    {"index too near", 117, "swing-into-body"},
    {"beyond the travel", 121, "over-travel"},
};

TEST(Trap, EveryFaultIsFoundAtItsLine) {
    const auto trial = tried("trap");
    EXPECT_EQ(trial->verdict, Verdict::Problems);
    for (const Fault& fault : kFaults) {
        SCOPED_TRACE(fault.what);
        const bool found = std::any_of(trial->findings.begin(), trial->findings.end(), [&](const Finding& f) {
            return f.code == fault.code && f.span.line == fault.line;
        });
        EXPECT_TRUE(found) << fault.code << " at line " << fault.line;
    }
    // And hardly anything else: stops and warnings that are in no row are said here, with what they come from.
    const std::set<std::pair<std::uint32_t, std::string>> consequences = {
        {33, "cut-deeper-than-edge"},
        {50, "feed-per-rev-with-spindle-stopped"},
        {106, "neighbour-into-body"},
        {116, "holder-into-material"},
        {119, "tool-into-jaws"},
        // The feed that the machine makes of F6. is still more than the edge takes; and on its way in from the back the
        // block passes the casting of the tailstock that was not cleared.
        {20, "feed-improbable"},
        {75, "turret-into-body"},
    };
    for (const Finding& f : trial->findings) {
        if (f.severity == Severity::Note) continue;
        const bool inTable = std::any_of(std::begin(kFaults), std::end(kFaults), [&](const Fault& fault) {
            return f.code == fault.code && f.span.line == fault.line;
        });
        EXPECT_TRUE(inTable || consequences.count({f.span.line, f.code}) == 1)
            << f.code << " at line " << f.span.line << ": " << f.message;
    }
}

// A program that runs without a contact and whose sizes are all wrong. What they measure is reckoned by hand from what
// is wrong, in mm: the finisher's wear of +0.04 in X (on diameter) and +0.12 in Z and its nose of 0.4 that the offset
// page does not have; a blade of 2 mm; a parting blade of 3 mm gauged at its left corner, sent to where its right one
// belongs.
struct WrongSize {
    const char* name;
    std::uint32_t line;
    double measured;
};

TEST(Trap, EveryWrongSizeIsGaugedAndTracedToItsLine) {
    const auto trial = tried("bearing-seat");
    EXPECT_EQ(trial->verdict, Verdict::Problems);
    // Without compensation a path at 45 degrees leaves a chamfer short by r (2 - sqrt 2), and a fillet is larger by r.
    const WrongSize kRows[] = {{"seat", 34, 30.008 + 0.04},      {"collar", 38, 38 + 0.04},
                               {"to the collar", 35, 20 - 0.12}, {"front", 33, 1 - 0.4 * (2 - std::sqrt(2.0)) - 0.12},
                               {"fillet", 35, 1.5 + 0.4},        {"ring", 48, 2.0},
                               {"over all", 58, 45 - 3}};
    const auto& gauged = trial->gauged.dimensions;
    ASSERT_EQ(gauged.size(), std::size(kRows));
    for (std::size_t i = 0; i < gauged.size(); ++i) {
        SCOPED_TRACE(kRows[i].name);
        EXPECT_EQ(gauged[i].wanted.name, kRows[i].name);
        // Sections are exact; a rounding is read off a circle through its corners, to a micron.
        EXPECT_NEAR(gauged[i].measured, kRows[i].measured, 1e-3);
        EXPECT_TRUE(gauged[i].measured < gauged[i].least || gauged[i].measured > gauged[i].most);
        EXPECT_TRUE(std::any_of(trial->findings.begin(), trial->findings.end(),
                                [&](const Finding& f) {
                                    return f.code == "size-out-of-limits" && f.span.line == kRows[i].line &&
                                           f.message.find(kRows[i].name) != std::string::npos;
                                }))
            << "at line " << kRows[i].line;
    }
    for (const Finding& f : trial->findings) {
        const bool known = f.severity == Severity::Note || f.code == "size-out-of-limits" ||
                           (f.code == "nose-radius-differs" && f.span.line == 32);
        EXPECT_TRUE(known) << f.code << " at line " << f.span.line << ": " << f.message;
    }
}

}  // namespace
}  // namespace firstoff
