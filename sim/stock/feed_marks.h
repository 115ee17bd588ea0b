// Feed marks: the surface as it really is, where the billet only has its smooth envelope.
//
// Seen at one angle of the spindle, the tool passes once per revolution. Its outline is stamped at all those places,
// and what the stamps leave is the profile of the surface.
//
// Notation. The guide is the surface of the billet along the span, G(s) with s its length and n(s) its normal out of
// the metal. The stamps, outlines O placed at p_k, all lie outside the guide, since the billet is what tools leave that
// pass everywhere. The height at s is the way from G(s) along n(s) to the first stamp:
//
//            |  O + p_1  |  O + p_2  |
//             `.._____..'|`.._____..'          h(s), cusps between
//        ~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~  G(s)
//            metal
//
// Cusps are where the first stamp changes; they are found by halving.
//
// All feed moves made so far are stamped, not only those that the surface remembers: a spring pass, or the pass before,
// may cut the ridges lower. Feed moves that follow on one another without a break share one turning of the spindle. How
// the turning of separate runs stands to one another is a matter of chance on the machine; here each begins at the same
// angle.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/surface_profile.h"
#include "sim/motion/timeline.h"
#include "sim/setup/setup.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/mark_stamps.h"

namespace firstoff {

// A stretch of turned surface, lathe frame.
struct SurfaceSpan {
    enum class Side : std::uint8_t {
        Outer,      // z from `from` to `to`
        Inner,      // likewise, the bore
        FrontFace,  // r from `from` to `to` at `z`, metal on the chuck's side of it
        BackFace,   // likewise, metal on the other side
    };
    Side side = Side::Outer;
    double from = 0, to = 0;
    double z = 0;  // faces; to within a column

    bool isFace() const { return side == Side::FrontFace || side == Side::BackFace; }
};

// Whose marks a stretch of a profile has.
struct MarkedStretch {
    double from = 0, to = 0;  // along the profile
    CutId cut = kUncut;
};

struct FeedMarks {
    SurfaceProfile profile;  // its peaks are the cusps
    std::vector<MarkedStretch> stretches;
    double feedMin = 0, feedMax = 0;  // of the marks, mm per revolution as it really ran
    // Radius of the arcs of the tool that made the profile; 0 where edges, flats or arcs of several radii took part.
    double noseRadius = 0;
    int runs = 0;         // of feed moves that took part, each with a turning of the spindle of its own
    double edgePart = 0;  // of the profile, 0 to 1, made by straight edges
};

// A span with all stamps that can matter for it. Holds no references.
class MarkedSpan {
public:
    // `billet` as it is after the first `moves` timed moves.
    MarkedSpan(const Billet& billet, std::uint32_t moves, const Timeline& timeline, const Toolpath& toolpath,
               const Setup& setup, const SurfaceSpan& span, double spindleAngle = 0);

    // Why there are no marks to be had here, in plain words; empty where there are.
    const std::string& trouble() const { return trouble_; }
    double length() const { return along_.empty() ? 0 : along_.back(); }
    // Lathe frame.
    Point pointAt(double along) const;

    // The profile from `from` to `to` along the span (0 <= from < to <= length()), in steps of `step` or a little less.
    // Nothing where some of it is reached by no stamp within kTallestMm: the feed is wider than the tool.
    std::optional<FeedMarks> stamp(double from, double to, double step) const;

    // Cusps taller than this are not looked for.
    static constexpr double kTallestMm = 2;

private:
    struct Ray {
        Point start, along;
    };
    struct Hit {
        double way = 0;
        std::uint32_t stamp = 0;
        int element = -1;
    };
    class Profiler;

    void followColumns(const Billet& billet, const SurfaceSpan& span, const Timeline& timeline,
                       const Toolpath& toolpath, const Setup& setup);
    void followFace(const Billet& billet, const SurfaceSpan& span);
    void setNormals(bool leftOfTravel);
    Ray rayAt(double along) const;

    std::string trouble_;
    std::vector<Point> guide_, normals_;
    std::vector<double> along_;
    MarkStamps marks_;
};

}  // namespace firstoff
