// Where an insert cannot follow the contour it is sent along: the edge behind the nose, or a nose on the wrong side of
// the contour, takes metal that the contour leaves standing.
//
// Notation. The nose, an arc of radius R about C, touches the contour at C + R n, n being the normal of the path that
// points from the nose to the part. n must lie among the normals of the nose arc:
//
//        r ^       \            n of a cut along z points down, of a face to the left. Where the path falls towards the
//          |        \   insert  chuck it leans to the right, and past the last normal of the arc it is the edge behind
//          |         `.______   the nose that meets the part first (elementary geometry).
//          +--> z      R
//
// A wiper flat is a part of the edge there, so the edges behind and beside the nose are those beyond the flats. Along
// an arc the normal turns, and each place of it is looked at by itself.
//
// That alone proves nothing: the metal may have gone before. So the billet is asked whether it stood at the contour
// before the move and stands below it after.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/motion/travel_time.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

// Less than this is gouged by what a turret is out of square, and the angle below stands for it.
constexpr double kGougeMm = 0.005;
// How far the path may lean past the edge before it is looked at closely.
const double kLean = radians(0.5);
// Contours steeper than this are nearly faces; what is missing there is measured along the normal.
constexpr double kLeastSlope = 0.2;
// Columns stand a pitch apart, so a face is known that well only.
constexpr double kFaceGougeMm = 0.02;
constexpr double kAngleMargin = 1e-6;  // rad, rounding
// An edge that leans no more than this from the surface behind it rubs (common practice, no source).
const double kRubs = radians(2);
constexpr double kShares[] = {0.1, 0.3, 0.5, 0.7, 0.9};  // of a move, where the billet is asked
// Moves looked at closely; each takes two seeks. A program with more of them has been told often enough.
constexpr int kMostLookedAt = 200;

// A place along a move and the way there; slide frame.
struct Place {
    Point at;
    Point way;
};

std::vector<Place> placesOf(const TimedMove& timed) {
    std::vector<Place> places;
    if (!isArc(timed.kind)) {
        const Point way = timed.to - timed.from;
        for (double share : kShares) places.push_back({timed.from + share * way, way});
        return places;
    }
    const Arc arc = arcBetween(timed.from, timed.to, timed.centre, timed.kind == MoveKind::ArcClockwise);
    constexpr double kNear = 1e-3;
    for (double share : kShares) places.push_back({arc.at(share), arc.at(share + kNear) - arc.at(share - kNear)});
    return places;
}

// A compensated move that neither starts nor ends the compensation, or one without any.
bool runsAlongItsContour(const Machining& m, std::size_t i) {
    const auto side = [&](std::size_t k) { return m.toolpath.moves[m.timeline.moves[k].move].compensation; };
    if (side(i) == Compensation::Off) return true;
    return i > 0 && i + 1 < m.timeline.moves.size() && side(i - 1) == side(i) && side(i + 1) == side(i);
}

// From the nose to the part, for a straight move; none where it cannot be told.
std::optional<Point> towardsPart(Point way, Compensation side, Point tip) {
    const double along = length(way);
    if (along <= tolerance::kSamePlaceMm) return std::nullopt;
    const Point left = (1 / along) * leftOf(way);
    if (side == Compensation::Right) return left;
    if (side == Compensation::Left) return -left;
    // The side on which the imaginary tip lies, if that is below (in a bore above) the nose.
    const Point n = dot(left, tip) > 0 ? left : -left;
    return dot(n, tip) > kLean && n.r * tip.r > 0 ? std::optional(n) : std::nullopt;
}

struct Nose {
    Point centre;  // tool frame
    double radius = 0;
    Point behind;            // last normal on the side of the edge behind the nose
    bool turnsLeft = false;  // normals run anticlockwise towards `behind`
    double span = 0;         // rad between the normals at both ends of the nose; 145° on a slim insert
};

// Outward normal of the edge beside the nose, beyond a wiper flat that carries the nose on.
Point lastNormal(const std::vector<OutlineElement>& elements, std::size_t nose, int way) {
    const OutlineElement& arc = elements[nose];
    const Point tangent = (1 / arc.radius) * ((way > 0 ? arc.to : arc.from) - arc.centre);
    const std::size_t n = elements.size();
    const auto normalOf = [&](std::size_t i) {
        const Point along = elements[i].to - elements[i].from;
        return (-1 / length(along)) * leftOf(along);
    };
    const std::size_t next = (nose + n + static_cast<std::size_t>(way + static_cast<int>(n))) % n;
    const std::size_t further = (next + n + static_cast<std::size_t>(way + static_cast<int>(n))) % n;
    const bool flat = elements[next].radius == 0 && elements[further].radius == 0 && elements[further].cutting;
    return flat ? normalOf(further) : tangent;
}

