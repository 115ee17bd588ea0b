// How far apart two bodies are at an instant, and where in a move they come nearest.
#pragma once

#include <memory>

#include "gui/scene/lathe_scene.h"
#include "sim/clearance/nearness.h"
#include "sim/trial/trial.h"

namespace firstoff::gui {

// Bodies of one trial made ready for measuring, each once it is asked for. Round bodies count as what they sweep; so
// does the billet, but for the tool in use, which may stand in its bore or in a groove.
class BodyMeasure {
public:
    explicit BodyMeasure(std::shared_ptr<const Trial> trial) : trial_(std::move(trial)) {}

    // Indices into MachineBodies::bodies, 0 the billet. An infinite gap where one of them is not there.
    Nearness between(int first, int second, const SceneInstant& instant);

private:
    const BodyShape& shapeOf(int body);
    Placing placed(int body, const SceneInstant& instant) const;
    Nearness toBillet(int body, const SceneInstant& instant);

    std::shared_ptr<const Trial> trial_;
    std::vector<std::unique_ptr<BodyShape>> shapes_;
};

}  // namespace firstoff::gui
