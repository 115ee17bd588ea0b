// From the lathe frame to the scene frame: z, r and y of the lathe become x, y and z, in mm, as single figures.
#pragma once

#include <glm/glm.hpp>

#include "sim/base/point.h"
#include "sim/base/space.h"

namespace firstoff::gui {

inline float mm(double value) {
    return static_cast<float>(value);
}
inline glm::vec2 flat(Point p) {
    return {mm(p.z), mm(p.r)};
}
inline glm::vec3 inScene(Point p) {
    return {mm(p.z), mm(p.r), 0};
}
inline glm::vec3 inScene(SpacePoint p) {
    return {mm(p.z), mm(p.r), mm(p.y)};
}

}  // namespace firstoff::gui
