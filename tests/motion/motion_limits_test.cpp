#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sim/motion/timeline.h"
#include "tests/motion/path_by_hand.h"

namespace firstoff {
namespace {

using shop::constantRevPerMin;
using shop::constantSurfaceSpeed;
using shop::openLathe;
using shop::PathByHand;
using testing::HasSubstr;

std::vector<Finding> findingsOf(PathByHand& path, const firstoff::Setup& setup) {
    return layOut(path.path(), setup).findings;
}

TEST(Travel, InsideItNothingIsSaid) {
    auto setup = openLathe();
    setup.machine.home = {400, 180};
    setup.machine.travelR = {-190, 0};
    setup.machine.travelZ = {-520, 0};
    PathByHand path(constantRevPerMin(1000), 360, 400);
    path.rapid(-20, -120).home(360, 400);
    EXPECT_THAT(findingsOf(path, setup), testing::IsEmpty());
}

TEST(Travel, BeyondItSaysHowFarAsDiameterInMachineCoordinates) {
    auto setup = openLathe();
    setup.machine.home = {400, 180};
    setup.machine.travelR = {-190, 0};
    PathByHand path(constantRevPerMin(1000), 360, 400);
    path.rapid(-26, 400);  // machine X -386, limit -380
    const auto findings = findingsOf(path, setup);
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_EQ(findings[0].code, "over-travel");
    EXPECT_EQ(findings[0].severity, Severity::Stop);
    EXPECT_EQ(findings[0].span.line, 1u);
    EXPECT_THAT(findings[0].message, HasSubstr("-386.000"));
    EXPECT_THAT(findings[0].message, HasSubstr("6.000 mm beyond"));
}

TEST(Travel, OfAnArcIsItsWidestPlaceNotItsEnds) {
    auto setup = openLathe();
    setup.machine.home = {0, 0};
    setup.machine.travelZ = {-24, 100};
    PathByHand path(constantRevPerMin(1000), 100, 0);
    path.arc(MoveKind::ArcAnticlockwise, 50, 0, 75, 0, 0.2);  // half circle of radius 12.5 to the left: Z-12.5
    EXPECT_THAT(findingsOf(path, setup), testing::IsEmpty());
    setup.machine.travelZ = {-12, 100};
    EXPECT_EQ(findingsOf(path, setup).size(), 1u);
}

TEST(Travel, ComingBackIsNotSaidAgain) {
    auto setup = openLathe();
    setup.machine.home = {0, 0};
    setup.machine.travelZ = {-100, 0};
    PathByHand path(constantRevPerMin(1000), 50, -50);
    path.rapid(50, -101).rapid(60, -101).rapid(60, -100.5).rapid(60, -50);
    EXPECT_EQ(findingsOf(path, setup).size(), 1u);
}

TEST(FeedLimit, IsANoteWithTheFiguresAndTheMoveRunsClamped) {
    auto setup = openLathe();
    setup.machine.maxFeedMmPerMin = 5000;
    PathByHand path(constantRevPerMin(2000), 50, -10);
    path.feed(60, -10, 10);  // a retract at F10 per revolution: 20000 mm/min
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.findings.size(), 1u);
    EXPECT_EQ(timeline.findings[0].code, "feed-above-limit");
    EXPECT_EQ(timeline.findings[0].severity, Severity::Note);
    EXPECT_THAT(timeline.findings[0].message, HasSubstr("20000"));
    EXPECT_NEAR(timeline.cycleTimeS, 5.0 / 5000 * 60, 1e-12);
}

TEST(FeedPerRevolution, WithTheSpindleStoppedIsAStopAndTheTrialGoesOn) {
    auto setup = openLathe();
    PathByHand path(ModalState{}, 50, 0);
    path.feed(50, -10, 0.2);
    const Timeline timeline = layOut(path.path(), setup);
    ASSERT_EQ(timeline.findings.size(), 1u);
    EXPECT_EQ(timeline.findings[0].code, "feed-per-rev-with-spindle-stopped");
    EXPECT_EQ(timeline.findings[0].severity, Severity::Stop);
    EXPECT_THAT(timeline.findings[0].message, HasSubstr("for ever"));
    EXPECT_TRUE(std::isfinite(timeline.cycleTimeS));
}

TEST(FeedMissing, IsSaidOnceAndNotIfTheControlHasSaidIt) {
    auto setup = openLathe();
    PathByHand path(constantRevPerMin(500), 50, 0);
    path.feed(50, -10, 0);
    EXPECT_EQ(findingsOf(path, setup).size(), 1u);
    Finding said;
    said.code = "missing-feed";
    path.path().findings.push_back(said);
    EXPECT_THAT(findingsOf(path, setup), testing::IsEmpty());
}

TEST(ChuckSpeed, ConstantSurfaceSpeedWithoutAClampOutrunsTheChuck) {
    auto setup = openLathe();
    setup.machine.maxRevPerMin = 4500;
    setup.chuck.maxRevPerMin = 3500;
    PathByHand path(constantSurfaceSpeed(200, 0), 60, 0);
    path.feed(0, 0, 0.2).rapid(0, 2).rapid(60, 2);  // on the way out it is no news
    const auto findings = findingsOf(path, setup);
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_EQ(findings[0].code, "speed-above-chuck-limit");
    EXPECT_THAT(findings[0].remedy, HasSubstr("G50"));
    PathByHand clamped(constantSurfaceSpeed(200, 3500), 60, 0);
    clamped.feed(0, 0, 0.2);
    EXPECT_THAT(findingsOf(clamped, setup), testing::IsEmpty());
}

TEST(MachineSpeed, AskedForInVainIsAWarningOnce) {
    auto setup = openLathe();
    setup.machine.maxRevPerMin = 4000;
    PathByHand path(constantRevPerMin(9000), 50, 0);
    path.feed(50, -10, 0.2).rapid(60, -10).feed(50, -20, 0.2);
    const auto findings = findingsOf(path, setup);
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_EQ(findings[0].code, "speed-above-machine-limit");
    EXPECT_EQ(findings[0].severity, Severity::Warning);
    PathByHand highest(constantRevPerMin(4000), 50, 0);
    highest.feed(50, -10, 0.2);
    EXPECT_THAT(findingsOf(highest, setup), testing::IsEmpty());
}

TEST(Findings, ComeOncePerBlockHoweverManyPasses) {
    auto setup = openLathe();
    setup.machine.maxFeedMmPerMin = 100;
    PathByHand path(constantRevPerMin(1000), 50, 0);
    for (int pass = 0; pass < 5; ++pass) path.feed(50, -10 - pass, 0.2).inBlock(7);
    path.feed(60, -10, 0.2).inBlock(8);
    const auto findings = findingsOf(path, setup);
    ASSERT_EQ(findings.size(), 2u);
    EXPECT_EQ(findings[0].span.line, 8u);
    EXPECT_EQ(findings[1].span.line, 9u);
}

}  // namespace
}  // namespace firstoff
