#include "sim/stock/thread_zone.h"

#include <cmath>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

constexpr double kUsualThreadAngleDeg = 60;

// From the cut to where the metal ends: outwards for a tool whose tip points inwards.
double waysOut(const Tool& tool) {
    return tipFromNoseCentre(tool.tipNumber).r > 0 ? -1 : 1;
}

bool leadsOut(const TimedMove& timed, const Tool& tool) {
    const double out = waysOut(tool) * (timed.to.r - timed.from.r);
    const double aside = std::abs(timed.to.z - timed.from.z);
    return out > 0 && aside <= out * std::tan(halfThreadAngle(tool)) + tolerance::kSamePlaceMm;
}

bool stays(MoveKind kind) {
    return kind == MoveKind::Dwell;
}

bool straight(MoveKind kind) {
    return kind == MoveKind::Rapid || kind == MoveKind::Feed || kind == MoveKind::Home;
}

}  // namespace

double halfThreadAngle(const Tool& tool) {
    if (tool.kind == ToolKind::Threading && tool.threadAngle > 0) return tool.threadAngle / 2;
    const bool insert = tool.kind == ToolKind::Turning || tool.kind == ToolKind::Boring;
    if (insert && tool.insertAngle > 0) return tool.insertAngle / 2;
    return radians(kUsualThreadAngleDeg) / 2;
}

std::vector<ThreadPart> threadParts(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup) {
    std::vector<ThreadPart> parts(timeline.moves.size(), ThreadPart::None);
    if (toolpath.extras.empty()) return parts;
    bool inGroove = false;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const TimedMove& timed = timeline.moves[i];
        if (timed.kind == MoveKind::Thread) {
            parts[i] = ThreadPart::Thread;
            inGroove = true;
            continue;
        }
        if (!inGroove || stays(timed.kind)) continue;
        const int tool = toolpath.calls[toolpath.moves[timed.move].call].toolIndex;
        inGroove = tool >= 0 && straight(timed.kind) && leadsOut(timed, setup.tools[static_cast<std::size_t>(tool)]);
        if (inGroove) parts[i] = ThreadPart::PullOut;
    }
    return parts;
}

}  // namespace firstoff
