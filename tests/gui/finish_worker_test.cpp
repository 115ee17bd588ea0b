#include "gui/finish_worker.h"

#include <gtest/gtest.h>

#include <atomic>

#include "tests/gui/picture_job.h"

namespace firstoff::gui {
namespace {

constexpr BlockId kShank = 15;  // "Z-22." of the picture job

TEST(FinishWorker, AnswersWhatTheTrialSays) {
    std::atomic<int> woken = 0;
    FinishWorker worker([&] { ++woken; });
    EXPECT_EQ(worker.latest(), nullptr);
    const FinishQuestion question{pictureJob(), kShank, std::nullopt, std::nullopt};
    worker.ask(question);
    worker.finish();
    const auto answer = worker.latest();
    ASSERT_NE(answer, nullptr);
    EXPECT_EQ(answer->question, question);
    EXPECT_EQ(answer->failure, "");
    const auto expected = finishOfSurface(*question.trial, kShank, std::nullopt);
    ASSERT_TRUE(answer->report && expected);
    EXPECT_EQ(answer->report->trouble, "");
    EXPECT_EQ(answer->report->roughness.ra, expected->roughness.ra);
    EXPECT_FALSE(answer->plot.line.empty());
}

TEST(FinishWorker, LetsTheNewestQuestionWin) {
    const auto trial = pictureJob();
    FinishWorker worker({});
    for (BlockId block = 0; block <= kShank; ++block) worker.ask({trial, block, std::nullopt, std::nullopt});
    worker.finish();
    ASSERT_NE(worker.latest(), nullptr);
    EXPECT_EQ(worker.latest()->question.block, kShank);
}

TEST(FinishWorker, HasNoReportWhereALineLeftNothing) {
    const FinishAnswer answer = answerOf({pictureJob(), 0, std::nullopt, std::nullopt});
    EXPECT_FALSE(answer.report);
    EXPECT_EQ(answer.failure, "");
}

}  // namespace
}  // namespace firstoff::gui
