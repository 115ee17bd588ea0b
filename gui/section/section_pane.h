// The half-section as a drawing: true to scale, cut open above the axis, seen from outside below it; with the ways of
// the tool, sizes, and whatever two places are gauged against each other.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "gui/pane.h"
#include "gui/section/section_paths.h"
#include "gui/section/section_shape.h"
#include "gui/section/section_view.h"
#include "gui/section/sound_part.h"
#include "sim/inspection/drawn_outline.h"
#include "sim/inspection/feature_gauge.h"

namespace firstoff::gui {

class SectionPane {
public:
    // `alone`: it stands in the place of the picture.
    void draw(const PaneContext& context, const Rect& rect, bool alone);
    // What is picked and gauged; empty: nothing.
    const std::vector<SectionFeature>& picked() const { return picked_; }
    // The main figure of that in words; empty: none.
    std::string gauged(Measures measures) const;

    void move(const MoveView& by);
    void gaugeNext(const GaugeNext& command);

private:
    struct Canvas;
    void takeTrial(const Session& session);
    void takeInstant(const Canvas& canvas);
    void takeDeviations();
    void fitIfWanted(const Rect& rect, float margin, float sizesBelow);
    Box boxOfAll() const;
    void handleMouse(const Canvas& canvas);
    void drawGrid(const Canvas& canvas, bool named) const;
    void drawChuck(const Canvas& canvas) const;
    void drawBillet(const Canvas& canvas) const;
    void drawStrips(const Canvas& canvas, const SectionView& view) const;
    void drawBlank(const Canvas& canvas) const;
    void drawSound(const Canvas& canvas) const;
    void drawPaths(const Canvas& canvas) const;
    void drawTool(const Canvas& canvas) const;
    void drawDeviations(const Canvas& canvas) const;
    std::vector<FeatureReading> readings() const;
    void drawPicked(const Canvas& canvas) const;
    void drawFeature(const Canvas& canvas, const SectionFeature& feature, Colour colour, float width) const;
    void drawReadings(const Canvas& canvas) const;
    void drawPlaces(const Canvas& canvas) const;
    void drawHover(const Canvas& canvas) const;
    void drawButtons(const Canvas& canvas);
    void drawRemarks(const Canvas& canvas) const;
    std::vector<SectionFeature> surfaces() const;
    std::optional<SectionFeature> featureUnder(const Canvas& canvas, ImVec2 mouse) const;

    std::shared_ptr<const Trial> trial_;
    std::optional<StockCursor> cursor_;
    std::vector<SectionContour> blank_;  // as it was gripped
    SectionView view_;
    bool fitWanted_ = true;
    Rect fittedTo_;
    bool sizesShown_ = false;
    bool touched_ = false;  // the user has moved or zoomed: a new shape of the pane does not fit anew

    // What is shown, made anew when instant or scale change.
    double shownS_ = -1, shapedAt_ = 0;
    Point datum_;
    SectionShape shape_;
    SectionPaths paths_;
    BlockId pathsOf_ = kNoBlock;

    SoundPart sound_;
    std::optional<std::vector<OutlinePlace>> deviations_;  // along the drawn outline, at the end of the cycle
    std::vector<SectionFeature> picked_;                   // two at most
    ImVec2 pressedAt_{0, 0};
};

}  // namespace firstoff::gui
