#include "sim/trial/comparison.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "sim/stock/history.h"

namespace firstoff {

namespace {

constexpr double kStepMm = 0.01;         // along z, of the places that are compared
constexpr double kNone = -1;             // no metal there
constexpr double kSmallestStepR = 1e-4;  // a step that is less than this is a slope

// Both surfaces of one piece at evenly spaced places.
struct Profile {
    std::vector<double> outer, inner;
    std::vector<CutId> outerCut, innerCut;
};

struct Places {
    double from = 0;
    std::size_t count = 0;
    double z(std::size_t i) const { return from + (static_cast<double>(i) + 0.5) * kStepMm; }
};

// Edges of the half-section drawn into the places that they pass.
void draw(const Loop& loop, const Places& places, Profile& profile) {
    const std::size_t n = loop.points.size();
    for (std::size_t i = 0; i < n; ++i) {
        Point a = loop.points[i], b = loop.points[(i + 1) % n];
        if (a.z > b.z) std::swap(a, b);
        if (!(b.z > a.z)) continue;
        const double first = std::ceil((a.z - places.from) / kStepMm - 0.5);
        for (auto k = static_cast<std::size_t>(std::max(0.0, first)); k < places.count && places.z(k) <= b.z; ++k) {
            const double r = a.r + (b.r - a.r) * (places.z(k) - a.z) / (b.z - a.z);
            if (profile.outer[k] == kNone || r > profile.outer[k]) {
                profile.outer[k] = r;
                profile.outerCut[k] = loop.cuts[i];
            }
            if (profile.inner[k] == kNone || r < profile.inner[k]) {
                profile.inner[k] = r;
                profile.innerCut[k] = loop.cuts[i];
            }
        }
    }
}

using Pieces = std::map<int, std::vector<Loop>>;

Pieces piecesOf(const Trial& trial) {
    Pieces pieces;
    if (!trial.stock) return pieces;
    StockCursor cursor(trial.stock, StockCursor::Detail::Envelope);
    cursor.seek(static_cast<std::uint32_t>(trial.timeline.moves.size()), 0);
    for (Loop& loop : cursor.section()) pieces[loop.piece].push_back(std::move(loop));
    return pieces;
}

Places placesFor(const Pieces& a, const Pieces& b) {
    double from = std::numeric_limits<double>::infinity(), to = -from;
    for (const Pieces* pieces : {&a, &b}) {
        for (const auto& [piece, loops] : *pieces) {
            for (const Loop& loop : loops) {
                for (const Point& p : loop.points) {
                    from = std::min(from, p.z);
                    to = std::max(to, p.z);
                }
            }
        }
    }
    if (!(to > from)) return {};
    return {from, static_cast<std::size_t>(std::ceil((to - from) / kStepMm))};
}

Profile profileOf(const Pieces& pieces, int piece, const Places& places) {
    Profile profile;
    profile.outer.assign(places.count, kNone);
    profile.inner.assign(places.count, kNone);
    profile.outerCut.assign(places.count, kUncut);
    profile.innerCut.assign(places.count, kUncut);
    const auto found = pieces.find(piece);
    if (found == pieces.end()) return profile;
    for (const Loop& loop : found->second) draw(loop, places, profile);
    return profile;
}

// Runs of places where one side of a piece stands elsewhere by the same sign.
class SideChanges {
public:
    SideChanges(SurfaceChange::Side side, int piece, const Places& places, const Trial& after,
                std::vector<SurfaceChange>& out)
        : side_(side), piece_(piece), places_(places), after_(after), out_(out) {}

    void find(const std::vector<double>& before, const std::vector<double>& now, const std::vector<CutId>& cuts) {
        const std::size_t first = out_.size();
        for (std::size_t i = 0; i < places_.count; ++i) {
            const double more = moreAt(before[i], now[i]);
            if (std::abs(more) <= kSameRadiusMm) {
                end();
            } else {
                if (open_ && (more > 0) != (change_.amountMm > 0)) end();
                add(i, more, before[i], now[i], now[i] == kNone ? kUncut : cuts[i]);
            }
        }
        end();
        std::reverse(out_.begin() + static_cast<std::ptrdiff_t>(first), out_.end());  // the front end first
    }

private:
    // Metal more than before. Where one has none, all the other's counts.
    double moreAt(double before, double now) const {
        const bool outside = side_ == SurfaceChange::Side::Outside;
        if (before == kNone && now == kNone) return 0;
        if (before == kNone) return outside ? now : 0;  // told by the outside
        if (now == kNone) return outside ? -before : 0;
        return outside ? now - before : before - now;
    }

    void add(std::size_t i, double more, double was, double is, CutId cut) {
        const double z = places_.z(i);
        const double r = is == kNone ? was : is;
        if (!open_) {
            change_ = {side_, piece_, z - kStepMm / 2, z, 0, {}, false, 0, kNoBlock};
            lowest_ = highest_ = r;
            area_ = 0;
            open_ = true;
        }
        change_.toZ = z + kStepMm / 2;
        area_ += more * kStepMm;
        for (const double level : {was == kNone ? 0 : was, is == kNone ? 0 : is}) {
            lowest_ = std::min(lowest_, level);
            highest_ = std::max(highest_, level);
        }
        if (std::abs(more) <= std::abs(change_.amountMm)) return;
        change_.amountMm = more;
        change_.place = {z, r};
        change_.block = isCutHere(cut) && cut < after_.timeline.moves.size()
                            ? after_.shownBlock(after_.timeline.moves[cut].move)
                            : kNoBlock;
    }

