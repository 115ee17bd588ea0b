// How near things come, as the window looks it up, against plain walks; and what it writes of it.
#include "gui/clearance_index.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "gui/clearance_words.h"
#include "gui/timeline_index.h"
#include "gui/timeline_records.h"

namespace firstoff::gui {
namespace {

constexpr float kInfinity = std::numeric_limits<float>::infinity();

// Moves of one second each, with these gaps.
Trial withGaps(const std::vector<float>& gaps) {
    Trial trial;
    auto bodies = std::make_shared<firstoff::MachineBodies>();
    bodies->bodies.resize(3);
    bodies->bodies[0].name = "the billet";
    bodies->bodies[1].name = "the jaws";
    bodies->bodies[2].name = "the holder of station 3";
    trial.clearance.bodies = bodies;
    trial.toolpath.modals.resize(1);
    trial.toolpath.calls.resize(1);
    for (std::size_t i = 0; i < gaps.size(); ++i) {
        TimedMove timed;
        timed.t0 = static_cast<double>(i);
        timed.t1 = static_cast<double>(i) + 1;
        timed.move = static_cast<std::uint32_t>(i);
        trial.timeline.moves.push_back(timed);
        trial.toolpath.moves.emplace_back();
        Clearance clearance;
        clearance.gapMm = gaps[i];
        clearance.body = 2;
        clearance.other = 1;
        clearance.place = {static_cast<double>(i), 5, 0};
        trial.clearance.perMove.push_back(clearance);
    }
    trial.timeline.cycleTimeS = static_cast<double>(gaps.size());
    return trial;
}

Encounter encounter(std::size_t move, double timeS, double gap) {
    Encounter e;
    e.timedMove = move;
    e.timeS = timeS;
    e.gapMm = gap;
    e.body = 2;
    e.other = 1;
    return e;
}

TEST(ClearanceIndex, FindsTheNearestOfARangeAsAWalkDoes) {
    std::vector<float> gaps;
    std::uint32_t seed = 7;
    for (int i = 0; i < 9000; ++i) {
        seed = seed * 1664525u + 1013904223u;  // Numerical Recipes' linear congruence
        gaps.push_back(seed % 11 == 0 ? kInfinity : static_cast<float>(seed % 500));
    }
    const ClearanceIndex index(withGaps(gaps));
    for (std::size_t first = 0; first < gaps.size(); first += 173) {
        for (std::size_t last = first + 1; last <= gaps.size(); last += 311) {
            std::size_t best = first;
            for (std::size_t i = first; i < last; ++i) {
                if (gaps[i] < gaps[best]) best = i;
            }
            ASSERT_EQ(index.nearest(first, last), best) << first << " to " << last;
        }
    }
}

TEST(ClearanceIndex, KnowsWhenThereIsNothingToHit) {
    EXPECT_FALSE(ClearanceIndex(withGaps({kInfinity, kInfinity})).nearest());
    EXPECT_FALSE(ClearanceIndex(withGaps({})).known());
    EXPECT_EQ(ClearanceIndex(withGaps({4, 1.5f, 1.5f})).nearest(), 1u);
}

TEST(ClearanceIndex, TellsTheEncounterInForce) {
    Trial trial = withGaps({5, 0.4f, -2, -1, 9, 0});
    trial.clearance.encounters = {encounter(1, 1.7, 0.4), encounter(2, 2.25, -2)};
    const ClearanceIndex index(trial);
    EXPECT_FALSE(index.inForce(0, 0.5));
    EXPECT_FALSE(index.inForce(1, 1.1));            // on its way to a near miss
    EXPECT_EQ(index.inForce(1, 1.65)->gapMm, 0.4);  // about its closest approach
    EXPECT_EQ(index.inForce(1, 1.79)->gapMm, 0.4);
    EXPECT_FALSE(index.inForce(2, 2.1));           // not yet
    EXPECT_EQ(index.inForce(2, 2.25)->gapMm, -2);  // the first touch itself
    EXPECT_EQ(index.inForce(2, 2.9)->gapMm, -2);
    // The next move still touches, with no encounter of its own: where they touch now.
    EXPECT_EQ(index.inForce(3, 3.5)->gapMm, -1);
    EXPECT_EQ(index.inForce(3, 3.5)->place.z, 3);
    EXPECT_FALSE(index.inForce(4, 4.5));
    EXPECT_EQ(index.firstEncounterFrom(1.7), 0u);
    EXPECT_EQ(index.firstEncounterFrom(1.8), 1u);
}

TEST(ClearanceRecords, FoldedStretchesTellTheirSmallestGap) {
    std::vector<float> gaps(4000, 8.0f);
    gaps[1234] = 0.25f;
    const Trial trial = withGaps(gaps);
    const TimelineIndex index(trial);
    const TimeWindow window = bounded({0, 0, 800}, trial.timeline.cycleTimeS);
    const auto records = clearanceRecords(trial, index, window);
    EXPECT_LE(records.size(), 800 / kFoldPx + 1);
    int near = 0;
    for (const ClearanceRecord& record : records) {
        if (record.gapMm > 1) continue;
        ++near;
        EXPECT_EQ(record.nearest, 1234u);
        EXPECT_LE(record.x0, window.x(1234));
        EXPECT_GE(record.x1, window.x(1235) - 1e-3);
    }
    EXPECT_EQ(near, 1);
}

TEST(ClearanceWords, TellInchesOnTheSafeSideToo) {
    constexpr Measures kInch(Units::Inches);
    EXPECT_EQ(gapTitle(2.54, kInch), "0.1000 in");
    EXPECT_EQ(gapTitle(2.539, kInch), "0.0999 in");  // 0.09996
    EXPECT_EQ(gapTitle(0, kInch), "touching");
    EXPECT_EQ(gapTitle(-6.35, kInch), "touching, 0.2500 in deep");
    Margin margin;
    EXPECT_EQ(marginTitle(margin, 2, kInch), ">3.9");  // 100 mm are 3.937 in
    margin.mm = 2.5399;
    EXPECT_EQ(marginTitle(margin, 1, kInch), "0.099");
    EXPECT_EQ(placeTitle({10, 25.4, 0}, {-2.7, 0}, kInch), "X 2.0000  Z 0.5000 in");
}

TEST(ClearanceWords, GapsAreNeverToldLargerThanTheyAre) {
    constexpr Measures kMm(Units::Millimetres);
    EXPECT_EQ(gapTitle(1.249, kMm), "1.24 mm");
    EXPECT_EQ(gapTitle(0.0099, kMm), "0.00 mm");
    EXPECT_EQ(gapTitle(0, kMm), "touching");
    EXPECT_EQ(gapTitle(-7, kMm), "touching, 7.00 mm deep");
    EXPECT_EQ(gapTitle(std::numeric_limits<double>::infinity(), kMm), "nothing to hit");
    Margin margin;
    EXPECT_EQ(marginTitle(margin, 2, kMm), ">100");
    margin.mm = 0.4599;
    EXPECT_EQ(marginTitle(margin, 2, kMm), "0.91");
    margin.mm = 25.19;
    EXPECT_EQ(marginTitle(margin, 1, kMm), "25.1");
    const Trial trial = withGaps({1});
    EXPECT_EQ(pairTitle(trial, 2, 1), "the holder of station 3 and the jaws");
    EXPECT_EQ(placeTitle({10, 20, 0}, {5, 0}, kMm), "X 40.000  Z 5.000 mm");
    EXPECT_EQ(placeTitle({10, 20, -7.5}, {5, 0}, kMm), "X 40.000  Z 5.000  Y -7.500 mm");
}

}  // namespace
}  // namespace firstoff::gui
