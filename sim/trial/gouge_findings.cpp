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
// That alone proves nothing: the metal may have gone before. So the billet is asked whether it stood at the contour
// before the move and stands below it after.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

// Less than this is gouged by what a turret is out of square, and the angle below stands for it.
constexpr double kGougeMm = 0.005;
// How far the path may lean past the edge before it is looked at closely.
const double kLean = radians(0.5);
// Contours steeper than this are faces; columns along z say little about them.
constexpr double kLeastSlope = 0.2;
// Moves looked at closely; each takes two seeks. A program with more of them has been told often enough.
constexpr int kMostLookedAt = 200;

bool isFeed(const TimedMove& timed) {
    return timed.kind == MoveKind::Feed;
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
    if (along <= tolerance::kTouchMm) return std::nullopt;
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

std::optional<Nose> noseOf(const Tool& tool) {
    const bool insert = tool.kind == ToolKind::Turning || tool.kind == ToolKind::Boring;
    if (!insert || tool.insertShape == 'R' || tool.noseRadius <= 0) return std::nullopt;
    const Point tip = tipFromNoseCentre(tool.tipNumber);
    if (tip.z == 0 || tip.r == 0) return std::nullopt;
    const Point centre = -tool.noseRadius * tip;
    for (const OutlineElement& e : tool.cutting.elements) {
        if (e.radius <= 0 || distance(e.centre, centre) > tolerance::kTouchMm) continue;
        // Seen from the part the edge behind the nose is the one on the far side from where the tool feeds to.
        const bool last = e.to.z * -tip.z > e.from.z * -tip.z;
        const Point behind = (1 / e.radius) * ((last ? e.to : e.from) - e.centre);
        const Point ahead = (1 / e.radius) * ((last ? e.from : e.to) - e.centre);
        const double span = std::acos(std::clamp(dot(ahead, behind), -1.0, 1.0));
        return Nose{centre, e.radius, behind, last, span};
    }
    return std::nullopt;
}

bool leansPast(const Nose& nose, Point n) {
    const double side = nose.turnsLeft ? 1 : -1;
    const double lean = std::atan2(side * cross(nose.behind, n), dot(nose.behind, n));
    return lean > kLean || lean < -nose.span - kLean;
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
    void look(std::size_t i) {
        const TimedMove& timed = m_.timeline.moves[i];
        if (!isFeed(timed) || m_.stock->cuts()[i].deepestMm <= tolerance::kTouchMm) return;
        const Move& move = m_.toolpath.moves[timed.move];
        const int toolIndex = m_.toolpath.calls[move.call].toolIndex;
        if (toolIndex < 0 || !noses_[toolIndex] || move.block == lastBlock_) return;
        const Nose& nose = *noses_[toolIndex];
        const Tool& tool = m_.setup.tools[toolIndex];
        const Point tip = tipFromNoseCentre(tool.tipNumber);
        const auto n = towardsPart(timed.to - timed.from, move.compensation, tip);
        if (!n || std::abs(n->r) < kLeastSlope || !leansPast(nose, *n) || !runsAlongItsContour(m_, i)) return;
        const Point toContour = m_.toolpath.tipShift(move) + nose.centre + nose.radius * *n;
        // Whatever side was programmed, the tool can only cut what lies where its tip points.
        const double depth = gougedDepth(i, timed.from + toContour, timed.to + toContour, tip.r > 0);
        if (depth <= kGougeMm) return;
        lastBlock_ = move.block;
        report(i, nose, *n, depth);
    }

    // How far below the contour the metal stands that stood at it before.
    double gougedDepth(std::size_t i, Point from, Point to, bool partIsOutside) {
        ++lookedAt_;
        before_.seek(static_cast<std::uint32_t>(i), 0);
        after_.seek(static_cast<std::uint32_t>(i + 1), 0);
        double depth = 0;
        for (double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
            const Point p = from + share * (to - from);
            if (p.r <= 0) continue;
            const Interval was = before_.outermostAt(p.z);
            const Interval is = after_.outermostAt(p.z);
            if (was.outer <= 0 || is.outer <= 0) continue;
            const double stood = partIsOutside ? p.r - was.inner : was.outer - p.r;
            const double gone = partIsOutside ? is.inner - p.r : p.r - is.outer;
            if (stood >= -tolerance::kTouchMm) depth = std::max(depth, gone);
        }
        return depth;
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
        const std::string tool = fmt::format("T{:02d}{:02d}", call.station, call.offset);
        if (move.compensation != Compensation::Off && lean > 90) {
            finding.message = fmt::format(
                "{} leads the nose of tool {} along the wrong side of the contour: it cuts {:.3f} mm into the part.",
                move.compensation == Compensation::Left ? "G41" : "G42", tool, depth);
            finding.remedy = "Check G41 against G42 for the direction of this cut, and the tip number of the tool.";
        } else {
            finding.message = fmt::format(
                "The insert of tool {} cannot follow this path: it leans {:.1f}° past the edge behind the nose, and "
                "that "
                "edge cuts {:.3f} mm into the part.",
                tool, lean, depth);
            finding.remedy = "Use a slimmer insert, or a tool that feeds the other way, for this stretch.";
        }
        findings_.push_back(std::move(finding));
    }

    const Machining& m_;
    StockCursor before_, after_;
    std::vector<std::optional<Nose>> noses_;  // per tool of the set-up
    std::vector<Finding> findings_;
    BlockId lastBlock_ = kNoBlock;
    int lookedAt_ = 0;
};

}  // namespace

std::vector<Finding> gougeFindings(const Machining& machining) {
    return Gouges(machining).find();
}

}  // namespace firstoff
