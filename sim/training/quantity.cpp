#include "sim/training/quantity.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/motion/pace.h"
#include "sim/output/tables.h"
#include "sim/training/cut_depth.h"
#include "sim/training/finished_part.h"
#include "sim/trial/finish.h"

namespace firstoff {

namespace {

using Kind = QuantityKind;

constexpr QuantityName kQuantities[] = {
    {Kind::RevPerMin, "rev_per_min", "rev/min", "line", "", later("speed of the spindle at the end of the line")},
    {Kind::ClampDiameter, "clamp_x_mm", "mm", "line", "",
     later("X at which the speed clamp takes hold while the line is carried out")},
    {Kind::SurfaceSpeed, "surface_speed_m_per_min", "m/min", "line", "",
     later("true surface speed at the tip at the end of the line")},
    {Kind::FeedPerMin, "feed_mm_per_min", "mm/min", "line", "", later("feed along the path at the end of the line")},
    {Kind::EndX, "end_x_mm", "mm", "line", "", later("X, as diameter, once the line has been carried out")},
    {Kind::EndZ, "end_z_mm", "mm", "line", "", later("Z once the line has been carried out")},
    {Kind::Passes, "passes", "", "line", "",
     later("passes of the cycle that the line calls; a cut along the profile at its end counts")},
    {Kind::PassDepth, "pass_depth_mm", "mm", "line", "pass",
     later("depth of a pass of that cycle, radially; without `pass` of the last one along the axis, of a thread of the "
           "last one that goes deeper")},
    {Kind::PassDiameter, "pass_x_mm", "mm", "line", "pass", later("X at which a pass of that cycle cuts")},
    {Kind::CutDepth, "cut_depth_mm", "mm", "line", "",
     later("depth of cut of the line, radially, along most of its deepest cut")},
    {Kind::LineTime, "line_time_s", "s", "line", "", later("time that the line takes, all its passes")},
    {Kind::CycleTime, "cycle_time_s", "s", "", "", later("time of the whole program")},
    {Kind::FinishedDiameter, "finished_diameter_mm", "mm", "z_mm", "inside",
     later("diameter of the finished part at this Z, outside or in the bore")},
    {Kind::FinishedLength, "finished_length_mm", "mm", "", "", later("length of the finished part")},
    {Kind::TheoreticalRz, "theoretical_rz_um", "µm", "line", "",
     later("roughness that feed and nose radius of the line leave in theory")},
    {Kind::FindingLine, "finding_line", "", "finding", "", later("number of the first line with this finding")},
    {Kind::FindingCount, "finding_count", "", "finding", "", later("how often there is this finding")},
};

constexpr double kMicrometresPerMm = 1000;

bool isCut(MoveKind kind) {
    return kind == MoveKind::Feed || kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise ||
           kind == MoveKind::Thread;
}

QuantityValue nothing(std::string trouble) {
    return {std::nullopt, std::move(trouble)};
}

// The moves of one line, in order.
class LineMoves {
public:
    LineMoves(const Trial& trial, BlockId block) : t_(trial) {
        for (std::size_t i = 0; i < t_.toolpath.moves.size(); ++i) {
            const Move& move = t_.toolpath.moves[i];
            if (move.block == block || move.cycleBlock == block || t_.shownBlock(i) == block) moves_.push_back(i);
        }
    }

    bool empty() const { return moves_.empty(); }
    const Move& move(std::size_t i) const { return t_.toolpath.moves[i]; }
    const ModalState& modal(std::size_t i) const { return t_.toolpath.modals[move(i).modal]; }
    Point end(std::size_t i) const { return move(i).to + t_.toolpath.programmedShift(move(i)); }
    Point begin(std::size_t i) const { return move(i).from + t_.toolpath.programmedShift(move(i)); }
    const std::vector<std::size_t>& all() const { return moves_; }
    std::size_t last() const { return moves_.back(); }

    std::optional<std::size_t> lastCut() const {
        for (std::size_t k = moves_.size(); k-- > 0;) {
            if (isCut(move(moves_[k]).kind)) return moves_[k];
        }
        return std::nullopt;
    }

    double revPerMinAfter(std::size_t i) const {
        const std::uint32_t end = t_.timeline.firstOf[i + 1];
        return end > t_.timeline.firstOf[i] ? t_.timeline.moves[end - 1].rpmEnd : 0;
    }

    double seconds() const {
        double sum = 0;
        for (const std::size_t i : moves_) {
            for (std::uint32_t k = t_.timeline.firstOf[i]; k < t_.timeline.firstOf[i + 1]; ++k)
                sum += t_.timeline.moves[k].t1 - t_.timeline.moves[k].t0;
        }
        return sum;
    }

    int passes() const {
        int most = 0;
        for (const std::size_t i : moves_) most = std::max(most, static_cast<int>(move(i).pass));
        return most;
    }