    // A step that moves along z takes an area of its height times the way.
    void end() {
        if (!open_) return;
        open_ = false;
        const double wide = change_.toZ - change_.fromZ;
        change_.isFace = std::abs(change_.amountMm) > wide && highest_ - lowest_ > kSmallestStepR;
        if (change_.isFace) change_.alongMm = area_ / (highest_ - lowest_);
        out_.push_back(change_);
    }

    SurfaceChange::Side side_;
    int piece_;
    const Places& places_;
    const Trial& after_;
    std::vector<SurfaceChange>& out_;
    bool open_ = false;
    SurfaceChange change_;
    double lowest_ = 0, highest_ = 0, area_ = 0;
};

void compareSurfaces(const Trial& before, const Trial& after, Comparison& result) {
    const Pieces was = piecesOf(before), is = piecesOf(after);
    const Places places = placesFor(was, is);
    std::vector<int> all;
    for (const Pieces* pieces : {&was, &is}) {
        for (const auto& [piece, loops] : *pieces) all.push_back(piece);
    }
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    for (const int piece : all) {
        const Profile old = profileOf(was, piece, places), now = profileOf(is, piece, places);
        using Side = SurfaceChange::Side;
        SideChanges(Side::Outside, piece, places, after, result.surfaces).find(old.outer, now.outer, now.outerCut);
        SideChanges(Side::Inside, piece, places, after, result.surfaces).find(old.inner, now.inner, now.innerCut);
    }
}

std::string lineText(const Program& program, const Finding& finding) {
    const SourceSpan& span = finding.span;
    if (span.file != SourceSpan::File::Program || span.line == 0) return "(set-up)";
    const BlockId block = program.blockAt(span.part, span.line);
    if (block == kNoBlock) return {};
    return std::string(program.textOf(program.blocks[block]));
}

using FindingKey = std::pair<std::string, std::string>;
FindingKey keyOf(const Program& program, const Finding& finding) {
    return {finding.code, lineText(program, finding)};
}

// Those of `from` that have no partner in `other`, each partner taken once.
void unmatched(const Trial& from, const Trial& other, bool gone, std::vector<FindingChange>& out) {
    std::map<FindingKey, int> partners;
    for (const Finding& finding : other.findings) ++partners[keyOf(other.program, finding)];
    for (const Finding& finding : from.findings) {
        if (--partners[keyOf(from.program, finding)] < 0) out.push_back({gone, finding});
    }
}

double expectedOf(const GaugedDimension& dimension) {
    return dimension.state == GaugedDimension::State::NotFound ? std::numeric_limits<double>::quiet_NaN()
                                                               : dimension.expected();
}

void compareSizes(const Trial& before, const Trial& after, Comparison& result) {
    const std::vector<GaugedDimension>& was = before.gauged.dimensions;
    std::vector<bool> taken(was.size(), false);
    for (std::size_t i = 0; i < after.gauged.dimensions.size(); ++i) {
        const GaugedDimension& now = after.gauged.dimensions[i];
        for (std::size_t k = 0; k < was.size(); ++k) {
            if (taken[k] || was[k].name != now.name) continue;
            taken[k] = true;
            result.sizes.push_back({i, now.name, expectedOf(was[k]), expectedOf(now), was[k].state, now.state});
            break;
        }
    }
}

// Greatest over all tools.
double peakOf(const LoadResult& loads, LoadPeak ToolLoad::*which) {
    double peak = 0;
    for (const ToolLoad& tool : loads.tools) peak = std::max(peak, static_cast<double>((tool.*which).value));
    return peak;
}

bool sameBlank(const Stock& a, const Stock& b) {
    return a.shape == b.shape && a.outerRadius == b.outerRadius && a.boreRadius == b.boreRadius && a.backZ == b.backZ &&
           a.frontZ == b.frontZ && a.acrossFlats == b.acrossFlats && a.eccentricity == b.eccentricity;
}

}  // namespace

Comparison compareTrials(const Trial& before, const Trial& after) {
    Comparison result;
    compareSurfaces(before, after, result);
    compareSizes(before, after, result);
    unmatched(before, after, true, result.findings);
    unmatched(after, before, false, result.findings);
    result.cycleBeforeS = before.timeline.cycleTimeS;
    result.cycleAfterS = after.timeline.cycleTimeS;
    result.removedBeforeMm3 = before.removedVolumeMm3;
    result.removedAfterMm3 = after.removedVolumeMm3;
    result.peakKwBefore = peakOf(before.loads, &ToolLoad::powerKw);
    result.peakKwAfter = peakOf(after.loads, &ToolLoad::powerKw);
    result.peakNBefore = peakOf(before.loads, &ToolLoad::cuttingN);
    result.peakNAfter = peakOf(after.loads, &ToolLoad::cuttingN);
    result.piecesBefore = before.stock ? static_cast<int>(before.stock->severances().size()) : 0;
    result.piecesAfter = after.stock ? static_cast<int>(after.stock->severances().size()) : 0;
    result.sameBlank = sameBlank(before.setup.stock, after.setup.stock);
    return result;
}

}  // namespace firstoff
