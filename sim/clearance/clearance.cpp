#include "sim/clearance/clearance.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/tolerances.h"
#include "sim/clearance/body_pairs.h"
#include "sim/clearance/encounters.h"
#include "sim/clearance/margins.h"
#include "sim/clearance/move_gauge.h"
#include "sim/clearance/not_modelled.h"
#include "sim/stock/worker_team.h"

namespace firstoff {

namespace {

constexpr double kInf = std::numeric_limits<double>::infinity();
// Moves measured one after the other by one worker. Bounds are carried from move to move within them, so results
// depend on this number, by less than kNearnessMm, and it on the length of the program alone: some for each worker,
// not so many that each starts afresh too often.
std::size_t batchOf(std::size_t moves) {
    return std::clamp<std::size_t>(moves / 32, 32, 8192);
}
// How far beyond what must be known a gap is followed up, so that the bound it leaves lasts for some moves.
constexpr double kFurtherMm = 4;
// By how much more the gap to metal that a move takes off may be expected to grow: others within it are measured first.
constexpr double kInMetalMm = 0.3;
// What a move that only leaves may be nearer than: it starts where a feed ended.
constexpr double kLeavingMm = 0.01;

// What one worker finds out about a batch.
struct Batch {
    std::vector<Clearance> perMove;
    std::vector<Sighting> sightings;
    std::vector<PairChecked> pairs;  // per pair watched: its smallest
    double stepErrorMm = 0;
    std::vector<MarginSearch::Table> margins;
};

class Check {
public:
    Check(const MachineBodies& bodies, const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
          const std::shared_ptr<const StockHistory>& stock)
        : bodies_(bodies),
          timeline_(timeline),
          setup_(setup),
          stock_(stock),
          shapes_(bodies, setup),
          ways_(timeline, toolpath, setup, bodies),
          pairs_(pairsToWatch(bodies, setup, timeline)) {
        if (stock_) reaches_ = cutReaches(timeline, toolpath, setup, *stock_);
        reaches_.resize(timeline.moves.size());
        noteFirstCuts(toolpath);
    }

    const std::vector<BodyPair>& pairs() const { return pairs_; }
    const MachineWays& ways() const { return ways_; }

    Batch measure(std::size_t first, std::size_t end, const ClearanceOptions& options) const;

private:
    struct State {
        MoveGauge& gauge;
        Batch& batch;
        std::vector<double> bounds;  // per pair: no nearer than this where everything stands now
        double followMm = 0;         // as ClearanceOptions
        int toolIndex = -2;          // in use on the move before
        std::vector<PairMotion> motions = {};
    };
    void noteFirstCuts(const Toolpath& toolpath);
    void measureMove(std::size_t index, State& state) const;
    double limitOf(const BodyPair& pair, const MachineWay& way) const;
    bool isEdgeInMetal(const BodyPair& pair, const MachineWay& way) const;
    void see(std::size_t index, std::size_t pair, const PairGap& gap, State& state) const;