std::optional<Nose> noseOf(const Tool& tool) {
    const bool insert = tool.kind == ToolKind::Turning || tool.kind == ToolKind::Boring;
    if (!insert || tool.insertShape == 'R' || tool.noseRadius <= 0) return std::nullopt;
    const Point tip = tipFromNoseCentre(tool.tipNumber);
    if (tip.z == 0 || tip.r == 0) return std::nullopt;
    const Point centre = -tool.noseRadius * tip;
    const std::vector<OutlineElement>& elements = tool.cutting.elements;
    for (std::size_t i = 0; i < elements.size(); ++i) {
        const OutlineElement& e = elements[i];
        if (e.radius <= 0 || distance(e.centre, centre) > tolerance::kTouchMm) continue;
        const Point first = lastNormal(elements, i, -1), last = lastNormal(elements, i, +1);
        // Seen from the part the edge behind the nose is the one on the far side from where the tool feeds to.
        const bool isLast = e.to.z * -tip.z > e.from.z * -tip.z;
        const Point behind = isLast ? last : first, ahead = isLast ? first : last;
        const double span = std::acos(std::clamp(dot(ahead, behind), -1.0, 1.0));
        return Nose{centre, e.radius, behind, isLast, span};
    }
    return std::nullopt;
}

// How far a normal leans past the last one on the side behind the nose, rad; below zero: still on the nose or ahead.
double leanOf(const Nose& nose, Point n) {
    const double side = nose.turnsLeft ? 1 : -1;
    return std::atan2(side * cross(nose.behind, n), dot(nose.behind, n));
}

bool leansPast(const Nose& nose, Point n) {
    const double lean = leanOf(nose, n);
    return lean > kLean || lean < -nose.span - kLean;
}

bool isFace(Point n) {
    return std::abs(n.r) < kLeastSlope;
}

class Gouges {
public:
    explicit Gouges(const Machining& m) : m_(m), before_(m.stock), after_(m.stock) {
        for (const Tool& tool : m.setup.tools) noses_.push_back(noseOf(tool));
    }

    std::vector<Finding> find() {
        for (std::size_t i = 0; i < m_.timeline.moves.size() && lookedAt_ < kMostLookedAt; ++i) look(i);
        return std::move(findings_);
    }

private:
    // A place of the contour that the nose does not reach.
    struct Doubt {
        Point at;  // lathe frame
        Point n;
    };

    void look(std::size_t i) {
        const TimedMove& timed = m_.timeline.moves[i];
        const bool cuts = timed.kind == MoveKind::Feed || isArc(timed.kind);
        if (!cuts || m_.stock->cuts()[i].deepestMm <= tolerance::kTouchMm) return;
        const Move& move = m_.toolpath.moves[timed.move];
        const int toolIndex = m_.toolpath.calls[move.call].toolIndex;
        if (toolIndex < 0 || !noses_[toolIndex] || move.block == lastBlock_) return;
        const Nose& nose = *noses_[toolIndex];
        const Point tip = tipFromNoseCentre(m_.setup.tools[toolIndex].tipNumber);
        // The inside of an arc that the nose is larger than has no contour of its own.
        const bool tight = isArc(timed.kind) && distance(timed.from, timed.centre) <= nose.radius;
        if (tight || !runsAlongItsContour(m_, i)) return;
        std::vector<Doubt> doubts;
        for (const Place& place : placesOf(timed)) {
            const auto n = towardsPart(place.way, move.compensation, tip);
            if (!n) continue;
            noteRubbing(i, nose, *n);
            if (!leansPast(nose, *n)) continue;
            doubts.push_back({place.at + m_.toolpath.tipShift(move) + nose.centre + nose.radius * *n, *n});
        }
        if (doubts.empty()) return;
        // Whatever side was programmed, the tool can only cut what lies where its tip points.
        const Gouge gouge = deepest(i, doubts, tip.r > 0);
        if (gouge.depth <= (isFace(gouge.n) ? kFaceGougeMm : kGougeMm)) return;
        lastBlock_ = move.block;
        report(i, nose, gouge.n, gouge.depth);
    }

    struct Gouge {
        double depth = 0;
        Point n;
    };

    Gouge deepest(std::size_t i, const std::vector<Doubt>& doubts, bool partIsOutside) {
        ++lookedAt_;
        before_.seek(static_cast<std::uint32_t>(i), 0);
        after_.seek(static_cast<std::uint32_t>(i + 1), 0);
        Gouge worst{0, doubts.front().n};
        for (const Doubt& doubt : doubts) {
            const double depth = isFace(doubt.n) ? goneAlong(doubt) : goneBelow(doubt.at, partIsOutside);
            if (depth > worst.depth) worst = {depth, doubt.n};
        }
        return worst;
    }

