// Notation. p runs along one outline in steps; q is the place of the other outline nearest to it, d = |p - q|. Points
// of the outline that is made and of the model are both looked at, since a thin burr shows only on the one and a thin
// slit only on the other. Metal is too much where p is of the made outline and lies outside the model, or of the model
// and lies inside what was made.
#include "sim/training/part_difference.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/tables.h"
#include "sim/training/finished_part.h"

namespace firstoff {

namespace {

using Surface = OutlineDeparture::Surface;

constexpr double kStepMm = 0.05;  // along an outline, of the places that are compared
// Surfaces steeper than this, r over z, count as faces: 67.5 degrees to the axis.
constexpr double kFaceSlope = 2.4142;
// Stretches of the same surface nearer than this are told as one.
constexpr double kSameStretchMm = 0.2;
// Leads of threads are programmed figures; beyond rounding they are others.
constexpr double kSameLeadMm = 1e-6;
// A pass of a thread as deep as the last one, which may only spring.
constexpr double kSameDepthMm = 1e-3;

Surface surfaceAt(const OutlineEdge& edge, Point at) {
    const Point way = directionAt(edge, at);
    if (std::abs(way.r) > kFaceSlope * std::abs(way.z)) return Surface::Face;
    return way.z < 0 ? Surface::Outside : Surface::Bore;
}

// A line of sight that leans a little meets no corner by chance.
bool isInside(const PartOutline& outline, Point p) {
    const Point lean{0.012345, std::sqrt(1 - 0.012345 * 0.012345)};
    int out = 0;
    for (const OutlineHit& hit :
         outline.hits(p, lean, 0, 2 * (outline.box().rMax + outline.box().zMax - outline.box().zMin) + 1))
        out += hit.leavesMetal ? 1 : -1;
    return out > 0;
}

class Departing {
public:
    Departing(const Trial& made, double datumZ, double toleranceMm, std::vector<OutlineDeparture>& out)
        : made_(made), datumZ_(datumZ), toleranceMm_(toleranceMm), out_(out) {}

    void along(const PartOutline& outline, const PartOutline& other, bool ofMade) {
        for (const OutlineEdge& edge : outline.edges()) {
            const auto steps = static_cast<int>(std::ceil(lengthOf(edge) / kStepMm));
            for (int i = 0; i <= steps; ++i)
                look(edge, pointAlong(edge, static_cast<double>(i) / std::max(1, steps)), other, ofMade);
        }
    }

private:
    void look(const OutlineEdge& edge, Point p, const PartOutline& other, bool ofMade) {
        const std::optional<OutlineHit> near = other.nearest(p);
        if (!near || near->t <= toleranceMm_) return;
        const bool more = isInside(other, p) != ofMade;
        OutlineDeparture place;
        place.surface = surfaceAt(edge, p);
        place.fromZ = place.toZ = place.atZ = p.z - datumZ_;
        place.fromX = place.toX = place.atX = 2 * p.r;
        place.mostMm = more ? near->t : -near->t;
        const CutId cut = ofMade ? edge.cut : other.edges()[near->edge].cut;
        if (isCutHere(cut) && cut < made_.timeline.moves.size())
            place.cutBy = made_.program.lineName(made_.shownBlock(made_.timeline.moves[cut].move));
        join(place);
    }

    void join(const OutlineDeparture& place) {
        for (auto d = out_.rbegin(); d != out_.rend(); ++d) {
            if (!belongs(*d, place)) continue;
            d->fromZ = std::min(d->fromZ, place.fromZ);
            d->toZ = std::max(d->toZ, place.toZ);
            d->fromX = std::min(d->fromX, place.fromX);
            d->toX = std::max(d->toX, place.toX);
            if (std::abs(place.mostMm) <= std::abs(d->mostMm)) return;
            d->mostMm = place.mostMm;
            d->atZ = place.atZ;
            d->atX = place.atX;
            d->cutBy = place.cutBy;
            return;
        }
        out_.push_back(place);
    }

    static bool belongs(const OutlineDeparture& d, const OutlineDeparture& place) {
        if (d.surface != place.surface || (d.mostMm > 0) != (place.mostMm > 0)) return false;
        return place.atZ > d.fromZ - kSameStretchMm && place.atZ < d.toZ + kSameStretchMm &&
               place.atX > d.fromX - 2 * kSameStretchMm && place.atX < d.toX + 2 * kSameStretchMm;
    }

