#include "gui/scene/finish_strip.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "gui/gl/mesh.h"
#include "gui/gl/small_objects.h"
#include "gui/scene/overlay.h"
#include "gui/scene/palette.h"
#include "gui/scene/studio.h"
#include "sim/cutting/profile_plot.h"

namespace firstoff::gui {

namespace {

constexpr double kMarksShown = 8;
constexpr double kTallest = 11;        // of the marks, units
constexpr float kBack = -52;           // how far the surface runs back
constexpr int kColumns = 600;          // a few for each pixel of a wide picture
constexpr float kSmoothAngle = 0.45f;  // corners sharper than this are edges, rad
constexpr std::uint8_t kFine = 240;    // see surface_look.h: the grooves themselves are there

// The part of a line of points from `from` to `to`.
std::vector<PlotPoint> within(const std::vector<PlotPoint>& line, double from, double to) {
    std::vector<PlotPoint> part;
    for (const PlotPoint& p : line) {
        if (p.along >= from && p.along <= to) part.push_back(p);
    }
    return part;
}

glm::vec3 normalOf(glm::vec3 a, glm::vec3 b) {
    return glm::normalize(glm::vec3(a.y - b.y, b.x - a.x, 0));
}

// At a point of the edge, of the stretch that begins or ends there: shared with its neighbour unless a cusp stands
// there.
glm::vec3 normalAt(const std::vector<glm::vec3>& edge, std::size_t stretch, bool atEnd) {
    const glm::vec3 own = normalOf(edge[stretch], edge[stretch + 1]);
    const bool last = atEnd ? stretch + 2 == edge.size() : stretch == 0;
    if (last) return own;
    const std::size_t beside = atEnd ? stretch + 1 : stretch - 1;
    const glm::vec3 other = normalOf(edge[beside], edge[beside + 1]);
    return glm::dot(own, other) > std::cos(kSmoothAngle) ? glm::normalize(own + other) : own;
}

void addQuad(TriangleMesh& mesh, const Vertex (&corners)[4]) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.insert(mesh.vertices.end(), std::begin(corners), std::end(corners));
    for (std::uint32_t i : {0u, 1u, 2u, 0u, 2u, 3u}) mesh.indices.push_back(first + i);
}

void addStretch(FinishStrip& strip, std::size_t i) {
    const glm::vec3 a = strip.edge[i], b = strip.edge[i + 1], back(0, 0, kBack), front(0, 0, 1);
    const glm::vec3 na = normalAt(strip.edge, i, false), nb = normalAt(strip.edge, i, true);
    const std::uint32_t steel = packColour(palette::kCutSteel, kFine), cut = packColour(palette::kSection, 255);
    addQuad(strip.skin, {{a, na, steel}, {b, nb, steel}, {b + back, nb, steel}, {a + back, na, steel}});
    addQuad(strip.section, {{{a.x, 0, 0}, front, cut}, {{b.x, 0, 0}, front, cut}, {b, front, cut}, {a, front, cut}});
}

}  // namespace

FinishStrip finishStrip(const FinishReport& report) {
    assert(report.trouble.empty());
    const SurfaceProfile& profile = report.marks.profile;
    FinishStrip strip;
    strip.lengthMm = std::min(profile.length(), kMarksShown * report.marks.feedMax);
    strip.unitsPerMm = kStripLength / strip.lengthMm;
    const double from = (profile.length() - strip.lengthMm) / 2;
    const auto thinned = static_cast<int>(std::ceil(kColumns * profile.length() / strip.lengthMm));
    const std::vector<PlotPoint> line = within(plotLine(profile, thinned), from, from + strip.lengthMm);
    double lowest = line.front().height, highest = lowest;
    for (const PlotPoint& p : line) {
        lowest = std::min(lowest, p.height);
        highest = std::max(highest, p.height);
    }
    constexpr double kFlatMm = 1e-6;
    strip.magnified = roundMagnification(kTallest / strip.unitsPerMm / std::max(highest - lowest, kFlatMm));
    for (const PlotPoint& p : line) {
        strip.edge.emplace_back((p.along - from) * strip.unitsPerMm - kStripLength / 2,
                                kStripFloor + strip.unitsOfHeight(p.height - lowest), 0);
    }
    for (std::size_t i = 0; i + 1 < strip.edge.size(); ++i) addStretch(strip, i);
    return strip;
}

Camera stripCamera(float aspect) {
    constexpr float kSquareOn = 0.5235988f;  // see camera.h
    Camera camera;
    camera.fieldOfView = 0.15f;
    camera.elevation = kSquareOn + 0.46f;
    camera.target = {0, kStripFloor + 13, -9};
    // The nearest part of the strip, its section, just overfills the width.
    const float halfWidth = std::tan(camera.fieldOfView / 2) * aspect;
    camera.distance = 0.81f * static_cast<float>(kStripLength) / 2 / halfWidth + 16;
    return camera;
}

struct FinishPicture::State {
    Shader metal{"metal"}, section{"section"}, background{"background"};
    Overlay overlay;
    VertexArray empty;
    MeshBuffer skin, face;
};

FinishPicture::FinishPicture() : state_(std::make_unique<State>()) {}
FinishPicture::~FinishPicture() = default;

void FinishPicture::draw(const FinishStrip& strip, bool dark, int widthPx, int heightPx) {
    State& s = *state_;
    s.skin.upload(strip.skin);
    s.face.upload(strip.section);
    const Camera camera = stripCamera(static_cast<float>(widthPx) / static_cast<float>(std::max(1, heightPx)));
    Studio studio;
    studio.viewProjection =
        camera.projection(static_cast<float>(widthPx) / static_cast<float>(std::max(1, heightPx))) * camera.view();
    studio.eye = camera.eye();
    studio.towardsEye = camera.direction();
    studio.picture = glm::vec4(0, 0, widthPx, heightPx);
    studio.dark = dark;
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDisable(GL_BLEND);
    glDisable(GL_CULL_FACE);
    glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ZERO, GL_ONE);
    glClear(GL_DEPTH_BUFFER_BIT);
    studio.light(s.metal);
    s.metal.set("uModel", glm::mat4(1));
    s.metal.set("uAxis", glm::vec2(-540, 0));  // far below: the strip is a small piece of the round
    s.metal.set("uCutaway", 0.0f);
    s.metal.set("uShade", glm::vec4(0, 1, 0, 1));
    s.skin.draw();
    studio.light(s.section);
    s.section.set("uModel", glm::mat4(1));
    s.section.set("uSpacing", 10 * camera.mmPerPixel(heightPx));
    s.section.set("uLine", 0.13f);
    s.section.set("uSlope", 1.0f);
    s.section.set("uOpacity", 1.0f);
    s.face.draw();
    glDepthFunc(GL_LEQUAL);
    studio.light(s.background);
    s.empty.bind();
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    std::vector<Segment> edge;
    for (std::size_t i = 0; i + 1 < strip.edge.size(); ++i) edge.push_back({strip.edge[i], strip.edge[i + 1]});
    glEnable(GL_BLEND);
    glDisable(GL_DEPTH_TEST);
    s.overlay.lines(edge, {1.6f, glm::vec4(rgb(0x15181d), 0.9f)}, studio);
    glDisable(GL_BLEND);
    glDepthFunc(GL_LESS);
}

}  // namespace firstoff::gui
