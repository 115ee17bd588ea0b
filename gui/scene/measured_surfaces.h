// Which surfaces of the part sizes were taken on, and what came of them.
#pragma once

#include <map>
#include <optional>

#include "sim/trial/trial.h"

namespace firstoff::gui {

class MeasuredSurfaces {
public:
    MeasuredSurfaces() = default;
    // Goes to the end of the cycle, where the part is gauged.
    explicit MeasuredSurfaces(const Trial& trial);

    // Of the surface that a cut left; nothing where no size was taken. Of several sizes one that is out of its limits
    // counts before one that is within.
    std::optional<GaugedDimension::State> of(CutId cut) const;
    std::size_t size() const { return states_.size(); }

private:
    void take(CutId cut, GaugedDimension::State state);

    std::map<CutId, GaugedDimension::State> states_;
};

}  // namespace firstoff::gui
