#include "gui/scene/machine_shape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <utility>

#include "gui/scene/palette.h"
#include "gui/scene/revolved_mesh.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/solid_shapes.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

constexpr std::uint8_t kPaint = 40, kGround = 190;  // gloss
constexpr std::uint8_t kTurned = 200;               // fineness
constexpr double kSquare = 0.02;                    // rad: corners of machine parts are corners

// A prism's (a, b, c) to (c, a, b): its length along the spindle.
const glm::mat4 kAlongSpindle{{0, 1, 0, 0}, {0, 0, 1, 0}, {1, 0, 0, 0}, {0, 0, 0, 1}};

TriangleMesh turned(std::vector<Point> points, std::uint32_t rgb, std::uint8_t fineness, int sectors = 72) {
    const Loop loop{0, std::move(points), {}};
    RevolveOptions options;
    options.sectors = sectors;
    options.smoothAngle = kSquare;
    options.colour = [colour = packColour(rgb, fineness)](CutId) { return colour; };
    return revolve({&loop, 1}, options);
}

std::vector<Point> chuckProfile(const Chuck& chuck, double bore) {
    const double R = chuck.bodyRadius;
    const double back = -chuck.bodyLength;
    const double waist = 0.5 * back;
    const double floor =
        bore < 0.8 * R ? -0.3 * R : 0;  // of the recess in the face; none for a bar as large as the chuck
    const double mouth = floor < 0 ? bore : 0;
    return {{back, 0},        {floor, 0},     {floor, mouth},         {-1.5, mouth},
            {0, mouth + 1.5}, {0, 0.90 * R},  {-0.035 * R, 0.93 * R}, {-0.05 * R, 0.985 * R},
            {-0.065 * R, R},  {waist + 4, R}, {waist + 2.5, R - 1.5}, {waist - 2.5, R - 1.5},
            {waist - 4, R},   {back + 3, R},  {back, R - 3}};
}

// One step of a jaw: a slice of the same outline, reaching from `inner` to `outer` and standing `height` off the chuck.
struct JawStep {
    float inner, outer, height;
};

// Widest outside, with a nose that grips.
Polygon jawOutline(float inner, float outer, float width, float noseWidth) {
    const float shoulder = std::min(inner + 0.9f * (width - noseWidth), outer);
    const float chamfer = std::min(2.0f, 0.1f * width);
    return convexHull({{inner, -noseWidth / 2},
                       {shoulder, -width / 2},
                       {outer - chamfer, -width / 2},
                       {outer, -width / 2 + chamfer},
                       {outer, width / 2 - chamfer},
                       {outer - chamfer, width / 2},
                       {shoulder, width / 2},
                       {inner, noseWidth / 2}});
}

TriangleMesh screwHead(float radialPlace, float height, float radius) {
    TriangleMesh mesh;
    const std::array<float, 3> radii = {radius, 0.86f * radius, 0.45f * radius};
    const std::array<std::uint32_t, 3> colours = {0x2a2d32, 0x565b64, 0x1c1e22};
    for (std::size_t i = 0; i < radii.size(); ++i) {
        Polygon ring = regular(i == 2 ? 6 : 20, radii[i]);
        for (glm::vec2& p : ring) p.x += radialPlace;
        mesh.append(
            prism({ring, height - 1, height + 0.15f * static_cast<float>(i + 1), 0}, packColour(colours[i], kPaint)));
    }
    return mesh;
}

// The corners of a jaw lie on the circle that it sweeps, not its middle.
float flatOn(float circle, float width) {
    const float chamfer = std::min(2.0f, 0.1f * width);
    const float half = width / 2 - chamfer;
    return std::sqrt(std::max(circle * circle - half * half, 0.25f * circle * circle));
}

// As the set-up gives them, or as jaws usually look: two steps for their screws.
std::vector<JawStep> stepsOf(const Chuck& chuck, float inner, float width) {
    std::vector<JawStep> steps;
    for (const Chuck::Step& step : chuck.steps) {
        const float outer = flatOn(mm(step.radius), width);
        if (outer > inner && step.length > 0) steps.push_back({inner, outer, mm(step.length)});
    }
    if (!chuck.steps.empty()) return steps;
    const float outer = flatOn(mm(chuck.jawOuterRadius), width), length = mm(chuck.jawLength);
    const float reach = outer - inner;
    if (reach <= 0) return {};
    return {{inner, inner + 0.40f * reach, length},
            {inner + 0.02f * reach, inner + 0.72f * reach, 0.62f * length},
            {inner + 0.04f * reach, outer, 0.34f * length}};
}

void addScrews(TriangleMesh& mesh, const std::vector<JawStep>& steps, float width) {
    for (std::size_t i = 1; i < steps.size(); ++i) {
        const float from = steps[i - 1].outer, reach = steps[i].outer - from;
        const float screw = std::min(0.2f * width, 0.35f * reach);
        if (screw > 1.5f) mesh.append(screwHead(from + 0.5f * reach, steps[i].height, screw));
    }
}

