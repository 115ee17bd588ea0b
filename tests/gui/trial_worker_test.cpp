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

}  // namespace
}  // namespace firstoff::gui
