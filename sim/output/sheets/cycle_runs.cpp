#include "sim/output/sheets/cycle_runs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/control/cycle_orders.h"

namespace firstoff {

namespace {

bool repeatsByItself(Order order) {
    switch (order) {
        case Order::TurningPass:
        case Order::ThreadingPass:
        case Order::FacingPass:
        case Order::Drill:
        case Order::DrillWithDwell:
        case Order::PeckDrill:
        case Order::Tap:
        case Order::Bore:
            return true;
        default:
            return false;
    }
}

bool isCycle(Order order) {
    return isOneShotCycle(order) || repeatsByItself(order);
}

// The cycle that a block names itself; Unknown where it only repeats one.
Order namedCycle(const Trial& trial, BlockId id) {
    const Block& block = trial.program.blocks[id];
    for (const Word* word = trial.program.begin(block); word != trial.program.end(block); ++word) {
        if (word->letter != 'G' || word->form != Word::Form::Number) continue;
        const auto tenths = static_cast<int>(std::lround(10 * word->value));
        const CodeEntry* entry = codeEntry('G', tenths, trial.setup.control.codeSystem);
        if (entry != nullptr && isCycle(entry->order)) return entry->order;
    }
    return Order::Unknown;
}

// Where the block leaves it to the cycle in force.
Order orderInForce(const Trial& trial, const Move& move) {
    const CodeEntry* entry = codeEntry('G', 10 * trial.toolpath.modals[move.modal].motion, CodeSystem::A);
    return entry == nullptr ? Order::Unknown : entry->order;
}

CyclePass passOf(const Trial& trial, std::uint32_t first, std::uint32_t end) {
    CyclePass pass;
    pass.first = first;
    pass.end = end;
    bool level = false;
    for (std::uint32_t i = first; i < end; ++i) {
        const Move& move = trial.toolpath.moves[i];
        if (!isFed(move)) continue;
        if (!level) pass.level = move.to + trial.toolpath.programmedShift(move);
        level = true;
        if (move.extra != kNoExtra) pass.threadDepth = trial.toolpath.extras[move.extra].threadDepth;
        pass.alongProfile |= move.block != move.cycleBlock;
    }
    return pass;
}

class RunsOfTrial {
public:
    explicit RunsOfTrial(const Trial& trial) : t_(trial), moves_(trial.toolpath.moves) {}

    std::vector<CycleRun> run() {
        for (std::uint32_t i = 0; i < moves_.size();) {
            const std::uint32_t end = endOfPass(i);
            if (moves_[i].cycleBlock == kNoBlock) {
                open_ = false;
            } else {
                take(i, end);
            }
            i = end;
        }
        return std::move(runs_);
    }

private:
    std::uint32_t endOfPass(std::uint32_t i) const {
        std::uint32_t end = i + 1;
        while (end < moves_.size() && moves_[end].cycleBlock == moves_[i].cycleBlock &&
               moves_[end].pass == moves_[i].pass && !callsAgain(end)) {
            ++end;
        }
        return end;
    }

    // Whether the cycle is carried out once more from this move on, with nothing between: a step of its own block, but
    // not the way back from a profile.
    bool callsAgain(std::uint32_t i) const {
        const BlockId block = moves_[i].cycleBlock;
        if (block == kNoBlock || moves_[i - 1].block != block) return false;
        const std::vector<Step>& steps = t_.toolpath.steps;
        const auto step = std::lower_bound(steps.begin(), steps.end(), i,
                                           [](const Step& s, std::uint32_t move) { return s.firstMove < move; });
        for (auto at = step; at != steps.end() && at->firstMove == i; ++at) {
            if (at->block == block) return true;
        }
        return false;
    }

    void take(std::uint32_t first, std::uint32_t end) {
        const BlockId block = moves_[first].cycleBlock;
        const bool sameCall = open_ && block == last_ && moves_[first].pass > 1;
        const Order named = namedCycle(t_, block);
        const bool repeats = open_ && block != last_ && named == Order::Unknown && repeatsByItself(order_);
        if (!sameCall && !repeats) begin(block, named != Order::Unknown ? named : orderInForce(t_, moves_[first]));
        open_ = true;
        last_ = block;
        if (again_) return;
        runs_.back().lastBlock = block;
        runs_.back().passes.push_back(passOf(t_, first, end));
    }

    void begin(BlockId block, Order order) {
        order_ = order;
        const auto before =
            std::find_if(runs_.begin(), runs_.end(), [&](const CycleRun& run) { return run.block == block; });
        again_ = before != runs_.end();
        if (again_) {
            ++before->times;
            return;
        }
        CycleRun run;
        run.block = run.lastBlock = block;
        run.order = order;
        runs_.push_back(std::move(run));
    }

    const Trial& t_;
    const std::vector<Move>& moves_;
    std::vector<CycleRun> runs_;
    bool open_ = false, again_ = false;
    BlockId last_ = kNoBlock;
    Order order_ = Order::Unknown;
};

}  // namespace

bool isFed(const Move& move) {
    return move.kind == MoveKind::Feed || move.kind == MoveKind::ArcClockwise ||
           move.kind == MoveKind::ArcAnticlockwise || move.kind == MoveKind::Thread;
}

std::vector<CycleRun> cycleRuns(const Trial& trial) {
    return RunsOfTrial(trial).run();
}

std::string blockName(const Program& program, BlockId block) {
    if (block == kNoBlock || block >= program.blocks.size()) return "–";
    const std::int32_t number = program.blocks[block].sequenceNumber;
    return number >= 0 && program.isOwn(block) ? fmt::format("N{}", number) : program.lineName(block);
}

}  // namespace firstoff
