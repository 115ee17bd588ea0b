#include "sim/stock/exact_section.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "sim/base/units.h"
#include "sim/stock/cut_curves.h"
#include "sim/stock/side_run.h"

namespace firstoff {

namespace {

// A column is on a curve if it is within this of it. Far above what rounding makes of a steep arc, far below anything
// that a tool leaves.
constexpr double kOnCurveMm = 1e-8;
// Two curves that end at one place pass that place within this of one another.
constexpr double kSameEndMm = 1e-7;
// Edges shorter than this along are none.
constexpr double kNoEdgeMm = 1e-8;
// Columns ahead by which one of several curves through a column is chosen.
constexpr int kLookAhead = 8;
// Columns on one radius that are taken for a cylinder where no cut is known.
constexpr int kCylinderColumns = 3;
// So many edges in a row that are shorter than so many columns become one polyline.
constexpr int kShortColumns = 10;
constexpr int kManyShort = 8;

// A stretch of a side: columns on one curve, or any columns.
struct Element {
    bool onCurve = false;
    SideCurve curve;
    int first = 0, last = 0;  // columns
    CutId cut = kUncut;
    std::vector<Point> line;  // not on a curve: the columns that matter
    Point left, right;        // ends, set where the neighbours are met
    CutId faceCut = kUncut;   // of an upright edge to the next element
};

class SideFit {
public:
    SideFit(const SideRun& run, const Grid& grid, CutCurves& curves, double tolerance)
        : run_(run), grid_(grid), curves_(curves), tolerance_(tolerance), count_(static_cast<int>(run.radii.size())) {}

    std::vector<Element> elements() {
        int loose = 0;  // first of the columns that no element has yet
        for (int i = 0; i < count_;) {
            std::optional<Element> element = elementFrom(i);
            if (!element) {
                ++i;
                continue;
            }
            if (loose < i) elements_.push_back(looseElement(loose, i - 1));
            loose = i = element->last + 1;
            elements_.push_back(std::move(*element));
        }
        if (loose < count_) elements_.push_back(looseElement(loose, count_ - 1));
        joinShort();
        for (Element& element : elements_) {
            if (!element.onCurve) element.line = thinned(element.first, element.last);
            element.first += run_.firstColumn;
            element.last += run_.firstColumn;
        }
        return std::move(elements_);
    }

private:
    double z(int i) const { return grid_.z(run_.firstColumn + i); }
    double r(int i) const { return run_.radii[static_cast<std::size_t>(i)]; }
    CutId cut(int i) const { return run_.cuts[static_cast<std::size_t>(i)]; }
    bool isOn(const SideCurve& curve, int i) const {
        return curve.zFrom - kOnCurveMm <= z(i) && z(i) <= curve.zTo + kOnCurveMm &&
               std::abs(curve.r(z(i)) - r(i)) <= kOnCurveMm;
    }

    Element looseElement(int first, int last) const {
        Element element;
        element.first = first;
        element.last = last;
        element.cut = cut(first);
        return element;
    }

    // The element that begins at column i.
    std::optional<Element> elementFrom(int i) {
        Element element = looseElement(i, i);
        element.onCurve = true;
        int most = 0;
        for (const SideCurve& curve : curves_.of(cut(i))) {
            int on = 0;
            while (on < kLookAhead && i + on < count_ && cut(i + on) == cut(i) && isOn(curve, i + on)) ++on;
            if (on > most) element.curve = curve, most = on;
        }
        if (most == 0) {
            while (most < kCylinderColumns && i + most < count_ && r(i + most) == r(i)) ++most;
            if (most < std::min(kCylinderColumns, count_)) return std::nullopt;
            element.curve = SideCurve{};
            element.curve.at = {z(i), r(i)};
        }
        while (element.last + 1 < count_ && runsOn(element, element.last + 1)) ++element.last;
        return element;
    }