    const MachineBodies& bodies_;
    const Timeline& timeline_;
    const Setup& setup_;
    const std::shared_ptr<const StockHistory>& stock_;
    GaugeShapes shapes_;
    MachineWays ways_;
    std::vector<BodyPair> pairs_;
    std::vector<CutReach> reaches_;
    std::vector<std::uint32_t> firstCuts_;  // per timed move: the first of its tool call that takes off metal
    std::size_t firstCut_ = 0;              // of all
};

void Check::noteFirstCuts(const Toolpath& toolpath) {
    const auto moves = static_cast<std::uint32_t>(timeline_.moves.size());
    std::vector<std::uint32_t> ofCall(toolpath.calls.size(), moves);
    firstCut_ = moves;
    firstCuts_.resize(moves);
    const auto callOf = [&](std::uint32_t i) { return toolpath.moves[timeline_.moves[i].move].call; };
    for (std::uint32_t i = moves; i-- > 0;) {
        if (stock_ && double{stock_->cuts()[i].deepestMm} > tolerance::kTouchMm) {
            ofCall[callOf(i)] = i;
            firstCut_ = i;
        }
    }
    for (std::uint32_t i = 0; i < moves; ++i) firstCuts_[i] = ofCall[callOf(i)];
}

// The distance that is too near for a pair on a way.
double Check::limitOf(const BodyPair& pair, const MachineWay& way) const {
    if (pair.still) return 0;
    const bool own = pair.other == 0 && isInUse(bodies_.bodies[pair.body], way);
    return way.feeds() || own ? setup_.nearMiss.feedMm : setup_.nearMiss.rapidMm;
}

bool Check::isEdgeInMetal(const BodyPair& pair, const MachineWay& way) const {
    const MachineBody& body = bodies_.bodies[pair.body];
    return pair.other == 0 && body.kind == BodyKind::Edge && isInUse(body, way);
}

void Check::see(std::size_t index, std::size_t pairIndex, const PairGap& gap, State& state) const {
    const BodyPair& pair = pairs_[pairIndex];
    const MachineWay& way = state.gauge.way();
    Sighting s;
    s.timedMove = static_cast<std::uint32_t>(index);
    s.pair = static_cast<std::uint32_t>(pairIndex);
    s.gap = gap;
    s.limitMm = limitOf(pair, way);
    if (gap.gap <= 0) {
        s.code = contactCode(bodies_.bodies[pair.body], bodies_.bodies[pair.other], way);
    } else {
        if (!way.swings() && !way.feeds() && gap.gap > setup_.nearMiss.feedMm &&
            state.gauge.gapAtStart(pair) <= gap.gap + kLeavingMm) {
            return;
        }
        s.nearestAt = gap.nearestAt ? *gap.nearestAt : state.gauge.nearestAt(pair);
    }
    state.batch.sightings.push_back(s);
}

void Check::measureMove(std::size_t index, State& state) const {
    const MachineWay& way = state.gauge.way();
    Clearance smallest;
    smallest.gapMm = std::numeric_limits<float>::infinity();
    double least = kInf;
    std::vector<std::pair<std::size_t, PairGap>> inMetal;  // to be looked at again, with the metal as it goes
    double leastInMetal = kInf;
    std::vector<char> done(pairs_.size());
    const auto take = [&](std::size_t p, const PairGap& gap) {
        const BodyPair& pair = pairs_[p];
        PairChecked& checked = state.batch.pairs[p];
        if (gap.gap < checked.gapMm) {
            checked.gapMm = static_cast<float>(gap.gap);
            checked.timedMove = index;
            checked.exact = gap.gap < gap.knownTo;
        }
        if (gap.gap <= limitOf(pair, way)) see(index, p, gap, state);
        if (pair.still || gap.gap >= least) return;
        least = gap.gap;
        smallest.gapMm = static_cast<float>(gap.gap);
        smallest.body = pair.body;
        smallest.other = pair.other;
        smallest.place = gap.place;
    };
    const auto measure = [&](std::size_t p, bool swings, double wanted) {
        done[p] = 1;
        const BodyPair& pair = pairs_[p];
        wanted = std::max(std::min(wanted, state.followMm), limitOf(pair, way)) + kFurtherMm;
        PairGap gap = state.gauge.measure(pair, wanted);
        gap.knownTo = wanted;
        state.bounds[p] = swings || isEdgeInMetal(pair, way) ? -kInf : gap.gap;
        if (pair.other == 0 && state.gauge.cuts() && gap.gap <= wanted) {
            inMetal.emplace_back(p, gap);
            leastInMetal = std::min(leastInMetal, gap.gap);
        } else {
            take(p, gap);
        }
    };
    if (way.toolIndex != state.toolIndex) std::fill(state.bounds.begin(), state.bounds.end(), -kInf);
    state.toolIndex = way.toolIndex;
    // Bounds after the way; the nearest goes first, so that the others need not be followed far.
    std::vector<PairMotion>& motions = state.motions;
    motions.resize(pairs_.size());
    std::size_t nearest = pairs_.size();
    for (std::size_t p = 0; p < pairs_.size(); ++p) {
        motions[p] = motionOf(pairs_[p], bodies_, way);
        double& bound = state.bounds[p];
        bound = motions[p].swings ? state.gauge.boundOfSwing(pairs_[p]) : bound - motions[p].travelMm;
        // Without a table [turret] only the tool in use is where its body says.
        const int station = bodies_.bodies[pairs_[p].body].station;
        if (!setup_.turret && station > 0 && station != way.station) motions[p].moves = false;
        // What is meant to be in the metal is looked at only where there is another way than the one that was cut.
        if (isEdgeInMetal(pairs_[p], way) && !way.straightInstead) motions[p].moves = false;
        if (motions[p].moves && (nearest == pairs_.size() || bound < state.bounds[nearest])) nearest = p;
        if (!motions[p].moves && !(pairs_[p].still && index == 0)) done[p] = 1;
    }
    if (nearest < pairs_.size()) measure(nearest, motions[nearest].swings, least);
    // The metal that a move takes off makes the gap to it larger than it is at first, by how much is known only in the
    // end: the others are followed a little further, and those left out looked at again.
    for (const bool last : {false, true}) {
        for (std::size_t p = 0; p < pairs_.size(); ++p) {
            if (done[p]) continue;
            const double wanted = pairs_[p].still ? 0 : last ? least : std::min(least, leastInMetal + kInMetalMm);
            if (state.bounds[p] <= std::max(wanted, limitOf(pairs_[p], way))) measure(p, motions[p].swings, wanted);
        }
        // The nearest first: of the others only what may come nearer still, or too near, is worth following.
        std::stable_sort(inMetal.begin(), inMetal.end(),
                         [](const auto& a, const auto& b) { return a.second.gap < b.second.gap; });
        for (const auto& [p, gap] : inMetal) {
            if (gap.gap > std::max(least, limitOf(pairs_[p], way))) {
                take(p, gap);
                continue;
            }
            PairGap whole = state.gauge.measureWhileCutting(pairs_[p], gap);
            whole.knownTo = gap.knownTo;
            take(p, whole);
        }
        inMetal.clear();
    }
    for (std::size_t p = 0; p < pairs_.size(); ++p) {
        if (!motions[p].moves || done[p] || state.bounds[p] >= state.batch.pairs[p].gapMm) continue;
        state.batch.pairs[p].gapMm = static_cast<float>(state.bounds[p]);
        state.batch.pairs[p].timedMove = index;
        state.batch.pairs[p].exact = false;
    }
    state.batch.perMove.push_back(smallest);
}

Batch Check::measure(std::size_t first, std::size_t end, const ClearanceOptions& options) const {
    Batch batch;
    batch.pairs.resize(pairs_.size());
    for (PairChecked& pair : batch.pairs) pair.gapMm = std::numeric_limits<float>::infinity();
    MoveGauge gauge(shapes_, ways_, stock_, reaches_);
    MarginSearch margins(shapes_, pairs_, gauge, firstCuts_, firstCut_);
    State state{gauge, batch, std::vector<double>(pairs_.size(), -kInf), options.followMm};
    for (std::size_t i = first; i < end; ++i) {
        if (options.stop.stop_requested()) break;
        gauge.start(i);
        measureMove(i, state);
        // With the metal that the move leaves, to which the check may have gone on already.
        if (options.margins) margins.take(i);
    }
    batch.margins = margins.tables();
    batch.stepErrorMm = gauge.stepErrorMm();
    return batch;
}

// What a gap may be below the true one: shapes that lie around the true ones, the solver, the groups of columns that
// the hull of the billet takes together (with the halves of a column at both ends), and the steps in which metal goes.
double errorBound(const MachineBodies& bodies, bool billet, const std::vector<Batch>& batches) {
    double shape = 0, step = kMetalStepMm;
    for (const MachineBody& body : bodies.bodies) shape = std::max(shape, body.errorMm);
    for (const Batch& batch : batches) step = std::max(step, batch.stepErrorMm);
    constexpr double kColumnMm = 0.005;  // coarsest pitch of a part under 300 mm
    const double againstBodies = 2 * (kOutsideMm + shape);
    const double againstBillet = kOutsideMm + shape + BilletHull::kGroupMm + kColumnMm + step;
    return kNearnessMm + (billet ? std::max(againstBodies, againstBillet) : againstBodies);
}

}  // namespace

ClearanceResult checkClearances(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                                const std::shared_ptr<const StockHistory>& stock, const ClearanceOptions& options) {
    ClearanceResult result;
    const auto bodies = std::make_shared<const MachineBodies>(machineBodies(setup));
    result.bodies = bodies;
    const Check check(*bodies, timeline, toolpath, setup, stock);
    const std::size_t moves = timeline.moves.size();
    const std::size_t size = batchOf(moves);
    std::vector<Batch> batches((moves + size - 1) / size);
    WorkerTeam team(options.threads);
    team.share(static_cast<int>(batches.size()), [&](int b) {
        const auto batch = static_cast<std::size_t>(b);
        batches[batch] = check.measure(batch * size, std::min(moves, (batch + 1) * size), options);
    });
    std::vector<Sighting> sightings;
    result.pairs.resize(check.pairs().size());
    for (std::size_t p = 0; p < check.pairs().size(); ++p) {
        result.pairs[p] = {check.pairs()[p].body, check.pairs()[p].other, std::numeric_limits<float>::infinity(), true,
                           0};
    }
    for (const Batch& batch : batches) {
        result.perMove.insert(result.perMove.end(), batch.perMove.begin(), batch.perMove.end());
        sightings.insert(sightings.end(), batch.sightings.begin(), batch.sightings.end());
        for (std::size_t p = 0; p < batch.pairs.size(); ++p) {
            if (batch.pairs[p].gapMm >= result.pairs[p].gapMm) continue;
            result.pairs[p].gapMm = batch.pairs[p].gapMm;
            result.pairs[p].timedMove = batch.pairs[p].timedMove;
            result.pairs[p].exact = batch.pairs[p].exact;
        }
    }
    if (options.stop.stop_requested()) return result;
    result.errorMm = errorBound(*bodies, stock != nullptr, batches);
    // What the cutting has said already, with the depth: a holder in the metal, a tool that indexes into it.
    std::vector<bool> cutSaid(moves);
    for (std::size_t i = 0; stock && i < moves; ++i) {
        const auto touches = [](float depth) { return double{depth} > tolerance::kTouchMm; };
        const bool holder = !stock->holderTouches().empty() && touches(stock->holderTouches()[i]);
        cutSaid[i] = holder || (timeline.moves[i].kind == MoveKind::Index && touches(stock->cuts()[i].deepestMm));
    }
    const TellingContext context{timeline, toolpath, setup, *bodies, check.ways(), check.pairs()};
    Told told = tell(context, sightings, cutSaid);
    result.findings = std::move(told.findings);
    result.encounters = std::move(told.encounters);
    tellNotModelled(timeline, toolpath, setup, *bodies, result);
    if (options.margins) {
        std::vector<std::vector<MarginSearch::Table>> tables;
        for (Batch& batch : batches) tables.push_back(std::move(batch.margins));
        result.margins = marginsFrom(timeline, toolpath, setup, tables);
    }
    return result;
}

}  // namespace firstoff
