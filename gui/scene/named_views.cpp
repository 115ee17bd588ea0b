#include "gui/scene/named_views.h"

#include <algorithm>

namespace firstoff::gui {

namespace {

float mm(double value) {
    return static_cast<float>(value);
}

constexpr float kSquareOn = 0.5235988f;  // 30° above the horizontal: along the third axis
constexpr float kAlongSpindle = 1.5707963f;

// Chuck, work and the working side of the turret.
Camera machineView(const Setup& setup, float R, float aspect) {
    const float end = std::max(mm(setup.stock.frontZ) + 0.75f * R, mm(setup.chuck.jawLength) + R);
    return framing({-0.9f * R, -1.05f * R, -0.6f * R}, {end, 2.15f * R, 0.6f * R}, 0.34f, 0.42f, aspect, 0.36f);
}

// What stands out of the jaws, as on a drawing: Z to the right, X upwards.
Camera partView(const Setup& setup, float aside, float aspect) {
    const float bar = mm(setup.stock.outerRadius);
    const float from = 0.35f * mm(setup.chuck.jawLength), to = mm(setup.stock.frontZ) + aside + 0.30f * bar + 5;
    return framing({from, -1.25f * bar, 0}, {to, 1.55f * bar, 0}, 0, kSquareOn, aspect, 0.20f);
}

Camera toolView(const Setup& setup, Point tip, float aspect) {
    const float half = std::max(14.0f, 0.55f * mm(setup.stock.outerRadius));
    const glm::vec3 at(mm(tip.z), mm(tip.r), 0);
    return framing(at - glm::vec3(half), at + glm::vec3(half, 0.8f * half, half), 0.28f, 0.50f, aspect, 0.30f);
}

Camera endOnView(const Setup& setup, float R, float aspect) {
    const float front = mm(setup.stock.frontZ);
    return framing({front, -R, -R}, {front, 1.6f * R, R}, kAlongSpindle, 0, aspect, 0.25f);
}

}  // namespace

Camera namedView(ViewName name, const Setup& setup, Point tip, float aside, float aspect) {
    const float R = mm(std::max({setup.chuck.bodyRadius, setup.stock.outerRadius, 10.0}));
    switch (name) {
        case ViewName::Machine:
            return machineView(setup, R, aspect);
        case ViewName::Part:
            return partView(setup, aside, aspect);
        case ViewName::Tool:
            return toolView(setup, tip, aspect);
        case ViewName::EndOn:
            return endOnView(setup, R, aspect);
    }
    return {};
}

}  // namespace firstoff::gui
