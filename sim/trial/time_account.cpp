#include "sim/trial/time_account.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>
#include <string_view>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/motion/spindle_run_up.h"
#include "sim/trial/metal_time.h"
#include "sim/trial/time_waste.h"
#include "sim/trial/tool_moves.h"

namespace firstoff {

const char* name(TimeKind kind) {
    constexpr const char* kNames[kTimeKinds] = {later("cutting"), later("air"),   later("rapid"), later("index"),
                                                later("spindle"), later("dwell"), later("other")};
    return kNames[static_cast<std::size_t>(kind)];
}

double TimeShare::total() const {
    return std::accumulate(seconds.begin(), seconds.end(), 0.0);
}

namespace {

TimeKind kindOf(const Machining& m, std::size_t i) {
    const TimedMove& timed = m.timeline.moves[i];
    if (timed.wait == TimedMove::Wait::SpindleSpeed) return TimeKind::Spindle;
    if (timed.wait == TimedMove::Wait::FeedHold) return TimeKind::Other;
    if (isAtFeed(timed.kind)) return TimeKind::Air;  // what of it is in metal is taken out
    const Move& move = m.toolpath.moves[timed.move];
    switch (timed.kind) {
        case MoveKind::Rapid:
        case MoveKind::Home:
            return TimeKind::Rapid;
        case MoveKind::Index:
            return TimeKind::Index;
        default:
            return move.extra != kNoExtra && m.toolpath.extras[move.extra].machineCode ? TimeKind::Other
                                                                                       : TimeKind::Dwell;
    }
}

// Remark without its brackets and the blanks at its ends; nothing of a remark that holds no letter or figure.
std::string remarkText(std::string_view text) {
    const auto strip = [&text](std::string_view which) {
        const std::size_t first = text.find_first_not_of(which);
        text = first == std::string_view::npos ? std::string_view()
                                               : text.substr(first, text.find_last_not_of(which) - first + 1);
    };
    strip("();% \t\r\n-*=");
    return std::string(text);
}

// Where operations of the program's own text begin.
//
// A sequence number that stands alone among blocks without one is what the programmer searches for: it begins an
// operation. Where most blocks are numbered, as many editors do, those begin one that follow a remark on a line of its
// own, an empty line or a program stop, or that call a tool.
class Operations {
public:
    explicit Operations(const Machining& m) : m_(m) {
        const Program& program = m.program;
        std::size_t numbered = 0, worded = 0;
        const BlockId end = program.endBlockOf(0);
        for (BlockId i = 0; i < end; ++i) {
            if (!hasWords(i)) continue;
            ++worded;
            numbered += program.blocks[i].sequenceNumber >= 0;
        }
        const bool sparse = 2 * numbered <= worded;
        bool after = true;
        for (BlockId i = 0; i < end; ++i) {
            if (!hasWords(i)) {
                after = true;
                continue;
            }
            const bool begins = program.blocks[i].sequenceNumber >= 0 && (sparse || after || has(i, 'T', -1));
            if (begins) starts_.push_back(i);
            after = has(i, 'M', 0) || has(i, 'M', 1);
        }
    }

    // The operation in which a block stands, as index of its first block; kNoBlock where none has begun: before the
    // first sequence number, and in a program that has none.
    BlockId of(BlockId block) const {
        const auto behind = std::upper_bound(starts_.begin(), starts_.end(), block);
        return behind == starts_.begin() ? kNoBlock : *std::prev(behind);
    }

