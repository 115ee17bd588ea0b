// What stands in the stations: block, holder, edge.
//
// The turning half-plane holds the edge, at the tool's centre height. Under M03 the metal comes to the turret from
// y < 0 (see space.h), so the rake face looks that way and insert and shank lie behind it, at y > 0; under M04 the
// other way round. A tool that says neither is taken as lying on both sides.
#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/clearance/body_makers.h"
#include "sim/setup/outline_placing.h"

namespace firstoff {

namespace {

constexpr double kChordMm = 0.005;  // of arcs in what is turned about its own axis

Range across(const Tool& tool, double thickness) {
    switch (tool.needs) {
        case SpindleDirection::Forward:
            return {-tool.centreHeight, -tool.centreHeight + thickness};
        case SpindleDirection::Reverse:
            return {tool.centreHeight - thickness, tool.centreHeight};
        case SpindleDirection::Stopped:
            break;
    }
    const double most = std::abs(tool.centreHeight) + thickness;
    return {-most, most};
}

double centreY(const Tool& tool) {
    return tool.needs == SpindleDirection::Reverse ? tool.centreHeight : -tool.centreHeight;
}

ConvexPiece flatPiece(const Tool& tool, const Outline& outline, double thickness) {
    const Range y = across(tool, thickness);
    return prismPiece(outline, tool.tip, y.min, y.max);
}

// An outline of something round, turned about the axis r = `middle` of the tool frame: whichever side of it stands
// further out counts.
ConvexPiece roundPiece(const Tool& tool, const Outline& outline, double middle, double y) {
    std::vector<Point> half;
    for (Point p : polyline(outline, kChordMm)) half.push_back({p.z + tool.tip.z, std::abs(p.r - middle)});
    return turnedPiece(std::move(half), middle + tool.tip.r, y);
}

// Middle of a bar, where it goes into its block.
double middleOfBar(const Outline& outline) {
    const Box box = boundingBox(outline);
    double low = box.rMax, high = box.rMin;
    for (const OutlineElement& e : outline.elements) {
        if (e.from.z < box.zMax - 1e-6) continue;
        low = std::min(low, e.from.r);
        high = std::max(high, e.from.r);
    }
    return (low + high) / 2;
}

bool isBar(const Tool& tool) {
    return standsAlongZ(tool) && !worksOnTheAxis(tool.kind) && !tool.face;
}

double shankHeight(const Tool& tool) {
    return tool.head && tool.head->shankHeight > 0 ? tool.head->shankHeight : tool.shankSize;
}

BodyName nameOf(BodyKind kind, int station) {
    if (kind == BodyKind::Block) return bodyName(later("the block of station {}"), station);
    if (kind == BodyKind::Holder) return bodyName(later("the holder of station {}"), station);
    return bodyName(later("the edge of station {}"), station);
}

void addAtStation(MachineBodies& all, const Tool& tool, int index, BodyKind kind, std::vector<ConvexPiece> pieces) {
    if (pieces.empty()) return;
    MachineBody body = bodyOf(kind, Carrier::Turret, nameOf(kind, tool.station));
    body.station = tool.station;
    body.toolIndex = index;
    for (ConvexPiece& piece : pieces) {
        body.pieces.push_back(turnedAbout(all.turretAxisR, -all.turnOf(tool.station), std::move(piece)));
    }
    all.bodies.push_back(std::move(body));
}

std::vector<ConvexPiece> blockPieces(const ToolBlock& block) {
    if (block.z.max <= block.z.min || block.r.max <= block.r.min || block.width <= 0) return {};
    return {boxPiece({block.z.min, block.r.min, -block.width / 2}, {block.z.max, block.r.max, block.width / 2})};
}

void addTool(MachineBodies& all, const Setup& setup, int index) {
    const Tool& tool = setup.tools[static_cast<std::size_t>(index)];
    const std::optional<ToolBlock> block = toolBlockOf(setup, tool);
    std::vector<ConvexPiece> pieces = block ? blockPieces(*block) : std::vector<ConvexPiece>{};
    if (pieces.empty() && setup.turret) {
        all.notModelled.push_back({say("The set-up does not give the block that holds the tool of station {}, so "
                                       "nothing is kept clear of it.",
                                       tool.station),
                                   true, tool.station, tool.span});
    }
    addAtStation(all, tool, index, BodyKind::Block, std::move(pieces));
    pieces = holderPieces(tool);
    if (pieces.empty()) {
        all.notModelled.push_back({say("The set-up does not say how far the tool of station {} stands out, so "
                                       "nothing is kept clear of its holder.",
                                       tool.station),
                                   true, tool.station, tool.span});
    }
    addAtStation(all, tool, index, BodyKind::Holder, std::move(pieces));
    addAtStation(all, tool, index, BodyKind::Edge, edgePieces(tool));
}

}  // namespace

std::vector<ConvexPiece> holderPieces(const Tool& tool) {
    std::vector<Outline> outlines = tool.holderSteps;
    outlines.insert(outlines.begin(), tool.holder);
    std::vector<ConvexPiece> pieces;
    for (const Outline& outline : outlines) {
        if (outline.empty()) continue;
        if (worksOnTheAxis(tool.kind)) {
            pieces.push_back(roundPiece(tool, outline, 0, 0));
        } else if (isBar(tool)) {
            pieces.push_back(roundPiece(tool, outline, middleOfBar(outline), centreY(tool)));
        } else {
            pieces.push_back(flatPiece(tool, outline, shankHeight(tool)));
        }
    }
    return pieces;
}

std::vector<ConvexPiece> edgePieces(const Tool& tool) {
    std::vector<Outline> outlines = tool.steps;
    if (!tool.cutting.empty()) outlines.insert(outlines.begin(), tool.cutting);
    // Without its thickness an insert is taken as thick as the shank under it.
    const double thickness = tool.flankHeight > 0 ? tool.flankHeight : shankHeight(tool);
    std::vector<ConvexPiece> pieces;
    for (const Outline& outline : outlines) {
        if (outline.empty()) continue;
        pieces.push_back(worksOnTheAxis(tool.kind) ? roundPiece(tool, outline, 0, 0)
                                                   : flatPiece(tool, outline, thickness));
    }
    return pieces;
}

void addTools(MachineBodies& all, const Setup& setup) {
    for (std::size_t i = 0; i < setup.tools.size(); ++i) addTool(all, setup, static_cast<int>(i));
}

}  // namespace firstoff