    bool ofRoughing() const {
        return std::any_of(moves_.begin(), moves_.end(), [&](std::size_t i) {
            const int motion = modal(i).motion;
            return motion == 71 || motion == 72;
        });
    }

    bool ofThread() const {
        return std::any_of(moves_.begin(), moves_.end(),
                           [&](std::size_t i) { return move(i).kind == MoveKind::Thread; });
    }

    // The cut of a pass that is the longest, nothing without one.
    std::optional<std::size_t> mainCut(int pass) const {
        std::optional<std::size_t> best;
        for (const std::size_t i : moves_) {
            if (move(i).pass != pass || !isCut(move(i).kind)) continue;
            if (!best || distance(move(i).from, move(i).to) > distance(move(*best).from, move(*best).to)) best = i;
        }
        return best;
    }

    double threadDepth(int pass) const {
        double depth = 0;
        for (const std::size_t i : moves_) {
            if (move(i).pass != pass || move(i).extra == kNoExtra) continue;
            depth = std::max(depth, t_.toolpath.extras[move(i).extra].threadDepth);
        }
        return depth;
    }

    // Of the deepest of its cuts along the axis, of one pass alone if that is said; nothing without such a cut.
    std::optional<double> cutDepth(std::optional<int> pass = {}) const {
        std::optional<double> depth;
        for (const std::size_t i : moves_) {
            if ((pass && move(i).pass != *pass) || !isCut(move(i).kind)) continue;
            for (std::uint32_t k = t_.timeline.firstOf[i]; k < t_.timeline.firstOf[i + 1]; ++k) {
                const std::optional<double> along = depthAlong(t_, k);
                if (along) depth = std::max(depth.value_or(0), *along);
            }
        }
        return depth;
    }

private:
    const Trial& t_;
    std::vector<std::size_t> moves_;
};

class Gauging {
public:
    Gauging(const Trial& trial, const Quantity& quantity) : t_(trial), q_(quantity) {}

    QuantityValue run() const {
        switch (q_.kind) {
            case Kind::CycleTime:
                return {t_.timeline.cycleTimeS, {}};
            case Kind::FinishedDiameter:
                return diameter();
            case Kind::FinishedLength:
                return partLength();
            case Kind::FindingLine:
            case Kind::FindingCount:
                return ofFinding();
            default:
                return ofLine();
        }
    }

private:
    QuantityValue ofLine() const {
        const BlockId block = q_.line ? blockOf(t_.program, *q_.line) : kNoBlock;
        if (block == kNoBlock)
            return nothing(q_.line ? say("The program has no {}.", inWords(*q_.line))
                                   : std::string(tr("No line is said.")));
        const LineMoves line(t_, block);
        if (line.empty()) return nothing(say("Nothing moves in {}.", inWords(*q_.line)));
        switch (q_.kind) {
            case Kind::RevPerMin:
                return {line.revPerMinAfter(line.last()), {}};
            case Kind::EndX:
                return {2 * line.end(line.last()).r, {}};
            case Kind::EndZ:
                return {line.end(line.last()).z, {}};
            case Kind::CutDepth:
                return depthOrTrouble(line.cutDepth());
            case Kind::LineTime:
                return {line.seconds(), {}};
            case Kind::SurfaceSpeed:
                return {surfaceSpeedMPerMin(line.revPerMinAfter(line.last()), std::abs(line.end(line.last()).r)), {}};
            case Kind::ClampDiameter:
                return clampDiameter(line);
            case Kind::FeedPerMin:
            case Kind::TheoreticalRz:
                return ofFeed(line);
            default:
                return ofPasses(line);
        }
    }

    QuantityValue clampDiameter(const LineMoves& line) const {
        for (const std::size_t i : line.all()) {
            const ModalState& modal = line.modal(i);
            if (!modal.constantSurfaceSpeed) continue;
            const SpindleLaw law = spindleLaw(line.move(i), modal, t_.setup);
            if (!(law.limit > 0) || !(law.hyperbola > 0)) continue;
            const double radius = law.hyperbola / law.limit;
            const double a = std::abs(line.begin(i).r), b = std::abs(line.end(i).r);
            if (radius >= std::min(a, b) && radius <= std::max(a, b)) return {2 * radius, {}};
        }
        return nothing(say("In {} the speed never comes to a clamp on the way.", inWords(*q_.line)));
    }

    QuantityValue ofFeed(const LineMoves& line) const {
        const std::optional<std::size_t> cut = line.lastCut();
        if (!cut) return nothing(say("{} cuts nothing at feed.", inWords(*q_.line)));
        if (q_.kind == Kind::TheoreticalRz) return theoreticalRz(line, *cut);
        const Move& move = line.move(*cut);
        const double rev = line.revPerMinAfter(*cut);
        if (move.kind == MoveKind::Thread) return {t_.toolpath.extras[move.extra].lead * rev, {}};
        return {line.modal(*cut).feedPerRev ? move.feed * rev : move.feed, {}};
    }