    const Trial& made_;
    double datumZ_, toleranceMm_;
    std::vector<OutlineDeparture>& out_;
};

// One thread as it was cut, of all its passes.
struct ThreadCut {
    double lead = 0;
    int tool = -1;
    double depthR = 0;  // of the tip in the deepest pass, radius, work
    double fromZ = 0, toZ = 0;
    std::vector<double> startAngles;  // of the deepest passes
    bool inside = false;
};

bool deeper(const ThreadCut& thread, double r) {
    return thread.inside ? r > thread.depthR + kSameDepthMm : r < thread.depthR - kSameDepthMm;
}

void addPass(const Trial& trial, const Move& move, std::vector<ThreadCut>& threads) {
    const MoveExtra& extra = trial.toolpath.extras[move.extra];
    const Point shift = trial.toolpath.programmedShift(move);
    const Point from = move.from + shift, to = move.to + shift;
    const int tool = trial.toolpath.calls[move.call].toolIndex;
    auto thread = std::find_if(threads.begin(), threads.end(), [&](const ThreadCut& t) {
        return t.tool == tool && std::abs(t.lead - extra.lead) <= kSameLeadMm;
    });
    const double low = std::min(from.z, to.z), high = std::max(from.z, to.z);
    if (thread == threads.end()) {
        const bool inside = tool >= 0 && standsAlongZ(trial.setup.tools[static_cast<std::size_t>(tool)]);
        threads.push_back({extra.lead, tool, to.r, low, high, {extra.startAngle}, inside});
        return;
    }
    if (deeper(*thread, to.r)) {
        thread->depthR = to.r;
        thread->startAngles.clear();
    }
    if (std::abs(to.r - thread->depthR) <= kSameDepthMm) thread->startAngles.push_back(extra.startAngle);
    thread->fromZ = std::min(thread->fromZ, low);
    thread->toZ = std::max(thread->toZ, high);
}

std::vector<ThreadCut> threadsOf(const Trial& trial) {
    std::vector<ThreadCut> threads;
    for (const Move& move : trial.toolpath.moves) {
        if (move.kind == MoveKind::Thread && move.extra != kNoExtra) addPass(trial, move, threads);
    }
    for (ThreadCut& thread : threads) {
        std::vector<double>& angles = thread.startAngles;
        std::sort(angles.begin(), angles.end());
        constexpr double kSameAngle = 1e-3;  // rad; starts of a thread stand many degrees apart
        angles.erase(std::unique(angles.begin(), angles.end(), [](double a, double b) { return b - a < kSameAngle; }),
                     angles.end());
    }
    return threads;
}

std::string threadInWords(const ThreadCut& thread) {
    return say("lead {:g} mm, X{:.3f} at its deepest, to Z{:.3f}", thread.lead, 2 * thread.depthR, thread.fromZ);
}

// Where the run-in begins is free, as long as it is no later than the model's or in front of the part.
bool sameThread(const ThreadCut& made, const ThreadCut& model, double frontZ, double toleranceMm) {
    const double alongMm = std::max(toleranceMm, model.lead / 2);
    return std::abs(made.depthR - model.depthR) <= toleranceMm && std::abs(made.fromZ - model.fromZ) <= alongMm &&
           made.toZ >= std::min(model.toZ, frontZ) - toleranceMm && made.startAngles.size() == model.startAngles.size();
}

void compareThreads(const Trial& made, const Trial& model, double frontZ, double toleranceMm, PartDifference& result) {
    std::vector<ThreadCut> cut = threadsOf(made);
    for (const ThreadCut& wanted : threadsOf(model)) {
        const auto found = std::find_if(cut.begin(), cut.end(), [&](const ThreadCut& t) {
            return std::abs(t.lead - wanted.lead) <= kSameLeadMm && t.inside == wanted.inside;
        });
        if (found == cut.end()) {
            result.threads.push_back(say("A thread is missing: {}.", threadInWords(wanted)));
            continue;
        }
        if (!sameThread(*found, wanted, frontZ, toleranceMm)) {
            result.threads.push_back(
                say("The thread was cut with {}; it should be {}.", threadInWords(*found), threadInWords(wanted)));
        }
        cut.erase(found);
    }
    for (const ThreadCut& extra : cut) {
        result.threads.push_back(say("A thread was cut that does not belong there: {}.", threadInWords(extra)));
    }
}

std::size_t fallenPieces(const Trial& trial) {
    return trial.stock ? trial.stock->severances().size() : 0;
}

// The greatest first; of those alike to a micrometre the longest.
void sortByAmount(std::vector<OutlineDeparture>& departures) {
    const auto rank = [](const OutlineDeparture& d) {
        constexpr double kMicrometres = 1000;
        return std::pair(std::round(kMicrometres * std::abs(d.mostMm)), d.toZ - d.fromZ + (d.toX - d.fromX) / 2);
    };
    std::stable_sort(departures.begin(), departures.end(),
                     [&](const OutlineDeparture& a, const OutlineDeparture& b) { return rank(a) > rank(b); });
}

bool within(double from, double to, double outerFrom, double outerTo, double reach) {
    return from >= outerFrom - reach && to <= outerTo + reach;
}

// Where a surface stands elsewhere, its ends meet their neighbours elsewhere too; those are not told beside it.
bool isEndOf(const OutlineDeparture& d, const OutlineDeparture& larger) {
    constexpr double kReach = 2;  // times the departure: as far as a corner between them can carry it
    const double reach = kReach * std::abs(larger.mostMm);
    return (d.mostMm > 0) == (larger.mostMm > 0) && within(d.fromZ, d.toZ, larger.fromZ, larger.toZ, reach) &&
           within(d.fromX, d.toX, larger.fromX, larger.toX, 2 * reach);
}

// Sorted by amount.
void leaveOutEnds(std::vector<OutlineDeparture>& departures) {
    std::vector<OutlineDeparture> kept;
    for (const OutlineDeparture& d : departures) {
        const bool end =
            std::any_of(kept.begin(), kept.end(), [&](const OutlineDeparture& k) { return isEndOf(d, k); });
        if (!end) kept.push_back(d);
    }
    departures = std::move(kept);
}

}  // namespace

PartDifference differenceOf(const Trial& made, const Trial& model, double toleranceMm) {
    PartDifference result;
    const int piece = pieceOfPart(model);
    // What was cut off keeps its number only where as much was cut off before it.
    const PartOutline wanted = finishedOutline(model, piece);
    const PartOutline outline = finishedOutline(made, piece == 0 ? 0 : pieceOfPart(made));
    if (wanted.empty()) return result;
    result.compared = made.stock != nullptr;
    const bool cutOff = fallenPieces(made) > 0;
    if (piece > 0 && !cutOff) {
        result.pieces.push_back(tr("The part was not cut off from the bar."));
        return result;
    }
    if (outline.empty()) {
        result.pieces.push_back(tr("Nothing of the part is left."));
        return result;
    }
    if (piece == 0 && cutOff) result.pieces.push_back(tr("A piece was cut off that should stay in the chuck."));
    const double datumZ = sectionDatum(model).z;
    Departing departing(made, datumZ, toleranceMm, result.outline);
    departing.along(outline, wanted, true);
    departing.along(wanted, outline, false);
    sortByAmount(result.outline);
    leaveOutEnds(result.outline);
    compareThreads(made, model, wanted.box().zMax - datumZ, toleranceMm, result);
    return result;
}

std::string inWords(const OutlineDeparture& d) {
    const double amount = std::abs(d.mostMm);
    const bool more = d.mostMm > 0;
    std::string text;
    if (d.surface == OutlineDeparture::Surface::Face) {
        text = more ? say("Face or shoulder near Z{:.3f}, X{:.3f} to X{:.3f}: up to {:.3f} mm of metal too much.",
                          d.atZ, d.toX, d.fromX, amount)
                    : say("Face or shoulder near Z{:.3f}, X{:.3f} to X{:.3f}: up to {:.3f} mm of metal too little.",
                          d.atZ, d.toX, d.fromX, amount);
    } else if (d.surface == OutlineDeparture::Surface::Outside) {
        text = more ? say("Outside, Z{:.3f} to Z{:.3f}: up to {:.3f} mm too large in diameter, near X{:.3f}.", d.toZ,
                          d.fromZ, 2 * amount, d.atX)
                    : say("Outside, Z{:.3f} to Z{:.3f}: up to {:.3f} mm too small in diameter, near X{:.3f}.", d.toZ,
                          d.fromZ, 2 * amount, d.atX);
    } else {
        text = more ? say("Bore, Z{:.3f} to Z{:.3f}: up to {:.3f} mm too small in diameter, near X{:.3f}.", d.toZ,
                          d.fromZ, 2 * amount, d.atX)
                    : say("Bore, Z{:.3f} to Z{:.3f}: up to {:.3f} mm too large in diameter, near X{:.3f}.", d.toZ,
                          d.fromZ, 2 * amount, d.atX);
    }
    if (!d.cutBy.empty()) {
        text += ' ';
        text += say("That surface was cut by {}.", d.cutBy);
    }
    return text;
}

}  // namespace firstoff
