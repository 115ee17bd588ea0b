// From a trial to short lists of things to draw: nothing narrower than a few pixels is drawn singly, so a list is never
// longer than the screen is wide, whatever the length of the program.
#pragma once

#include <cstdint>
#include <vector>

#include "gui/timeline_index.h"
#include "sim/motion/timeline.h"

namespace firstoff::gui {

// The stretch of time on screen.
struct TimeWindow {
    double from = 0;  // s at the left edge
    double pxPerSecond = 1;
    double width = 0;  // px

    double to() const { return from + width / pxPerSecond; }
    double x(double timeS) const { return (timeS - from) * pxPerSecond; }
    double time(double px) const { return from + px / pxPerSecond; }
    bool operator==(const TimeWindow&) const = default;
};

// Stretches narrower than this are folded together, px.
inline constexpr double kFoldPx = 3;

// Timed moves [first, last), drawn from x0 to x1 (px from the left edge). Folded ones tell how their time is shared
// out.
struct MotionRecord {
    float x0 = 0, x1 = 0;
    std::uint32_t first = 0, last = 0;
    MotionClass kind = MotionClass::Waiting;    // of the only move, or the one with the largest share
    float cutting = 0, rapid = 0, waiting = 0;  // shares of the time, sum 1
    bool folded = false;
};
std::vector<MotionRecord> motionRecords(const Timeline& timeline, const TimelineIndex& index, const TimeWindow& window);

// Spindle speed: a straight piece of one move, or the extent of folded ones; rev/min.
struct SpindleRecord {
    float x0 = 0, x1 = 0;
    float start = 0, end = 0;  // at x0 and x1; folded: least and greatest in between
    bool folded = false;
};
std::vector<SpindleRecord> spindleRecords(const Timeline& timeline, const TimelineIndex& index,
                                          const TimeWindow& window);

// How near anything comes: of one move, or the smallest of folded ones.
struct ClearanceRecord {
    float x0 = 0, x1 = 0;
    std::uint32_t nearest = 0;  // timed move
    float gapMm = 0;
};
// Empty where no clearances were measured.
std::vector<ClearanceRecord> clearanceRecords(const Trial& trial, const TimelineIndex& index, const TimeWindow& window);

// Load: a straight piece between two samples, or the greatest of folded moves over their whole stretch.
struct LoadRecord {
    float x0 = 0, x1 = 0;
    float start = 0, end = 0;  // at x0 and x1
    bool folded = false;
};
// Stretches without metal, and those where the figure is not known, have none.
std::vector<LoadRecord> sampleRecords(const Trial& trial, const SampleIndex& samples, const TimeWindow& window);
// Those of the lane of loads.
std::vector<LoadRecord> loadRecords(const Trial& trial, const TimelineIndex& index, const TimeWindow& window);

// Findings that fall into one mark; the worst of them gives its looks.
struct FindingRecord {
    float x = 0;
    std::uint32_t first = 0, last = 0;  // into TimelineIndex::findingsByTime()
    std::uint32_t worst = 0;            // likewise
};
// Marks closer than `markPx` are folded together.
std::vector<FindingRecord> findingRecords(const TimelineIndex& index, const TimeWindow& window, double markPx);

// What all lanes but the findings' are drawn from. Empty where a figure is not known.
struct LaneRecords {
    std::vector<MotionRecord> motion;
    std::vector<SpindleRecord> spindle;
    std::vector<ClearanceRecord> clearance;
    std::vector<LoadRecord> load, grip, bending;
};
LaneRecords laneRecords(const Trial& trial, const TimelineIndex& index, const TimeWindow& window);

// Keeps a window inside the cycle, and from zooming in further than makes sense.
TimeWindow bounded(TimeWindow window, double cycleS);

// Step between ticks on the ruler that are at least `px` apart: 1-2-5 below ten seconds, clock steps above.
double tickStep(const TimeWindow& window, double px);

}  // namespace firstoff::gui