    QuantityValue theoreticalRz(const LineMoves& line, std::size_t cut) const {
        const Move& move = line.move(cut);
        const int tool = t_.toolpath.calls[move.call].toolIndex;
        const double nose = tool >= 0 ? t_.setup.tools[static_cast<std::size_t>(tool)].noseRadius : 0;
        if (!line.modal(cut).feedPerRev || move.kind == MoveKind::Thread || !(move.feed > 0 && move.feed < 2 * nose))
            return nothing(say("{} has no feed per revolution of a tool with a nose radius.", inWords(*q_.line)));
        return {kMicrometresPerMm * noseTheory(move.feed, nose).rtCircle, {}};
    }

    QuantityValue ofPasses(const LineMoves& line) const {
        const int passes = line.passes();
        if (passes == 0) return nothing(say("{} calls no cycle that makes passes.", inWords(*q_.line)));
        if (q_.kind == Kind::Passes) return {passes, {}};
        if (q_.pass > passes) return nothing(say("The cycle of {} has {} passes.", inWords(*q_.line), passes));
        const int pass = q_.pass > 0 ? q_.pass : lastPass(line, passes);
        if (q_.kind == Kind::PassDepth)
            return line.ofThread() ? QuantityValue{threadDepth(line, pass), {}} : depthOrTrouble(line.cutDepth(pass));
        const std::optional<std::size_t> cut = line.mainCut(pass);
        if (!cut) return nothing(say("Pass {} of {} cuts nothing.", pass, inWords(*q_.line)));
        const Point way = line.end(*cut) - line.begin(*cut);
        if (std::abs(way.r) > std::abs(way.z))
            return nothing(say("Pass {} of {} runs across the axis and has no single X.", pass, inWords(*q_.line)));
        return {2 * line.end(*cut).r, {}};
    }

    // After the passes of a roughing cycle comes a cut along the profile, and behind those of a thread one without
    // infeed may come.
    int lastPass(const LineMoves& line, int passes) const {
        if (line.ofRoughing() && passes > 1) return passes - 1;
        if (!line.ofThread()) return passes;
        int pass = passes;
        while (pass > 1 && !(threadDepth(line, pass) > 0)) --pass;
        return pass;
    }

    static double threadDepth(const LineMoves& line, int pass) {
        return line.threadDepth(pass) - (pass > 1 ? line.threadDepth(pass - 1) : 0);
    }

    QuantityValue depthOrTrouble(std::optional<double> depth) const {
        if (depth) return {depth, {}};
        return nothing(say("{} takes nothing off along the axis.", inWords(*q_.line)));
    }

    QuantityValue diameter() const {
        const PartOutline part = finishedOutline(t_, pieceOfPart(t_));
        if (part.empty()) return nothing(tr("There is no finished part."));
        const std::optional<double> d = firstoff::diameterAt(part, sectionDatum(t_).z + q_.zMm, q_.inside);
        if (!d) return nothing(say("At Z{:g} the part has no such surface.", q_.zMm));
        return {*d, {}};
    }

    QuantityValue partLength() const {
        const PartOutline part = finishedOutline(t_, pieceOfPart(t_));
        if (part.empty()) return nothing(tr("There is no finished part."));
        return {part.box().zMax - part.box().zMin, {}};
    }

    QuantityValue ofFinding() const {
        int count = 0;
        std::uint32_t first = 0;
        for (const Finding& finding : t_.findings) {
            if (finding.code != q_.finding) continue;
            ++count;
            const bool own = finding.span.file == SourceSpan::File::Program && finding.span.part == 0;
            if (first == 0 && own) first = finding.span.line;
        }
        if (q_.kind == Kind::FindingCount) return {count, {}};
        if (first == 0) return nothing(say("No line of the program has the finding {}.", q_.finding));
        return {first, {}};
    }

    const Trial& t_;
    const Quantity& q_;
};

}  // namespace

std::span<const QuantityName> quantities() {
    return kQuantities;
}

const QuantityName* quantityNamed(std::string_view name) {
    for (const QuantityName& quantity : kQuantities) {
        if (quantity.name == name) return &quantity;
    }
    return nullptr;
}

const QuantityName& nameOf(QuantityKind kind) {
    return *std::find_if(std::begin(kQuantities), std::end(kQuantities),
                         [kind](const QuantityName& q) { return q.kind == kind; });
}

QuantityValue gauge(const Trial& trial, const Quantity& quantity) {
    return Gauging(trial, quantity).run();
}

std::optional<Point> programmedEnd(const Trial& trial, BlockId block) {
    const LineMoves line(trial, block);
    if (line.empty()) return std::nullopt;
    return line.end(line.last());
}

}  // namespace firstoff
