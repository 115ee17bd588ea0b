#include "sim/output/sheets/tool_use.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/sheets/edge_gap.h"
#include "sim/output/sheets/sheet_text.h"
#include "sim/trial/machining_findings.h"

namespace firstoff {

void Extent::take(double value) {
    least = any ? std::min(least, value) : value;
    most = any ? std::max(most, value) : value;
    any = true;
}

namespace {

class UseReader {
public:
    explicit UseReader(const Trial& trial) : trial_(trial), path_(trial.toolpath) {}

    std::vector<ToolUse> read() {
        for (std::size_t c = 1; c < path_.calls.size(); ++c) takeCall(path_.calls[c]);
        cutting_.assign(uses_.size(), false);
        for (std::size_t i = 0; i < trial_.timeline.moves.size(); ++i) {
            if (const std::size_t use = fedBy(i); use < uses_.size() && removes(i)) cutting_[use] = true;
        }
        for (std::size_t i = 0; i < trial_.timeline.moves.size(); ++i) takeMove(i);
        return std::move(uses_);
    }

private:
    std::size_t useOf(int station) const {
        const auto found =
            std::find_if(uses_.begin(), uses_.end(), [&](const ToolUse& u) { return u.station == station; });
        return static_cast<std::size_t>(found - uses_.begin());
    }

    void takeCall(const ToolCall& call) {
        if (call.station == 0) return;
        const std::size_t at = useOf(call.station);
        if (at == uses_.size()) {
            uses_.emplace_back();
            uses_.back().station = call.station;
            uses_.back().toolIndex = call.toolIndex;
        }
        ToolUse& use = uses_[at];
        if (call.block != kNoBlock && std::find(use.calls.begin(), use.calls.end(), call.block) == use.calls.end()) {
            use.calls.push_back(call.block);
        }
        const bool known = std::find(use.offsets.begin(), use.offsets.end(), call.offset) != use.offsets.end();
        if (call.offset > 0 && !known) use.offsets.push_back(call.offset);
    }

    bool removes(std::size_t timed) const {
        if (!trial_.stock || timed >= trial_.stock->cuts().size()) return false;
        return trial_.stock->cuts()[timed].removedMm3 > 0;
    }

    // The tool that a timed move feeds; past the last one for other moves.
    std::size_t fedBy(std::size_t timed) const {
        const TimedMove& t = trial_.timeline.moves[timed];
        if (!isAtFeed(t.kind)) return uses_.size();
        return useOf(path_.calls[path_.moves[t.move].call].station);
    }

    void takeMove(std::size_t timed) {
        const std::size_t at = fedBy(timed);
        if (at == uses_.size() || (cutting_[at] && !removes(timed))) return;
        ToolUse& use = uses_[at];
        const TimedMove& t = trial_.timeline.moves[timed];
        const Move& move = path_.moves[t.move];
        const ModalState& modal = path_.modals[move.modal];
        use.revPerMin.take(t.rpmStart);
        use.revPerMin.take(t.rpmEnd);
        if (modal.constantSurfaceSpeed) {
            use.surfaceSpeed.take(modal.speed);
            if (modal.clampRevPerMin > 0) use.clamp.take(modal.clampRevPerMin);
        }
        if (t.kind == MoveKind::Thread) {
            use.lead.take(path_.extras[move.extra].lead);
        } else if (modal.feedPerRev) {
            use.feedPerRev.take(move.feed);
        } else {
            use.feedPerMin.take(move.feed);
        }
        use.forward = use.forward || modal.spindle == SpindleDirection::Forward;
        use.reverse = use.reverse || modal.spindle == SpindleDirection::Reverse;
        use.stopped = use.stopped || modal.spindle == SpindleDirection::Stopped;
        (modal.coolant ? use.coolantOn : use.coolantOff) = true;
        if (!removes(timed)) return;
        use.cuttingS += t.t1 - t.t0;
        const Point way = t.to - t.from;
        (way.z < 0 ? use.towardChuck : use.awayFromChuck) += std::abs(way.z);
        (way.r < 0 ? use.inwards : use.outwards) += std::abs(way.r);
    }

    const Trial& trial_;
    const Toolpath& path_;
    std::vector<ToolUse> uses_;
    std::vector<bool> cutting_;
};

std::string degreesOf(double angle) {
    return shortFigure(degrees(angle), 1) + "°";
}

std::string noseOf(const Tool& tool) {
    return tool.noseRadius > 0 ? say(", nose R{}", shortFigure(tool.noseRadius, 3)) : "";
}

}  // namespace

std::vector<ToolUse> toolUses(const Trial& trial) {
    return UseReader(trial).read();
}

namespace {

class FirstMovesReader {
public:
    explicit FirstMovesReader(const Trial& trial) : trial_(trial), path_(trial.toolpath) {
        if (trial.stock) cursor_.emplace(trial.stock, StockCursor::Detail::Envelope);
    }

