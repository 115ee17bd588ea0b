#include "gui/scene/body_shapes.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gui/scene/machine_shape.h"
#include "gui/scene/palette.h"
#include "gui/scene/revolved_mesh.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/solid_shapes.h"
#include "gui/scene/tool_shape.h"
#include "gui/scene/turret_shape.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

constexpr std::uint8_t kPaint = 40, kGround = 165;  // gloss
constexpr std::uint32_t kGuard = 0x8aa0ae, kSteady = 0x7c8790;

void addFacet(TriangleMesh& mesh, const std::vector<glm::vec3>& corners, glm::vec3 normal, std::uint32_t colour) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    for (const glm::vec3& p : corners) mesh.vertices.push_back({p, normal, colour, 0});
    for (std::uint32_t i = 1; i + 1 < corners.size(); ++i) {
        mesh.indices.insert(mesh.indices.end(), {first, first + i, first + i + 1});
    }
}

// Corners of the plane through `a`, anticlockwise seen from outside.
std::vector<glm::vec3> facetOn(const std::vector<glm::vec3>& points, glm::vec3 a, glm::vec3 normal) {
    constexpr float kFlat = 2e-4f;  // mm, single precision at machine sizes
    const glm::vec3 u =
        glm::normalize(std::abs(normal.x) < 0.7f ? glm::cross(normal, {1, 0, 0}) : glm::cross(normal, {0, 1, 0}));
    const glm::vec3 v = glm::cross(normal, u);
    std::vector<glm::vec2> flat;
    for (const glm::vec3& p : points) {
        if (std::abs(glm::dot(p - a, normal)) < kFlat) flat.push_back({glm::dot(p - a, u), glm::dot(p - a, v)});
    }
    std::vector<glm::vec3> corners;
    for (const glm::vec2& p : convexHull(std::move(flat))) corners.push_back(a + p.x * u + p.y * v);
    return corners;
}

// Every plane through three corners that has all others on one side is a face. Bodies have few corners.
void addHull(TriangleMesh& mesh, const ConvexPiece& piece, std::uint32_t colour) {
    std::vector<glm::vec3> points;
    for (const SpacePoint& p : piece.corners) points.push_back(inScene(p));
    const std::size_t n = points.size();
    std::vector<glm::vec4> done;  // planes
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i + 1; j < n; ++j) {
            for (std::size_t k = j + 1; k < n; ++k) {
                glm::vec3 normal = glm::cross(points[j] - points[i], points[k] - points[i]);
                const float size = glm::length(normal);
                if (size < 1e-5f) continue;
                normal /= size;
                float above = 0, below = 0;
                for (const glm::vec3& p : points) {
                    const float d = glm::dot(p - points[i], normal);
                    above = std::max(above, d);
                    below = std::min(below, d);
                }
                if (above > 1e-3f && below < -1e-3f) continue;
                if (above > 1e-3f) normal = -normal;
                const glm::vec4 plane(normal, glm::dot(normal, points[i]));
                const bool known = std::any_of(done.begin(), done.end(), [&](const glm::vec4& other) {
                    return glm::dot(glm::vec3(other), normal) > 0.99999f && std::abs(other.w - plane.w) < 1e-2f;
                });
                if (known) continue;
                done.push_back(plane);
                addFacet(mesh, facetOn(points, points[i], normal), normal, colour);
            }
        }
    }
}

void addTriangle(TriangleMesh& mesh, const ConvexPiece& piece, std::uint32_t colour) {
    const glm::vec3 a = inScene(piece.corners[0]), b = inScene(piece.corners[1]), c = inScene(piece.corners[2]);
    const glm::vec3 normal = glm::cross(b - a, c - a);
    const float size = glm::length(normal);
    if (size > 0) addFacet(mesh, {a, b, c}, normal / size, colour);
}

void addTurned(TriangleMesh& mesh, const ConvexPiece& piece, std::uint32_t colour) {
    std::vector<glm::vec2> flat;
    for (const Point& p : piece.halfSection) {
        flat.push_back({mm(p.z), mm(p.r)});
        flat.push_back({mm(p.z), 0});
    }
    Loop loop;
    for (const glm::vec2& p : convexHull(std::move(flat))) {
        loop.points.push_back({static_cast<double>(p.x), static_cast<double>(p.y)});
    }
    RevolveOptions options;
    options.sectors = 48;
    options.smoothAngle = 0.02;  // rad: corners of machine parts are corners
    options.colour = [colour](CutId) { return colour; };
    TriangleMesh turned = revolve({&loop, 1}, options);
    for (Vertex& v : turned.vertices) v.along = 0;  // in open light, see solid.vert
    turned.transform(glm::translate(glm::mat4(1), {0, mm(piece.axisR), mm(piece.axisY)}));
    mesh.append(turned);
}