    // Whether the next column is on the curve of an element too. Another cut of the same tool may have left it.
    bool runsOn(Element& element, int i) {
        if (cut(i) == cut(i - 1)) return isOn(element.curve, i);
        if (std::abs(element.curve.r(z(i)) - r(i)) > kOnCurveMm) return false;
        if (curves_.toolOf(cut(i)) != curves_.toolOf(element.cut)) return false;
        for (const SideCurve& curve : curves_.of(cut(i))) {
            if (curve.kind != element.curve.kind || !isOn(curve, i)) continue;
            const double begin = z(element.first);
            if (std::abs(curve.r(begin) - element.curve.r(begin)) > kOnCurveMm) continue;
            element.curve.zTo = std::max(element.curve.zTo, curve.zTo);
            return true;
        }
        return false;
    }

    // Many short edges in a row, as programming systems write free contours, become polylines.
    void joinShort() {
        const auto isShort = [](const Element& e) { return e.last - e.first < kShortColumns; };
        std::vector<Element> joined;
        for (std::size_t i = 0; i < elements_.size();) {
            std::size_t end = i;
            while (end < elements_.size() && isShort(elements_[end])) ++end;
            if (end - i < kManyShort) {
                end = std::max(end, i + 1);
                joined.insert(joined.end(), std::make_move_iterator(elements_.begin() + static_cast<std::ptrdiff_t>(i)),
                              std::make_move_iterator(elements_.begin() + static_cast<std::ptrdiff_t>(end)));
            } else {
                joined.push_back(looseElement(elements_[i].first, elements_[end - 1].last));
            }
            i = end;
        }
        elements_ = std::move(joined);
    }

    // The funnel of side_tracer.h: the columns of a polyline within the tolerance of all of them, both ends included.
    std::vector<Point> thinned(int first, int last) const {
        std::vector<Point> points{{z(first), r(first)}};
        double slopeMin = -1e300, slopeMax = 1e300;
        for (int i = first + 1; i <= last; ++i) {
            const bool face = std::abs(r(i) - r(i - 1)) > 10 * grid_.pitch;
            double slope = (r(i) - points.back().r) / (z(i) - points.back().z);
            if (face || slope < slopeMin || slope > slopeMax) {
                if (points.back().z < z(i - 1)) points.push_back({z(i - 1), r(i - 1)});
                if (face) {
                    const double border = z(i) - grid_.pitch / 2;
                    points.push_back({border, r(i - 1)});
                    points.push_back({border, r(i)});
                }
                slope = (r(i) - points.back().r) / (z(i) - points.back().z);
                slopeMin = -1e300;
                slopeMax = 1e300;
            }
            const double room = tolerance_ / (z(i) - points.back().z);
            slopeMin = std::max(slopeMin, slope - room);
            slopeMax = std::min(slopeMax, slope + room);
        }
        if (last > first) points.push_back({z(last), r(last)});
        return points;
    }

    const SideRun& run_;
    const Grid& grid_;
    CutCurves& curves_;
    double tolerance_;
    int count_;
    std::vector<Element> elements_;
};

class ExactSection {
public:
    ExactSection(const Billet& billet, const CutSoFar& cut, double tolerance, int sector)
        : grid_(billet.grid()), runs_(sideRuns(billet, sector)), curves_(cut.plan, grid_, cut.moves, cut.begun) {
        for (const SideRun& run : runs_) sides_.push_back(SideFit(run, grid_, curves_, tolerance).elements());
        for (std::size_t i = 0; i < runs_.size(); ++i) joinAlong(i);
        for (std::size_t i = 0; i < runs_.size(); ++i) tieEnds(i);
    }

    std::vector<SectionContour> contours(int piece) {
        std::vector<SectionContour> result;
        std::vector<bool> done(runs_.size());
        for (std::size_t i = 0; i < runs_.size(); ++i) {
            if (done[i] || runs_[i].side != Side::Inner) continue;
            contour_ = {};
            contour_.piece = piece;
            for (std::size_t at = i; !done[at];) {
                done[at] = true;
                const bool toRight = runs_[at].side == Side::Inner;
                addSide(sides_[at], toRight);
                const int next = toRight ? runs_[at].rightTie : runs_[at].leftTie;
                const Point from = toRight ? sides_[at].back().right : sides_[at].front().left;
                at = static_cast<std::size_t>(next);
                const Point to = toRight ? sides_[at].back().right : sides_[at].front().left;
                addEdge(from, to, nullptr, toRight ? runs_[at].rightCut : runs_[at].leftCut);
            }
            if (contour_.outline.size() > 1) result.push_back(std::move(contour_));
        }
        return result;
    }

private:
    // Where an element is at z; a polyline goes on level.
    static double radiusAt(const Element& element, double z) {
        if (element.onCurve) return std::max(0.0, element.curve.r(z));
        return z > element.line.front().z ? element.line.back().r : element.line.front().r;
    }