TriangleMesh oneJaw(const Chuck& chuck, double gripRadius) {
    const float inner = mm(std::max(gripRadius, 1.5)), width = mm(std::max(chuck.jawWidth, 6.0));
    const std::vector<JawStep> steps = stepsOf(chuck, inner, width);
    const float noseWidth = std::min(0.55f * width, 0.9f * inner + 3);
    const std::uint32_t colour = packColour(palette::kJaw, kGround);
    TriangleMesh mesh;
    for (const JawStep& step : steps) {
        mesh.append(prism({jawOutline(step.inner, step.outer, width, noseWidth), 0.02f, step.height, 0.9f}, colour));
    }
    addScrews(mesh, steps, width);
    // The guideway in the face of the body.
    const float slot = 0.36f * width;
    mesh.append(prism({rectangle({inner + 2, -slot}, {0.9f * mm(chuck.bodyRadius), slot}), -0.2f, 0.12f, 0},
                      packColour(0x23262b, kPaint)));
    mesh.transform(kAlongSpindle);
    shadeTowards(mesh, 0, 0.8f * mm(chuck.jawLength), 0.45f);
    return mesh;
}

// Segments that stand in the bore and press outwards.
TriangleMesh oneInnerJaw(const Chuck& chuck, double gripRadius) {
    const float circle = mm(gripRadius), width = std::min(mm(std::max(chuck.jawWidth, 6.0)), 1.1f * circle);
    TriangleMesh mesh;
    float from = 0.25f * circle;
    const std::vector<Chuck::Step> steps =
        chuck.steps.empty() ? std::vector<Chuck::Step>{{gripRadius, chuck.jawLength}} : chuck.steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const float to = flatOn(i == 0 ? circle : mm(steps[i].radius), width);
        if (to > from && steps[i].length > 0) {
            mesh.append(prism({jawOutline(from, to, width, 0.5f * width), 0.02f, mm(steps[i].length), 0.6f},
                              packColour(palette::kJaw, kGround)));
        }
        from = std::max(from, 0.9f * to);
    }
    mesh.transform(kAlongSpindle);
    return mesh;
}

// Shaded as painted or ground bodies are, not as turned metal: `along` then says how far the light is shut off.
TriangleMesh inOpenLight(TriangleMesh mesh) {
    for (Vertex& v : mesh.vertices) v.along = 0;
    return mesh;
}

// A turned nose with the slots between its segments.
TriangleMesh colletNose(const Chuck& chuck, double barRadius) {
    const double outer = chuck.jawOuterRadius, length = chuck.jawLength, inner = std::max(barRadius, 1.0);
    if (outer <= inner) return {};
    const double chamfer = std::min(0.3 * length, 0.25 * (outer - inner));
    TriangleMesh mesh = inOpenLight(
        turned({{0, inner}, {length, inner}, {length, outer - chamfer}, {length - chamfer, outer}, {0, outer}},
               palette::kJaw, kGround, 96));
    const float half = 0.7f, depth = 0.08f;
    for (int i = 0; i < std::max(chuck.jaws, 3); ++i) {
        TriangleMesh slot = box({mm(length) - depth, mm(inner), -half}, {mm(length) + 0.02f, mm(outer - chamfer), half},
                                0, packColour(0x23262b, kPaint));
        slot.transform(glm::rotate(glm::mat4(1), mm(2 * kPi * i / std::max(chuck.jaws, 3)), {1, 0, 0}));
        mesh.append(slot);
    }
    return mesh;
}

// Rectangles with the corners away from the axis broken; other shapes as they are.
std::vector<Point> broken(const std::vector<Point>& section) {
    if (section.size() != 4) return section;
    const double length = section[1].z - section[0].z, height = section[2].r - section[1].r;
    const double by = std::min({1.5, 0.2 * length, 0.2 * height});
    const Point a = section[2], b = section[3];
    return {section[0], section[1], {a.z, a.r - by}, {a.z - by, a.r}, {b.z + by, b.r}, {b.z, b.r - by}};
}

}  // namespace

ChuckShape shapeOf(const Chuck& chuck, const Stock& stock) {
    ChuckShape shape;
    if (chuck.bodyRadius > 0 && chuck.bodyLength > 0) {
        const double bore = std::max(0.30 * chuck.bodyRadius, stock.outerRadius + 2);
        shape.body = turned(chuckProfile(chuck, bore), palette::kChuck, kTurned, 96);
    }
    if (chuck.jawLength <= 0 || chuck.jawOuterRadius <= stock.outerRadius) return shape;
    if (chuck.kind == Chuck::Kind::Collet) {
        shape.jaws = colletNose(chuck, stock.outerRadius);
        return shape;
    }
    const bool inside = chuck.grip == Chuck::Grip::Inside && stock.boreRadius > 0;
    const TriangleMesh jaw = inside ? oneInnerJaw(chuck, stock.boreRadius) : oneJaw(chuck, stock.outerRadius);
    for (int i = 0; i < chuck.jaws; ++i) {
        TriangleMesh copy = jaw;
        const double angle = 2 * kPi * i / chuck.jaws;
        copy.transform(glm::rotate(glm::mat4(1), mm(angle), {1, 0, 0}));
        shape.jaws.append(copy);
    }
    return shape;
}

