#include <fmt/format.h>

#include "sim/control/control.h"
#include "sim/control/toolpath.h"

namespace firstoff {

const char* name(MoveKind kind) {
    switch (kind) {
        case MoveKind::Rapid:
            return "rapid";
        case MoveKind::Feed:
            return "feed";
        case MoveKind::ArcClockwise:
            return "arc-cw";
        case MoveKind::ArcAnticlockwise:
            return "arc-ccw";
        case MoveKind::Thread:
            return "thread";
        case MoveKind::Dwell:
            return "dwell";
        case MoveKind::Index:
            return "index";
        case MoveKind::Home:
            return "home";
    }
    return "";
}

std::string toolWord(const ToolCall& call) {
    return fmt::format("T{:02d}{:02d}", call.station, call.offset);
}

std::string workOffsetName(int workOffset) {
    return workOffset < 6 ? fmt::format("G{}", 54 + workOffset) : fmt::format("G54.1 P{}", workOffset - 5);
}

Toolpath interpret(const Program& program, const Setup& setup) {
    Toolpath toolpath;
    Control(program, setup, toolpath).run();
    return toolpath;
}

}  // namespace firstoff
