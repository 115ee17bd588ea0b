#include "gui/scene/turret_shape.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/palette.h"
#include "gui/scene/solid_shapes.h"
#include "gui/scene/tool_shape.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

constexpr std::uint8_t kGround = 165, kPaint = 40, kOxide = 95;  // gloss
constexpr float kTurn = 6.2831853f;

float mm(double value) {
    return static_cast<float>(value);
}

const glm::mat4 kAlongSpindle{{0, 1, 0, 0}, {0, 0, 1, 0}, {1, 0, 0, 0}, {0, 0, 0, 1}};

TriangleMesh alongSpindle(const Prism& shape, std::uint32_t colour) {
    TriangleMesh mesh = prism(shape, colour);
    mesh.transform(kAlongSpindle);
    return mesh;
}

struct Disc {
    float radius, thickness;
    int stations;
};

TriangleMesh discBody(const Disc& disc) {
    const float half = kTurn / 2 / static_cast<float>(disc.stations);
    const std::uint32_t ground = packColour(palette::kTurret, kGround);
    TriangleMesh mesh =
        alongSpindle({regular(disc.stations, disc.radius / std::cos(half), half), 0, disc.thickness, 3}, ground);
    mesh.append(alongSpindle({regular(72, 0.60f * disc.radius), -4, 1, 1.5f}, packColour(0x6d747e, kGround)));
    mesh.append(alongSpindle({regular(48, 0.24f * disc.radius), -12, -3, 2}, packColour(0x9aa1aa, kGround)));
    for (int i = 0; i < disc.stations; ++i) {
        const float angle = kTurn * (static_cast<float>(i) + 0.5f) / static_cast<float>(disc.stations);
        Polygon hole = regular(16, 0.035f * disc.radius);
        for (glm::vec2& p : hole) p += 0.50f * disc.radius * glm::vec2(std::cos(angle), std::sin(angle));
        mesh.append(alongSpindle({hole, -5, -3.9f, 0}, packColour(0x2a2d32, kPaint)));
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

// A figure engraved in the disc's front at the station in working position, to be read from the chuck side.
TriangleMesh stationFigure(int station, const Disc& disc) {
    TriangleMesh mesh;
    const std::string text = std::to_string(station);
    const float size = 0.02f * disc.radius;  // of one grid step
    const float width = 2 * size * static_cast<float>(text.size()) + size * static_cast<float>(text.size() - 1);
    float left = -width / 2;
    for (char c : text) {
        for (const Stroke& s : strokesOf(c - '0')) {
            const float w = 0.28f * size;
            const glm::vec2 a(left + size * std::min(s.x0, s.x1), size * std::min(s.y0, s.y1));
            const glm::vec2 b(left + size * std::max(s.x0, s.x1), size * std::max(s.y0, s.y1));
            // In the disc's plane: y up, seen from the chuck z runs to the right.
            const float y = -0.88f * disc.radius;
            mesh.append(
                box({-0.35f, y + a.y - w, a.x - w}, {0.5f, y + b.y + w, b.x + w}, 0, packColour(0xeef1f5, kPaint)));
        }
        left += 3 * size;
    }
    return mesh;
}

bool alongAxis(const Tool& tool) {
    return worksOnTheAxis(tool.kind) || tool.kind == ToolKind::Boring || tool.inside || tool.face;
}

// The block that holds a tool, in working position. Its arm stands forward from the plate on the mounting face.
TriangleMesh blockFor(const Tool& tool, const Disc& disc) {
    const float face = -disc.radius;
    const float reference = face - kBlockHeight;
    const std::uint32_t colour = packColour(palette::kBlock, kOxide);
    const float plateHalf =
        std::min(0.9f * disc.radius * std::tan(kTurn / 2 / static_cast<float>(disc.stations)), 40.0f);
    const float plateEnd = 0.92f * disc.thickness;
    TriangleMesh mesh = box({4, face - 14, -plateHalf}, {plateEnd, face + 1, plateHalf}, 2, colour);
    if (tool.holder.empty()) return mesh;
    const Box reach = boundingBox(tool.holder);
    const float shank = std::max(mm(tool.shankSize), mm(tool.diameter));
    const float half = std::clamp(0.5f * shank + 10, 16.0f, plateHalf);
    float front, low;
    if (alongAxis(tool)) {
        front = mm(tool.tip.z + tool.overhang);
        const float middle = reference + mm(tool.tip.r + 0.5 * (reach.rMin + reach.rMax));
        low = middle - 0.5f * shank - 9;
    } else {
        front = mm(tool.tip.z + reach.zMin) - 3;
        low = reference + mm(tool.tip.r + tool.overhang);
    }
    front = std::min(front, 0.5f * disc.thickness);
    low = std::min(low, face - 16);
    const float back =
        std::max(alongAxis(tool) ? 0.55f * disc.thickness : mm(tool.tip.z + reach.zMax) + 12, 0.45f * disc.thickness);
    mesh.append(box({front, low, -half}, {back, face - 1, half}, 2.5f, colour));
    return mesh;
}

// A plug in a station without a tool.
TriangleMesh plug(const Disc& disc) {
    Polygon round = regular(24, 0.16f * disc.radius);
    TriangleMesh mesh = prism({round, -3, 1, 1}, packColour(0x5a616b, kOxide));
    // (a, b, c) to (a, -c, b): stands on the mounting face.
    mesh.transform(glm::mat4(glm::vec4(1, 0, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(0, -1, 0, 0),
                             glm::vec4(disc.thickness / 2, -disc.radius - 2, 0, 1)));
    return mesh;
}

TriangleMesh headBody(const Disc& disc, float bedDepth) {
    const float R = disc.radius, T = disc.thickness;
    TriangleMesh mesh = alongSpindle({regular(72, 0.66f * R), T, T + 0.30f * R, 2}, packColour(0x6d747e, kGround));
    mesh.append(box({T + 0.22f * R, -0.72f * R, -bedDepth}, {T + 1.9f * R, 0.80f * R, 0.62f * R}, 0.08f * R,
                    packColour(palette::kHeadstock, kPaint)));
    return mesh;
}

}  // namespace

TurretShape turretShape(const Setup& setup, float bedDepth) {
    TurretShape shape;
    const Machine& machine = setup.machine;
    shape.stationCount = std::clamp(machine.stations, 3, 48);
    const Disc disc{mm(machine.turretRadius), mm(machine.turretThickness), shape.stationCount};
    if (disc.radius <= 0 || disc.thickness <= 0) return shape;
    shape.axisAboveReference = disc.radius + kBlockHeight;
    shape.disc = discBody(disc);
    shape.head = headBody(disc, bedDepth);
    for (int station = 1; station <= shape.stationCount; ++station) {
        const Tool* tool = setup.toolAt(station);
        TriangleMesh mounted = tool ? blockFor(*tool, disc) : plug(disc);
        mounted.append(stationFigure(station, disc));
        mounted.transform(glm::rotate(glm::mat4(1), -shape.angleOf(static_cast<float>(station)), {1, 0, 0}));
        shape.disc.append(mounted);
        if (!tool) continue;
        StationShape item;
        item.station = station;
        item.toolIndex = static_cast<int>(tool - setup.tools.data());
        ToolShape parts = shapeOf(*tool);
        const glm::mat4 place =
            glm::translate(glm::mat4(1), {mm(tool->tip.z), mm(tool->tip.r) - shape.axisAboveReference, 0});
        parts.edge.transform(place);
        parts.holder.transform(place);
        item.edge = std::move(parts.edge);
        item.holder = std::move(parts.holder);
        shape.stations.push_back(std::move(item));
    }
    return shape;
}

}  // namespace firstoff::gui
