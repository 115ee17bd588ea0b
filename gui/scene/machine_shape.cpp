#include "gui/scene/machine_shape.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/palette.h"
#include "gui/scene/revolved_mesh.h"
#include "gui/scene/solid_shapes.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

constexpr std::uint8_t kPaint = 40, kGround = 190;  // gloss
constexpr std::uint8_t kTurned = 200;               // fineness
constexpr double kSquare = 0.02;                    // rad: corners of machine parts are corners

float mm(double value) {
    return static_cast<float>(value);
}

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

TriangleMesh oneJaw(const Chuck& chuck, double gripRadius) {
    const float inner = mm(std::max(gripRadius, 1.5));
    const float outer = std::max(mm(chuck.jawOuterRadius), inner + 12);
    const float length = mm(chuck.jawLength), width = mm(std::max(chuck.jawWidth, 6.0));
    const float reach = outer - inner;
    const std::array<JawStep, 3> steps = {{{inner, inner + 0.40f * reach, length},
                                           {inner + 0.02f * reach, inner + 0.72f * reach, 0.62f * length},
                                           {inner + 0.04f * reach, outer, 0.34f * length}}};
    const float noseWidth = std::min(0.55f * width, 0.9f * inner + 3);
    const std::uint32_t colour = packColour(palette::kJaw, kGround);
    TriangleMesh mesh;
    for (const JawStep& step : steps) {
        mesh.append(prism({jawOutline(step.inner, step.outer, width, noseWidth), 0.02f, step.height, 0.9f}, colour));
    }
    const float screw = std::min(0.2f * width, 0.11f * reach);
    mesh.append(screwHead(inner + 0.565f * reach, steps[1].height, screw));
    mesh.append(screwHead(inner + 0.86f * reach, steps[2].height, screw));
    // The guideway in the face of the body.
    const float slot = 0.36f * width;
    mesh.append(prism({rectangle({inner + 2, -slot}, {0.9f * mm(chuck.bodyRadius), slot}), -1, 0.12f, 0},
                      packColour(0x23262b, kPaint)));
    mesh.transform(kAlongSpindle);
    shadeTowards(mesh, 0, 0.8f * length, 0.45f);
    return mesh;
}

}  // namespace

ChuckShape shapeOf(const Chuck& chuck, const Stock& stock) {
    ChuckShape shape;
    if (chuck.bodyRadius <= 0 || chuck.bodyLength <= 0) return shape;
    const double bore = std::max(0.30 * chuck.bodyRadius, stock.outerRadius + 2);
    shape.body = turned(chuckProfile(chuck, bore), palette::kChuck, kTurned, 96);
    if (chuck.jaws <= 0 || chuck.jawLength <= 0) return shape;
    const TriangleMesh jaw = oneJaw(chuck, stock.outerRadius);
    for (int i = 0; i < chuck.jaws; ++i) {
        TriangleMesh copy = jaw;
        const double angle = 2 * kPi * i / chuck.jaws;
        copy.transform(glm::rotate(glm::mat4(1), mm(angle), {1, 0, 0}));
        shape.jaws.append(copy);
    }
    return shape;
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

TriangleMesh shapeOf(const Tailstock& tailstock) {
    const double tip = tailstock.tipZ, rc = tailstock.centreRadius, rq = tailstock.quillRadius;
    if (rc <= 0 || rq <= 0 || tailstock.centreAngle <= 0) return {};
    const double cone = tip + rc / std::tan(tailstock.centreAngle / 2);
    const double housing = std::max(std::min(1.9 * rc, 0.98 * rq), 1.15 * rc);
    const double housingFrom = cone + 0.5 * rc, housingTo = housingFrom + 1.5 * housing;
    const double end = std::max(housingTo + 10, tip + tailstock.quillLength);
    std::vector<Point> points = {{tip, 0},
                                 {end, 0},
                                 {end, rq},
                                 {housingTo + 6, rq},
                                 {housingTo + 4, rq - 2},
                                 {housingTo + 4, 0.8 * housing},
                                 {housingTo, 0.8 * housing},
                                 {housingTo, housing - 1},
                                 {housingTo - 1, housing},
                                 {housingFrom + 3, housing},
                                 {housingFrom, housing - 3},
                                 {housingFrom, rc},
                                 {cone, rc}};
    return turned(std::move(points), palette::kCentre, kTurned, 60);
}

TriangleMesh tailstockBody(const Tailstock& tailstock, float bedDepth) {
    TriangleMesh mesh;
    const float R = mm(tailstock.quillRadius);
    if (R <= 0) return mesh;
    const float from = mm(tailstock.tipZ + tailstock.quillLength) - 12;
    const float length = 4.2f * R;
    TriangleMesh barrel =
        prism({regular(48, 1.75f * R), from, from + length, 0.14f * R}, packColour(palette::kHeadstock, kPaint));
    barrel.transform(kAlongSpindle);
    mesh.append(barrel);
    mesh.append(box({from + 0.2f * R, -1.5f * R, -bedDepth}, {from + length - 0.2f * R, 1.5f * R, 0}, 0.15f * R,
                    packColour(palette::kHeadstock, kPaint)));
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
