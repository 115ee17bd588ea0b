#include "sim/output/sheets/inspection_sketch.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/output/sheets/balloons.h"
#include "sim/output/sheets/part_outline.h"
#include "sim/output/sheets/sketch_marks.h"
#include "sim/output/tables.h"

namespace firstoff {

namespace {

constexpr double kSideMm = 6;             // beside the part
constexpr double kTallestMm = 90;         // of the part on paper
constexpr double kLeaderMm = 9;           // from the part to the knees
constexpr double kLevelMm = 8;            // between dimension lines
constexpr std::size_t kMostLengths = 10;  // in one drawing

// Where a dimension is shown, lathe frame.
struct Shown {
    int number = 0;
    enum class Where : std::uint8_t { Outside, Inside, Length } where = Where::Outside;
    Point at, to;
};

std::size_t crossingsAbove(const std::vector<Loop>& loops, Point p) {
    std::size_t count = 0;
    for (const Loop& loop : loops) {
        for (std::size_t i = 0; i < loop.points.size(); ++i) {
            const Point a = loop.points[i], b = loop.points[(i + 1) % loop.points.size()];
            if ((a.z <= p.z) == (b.z <= p.z)) continue;
            if (a.r + (b.r - a.r) * (p.z - a.z) / (b.z - a.z) > p.r) ++count;
        }
    }
    return count;
}

// Whether an edge of a loop, which has its metal to the left, is seen from outside: nothing is further out beside it.
bool isSeen(const std::vector<Loop>& loops, Point a, Point b) {
    constexpr double kBesideMm = 1e-3;
    const double size = length(b - a);
    if (size == 0) return false;
    return crossingsAbove(loops, 0.5 * (a + b) - kBesideMm / size * leftOf(b - a)) == 0;
}

class InspectionDrawing {
public:
    InspectionDrawing(const Trial& trial, double widthMm) : trial_(trial), width_(widthMm) {
        const int piece = inspectedPiece(trial);
        // Coarsely first, for the scale.
        const Box box = boundingBox(loopsOf(finishedLoops(trial, 0.05), piece));
        view_.scale = std::min(standardScale(box.zMax - box.zMin, width_ - 2 * kSideMm - 10),
                               standardScale(2 * box.rMax, kTallestMm));
        const double tolerance = 0.01 / view_.scale;
        section_ = loopsOf(finishedLoops(trial, tolerance), piece);
        outside_ = loopsOf(finishedLoops(trial, tolerance, StockCursor::Detail::Envelope), piece);
        box_ = boundingBox(section_);
    }

    std::vector<Sketch> draw() {
        std::vector<Sketch> sketches;
        if (section_.empty()) return sketches;
        std::vector<Shown> all = shown();
        std::vector<Shown> some;
        const std::size_t row = balloonsInRow(kSideMm, width_ - kSideMm);
        const auto count = [&](Shown::Where where) {
            return static_cast<std::size_t>(
                std::count_if(some.begin(), some.end(), [&](const Shown& s) { return s.where == where; }));
        };
        for (const Shown& s : all) {
            if (count(s.where) >= (s.where == Shown::Where::Length ? kMostLengths : row)) {
                sketches.push_back(drawn(some));
                some.clear();
            }
            some.push_back(s);
        }
        if (!some.empty() || sketches.empty()) sketches.push_back(drawn(some));
        return sketches;
    }

private:
    // A place that was not found is shown where the set-up says it should be.
    std::vector<Shown> shown() const {
        std::vector<Shown> all;
        const Point datum = sectionDatum(trial_);
        int number = 0;
        for (const GaugedDimension& d : trial_.gauged.dimensions) {
            Shown s;
            s.number = ++number;
            s.at = d.places.empty() ? d.wanted.at + datum : d.places.front();
            s.to = d.places.size() < 2 ? d.wanted.to + datum : d.places.back();
            s.where = d.wanted.kind == WantedDimension::Kind::Length ? Shown::Where::Length
                      : d.wanted.inside                              ? Shown::Where::Inside
                                                                     : Shown::Where::Outside;
            if (d.places.empty() && s.at.r == 0) s.at.r = surfaceAt(s.at.z, d.wanted.inside);
            for (Point* p : {&s.at, &s.to}) {
                p->z = std::clamp(p->z, box_.zMin, box_.zMax);
                p->r = std::clamp(std::abs(p->r), 0.0, box_.rMax);
            }
            all.push_back(s);
        }
        return all;
    }

