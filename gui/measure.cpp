#include "gui/measure.h"

#include <algorithm>
#include <utility>

#include "sim/base/units.h"

namespace firstoff::gui {

const BodyShape& BodyMeasure::shapeOf(int body) {
    const auto& bodies = trial_->clearance.bodies->bodies;
    shapes_.resize(bodies.size());
    std::unique_ptr<BodyShape>& shape = shapes_[static_cast<std::size_t>(body)];
    if (!shape) {
        const MachineBody& machine = bodies[static_cast<std::size_t>(body)];
        shape = std::make_unique<BodyShape>(machine.pieces, machine.isMesh);
    }
    return *shape;
}

Placing BodyMeasure::placed(int body, const SceneInstant& instant) const {
    const MachineBodies& machine = *trial_->clearance.bodies;
    Placing placing = Placing::at({});
    switch (machine.bodies[static_cast<std::size_t>(body)].carrier) {
        case Carrier::Bed:
        case Carrier::Spindle:
            break;
        case Carrier::Turret:
            placing.axisR = machine.turretAxisR;
            placing.turn = machine.stations > 0 ? -2 * kPi * (instant.discAt - 1) / machine.stations : 0;
            [[fallthrough]];
        case Carrier::TurretSlide:
            placing.shifts[0] = instant.turretReference;
            break;
        case Carrier::Tailstock:
            placing.shifts[0] = {instant.tailstockZ.value_or(0), 0};
            break;
        case Carrier::SecondSpindle:
            placing.shifts[0] = {instant.secondSpindleZ.value_or(0), 0};
            break;
    }
    return placing;
}

Nearness BodyMeasure::toBillet(int body, const SceneInstant& instant) {
    if (!instant.stock) return {};
    const Billet& billet = instant.stock->billet();
    const MachineBody& machine = trial_->clearance.bodies->bodies[static_cast<std::size_t>(body)];
    const bool atWork = machine.toolIndex >= 0 && machine.toolIndex == instant.toolIndex &&
                        instant.station == instant.nextStation && machine.kind != BodyKind::Block;
    if (!atWork) return BilletHull(billet).nearness(shapeOf(body), placed(body, instant));
    const Tool& tool = trial_->setup.tools[static_cast<std::size_t>(machine.toolIndex)];
    Nearness nearest;
    const auto take = [&](const Outline& outline) {
        if (outline.empty()) return;
        const Nearness one = nearnessInPlane(billet, outline, Placing::at(instant.tip));
        if (one.gap < nearest.gap) nearest = one;
    };
    if (machine.kind == BodyKind::Holder) {
        take(tool.holder);
        for (const Outline& step : tool.holderSteps) take(step);
    } else {
        take(tool.cutting);
        for (const Outline& step : tool.steps) take(step);
    }
    return nearest;
}

Nearness BodyMeasure::between(int first, int second, const SceneInstant& instant) {
    const bool usable = trial_->clearance.bodies && first != second && first >= 0 && second >= 0 &&
                        static_cast<std::size_t>(std::max(first, second)) < trial_->clearance.bodies->bodies.size();
    if (!usable) return {};
    if (second == 0) return toBillet(first, instant);
    if (first == 0) {
        Nearness swapped = toBillet(second, instant);
        std::swap(swapped.onFirst, swapped.onSecond);
        return swapped;
    }
    return nearness(shapeOf(first), placed(first, instant), shapeOf(second), placed(second, instant));
}

}  // namespace firstoff::gui
