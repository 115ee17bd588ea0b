// Chips in the picture: there while metal is taken and only then, sound, near the tool, the same for the same instant.
#include "gui/scene/chip_shape.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "gui/gl/offscreen.h"
#include "gui/gl/picture.h"
#include "gui/scene/scene_instant.h"
#include "tests/gui/mesh_checks.h"
#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

// A demo job with its instants.
class Shop {
public:
    explicit Shop(const char* name = "coupling-spigot") : trial_(demoJob(name)) {}
    const Trial& trial() const { return *trial_; }
    std::shared_ptr<const Trial> shared() const { return trial_; }
    SceneInstant at(double timeS) { return instantAt(*trial_, &cursor_, turn_, timeS); }
    LoadSample load(const SceneInstant& instant) const {
        const TimedMove& timed = trial_->timeline.moves[instant.timedMove];
        const double fraction = fractionAt(timed, trial_->toolpath, trial_->setup, instant.timeS);
        return loadAt(trial_->loads, instant.timedMove, fraction);
    }
    ToolKind tool(const SceneInstant& instant) const {
        return trial_->setup.tools[static_cast<std::size_t>(instant.toolIndex)].kind;
    }

private:
    std::shared_ptr<const Trial> trial_;
    StockCursor cursor_{trial_->stock};
    SpindleTurn turn_{trial_->timeline, trial_->toolpath};
};

constexpr int kInstants = 400;  // spread over a cycle

std::vector<double> instantsOf(const Trial& trial) {
    std::vector<double> times;
    for (int i = 0; i < kInstants; ++i) times.push_back(trial.timeline.cycleTimeS * (i + 0.37) / kInstants);
    return times;
}

bool sameMesh(const TriangleMesh& a, const TriangleMesh& b) {
    const auto same = [](const Vertex& v, const Vertex& w) {
        return v.place == w.place && v.normal == w.normal && v.colour == w.colour && v.along == w.along;
    };
    return a.indices == b.indices &&
           std::equal(a.vertices.begin(), a.vertices.end(), b.vertices.begin(), b.vertices.end(), same);
}

// A cut made by hand: 2.5 deep with 0.3 a turn at 200 m/min, slowed as the picture is.
ChipCut roughing() {
    ChipCut cut;
    cut.place = {60, 25, 0};
    cut.widthMm = 2.5f;
    cut.thicknessMm = 0.3f;
    cut.speedMmPerS = 200'000.0 / 60 / 40;
    cut.timeS = 40;
    cut.sinceS = 30;
    return cut;
}

TEST(Chips, AreThereWhileMetalIsTakenAndOnlyThen) {
    Shop shop;
    int cutting = 0, idle = 0;
    for (const double timeS : instantsOf(shop.trial())) {
        const SceneInstant instant = shop.at(timeS);
        const bool cuts = shop.load(instant).chipAreaMm2 > 0;
        EXPECT_EQ(chipCutsAt(instant).size(), cuts ? 1u : 0u) << timeS;
        ++(cuts ? cutting : idle);
    }
    EXPECT_GT(cutting, kInstants / 4);  // both happen, so both are tested
    EXPECT_GT(idle, kInstants / 8);
    EXPECT_TRUE(chipCutsAt({}).empty());
}

