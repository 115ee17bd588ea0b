#include "sim/cutting/cutting_load.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <mutex>
#include <utility>

#include "sim/base/say.h"
#include "sim/base/tolerances.h"
#include "sim/base/units.h"
#include "sim/cutting/chip_force.h"
#include "sim/cutting/load_findings.h"
#include "sim/cutting/load_sampling.h"
#include "sim/cutting/mean_load.h"
#include "sim/stock/billet_columns.h"
#include "sim/stock/worker_team.h"

namespace firstoff {

namespace {

bool runsAtFeed(MoveKind kind) {
    return kind == MoveKind::Feed || kind == MoveKind::ArcClockwise || kind == MoveKind::ArcAnticlockwise;
}

// A timed move that takes metal as it is meant to.
struct CuttingMove {
    std::uint32_t timedMove = 0;
    bool inThread = false;
};

class Reckoning {
public:
    Reckoning(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
              const std::shared_ptr<const StockHistory>& stock)
        : timeline_(timeline), toolpath_(toolpath), setup_(setup), stock_(stock) {
        for (const Tool& tool : setup.tools) laws_.push_back(chipLaw(setup.material, tool));
        list();
    }

    const std::vector<CuttingMove>& moves() const { return moves_; }
    int toolOf(std::uint32_t timedMove) const {
        return toolpath_.calls[toolpath_.moves[timeline_.moves[timedMove].move].call].toolIndex;
    }

    // Of moves_[first] to moves_[end - 1]; the cursor goes on from where it is.
    void reckon(std::size_t first, std::size_t end, StockCursor& cursor, std::vector<MoveLoad>& loads) const {
        for (std::size_t i = first; i < end; ++i) {
            const CuttingMove& cutting = moves_[i];
            cursor.seek(cutting.timedMove, 0);
            const TimedMove& timed = timeline_.moves[cutting.timedMove];
            const Cut& cut = stock_->cuts()[cutting.timedMove];
            const ChipLaw& law = laws_[static_cast<std::size_t>(toolOf(cutting.timedMove))];
            loads[i] = cutting.inThread ? meanLoad(timed, toolpath_, setup_, law, cursor.billet(), cut)
                                        : sampleMove(cutting.timedMove, timeline_, toolpath_, setup_, law, cursor,
                                                     {double{cut.removedMm3}, least_});
        }
    }

private:
    void list() {
        const ThreadZone threads = threadZone(timeline_, toolpath_, setup_);
        for (std::uint32_t i = 0; i < timeline_.moves.size(); ++i) {
            const Cut& cut = stock_->cuts()[i];
            if (!(cut.removedMm3 > 0) || toolOf(i) < 0) continue;
            const bool inThread = threads.part(i) != ThreadPart::None;
            const bool feeds = runsAtFeed(timeline_.moves[i].kind) && double{cut.deepestMm} > tolerance::kTouchMm;
            if (!inThread && !feeds) continue;
            moves_.push_back({i, inThread});
            least_ += double{cut.removedMm3};
        }
        constexpr double kSmallShare = 0.05;
        if (!moves_.empty()) least_ *= kSmallShare / static_cast<double>(moves_.size());
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    const Setup& setup_;
    const std::shared_ptr<const StockHistory>& stock_;
    std::vector<ChipLaw> laws_;  // per tool of the set-up
    std::vector<CuttingMove> moves_;
    double least_ = 0;  // see MoveMetal
};

// Cursors that are not in use, so that every worker goes on from where one of them has got to.
class Cursors {
public:
    explicit Cursors(std::shared_ptr<const StockHistory> stock) : stock_(std::move(stock)) {}

    std::unique_ptr<StockCursor> take() {
        const std::lock_guard lock(mutex_);
        if (free_.empty()) return std::make_unique<StockCursor>(stock_, StockCursor::Detail::Envelope);
        std::unique_ptr<StockCursor> cursor = std::move(free_.back());
        free_.pop_back();
        return cursor;
    }
    void giveBack(std::unique_ptr<StockCursor> cursor) {
        const std::lock_guard lock(mutex_);
        free_.push_back(std::move(cursor));
    }

private:
    std::shared_ptr<const StockHistory> stock_;
    std::mutex mutex_;
    std::vector<std::unique_ptr<StockCursor>> free_;
};

void raise(LoadPeak& peak, float value, std::uint32_t sample, std::uint32_t timedMove) {
    if (value > peak.value) peak = {value, sample, timedMove};
}

// Puts the loads of the moves together, in their order.
class Gathering {
public:
    Gathering(const Timeline& timeline, const Toolpath& toolpath, LoadResult& result)
        : timeline_(timeline), toolpath_(toolpath), result_(result), ofCall_(toolpath.calls.size(), -1) {}

    void add(std::uint32_t timedMove, const MoveLoad& load) {
        LoadRun run{timedMove, static_cast<std::uint32_t>(result_.samples.size()),
                    static_cast<std::uint32_t>(load.samples.size()), load.mean};
        result_.samples.insert(result_.samples.end(), load.samples.begin(), load.samples.end());
        result_.runs.push_back(run);
        ToolLoad& tool = toolOf(timedMove);
        tool.energyJ += load.energyJ;
        tool.removedMm3 += load.removedMm3;
        tool.leastPassive |= load.leastPassive;
        for (std::uint32_t i = run.first; i < run.first + run.count; ++i) {
            const LoadSample& s = result_.samples[i];
            raise(tool.cuttingN, s.cuttingMostN, i, timedMove);
            raise(tool.torqueNm, s.torqueMostNm, i, timedMove);
            raise(tool.powerKw, s.powerKw, i, timedMove);
            raise(tool.thicknessMm, s.thicknessMm, i, timedMove);
            raise(tool.removalMm3PerS, s.removalMm3PerS, i, timedMove);
            raise(tool.chipAreaMm2, s.chipAreaMm2, i, timedMove);
        }
    }

private:
    ToolLoad& toolOf(std::uint32_t timedMove) {
        const std::uint16_t call = toolpath_.moves[timeline_.moves[timedMove].move].call;
        int& index = ofCall_[call];
        if (index < 0) {
            index = static_cast<int>(result_.tools.size());
            ToolLoad& tool = result_.tools.emplace_back();
            tool.call = call;
            tool.toolIndex = toolpath_.calls[call].toolIndex;
        }
        return result_.tools[static_cast<std::size_t>(index)];
    }