    // Where the difference of two elements changes its sign between two places; nothing if it does not.
    static std::optional<double> crossing(const Element& a, const Element& b, double zLeft, double zRight) {
        const auto gap = [&](double z) { return radiusAt(a, z) - radiusAt(b, z); };
        double low = zLeft, high = zRight;
        const bool sign = gap(low) > 0;
        if (sign == (gap(high) > 0)) return std::nullopt;
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            ((gap(middle) > 0) == sign ? low : high) = middle;
        }
        return (low + high) / 2;
    }

    // The place at which two elements meet between two columns, if they do.
    static std::optional<double> meeting(const Element& a, const Element& b, std::array<double, 2> ends, double zLeft,
                                         double zRight) {
        for (double z : ends) {
            if (z < zLeft - kNoEdgeMm || z > zRight + kNoEdgeMm) continue;
            if (std::abs(radiusAt(a, z) - radiusAt(b, z)) <= kSameEndMm) return std::clamp(z, zLeft, zRight);
        }
        return crossing(a, b, zLeft, zRight);
    }

    // The upright face between two columns from one radius to another. `ends`: where the curves beside it end.
    Face faceAt(double zLeft, double zRight, double r0, double r1, bool metalOnLeft, std::array<double, 2> ends,
                CutId cut) {
        std::optional<Face> face;
        const auto take = [&](const std::optional<Face>& other) {
            if (!other) return;
            if (!face || (metalOnLeft ? other->z < face->z : other->z > face->z)) face = other;
        };
        for (double z : ends) {
            if (z >= zLeft && z <= zRight) take(Face{z, cut});
        }
        for (double part : {0.5, 0.1, 0.9}) {
            take(curves_.faceBetween(zLeft, zRight, r0 + part * (r1 - r0), metalOnLeft));
            if (face) break;
        }
        return face.value_or(Face{(zLeft + zRight) / 2, cut});
    }

    void joinAlong(std::size_t side) {
        std::vector<Element>& elements = sides_[side];
        constexpr double kNone = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i + 1 < elements.size(); ++i) {
            Element& a = elements[i];
            Element& b = elements[i + 1];
            const double zLeft = grid_.z(a.last);
            const double zRight = grid_.z(b.first);
            const double endA = a.onCurve ? a.curve.zTo : kNone;
            const double endB = b.onCurve ? b.curve.zFrom : kNone;
            double z = 0;
            if (const auto met = meeting(a, b, {endA, endB}, zLeft, zRight)) {
                z = *met;
            } else {
                const double ra = radiusAt(a, zLeft);
                const double rb = radiusAt(b, zRight);
                const bool metalOnLeft = (ra > rb) == (runs_[side].side == Side::Outer);
                const Face face = faceAt(zLeft, zRight, ra, rb, metalOnLeft, {metalOnLeft ? endB : endA, kNone},
                                         metalOnLeft ? b.cut : a.cut);
                z = face.z;
                a.faceCut = face.cut;
            }
            a.right = {z, radiusAt(a, z)};
            b.left = {z, radiusAt(b, z)};
        }
    }

