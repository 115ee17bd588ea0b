#include "gui/scene/tool_shape.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>
#include <utility>
#include <vector>

#include "gui/scene/palette.h"
#include "gui/scene/revolved_mesh.h"
#include "gui/scene/scene_frame.h"
#include "gui/scene/solid_shapes.h"
#include "sim/base/units.h"

namespace firstoff::gui {

namespace {

constexpr std::uint8_t kPolished = 235, kSatin = 150, kOxide = 70;  // gloss

Polygon polygonOf(const Outline& outline) {
    if (outline.empty()) return {};
    constexpr double kChordMm = 0.01;  // an insert's nose still looks round when it fills the picture
    Polygon polygon;
    for (Point p : polyline(outline, kChordMm)) polygon.push_back(flat(p));
    return polygon;
}

// The hull of the corners that stand further apart than `apart` mm: what lies under an insert need not follow its nose.
Polygon roughHull(Polygon polygon, float apart) {
    polygon = convexHull(std::move(polygon));
    Polygon kept;
    for (glm::vec2 p : polygon) {
        const bool near =
            !kept.empty() && (glm::distance(kept.back(), p) < apart || glm::distance(kept.front(), p) < apart);
        if (!near) kept.push_back(p);
    }
    return kept;
}

glm::vec2 middleOf(const Polygon& polygon) {
    glm::vec2 low = polygon.front(), high = low;
    for (glm::vec2 p : polygon) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    return 0.5f * (low + high);
}

// Shapes are built with the rake face up (+z) at height 0; turned over when the metal comes from the other side.
void setAtCentreHeight(TriangleMesh& mesh, const Tool& tool) {
    const bool over = tool.needs != SpindleDirection::Reverse;
    if (over) {
        for (Vertex& v : mesh.vertices) {
            v.place.z = -v.place.z;
            v.normal.z = -v.normal.z;
        }
        for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3)
            std::swap(mesh.indices[i + 1], mesh.indices[i + 2]);
    }
    const float height = mm(over ? -tool.centreHeight : tool.centreHeight);
    for (Vertex& v : mesh.vertices) v.place.z += height;
}

float insertThickness(const Tool& tool) {
    return std::clamp(mm(tool.edgeLength) * 0.38f, 1.6f, 6.4f);
}

// Screw in the middle of an insert: a shallow dark ring and its head.
void addScrew(TriangleMesh& mesh, glm::vec2 at, float radius) {
    for (int part = 0; part < 2; ++part) {
        Polygon ring = regular(18, radius * (part == 0 ? 1.0f : 0.72f));
        for (glm::vec2& p : ring) p += at;
        mesh.append(prism({ring, -0.5f, part == 0 ? 0.03f : 0.12f, part == 0 ? 0.0f : 0.08f},
                          packColour(part == 0 ? 0x2b2d31 : 0x8e939b, kSatin)));
    }
}

TriangleMesh insertBody(const Tool& tool, const Polygon& outline) {
    const float thick = insertThickness(tool);
    constexpr float kClearance = 0.123f;  // tan 7°, the usual flank of a screwed insert; common practice, no source
    TriangleMesh mesh =
        prism({outline, -thick, 0, 0.08f, kClearance * thick}, packColour(palette::kInsertGold, kPolished));
    addScrew(mesh, middleOf(outline), std::clamp(mm(tool.edgeLength) * 0.19f, 0.6f, 3.0f));
    return mesh;
}

Polygon shrunk(const Polygon& polygon, float share) {
    const glm::vec2 middle = middleOf(polygon);
    Polygon result;
    for (glm::vec2 p : polygon) result.push_back(middle + share * (p - middle));
    return result;
}

// The seat under the insert, drawn out to the shank: the hull of both.
Polygon headPolygon(const Polygon& insert, const Polygon& shankEnd) {
    Polygon points = shrunk(insert, 0.80f);
    points.insert(points.end(), shankEnd.begin(), shankEnd.end());
    const glm::vec2 size = shankEnd[2] - shankEnd[0];
    return roughHull(std::move(points), std::clamp(0.14f * std::max(size.x, size.y), 0.5f, 3.0f));
}

float shankHeight(const Tool& tool) {
    return tool.head && tool.head->shankHeight > 0 ? mm(tool.head->shankHeight) : mm(tool.shankSize);
}

// A shank across the axis. Its top is level with the rake face.
TriangleMesh squareShank(const Tool& tool, const Polygon& insert) {
    TriangleMesh mesh;
    if (tool.holder.empty()) return mesh;
    const Box reach = boundingBox(tool.holder);
    const float size = shankHeight(tool);
    const std::uint32_t colour = packColour(palette::kHolder, kOxide);
    mesh.append(prism({convexHull(polygonOf(tool.holder)), -size, -0.1f, 0.6f}, colour));
    // The end next to the insert, wherever that is.
    const glm::vec2 low(mm(reach.zMin), mm(reach.rMin)), high(mm(reach.zMax), mm(reach.rMax));
    const bool below = middleOf(insert).y < 0.5f * (low.y + high.y);
    const float end = below ? low.y : high.y;
    const float seat = insertThickness(tool);
    if (tool.head) {
        // The head is part of the outline; only the seat under the insert is wanting.
        mesh.append(prism({roughHull(shrunk(insert, 0.80f), 0.5f), -0.8f * size, -seat, 0.5f, 0.06f * size}, colour));
        return mesh;
    }
    const float depth = std::min(0.5f * size, 0.4f * (high.y - low.y)) * (below ? 1.0f : -1.0f);
    const Polygon shankEnd = rectangle({low.x, std::min(end, end + depth)}, {high.x, std::max(end, end + depth)});
    mesh.append(prism({headPolygon(insert, shankEnd), -0.92f * size, -seat, 0.5f, 0.06f * size}, colour));
    return mesh;
}

// A round bar along the axis with its nose flattened to the seat. What of its head stands out of the bar is flat.
TriangleMesh boringBar(const Tool& tool, const Polygon& insert) {
    TriangleMesh mesh;
    if (tool.holder.empty()) return mesh;
    const Box reach = boundingBox(tool.holder);
    float low = mm(reach.rMax), high = mm(reach.rMin);
    for (const OutlineElement& e : tool.holder.elements) {
        if (e.from.z < reach.zMax - 1e-6) continue;
        low = std::min(low, mm(e.from.r));
        high = std::max(high, mm(e.from.r));
    }
    const float radius = 0.5f * (high - low), middle = 0.5f * (high + low);
    const std::uint32_t colour = packColour(palette::kHolder, kSatin);
    TriangleMesh bar = prism({regular(28, radius), mm(reach.zMin) + 0.8f * radius, mm(reach.zMax), 0.4f}, colour);
    // (a, b, c) of the prism to (c, a, b): the bar lies along x.
    bar.transform(
        glm::mat4(glm::vec4(0, 1, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(1, 0, 0, 0), glm::vec4(0, middle, 0, 1)));
    mesh.append(bar);
    const float zEnd = mm(reach.zMin);
    const Polygon shankEnd =
        rectangle({zEnd + 0.8f * radius, middle - 0.9f * radius}, {zEnd + 1.4f * radius, middle + 0.9f * radius});
    const float seat = std::min(insertThickness(tool), 0.8f * radius);
    mesh.append(prism({headPolygon(insert, shankEnd), -0.8f * radius, -seat, 0.3f, 0.1f * radius}, colour));
    return mesh;
}

// Blade under a grooving or parting insert.
TriangleMesh blade(const Tool& tool, const Polygon& outline) {
    const glm::vec2 middle = middleOf(outline);
    glm::vec2 low = middle, high = middle;
    for (glm::vec2 p : outline) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    const float side = std::min(0.08f * (high.x - low.x), 0.3f);
    const bool outwards = middle.y > 0;  // the blade stands away from the axis side of its edge
    const float keep = mm(tool.width) * 0.9f;
    const glm::vec2 a(low.x + side, outwards ? low.y + keep : low.y),
        b(high.x - side, outwards ? high.y : high.y - keep);
    return prism({rectangle(a, b), -0.8f * mm(tool.shankSize), -0.6f, 0.1f}, packColour(palette::kHolder, kSatin));
}

// The shank that a blade stands in.
TriangleMesh bladeShank(const Tool& tool) {
    if (tool.holder.empty()) return {};
    const Box reach = boundingBox(tool.holder);
    return prism({rectangle({mm(reach.zMin), mm(reach.rMin)}, {mm(reach.zMax), mm(reach.rMax)}), -shankHeight(tool),
                  -0.1f, 0.8f},
                 packColour(palette::kHolder, kOxide));
}

// The insert of a grooving tool: the front of its outline, about as deep as twice its width.
TriangleMesh grooveInsert(const Tool& tool, const Polygon& outline) {
    const float depth = std::clamp(2.2f * mm(tool.width), 3.0f, 12.0f);
    const bool outwards = middleOf(outline).y > 0;
    float edge = outline.front().y;
    for (glm::vec2 p : outline) edge = outwards ? std::min(edge, p.y) : std::max(edge, p.y);
    Polygon front;
    float limit = outwards ? edge + depth : edge - depth;
    for (glm::vec2 p : outline) {
        p.y = outwards ? std::min(p.y, limit) : std::max(p.y, limit);
        front.push_back(p);
    }
    const float thick = std::clamp(1.1f * mm(tool.width), 2.0f, 5.0f);
    return prism({convexHull(front), -thick, 0, 0.06f, 0.1f * thick}, packColour(palette::kInsertGold, kPolished));
}

// Twist drill. One cross-section of two lands and two flutes, turned along the length; every ring is set back along the
// axis by its own radius over tan(point angle / 2), so that the end is the cone of the point.
class TwistDrill {
public:
    explicit TwistDrill(const Tool& tool)
        : radius_(mm(tool.diameter / 2)),
          perRadius_(1 / mm(std::tan(tool.pointAngle / 2))),
          length_(std::max(mm(tool.fluteLength), radius_ * perRadius_ * 1.2f)) {}

    TriangleMesh mesh() {
        rings();
        walls();
        point();
        return std::move(mesh_);
    }

private:
    static constexpr int kAround = 32;
    static constexpr float kHelix = 0.5236f;  // 30°, common practice, no source

    // Share of the radius round the cross-section: lands at both ends of the first axis, flutes between.
    static float share(float angle) {
        const float c = std::abs(std::cos(angle));
        return c > 0.72f ? 1.0f : 0.48f + 0.52f * std::pow(c / 0.72f, 1.6f);
    }

    void rings() {
        count_ = std::clamp(static_cast<int>(length_ / (0.35f * radius_)), 12, 64);
        for (int ring = 0; ring <= count_; ++ring) {
            const float along = length_ * static_cast<float>(ring) / static_cast<float>(count_);
            const float twist = along * std::tan(kHelix) / radius_;
            for (int i = 0; i < kAround; ++i) {
                const float angle = 6.2831853f * static_cast<float>(i) / kAround;
                const float r = radius_ * share(angle);
                const float turned = angle + twist;
                // The point's lip: x follows the cone near the tip and the plain ring further back.
                const float x = std::max(along, r * perRadius_);
                mesh_.vertices.push_back({{x, r * std::cos(turned), r * std::sin(turned)}, {0, 0, 0}, colour(), 0});
            }
        }
        smoothNormals_ = true;
    }

    std::uint32_t at(int ring, int i) const { return static_cast<std::uint32_t>(ring * kAround + (i % kAround)); }

    void walls() {
        for (int ring = 0; ring < count_; ++ring) {
            for (int i = 0; i < kAround; ++i) {
                triangle(at(ring, i), at(ring + 1, i + 1), at(ring + 1, i));
                triangle(at(ring, i), at(ring, i + 1), at(ring + 1, i + 1));
            }
        }
        for (Vertex& v : mesh_.vertices) {
            const float size = glm::length(v.normal);
            v.normal = size > 0 ? v.normal / size : glm::normalize(glm::vec3(0, v.place.y, v.place.z));
        }
    }

    void point() {
        const auto tip = static_cast<std::uint32_t>(mesh_.vertices.size());
        mesh_.vertices.push_back({{0, 0, 0}, {-1, 0, 0}, colour(), 0});
        for (int i = 0; i < kAround; ++i) {
            const glm::vec3 place = mesh_.vertices[at(0, i)].place;
            const glm::vec3 normal =
                glm::normalize(glm::vec3(-1, place.y * perRadius_ / radius_, place.z * perRadius_ / radius_));
            mesh_.vertices.push_back({place, normal, colour(), 0});
        }
        for (std::uint32_t i = 0; i < kAround; ++i) {
            mesh_.indices.insert(mesh_.indices.end(), {tip, tip + 1 + (i + 1) % kAround, tip + 1 + i});
        }
    }

    void triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
        Vertex& va = mesh_.vertices[a];
        Vertex& vb = mesh_.vertices[b];
        Vertex& vc = mesh_.vertices[c];
        const glm::vec3 n = glm::cross(vb.place - va.place, vc.place - va.place);
        if (glm::dot(n, n) < 1e-12f) return;
        va.normal += n;
        vb.normal += n;
        vc.normal += n;
        mesh_.indices.insert(mesh_.indices.end(), {a, b, c});
    }

    static std::uint32_t colour() { return packColour(palette::kDrillSteel, kPolished); }

    TriangleMesh mesh_;
    float radius_, perRadius_, length_;
    int count_ = 0;
    bool smoothNormals_ = false;
};

// Drills in steps, centre drills and reamers: turned, without their flutes.
TriangleMesh steppedBody(const Tool& tool) {
    std::vector<Point> points{{tool.fluteLength, 0}};
    double radius = tool.diameter / 2;
    if (tool.kind == ToolKind::Reamer) {
        points.push_back({0, 0});
        points.push_back({0, radius - tool.chamferLength * std::tan(tool.chamferAngle)});
        points.push_back({tool.chamferLength, radius});
    } else {
        points.push_back({0, 0});
        points.push_back({radius / std::tan(tool.pointAngle / 2), radius});
    }
    for (const DrillStep& step : tool.drillSteps) {
        points.push_back({step.at, radius});
        const bool flat = step.angle >= kPi - 1e-9;
        points.push_back({step.at + (flat ? 0 : (step.radius - radius) / std::tan(step.angle / 2)), step.radius});
        radius = step.radius;
    }
    points.push_back({tool.fluteLength, radius});
    // From the back along the axis to the point and back along the outside: anticlockwise is the other way.
    std::reverse(points.begin(), points.end());
    const Loop loop{0, std::move(points), {}};
    RevolveOptions options;
    options.sectors = 40;
    options.smoothAngle = 0.02;  // rad: its corners are corners
    options.colour = [](CutId) { return packColour(palette::kDrillSteel, kPolished); };
    return revolve({&loop, 1}, options);
}

// The V of a threading insert, as deep as it cuts, and its crest flat; what holds it is the head of the holder.
TriangleMesh threadInsert(const Tool& tool, const Polygon& outline) {
    const float thick = std::clamp(0.9f * mm(tool.cuttingDepth), 1.2f, 4.0f);
    const std::uint32_t colour = packColour(palette::kInsertGold, kPolished);
    TriangleMesh mesh = prism({outline, -thick, 0, 0.05f, 0.12f * thick}, colour);
    for (const Outline& part : tool.steps) mesh.append(prism({polygonOf(part), -thick, 0, 0.05f, 0}, colour));
    return mesh;
}

// Cross-section of a tap: four lands, flat between them.
Polygon tapLands(float radius) {
    constexpr float kHalfLand = 0.35f;  // rad
    Polygon polygon;
    for (int land = 0; land < 4; ++land) {
        for (float off : {-kHalfLand, 0.0f, kHalfLand}) {
            const float angle = 1.5707963f * static_cast<float>(land) + off;
            polygon.push_back(radius * glm::vec2(std::cos(angle), std::sin(angle)));
        }
    }
    return polygon;
}

// A tap as a stack of its threads, growing over the chamfer.
TriangleMesh tapBody(const Tool& tool) {
    constexpr int kMostThreads = 80;
    const float radius = mm(tool.diameter / 2), pitch = mm(tool.pitch), length = mm(tool.fluteLength);
    const float depth = 0.61f * pitch, chamfer = mm(tapChamferMm(tool));
    const int threads = std::clamp(static_cast<int>(length / pitch), 1, kMostThreads);
    const float step = length / static_cast<float>(threads);
    const std::uint32_t colour = packColour(palette::kDrillSteel, kPolished);
    TriangleMesh mesh;
    for (int i = 0; i < threads; ++i) {
        const float from = step * static_cast<float>(i);
        const float grown = std::min(1.0f, (from + step) / chamfer);
        const float r = radius - (1 - grown) * depth;
        mesh.append(prism({tapLands(r), from, from + step, std::min(0.4f * step, depth)}, colour));
    }
    mesh.transform(
        glm::mat4(glm::vec4(0, 1, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(1, 0, 0, 0), glm::vec4(0, 0, 0, 1)));
    return mesh;
}

TriangleMesh drillShank(const Tool& tool) {
    const float radius = mm(tool.shankSize) / 2;
    const float from = mm(tool.fluteLength), to = std::max(mm(tool.overhang), from + 4);
    TriangleMesh mesh = prism({regular(32, radius), from, to, 0.6f}, packColour(palette::kDrillSteel, kSatin));
    for (const Outline& chuck : tool.holderSteps) {
        const Box reach = boundingBox(chuck);
        const float bevel = std::min(2.0f, 0.15f * mm(reach.rMax));
        mesh.append(prism({regular(40, mm(reach.rMax)), mm(reach.zMin), mm(reach.zMax), bevel},
                          packColour(palette::kHolder, kSatin)));
    }
    mesh.transform(
        glm::mat4(glm::vec4(0, 1, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(1, 0, 0, 0), glm::vec4(0, 0, 0, 1)));
    return mesh;
}

}  // namespace

namespace {

// What stands along x and what stands along y change places.
void transpose(TriangleMesh& mesh) {
    for (Vertex& v : mesh.vertices) {
        std::swap(v.place.x, v.place.y);
        std::swap(v.normal.x, v.normal.y);
    }
    for (std::size_t i = 0; i + 2 < mesh.indices.size(); i += 3) std::swap(mesh.indices[i + 1], mesh.indices[i + 2]);
}

// A blade that stands along Z is drawn as one across it and laid over.
ToolShape faceBlade(Tool tool) {
    const Point tip = tipFromNoseCentre(tool.tipNumber);
    for (int number = 1; number <= 8; ++number) {
        if (tipFromNoseCentre(number) == Point{tip.r, tip.z}) {
            tool.tipNumber = number;
            break;
        }
    }
    tool.face = false;
    giveShape(tool);
    ToolShape shape = shapeOf(tool);
    transpose(shape.edge);
    transpose(shape.holder);
    return shape;
}

}  // namespace

ToolShape shapeOf(const Tool& tool) {
    ToolShape shape;
    if (tool.face && isBlade(tool.kind)) return faceBlade(tool);
    if (tool.kind == ToolKind::CentreDrill || tool.kind == ToolKind::StepDrill || tool.kind == ToolKind::Reamer) {
        if (tool.diameter <= 0) return shape;
        shape.edge = steppedBody(tool);
        shape.holder = drillShank(tool);
        return shape;
    }
    if (tool.kind == ToolKind::Drill) {
        if (tool.diameter <= 0 || tool.pointAngle <= 0) return shape;
        shape.edge = TwistDrill(tool).mesh();
        shape.holder = drillShank(tool);
        return shape;
    }
    if (tool.kind == ToolKind::Tap) {
        if (tool.diameter <= 0 || tool.pitch <= 0) return shape;
        shape.edge = tapBody(tool);
        shape.holder = drillShank(tool);
        return shape;
    }
    const Polygon outline = polygonOf(tool.cutting.empty() ? toolOutline(tool) : tool.cutting);
    if (outline.size() < 3) return shape;
    const bool groove = tool.kind == ToolKind::Grooving || tool.kind == ToolKind::Parting;
    if (groove) {
        shape.edge = grooveInsert(tool, outline);
        shape.edge.append(blade(tool, outline));
        shape.holder = standsAlongZ(tool) && !tool.face ? boringBar(tool, outline) : bladeShank(tool);
    } else if (tool.kind == ToolKind::Threading) {
        shape.edge = threadInsert(tool, outline);
        shape.holder = tool.inside ? boringBar(tool, outline) : squareShank(tool, outline);
    } else {
        shape.edge = insertBody(tool, outline);
        shape.holder = tool.kind == ToolKind::Boring ? boringBar(tool, outline) : squareShank(tool, outline);
    }
    setAtCentreHeight(shape.edge, tool);
    setAtCentreHeight(shape.holder, tool);
    return shape;
}

}  // namespace firstoff::gui
