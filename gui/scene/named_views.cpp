#include "gui/scene/named_views.h"

#include <algorithm>

#include "gui/scene/scene_frame.h"

namespace firstoff::gui {

namespace {

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

// The place of the bar that the tip is nearest to, as if the bar were whole.
glm::vec3 nearestOfBar(const Setup& setup, Point tip) {
    const float from = std::min(mm(setup.chuck.jawLength), mm(setup.stock.frontZ)), to = mm(setup.stock.frontZ);
    const float R = mm(setup.stock.outerRadius);
    return {std::clamp(mm(tip.z), from, to), std::clamp(mm(tip.r), -R, R), 0};
}

// Tool and cut; while the tool is away, as much more as it takes to see the work as well.
Camera toolView(const Setup& setup, Point tip, float aspect) {
    const float half = std::max(14.0f, 0.55f * mm(setup.stock.outerRadius));
    const glm::vec3 at(mm(tip.z), mm(tip.r), 0);
    const glm::vec3 work = nearestOfBar(setup, tip);
    const glm::vec3 low = glm::min(at - glm::vec3(half), work - glm::vec3(0.5f * half));
    const glm::vec3 high = glm::max(at + glm::vec3(half, 0.8f * half, half), work + glm::vec3(0.5f * half));
    return framing(low, high, 0.28f, 0.50f, aspect, 0.30f);
}

Camera endOnView(const Setup& setup, float R, float aspect) {
    const float front = mm(setup.stock.frontZ);
    return framing({front, -R, -R}, {front, 1.6f * R, R}, kAlongSpindle, 0, aspect, 0.25f);
}

}  // namespace

Camera placeView(SpacePoint place, const Setup& setup, float aspect) {
    const float half = std::max(38.0f, 0.9f * mm(setup.stock.outerRadius));
    const glm::vec3 at(mm(place.z), mm(place.r), mm(place.y));
    return framing(at - glm::vec3(half), at + glm::vec3(half), 0.42f, 0.62f, aspect, 0.32f);
}

Camera wholeMachineView(const std::vector<glm::vec3>& corners, float aspect) {
    glm::vec3 low(0), high(0);
    for (const glm::vec3& p : corners) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    Camera camera = framing(low, high, 0.20f, 0.46f, aspect, 0.34f);
    // The box round it leaves corners empty: nearer, until the picture is full.
    constexpr float kFill = 0.92f;
    for (int step = 0; step < 6; ++step) {
        glm::vec2 least(1e9f), most(-1e9f);
        const glm::mat4 seen = camera.projection(aspect) * camera.view();
        for (const glm::vec3& p : corners) {
            const glm::vec4 c = seen * glm::vec4(p, 1);
            if (c.w <= 0) return camera;
            least = glm::min(least, glm::vec2(c) / c.w);
            most = glm::max(most, glm::vec2(c) / c.w);
        }
        constexpr int kHigh = 1000;  // pixels, to pan by
        const glm::vec2 middle = 0.25f * (least + most) * glm::vec2(-aspect, 1) * static_cast<float>(kHigh);
        camera.pan(middle, kHigh);
        camera.distance *= std::max(most.x - least.x, most.y - least.y) / (2 * kFill);
    }
    return camera;
}

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