    // Both ends of a side, with those it is tied to there.
    void tieEnds(std::size_t side) {
        if (runs_[side].side != Side::Inner) return;
        for (bool right : {false, true}) {
            const auto other = static_cast<std::size_t>(right ? runs_[side].rightTie : runs_[side].leftTie);
            Element& a = right ? sides_[side].back() : sides_[side].front();
            Element& b = right ? sides_[other].back() : sides_[other].front();
            const double zHere = grid_.z(right ? a.last : a.first);
            const double zBeyond = zHere + (right ? grid_.pitch : -grid_.pitch);
            const double zLeft = std::min(zHere, zBeyond);
            const double zRight = std::max(zHere, zBeyond);
            // Metal between the two, or a gap that ends here?
            const bool metal = radiusAt(a, zHere) < radiusAt(b, zHere);
            const auto endOf = [&](const Element& e) {
                return e.onCurve ? (right ? e.curve.zTo : e.curve.zFrom) : std::numeric_limits<double>::infinity();
            };
            std::array<double, 2> ends{endOf(a), endOf(b)};
            double z = 0;
            if (const auto met = meeting(a, b, ends, zLeft, zRight)) {
                z = *met;
            } else {
                const bool metalOnLeft = metal == right;
                if (metal) ends.fill(std::numeric_limits<double>::infinity());
                CutId& cut = right ? runs_[side].rightCut : runs_[side].leftCut;
                const Face face = faceAt(zLeft, zRight, radiusAt(a, zHere), radiusAt(b, zHere), metalOnLeft, ends, cut);
                z = face.z;
                cut = (right ? runs_[other].rightCut : runs_[other].leftCut) = face.cut;
            }
            (right ? a.right : a.left) = {z, radiusAt(a, z)};
            (right ? b.right : b.left) = {z, radiusAt(b, z)};
        }
    }

    void addEdge(Point from, Point to, const SideCurve* arc, CutId cut) {
        if (distance(from, to) <= kNoEdgeMm) return;
        ContourCorner corner{from, 0};
        if (arc) {
            const Point a = from - arc->at;
            const Point b = to - arc->at;
            const double turn = std::abs(std::atan2(cross(a, b), dot(a, b)));
            const bool anticlockwise = (to.z > from.z) == (arc->kind == SideCurve::Kind::LowerHalf);
            corner.bulge = (anticlockwise ? 1 : -1) * std::tan(turn / 4);
        }
        contour_.outline.push_back(corner);
        contour_.cuts.push_back(cut);
    }

    void addElement(const Element& element, bool toRight) {
        if (element.onCurve) {
            const SideCurve& curve = element.curve;
            const Point from = toRight ? element.left : element.right;
            const Point to = toRight ? element.right : element.left;
            if (!curve.isArc()) return addEdge(from, to, nullptr, element.cut);
            // A face may stand a little beyond the end of the circle: the arc ends where it is upright.
            const auto onCircle = [&](Point p) {
                const double x = std::clamp(p.z - curve.at.z, -curve.radius, curve.radius);
                return Point{curve.at.z + x, p.r};
            };
            addEdge(from, onCircle(from), nullptr, element.cut);
            addEdge(onCircle(from), onCircle(to), &curve, element.cut);
            return addEdge(onCircle(to), to, nullptr, element.cut);
        }
        std::vector<Point> points{element.left};
        points.insert(points.end(), element.line.begin(), element.line.end());
        points.push_back(element.right);
        if (!toRight) std::reverse(points.begin(), points.end());
        for (std::size_t i = 0; i + 1 < points.size(); ++i) addEdge(points[i], points[i + 1], nullptr, element.cut);
    }

    void addSide(const std::vector<Element>& elements, bool toRight) {
        const std::size_t n = elements.size();
        for (std::size_t k = 0; k < n; ++k) {
            const std::size_t i = toRight ? k : n - 1 - k;
            addElement(elements[i], toRight);
            if (k + 1 == n) break;
            const Element& a = elements[toRight ? i : i - 1];
            const Element& b = elements[toRight ? i + 1 : i];
            toRight ? addEdge(a.right, b.left, nullptr, a.faceCut) : addEdge(b.left, a.right, nullptr, a.faceCut);
        }
    }

    const Grid& grid_;
    std::vector<SideRun> runs_;
    CutCurves curves_;
    std::vector<std::vector<Element>> sides_;
    SectionContour contour_;
};

}  // namespace

std::vector<SectionContour> exactSection(const Billet& billet, const CutSoFar& cut, double toleranceMm, int piece,
                                         int sector) {
    return ExactSection(billet, cut, toleranceMm, sector).contours(piece);
}

}  // namespace firstoff
