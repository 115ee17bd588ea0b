// From left to right along the columns, the inner and the outer side of every solid stretch are followed by a tracer
// each. At the border between two columns, stretches that overlap belong together. Within such a group the lowest and
// the highest side run on; gaps between stretches end or begin, and stretches that overlap nothing end or begin. Where
// a side ends, it is tied to the side it meets there by an upright edge. Afterwards the loops are read off: along an
// inner side to the right, over the tie, along an outer side to the left, and so on until back at the start. Metal is
// always to the left.
#include "sim/stock/section.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "sim/stock/side_run.h"
#include "sim/stock/side_tracer.h"

namespace firstoff {

namespace {

constexpr int kNone = -1;

template <typename Tracer>
struct RunOf {
    Tracer tracer;
    int leftTie = kNone, rightTie = kNone;  // the run met at that end
    CutId leftCut = kUncut, rightCut = kUncut;
};

// A solid stretch of the column at hand and the runs along its two sides.
struct Stretch {
    Interval solid;
    int inner = kNone, outer = kNone;
};

// Keeps every column of a side.
class SideRecorder {
public:
    SideRecorder(Side side, double, double, std::span<const std::uint16_t>) : side_(side) {}
    void add(double z, double r, CutId cut) {
        if (radii.empty()) firstZ = z;
        radii.push_back(r);
        cuts.push_back(cut);
    }
    Side side() const { return side_; }

    double firstZ = 0;
    std::vector<double> radii;
    std::vector<CutId> cuts;

private:
    Side side_;
};

// `Tracer` follows the sides: SideTracer, SideRecorder.
template <typename Tracer>
class SectionTracer {
    using Run = RunOf<Tracer>;

public:
    SectionTracer(const Billet& billet, double tolerance, std::span<const std::uint16_t> toolOfCut, int sector)
        : billet_(billet), tolerance_(tolerance), toolOfCut_(toolOfCut), sector_(sector) {}

    std::vector<Run>& runs() {
        for (int chunk = 0; chunk < billet_.grid().chunks(); ++chunk) addChunk(chunk);
        enterColumn(billet_.grid().columns, {});
        return runs_;
    }

    std::vector<Loop> loops(int piece) {
        runs();
        for (Run& run : runs_) run.tracer.finish();
        for (Run& run : runs_) keepApart(run);
        std::vector<Loop> result;
        done_.assign(runs_.size(), false);
        for (std::size_t i = 0; i < runs_.size(); ++i) {
            if (!done_[i] && runs_[i].tracer.side() == Side::Inner)
                result.push_back(loopFrom(static_cast<int>(i), piece));
        }
        return result;
    }

private:
    Run& run(int index) { return runs_[static_cast<std::size_t>(index)]; }

    int newRun(Side side) {
        runs_.push_back({Tracer(side, tolerance_, billet_.grid().pitch, toolOfCut_)});
        return static_cast<int>(runs_.size()) - 1;
    }
    void tieLeft(int a, int b, CutId cut) {
        run(a).leftTie = b;
        run(b).leftTie = a;
        run(a).leftCut = run(b).leftCut = cut;
    }
    void tieRight(int a, int b, CutId cut) {
        run(a).rightTie = b;
        run(b).rightTie = a;
        run(a).rightCut = run(b).rightCut = cut;
    }

    void addChunk(int index) {
        const Chunk& chunk = billet_.chunk(index, sector_);
        const int base = index * kChunkColumns;
        const int end = std::min(base + kChunkColumns, billet_.grid().columns);
        if (billet_.bounds(index, sector_).maxOuter <= 0 && stretches_.empty()) return;
        int column = base;
        const bool plain = billet_.isPlain(index, sector_);
        for (; column < end; ++column) {
            billet_.intervals(column, solids_, sector_);
            enterColumn(column, solids_);
            addPoints(column);
            if (plain) {
                ++column;
                break;
            }
        }
        if (column >= end) return;
        Tracer& inner = run(stretches_[0].inner).tracer;
        Tracer& outer = run(stretches_[0].outer).tracer;
        for (; column < end; ++column) {
            const std::size_t k = static_cast<std::size_t>(column - base);
            const double z = billet_.grid().z(column);
            inner.add(z, chunk.inner->r[k], chunk.inner->cut[k]);
            outer.add(z, chunk.outer.r[k], chunk.outer.cut[k]);
        }
        const std::size_t last = static_cast<std::size_t>(end - 1 - base);
        stretches_[0].solid = {chunk.inner->r[last], chunk.outer.r[last], chunk.inner->cut[last],
                               chunk.outer.cut[last]};
    }

    void addPoints(int column) {
        const double z = billet_.grid().z(column);
        for (const Stretch& s : stretches_) {
            run(s.inner).tracer.add(z, s.solid.inner, s.solid.innerCut);
            run(s.outer).tracer.add(z, s.solid.outer, s.solid.outerCut);
        }
    }

    // The face left standing where the neighbouring column has nothing: made by what took that column's metal.
    CutId faceCut(int emptyColumn, const std::vector<Interval>& there) const {
        return there.empty() ? billet_.lastCut(emptyColumn, sector_) : there.back().outerCut;
    }

