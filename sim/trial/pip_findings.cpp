// A facing cut moves at constant z between the outside and the axis. When it stops (or starts) short of the axis, or
// its edge stands off centre height, a stub of small diameter stays in front of the new face: the pip. With the
// imaginary tip stopped at X0 and a nose radius R the flat of the face begins at radius R, so the pip's foot has the
// diameter 2R (elementary geometry).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

namespace {

// Looking for metal this far in front of the face: past the column that holds the face itself, well short of any pip.
constexpr double kInFrontMm = 0.01;
// How finely the foot is looked at; a pip is small.
constexpr double kFootMm = 1e-5;
// A stub whose foot is wider than this beyond the nose is no pip but a pin that the drawing may want.
constexpr double kWidestBeyondNoseMm = 2.0;

struct Face {
    std::size_t timed = 0;  // the facing cut that went nearest to the axis
    double z = 0;           // lathe frame
    double noseRadius = 0;
    bool outwards = false;
    std::size_t lookedAt = 0;  // after this timed move; outwards, metal further out stands longer than the cut lasts
};

struct Pip {
    double diameter = 0;
    double length = 0;
};

// Radius at which the imaginary tip comes nearest to the axis on this side of it; negative past it.
double nearestToAxis(const Machining& m, const TimedMove& timed) {
    return std::min(timed.from.r, timed.to.r) + m.toolpath.tipShift(m.toolpath.moves[timed.move]).r;
}

// Inwards or outwards.
std::optional<Face> facing(const Machining& m, std::size_t i) {
    const TimedMove& timed = m.timeline.moves[i];
    if (timed.kind != MoveKind::Feed || m.stock->cuts()[i].deepestMm <= tolerance::kTouchMm) return std::nullopt;
    const bool radial = std::abs(timed.to.r - timed.from.r) > tolerance::kTouchMm &&
                        std::abs(timed.to.z - timed.from.z) <= tolerance::kTouchMm;
    const Move& move = m.toolpath.moves[timed.move];
    const int tool = m.toolpath.calls[move.call].toolIndex;
    if (!radial || tool < 0 || m.setup.tools[tool].kind != ToolKind::Turning) return std::nullopt;
    // A radial cut that stays further out faces a shoulder.
    if (nearestToAxis(m, timed) > kWidestBeyondNoseMm) return std::nullopt;
    return Face{i, timed.to.z + m.toolpath.tipShift(move).z, m.setup.tools[tool].noseRadius, timed.to.r > timed.from.r,
                i};
}

// A stub whose side was left by a facing cut, or by a tool fed in with its tip on the axis, is what the facing left
// over; a pin has been turned along its length.
bool leftByFacing(const Machining& m, const Interval& stub) {
    if (!isCutHere(stub.outerCut) || facing(m, stub.outerCut)) return true;
    return nearestToAxis(m, m.timeline.moves[stub.outerCut]) <= tolerance::kTouchMm;
}

// Greatest radius of a loop at z, by straight line between its points; 0 where it does not reach.
double radiusAt(const Loop& loop, double z) {
    double radius = 0;
    for (std::size_t i = 0; i < loop.points.size(); ++i) {
        const Point a = loop.points[i];
        const Point b = loop.points[(i + 1) % loop.points.size()];
        if ((a.z <= z) == (b.z <= z)) continue;
        radius = std::max(radius, a.r + (b.r - a.r) * (z - a.z) / (b.z - a.z));
    }
    return radius;
}

std::optional<Pip> pipInFrontOf(const Machining& m, const Face& face, const StockCursor& cursor) {
    const double widest = face.noseRadius + kWidestBeyondNoseMm;
    const double near = cursor.outermostAt(face.z + kInFrontMm).outer;
    if (near <= 0 || near > widest) return std::nullopt;
    double foot = 0;
    double frontZ = face.z;
    for (const Loop& loop : cursor.section(kFootMm)) {
        if (loop.piece != 0) continue;
        foot = std::max(foot, radiusAt(loop, face.z + kInFrontMm));
        for (Point p : loop.points) frontZ = std::max(frontZ, p.z);
    }
    // The nose leaves a round foot: at a height e above the face it is narrower by sqrt(2 R e - e²).
    const double flare = std::sqrt(std::max(0.0, kInFrontMm * (2 * face.noseRadius - kInFrontMm)));
    const Pip pip{2 * (foot + flare), frontZ - face.z};
    return leftByFacing(m, cursor.outermostAt(face.z + pip.length / 2)) ? std::optional(pip) : std::nullopt;
}

// Parted off, the pip has gone with the piece and is still on it.
bool stays(const Machining& m, const Face& face, const Pip& pip, const StockCursor& end) {
    if (end.outermostAt(face.z + kInFrontMm).outer > 0) return true;
    for (const Severance& fallen : m.stock->severances()) {
        if (fallen.timedMove <= face.lookedAt) continue;
        for (const Loop& loop : fallen.section) {
            for (Point p : loop.points) {
                if (p.z > face.z + kInFrontMm && p.r < pip.diameter / 2) return true;
            }
        }
    }
    return false;
}

Finding describe(const Machining& m, const Face& face, const Pip& pip, bool isStaying) {
    const TimedMove& timed = m.timeline.moves[face.timed];
    const Move& move = m.toolpath.moves[timed.move];
    Finding finding;
    finding.severity = isStaying ? Severity::Warning : Severity::Note;
    finding.code = "pip-left";
    finding.span = m.program.span(move.block);
    finding.timeS = timed.t1;
    finding.place = Point{face.z, 0};
    finding.values = {{"diameter_mm", pip.diameter}, {"length_mm", pip.length}};
    finding.message = isStaying
                          ? say("The facing cut leaves a pip of diameter {:.3f} mm, {:.3f} mm long, at the centre.",
                                pip.diameter, pip.length)
                          : say("The facing cut leaves a pip of diameter {:.3f} mm, {:.3f} mm long, at the centre; a "
                                "later tool meets it and takes it off.",
                                pip.diameter, pip.length);
    finding.remedy = timed.to.r < timed.from.r ? say("Face past the centre by the nose radius (to X{:.3f} for this "
                                                     "insert) and see that the edge stands at centre height.",
                                                     -2 * face.noseRadius)
                                               : say("Face past the centre by the nose radius (from X{:.3f} for this "
                                                     "insert) and see that the edge stands at centre height.",
                                                     -2 * face.noseRadius);
    return finding;
}

}  // namespace