TriangleMesh turnedShape(const MachineBody& body, std::uint32_t rgb) {
    TriangleMesh mesh;
    const bool painted = body.kind == BodyKind::TailstockCasting;
    for (const std::vector<Point>& section : body.sections)
        mesh.append(turned(broken(section), rgb, painted ? kPaint : kTurned, 72));
    return painted ? inOpenLight(std::move(mesh)) : mesh;
}

TriangleMesh facedAbout(TriangleMesh mesh) {
    for (Vertex& v : mesh.vertices) {
        v.place.x = -v.place.x;
        v.normal.x = -v.normal.x;
    }
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) std::swap(mesh.indices[i + 1], mesh.indices[i + 2]);
    return mesh;
}

TriangleMesh headstockShape(const Chuck& chuck) {
    const float R = mm(std::max(chuck.bodyRadius, 40.0)), back = mm(-chuck.bodyLength);
    TriangleMesh mesh;
    Polygon nose = regular(64, 0.78f * R);
    TriangleMesh spindle = prism({nose, back - 0.25f * R, back + 0.5f, 0}, packColour(palette::kChuck, kGround));
    spindle.transform(kAlongSpindle);
    mesh.append(spindle);
    const float face = back - 0.22f * R;
    mesh.append(box({face - 9.0f * R, -1.5f * R, -3.0f * R}, {face, 1.5f * R, 1.15f * R}, 0.14f * R,
                    packColour(palette::kHeadstock, kPaint)));
    TriangleMesh ring =
        prism({regular(64, 1.08f * R), face, face + 0.06f * R, 0.03f * R}, packColour(palette::kHeadstock, kGround));
    ring.transform(kAlongSpindle);
    mesh.append(ring);
    return mesh;
}

TriangleMesh tailstockFoot(const Tailstock& tailstock, float bedDepth) {
    TriangleMesh mesh;
    const float R = mm(tailstock.quillRadius);
    if (R <= 0) return mesh;
    const double cone = tailstock.centreAngle > 0 ? tailstock.centreRadius / std::tan(tailstock.centreAngle / 2) : 0;
    const float from = mm(std::max(cone, tailstock.centreLength) + tailstock.quillLength);
    const std::uint32_t colour = packColour(palette::kHeadstock, kPaint);
    if (tailstock.castingRadius > 0 && tailstock.castingLength > 0) {
        const float r = mm(tailstock.castingRadius), length = mm(tailstock.castingLength);
        const float half = 0.8f * r;
        if (bedDepth > half)
            mesh.append(box({from + 0.08f * length, -half, -bedDepth}, {from + 0.92f * length, half, -0.5f * half},
                            0.1f * r, colour));
        return mesh;
    }
    const float length = 4.2f * R;
    TriangleMesh barrel = prism({regular(48, 1.75f * R), from, from + length, 0.14f * R}, colour);
    barrel.transform(kAlongSpindle);
    mesh.append(barrel);
    mesh.append(
        box({from + 0.2f * R, -1.5f * R, -bedDepth}, {from + length - 0.2f * R, 1.5f * R, 0}, 0.15f * R, colour));
    return mesh;
}

TriangleMesh bedShape(float fromX, float toX, float depth, float rails) {
    constexpr int kColumns = 44;
    constexpr float kRailHalf = 9, kLow = -900, kHigh = 1100, kRow = 62;  // mm
    struct Strip {
        float from, to;
        bool rail;
    };
    const std::array<Strip, 5> strips = {{{kLow, -rails - kRailHalf, false},
                                          {-rails - kRailHalf, -rails + kRailHalf, true},
                                          {-rails + kRailHalf, rails - kRailHalf, false},
                                          {rails - kRailHalf, rails + kRailHalf, true},
                                          {rails + kRailHalf, kHigh, false}}};
    TriangleMesh mesh;
    for (const Strip& strip : strips) {
        const int rows = std::max(1, static_cast<int>((strip.to - strip.from) / kRow));
        const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
        for (int row = 0; row <= rows; ++row) {
            const float y = glm::mix(strip.from, strip.to, static_cast<float>(row) / static_cast<float>(rows));
            for (int column = 0; column <= kColumns; ++column) {
                const float x = glm::mix(fromX, toX, static_cast<float>(column) / kColumns);
                mesh.vertices.push_back({{x, y, depth}, {0, 0, 1}, packColour(strip.rail ? 0xff0000 : 0, 255), 0});
            }
        }
        constexpr std::uint32_t kAcross = kColumns + 1;
        for (std::uint32_t row = 0; row < static_cast<std::uint32_t>(rows); ++row) {
            for (std::uint32_t column = 0; column < kColumns; ++column) {
                const std::uint32_t a = first + row * kAcross + column;
                mesh.indices.insert(mesh.indices.end(), {a, a + 1, a + kAcross + 1, a, a + kAcross + 1, a + kAcross});
            }
        }
    }
    return mesh;
}

}  // namespace firstoff::gui
