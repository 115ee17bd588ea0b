#include "sim/stock/feed_marks.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "sim/base/say.h"
#include "sim/stock/outline_ray.h"

namespace firstoff {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();

// Rays start this far within the metal, so that the stamp that touches the guide is met whatever the rounding.
constexpr double kBelowMm = 1e-3;

// The normal of a column is that of the line between columns this far to either side: beyond the rounding of radii,
// well within the arc of any nose.
constexpr int kNormalColumns = 2;

// Two columns with a step of more than this between them, standing alone, are parted by a face.
constexpr double kFaceMm = 0.05;
constexpr double kStandsAlone = 4;

// Samples that are looked at together.
constexpr std::size_t kTogether = 64;

// Stamps are looked for up to this height first, then up to four times as much, and so on.
constexpr double kFirstWindowMm = 0.02;

const char* reasonNoMarks(const TimedMove& timed) {
    if (timed.kind == MoveKind::Thread) return tr("a thread, which has no feed marks");
    if (timed.kind == MoveKind::Rapid || timed.kind == MoveKind::Home) return tr("a rapid");
    return tr("a move without feed and turning spindle");
}

// Least r of a lower side between two places; infinity where it is not there.
double leastBetween(const LowerChain& chain, double za, double zb) {
    const double a = std::max(za, chain.zMin);
    const double b = std::min(zb, chain.zMax);
    if (a > b) return kInf;
    if (a <= chain.bottomTo && b >= chain.bottomFrom) return chain.supports[0].offset;
    const double z = a > chain.bottomTo ? a : b;
    for (const ChainPiece& piece : chain.pieces) {
        if (piece.kind == ChainPiece::Kind::Corner || z > piece.to.z) continue;
        if (piece.kind == ChainPiece::Kind::Line) return piece.from.r + piece.slope * (z - piece.from.z);
        const double x = z - piece.centre.z;
        return piece.centre.r - std::sqrt(std::max(0.0, piece.radius * piece.radius - x * x));
    }
    return chain.pieces.back().to.r;
}

void grow(Box& box, Point p) {
    box.zMin = std::min(box.zMin, p.z);
    box.zMax = std::max(box.zMax, p.z);
    box.rMin = std::min(box.rMin, p.r);
    box.rMax = std::max(box.rMax, p.r);
}

}  // namespace

MarkedSpan::MarkedSpan(const Billet& billet, std::uint32_t moves, const Timeline& timeline, const Toolpath& toolpath,
                       const Setup& setup, const SurfaceSpan& span, double spindleAngle) {
    if (!(span.to > span.from)) {
        trouble_ = tr("the span has no length");
    } else if (span.isFace()) {
        followFace(billet, span);
    } else {
        followColumns(billet, span, timeline, toolpath, setup);
    }
    if (!trouble_.empty()) return;
    Box near{kInf, -kInf, kInf, -kInf};
    for (std::size_t i = 0; i < guide_.size(); ++i) {
        grow(near, guide_[i] - kBelowMm * normals_[i]);
        grow(near, guide_[i] + kTallestMm * normals_[i]);
    }
    marks_ = markStamps(moves, timeline, toolpath, setup, near, spindleAngle);
    if (marks_.stamps.empty()) trouble_ = tr("no feed move has left marks there");
}

void MarkedSpan::followColumns(const Billet& billet, const SurfaceSpan& span, const Timeline& timeline,
                               const Toolpath& toolpath, const Setup& setup) {
    const Grid& grid = billet.grid();
    const bool outer = span.side == SurfaceSpan::Side::Outer;
    const int first = std::max(0, grid.columnNear(span.from));
    const int last = std::min(grid.columns - 1, grid.columnNear(span.to));
    std::vector<Interval> solids;
    for (int column = first; column <= last; ++column) {
        const double z = grid.z(column);
        if (z < span.from || z > span.to) continue;
        if (!billet.isRound(column / kChunkColumns)) {
            trouble_ = tr("part of the span is not round: a thread, or what the blank was before");
            return;
        }
        billet.intervals(column, solids);
        if (solids.empty() || (!outer && solids.front().inner <= 0)) {
            trouble_ = outer ? tr("there is no metal at every place of the span")
                             : tr("there is no bore at every place of the span");
            return;
        }
        const CutId cut = outer ? solids.back().outerCut : solids.front().innerCut;
        if (cut == kUncut || cut >= timeline.moves.size()) {
            trouble_ = tr("part of the span is the blank's own skin");
            return;
        }
        const TimedMove& timed = timeline.moves[cut];
        const bool atFeed = timed.kind == MoveKind::Feed || timed.kind == MoveKind::ArcClockwise ||
                            timed.kind == MoveKind::ArcAnticlockwise;
        if (!atFeed || !(timed.rpmStart > 0 || timed.rpmEnd > 0)) {
            trouble_ = say("part of the span was left by {}", reasonNoMarks(timed));
            return;
        }
        const ToolCall& call = toolpath.calls[toolpath.moves[timed.move].call];
        const double height =
            call.toolIndex >= 0 ? setup.tools[static_cast<std::size_t>(call.toolIndex)].centreHeight : 0;
        const double r = outer ? solids.back().outer : solids.front().inner;
        // Seen in the plane of the edge, which may lie above or below the axis.
        guide_.push_back({z, std::sqrt(std::max(0.0, r * r - height * height))});
    }
    if (guide_.size() < 3) {
        trouble_ = tr("the span is shorter than three columns");
        return;
    }
    for (std::size_t i = 1; i + 2 < guide_.size(); ++i) {
        const double step = std::abs(guide_[i + 1].r - guide_[i].r);
        const double beside =
            std::max(std::abs(guide_[i].r - guide_[i - 1].r), std::abs(guide_[i + 2].r - guide_[i + 1].r));
        if (step > kFaceMm && step > kStandsAlone * beside) {
            trouble_ = tr("there is a face within the span");
            return;
        }
    }
    setNormals(outer);
}