    // The outermost surface at z, or the innermost one; 0 where there is no metal.
    double surfaceAt(double z, bool inside) const {
        double found = 0;
        bool any = false;
        const double at = std::clamp(z, box_.zMin + 1e-3, box_.zMax - 1e-3);
        for (const Loop& loop : section_) {
            for (std::size_t i = 0; i < loop.points.size(); ++i) {
                const Point a = loop.points[i], b = loop.points[(i + 1) % loop.points.size()];
                if ((a.z <= at) == (b.z <= at)) continue;
                const double r = a.r + (b.r - a.r) * (at - a.z) / (b.z - a.z);
                if (!any || (inside ? r < found : r > found)) found = r;
                any = true;
            }
        }
        return found;
    }

    Sketch drawn(const std::vector<Shown>& some) {
        Sketch sketch;
        sketch.title = tr("The part, upper half from outside, lower half cut, with the numbers of its dimensions");
        sketch.width = width_;
        const bool above =
            std::any_of(some.begin(), some.end(), [](const Shown& s) { return s.where == Shown::Where::Outside; });
        const bool below =
            std::any_of(some.begin(), some.end(), [](const Shown& s) { return s.where == Shown::Where::Inside; });
        const double row = 2 * kBalloonRadiusMm + kBalloonStubMm + kLeaderMm;
        const double top = above ? row + 1 : 3;
        view_.origin = {width_ / 2 - view_.scale * (box_.zMin + box_.zMax) / 2, top + view_.scale * box_.rMax};
        const double bottom = view_.origin.y + view_.scale * box_.rMax;
        part(sketch);
        const double afterRow = bottom + (below ? row : 0);
        lengths(sketch, some, afterRow);
        balloons(sketch, some, Shown::Where::Outside, 1 + kBalloonRadiusMm);
        balloons(sketch, some, Shown::Where::Inside, bottom + row - kBalloonRadiusMm);
        sketch.height = std::max(sketch.height, afterRow + 4);
        addText(sketch, {kSideMm, sketch.height - 0.5}, say("scale {}", scaleInWords(view_.scale)));
        sketch.height += 1;
        return sketch;
    }

    void part(Sketch& sketch) const {
        // Below: the cut.
        std::vector<std::vector<PaperPoint>> cut;
        for (const Loop& loop : section_) {
            std::vector<Point> points = loop.points;
            for (Point& p : points) p.r = -p.r;
            cut.push_back(view_.at(points));
        }
        const double spacing = std::clamp(view_.scale * (box_.zMax - box_.zMin) / 40, 1.2, 3.0);
        addHatching(sketch, cut, spacing, true);
        for (const Loop& loop : section_) edges(sketch, loop, true, [](Point, Point) { return true; });
        innerEdges(sketch);
        // Above: what is seen from outside.
        for (const Loop& loop : outside_) {
            edges(sketch, loop, false, [&](Point a, Point b) { return isSeen(outside_, a, b); });
            outerEdges(sketch, loop);
        }
        for (const double z : {box_.zMin, box_.zMax}) endFace(sketch, z);
        addLine(sketch, {view_.at({box_.zMin, 0}).x - 4, view_.origin.y},
                {view_.at({box_.zMax, 0}).x + 4, view_.origin.y}, LineKind::Centre);
    }

    template <typename Wanted>
    void edges(Sketch& sketch, const Loop& loop, bool below, Wanted wanted) const {
        const std::size_t n = loop.points.size();
        std::vector<PaperPoint> run;
        const auto end = [&] {
            if (run.size() > 1) sketch.marks.push_back(Stroke{LineKind::Wide, Shade::None, false, run});
            run.clear();
        };
        for (std::size_t i = 0; i < n; ++i) {
            const Point a = loop.points[i], b = loop.points[(i + 1) % n];
            const bool alongAxis = a.r <= 1e-6 && b.r <= 1e-6;
            if (alongAxis || !wanted(a, b)) {
                end();
                continue;
            }
            const double sign = below ? -1 : 1;
            if (run.empty()) run.push_back(view_.at({a.z, sign * a.r}));
            run.push_back(view_.at({b.z, sign * b.r}));
        }
        end();
    }

    bool isCorner(const Loop& loop, std::size_t i) const {
        const std::size_t n = loop.points.size();
        const Point before = loop.points[i] - loop.points[(i + n - 1) % n];
        const Point after = loop.points[(i + 1) % n] - loop.points[i];
        constexpr double kSeenMm = 0.8, kTurn = 0.12;  // on paper; sine of 7 degrees
        if (length(before) * view_.scale < kSeenMm || length(after) * view_.scale < kSeenMm) return false;
        return std::abs(cross(before, after)) > kTurn * length(before) * length(after);
    }

    // Edges that run round the part, seen from outside.
    void outerEdges(Sketch& sketch, const Loop& loop) const {
        const std::size_t n = loop.points.size();
        for (std::size_t i = 0; i < n; ++i) {
            const Point p = loop.points[i];
            if (p.r <= 1e-6 || !isCorner(loop, i)) continue;
            const bool seen =
                isSeen(outside_, loop.points[(i + n - 1) % n], p) && isSeen(outside_, p, loop.points[(i + 1) % n]);
            if (seen) addLine(sketch, view_.at({p.z, 0}), view_.at(p), LineKind::Wide);
        }
    }

