// Where a place of the half-section stands on screen: true to scale, Z to the right, radius upwards.
#pragma once

#include <imgui.h>

#include "gui/layout.h"
#include "sim/base/outline.h"
#include "sim/base/point.h"

namespace firstoff::gui {

class SectionView {
public:
    static constexpr double kLeastScale = 0.05, kMostScale = 50'000;  // px for a mm

    // Shows all of `box` with `margin` px round it.
    void fit(const Box& box, const Rect& area, float margin);
    void moveTo(const Rect& area) { area_ = area; }
    void zoom(double factor, ImVec2 about);
    void shift(ImVec2 by);

    ImVec2 at(Point place) const {
        return {area_.x + 0.5f * area_.w + static_cast<float>((place.z - centre_.z) * scale_),
                area_.y + 0.5f * area_.h - static_cast<float>((place.r - centre_.r) * scale_)};
    }
    Point placeOf(ImVec2 pixel) const {
        return {centre_.z + (pixel.x - area_.x - 0.5f * area_.w) / scale_,
                centre_.r - (pixel.y - area_.y - 0.5f * area_.h) / scale_};
    }
    double scale() const { return scale_; }
    const Rect& area() const { return area_; }

private:
    Rect area_;
    Point centre_;
    double scale_ = 1;
};

}  // namespace firstoff::gui