// A face stands between two columns: metal in the one, none in the other, all the way.
void MarkedSpan::followFace(const Billet& billet, const SurfaceSpan& span) {
    const Grid& grid = billet.grid();
    const bool front = span.side == SurfaceSpan::Side::FrontFace;
    std::vector<Interval> solids;
    // Is there metal at all, or none at any, of the radii of the span?
    const auto solidAll = [&](int column) {
        if (column < 0 || column >= grid.columns) return false;
        billet.intervals(column, solids);
        return std::any_of(solids.begin(), solids.end(), [&](const Interval& s) {
            return s.inner <= span.from + kFaceMm / 2 && s.outer >= span.to - kFaceMm / 2;
        });
    };
    const auto emptyAll = [&](int column) {
        if (column < 0 || column >= grid.columns) return true;
        billet.intervals(column, solids);
        return std::none_of(solids.begin(), solids.end(), [&](const Interval& s) {
            return s.inner < span.to - kFaceMm / 2 && s.outer > span.from + kFaceMm / 2;
        });
    };
    const int border = static_cast<int>(std::lround((span.z - grid.z0) / grid.pitch));
    for (int at : {border, border - 1, border + 1}) {
        const int metal = front ? at - 1 : at;
        const int none = front ? at : at - 1;
        if (!solidAll(metal) || !emptyAll(none)) continue;
        guide_ = {{grid.border(at), span.from}, {grid.border(at), span.to}};
        setNormals(!front);
        return;
    }
    trouble_ = tr("there is no face there, or it does not reach over the whole span");
}

void MarkedSpan::setNormals(bool leftOfTravel) {
    const int n = static_cast<int>(guide_.size());
    for (int i = 0; i < n; ++i) {
        const Point d = guide_[static_cast<std::size_t>(std::min(n - 1, i + kNormalColumns))] -
                        guide_[static_cast<std::size_t>(std::max(0, i - kNormalColumns))];
        const Point left = (1 / firstoff::length(d)) * leftOf(d);
        normals_.push_back(leftOfTravel ? left : -left);
        const auto k = static_cast<std::size_t>(i);
        along_.push_back(i == 0 ? 0 : along_.back() + distance(guide_[k - 1], guide_[k]));
    }
}

MarkedSpan::Ray MarkedSpan::rayAt(double along) const {
    const auto after = std::upper_bound(along_.begin(), along_.end(), along);
    const std::size_t last = along_.size() - 1;
    const std::size_t i = std::clamp<std::size_t>(static_cast<std::size_t>(after - along_.begin()), 1, last) - 1;
    const double part = std::clamp((along - along_[i]) / (along_[i + 1] - along_[i]), 0.0, 1.0);
    const Point n = normals_[i] + part * (normals_[i + 1] - normals_[i]);
    const Point unit = (1 / firstoff::length(n)) * n;
    return {guide_[i] + part * (guide_[i + 1] - guide_[i]) - kBelowMm * unit, unit};
}

Point MarkedSpan::pointAt(double along) const {
    const Ray ray = rayAt(along);
    return ray.start + kBelowMm * ray.along;
}

// Walks the span in groups of samples, each with the few stamps that can come near it.
class MarkedSpan::Profiler {
public:
    explicit Profiler(const MarkedSpan& span) : span_(span), marks_(span.marks_) {}

    std::optional<FeedMarks> run(double from, double to, double step) {
        const double wanted = std::ceil((to - from) / step - 1e-9);
        const auto steps = static_cast<std::size_t>(std::max(2.0, wanted));
        from_ = from;
        step_ = (to - from) / static_cast<double>(steps);
        result_.profile.step = step_;
        result_.profile.heights.resize(steps + 1);
        hits_.resize(steps + 1);
        for (std::size_t first = 0; first <= steps; first += kTogether) {
            if (!group(first, std::min(first + kTogether, steps))) return std::nullopt;
        }
        takeOwners();
        return std::move(result_);
    }

private:
    Ray rayOf(std::size_t sample) const { return span_.rayAt(from_ + step_ * static_cast<double>(sample)); }