    std::vector<FirstMoves> read() {
        for (std::size_t i = 0; i < trial_.timeline.moves.size(); ++i) take(i);
        return std::move(all_);
    }

private:
    void take(std::size_t index) {
        const TimedMove& timed = trial_.timeline.moves[index];
        const Move& move = path_.moves[timed.move];
        const ToolCall& call = path_.calls[move.call];
        if (call.station != now_.station) begin(call, index);
        if (fed_) return;
        if (isAtFeed(timed.kind)) {
            fed_ = true;
            if (now_.block != kNoBlock) all_.push_back(now_);
            return;
        }
        if (index < trial_.clearance.perMove.size()) {
            now_.known = true;
            if (trial_.clearance.perMove[index].gapMm < now_.gapMm) {
                now_.gapMm = trial_.clearance.perMove[index].gapMm;
                now_.nearestMove = index;
            }
        }
        if (timed.kind != MoveKind::Rapid) return;
        now_.block = trial_.shownBlock(timed.move);
        now_.programmed = move.to + path_.programmedShift(move);
        if (call.toolIndex < 0) return;
        const Tool& tool = trial_.setup.tools[static_cast<std::size_t>(call.toolIndex)];
        now_.edgeMm = std::min(now_.edgeMm, edgeGap(tool, timed.from + call.tip, timed.to + call.tip, metal_));
    }

    void begin(const ToolCall& call, std::size_t index) {
        now_ = {};
        now_.station = call.station;
        now_.toolIndex = call.toolIndex;
        now_.edgeMm = now_.gapMm = std::numeric_limits<double>::infinity();
        fed_ = call.station == 0;
        if (!cursor_) return;
        // Until its first feed the tool leaves the metal as it is.
        cursor_->seek(static_cast<std::uint32_t>(index), 0);
        metal_ = cursor_->section(kDrawnMm);
        std::erase_if(metal_, [](const Loop& loop) { return loop.piece != 0; });
    }

    static constexpr double kDrawnMm = 0.005;
    const Trial& trial_;
    const Toolpath& path_;
    std::optional<StockCursor> cursor_;
    std::vector<Loop> metal_;
    std::vector<FirstMoves> all_;
    FirstMoves now_;
    bool fed_ = true;
};

}  // namespace

std::vector<FirstMoves> firstMoves(const Trial& trial) {
    return FirstMovesReader(trial).read();
}

std::string toolWord(int station) {
    return fmt::format("T{}", station);
}

std::string toolInWords(const Tool& tool) {
    switch (tool.kind) {
        case ToolKind::Turning:
        case ToolKind::Boring: {
            const char* what = tool.kind == ToolKind::Turning ? tr("turning tool") : tr("boring bar");
            if (tool.insertShape == 'R') return say("{}, round insert Ø{}", what, shortFigure(tool.edgeLength, 3));
            return say("{}, insert {} {}{}", what, tool.insertShape, degreesOf(tool.insertAngle), noseOf(tool));
        }
        case ToolKind::Grooving:
        case ToolKind::Parting:
            return say("{}, {} wide, corners R{}",
                       tool.face && tool.kind == ToolKind::Parting ? tr("face parting blade")
                       : tool.face                                 ? tr("face grooving tool")
                       : tool.kind == ToolKind::Parting            ? tr("parting blade")
                                                                   : tr("grooving tool"),
                       shortFigure(tool.width, 3), shortFigure(tool.cornerRadius, 3));
        case ToolKind::Drill:
            return say("drill Ø{}, point {}", shortFigure(tool.diameter, 3), degreesOf(tool.pointAngle));
        case ToolKind::StepDrill:
            return say("step drill Ø{}, point {}", shortFigure(tool.diameter, 3), degreesOf(tool.pointAngle));
        case ToolKind::CentreDrill:
            return say("centre drill Ø{}", shortFigure(tool.diameter, 3));
        case ToolKind::Reamer:
            return say("reamer Ø{}", shortFigure(tool.diameter, 3));
        case ToolKind::Tap:
            return tool.pitch > 0 ? say("tap Ø{}, pitch {}", shortFigure(tool.diameter, 3), shortFigure(tool.pitch, 3))
                                  : say("tap Ø{}", shortFigure(tool.diameter, 3));
        case ToolKind::Threading:
            return tool.inside ? say("inside threading tool {}{}", degreesOf(tool.threadAngle), noseOf(tool))
                               : say("threading tool {}{}", degreesOf(tool.threadAngle), noseOf(tool));
    }
    return {};
}

}  // namespace firstoff
