// How the blank is held: chuck, jaws, bar, centre and datum to scale, with the lengths a setter measures.
//
// The view looks across the machine, chuck to the left. What is turned about the axis is drawn from the sections that
// clearances are measured against, on both sides of the axis.
#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/clearance/machine_bodies.h"
#include "sim/output/sheets/part_outline.h"
#include "sim/output/sheets/sheet_frame.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/output/sheets/sketch_marks.h"

namespace firstoff {

namespace {

constexpr double kLeftMm = 4, kTopMm = 4;
constexpr double kLevelMm = 7;       // between dimension lines
constexpr double kUprightMm = 9;     // room for the upright one at the right
constexpr double kTallestMm = 95;    // of what is drawn, dimensions besides
constexpr double kBehindBodyMm = 6;  // of a bar that goes on behind the chuck, on paper
constexpr double kSeenOfQuillMm = 45;

struct Extent2 {
    double zMin = 0, zMax = 0, rMax = 1;
};

std::vector<Point> mirrored(std::vector<Point> polygon) {
    for (Point& p : polygon) p.r = -p.r;
    return polygon;
}

bool isRing(const std::vector<Point>& section) {
    return section.size() == 4 && section[0].r == section[1].r && section[2].r == section[3].r &&
           section[1].z == section[2].z && section[3].z == section[0].z;
}

// Rings of one thickness that lie behind one another are one: no edge is seen between them.
std::vector<std::vector<Point>> joined(std::vector<std::vector<Point>> sections) {
    std::vector<std::vector<Point>> result;
    for (std::vector<Point>& section : sections) {
        if (!result.empty() && isRing(section) && isRing(result.back())) {
            std::vector<Point>& last = result.back();
            if (last[0].r == section[0].r && last[2].r == section[2].r && last[0].z == section[1].z) {
                last[0].z = last[3].z = section[0].z;
                continue;
            }
        }
        result.push_back(std::move(section));
    }
    return result;
}

class HoldingDrawing {
public:
    HoldingDrawing(const Trial& trial, double widthMm)
        : trial_(trial), setup_(trial.setup), bodies_(machineBodies(trial.setup)) {
        sketch_.width = widthMm;
        sketch_.title = tr("How the blank is held, with chuck, jaws and datum");
    }

    Sketch draw() {
        setView();
        const double axis = view_.origin.y;
        bar();
        for (const MachineBody& body : bodies_.bodies) drawBody(body);
        finished();
        addLine(sketch_, {kLeftMm - 2, axis}, {sketch_.width - kUprightMm, axis}, LineKind::Centre);
        datums();
        dimensions();
        addText(sketch_, {kLeftMm, sketch_.height - 1}, say("scale {}", scaleInWords(view_.scale)));
        return std::move(sketch_);
    }

private:
    bool hasBar() const { return setup_.stock.frontZ > setup_.stock.backZ && setup_.stock.outerRadius > 0; }

    // Where the tailstock is drawn: where it stands at the work; nothing where it only stands parked.
    std::optional<double> tailstockZ() const {
        if (!setup_.tailstock) return std::nullopt;
        if (setup_.tailstock->advanced) return setup_.tailstock->tipZ;
        return setup_.tailstock->advancedZ;
    }

