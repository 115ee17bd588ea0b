#include "gui/scene/solid_shapes.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace firstoff::gui {

namespace {

float cross2(glm::vec2 a, glm::vec2 b) {
    return a.x * b.y - a.y * b.x;
}
glm::vec2 outwards(glm::vec2 edge) {
    return glm::normalize(glm::vec2(edge.y, -edge.x));
}

// One level of a prism: the polygon at a height, and how the side there leans outwards (+ up).
struct Level {
    Polygon polygon;
    float height;
};

class PrismBuilder {
public:
    PrismBuilder(TriangleMesh& mesh, std::uint32_t colour) : mesh_(mesh), colour_(colour) {}

    void cap(const Level& level, float up) {
        const auto first = next();
        for (glm::vec2 p : level.polygon) add({p, level.height}, {0, 0, up});
        for (std::uint32_t i = 1; i + 1 < level.polygon.size(); ++i) {
            if (up > 0) {
                triangle(first, first + i, first + i + 1);
            } else {
                triangle(first, first + i + 1, first + i);
            }
        }
    }

    // Both levels have the same number of corners.
    void side(const Level& low, const Level& high) {
        const std::size_t n = low.polygon.size();
        for (std::size_t i = 0; i < n; ++i) {
            const std::size_t j = (i + 1) % n;
            const glm::vec3 a(low.polygon[i], low.height), b(low.polygon[j], low.height);
            const glm::vec3 c(high.polygon[j], high.height), d(high.polygon[i], high.height);
            const glm::vec3 flat = facet(low, high, i);
            const auto first = next();
            add(a, blended(low, high, i, flat, false));
            add(b, blended(low, high, i, flat, true));
            add(c, blended(low, high, i, flat, true));
            add(d, blended(low, high, i, flat, false));
            triangle(first, first + 1, first + 2);
            triangle(first, first + 2, first + 3);
        }
    }

private:
    static glm::vec3 facet(const Level& low, const Level& high, std::size_t i) {
        const std::size_t j = (i + 1) % low.polygon.size();
        const glm::vec3 along(low.polygon[j] - low.polygon[i], 0);
        const glm::vec3 otherAlong(high.polygon[j] - high.polygon[i], 0);
        const glm::vec3 up(high.polygon[i] - low.polygon[i], high.height - low.height);
        const glm::vec3 longer = glm::dot(along, along) > glm::dot(otherAlong, otherAlong) ? along : otherAlong;
        return glm::normalize(glm::cross(longer, up));
    }

    static glm::vec3 blended(const Level& low, const Level& high, std::size_t i, glm::vec3 flat, bool atEnd) {
        constexpr float kRound = 0.906f;  // cos 25°
        const std::size_t n = low.polygon.size();
        const glm::vec3 other = facet(low, high, atEnd ? (i + 1) % n : (i + n - 1) % n);
        return glm::dot(flat, other) > kRound ? glm::normalize(flat + other) : flat;
    }

    std::uint32_t next() const { return static_cast<std::uint32_t>(mesh_.vertices.size()); }
    void add(glm::vec3 place, glm::vec3 normal) { mesh_.vertices.push_back({place, normal, colour_, 0}); }
    void triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
        mesh_.indices.insert(mesh_.indices.end(), {a, b, c});
    }

    TriangleMesh& mesh_;
    std::uint32_t colour_;
};

// As inset, but with as many corners as before: corners move along their bisector, never past the middle.
Polygon drawnIn(const Polygon& polygon, float by) {
    if (by == 0) return polygon;
    const std::size_t n = polygon.size();
    Polygon result;
    for (std::size_t i = 0; i < n; ++i) {
        const glm::vec2 here = polygon[i];
        const glm::vec2 before = outwards(here - polygon[(i + n - 1) % n]);
        const glm::vec2 after = outwards(polygon[(i + 1) % n] - here);
        const glm::vec2 bisector = before + after;
        const float share = std::max(0.2f, glm::dot(bisector, bisector) / 2);
        result.push_back(here - by / share * bisector);
    }
    return result;
}

}  // namespace

