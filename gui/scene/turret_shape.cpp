#include "gui/scene/turret_shape.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/palette.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/solid_shapes.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

constexpr std::uint8_t kGround = 165, kPaint = 40, kOxide = 95;  // gloss
constexpr float kTurn = 6.2831853f;

const glm::mat4 kAlongSpindle{{0, 1, 0, 0}, {0, 0, 1, 0}, {1, 0, 0, 0}, {0, 0, 0, 1}};

TriangleMesh alongSpindle(const Prism& shape, std::uint32_t colour) {
    TriangleMesh mesh = prism(shape, colour);
    mesh.transform(kAlongSpindle);
    return mesh;
}

// Origin on the axis of the disc, x from its front.
TriangleMesh discBody(float radius, float thickness, int stations) {
    const float half = kTurn / 2 / static_cast<float>(stations);
    const std::uint32_t ground = packColour(palette::kTurret, kGround);
    TriangleMesh mesh =
        alongSpindle({regular(stations, radius / std::cos(half), kTurn / 2 + half), 0, thickness, 3}, ground);
    // Rings on the face, as thin as paint.
    mesh.append(alongSpindle({regular(72, 0.60f * radius), -0.1f, 1, 0}, packColour(0x6d747e, kGround)));
    mesh.append(alongSpindle({regular(48, 0.24f * radius), -0.2f, 1, 0}, packColour(0x9aa1aa, kGround)));
    for (int i = 0; i < stations; ++i) {
        const float angle = kTurn * (static_cast<float>(i) + 0.5f) / static_cast<float>(stations);
        Polygon hole = regular(16, 0.035f * radius);
        for (glm::vec2& p : hole) p += 0.50f * radius * glm::vec2(std::cos(angle), std::sin(angle));
        mesh.append(alongSpindle({hole, -0.3f, 1, 0}, packColour(0x2a2d32, kPaint)));
    }
    return mesh;
}

// Strokes of the figures 0–9 on a grid of 2 x 4.
struct Stroke {
    float x0, y0, x1, y1;
};
std::vector<Stroke> strokesOf(int digit) {
    // Seven straight strokes: top, upper right, lower right, bottom, lower left, upper left, middle.
    static constexpr Stroke kStrokes[7] = {{0, 4, 2, 4}, {2, 4, 2, 2}, {2, 2, 2, 0}, {0, 0, 2, 0},
                                           {0, 0, 0, 2}, {0, 2, 0, 4}, {0, 2, 2, 2}};
    static constexpr int kUsed[10] = {0b0111111, 0b0000110, 0b1011011, 0b1001111, 0b1100110,
                                      0b1101101, 0b1111101, 0b0000111, 0b1111111, 0b1101111};
    std::vector<Stroke> result;
    for (int i = 0; i < 7; ++i) {
        if (kUsed[digit] & (1 << i)) result.push_back(kStrokes[i]);
    }
    return result;
}

// A figure on the disc's front at the station in working position, to be read from the chuck side; origin on its axis.
TriangleMesh stationFigure(int station, float radius) {
    TriangleMesh mesh;
    const std::string text = std::to_string(station);
    const float size = 0.02f * radius;  // of one grid step
    const float width = 2 * size * static_cast<float>(text.size()) + size * static_cast<float>(text.size() - 1);
    float left = -width / 2;
    for (char c : text) {
        for (const Stroke& s : strokesOf(c - '0')) {
            const float w = 0.28f * size;
            const glm::vec2 a(left + size * std::min(s.x0, s.x1), size * std::min(s.y0, s.y1));
            const glm::vec2 b(left + size * std::max(s.x0, s.x1), size * std::max(s.y0, s.y1));
            // In the disc's plane: y up, seen from the chuck z runs to the right.
            const float y = -0.88f * radius;
            mesh.append(
                box({-0.15f, y + a.y - w, a.x - w}, {0.5f, y + b.y + w, b.x + w}, 0, packColour(0xeef1f5, kPaint)));
        }
        left += 3 * size;
    }
    return mesh;
}