    void setView() {
        Extent2 e;
        const Chuck& chuck = setup_.chuck;
        e.zMin = std::min(-chuck.bodyLength, -1.0);
        e.zMax = std::max(chuck.jawLength, 1.0);
        e.rMax = std::max({chuck.bodyRadius, chuck.jawOuterRadius, 1.0});
        if (hasBar()) {
            e.zMax = std::max(e.zMax, setup_.stock.frontZ);
            e.rMax = std::max(e.rMax, setup_.stock.outerRadius);
        }
        for (std::size_t i = 0; i < kWorkOffsets; ++i) {
            if (setup_.workOffsetGiven[i]) e.zMax = std::max(e.zMax, setup_.workOffsets[i].z);
        }
        if (const auto z = tailstockZ()) {
            e.zMax = std::max(e.zMax, *z + kSeenOfQuillMm);
            e.rMax = std::max(e.rMax, setup_.tailstock->quillRadius);
        }
        // Beside the front stand the name of the datum and, further out, the upright dimension.
        const double room = sketch_.width - kLeftMm - kBehindBodyMm - kUprightMm - 15;
        view_.scale = std::min(standardScale(e.zMax - e.zMin, room), standardScale(2 * e.rMax, kTallestMm));
        // In the middle of what is left over.
        const double spare = room - view_.scale * (e.zMax - e.zMin);
        view_.origin = {kLeftMm + kBehindBodyMm + std::min(spare / 2, 30.0) - view_.scale * e.zMin,
                        kTopMm + view_.scale * e.rMax};
        seen_ = {e.zMin - kBehindBodyMm / view_.scale, e.zMax, -e.rMax, e.rMax};
        below_ = view_.origin.y + view_.scale * e.rMax;
    }

    void bar() {
        if (!hasBar()) return;
        for (const Loop& loop : blankLoops(trial_, 0.01 / view_.scale)) {
            std::vector<Point> points = clipped(loop.points, seen_);
            addPolygon(sketch_, view_.at(points), LineKind::Wide, Shade::Paper);
            addPolygon(sketch_, view_.at(mirrored(points)), LineKind::Wide, Shade::Paper);
        }
        // Solid bars are outlined on both sides of the axis; nothing is cut along it.
        if (setup_.stock.boreRadius <= 0 && setup_.stock.isRound()) eraseAxisLine();
    }

    void eraseAxisLine() {
        const Stock& s = setup_.stock;
        const double from = std::max(s.backZ, seen_.zMin);
        addPolygon(
            sketch_,
            view_.at(
                {{from, -s.outerRadius}, {s.frontZ, -s.outerRadius}, {s.frontZ, s.outerRadius}, {from, s.outerRadius}}),
            LineKind::Wide, Shade::Paper);
    }

    void drawBody(const MachineBody& body) {
        double shift = 0;
        switch (body.kind) {
            case BodyKind::ChuckBody:
            case BodyKind::Jaws:
            case BodyKind::SteadyRest:
                break;
            case BodyKind::Centre:
            case BodyKind::Quill:
                if (!tailstockZ()) return;
                shift = *tailstockZ();
                break;
            default:
                return;
        }
        const bool jaws = body.kind == BodyKind::Jaws;
        for (const std::vector<Point>& section : joined(body.sections)) {
            std::vector<Point> points = section;
            for (Point& p : points) p.z += shift;
            points = clipped(points, seen_);
            if (points.size() < 3) continue;
            for (const auto& side : {points, mirrored(points)}) {
                addPolygon(sketch_, view_.at(side), jaws ? LineKind::Wide : LineKind::Narrow,
                           jaws ? Shade::Middle : Shade::Light);
            }
        }
    }

    // What comes of it, so that it is seen how near the work goes to the jaws.
    void finished() {
        for (const Loop& loop : finishedLoops(trial_, 0.02 / view_.scale, StockCursor::Detail::Envelope)) {
            for (std::size_t i = 0; i < loop.points.size(); ++i) {
                const Point a = loop.points[i], b = loop.points[(i + 1) % loop.points.size()];
                if (a.r <= 1e-6 && b.r <= 1e-6) continue;
                if (!isCutHere(loop.cuts[i])) continue;
                addLine(sketch_, view_.at(a), view_.at(b), LineKind::Narrow);
                addLine(sketch_, view_.at(Point{a.z, -a.r}), view_.at(Point{b.z, -b.r}), LineKind::Narrow);
            }
        }
    }

    void datums() {
        double down = 0;
        for (std::size_t i = 0; i < kWorkOffsets; ++i) {
            if (!setup_.workOffsetGiven[i]) continue;
            const PaperPoint at = view_.at(Point{setup_.workOffsets[i].z, setup_.workOffsets[i].r});
            addDatumMark(sketch_, at);
            label({at.x + 3, at.y - 2.6 - down}, workOffsetName(static_cast<int>(i)) + " Z0");
            down += 3.6;
        }
    }

