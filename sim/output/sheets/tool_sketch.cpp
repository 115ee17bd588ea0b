#include "sim/output/sheets/tool_sketch.h"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/sheets/sketch_marks.h"

namespace firstoff {

namespace {

constexpr double kHeightMm = 30, kEdgeMm = 1, kScaleLineMm = 4;
constexpr double kArrowRoom = 8;  // round the tip

struct Solid {
    const Outline* outline;
    bool cuts;
};

std::vector<Solid> solidsOf(const Tool& tool) {
    std::vector<Solid> solids;
    if (!tool.holder.empty()) solids.push_back({&tool.holder, false});
    for (const Outline& step : tool.holderSteps) solids.push_back({&step, false});
    for (const Outline& step : tool.steps) solids.push_back({&step, true});
    if (!tool.cutting.empty()) solids.push_back({&tool.cutting, true});
    return solids;
}

void widen(Box& box, const Box& by, bool first) {
    if (first) {
        box = by;
        return;
    }
    box.zMin = std::min(box.zMin, by.zMin);
    box.zMax = std::max(box.zMax, by.zMax);
    box.rMin = std::min(box.rMin, by.rMin);
    box.rMax = std::max(box.rMax, by.rMax);
}

Box boxOf(const std::vector<Solid>& solids, bool cutsOnly) {
    Box box;
    bool first = true;
    for (const Solid& solid : solids) {
        if (cutsOnly && !solid.cuts) continue;
        widen(box, boundingBox(*solid.outline), first);
        first = false;
    }
    return box;
}

// A stretch of at most `room` that keeps the tip, where the shape begins, in view.
void keep(double& least, double& most, double room, double tip) {
    if (most - least <= room) {
        const double more = (room - (most - least)) / 2;
        least -= more;
        most += more;
        return;
    }
    if (most - tip > tip - least) {
        most = least + room;
    } else {
        least = most - room;
    }
}

void addArrow(Sketch& sketch, PaperPoint tip, double dx, double dy) {
    constexpr double kOff = 2, kLong = 7;
    const PaperPoint from{tip.x + kOff * dx, tip.y + kOff * dy}, to{tip.x + kLong * dx, tip.y + kLong * dy};
    addLine(sketch, from, to);
    addArrowHead(sketch, from, to);
}

// The way it cuts most, and another one across it where that is no trifle.
void addFeed(Sketch& sketch, PaperPoint tip, const ToolUse& use) {
    const double alongZ = std::max(use.towardChuck, use.awayFromChuck), alongX = std::max(use.inwards, use.outwards);
    constexpr double kTrifle = 0.2;
    if (alongZ > 0 && alongZ >= kTrifle * alongX) {
        addArrow(sketch, tip, use.towardChuck >= use.awayFromChuck ? -1 : 1, 0);
    }
    if (alongX > 0 && alongX >= kTrifle * alongZ) addArrow(sketch, tip, 0, use.inwards >= use.outwards ? 1 : -1);
}

}  // namespace

Sketch toolSketch(const Tool& tool, const ToolUse& use) {
    Sketch sketch;
    sketch.title = say("Tool of station {}", tool.station);
    sketch.width = kToolSketchMm;
    sketch.height = kHeightMm;
    const std::vector<Solid> solids = solidsOf(tool);
    if (solids.empty()) return sketch;
    const double width = sketch.width - 2 * kEdgeMm, height = sketch.height - 2 * kEdgeMm - kScaleLineMm;
    // All of it where its edge can still be seen then, else as much as there is room for beside the edge.
    const Box edge = boxOf(solids, true);
    Box all = boxOf(solids, false);
    all.zMin = std::min(all.zMin, 0.0);
    all.rMin = std::min(all.rMin, 0.0);
    const double size = std::max(std::min(edge.zMax - edge.zMin, edge.rMax - edge.rMin), 0.5);
    constexpr double kSeenMm = 2, kLeastScale = 0.5;  // of the edge on paper, and for all else to be seen
    double scale = std::min(standardScale(all.zMax - all.zMin, width - kArrowRoom),
                            standardScale(all.rMax - all.rMin, height - kArrowRoom));
    scale = std::max(scale, kLeastScale);
    while (scale < 2 && scale * size < kSeenMm) scale = standardScale(1, scale * 2.6);
    // Room for the arrows beside the tip.
    const double round = kArrowRoom / scale;
    all.zMin = std::min(all.zMin, -round);
    all.rMin = std::min(all.rMin, tool.tipNumber == 2 || tool.tipNumber == 1 ? all.rMin : -round);
    if (tool.inside || tool.kind == ToolKind::Boring) all.rMax = std::max(all.rMax, round);
    keep(all.zMin, all.zMax, width / scale, 0);
    keep(all.rMin, all.rMax, height / scale, 0);
    const PaperView view{scale, {kEdgeMm - scale * all.zMin, kEdgeMm + scale * all.rMax}};
    if (worksOnTheAxis(tool.kind)) {
        addLine(sketch, {kEdgeMm, view.origin.y}, {sketch.width - kEdgeMm, view.origin.y}, LineKind::Centre);
    }
    for (const Solid& solid : solids) {
        const std::vector<Point> points = clipped(drawnPoints(*solid.outline, scale), all);
        addPolygon(sketch, view.at(points), solid.cuts ? LineKind::Wide : LineKind::Narrow,
                   solid.cuts ? Shade::Middle : Shade::Light);
    }
    if (worksOnTheAxis(tool.kind)) {
        addLine(sketch, view.at(Point{0, 0}), {sketch.width - kEdgeMm, view.origin.y}, LineKind::Centre);
    }
    const PaperPoint tip = view.at(Point{0, 0});
    constexpr double kCross = 1.6;
    addLine(sketch, {tip.x - kCross, tip.y}, {tip.x + kCross, tip.y});
    addLine(sketch, {tip.x, tip.y - kCross}, {tip.x, tip.y + kCross});
    addFeed(sketch, tip, use);
    addText(sketch, {kEdgeMm, sketch.height - 1}, scaleInWords(scale), Lettering::Anchor::Start, 2);
    return sketch;
}

}  // namespace firstoff