    std::string nameOf(BlockId start) const {
        std::string name = fmt::format("N{}", m_.program.blocks[start].sequenceNumber);
        std::string remark = remarkOn(start);
        for (BlockId i = start; remark.empty() && i-- > 0 && !hasWords(i);) remark = remarkOn(i);
        return remark.empty() ? name : name + ' ' + remark;
    }

private:
    bool hasWords(BlockId block) const {
        const Block& b = m_.program.blocks[block];
        return b.kind == Block::Kind::Statement ||
               (b.kind == Block::Kind::Words && b.wordCount > (b.programNumber >= 0 ? 1 : 0));
    }
    bool has(BlockId block, char letter, double value) const {
        const Block& b = m_.program.blocks[block];
        return std::any_of(m_.program.begin(b), m_.program.end(b), [&](const Word& word) {
            return word.letter == letter && (value < 0 || word.value == value);
        });
    }
    std::string remarkOn(BlockId block) const {
        const Block& b = m_.program.blocks[block];
        const auto found = std::lower_bound(m_.program.comments.begin(), m_.program.comments.end(), b.offset,
                                            [](const Comment& c, std::uint32_t at) { return c.offset < at; });
        if (found == m_.program.comments.end() || found->offset >= b.offset + b.length) return {};
        return remarkText(std::string_view(m_.program.text).substr(found->offset, found->length));
    }

    const Machining& m_;
    std::vector<BlockId> starts_;
};

class Account {
public:
    Account(const Machining& m, const LoadResult& loads) : m_(m), loads_(loads), operations_(m) {}

    TimeAccount run() {
        const auto& moves = m_.timeline.moves;
        std::size_t step = 0;
        for (std::uint32_t i = 0; i < moves.size(); ++i) {
            const auto& steps = m_.toolpath.steps;
            while (step + 1 < steps.size() && steps[step + 1].firstMove <= moves[i].move) ++step;
            const BlockId block = step < steps.size() ? placeOf(moveAt(m_, i), steps[step].shown) : kNoBlock;
            toTool(i);
            toOperation(i, block);
            const TimeKind kind = kindOf(m_, i);
            const double inMetal = kind == TimeKind::Air ? secondsInMetal(m_, loads_, i) : 0;
            add(TimeKind::Cutting, inMetal);
            add(kind, moves[i].t1 - moves[i].t0 - inMetal);
        }
        return std::move(account_);
    }

private:
    void add(TimeKind kind, double seconds) {
        for (TimeShare* share : {&account_.whole, &account_.tools.back().share, &account_.operations.back().share}) {
            share->seconds[static_cast<std::size_t>(kind)] += seconds;
        }
    }

    // What a cycle does, and be it along lines of a profile that stand elsewhere, belongs to where it is called.
    BlockId placeOf(const Move& move, BlockId shown) const {
        return move.cycleBlock != kNoBlock && m_.program.isOwn(move.cycleBlock) ? move.cycleBlock : shown;
    }

    static void extend(std::vector<TimeRow>& rows, std::uint32_t timed) { rows.back().endTimed = timed + 1; }

    void toTool(std::uint32_t i) {
        const ToolCall& call = m_.toolpath.calls[moveAt(m_, i).call];
        if (account_.tools.empty() || account_.tools.back().station != call.station) {
            TimeRow& row = account_.tools.emplace_back();
            row.station = call.station;
            row.block = call.block;
            row.firstTimed = i;
            row.name = nameOf(call, tr);
            row.plainName = nameOf(call, later);
        }
        extend(account_.tools, i);
    }

    std::string nameOf(const ToolCall& call, const char* (*word)(const char*)) const {
        if (call.station == 0) return word(later("before the first tool"));
        if (call.toolIndex < 0) return toolWord(call);
        return toolWord(call) + ' ' + m_.setup.tools[static_cast<std::size_t>(call.toolIndex)].name;
    }

    std::string operationName(BlockId start, BlockId block, const ToolCall& call,
                              const char* (*word)(const char*)) const {
        if (start != kNoBlock) return operations_.nameOf(start);
        if (block == kNoBlock) return nameOf(call, word);
        return fmt::format(fmt::runtime(word(later("{}, from line {}"))), nameOf(call, word), m_.program.lineOf(block));
    }

    // What no sequence number begins goes by its tool and its first line.
    void toOperation(std::uint32_t i, BlockId block) {
        const BlockId start = block == kNoBlock ? kNoBlock : operations_.of(block);
        const ToolCall& call = m_.toolpath.calls[moveAt(m_, i).call];
        const bool unnumbered = start == kNoBlock;
        const bool goesOn = !account_.operations.empty() && start_ == start &&
                            (!unnumbered || account_.operations.back().station == call.station);
        if (!goesOn) {
            TimeRow& row = account_.operations.emplace_back();
            row.block = unnumbered ? block : start;
            row.firstTimed = i;
            row.station = call.station;
            row.name = operationName(start, block, call, tr);
            row.plainName = operationName(start, block, call, later);
            start_ = start;
        }
        extend(account_.operations, i);
    }

