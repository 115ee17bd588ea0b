#include "sim/stock/thread_zone.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "sim/base/tolerances.h"
#include "sim/base/units.h"

namespace firstoff {

namespace {

constexpr double kUsualThreadAngleDeg = 60;
constexpr double kTapToothDepth = 0.61343;  // of the pitch, h3 of ISO 724: so much room a tap has

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

namespace {

// Turns of the spindle along a timed move; none that can be stamped if it stands still or there are far too many.
std::optional<SpindleTurns> turnsAlong(const TimedMove& timed, const Move& move, const Toolpath& toolpath) {
    const SpindleDirection spindle = toolpath.modals[move.modal].spindle;
    if (spindle == SpindleDirection::Stopped || timed.rpmStart <= 0) return std::nullopt;
    SpindleTurns turns;
    turns.direction = spindle == SpindleDirection::Forward ? 1 : -1;
    if (timed.kind == MoveKind::Thread) {
        const MoveExtra& extra = toolpath.extras[move.extra];
        turns.lead = {extra.lead, extra.leadChange};
        turns.way = std::max(std::abs(timed.to.z - timed.from.z), std::abs(timed.to.r - timed.from.r));
        if (!(extra.lead > 0) || !(turns.way > 0) || !turns.lead.lasts(turns.way)) return std::nullopt;
        turns.turns = turns.lead.revolutions(turns.way);
        turns.from = extra.startAngle / (2 * kPi);
    } else {
        turns.turns = (timed.rpmStart + timed.rpmEnd) / 2 * (timed.t1 - timed.t0) / 60;
    }
    if (!(turns.turns <= kMostStampedTurns)) return std::nullopt;
    return turns;
}

const Tool* toolOf(const TimedMove& timed, const Toolpath& toolpath, const Setup& setup) {
    const int index = toolpath.calls[toolpath.moves[timed.move].call].toolIndex;
    return index < 0 ? nullptr : &setup.tools[static_cast<std::size_t>(index)];
}

}  // namespace

ThreadZone threadZone(const Timeline& timeline, const Toolpath& toolpath, const Setup& setup) {
    ThreadZone zone;
    if (toolpath.extras.empty()) return zone;
    zone.parts.assign(timeline.moves.size(), ThreadPart::None);
    zone.turnsOf.assign(timeline.moves.size(), kNotStamped);
    bool inGroove = false;
    double turned = 0;  // since the marker, at the end of the move before
    for (std::size_t i = 0; i < zone.parts.size(); ++i) {
        const TimedMove& timed = timeline.moves[i];
        const Tool* tool = toolOf(timed, toolpath, setup);
        if (timed.kind == MoveKind::Thread) {
            const bool out = tool && tool->kind == ToolKind::Tap && timed.to.z > timed.from.z;
            zone.parts[i] = out ? ThreadPart::Return : ThreadPart::Thread;
            inGroove = !out;
        } else {
            if (!inGroove || stays(timed.kind)) continue;
            inGroove = tool && straight(timed.kind) && leadsOut(timed, *tool);
            if (!inGroove) continue;
            zone.parts[i] = ThreadPart::PullOut;
        }
        if (!tool || zone.parts[i] == ThreadPart::Return) continue;
        std::optional<SpindleTurns> turns = turnsAlong(timed, toolpath.moves[timed.move], toolpath);
        if (!turns) continue;
        if (zone.parts[i] == ThreadPart::PullOut) turns->from = turned;
        turned = turns->from + turns->turns;
        zone.turnsOf[i] = static_cast<std::uint32_t>(zone.turns.size());
        zone.turns.push_back(*turns);
    }
    return zone;
}

std::vector<Outline> tapTeeth(const Tool& tap) {
    // The profile of ISO 68-1: flats of P/8 on the crests of the tap, flanks at 30°, 5/8 H deep and as much more as the
    // tap's core leaves room for.
    const double pitch = tap.pitch;
    const double radius = tap.diameter / 2;
    const double chamfer = tapChamferMm(tap);
    const double depth = kTapToothDepth * pitch;
    std::vector<Outline> teeth;
    for (double z = chamfer + pitch / 2; z > 0; z -= pitch) {
        const double cut = z >= chamfer ? 0 : (chamfer - z) / chamfer * depth;  // off the crest
        if (depth - cut < 1e-3 * pitch) break;
        const double slope = std::tan(radians(kUsualThreadAngleDeg) / 2);
        const double top = pitch / 16 + cut * slope;
        const double foot = pitch / 16 + depth * slope;
        teeth.push_back(roundedPolygon(
            {{z - foot, radius - depth}, {z + foot, radius - depth}, {z + top, radius - cut}, {z - top, radius - cut}},
            {0, 0, 0, 0}));
    }
    return teeth;
}

}  // namespace firstoff