    // Carries the stretches of the column before over to those of `column`.
    void enterColumn(int column, const std::vector<Interval>& solids) {
        before_.swap(stretches_);
        beforeSolids_.clear();
        for (const Stretch& s : before_) beforeSolids_.push_back(s.solid);
        stretches_.clear();
        for (const Interval& solid : solids) stretches_.push_back({solid});
        std::size_t a = 0;
        std::size_t b = 0;
        while (a < before_.size() || b < stretches_.size()) {
            std::size_t aEnd = a;
            std::size_t bEnd = b;
            if (a < before_.size() && b < stretches_.size() && joined(before_[a].solid, stretches_[b].solid)) {
                growGroup(a, b, aEnd, bEnd);
                carryGroup(a, aEnd, b, bEnd);
            } else if (b == stretches_.size() ||
                       (a < before_.size() && before_[a].solid.outer <= stretches_[b].solid.outer)) {
                tieRight(before_[a].inner, before_[a].outer, faceCut(column, solids));
                ++aEnd;
            } else {
                stretches_[b].inner = newRun(Side::Inner);
                stretches_[b].outer = newRun(Side::Outer);
                tieLeft(stretches_[b].inner, stretches_[b].outer, faceCut(column - 1, beforeSolids_));
                ++bEnd;
            }
            a = aEnd;
            b = bEnd;
        }
    }

    void growGroup(std::size_t a, std::size_t b, std::size_t& aEnd, std::size_t& bEnd) const {
        aEnd = a + 1;
        bEnd = b + 1;
        for (;;) {
            if (aEnd < before_.size() && joined(before_[aEnd].solid, stretches_[bEnd - 1].solid)) {
                ++aEnd;
            } else if (bEnd < stretches_.size() && joined(before_[aEnd - 1].solid, stretches_[bEnd].solid)) {
                ++bEnd;
            } else {
                return;
            }
        }
    }

    void carryGroup(std::size_t a, std::size_t aEnd, std::size_t b, std::size_t bEnd) {
        stretches_[b].inner = before_[a].inner;
        stretches_[bEnd - 1].outer = before_[aEnd - 1].outer;
        for (std::size_t i = a; i + 1 < aEnd; ++i) {
            tieRight(before_[i].outer, before_[i + 1].inner, before_[i].solid.outerCut);
        }
        for (std::size_t i = b; i + 1 < bEnd; ++i) {
            stretches_[i].outer = newRun(Side::Outer);
            stretches_[i + 1].inner = newRun(Side::Inner);
            tieLeft(stretches_[i].outer, stretches_[i + 1].inner, stretches_[i].solid.outerCut);
        }
    }

    // Two sides that were carried on to a border may have crossed on the last half pitch: then they meet there.
    void keepApart(Run& here) {
        if (here.tracer.side() != Side::Inner) return;
        Tracer& a = here.tracer;
        Tracer& left = run(here.leftTie).tracer;
        const double startA = a.points().front().r;
        const double startB = left.points().front().r;
        if ((startA - startB) * (a.firstR() - left.firstR()) < 0) {
            a.moveStart((startA + startB) / 2);
            left.moveStart((startA + startB) / 2);
        }
        Tracer& right = run(here.rightTie).tracer;
        const double endA = a.points().back().r;
        const double endB = right.points().back().r;
        if ((endA - endB) * (a.lastR() - right.lastR()) < 0) {
            a.moveEnd((endA + endB) / 2);
            right.moveEnd((endA + endB) / 2);
        }
    }

    static void append(Loop& loop, Point point, CutId cutBefore) {
        if (!loop.points.empty()) {
            if (loop.points.back() == point) return;
            loop.cuts.push_back(cutBefore);
        }
        loop.points.push_back(point);
    }

    Loop loopFrom(int start, int piece) {
        Loop loop;
        loop.piece = piece;
        int at = start;
        CutId tie = kUncut;
        do {
            const Run& here = run(at);
            done_[static_cast<std::size_t>(at)] = true;
            const std::vector<Point>& points = here.tracer.points();
            const std::vector<CutId>& cuts = here.tracer.cuts();
            const std::size_t n = points.size();
            const bool toRight = here.tracer.side() == Side::Inner;
            for (std::size_t i = 0; i < n; ++i) {
                const std::size_t j = toRight ? i : n - 1 - i;
                append(loop, points[j], i == 0 ? tie : cuts[toRight ? j - 1 : j]);
            }
            tie = toRight ? here.rightCut : here.leftCut;
            at = toRight ? here.rightTie : here.leftTie;
        } while (at != start);
        if (loop.points.size() > 1 && loop.points.back() == loop.points.front()) {
            loop.points.pop_back();
        } else {
            loop.cuts.push_back(tie);
        }
        return loop;
    }

    const Billet& billet_;
    double tolerance_;
    std::span<const std::uint16_t> toolOfCut_;
    int sector_;
    std::vector<Run> runs_;
    std::vector<Stretch> stretches_, before_;
    std::vector<Interval> solids_, beforeSolids_;
    std::vector<bool> done_;
};

}  // namespace

std::vector<Loop> sectionLoops(const Billet& billet, double toleranceMm, int piece,
                               std::span<const std::uint16_t> toolOfCut, int sector) {
    return SectionTracer<SideTracer>(billet, toleranceMm, toolOfCut, sector).loops(piece);
}

std::vector<SideRun> sideRuns(const Billet& billet, int sector) {
    const Grid& grid = billet.grid();
    SectionTracer<SideRecorder> tracer(billet, 0, {}, sector);
    std::vector<SideRun> sides;
    for (auto& run : tracer.runs()) {
        SideRun& side = sides.emplace_back();
        side.side = run.tracer.side();
        side.firstColumn = static_cast<int>(std::lround((run.tracer.firstZ - grid.z0) / grid.pitch - 0.5));
        side.radii = std::move(run.tracer.radii);
        side.cuts = std::move(run.tracer.cuts);
        side.leftTie = run.leftTie;
        side.rightTie = run.rightTie;
        side.leftCut = run.leftCut;
        side.rightCut = run.rightCut;
    }
    return sides;
}

}  // namespace firstoff