    // How far below the contour the metal stands that stood at it before.
    double goneBelow(Point p, bool partIsOutside) const {
        if (p.r <= 0) return 0;
        const Interval was = before_.outermostAt(p.z);
        const Interval is = after_.outermostAt(p.z);
        if (was.outer <= 0 || is.outer <= 0) return 0;
        const double stood = partIsOutside ? p.r - was.inner : was.outer - p.r;
        const double gone = partIsOutside ? is.inner - p.r : p.r - is.outer;
        return stood >= -tolerance::kTouchMm ? gone : 0;
    }

    static bool isMetal(const StockCursor& cursor, Point p) {
        const Interval metal = cursor.outermostAt(p.z);
        return p.r > metal.inner && p.r < metal.outer;
    }

    // The same along the normal of the contour, in small steps.
    double goneAlong(const Doubt& doubt) const {
        constexpr double kStepMm = 0.01, kFarthestMm = 5;
        double depth = 0;
        for (double d = kStepMm; d < kFarthestMm; d += kStepMm) {
            const Point p = doubt.at + d * doubt.n;
            if (!isMetal(before_, p) || isMetal(after_, p)) break;
            depth = d;
        }
        return depth;
    }

    void noteRubbing(std::size_t i, const Nose& nose, Point n) {
        const double lean = leanOf(nose, n);
        const Move& move = m_.toolpath.moves[m_.timeline.moves[i].move];
        if (lean <= -kRubs + kAngleMargin || lean > kLean || isFace(n) || move.call == rubbingCall_) return;
        rubbingCall_ = move.call;
        const ToolCall& call = m_.toolpath.calls[move.call];
        Finding finding;
        finding.severity = Severity::Note;
        finding.code = "trailing-edge-rubs";
        finding.span = m_.program.span(move.block);
        finding.timeS = m_.timeline.moves[i].t0;
        finding.place = m_.timeline.moves[i].to + m_.toolpath.tipShift(move);
        finding.values = {{"clear_deg", degrees(-lean)}};
        finding.message = say(
            "The edge behind the nose of tool T{:02d}{:02d} leans {:.1f}° from the surface it leaves here: it rubs.",
            call.station, call.offset, std::max(0.0, degrees(-lean)));
        finding.remedy = tr("Use a slimmer insert or a smaller entering angle; two degrees are usual at least.");
        findings_.push_back(std::move(finding));
    }

    void report(std::size_t i, const Nose& nose, Point n, double depth) {
        const TimedMove& timed = m_.timeline.moves[i];
        const Move& move = m_.toolpath.moves[timed.move];
        const ToolCall& call = m_.toolpath.calls[move.call];
        const double lean = degrees(std::acos(std::clamp(dot(nose.behind, n), -1.0, 1.0)));
        Finding finding;
        finding.severity = Severity::Stop;
        finding.code = "insert-cuts-behind-nose";
        finding.span = m_.program.span(move.block);
        finding.timeS = timed.t0;
        finding.place = timed.to + m_.toolpath.tipShift(move);
        finding.values = {{"depth_mm", depth}, {"beyond_deg", lean}};
        const std::string tool = toolWord(call);
        if (move.compensation != Compensation::Off && lean > 90) {
            finding.message = say(
                "{} leads the nose of tool {} along the wrong side of the contour: it cuts {:.3f} mm into the part.",
                move.compensation == Compensation::Left ? "G41" : "G42", tool, depth);
            finding.remedy = tr("Check G41 against G42 for the direction of this cut, and the tip number of the tool.");
        } else {
            finding.message =
                say("The insert of tool {} cannot follow this path: it leans {:.1f}° past the edge behind the nose, "
                    "and that edge cuts {:.3f} mm into the part.",
                    tool, lean, depth);
            finding.remedy = tr("Use a slimmer insert, or a tool that feeds the other way, for this stretch.");
        }
        findings_.push_back(std::move(finding));
    }

    const Machining& m_;
    StockCursor before_, after_;
    std::vector<std::optional<Nose>> noses_;  // per tool of the set-up
    std::vector<Finding> findings_;
    BlockId lastBlock_ = kNoBlock;
    int rubbingCall_ = -1;
    int lookedAt_ = 0;
};

}  // namespace

std::vector<Finding> gougeFindings(const Machining& machining) {
    return Gouges(machining).find();
}

}  // namespace firstoff
