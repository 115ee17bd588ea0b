#include "gui/block_words.h"

#include <fmt/format.h>

#include "gui/figures.h"
#include "sim/base/say.h"

namespace firstoff::gui {

namespace {

constexpr std::size_t kLongestBlock = 60;  // characters shown of a block in a tool tip

}  // namespace

std::string lineTitle(std::uint32_t line) {
    return line == 0 ? std::string() : say("line {}: ", line);
}

std::string blockTitle(const Trial& trial, BlockId block) {
    if (block >= trial.program.blocks.size()) return tr("before the first block");
    std::string text(trial.program.textOf(trial.program.blocks[block]));
    if (text.size() > kLongestBlock) text = text.substr(0, kLongestBlock) + "…";
    return trial.program.lineName(block) + ": " + text;
}

std::string toolTitle(const Trial& trial, std::uint16_t call) {
    const ToolCall& called = trial.toolpath.calls[call];
    if (called.station == 0) return tr("no tool");
    if (called.toolIndex < 0) return say("T{} (not in the set-up)", called.station);
    const Tool& tool = trial.setup.tools[static_cast<std::size_t>(called.toolIndex)];
    return fmt::format("T{} {}", called.station, tool.name);
}

const char* motionTitle(MoveKind kind) {
    switch (kind) {
        case MoveKind::Rapid:
            return tr("rapid");
        case MoveKind::Feed:
            return tr("feed, straight");
        case MoveKind::ArcClockwise:
            return tr("feed, arc clockwise");
        case MoveKind::ArcAnticlockwise:
            return tr("feed, arc anticlockwise");
        case MoveKind::Thread:
            return tr("thread pass");
        case MoveKind::Dwell:
            return tr("dwell");
        case MoveKind::Index:
            return tr("turret index");
        case MoveKind::Home:
            return tr("to the reference position");
    }
    return "";
}

const char* stopTitle(ProgramStop::Kind kind) {
    switch (kind) {
        case ProgramStop::Kind::Stop:
            return tr("program stop");
        case ProgramStop::Kind::Optional:
            return tr("optional stop");
        case ProgramStop::Kind::End:
            return tr("end of program");
    }
    return "";
}

std::vector<std::string> instantTitle(const Trial& trial, const Instant& instant, Measures measures) {
    std::vector<std::string> lines;
    if (!instant.hasMoves) return lines;
    const MoveKind kind = trial.timeline.moves[instant.timed].kind;
    std::string what = fmt::format("{}  {}", clockTime(instant.timeS), motionTitle(kind));
    if (instant.pass > 0) what += say(", pass {}", instant.pass);
    lines.push_back(what);
    lines.push_back(measures.position(2 * instant.programmed.r, instant.programmed.z));
    std::string spindle = say("{} rev/min", wholeNumber(instant.revPerMin));
    if (instant.feedMmPerMin > 0) {
        spindle += fmt::format(", {} ({})", told(measures.feedPerRev(instant.feedMmPerRev)),
                               told(measures.feedPerMinute(instant.feedMmPerMin)));
    }
    lines.push_back(spindle);
    const std::size_t call = trial.toolpath.moves[trial.timeline.moves[instant.timed].move].call;
    lines.push_back(toolTitle(trial, static_cast<std::uint16_t>(call)));
    return lines;
}

}  // namespace firstoff::gui
