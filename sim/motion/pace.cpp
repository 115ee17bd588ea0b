#include "sim/motion/pace.h"

#include <algorithm>
#include <cmath>

#include "sim/base/units.h"

namespace firstoff {

namespace {

// A set-up read from a file always says these; one put together by hand may not.
double orElse(double value, double otherwise) {
    return value > 0 ? value : otherwise;
}

constexpr double kAnyRevPerMin = 10000;
constexpr double kAnyFeedMmPerMin = 10000;

}  // namespace

double SpindleLaw::revPerMinAt(double radius) const {
    const double r = std::abs(radius);
    return hyperbola > 0 && r * limit > hyperbola ? hyperbola / r : limit;
}

SpindleLaw spindleLaw(const Move& move, const ModalState& modal, const Setup& setup) {
    SpindleLaw law;
    if (modal.spindle == SpindleDirection::Stopped || modal.speed <= 0) return law;
    const double speed = move.kind == MoveKind::Thread ? modal.speed : modal.speed * setup.overrides.spindle;
    law.limit = orElse(setup.machine.maxRevPerMin, kAnyRevPerMin);
    if (!modal.constantSurfaceSpeed) {
        law.limit = std::min(law.limit, speed);
        return law;
    }
    if (modal.clampRevPerMin > 0) law.limit = std::min(law.limit, modal.clampRevPerMin);
    law.hyperbola = revPerMin(speed, 1.0);
    return law;
}

PaceLaw paceLaw(const Move& move, const ModalState& modal, const SpindleLaw& spindle, const Setup& setup,
                PaceLimits& limits) {
    const double most = orElse(setup.machine.maxFeedMmPerMin, kAnyFeedMmPerMin);
    const bool perRev = modal.feedPerRev || move.kind == MoveKind::Thread;
    limits.feedMissing = !(move.feed > 0);
    limits.spindleStopped = !limits.feedMissing && perRev && spindle.limit <= 0;
    PaceLaw law;
    law.flat = most / 60;
    const double dryRun = setup.overrides.dryRunMmPerMin;
    if (dryRun > 0 && move.kind != MoveKind::Thread) {
        law.flat = std::min(most, dryRun) / 60;
        return law;
    }
    if (limits.feedMissing || limits.spindleStopped) return law;
    const double feed = move.kind == MoveKind::Thread ? move.feed : move.feed * setup.overrides.feed;
    law.flat = std::min(most, perRev ? feed * spindle.limit : feed) / 60;
    if (perRev && spindle.hyperbola > 0) law.hyperbola = feed * spindle.hyperbola / 60;
    return law;
}

}  // namespace firstoff