    const Timeline& timeline_;
    const Toolpath& toolpath_;
    LoadResult& result_;
    std::vector<int> ofCall_;
};

// Sentences about moves that were left out.
class LeftOut {
public:
    explicit LeftOut(const Timeline& timeline) : timeline_(timeline) {}

    void add(std::uint32_t timedMove, MoveLoad::Left left) {
        if (left == MoveLoad::Left::Nothing) return;
        Moves& moves = moves_[static_cast<std::size_t>(left)];
        if (moves.count++ == 0) moves.firstS = timeline_.moves[timedMove].t0;
    }

    std::vector<std::string> sentences() const {
        constexpr const char* kWhy[] = {
            "", later("taken with the spindle standing still: no load is told"),
            later("taken at a feed that is not known: no load is told"),
            later("taken from elsewhere than in front of the edge: loads told there are not complete")};
        std::vector<std::string> result;
        for (std::size_t i = 1; i < std::size(kWhy); ++i) {
            const Moves& moves = moves_[i];
            if (moves.count == 0) continue;
            result.push_back(moves.count == 1
                                 ? say("Loads: metal at {:.1f} s of the cycle is {}.", moves.firstS, tr(kWhy[i]))
                                 : say("Loads: metal in {} moves, the first at {:.1f} s of the cycle, is {}.",
                                       moves.count, moves.firstS, tr(kWhy[i])));
        }
        return result;
    }

private:
    struct Moves {
        int count = 0;
        double firstS = 0;
    };
    const Timeline& timeline_;
    Moves moves_[4];
};

}  // namespace

const LoadRun* LoadResult::runOf(std::uint32_t timedMove) const {
    const auto run = std::lower_bound(runs.begin(), runs.end(), timedMove,
                                      [](const LoadRun& r, std::uint32_t t) { return r.timedMove < t; });
    return run != runs.end() && run->timedMove == timedMove ? &*run : nullptr;
}

LoadSample loadAt(const LoadResult& loads, std::uint32_t timedMove, double fraction) {
    LoadSample result;
    result.fraction = static_cast<float>(fraction);
    const LoadRun* run = loads.runOf(timedMove);
    if (run == nullptr) return result;
    const auto first = loads.samples.begin() + run->first, end = first + run->count;
    if (fraction < double{first->fraction} || fraction > double{(end - 1)->fraction}) return result;
    const auto after =
        std::upper_bound(first, end, fraction, [](double f, const LoadSample& s) { return f < double{s.fraction}; });
    if (after == end) return *(end - 1);
    const LoadSample &a = *(after - 1), &b = *after;
    const float share = static_cast<float>((fraction - double{a.fraction}) / (double{b.fraction} - double{a.fraction}));
    const auto between = [share](float from, float to) { return from + share * (to - from); };
    for (float LoadSample::*figure :
         {&LoadSample::chipAreaMm2, &LoadSample::widthMm, &LoadSample::depthMm, &LoadSample::thicknessMm,
          &LoadSample::cuttingN, &LoadSample::cuttingMostN, &LoadSample::forceZN, &LoadSample::forceRN,
          &LoadSample::torqueNm, &LoadSample::torqueMostNm, &LoadSample::powerKw, &LoadSample::removalMm3PerS,
          &LoadSample::atR, &LoadSample::atZ, &LoadSample::farthestR}) {
        result.*figure = between(a.*figure, b.*figure);
    }
    result.leavesSurface = share < 0.5F ? a.leavesSurface : b.leavesSurface;
    return result;
}

LoadResult reckonLoads(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup,
                       const std::shared_ptr<const StockHistory>& stock, const LoadOptions& options) {
    LoadResult result;
    result.forcesKnown = setup.material.cuts();
    if (!stock) return result;
    const Reckoning reckoning(timeline, toolpath, setup, stock);
    const std::size_t moves = reckoning.moves().size();
    std::vector<MoveLoad> loads(moves);
    // Some for each worker, not so many that cursors spend their time on what others do.
    const std::size_t size = std::clamp<std::size_t>(moves / 16, 4, 4096);
    Cursors cursors(stock);
    WorkerTeam team(options.threads);
    team.share(static_cast<int>((moves + size - 1) / size), [&](int b) {
        if (options.stop.stop_requested()) return;
        std::unique_ptr<StockCursor> cursor = cursors.take();
        const std::size_t first = static_cast<std::size_t>(b) * size;
        reckoning.reckon(first, std::min(moves, first + size), *cursor, loads);
        cursors.giveBack(std::move(cursor));
    });
    if (options.stop.stop_requested()) return result;
    Gathering gathering(timeline, toolpath, result);
    LeftOut leftOut(timeline);
    for (std::size_t i = 0; i < moves; ++i) {
        leftOut.add(reckoning.moves()[i].timedMove, loads[i].left);
        if (!loads[i].samples.empty()) gathering.add(reckoning.moves()[i].timedMove, loads[i]);
    }
    result.notReckoned = leftOut.sentences();
    tellLoads(timeline, toolpath, setup, result);
    return result;
}

}  // namespace firstoff