Polygon convexHull(std::vector<glm::vec2> points) {
    std::sort(points.begin(), points.end(),
              [](glm::vec2 a, glm::vec2 b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
    Polygon hull;
    const auto half = [&hull](auto begin, auto end) {
        const std::size_t base = hull.size();
        for (auto p = begin; p != end; ++p) {
            while (hull.size() >= base + 2 &&
                   cross2(hull.back() - hull[hull.size() - 2], *p - hull[hull.size() - 2]) <= 1e-6f) {
                hull.pop_back();
            }
            hull.push_back(*p);
        }
        hull.pop_back();
    };
    half(points.begin(), points.end());
    half(points.rbegin(), points.rend());
    return hull;
}

Polygon rectangle(glm::vec2 low, glm::vec2 high) {
    return {low, {high.x, low.y}, high, {low.x, high.y}};
}

Polygon regular(int corners, float radius, float start) {
    Polygon polygon;
    for (int i = 0; i < corners; ++i) {
        const float angle = start + 6.2831853f * static_cast<float>(i) / static_cast<float>(corners);
        polygon.push_back(radius * glm::vec2(std::cos(angle), std::sin(angle)));
    }
    return polygon;
}

Polygon inset(const Polygon& polygon, float by) {
    // Cut the polygon by every edge moved in (Sutherland and Hodgman's clipping, against half-planes).
    Polygon rest = polygon;
    for (std::size_t i = 0; i < polygon.size() && !rest.empty(); ++i) {
        const glm::vec2 out = outwards(polygon[(i + 1) % polygon.size()] - polygon[i]);
        const float limit = glm::dot(out, polygon[i]) - by;
        Polygon kept;
        for (std::size_t k = 0; k < rest.size(); ++k) {
            const glm::vec2 a = rest[k], b = rest[(k + 1) % rest.size()];
            const float da = glm::dot(out, a) - limit, db = glm::dot(out, b) - limit;
            if (da <= 0) kept.push_back(a);
            if ((da < 0 && db > 0) || (da > 0 && db < 0)) kept.push_back(a + da / (da - db) * (b - a));
        }
        rest = std::move(kept);
    }
    return rest.size() < 3 ? Polygon{} : rest;
}

TriangleMesh prism(const Prism& shape, std::uint32_t colour) {
    TriangleMesh mesh;
    if (shape.polygon.size() < 3 || shape.high <= shape.low) return mesh;
    const float bevel = std::min(shape.bevel, 0.45f * (shape.high - shape.low));
    const Polygon foot = drawnIn(shape.polygon, shape.draft);
    std::vector<Level> levels;
    if (bevel > 0) levels.push_back({drawnIn(foot, bevel), shape.low});
    levels.push_back({foot, shape.low + bevel});
    levels.push_back({shape.polygon, shape.high - bevel});
    if (bevel > 0) levels.push_back({drawnIn(shape.polygon, bevel), shape.high});
    PrismBuilder builder(mesh, colour);
    builder.cap(levels.front(), -1);
    for (std::size_t i = 0; i + 1 < levels.size(); ++i) builder.side(levels[i], levels[i + 1]);
    builder.cap(levels.back(), 1);
    return mesh;
}

TriangleMesh box(glm::vec3 low, glm::vec3 high, float bevel, std::uint32_t colour) {
    bevel = std::min({bevel, 0.3f * (high.x - low.x), 0.3f * (high.y - low.y)});
    Polygon cornered;
    const glm::vec2 a(low), c(high);
    if (bevel <= 0) {
        cornered = rectangle(a, c);
    } else {
        cornered = {{a.x + bevel, a.y}, {c.x - bevel, a.y}, {c.x, a.y + bevel}, {c.x, c.y - bevel},
                    {c.x - bevel, c.y}, {a.x + bevel, c.y}, {a.x, c.y - bevel}, {a.x, a.y + bevel}};
    }
    return prism({cornered, low.z, high.z, bevel}, colour);
}

void shadeTowards(TriangleMesh& mesh, float at, float reach, float most) {
    for (Vertex& v : mesh.vertices) {
        const float share = std::clamp(1 - (v.place.x - at) / reach, 0.0f, 1.0f);
        v.along = std::max(v.along, most * share);
    }
}

}  // namespace firstoff::gui
