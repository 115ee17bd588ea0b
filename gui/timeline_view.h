// The cycle over time: lanes for tool, motion, spindle, load, grip, bending, clearance and findings, a ruler with the
// program's stops, and the scrubber.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "gui/pane.h"
#include "gui/timeline_records.h"

namespace firstoff::gui {

class TimelineView {
public:
    void draw(const PaneContext& context, const Rect& rect, bool lanesFolded);

private:
    struct Canvas;  // one frame's drawing surface
    void handleMouse(const Canvas& canvas);
    void fit(const Canvas& canvas);
    void follow(const Canvas& canvas);
    void drawRuler(const Canvas& canvas) const;
    void drawLanes(const Canvas& canvas, bool folded);
    void drawTools(const Canvas& canvas, const Rect& lane);
    void drawMotion(const Canvas& canvas, const Rect& lane);
    void drawSpindle(const Canvas& canvas, const Rect& lane);
    void drawLoad(const Canvas& canvas, const Rect& lane);
    std::vector<std::string> loadTitle(const Canvas& canvas, double timeS) const;
    void drawGrip(const Canvas& canvas, const Rect& lane);
    std::vector<std::string> gripTitle(const Canvas& canvas, double timeS) const;
    void drawBending(const Canvas& canvas, const Rect& lane);
    std::vector<std::string> bendingTitle(const Canvas& canvas, double timeS) const;
    void drawClearance(const Canvas& canvas, const Rect& lane);
    std::vector<std::string> clearanceTitle(const Canvas& canvas, std::size_t timedMove) const;
    void drawEncounters(const Canvas& canvas, const Rect& lane);
    void drawFindings(const Canvas& canvas, const Rect& lane);
    void drawLoop(const Canvas& canvas) const;
    void drawBookmarks(const Canvas& canvas) const;
    void zoomToBlock(const Canvas& canvas, double timeS);
    bool foldedByHand(const Canvas& canvas, const char* lane) const;
    void clickLabel(const Canvas& canvas, const char* lane, float y, float height) const;
    void drawScrubber(const Canvas& canvas) const;
    void drawScrollbar(const Canvas& canvas, const Rect& bar);
    void hover(const Canvas& canvas) const;

    void takeRecords(const Canvas& canvas);

    TimeWindow window_;
    // Made anew only for another trial or another window: they are walks over many moves.
    LaneRecords records_;
    std::shared_ptr<const TrialOutcome> recordsOf_;
    TimeWindow recordsIn_;
    double cycleS_ = 0;  // of the trial the window was fitted to
    bool scrubbing_ = false;
    bool panning_ = false;
    bool looping_ = false;  // a stretch to loop is being drawn, from:
    double loopFromS_ = 0;
    bool dragsBar_ = false;
    const void* hoveredFinding_ = nullptr;
    Rect clearanceLane_, loadLane_, gripLane_, bendingLane_;
    bool hoversEncounter_ = false;
    double shownS_ = 0;  // where the scrubber stands: where the session is, or where the mouse takes it in this frame
    double lastTimeS_ = 0;
};

}  // namespace firstoff::gui