    // On white paper, so that it can be read where something is drawn.
    void label(PaperPoint at, const std::string& text) {
        constexpr double kRound = 0.4;
        const double width = letteringWidth(text, kLetterMm);
        addPolygon(sketch_,
                   {{at.x - kRound, at.y + kRound},
                    {at.x + width + kRound, at.y + kRound},
                    {at.x + width + kRound, at.y - kLetterMm - kRound},
                    {at.x - kRound, at.y - kLetterMm - kRound}},
                   LineKind::None, Shade::Paper);
        addText(sketch_, at, text);
    }

    struct Length {
        double z0, r0, z1, r1;
        std::string text;
    };

    std::vector<Length> lengths() const {
        std::vector<Length> all;
        const double jaw = setup_.chuck.jawLength, jawR = setup_.chuck.jawOuterRadius;
        const Stock& s = setup_.stock;
        if (hasBar() && s.frontZ > jaw) {
            all.push_back({jaw, jawR, s.frontZ, s.outerRadius, say("stick-out {}", shortFigure(s.frontZ - jaw, 3))});
        }
        const bool collet = setup_.chuck.kind == Chuck::Kind::Collet;
        if (hasBar() && !collet && jaw > 0) {
            const double given = setup_.chuck.gripLength > 0 ? std::min(setup_.chuck.gripLength, jaw) : jaw;
            const double from = std::max(jaw - given, s.backZ);
            if (from < jaw) all.push_back({from, jawR, jaw, jawR, say("in the jaws {}", shortFigure(jaw - from, 3))});
        }
        for (std::size_t i = 0; i < kPlainWorkOffsets; ++i) {
            if (!setup_.workOffsetGiven[i]) continue;
            const double z = setup_.workOffsets[i].z;
            all.push_back({0, setup_.chuck.bodyRadius, z, s.outerRadius,
                           fmt::format("{} Z0 {}", workOffsetName(static_cast<int>(i)), shortFigure(z, 3))});
            break;
        }
        return all;
    }

    void dimensions() {
        std::vector<LevelSpan> spans;
        const std::vector<Length> all = lengths();
        for (const Length& l : all)
            spans.push_back(spanOfDimension(view_.at({l.z0, 0}).x, view_.at({l.z1, 0}).x, l.text));
        const int levels = spreadLevels(spans);
        const double first = below_ + kLevelMm;
        // The outermost first, so that texts nearer to the part interrupt its extension lines.
        for (int level = levels - 1; level >= 0; --level) {
            for (std::size_t i = 0; i < all.size(); ++i) {
                if (spans[i].level != level) continue;
                const Length& l = all[i];
                const PaperPoint a = view_.at(Point{l.z0, -l.r0}), b = view_.at(Point{l.z1, -l.r1});
                addLevelDimension(sketch_, a.x, a.y, b.x, b.y, first + kLevelMm * spans[i].level, l.text);
            }
        }
        if (hasBar()) {
            const Stock& s = setup_.stock;
            const PaperPoint up = view_.at(Point{s.frontZ, s.outerRadius}),
                             down = view_.at(Point{s.frontZ, -s.outerRadius});
            const bool hexagon = s.shape == Stock::Shape::Hexagon || s.shape == Stock::Shape::Square;
            addUprightDimension(sketch_, up.x, up.y, down.x, down.y, sketch_.width - 3,
                                hexagon ? say("corners Ø{}", shortFigure(2 * s.outerRadius, 2))
                                        : "Ø" + shortFigure(2 * s.outerRadius, 2));
        }
        sketch_.height = first + kLevelMm * std::max(levels - 1, 0) + 7;
    }

    const Trial& trial_;
    const Setup& setup_;
    MachineBodies bodies_;
    Sketch sketch_;
    PaperView view_;
    Box seen_;
    double below_ = 0;
};

}  // namespace

Sketch holdingSketch(const Trial& trial, double widthMm) {
    return HoldingDrawing(trial, widthMm).draw();
}

}  // namespace firstoff