TriangleMesh toolShape(const MachineBody& body, const Setup& setup) {
    const Tool& tool = setup.tools[static_cast<std::size_t>(body.toolIndex)];
    if (body.kind == BodyKind::Block) {
        const std::optional<ToolBlock> block = toolBlockOf(setup, tool);
        return block ? blockShape(*block) : TriangleMesh{};
    }
    ToolShape parts = shapeOf(tool);
    TriangleMesh mesh = std::move(body.kind == BodyKind::Edge ? parts.edge : parts.holder);
    mesh.transform(glm::translate(glm::mat4(1), {mm(tool.tip.z), mm(tool.tip.r), 0}));
    return mesh;
}

// From working position to where it stands with station 1 there.
TriangleMesh atStation(TriangleMesh mesh, int station, const firstoff::MachineBodies& machine) {
    const glm::vec3 axis(0, mm(machine.turretAxisR), 0);
    glm::mat4 turn = glm::translate(glm::mat4(1), axis);
    turn = glm::rotate(turn, mm(-machine.turnOf(station)), {1, 0, 0});
    mesh.transform(glm::translate(turn, -axis));
    return mesh;
}

TriangleMesh chuckShape(const MachineBody& body, const Chuck& chuck, const Stock& stock) {
    ChuckShape shape = shapeOf(chuck, stock);
    const bool jaws = body.kind == BodyKind::Jaws || body.kind == BodyKind::SecondJaws;
    return std::move(jaws ? shape.jaws : shape.body);
}

// Its jaws are drawn as far open as the bar is thick.
TriangleMesh secondChuckShape(const MachineBody& body, const Setup& setup) {
    const Chuck& chuck = setup.secondSpindle->chuck;
    Stock held;
    held.outerRadius = std::min(setup.stock.outerRadius, 0.8 * chuck.jawOuterRadius);
    return facedAbout(chuckShape(body, chuck, held));
}

std::uint32_t colourOf(BodyKind kind) {
    switch (kind) {
        case BodyKind::Guard:
        case BodyKind::Door:
            return packColour(kGuard, kPaint);
        case BodyKind::SteadyRest:
            return packColour(kSteady, kGround);
        default:
            return packColour(palette::kHeadstock, kPaint);
    }
}

}  // namespace

TriangleMesh piecesShape(const std::vector<ConvexPiece>& pieces, std::uint32_t colour) {
    TriangleMesh mesh;
    for (const ConvexPiece& piece : pieces) {
        if (piece.isTurned()) {
            addTurned(mesh, piece, colour);
        } else if (piece.corners.size() == 3) {
            addTriangle(mesh, piece, colour);
        } else {
            addHull(mesh, piece, colour);
        }
    }
    return mesh;
}

TriangleMesh shapeOf(const MachineBody& body, const Setup& setup, const firstoff::MachineBodies& machine) {
    switch (body.kind) {
        case BodyKind::Billet:
            return {};
        case BodyKind::ChuckBody:
        case BodyKind::Jaws:
            return chuckShape(body, setup.chuck, setup.stock);
        case BodyKind::SecondChuckBody:
        case BodyKind::SecondJaws:
            return secondChuckShape(body, setup);
        case BodyKind::Centre:
            return turnedShape(body, palette::kCentre);
        case BodyKind::Quill:
            return turnedShape(body, palette::kQuill);
        case BodyKind::TailstockCasting:
            return turnedShape(body, palette::kHeadstock);
        case BodyKind::TurretHead:
            return headShape(setup);
        case BodyKind::TurretDisc:
            return setup.turret->kind == Turret::Kind::Disc ? discShape(setup, machine) : plateShape(setup);
        case BodyKind::Block:
        case BodyKind::Holder:
        case BodyKind::Edge:
            return atStation(toolShape(body, setup), body.station, machine);
        case BodyKind::SteadyRest:
        case BodyKind::Guard:
        case BodyKind::Door:
        case BodyKind::Other:
            break;
    }
    return piecesShape(body.pieces, colourOf(body.kind));
}

}  // namespace firstoff::gui