// Instants of jobs with every kind of tool: turned, bored, grooved, parted, drilled, threaded.
TEST(Chips, AreSoundAndStayNearTheTool) {
    std::set<ToolKind> met;
    for (const char* job : {"coupling-spigot", "bored-bush", "drain-plug"}) {
        Shop shop(job);
        for (const double timeS : instantsOf(shop.trial())) {
            const SceneInstant instant = shop.at(timeS);
            for (const ChipCut& cut : chipCutsAt(instant)) {
                const TriangleMesh mesh = chipShape(cut, instant.stock);
                for (const Vertex& v : mesh.vertices) {
                    ASSERT_TRUE(std::isfinite(v.place.x + v.place.y + v.place.z)) << job << ' ' << timeS;
                    ASSERT_GT(glm::length(v.normal), 1e-4f) << job << ' ' << timeS;  // has a direction
                    // Single precision at these sizes.
                    ASSERT_LE(glm::distance(v.place, cut.place), kChipReachMm + 1e-3f) << job << ' ' << timeS;
                }
                for (const std::uint32_t index : mesh.indices) ASSERT_LT(index, mesh.vertices.size());
                EXPECT_LT(mesh.triangles(), 20'000) << job << ' ' << timeS;
                if (!mesh.vertices.empty()) met.insert(shop.tool(instant));
            }
        }
    }
    for (const ToolKind kind : {ToolKind::Turning, ToolKind::Boring, ToolKind::Grooving, ToolKind::Parting,
                                ToolKind::Drill, ToolKind::Threading})
        EXPECT_TRUE(met.count(kind)) << static_cast<int>(kind);
}

TEST(Chips, StandAtTheTipOfATurningTool) {
    Shop shop;
    for (const double timeS : instantsOf(shop.trial())) {
        const SceneInstant instant = shop.at(timeS);
        for (const ChipCut& cut : chipCutsAt(instant)) {
            const glm::vec3 tip(instant.tip.z, instant.tip.r, 0);
            // No further than the edge in metal reaches, and the blade is wide.
            EXPECT_LT(glm::distance(cut.place, tip), 2 + cut.widthMm) << timeS;
            EXPECT_NEAR(glm::length(cut.flow), 1, 1e-5) << timeS;  // single precision
            EXPECT_NEAR(glm::dot(cut.flow, cut.edge), 0, 1e-5) << timeS;
            EXPECT_NEAR(glm::dot(cut.flow, cut.rake), 0, 1e-5) << timeS;
            EXPECT_LT(cut.rake.z, 0) << timeS;  // under M03 the metal comes from behind
        }
    }
}

// Feeding along the bar, the chip runs back along it; feeding towards the axis, it runs out.
TEST(Chips, RunOffAgainstTheFeed) {
    Shop shop;
    int along = 0, across = 0;
    for (const double timeS : instantsOf(shop.trial())) {
        const SceneInstant instant = shop.at(timeS);
        const TimedMove& timed = shop.trial().timeline.moves[instant.timedMove];
        if (shop.load(instant).depthMm < 1) continue;  // where the nose alone cuts, it runs aslant
        for (const ChipCut& cut : chipCutsAt(instant)) {
            const Point way = timed.to - timed.from;
            if (way.z < -1 && way.r == 0) {
                EXPECT_GT(cut.flow.x, 0.8f) << timeS;
                ++along;
            } else if (way.r < -1 && way.z == 0) {
                EXPECT_GT(cut.flow.y, 0.8f) << timeS;
                ++across;
            }
        }
    }
    EXPECT_GT(along, 10);
    EXPECT_GT(across, 10);
}

TEST(Chips, AreAsWideAndTwiceAsThickAsWhatIsCut) {
    ChipCut cut = roughing();
    cut.timeS = cut.sinceS + 0.02;  // nothing but a first stub, still straight
    const TriangleMesh mesh = chipShape(cut, nullptr);
    ASSERT_FALSE(mesh.vertices.empty());
    float width = 0, thickness = 0;
    for (const Vertex& v : mesh.vertices) {
        width = std::max(width, std::abs(glm::dot(v.place - cut.place, cut.edge)) * 2);
        thickness = std::max(thickness, glm::dot(v.place - cut.place, cut.rake));
    }
    EXPECT_NEAR(width, cut.widthMm, 0.07f * cut.widthMm);  // ragged by so much
    // Uneven by 15 %.
    EXPECT_NEAR(thickness, kChipUpset * cut.thicknessMm, 0.16f * kChipUpset * cut.thicknessMm);
}

TEST(Chips, AreClosedBodies) {
    struct Row {
        const char* name;
        float width, thickness;
        Metal metal;
        bool plunges;
    };
    for (const Row& row :
         {Row{"short curls", 2.5f, 0.3f, Metal::Steel, false}, Row{"ribbon", 0.8f, 0.08f, Metal::Steel, false},
          Row{"crumbs", 2.5f, 0.3f, Metal::CastIron, false}, Row{"rolled up", 3, 0.1f, Metal::Aluminium, true}}) {
        ChipCut cut = roughing();
        cut.widthMm = row.width;
        cut.thicknessMm = row.thickness;
        cut.metal = row.metal;
        cut.plunges = row.plunges;
        for (double after : {0.05, 0.4, 3.1, 9.7}) {
            cut.timeS = cut.sinceS + after;
            for (float side : {1.0f, -1.0f}) {
                cut.rake = {0, 0, side};
                const TriangleMesh mesh = chipShape(cut, nullptr);
                EXPECT_TRUE(watertight(mesh)) << row.name << ' ' << after;
                EXPECT_GT(volume(mesh), 0) << row.name << ' ' << after;  // its sides face outwards
            }
        }
    }
}

// Bodies that hang together by their corners.
int bodiesIn(const TriangleMesh& mesh) {
    std::map<std::array<float, 3>, std::size_t> places;
    std::vector<std::size_t> leads;
    const auto lead = [&](std::size_t i) {
        while (leads[i] != i) i = leads[i];
        return i;
    };
    std::vector<std::size_t> corner;
    for (const Vertex& v : mesh.vertices) {
        const auto [at, fresh] = places.try_emplace({v.place.x, v.place.y, v.place.z}, leads.size());
        if (fresh) leads.push_back(leads.size());
        corner.push_back(at->second);
    }
    for (std::size_t i = 0; i < mesh.indices.size(); ++i)
        leads[lead(corner[mesh.indices[i]])] = lead(corner[mesh.indices[i - i % 3]]);
    int count = 0;
    for (std::size_t i = 0; i < leads.size(); ++i) count += leads[i] == i;
    return count;
}

TEST(Chips, BreakWhereTheyAreThickAndRunLongWhereTheyAreThin) {
    struct Row {
        const char* name;
        float thickness;
        Metal metal;
        int fewest, most;  // bodies at any time, a good while after the cut began
    };
    for (const Row& row :
         {Row{"ribbon", 0.06f, Metal::Steel, 1, 3}, Row{"short curls", 0.3f, Metal::Steel, 3, kMostChipPieces},
          Row{"crumbs of cast iron", 0.06f, Metal::CastIron, 8, kMostChipPieces + 1}}) {
        ChipCut cut = roughing();
        cut.widthMm = 1.5f;
        cut.thicknessMm = row.thickness;
        cut.metal = row.metal;
        for (int i = 0; i < 60; ++i) {
            cut.timeS = cut.sinceS + 20 + 0.171 * i;
            const int bodies = bodiesIn(chipShape(cut, nullptr));
            EXPECT_GE(bodies, row.fewest) << row.name << ' ' << cut.timeS;
            EXPECT_LE(bodies, row.most) << row.name << ' ' << cut.timeS;
        }
    }
}

TEST(Chips, BeginWithNothing) {
    ChipCut cut = roughing();
    cut.timeS = cut.sinceS;
    EXPECT_TRUE(chipShape(cut, nullptr).vertices.empty());
    cut = roughing();
    cut.speedMmPerS = 0;  // the spindle stands
    EXPECT_TRUE(chipShape(cut, nullptr).vertices.empty());
}

TEST(Chips, AreTheSameForTheSameInstant) {
    Shop first, second;
    const std::vector<double> times = instantsOf(first.trial());
    std::vector<TriangleMesh> forwards;
    for (const double timeS : times) {
        TriangleMesh& mesh = forwards.emplace_back();
        const SceneInstant instant = first.at(timeS);
        for (const ChipCut& cut : chipCutsAt(instant)) mesh.append(chipShape(cut, instant.stock));
    }
    for (std::size_t i = times.size(); i-- > 0;) {  // backwards, in another trial of the same job
        TriangleMesh mesh;
        const SceneInstant instant = second.at(times[i]);
        for (const ChipCut& cut : chipCutsAt(instant)) mesh.append(chipShape(cut, instant.stock));
        EXPECT_TRUE(sameMesh(mesh, forwards[i])) << times[i];
    }
}

// Of the scene itself: off unless asked for, and nothing that is picked or measured.
TEST(Chips, ChangeThePictureAndNothingElse) {
    setenv("LIBGL_ALWAYS_SOFTWARE", "1", 1);
    const OffscreenContext context;
    Shop shop;
    LatheScene scene;
    scene.setTrial(shop.shared());
    constexpr int kWidth = 320, kHeight = 200;
    Picture picture;
    const auto drawn = [&](const SceneInstant& instant, const Camera& camera, const SceneOptions& options) {
        picture.begin(kWidth, kHeight, Edges::Quick);
        scene.draw(instant, camera, options, kWidth, kHeight);
        picture.finish();
        return picture.read().rgb;
    };
    SceneOptions without, with;
    with.chips = true;
    double cutting = -1, idle = -1;
    for (const double timeS : instantsOf(shop.trial())) {
        const SceneInstant instant = shop.at(timeS);
        const std::vector<ChipCut> cuts = chipCutsAt(instant);
        if (cuts.empty()) idle = timeS;
        // Roughing, and for a while already.
        if (shop.load(instant).depthMm > 2 && !cuts[0].plunges && timeS - cuts[0].sinceS > 1) cutting = timeS;
    }
    ASSERT_GT(cutting, 0);
    ASSERT_GT(idle, 0);
    EXPECT_FALSE(without.chips);
    for (const double timeS : {cutting, idle}) {
        const SceneInstant instant = shop.at(timeS);
        Camera camera = scene.view(ViewName::Tool, instant, 1.6f);
        camera.azimuth = 2.8f;  // from behind, where the rake face is seen
        const auto plain = drawn(instant, camera, without);
        std::vector<int> before, after;
        const auto bodies = [&](const SceneOptions& options) {
            std::vector<int> found;
            for (int y = 5; y < kHeight; y += 10) {
                for (int x = 5; x < kWidth; x += 10)
                    found.push_back(scene.pickBody(instant, camera, options, {x, y}, kWidth, kHeight));
            }
            return found;
        };
        before = bodies(without);
        EXPECT_EQ(drawn(instant, camera, with) != plain, timeS == cutting);
        EXPECT_EQ(bodies(with), before);
        SceneOptions quick = without, quickWith = with;
        quick.quality = quickWith.quality = Quality::Plain;
        EXPECT_EQ(drawn(instant, camera, quickWith), drawn(instant, camera, quick));  // left out there
        EXPECT_EQ(drawn(instant, camera, without), plain);                            // and they are gone again
    }
}

}  // namespace
}  // namespace firstoff::gui