    // The last sample of a group is the first of the next, so that the cusp between them is seen.
    bool group(std::size_t first, std::size_t last) {
        for (double window = kFirstWindowMm;; window *= 4) {
            gather(first, last, window);
            bool all = true;
            for (std::size_t i = first; i <= last; ++i) {
                hits_[i] = firstHit(rayOf(i));
                all = all && hits_[i].element >= 0 && hits_[i].way - kBelowMm <= window;
            }
            if (all) break;
            if (window > kTallestMm) return false;
        }
        for (std::size_t i = first; i <= last; ++i) {
            result_.profile.heights[i] = hits_[i].way - kBelowMm;
            if (i > first && hits_[i].stamp != hits_[i - 1].stamp) addCusp(i);
        }
        return true;
    }

    // Stamps that come lower than `window` over the samples, by the lower side of each outline turned into their frame.
    void gather(std::size_t first, std::size_t last, double window) {
        const Ray middle = rayOf((first + last) / 2);
        const Point along = -leftOf(middle.along);
        Box band{kInf, -kInf, kInf, -kInf};
        Box world = band;
        for (std::size_t i = first; i <= last; ++i) {
            const Ray ray = rayOf(i);
            for (Point p : {ray.start, ray.start + (window + kBelowMm) * ray.along}) {
                grow(world, p);
                const Point off = p - middle.start;
                grow(band, {dot(along, off), cross(along, off)});
            }
        }
        near_.clear();
        std::vector<ToolShape> shapes(marks_.forms.size());
        for (std::uint32_t k = 0; k < marks_.stamps.size(); ++k) {
            const Stamp& stamp = marks_.stamps[k];
            const StampForm& form = marks_.forms[stamp.form];
            if (!overlap(moved(form.box, stamp.tip), world)) continue;
            ToolShape& shape = shapes[stamp.form];
            if (shape.empty()) shape = toolShape(turnedOutline(form.outline, along));
            const Point off = stamp.tip - middle.start;
            const double z = dot(along, off);
            if (leastBetween(shape.lower, band.zMin - z, band.zMax - z) + cross(along, off) <= band.rMax) {
                near_.push_back(k);
            }
        }
    }

    Hit firstHit(const Ray& ray) const {
        Hit first;
        for (std::uint32_t k : near_) {
            const Stamp& stamp = marks_.stamps[k];
            const RayHit hit = firstMeeting(marks_.forms[stamp.form].outline, ray.start - stamp.tip, ray.along);
            if (hit.element >= 0 && (first.element < 0 || hit.way < first.way)) first = {hit.way, k, hit.element};
        }
        return first;
    }

    void addCusp(std::size_t after) {
        const std::uint32_t before = hits_[after - 1].stamp;
        double low = static_cast<double>(after - 1) * step_;
        double high = static_cast<double>(after) * step_;
        Hit hit;
        for (int i = 0; i < 40; ++i) {
            const double middle = (low + high) / 2;
            hit = firstHit(span_.rayAt(from_ + middle));
            (hit.stamp == before ? low : high) = middle;
        }
        result_.profile.peaks.push_back({(low + high) / 2, hit.way - kBelowMm});
    }

    void takeOwners() {
        result_.feedMin = kInf;
        bool oneRadius = true;
        std::size_t edges = 0;
        std::vector<std::uint32_t> runs;
        for (std::size_t i = 0; i < hits_.size(); ++i) {
            const Stamp& stamp = marks_.stamps[hits_[i].stamp];
            const double at = static_cast<double>(i) * step_;
            if (result_.stretches.empty() || result_.stretches.back().cut != stamp.cut) {
                result_.stretches.push_back({at, at, stamp.cut});
            }
            result_.stretches.back().to = at;
            if (std::find(runs.begin(), runs.end(), stamp.run) == runs.end()) runs.push_back(stamp.run);
            if (stamp.feed > 0) {
                result_.feedMin = std::min(result_.feedMin, stamp.feed);
                result_.feedMax = std::max(result_.feedMax, stamp.feed);
            }
            const auto element = static_cast<std::size_t>(hits_[i].element);
            const double radius = marks_.forms[stamp.form].outline.elements[element].radius;
            if (i == 0) result_.noseRadius = radius;
            oneRadius = oneRadius && std::abs(radius - result_.noseRadius) < 1e-9;
            edges += radius == 0 ? 1 : 0;
        }
        result_.runs = static_cast<int>(runs.size());
        if (!oneRadius) result_.noseRadius = 0;
        if (result_.feedMax == 0) result_.feedMin = 0;
        result_.edgePart = static_cast<double>(edges) / static_cast<double>(hits_.size());
    }

    const MarkedSpan& span_;
    const MarkStamps& marks_;
    double from_ = 0, step_ = 0;
    std::vector<std::uint32_t> near_;
    std::vector<Hit> hits_;
    FeedMarks result_;
};

std::optional<FeedMarks> MarkedSpan::stamp(double from, double to, double step) const {
    assert(trouble_.empty() && from >= 0 && from < to && to <= length() && step > 0);
    return Profiler(*this).run(from, to, step);
}

}  // namespace firstoff