    const Machining& m_;
    const LoadResult& loads_;
    Operations operations_;
    TimeAccount account_;
    BlockId start_ = kNoBlock;  // of the operation that runs
};

}  // namespace

std::vector<std::string> assumedOfTime(const Setup& setup) {
    std::vector<std::string> said;
    const Machine& m = setup.machine;
    const SpindleDrive& drive = m.spindle;
    if (!m.axes.known()) {
        said.push_back(
            tr("The set-up gives no acceleration of the axes (acceleration_x_m_per_s2 and acceleration_z_m_per_s2 in "
               "[machine]): they are taken to change speed at once, so true times are longer."));
    } else {
        said.push_back(m.axes.jerkZ > 0
                           ? tr("Every change of speed of the axes is taken to be over where its block ends.")
                           : tr("No jerk is given: the axes' acceleration is taken to be there at once."));
        const bool flows = m.axes.blockEnd == AxisDynamics::BlockEnd::Flowing;
        if (flows && m.axes.cornerJumpZ <= 0) {
            said.push_back(
                tr("No corner_jump is given: the axes are taken to stand still at corners sharper than one degree."));
        }
    }
    if (!SpindleRunUp(setup).known()) {
        said.push_back(
            drive.inertiaKgM2 > 0
                ? tr("The spindle's inertia is given without its torque curve: it is taken to change speed at "
                     "once, so true times are longer.")
                : tr("The set-up does not say how the spindle runs up (run_up_s, or inertia_kg_m2 and the torque "
                     "curve, in [spindle]): it is taken to change speed at once, so true times are longer."));
    } else {
        said.push_back(
            drive.runUpS > 0
                ? tr("The spindle is taken to gain speed evenly and to brake as fast; what the bar adds to its "
                     "inertia is left out.")
            : inertiaOfBlank(setup) > 0
                ? tr("The spindle is taken to brake with the torque it has to gain speed; the bar counts as it is "
                     "chucked.")
                : tr("The spindle is taken to brake with the torque it has to gain speed; the density of the bar's "
                     "material is not known, so what the bar adds to the inertia is left out."));
        if (!drive.waitsForSpeed) {
            said.push_back(
                tr("The feed does not wait for the spindle: it is reckoned as if the speed were there at once."));
        }
    }
    if (m.times.nextStationS <= 0 && m.stations > 1) {
        said.push_back(tr("Every index takes the same time: next_station_s is not given."));
    }
    const Overrides& o = setup.overrides;
    if (o.feed != 1 || o.rapid != 1 || o.spindle != 1) {
        said.push_back(
            say("Overrides: feed {:.0f} %, rapid {:.0f} %, spindle {:.0f} %; threads and taps run without them, as is "
                "common practice.",
                100 * o.feed, 100 * o.rapid, 100 * o.spindle));
    }
    said.push_back(tr("Threads follow the spindle from their first instant, without waiting for its angle."));
    return said;
}

TimeAccount accountOfTime(const Machining& machining, const LoadResult& loads) {
    TimeAccount account = Account(machining, loads).run();
    account.assumed = assumedOfTime(machining.setup);
    constexpr double kWorthSayingS = 0.05;
    if (const double lag = machining.timeline.lagS; std::abs(lag) >= kWorthSayingS) {
        account.assumed.push_back(
            lag > 0 ? say("While facing, the spindle falls behind the surface speed asked for; the feed is laid out as "
                          "if it did not. For that the cycle time told is {:.1f} s too short.",
                          lag)
                    : say("While facing, the spindle falls behind the surface speed asked for; the feed is laid out as "
                          "if it did not. For that the cycle time told is {:.1f} s too long.",
                          -lag));
    }
    lookForWaste(machining, loads, account);
    return account;
}

}  // namespace firstoff
