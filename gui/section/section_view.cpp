#include "gui/section/section_view.h"

#include <algorithm>

namespace firstoff::gui {

void SectionView::fit(const Box& box, const Rect& area, float margin) {
    area_ = area;
    centre_ = {0.5 * (box.zMin + box.zMax), 0.5 * (box.rMin + box.rMax)};
    const double width = std::max(1.0f, area.w - 2 * margin), height = std::max(1.0f, area.h - 2 * margin);
    const double z = std::max(box.zMax - box.zMin, 1e-3), r = std::max(box.rMax - box.rMin, 1e-3);
    scale_ = std::clamp(std::min(width / z, height / r), kLeastScale, kMostScale);
}

void SectionView::zoom(double factor, ImVec2 about) {
    const Point before = placeOf(about);
    scale_ = std::clamp(scale_ * factor, kLeastScale, kMostScale);
    centre_ = centre_ + (before - placeOf(about));
}

void SectionView::shift(ImVec2 by) {
    centre_ = centre_ + Point{-by.x / scale_, by.y / scale_};
}

}  // namespace firstoff::gui