// A plug in a station without a tool, flush with the mounting face; origin on the axis of the disc.
TriangleMesh plug(float radius, float thickness) {
    Polygon round = regular(24, 0.13f * std::min(radius, 2 * thickness));
    TriangleMesh mesh = prism({round, -0.3f, 1, 0}, packColour(0x5a616b, kOxide));
    // (a, b, c) to (a, -c, b): lies on the mounting face.
    mesh.transform(glm::mat4(glm::vec4(1, 0, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(0, 1, 0, 0),
                             glm::vec4(thickness / 2, -radius, 0, 1)));
    return mesh;
}

}  // namespace

TriangleMesh discShape(const Setup& setup, const firstoff::MachineBodies& machine) {
    const float radius = mm(setup.machine.turretRadius), thickness = mm(setup.machine.turretThickness);
    if (radius <= 0 || thickness <= 0 || !setup.turret) return {};
    const int stations = std::clamp(machine.stations, 3, 96);
    TriangleMesh mesh = discBody(radius, thickness, stations);
    for (int station = 1; station <= machine.stations; ++station) {
        TriangleMesh mounted = stationFigure(station, radius);
        if (!setup.toolAt(station)) mounted.append(plug(radius, thickness));
        mounted.transform(glm::rotate(glm::mat4(1), mm(-machine.turnOf(station)), {1, 0, 0}));
        mesh.append(mounted);
    }
    mesh.transform(glm::translate(glm::mat4(1), {mm(setup.turret->faceZ), mm(setup.turret->axisR), 0}));
    return mesh;
}

TriangleMesh plateShape(const Setup& setup) {
    const Turret& turret = *setup.turret;
    return box({mm(turret.faceZ), mm(turret.plateR.min), mm(turret.plateY.min)},
               {mm(turret.faceZ + setup.machine.turretThickness), mm(turret.plateR.max), mm(turret.plateY.max)}, 3,
               packColour(palette::kTurret, kGround));
}

TriangleMesh blockShape(const ToolBlock& block) {
    const float half = mm(block.width / 2);
    return box({mm(block.z.min), mm(block.r.min), -half}, {mm(block.z.max), mm(block.r.max), half}, 2.5f,
               packColour(palette::kBlock, kOxide));
}

TriangleMesh headShape(const Setup& setup) {
    const Turret& turret = *setup.turret;
    const float from = mm(turret.faceZ + setup.machine.turretThickness);
    TriangleMesh mesh = alongSpindle({regular(72, mm(turret.headRadius)), from, from + mm(turret.headLength), 3},
                                     packColour(palette::kHeadstock, kPaint));
    mesh.transform(glm::translate(glm::mat4(1), {0, mm(turret.axisR), 0}));
    return mesh;
}

Setup withTurret(Setup setup) {
    if (setup.turret || setup.machine.turretRadius <= 0 || setup.machine.turretThickness <= 0) return setup;
    Turret turret;
    turret.axisR = setup.machine.turretRadius + kUsualBlockMm;
    turret.headRadius = 0.6 * setup.machine.turretRadius;
    turret.headLength = 1.5 * setup.machine.turretRadius;
    setup.turret = turret;
    if (setup.toolBlock.width <= 0) {
        // The part of the rim between two stations, or less.
        const double room = 1.8 * setup.machine.turretRadius * std::tan(kPi / std::max(setup.machine.stations, 3));
        setup.toolBlock.width = std::min(room, 80.0);
        setup.toolBlock.z = {0, 0.92 * setup.machine.turretThickness};
        for (Tool& tool : setup.tools) {
            tool.block = toolBlockOf(setup, tool);
            // Forward over the whole shank.
            if (tool.block && !tool.holder.empty() && tool.block->z.min == 0)
                tool.block->z.min = std::min(0.0, tool.tip.z + boundingBox(tool.holder).zMin - 3);
        }
    }
    return setup;
}

}  // namespace firstoff::gui