std::vector<Finding> pipFindings(const Machining& m) {
    std::vector<Face> faces;  // one per tool call: the facing cut that ended nearest to the chuck
    std::uint32_t call = 0xffffffffu;
    for (std::size_t i = 0; i < m.timeline.moves.size(); ++i) {
        const std::optional<Face> face = facing(m, i);
        if (!faces.empty() && faces.back().outwards && m.toolpath.moves[m.timeline.moves[i].move].call == call) {
            faces.back().lookedAt = i;
        }
        if (!face) continue;
        const std::uint32_t now = m.toolpath.moves[m.timeline.moves[i].move].call;
        if (now != call) {
            faces.push_back(*face);
            call = now;
        } else if (face->z <= faces.back().z) {
            faces.back() = *face;
        }
    }
    std::vector<Finding> findings;
    if (faces.empty()) return findings;
    StockCursor cursor(m.stock);
    StockCursor end(m.stock);
    end.seek(static_cast<std::uint32_t>(m.timeline.moves.size()), 0);
    for (auto face = faces.begin(); face != faces.end(); ++face) {
        // What roughing leaves along a profile is for the finishing to take.
        const bool deeperLater = std::any_of(face + 1, faces.end(), [&](const Face& f) { return f.z < face->z; });
        if (face->outwards && deeperLater) continue;
        cursor.seek(static_cast<std::uint32_t>(face->lookedAt + 1), 0);
        const std::optional<Pip> pip = pipInFrontOf(m, *face, cursor);
        if (!pip) continue;
        findings.push_back(describe(m, *face, *pip, stays(m, *face, *pip, end)));
    }
    return findings;
}

}  // namespace firstoff
