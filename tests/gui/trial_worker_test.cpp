#include "gui/trial_worker.h"

#include <gtest/gtest.h>

#include "tests/support/shop.h"

namespace firstoff::gui {
namespace {

TrialWorker::Request request(std::string program, std::uint64_t revision) {
    TrialWorker::Request out;
    out.program = std::move(program);
    out.programName = "job.nc";
    out.setupName = "none.toml";
    out.revision = revision;
    return out;
}

std::string longProgram(int blocks) {
    std::string text = "G21 G99\nG97 S1000 M03\nG01 F.1\n";
    for (int i = 0; i < blocks; ++i) text += i % 2 ? "X10. Z-5.\n" : "X12. Z-4.\n";
    return text + "M30\n";
}

TEST(TrialWorker, PublishesATrialWithItsIndexAndWakes) {
    std::atomic<int> woken = 0;
    TrialWorker worker([&] { ++woken; });
    EXPECT_EQ(worker.latest(), nullptr);
    worker.request(request("G21\nM30\n", 7));
    worker.finish();
    const auto outcome = worker.latest();
    ASSERT_NE(outcome, nullptr);
    ASSERT_NE(outcome->trial, nullptr);
    EXPECT_NE(outcome->index, nullptr);
    EXPECT_EQ(outcome->revision, 7u);
    EXPECT_EQ(outcome->trial->program.blocks.size(), 2u);
    EXPECT_NE(outcome->trial->verdict, Verdict::Clear);  // there is no set-up
    EXPECT_FALSE(worker.progress().busy);
}

TEST(TrialWorker, LetsTheNewestRequestWin) {
    TrialWorker worker({});
    for (std::uint64_t revision = 1; revision <= 20; ++revision) worker.request(request(longProgram(20'000), revision));
    worker.finish();
    ASSERT_NE(worker.latest(), nullptr);
    EXPECT_EQ(worker.latest()->revision, 20u);
}

TEST(TrialWorker, CanBeCancelledAndAskedAgain) {
    TrialWorker worker({});
    worker.request(request(longProgram(200'000), 1));
    worker.cancel();
    worker.finish();
    worker.request(request("M30\n", 2));
    worker.finish();
    ASSERT_NE(worker.latest(), nullptr);
    EXPECT_EQ(worker.latest()->revision, 2u);
    EXPECT_NE(worker.latest()->trial, nullptr);
}

// A whole trial of this program takes far longer than the 5 s allowed here, which themselves are far more than it takes
// to notice a stop between stages.
TEST(TrialWorker, EndsSoonWhenItsOwnerGoes) {
    const auto start = std::chrono::steady_clock::now();
    {
        TrialWorker worker({});
        worker.request(request(longProgram(200'000), 1));
    }
    EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(5));
}

TrialWorker::Request spigot() {
    TrialWorker::Request out;
    out.programPath = FIRSTOFF_SOURCE_DIR "/assets/jobs/coupling-spigot.nc";
    out.setupPath = FIRSTOFF_SOURCE_DIR "/assets/jobs/coupling-spigot.toml";
    out.program = shop::readFile("assets/jobs/coupling-spigot.nc");
    out.setup = shop::readFile("assets/jobs/coupling-spigot.toml");
    out.programName = "coupling-spigot.nc";
    out.setupName = "coupling-spigot.toml";
    out.revision = 3;
    return out;
}

TEST(TrialWorker, TriesChangesOnTheJobAsItIsAndSaysWhatTheyAlter) {
    TrialWorker worker({});
    worker.request(spigot());
    worker.finish();
    const auto asWritten = worker.latest();
    ASSERT_TRUE(asWritten && asWritten->trial);
    EXPECT_EQ(asWritten->comparison, nullptr);
    for (const bool quick : {true, false}) {
        TrialWorker::Request again;
        again.again = asWritten;
        again.whatIf.wears.push_back({3, -0.02, 0});
        again.quickLook = quick;
        again.revision = asWritten->revision;
        worker.request(again);
        worker.finish();
        const auto outcome = worker.latest();
        ASSERT_TRUE(outcome && outcome->trial && outcome->comparison);
        EXPECT_EQ(outcome->trial->quickLook, quick);
        EXPECT_EQ(outcome->revision, 3u);
        EXPECT_EQ(outcome->whatIf, again.whatIf);
        // The finished diameters follow the wear; they are gauged to 1e-6 mm. What the last cut, deeper by half of it,
        // bends more or less is well below a micron.
        ASSERT_FALSE(outcome->comparison->sizes.empty());
        const SizeChange& diameter = outcome->comparison->sizes.front();
        const auto byPath = [&](const Trial& trial) { return trial.gauged.dimensions.at(diameter.dimension).measured; };
        EXPECT_NEAR(byPath(*outcome->trial) - byPath(*asWritten->trial), -0.02, 2e-6);
        EXPECT_NEAR(diameter.after - diameter.before, -0.02, 1e-3);
    }
}

TEST(TrialWorker, LetsQuickLooksEndWhileASliderIsDrawn) {
    TrialWorker worker({});
    worker.request(spigot());
    worker.finish();
    TrialWorker::Request again;
    again.again = worker.latest();
    again.quickLook = true;
    for (int i = 1; i <= 30; ++i) {
        again.whatIf.datumZMm = 0.01 * i;
        worker.request(again);
    }
    worker.finish();
    ASSERT_TRUE(worker.latest()->comparison);
    EXPECT_DOUBLE_EQ(worker.latest()->whatIf.datumZMm, 0.3);
}

}  // namespace
}  // namespace firstoff::gui