    // The end of the part is seen all the way to the axis, whatever small edge it has.
    void endFace(Sketch& sketch, double z) const {
        double r = 0;
        for (const Loop& loop : outside_) {
            for (Point p : loop.points) {
                if (std::abs(p.z - z) * view_.scale < kNarrowLineMm) r = std::max(r, p.r);
            }
        }
        if (r > 0) addLine(sketch, view_.at({z, 0}), view_.at({z, r}), LineKind::Wide);
    }

    // Those of the bore, seen behind the cut.
    void innerEdges(Sketch& sketch) const {
        for (const Loop& loop : section_) {
            const std::size_t n = loop.points.size();
            for (std::size_t i = 0; i < n; ++i) {
                const Point p = loop.points[i];
                if (p.r <= 1e-6 || !isCorner(loop, i)) continue;
                // The bore is beneath it where no metal is crossed towards the axis.
                const std::size_t above = crossingsAbove(section_, {p.z + 1e-4, 1e-9});
                const std::size_t here = crossingsAbove(section_, {p.z + 1e-4, p.r - 1e-3});
                const std::size_t aboveBack = crossingsAbove(section_, {p.z - 1e-4, 1e-9});
                const std::size_t hereBack = crossingsAbove(section_, {p.z - 1e-4, p.r - 1e-3});
                const bool bore = (above % 2 == 0 && above > 0 && above == here) ||
                                  (aboveBack % 2 == 0 && aboveBack > 0 && aboveBack == hereBack);
                if (bore) addLine(sketch, view_.at({p.z, 0}), view_.at({p.z, -p.r}), LineKind::Wide);
            }
        }
    }

    void balloons(Sketch& sketch, const std::vector<Shown>& some, Shown::Where where, double y) const {
        std::vector<Balloon> all;
        for (const Shown& s : some) {
            if (s.where != where) continue;
            Balloon balloon;
            balloon.number = s.number;
            balloon.place = view_.at(where == Shown::Where::Inside ? Point{s.at.z, -s.at.r} : s.at);
            all.push_back(balloon);
        }
        placeBalloons(all, y, kSideMm, width_ - kSideMm);
        for (const Balloon& balloon : all) addBalloonWithLeader(sketch, balloon);
    }

    void lengths(Sketch& sketch, const std::vector<Shown>& some, double from) const {
        std::vector<const Shown*> all;
        std::vector<LevelSpan> spans;
        constexpr double kRing = 2 * kBalloonRadiusMm;
        for (const Shown& s : some) {
            if (s.where != Shown::Where::Length) continue;
            all.push_back(&s);
            const double x0 = view_.at(s.at).x, x1 = view_.at(s.to).x;
            const double least = std::min(x0, x1), most = std::max(x0, x1);
            const bool narrow = most - least < kRing + 2 * kArrowMm + 1;
            spans.push_back({least - (narrow ? 6 : 0.1), most + (narrow ? kRing + 7 : 0.1), 0});
        }
        const int levels = spreadLevels(spans);
        // From the outermost, so that balloons interrupt the extension lines of those further out.
        std::vector<std::size_t> order(all.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return spans[a].level > spans[b].level; });
        for (const std::size_t i : order) {
            const Shown& s = *all[i];
            const PaperPoint a = view_.at({s.at.z, -s.at.r}), b = view_.at({s.to.z, -s.to.r});
            const double y = from + kLevelMm * (spans[i].level + 0.8);
            addLevelDimension(sketch, a.x, a.y, b.x, b.y, y, "");
            const double least = std::min(a.x, b.x), most = std::max(a.x, b.x);
            const bool narrow = most - least < kRing + 2 * kArrowMm + 1;
            if (narrow) addLine(sketch, {most, y}, {most + 6, y});
            addBalloon(sketch, {narrow ? most + 6 + kBalloonRadiusMm : (least + most) / 2, y}, s.number);
        }
        if (levels > 0) sketch.height = from + kLevelMm * (levels + 0.3) + 4;
    }

    const Trial& trial_;
    double width_;
    PaperView view_;
    std::vector<Loop> section_, outside_;
    Box box_;
};

}  // namespace

int inspectedPiece(const Trial& trial) {
    const bool gauged = !trial.gauged.dimensions.empty() || !trial.gauged.outline.empty();
    if (gauged) return trial.gauged.piece;
    return trial.stock && !trial.stock->severances().empty() ? trial.stock->severances().front().piece : 0;
}

std::vector<Sketch> inspectionSketches(const Trial& trial, double widthMm) {
    return InspectionDrawing(trial, widthMm).draw();
}

}  // namespace firstoff
